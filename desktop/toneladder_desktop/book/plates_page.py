"""The ledger of plates: searched, opened, forgotten."""

from datetime import UTC, datetime

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton, QVBoxLayout, QWidget

from toneladder.quantities import Manner
from toneladder.sheets.record_words import written_day
from toneladder.wording import say, say_number
from toneladder_desktop.book.asked import PIECE, ListPlates, PlateLine, Plates
from toneladder_desktop.book.ledger import Ledger
from toneladder_desktop.book.rows import plate_columns, plate_row
from toneladder_desktop.drawing.style import APART, FAR, NEAR, Type, font
from toneladder_desktop.fittings.label import Label

ROW_PX = 60
PAUSE_MS = 150
"""Typing must have rested so long before the book is searched."""


class PlatesPage(QWidget):
    """All plates of the book, the last saved first.

    Signals
    -------
    wanted(ListPlates)
        Other plates are looked for.
    opened(str), record_wanted(str)
        The plate's file, or its record, is to be opened: by its path, by its identity.
    forgotten(PlateLine), left()
        The plate shall be out of the list; or nobody wants the page any more.
    """

    wanted = Signal(object)
    opened = Signal(str)
    record_wanted = Signal(str)
    forgotten = Signal(object)
    left = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._lines: dict[object, PlateLine] = {}
        self._most = PIECE
        self.search = QLineEdit(self)
        self.search.setAccessibleName(say("Search the plates"))
        self.search.setPlaceholderText(say("Search title, metal, bath, ink, paper, prints"))
        self.search.setClearButtonEnabled(True)
        self.ledger = Ledger(say("Plates"), plate_columns(), ROW_PX, self)
        self.empty, self.count = Label(self), Label(self)
        self.more = QPushButton(say("Show more"), self)
        self.forget = QPushButton(say("Forget the plate …"), self)
        self.record = QPushButton(say("Its record"), self)
        self.back = QPushButton(say("Back to the bench"), self)
        self.open = QPushButton(say("Open the plate"), self)
        self._pause = QTimer(self, singleShot=True, interval=PAUSE_MS)
        self._pause.timeout.connect(self.ask)
        self._join()
        self._lay_out()
        self._enable()

    def ask(self) -> None:
        """Ask for the plates that are looked for."""
        self.wanted.emit(ListPlates(self.search.text(), self._most))

    def show_plates(self, plates: Plates, manner: Manner) -> None:
        """What was found."""
        self._lines = {line.kept.plate.identity: line for line in plates.lines}
        self.ledger.show_rows(
            [plate_row(line, _day(line.kept.plate.saved_utc_s), manner) for line in plates.lines]
        )
        some = bool(plates.lines)
        self.ledger.setVisible(some)
        self.empty.setVisible(not some)
        self.empty.setText(_nothing(self.search.text()))
        self.more.setVisible(plates.more)
        number = say_number("{n} plate", "{n} plates", len(plates.lines))
        self.count.setVisible(some)
        self.count.setText(say("the last {number}", number=number) if plates.more else number)
        self._enable()

    def _enable(self, _key: object = None) -> None:
        line = self._lines.get(self.ledger.key)
        self.open.setEnabled(line is not None and line.there)
        for button in (self.record, self.forget):
            button.setEnabled(line is not None)

    def _typed(self) -> None:
        self._most = PIECE
        self._pause.start()

    def _more(self) -> None:
        self._most += PIECE
        self.ask()

    def _open(self, _key: object = None) -> None:
        line = self._lines.get(self.ledger.key)
        if line is None:
            return
        if line.there:
            self.opened.emit(line.kept.plate.path)
        else:
            self.record_wanted.emit(line.kept.plate.identity)

    def _record(self) -> None:
        line = self._lines.get(self.ledger.key)
        if line is not None:
            self.record_wanted.emit(line.kept.plate.identity)

    def _forget(self, _key: object = None) -> None:
        line = self._lines.get(self.ledger.key)
        if line is not None:
            self.forgotten.emit(line)

    def _join(self) -> None:
        self.search.textChanged.connect(self._typed)
        self.search.returnPressed.connect(self.ledger.setFocus)
        self.ledger.chosen.connect(self._enable)
        self.ledger.opened.connect(self._open)
        self.ledger.removed.connect(self._forget)
        self.more.clicked.connect(self._more)
        self.forget.clicked.connect(self._forget)
        self.record.clicked.connect(self._record)
        self.open.clicked.connect(self._open)
        self.back.clicked.connect(self.left)

    def _lay_out(self) -> None:
        self.empty.setWordWrap(True)
        self.empty.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.empty.setFont(font(Type.CAPTION))
        self.empty.setObjectName("pencil")
        self.empty.hide()
        self.more.hide()
        self.count.setFont(font(Type.SMALL))
        self.count.setObjectName("pencil")
        self.open.setProperty("act", True)
        head = QHBoxLayout()
        head.setContentsMargins(FAR, NEAR, FAR, NEAR)
        head.setSpacing(NEAR)
        head.addWidget(self.search, 2)
        head.addWidget(self.count, 1)
        head.addWidget(self.more)
        foot = QHBoxLayout()
        foot.setContentsMargins(FAR, NEAR, FAR, APART)
        foot.setSpacing(NEAR)
        foot.addWidget(self.forget)
        foot.addStretch(1)
        for button in (self.back, self.record, self.open):
            foot.addWidget(button)
        for button in (self.forget, self.back, self.record, self.open):
            button.setProperty("large", True)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.setSpacing(0)
        rows.addLayout(head)
        body = QHBoxLayout()
        body.setContentsMargins(APART, 0, 0, 0)
        body.addWidget(self.ledger)
        body.addWidget(self.empty)
        rows.addLayout(body, 1)
        rows.addLayout(foot)


def _nothing(words: str) -> str:
    if words.strip():
        return say("No plate has “{words}” in it. Try fewer words.", words=words.strip())
    return say(
        "No plate was kept yet. Every plate that you save is entered here, with a small picture"
        " of its print."
    )


def _day(utc_s: float) -> str:
    return written_day(datetime.fromtimestamp(utc_s, UTC).astimezone().date().isoformat())
