"""A plate's record: picture, facts, bites, proofs; its prints, and what an edition needs."""

from datetime import datetime

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QImage, QPixmap
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from toneladder.book.record import PlateRecord
from toneladder.book.values import KeptPull
from toneladder.order.edition import Edition
from toneladder.quantities import Manner
from toneladder.sheets.record_sheet import Told
from toneladder.sheets.record_words import (
    Table,
    bites_tables,
    facts,
    prints_counted,
    proofs_table,
    stay_notes,
)
from toneladder.wording import say
from toneladder_desktop.book.asked import KeepPull
from toneladder_desktop.book.edition_form import EditionForm
from toneladder_desktop.book.ledger import Ledger
from toneladder_desktop.book.pull_form import PullForm, next_pull
from toneladder_desktop.book.rows import pull_columns, pull_row, table_columns, table_rows
from toneladder_desktop.book.telling import RecordRead
from toneladder_desktop.drawing.style import APART, FAR, NEAR, TIGHT, WIDE, Type, font
from toneladder_desktop.fittings.label import Label

_PICTURE_PX = 260
_SIDE_PX = 380
_ROW_PX, _PULL_PX = 30, 44
_PULLS_HIGH_PX = 156


class RecordPage(QWidget):
    """The record of one plate.

    Signals
    -------
    pull_kept(KeepPull), pull_removed(KeptPull)
        A print is to be noted, or not any more.
    sheet_wanted(Told), opened(str)
        The record is wanted on paper; the plate's file is to be opened.
    left()
        Back to the ledger.
    """

    pull_kept = Signal(object)
    pull_removed = Signal(object)
    sheet_wanted = Signal(object)
    opened = Signal(str)
    left = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._told: Told | None = None
        self._pulls: dict[object, KeptPull] = {}
        self._changing: int | None = None
        self.picture, self.facts = Label(self), QGridLayout()
        self.tables = QVBoxLayout()
        self.pulls = Ledger(say("Prints"), pull_columns(), _PULL_PX, self)
        self.no_pulls, self.counted = Label(self), Label(self)
        self.form, self.edition = PullForm(self), EditionForm(self)
        self.note = QPushButton(say("Note a print"), self)
        self.change = QPushButton(say("Change"), self)
        self.remove = QPushButton(say("Remove …"), self)
        self.back = QPushButton(say("Back to the book"), self)
        self.sheet = QPushButton(say("Record sheet as a PDF …"), self)
        self.open = QPushButton(say("Open the plate"), self)
        self._join()
        self._lay_out()

    @property
    def identity(self) -> str:
        """The plate's identity; empty before any was shown."""
        return "" if self._told is None else self._told.record.kept.plate.identity

    def show_record(self, read: RecordRead, manner: Manner) -> None:
        """The record of a plate; what was being filled in for the same plate stays."""
        record, same = read.told.record, read.told.record.kept.plate.identity == self.identity
        self._told = read.told
        self._show_picture(read.picture)
        self._show_facts(facts(record, read.told.plate, manner))
        self._show_tables(record, read.told, manner)
        self._show_pulls(record)
        if not same:
            self.end()
            self._show_edition(read.told, manner)
        self.open.setEnabled(read.told.plate is not None)

    def begin(self, kept: KeptPull | None) -> None:
        """Fill in a new print, or one that is noted already."""
        last = list(self._pulls.values())[-1].pull if self._pulls else None
        today = datetime.now().astimezone().date().isoformat()
        self._changing = None if kept is None else kept.id
        self.edition.hide()
        self.form.show()
        self.form.begin(kept.pull if kept else next_pull(last, today), new=kept is None)

    @property
    def filling_in(self) -> bool:
        """Whether a print is being filled in."""
        return not self.form.isHidden()

    def end(self) -> None:
        """The form is done with."""
        self.form.hide()
        told = self._told
        self.edition.setVisible(told is not None and told.plate is not None)

    def _show_edition(self, told: Told, manner: Manner) -> None:
        if told.plate is None:
            self.edition.show_plate(None, Edition(), manner)
            return
        margin = told.plate.printing.margin_mm or Edition().margin_mm
        self.edition.show_plate(told.plate.size, Edition(margin_mm=margin), manner)

    def _show_picture(self, image: QImage) -> None:
        ratio = self.devicePixelRatioF()
        if image.isNull():
            self.picture.setText(say("no picture"))
            return
        shown = QPixmap.fromImage(image).scaled(
            QSize(round(_PICTURE_PX * ratio), round(_PICTURE_PX * ratio)),
            Qt.AspectRatioMode.KeepAspectRatio,
            Qt.TransformationMode.SmoothTransformation,
        )
        shown.setDevicePixelRatio(ratio)
        self.picture.setPixmap(shown)

    def _show_facts(self, known: tuple[tuple[str, str], ...]) -> None:
        _emptied(self.facts)
        for row, (name, value) in enumerate(known):
            left, right = Label(name, self), Label(value, self)
            left.setFont(font(Type.SMALL))
            left.setObjectName("pencil")
            right.setFont(font(Type.STRONG))
            right.setWordWrap(True)
            self.facts.addWidget(left, row, 0, Qt.AlignmentFlag.AlignTop)
            self.facts.addWidget(right, row, 1)
        self.facts.setColumnStretch(1, 1)

    def _show_tables(self, record: PlateRecord, told: Told, manner: Manner) -> None:
        _emptied(self.tables)
        for table in bites_tables(record, told.order, manner):
            self._add_table(table)
        for sentence in stay_notes(record):
            self.tables.addWidget(self._said(sentence))
        self._add_table(proofs_table(record, manner))
        self.tables.addStretch(1)

    def _add_table(self, table: Table) -> None:
        if self.tables.count():
            self.tables.addSpacing(FAR)
        head = Label(table.name, self)
        head.setFont(font(Type.HEAD))
        self.tables.addWidget(head)
        if not table.rows:
            self.tables.addWidget(self._said(table.empty))
            return
        ledger = Ledger(table.name, table_columns(table), _ROW_PX, self, to_choose=False)
        ledger.show_rows(table_rows(table))
        ledger.fit_rows()
        self.tables.addWidget(ledger)

    def _said(self, sentence: str) -> QLabel:
        label = Label(sentence, self)
        label.setWordWrap(True)
        label.setObjectName("pencil")
        return label

    def _show_pulls(self, record: PlateRecord) -> None:
        self._pulls = {kept.id: kept for kept in record.pulls}
        self.pulls.show_rows([pull_row(kept) for kept in record.pulls])
        some = bool(record.pulls)
        self.pulls.setVisible(some)
        self.no_pulls.setVisible(not some)
        self.counted.setText(prints_counted([kept.pull for kept in record.pulls]))
        self.counted.setVisible(some)
        for button in (self.change, self.remove):
            button.setEnabled(some)

    def _chosen_pull(self) -> KeptPull | None:
        return self._pulls.get(self.pulls.key)

    def _change(self, _key: object = None) -> None:
        kept = self._chosen_pull()
        if kept is not None:
            self.begin(kept)

    def _remove(self, _key: object = None) -> None:
        kept = self._chosen_pull()
        if kept is not None:
            self.pull_removed.emit(kept)

    def _keep(self, pull: object) -> None:
        self.pull_kept.emit(KeepPull(self.identity, pull, self._changing))  # type: ignore[arg-type] # the form's own

    def _open(self) -> None:
        if self._told is not None:
            self.opened.emit(self._told.record.kept.plate.path)

    def _sheet(self) -> None:
        if self._told is not None:
            self.sheet_wanted.emit(self._told)

    def _join(self) -> None:
        self.note.clicked.connect(lambda: self.begin(None))
        self.change.clicked.connect(self._change)
        self.remove.clicked.connect(self._remove)
        self.pulls.opened.connect(self._change)
        self.pulls.removed.connect(self._remove)
        self.form.kept.connect(self._keep)
        self.form.left.connect(self.end)
        self.back.clicked.connect(self.left)
        self.open.clicked.connect(self._open)
        self.sheet.clicked.connect(self._sheet)

    def _lay_out(self) -> None:
        self.no_pulls.setText(say("No print is noted yet. Note every pull, the proofs too."))
        self.no_pulls.setWordWrap(True)
        for label in (self.no_pulls, self.counted):
            label.setObjectName("pencil")
        self.pulls.setFixedHeight(_PULLS_HIGH_PX)
        self.picture.setAccessibleName(say("The print"))
        self.form.hide()
        self.open.setProperty("act", True)
        body = QHBoxLayout()
        body.setContentsMargins(FAR, NEAR, 0, 0)
        body.setSpacing(WIDE)
        body.addLayout(self._about())
        body.addWidget(_scrolled(_as_widget(self.tables)), 1)
        body.addWidget(_scrolled(self._prints()))
        foot = QHBoxLayout()
        foot.setContentsMargins(FAR, NEAR, FAR, APART)
        foot.setSpacing(NEAR)
        foot.addWidget(self.sheet)
        foot.addStretch(1)
        foot.addWidget(self.back)
        foot.addWidget(self.open)
        for button in (self.sheet, self.back, self.open):
            button.setProperty("large", True)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.setSpacing(0)
        rows.addLayout(body, 1)
        rows.addLayout(foot)

    def _about(self) -> QVBoxLayout:
        self.facts.setHorizontalSpacing(APART)
        self.facts.setVerticalSpacing(TIGHT)
        about = QVBoxLayout()
        about.setSpacing(APART)
        about.addWidget(self.picture)
        facts_there = _as_widget(self.facts)
        facts_there.setFixedWidth(_PICTURE_PX)
        about.addWidget(facts_there)
        about.addStretch(1)
        return about

    def _prints(self) -> QWidget:
        head = Label(say("Prints"), self)
        head.setFont(font(Type.HEAD))
        acts = QHBoxLayout()
        acts.setSpacing(NEAR)
        for button in (self.note, self.change, self.remove):
            acts.addWidget(button, 1)
        prints = QVBoxLayout()
        prints.setSpacing(NEAR)
        for part in (head, self.pulls, self.no_pulls, self.counted):
            prints.addWidget(part)
        prints.addLayout(acts)
        prints.addSpacing(APART)
        prints.addWidget(self.form)
        prints.addWidget(self.edition)
        prints.addStretch(1)
        side = _as_widget(prints)
        side.setFixedWidth(_SIDE_PX)
        return side


def _as_widget(layout: QGridLayout | QVBoxLayout) -> QWidget:
    widget = QWidget()
    layout.setContentsMargins(0, 0, 0, 0)
    widget.setLayout(layout)
    widget.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
    return widget


def _scrolled(part: QWidget) -> QScrollArea:
    area = QScrollArea()
    area.setWidget(part)
    area.setWidgetResizable(True)
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    if part.maximumWidth() == part.minimumWidth():
        area.setFixedWidth(part.maximumWidth() + FAR)
    return area


def _emptied(layout: QGridLayout | QVBoxLayout) -> None:
    while layout.count():
        item = layout.takeAt(0)
        widget = None if item is None else item.widget()
        if widget is not None:
            widget.hide()
            widget.deleteLater()
