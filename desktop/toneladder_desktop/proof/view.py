"""The proof's page: the scan, the map of what strayed, every tone, and what it means."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QHeaderView,
    QPushButton,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from toneladder.quantities import Manner, write_tone
from toneladder.wording import say
from toneladder_desktop.drawing.style import APART, CONTROL, TIGHT, Type, font
from toneladder_desktop.fittings.cell_line import CellLine
from toneladder_desktop.fittings.explaining import as_tip
from toneladder_desktop.fittings.label import Label
from toneladder_desktop.fittings.scan_page import ScanPage
from toneladder_desktop.proof.boards import ProofBoard, StrayedMap
from toneladder_desktop.proof.content import Content, bites_head, difference, headline

if TYPE_CHECKING:
    from toneladder_desktop.proof.work import Read

TONE, PLANNED, PRINTED, HOW, BITE = range(5)


class ProofView(ScanPage):
    """The whole page; it changes nothing outside itself.

    Signals
    -------
    scan_wanted(bool)
        A scan is to be opened; True for a second pull.
    corners_marked(corners)
        The plate lies between these corners of the scan.
    bitten(int, str)
        A tone's total bite, as somebody says it really was.
    taken()
        The bath shall learn from this proof.
    """

    scan_wanted = Signal(bool)
    corners_marked = Signal(object)
    bitten = Signal(int, str)
    taken = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(say("Proof"), parent)
        self.board, self.map = ProofBoard(self), StrayedMap(self)
        self.board.moved.connect(self.corners_marked)
        self.table = _Table(self)
        self.table.cellChanged.connect(self._changed)
        self.cell = CellLine(self.table, self)
        self.said = Label(self)
        self.scan = QPushButton(say("Open a scan …"), self)
        self.second = QPushButton(say("A second pull …"), self)
        self.corners = QPushButton(say("Mark the corners"), self)
        self.leave = QPushButton(say("Leave as it was"), self)
        self.take = QPushButton(say("Learn from this proof"), self)
        self.scan.clicked.connect(lambda: self.scan_wanted.emit(False))
        self.second.clicked.connect(lambda: self.scan_wanted.emit(True))
        self.corners.clicked.connect(self.board.mark_by_hand)
        self.take.clicked.connect(self.taken)
        self.leave.clicked.connect(self.left)
        self._lay_out()
        self.show_content(Content(()), Manner(), None)

    def show_content(self, content: Content, manner: Manner, read: "Read | None") -> None:
        """Tones, and what a proof told of them; None before one is read."""
        self.subtitle.setText(headline(content, manner))
        with QSignalBlocker(self.table):
            self.table.show_rows(content, manner)
        self.map.show_map(
            None if read is None else read.reading.map,
            () if read is None else read.reading.places,
        )
        self.said.setText("" if read is None else "\n".join(read.said[:8]))
        able = read is not None and content.bites_s() is not None
        self.take.setEnabled(able)
        self.second.setEnabled(read is not None)
        self.corners.setEnabled(not self.board.empty)

    def showEvent(self, event: QShowEvent) -> None:
        """The keys come to what is wanted first."""
        super().showEvent(event)
        self.scan.setFocus(Qt.FocusReason.OtherFocusReason)

    def _changed(self, row: int, column: int) -> None:
        item = self.table.item(row, column)
        if column == BITE and item is not None:
            self.bitten.emit(row, item.text().strip())

    def _lay_out(self) -> None:
        self.subtitle.setFont(font(Type.ANSWER))
        self.said.setFont(font(Type.SMALL))
        self.said.setWordWrap(True)
        right = QVBoxLayout()
        right.setContentsMargins(APART, 0, APART, 0)
        right.setSpacing(TIGHT)
        right.addWidget(self.table, 3)
        right.addWidget(self.cell)
        right.addWidget(self.said)
        left = QVBoxLayout()
        left.setSpacing(TIGHT)
        left.addWidget(self.board, 3)
        left.addWidget(self.map, 2)
        body = QHBoxLayout()
        body.setSpacing(0)
        body.addLayout(left, 5)
        body.addLayout(right, 6)
        self.arrange(body, (self.scan, self.second, self.corners), (self.leave, self.take))


class _Table(QTableWidget):
    """Tones as planned and as printed; only the bite that was really given is typed."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(0, 5, parent)
        self.setAccessibleName(say("Tones, as planned and as printed"))
        self.setHorizontalHeaderLabels(
            [
                say("Tone"),
                say("Planned"),
                say("Printed"),
                say("Against the plan"),
                say("Really bitten"),
            ]
        )
        self.verticalHeader().hide()
        self.verticalHeader().setDefaultSectionSize(CONTROL)
        self.setShowGrid(False)
        self.setTabKeyNavigation(False)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setEditTriggers(
            QAbstractItemView.EditTrigger.AnyKeyPressed
            | QAbstractItemView.EditTrigger.DoubleClicked
            | QAbstractItemView.EditTrigger.EditKeyPressed
        )
        head = self.horizontalHeader()
        head.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        head.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        head.setStretchLastSection(True)
        head.setMinimumSectionSize(70)

    def show_rows(self, content: Content, manner: Manner) -> None:
        """Every tone; one that was not read says so."""
        self.setRowCount(len(content.rows))
        head = self.horizontalHeaderItem(BITE)
        if head is not None:
            head.setText(bites_head(content, manner))
        for number, row in enumerate(content.rows):
            read = row.reading
            printed = "" if read is None else write_tone(read.printed_lightness, manner)
            how = "" if read is None else difference(read, manner)
            cells = (
                str(row.tone),
                write_tone(row.planned, manner),
                printed or say("not read"),
                how,
                row.bite,
            )
            fault = content.fault(number)
            for column, text in enumerate(cells):
                item = QTableWidgetItem(text)
                item.setToolTip(as_tip(fault))
                if column != BITE:
                    item.setFlags(item.flags() & ~Qt.ItemFlag.ItemIsEditable)
                elif fault:
                    item.setFont(font(Type.STRONG))
                self.setItem(number, column, item)
