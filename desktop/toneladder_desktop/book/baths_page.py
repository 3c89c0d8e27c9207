"""The ledger of baths, and beside it the strips of the chosen one, or the form of a bath."""

from PySide6.QtCore import Qt, Signal, SignalInstance
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QPushButton,
    QScrollArea,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from toneladder.book.values import Bath
from toneladder.quantities import Manner
from toneladder.wording import say
from toneladder_desktop.book.asked import BathLine, Baths, KeepBath, Strips
from toneladder_desktop.book.bath_form import BLANK, BathForm
from toneladder_desktop.book.ledger import Ledger
from toneladder_desktop.book.rows import bath_columns, bath_row, strip_columns, strip_row
from toneladder_desktop.drawing.style import APART, FAR, NEAR, WIDE, Type, font
from toneladder_desktop.fittings.label import Label

ROW_PX = 48
_SIDE_PX = 400


class BathsPage(QWidget):
    """All baths of the book, and what belongs to each.

    Signals
    -------
    strips_wanted(int)
        The strips of the bath of that number are to be shown.
    kept(KeepBath), retired(KeptBath), given(KeptBath), taking_in()
        A bath is to be kept, retired, written for a colleague; or one is to be taken in.
    strip_taken(int, int)
        The open plate shall stand on the strip: numbers of bath and strip.
    left()
        Nobody wants the page any more.
    """

    strips_wanted = Signal(int)
    kept = Signal(object)
    retired = Signal(object)
    given = Signal(object)
    taking_in = Signal()
    strip_taken = Signal(int, int)
    left = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._lines: dict[object, BathLine] = {}
        self._manner = Manner()
        self._changing: int | None = None
        self.ledger = Ledger(say("Baths"), bath_columns(), ROW_PX, self)
        self.strips = Ledger(say("Strips of the bath"), strip_columns(), ROW_PX, self)
        self.form = BathForm(self)
        self.side = QStackedWidget(self)
        self.empty, self.head, self.no_strips = Label(self), Label(self), Label(self)
        self.new = QPushButton(say("New bath"), self)
        self.change = QPushButton(say("Change"), self)
        self.retire = QPushButton(say("Retire …"), self)
        self.give = QPushButton(say("Give to a colleague …"), self)
        self.take_in = QPushButton(say("Take in …"), self)
        self.back = QPushButton(say("Back to the bench"), self)
        self.take_strip = QPushButton(say("Plan by this strip"), self)
        self._join()
        self._lay_out()
        self._enable()

    @property
    def filling_in(self) -> bool:
        """Whether a bath is being filled in."""
        return self.side.currentIndex() == 1

    def show_baths(self, baths: Baths, manner: Manner) -> None:
        """The baths of the book."""
        self._manner = manner
        self._lines = {line.kept.id: line for line in baths.lines}
        self.ledger.setVisible(bool(baths.lines))
        self.empty.setVisible(not baths.lines)
        self.ledger.show_rows([bath_row(line, manner) for line in baths.lines])

    def show_strips(self, strips: Strips) -> None:
        """The strips of a bath; dropped if another one is chosen by now."""
        if strips.bath_id != self.ledger.key:
            return
        self.strips.show_rows([strip_row(line, self._manner) for line in strips.lines])
        self.strips.setVisible(bool(strips.lines))
        self.no_strips.setVisible(not strips.lines)
        self._enable()

    def choose(self, bath_id: int) -> None:
        """Choose a bath."""
        self.ledger.choose(bath_id)

    def begin(self, bath: Bath, manner: Manner, number: int | None = None) -> None:
        """Fill in a new bath, or the one of that number."""
        self._changing = number
        self.form.begin(bath, manner, new=number is None)
        self.side.setCurrentIndex(1)
        self._enable()
        self.form.fields["name"].line.setFocus()

    def end(self) -> None:
        """The form is done with."""
        self.side.setCurrentIndex(0)
        self._enable()
        self.ledger.setFocus()

    def _chosen(self, key: object) -> None:
        line = self._lines.get(key)
        self.strips.show_rows(())
        self.strips.hide()
        self.no_strips.hide()
        self._enable()
        if line is None:
            self.head.setText("")
            return
        self.head.setText(say("Strips of “{name}”", name=line.kept.bath.name))
        self.strips_wanted.emit(line.kept.id)

    def _enable(self) -> None:
        """An act can be done if what it is for is chosen, and nothing is being filled in."""
        line = self._lines.get(self.ledger.key)
        free = line is not None and not self.filling_in
        self.change.setEnabled(free)
        self.give.setEnabled(free)
        self.retire.setEnabled(line is not None and free and not line.kept.bath.retired_on)
        self.take_strip.setEnabled(free and self.strips.key is not None)
        self.new.setEnabled(not self.filling_in)

    def _change(self, _key: object = None) -> None:
        line = self._lines.get(self.ledger.key)
        if line is not None:
            self.begin(line.kept.bath, self._manner, line.kept.id)

    def _with_bath(self, act: SignalInstance) -> None:
        line = self._lines.get(self.ledger.key)
        if line is not None:
            act.emit(line.kept)

    def _take_strip(self, _key: object = None) -> None:
        bath, strip = self.ledger.key, self.strips.key
        if isinstance(bath, int) and isinstance(strip, int):
            self.strip_taken.emit(bath, strip)

    def _join(self) -> None:
        self.ledger.chosen.connect(self._chosen)
        self.ledger.opened.connect(self._change)
        self.strips.opened.connect(self._take_strip)
        self.form.kept.connect(lambda bath: self.kept.emit(KeepBath(bath, self._changing)))
        self.form.left.connect(self.end)
        self.new.clicked.connect(lambda: self.begin(BLANK, self._manner))
        self.change.clicked.connect(self._change)
        self.retire.clicked.connect(lambda: self._with_bath(self.retired))
        self.give.clicked.connect(lambda: self._with_bath(self.given))
        self.take_in.clicked.connect(self.taking_in)
        self.take_strip.clicked.connect(self._take_strip)
        self.back.clicked.connect(self.left)

    def _lay_out(self) -> None:
        self.empty.setText(
            say(
                "No bath was kept yet. Begin one for each tank: its strips are kept with it, and"
                " every plate of that bath can stand on them."
            )
        )
        self.no_strips.setText(
            say("This bath has no strip yet. Read one: what a plate stands on is kept here.")
        )
        for label in (self.empty, self.no_strips):
            label.setWordWrap(True)
            label.setAlignment(Qt.AlignmentFlag.AlignCenter)
            label.setFont(font(Type.CAPTION))
            label.setObjectName("pencil")
            label.hide()
        self.head.setFont(font(Type.HEAD))
        self.take_strip.setProperty("act", True)
        strips = QWidget(self.side)
        right = QVBoxLayout(strips)
        right.setContentsMargins(0, 0, 0, 0)
        right.setSpacing(NEAR)
        right.addWidget(self.head)
        right.addWidget(self.strips, 1)
        right.addWidget(self.no_strips, 1)
        self.side.addWidget(strips)
        self.side.addWidget(_scrolled(self.form))
        self.side.setFixedWidth(_SIDE_PX)
        body = QHBoxLayout()
        body.setContentsMargins(APART, 0, FAR, 0)
        body.setSpacing(WIDE)
        body.addWidget(self.ledger, 1)
        body.addWidget(self.empty, 1)
        body.addWidget(self.side)
        foot = QHBoxLayout()
        foot.setContentsMargins(FAR, NEAR, FAR, APART)
        foot.setSpacing(NEAR)
        for button in (self.new, self.change, self.retire, self.give, self.take_in):
            foot.addWidget(button)
        foot.addStretch(1)
        for button in (self.back, self.take_strip):
            foot.addWidget(button)
        for button in self.findChildren(QPushButton):
            button.setProperty("large", button.parent() is self)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(0, NEAR, 0, 0)
        rows.setSpacing(0)
        rows.addLayout(body, 1)
        rows.addLayout(foot)


def _scrolled(part: QWidget) -> QScrollArea:
    area = QScrollArea()
    area.setWidget(part)
    area.setWidgetResizable(True)
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    return area
