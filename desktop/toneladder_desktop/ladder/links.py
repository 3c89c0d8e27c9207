"""The ladder's few words that can be pressed: let go, make one, hide the key."""

from PySide6.QtCore import QObject, QRect, Qt, Signal
from PySide6.QtWidgets import QPushButton, QWidget

from toneladder.wording import say
from toneladder_desktop.drawing.ruling import width_of
from toneladder_desktop.drawing.style import Type, font
from toneladder_desktop.ladder.content import Content
from toneladder_desktop.ladder.layout import Layout
from toneladder_desktop.ladder.read_out import Picked, alike_of, told_of
from toneladder_desktop.ladder.rungs import words_of_sign
from toneladder_desktop.ladder.words import letting_all_go

_HIGH = 24


class Links(QObject):
    """The links of one ladder; keys do the same, so none of them is a stop for Tab.

    ``all_go`` and ``key`` are buttons; ``make_one()`` says that a pair shall be one tone.
    """

    make_one = Signal()

    def __init__(self, ladder: QWidget) -> None:
        super().__init__(ladder)
        self._ladder = ladder
        self.all_go, self.key = _link(ladder, Type.TEXT), _link(ladder, Type.SMALL)
        self.key.setText(say("hide"))
        self.key.setAccessibleName(say("Hide the explanation of the ladder"))
        self.ones: list[QPushButton] = []

    def place(self, content: Content, layout: Layout, picked: Picked) -> None:
        """Stand where there is something to press; while a peg moves there is nothing."""
        words, end = letting_all_go(content), layout.columns.end
        self.all_go.setText(words)
        self._stand(self.all_go, end - width_of(words, Type.TEXT), 15.0, shown=bool(words))
        y = layout.foot.y + 13.0 + 17.0
        self._stand(self.key, end - width_of(self.key.text(), Type.SMALL), y, shown=picked.only_key)
        self._place_remedies(content, layout, picked)

    def _place_remedies(self, content: Content, layout: Layout, picked: Picked) -> None:
        """In every sign with words; else at the foot, for the pair that is picked out."""
        wordy = [sign for sign in layout.signs if sign.wordy and picked.in_hand is None]
        places = [(s.lighter, words_of_sign(s.box).link_x, s.box.middle) for s in wordy]
        lighter = alike_of(content, told_of(picked))
        if lighter is not None and not places:
            left = layout.columns.end - width_of(say("make one"), Type.SMALL)
            places.append((lighter, left, layout.foot.y + 13.0 + 19.0 + 34.0))
        while len(self.ones) < len(places):
            button = _link(self._ladder, Type.SMALL)
            button.setText(say("make one"))
            button.clicked.connect(self.make_one)
            self.ones.append(button)
        for button, (a, left, middle) in zip(self.ones, places, strict=False):
            button.setAccessibleName(say("Make tones {a} and {b} one", a=a, b=a + 1))
            self._stand(button, left, middle, shown=True)
        for button in self.ones[len(places) :]:
            button.hide()

    def clear(self) -> None:
        """Nothing to press."""
        for button in (self.all_go, self.key, *self.ones):
            button.hide()

    def _stand(self, button: QPushButton, left: float, middle: float, *, shown: bool) -> None:
        if shown:
            size = button.font().pixelSize()
            kind = Type.SMALL if size == Type.SMALL.value[1] else Type.TEXT
            width = round(width_of(button.text(), kind)) + 2
            button.setGeometry(QRect(round(left), round(middle) - _HIGH // 2, width, _HIGH))
        button.setVisible(shown)


def _link(parent: QWidget, kind: Type) -> QPushButton:
    button = QPushButton(parent)
    button.setProperty("link", True)
    button.setFlat(True)
    button.setFont(font(kind))
    button.setCursor(Qt.CursorShape.PointingHandCursor)
    button.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    button.hide()
    return button
