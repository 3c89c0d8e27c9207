"""The strip's page: scan or table, what is known of it, the curve that it leads to."""

from PySide6.QtCore import Qt, Signal, SignalInstance
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QPushButton,
    QScrollArea,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from toneladder.quantities import Manner
from toneladder.wording import say, say_number
from toneladder_desktop.curve.content import Content
from toneladder_desktop.curve.view import CurveView
from toneladder_desktop.drawing.style import APART, CARD, TIGHT, Type, font
from toneladder_desktop.fittings.cell_line import CellLine
from toneladder_desktop.fittings.label import Label
from toneladder_desktop.fittings.scan_page import ScanPage
from toneladder_desktop.strip.conditions import Conditions
from toneladder_desktop.strip.draft import Draft, open_rows
from toneladder_desktop.strip.scan_board import ScanBoard
from toneladder_desktop.strip.table import ReadingsTable

_SCROLLBAR = 14


class StripView(ScanPage):
    """The whole page; it holds a draft and changes nothing outside itself.

    Signals
    -------
    drafted(Draft)
        The draft is another one.
    scan_wanted(), strip_wanted()
        A scan, or a kept strip, is to be chosen and opened.
    reread(corners)
        The strip on the open scan lies between these corners.
    save_wanted(Strip), taken(Strip)
        The strip is to be kept as a file; the plate shall stand on it.
    """

    drafted = Signal(object)
    scan_wanted = Signal()
    strip_wanted = Signal()
    reread = Signal(object)
    save_wanted = Signal(object)
    taken = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(say("Test strip"), parent)
        self._draft: Draft | None = None
        self._content: Content | None = None
        self._remarks: tuple[str, ...] = ()
        self._unfitted = False
        self._manner = Manner()
        self.conditions = Conditions(self)
        self.board, self.table = ScanBoard(self), ReadingsTable(self)
        self.cell = CellLine(self.table, self)
        self.curve = CurveView(self)
        self.remarks, self.state = Label(self), Label(self)
        self.scan = QPushButton(say("Open a scan …"), self)
        self.kept = QPushButton(say("Open a kept strip …"), self)
        self.save = QPushButton(say("Keep the strip …"), self)
        self.leave = QPushButton(say("Leave as it was"), self)
        self.take = QPushButton(say("Plan by this strip"), self)
        self._join()
        self._lay_out()

    @property
    def draft(self) -> Draft | None:
        """What is on the page."""
        return self._draft

    def show_draft(self, draft: Draft, manner: Manner) -> None:
        """Another draft; the curve stays until it is fitted anew."""
        self._draft, self._manner = draft, manner
        self._show()

    def show_curve(self, content: Content | None, remarks: tuple[str, ...]) -> None:
        """The curve that the draft leads to, or none."""
        self._content, self._remarks, self._unfitted = content, remarks, False
        self.curve.show_content(content, self._manner)
        self._show()

    def show_unfitted(self) -> None:
        """No curve can be fitted to the draft: what is drawn is that of an earlier one."""
        self._unfitted = True
        self._show()

    def showEvent(self, event: QShowEvent) -> None:
        """The keys come to the table, where a reading is wanted."""
        super().showEvent(event)
        self.table.setFocus(Qt.FocusReason.OtherFocusReason)

    def _show(self) -> None:
        draft = self._draft
        if draft is None:
            return
        told, strip = draft.told(), draft.strip()
        outdated = strip is None or self._unfitted
        self.curve.show_outdated(outdated=outdated)
        self.remarks.setText("" if outdated else "\n".join(self._remarks))
        readings = () if self._content is None or outdated else self._content.readings
        self.table.show_draft(draft, told, [one for one in readings if one.newest], self._manner)
        self.conditions.show_draft(draft, self._manner)
        self.subtitle.setText(_subtitle(draft))
        self.take.setEnabled(strip is not None)
        self.save.setEnabled(strip is not None)
        self.state.setText(_state(draft, faults=sum(bool(row.fault) for row in told)))

    def _typed(self, row: int, column: int, text: str) -> None:
        if self._draft is not None:
            self._to(self._draft.with_cell(row, column, text))

    def _pasted(self, text: str, row: int, column: int) -> None:
        if self._draft is not None and text.strip():
            self._to(self._draft.pasted(text, row, column))

    def _removed(self, row: int) -> None:
        if self._draft is not None:
            self._to(self._draft.without(row))

    def _to(self, draft: Draft) -> None:
        if draft != self._draft:
            self._draft = draft
            self._show()
            self.drafted.emit(draft)

    def _with_strip(self, act: SignalInstance) -> None:
        strip = None if self._draft is None else self._draft.strip()
        if strip is not None:
            act.emit(strip)

    def _join(self) -> None:
        self.table.typed.connect(self._typed)
        self.table.pasted.connect(self._pasted)
        self.table.removed.connect(self._removed)
        self.conditions.changed.connect(self._to)
        self.board.moved.connect(self.reread)
        self.scan.clicked.connect(self.scan_wanted)
        self.kept.clicked.connect(self.strip_wanted)
        self.save.clicked.connect(lambda: self._with_strip(self.save_wanted))
        self.take.clicked.connect(lambda: self._with_strip(self.taken))
        self.leave.clicked.connect(self.left)

    def _lay_out(self) -> None:
        for label in (self.subtitle, self.remarks, self.state):
            label.setFont(font(Type.SMALL))
            label.setWordWrap(True)
            label.setObjectName("pencil")
        readings = QSplitter(Qt.Orientation.Vertical, self)
        readings.addWidget(self.board)
        readings.addWidget(self._with_line())
        readings.setStretchFactor(0, 2)
        readings.setStretchFactor(1, 3)
        readings.setChildrenCollapsible(False)
        right = QVBoxLayout()
        right.setContentsMargins(APART, 0, APART, 0)
        right.setSpacing(TIGHT)
        right.addWidget(self.curve, 1)
        right.addWidget(self.remarks)
        body = QHBoxLayout()
        body.setSpacing(0)
        body.addWidget(_scrolled(self.conditions))
        body.addWidget(readings, 5)
        body.addLayout(right, 5)
        self.arrange(body, (self.scan, self.kept, self.save, self.state), (self.leave, self.take))

    def _with_line(self) -> QWidget:
        part = QWidget(self)
        rows = QVBoxLayout(part)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.setSpacing(0)
        rows.addWidget(self.table, 1)
        rows.addWidget(self.cell)
        return part


def _scrolled(part: QWidget) -> QScrollArea:
    area = QScrollArea()
    area.setWidget(part)
    area.setWidgetResizable(True)
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    area.setFixedWidth(CARD + _SCROLLBAR)
    return area


def _subtitle(draft: Draft) -> str:
    one = draft.conditions
    return say(
        "{metal} in {mordant} · {grain}, {fineness} grain",
        metal=say(one.metal.value),
        mordant=say(one.mordant.value),
        grain=say(one.grain.value),
        fineness=say(one.fineness.value),
    )


def _state(draft: Draft, *, faults: int) -> str:
    if faults:
        return say_number(
            "One row cannot be read; it is marked, and stays as typed.",
            "{n} rows cannot be read; they are marked, and stay as typed.",
            faults,
        )
    missing = sum(1 for _ in open_rows(draft))
    if missing:
        return say_number(
            "One patch without a reading: it is left out.",
            "{n} patches without a reading: they are left out.",
            missing,
        )
    return ""
