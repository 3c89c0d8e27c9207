"""A ledger: rows to choose and open by mouse or keys, some with a small picture."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QPoint, QRect, QSignalBlocker, Qt
from PySide6.QtCore import Signal as QtSignal
from PySide6.QtGui import QColor, QImage, QKeyEvent, QPainter, QPixmap
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableWidget,
    QTableWidgetItem,
    QWidget,
)

from toneladder_desktop.drawing.style import NEAR, TIGHT, Type, colours_of, font
from toneladder_desktop.fittings.explaining import as_tip

_CELL = Qt.ItemDataRole.UserRole
_PICTURE_PX = (76, 48)
_RULE = 2

Index = QModelIndex | QPersistentModelIndex


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its head, and the room it takes; the one of width 0 takes what is left."""

    head: str
    width: int


@dataclass(frozen=True, slots=True, eq=False)
class Cell:
    """What stands in a cell: a line, a smaller one under it; a picture instead of both."""

    text: str = ""
    under: str = ""
    strong: bool = False
    picture: QImage | None = field(default=None, repr=False)


@dataclass(frozen=True, slots=True, eq=False)
class Row:
    """A row: what it stands for, its cells, and whether it is faint."""

    key: object
    cells: tuple[Cell, ...]
    faint: bool = False


class Ledger(QTableWidget):
    """Rows under ruled heads.

    Signals
    -------
    chosen(object)
        Another row is chosen: its key, or None.
    opened(object)
        Enter or a double click on a row: its key.
    removed(object)
        Delete on a row: its key.
    """

    chosen = QtSignal(object)
    opened = QtSignal(object)
    removed = QtSignal(object)

    def __init__(
        self,
        name: str,
        columns: Sequence[Column],
        row_px: int,
        parent: QWidget | None = None,
        *,
        to_choose: bool = True,
    ) -> None:
        super().__init__(0, len(columns), parent)
        self._to_choose = to_choose
        self._rows: tuple[Row, ...] = ()
        self.setAccessibleName(name)
        self.setHorizontalHeaderLabels([column.head for column in columns])
        self.setItemDelegate(_Delegate(self))
        self.setShowGrid(False)
        self.setTabKeyNavigation(False)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        modes = QAbstractItemView.SelectionMode
        self.setSelectionMode(modes.SingleSelection if to_choose else modes.NoSelection)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.verticalHeader().setDefaultSectionSize(row_px)
        self.verticalHeader().hide()
        head = self.horizontalHeader()
        head.setFont(font(Type.SMALL))
        head.setHighlightSections(False)
        head.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        head.setMinimumSectionSize(24)
        for number, column in enumerate(columns):
            mode = QHeaderView.ResizeMode.Fixed if column.width else QHeaderView.ResizeMode.Stretch
            head.setSectionResizeMode(number, mode)
            if column.width:
                self.setColumnWidth(number, column.width)
        self.currentCellChanged.connect(self._moved)
        self.cellDoubleClicked.connect(lambda row, _column: self.opened.emit(self._rows[row].key))

    @property
    def shows_choice(self) -> bool:
        """Whether the chosen row is drawn as such; rows only to be read are not, without keys."""
        return self._to_choose or self.hasFocus()

    @property
    def key(self) -> object:
        """What the chosen row stands for; None without one."""
        row = self.currentRow()
        return self._rows[row].key if 0 <= row < len(self._rows) else None

    def show_rows(self, rows: Sequence[Row]) -> None:
        """Other rows; the chosen one stays chosen if it is still there, else the first is."""
        before = self.key
        with QSignalBlocker(self):
            self._rows = tuple(rows)
            self.setRowCount(len(self._rows))
            for number, row in enumerate(self._rows):
                for column, cell in enumerate(row.cells):
                    self.setItem(number, column, _item(cell, faint=row.faint))
            keys = [row.key for row in self._rows]
            self.setCurrentCell(keys.index(before) if before in keys else 0, 0)
        self.chosen.emit(self.key)

    def choose(self, key: object) -> None:
        """Choose the row that stands for ``key``."""
        for number, row in enumerate(self._rows):
            if row.key == key:
                self.setCurrentCell(number, 0)

    def fit_rows(self) -> None:
        """Be as high as the rows, for a page that is scrolled as a whole."""
        rows = sum(self.rowHeight(number) for number in range(self.rowCount()))
        self.setFixedHeight(self.horizontalHeader().sizeHint().height() + rows + TIGHT)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter opens, Delete removes; Esc is for the page."""
        key = self.key
        if event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter} and key is not None:
            self.opened.emit(key)
        elif event.key() == Qt.Key.Key_Delete and key is not None:
            self.removed.emit(key)
        else:
            super().keyPressEvent(event)

    def _moved(self, row: int, _column: int, before: int, _before: int) -> None:
        if row != before:
            self.chosen.emit(self.key)
            self.viewport().update()


class _Delegate(QStyledItemDelegate):
    """Draws a cell: text over small text, or a picture; the chosen row between two rules."""

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Draw it."""
        cell, faint = index.data(_CELL)
        table = self.parent()
        if not isinstance(table, Ledger) or not isinstance(cell, Cell):
            return
        colours = colours_of(table)
        box = QRect(option.rect)
        painter.save()
        if index.row() == table.currentRow() and table.shows_choice:
            painter.fillRect(box, QColor(colours.sheet))
            rule = QColor(colours.accent if table.hasFocus() else colours.ink)
            painter.fillRect(box.left(), box.top(), box.width(), _RULE, rule)
            painter.fillRect(box.left(), box.bottom() - _RULE + 1, box.width(), _RULE, rule)
        else:
            painter.fillRect(box.left(), box.bottom(), box.width(), 1, QColor(colours.rule))
        if cell.picture is not None:
            _draw_picture(painter, box, cell.picture, QColor(colours.edge), faint=faint)
        else:
            ink = QColor(colours.pencil if faint else colours.ink)
            _draw_text(painter, box, cell, ink, QColor(colours.pencil))
        painter.restore()


