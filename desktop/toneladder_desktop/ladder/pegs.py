"""Each peg as a slider that a screen reader and the keyboard find where it is seen."""

from PySide6.QtCore import QObject, QRect, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QPaintEvent
from PySide6.QtWidgets import QSlider, QWidget

from toneladder.quantities import Manner
from toneladder_desktop.ladder.content import Content, Peg
from toneladder_desktop.ladder.layout import Layout
from toneladder_desktop.ladder.moving import limits_of, reading_of
from toneladder_desktop.ladder.words import described, name_of


class Pegs(QObject):
    """The sliders of one ladder; only the chosen one is a stop for Tab.

    ``wanted(Peg, int)`` says that somebody set a peg's value without the ladder's keys,
    ``reached(Peg)`` that a peg has got the keys, ``left()`` that one has lost them.
    """

    wanted = Signal(object, int)
    reached = Signal(object)
    left = Signal()

    def __init__(self, ladder: QWidget) -> None:
        super().__init__(ladder)
        self._ladder = ladder
        self._sliders: dict[Peg, PegSlider] = {}

    def __getitem__(self, peg: Peg) -> "PegSlider":
        return self._sliders[peg]

    def show(self, content: Content, layout: Layout, chosen: Peg, manner: Manner) -> None:
        """One slider for each peg of ``content``, the others hidden."""
        wanted = content.pegs()
        for peg in wanted:
            if peg not in self._sliders:
                self._sliders[peg] = self._slider(peg)
            self._sliders[peg].show_at(content, layout, manner)
        for peg, slider in self._sliders.items():
            slider.setVisible(peg in wanted)
        self.choose(chosen)

    def choose(self, chosen: Peg) -> None:
        """Make one peg the ladder's stop for Tab."""
        for peg, slider in self._sliders.items():
            stop = Qt.FocusPolicy.StrongFocus if peg == chosen else Qt.FocusPolicy.NoFocus
            slider.setFocusPolicy(stop)
        self._ladder.setFocusProxy(self._sliders[chosen])

    def clear(self) -> None:
        """No pegs."""
        for slider in self._sliders.values():
            slider.hide()

    def focused(self) -> Peg | None:
        """The peg that has the keys."""
        return next((peg for peg, slider in self._sliders.items() if slider.hasFocus()), None)

    def _slider(self, peg: Peg) -> "PegSlider":
        slider = PegSlider(peg, self._ladder)
        slider.valueChanged.connect(lambda reading: self.wanted.emit(peg, reading))
        slider.reached.connect(lambda: self.reached.emit(peg))
        slider.left.connect(self.left)
        return slider


class PegSlider(QSlider):
    """One peg: role, name, value and focus; the ladder paints it and reads its keys and mouse.

    Its value is what is spoken: seconds of total bite, or hundredths of printed darkness.
    """

    reached = Signal()
    left = Signal()

    def __init__(self, peg: Peg, parent: QWidget) -> None:
        super().__init__(Qt.Orientation.Vertical, parent)
        self.peg = peg
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setAccessibleName(name_of(peg))

    def show_at(self, content: Content, layout: Layout, manner: Manner) -> None:
        """Stand where the peg stands, with its limits, its value and its description."""
        limits, hit = limits_of(content, self.peg), layout.place(self.peg).hit
        self.blockSignals(True)
        self.setRange(limits.least, limits.most)
        self.setValue(reading_of(content, self.peg))
        self.blockSignals(False)
        self.setAccessibleDescription(described(content, self.peg, manner))
        self.setGeometry(QRect(round(hit.x), round(hit.y), round(hit.width), round(hit.height)))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Nothing: the ladder draws its pegs itself, below and beyond this rectangle."""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Leave every key to the ladder."""
        event.ignore()

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Tell the ladder which peg the keys move now."""
        super().focusInEvent(event)
        self.reached.emit()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Tell the ladder that the keys have gone elsewhere."""
        super().focusOutEvent(event)
        self.left.emit()