def _draw_text(painter: QPainter, box: QRect, cell: Cell, ink: QColor, pencil: QColor) -> None:
    room = box.adjusted(TIGHT, 0, -NEAR, 0)
    line = room
    if cell.under:
        middle = room.center().y()
        line = QRect(room.left(), middle - 19, room.width(), 20)
        under = QRect(room.left(), middle + 1, room.width(), 18)
        painter.setFont(font(Type.SMALL))
        painter.setPen(pencil)
        painter.drawText(under, _LEFT, _cut(painter, cell.under, under.width()))
    painter.setFont(font(Type.STRONG if cell.strong else Type.TEXT))
    painter.setPen(ink)
    painter.drawText(line, _LEFT, _cut(painter, cell.text, line.width()))


def _draw_picture(
    painter: QPainter, box: QRect, picture: QImage, edge: QColor, *, faint: bool
) -> None:
    width, height = _PICTURE_PX
    place = QRect(0, 0, width, height)
    place.moveCenter(box.center())
    place.moveLeft(box.left() + TIGHT)
    if picture.isNull():
        painter.setPen(edge)
        painter.drawRect(place.adjusted(0, 0, -1, -1))
        return
    ratio = painter.device().devicePixelRatio()
    shown = QPixmap.fromImage(picture).scaled(
        round(width * ratio),
        round(height * ratio),
        Qt.AspectRatioMode.KeepAspectRatio,
        Qt.TransformationMode.SmoothTransformation,
    )
    shown.setDevicePixelRatio(ratio)
    size = shown.deviceIndependentSize().toSize()
    corner = place.center() - QPoint(size.width() // 2, size.height() // 2)
    painter.setOpacity(0.45 if faint else 1.0)
    painter.drawPixmap(corner, shown)


_LEFT = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft


def _cut(painter: QPainter, text: str, width: int) -> str:
    return painter.fontMetrics().elidedText(text, Qt.TextElideMode.ElideRight, width)


def _item(cell: Cell, *, faint: bool) -> QTableWidgetItem:
    item = QTableWidgetItem(cell.text)
    item.setData(_CELL, (cell, faint))
    told = ", ".join(part for part in (cell.text, cell.under) if part)
    item.setData(Qt.ItemDataRole.AccessibleTextRole, told)
    item.setToolTip(as_tip(told))
    return item
