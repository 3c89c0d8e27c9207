"""The test strip itself: painted, moved through by keys and mouse, read aloud."""

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QPointF, Qt, QTimer, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QResizeEvent,
)
from PySide6.QtWidgets import QWidget

from toneladder.wording import say
from toneladder_desktop.drawing.ruling import Ruling
from toneladder_desktop.drawing.style import colours_of
from toneladder_desktop.how_many.band import Band
from toneladder_desktop.how_many.content import Content
from toneladder_desktop.how_many.figures import Figures
from toneladder_desktop.how_many.layout import LEAST, Layout, lay_out
from toneladder_desktop.how_many.pictures import Pictures
from toneladder_desktop.how_many.piece import Piece, richest
from toneladder_desktop.how_many.table import FiguresTable
from toneladder_desktop.how_many.words import spoken

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

REST_MS: Final = 400
"""The focus rested this long: its column is read aloud."""

_STEP = 0.25
"""Of its own size the frame goes this far with one key."""


class Board(QWidget):
    """Shows the same piece of a picture in several numbers of tones, and what they cost.

    Signals
    -------
    focused(int)
        Another column is looked at.
    more_wanted(int)
        So many columns more, or less.
    """

    focused = Signal(int)
    more_wanted = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setMinimumSize(*LEAST)
        self.setAccessibleName(say("How many tones?"))
        self._content: Content | None = None
        self._layout: Layout | None = None
        self._cells: NDArray[np.uint8] | None = None
        self._at = (0.5, 0.5)
        self._grip: QPointF | None = None
        self._pictures = Pictures()
        self._table = FiguresTable(self)
        self._rest = QTimer(self, singleShot=True, interval=REST_MS)
        self._rest.timeout.connect(self._announce)

    def show_content(self, content: Content, cells: "NDArray[np.uint8]") -> None:
        """Show a plate in its numbers of tones; ``cells`` is its grid as the brush sees it."""
        self._content = content
        fresh = cells is not self._cells
        self._cells = cells
        self._arrange()
        if fresh and self._layout is not None:
            piece = self._layout.piece(0.5, 0.5)
            self._at = richest(cells, piece.width, piece.height).middle
        self.update()

    @property
    def piece(self) -> Piece | None:
        """The piece of the picture that all columns show."""
        return None if self._layout is None else self._layout.piece(*self._at)

    def look_at(self, x: float, y: float) -> None:
        """Bring the middle of the frame to a place of the plate, in shares, as near as it goes."""
        if self._layout is not None:
            self._at = self._layout.piece(x, y).middle
            self.update()

    # painting

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw everything."""
        ruling, colours = Ruling(QPainter(self)), colours_of(self)
        ruling.fill(0.0, 0.0, self.width(), self.height(), colours.ground)
        content, layout, piece = self._content, self._layout, self.piece
        cells = self._cells
        if content is not None and layout is not None and piece is not None and cells is not None:
            has_keys = self.hasFocus()
            Figures(content, layout, colours, has_keys).paint(ruling)
            Band(content, layout, cells, piece, self._pictures, has_keys).paint(ruling)
        ruling.painter.end()

    # the hand

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take the frame, or look at a column."""
        if event.button() is not Qt.MouseButton.LeftButton or self._layout is None:
            super().mousePressEvent(event)
            return
        at, layout = event.position(), self._layout
        column = layout.column_at(at.x(), at.y())
        if layout.plate.holds(at.x(), at.y()):
            frame = layout.frame(layout.piece(*self._at))
            middle = QPointF(frame.centre, frame.middle)
            self._grip = at - middle if frame.holds(at.x(), at.y()) else QPointF()
            self._drag(at)
        elif column is not None:
            self._focus_on(column)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Drag the frame, or show what can be done here."""
        if self._grip is not None:
            self._drag(event.position())
        else:
            self._show_cursor(event.position())

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Leave the frame where it is."""
        self._grip = None
        self._show_cursor(event.position())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows change the column, with Shift they move the frame; + and - columns to 12."""
        key, content = event.key(), self._content
        if content is None:
            super().keyPressEvent(event)
            return
        frame = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
        if frame and key in _WAYS:
            self._move(*_WAYS[key])
        elif key in {Qt.Key.Key_Left, Qt.Key.Key_Right}:
            self._focus_on(content.focus + _WAYS[key][0])
        elif key in {Qt.Key.Key_Home, Qt.Key.Key_End}:
            self._focus_on(0 if key == Qt.Key.Key_Home else len(content.counts) - 1)
        elif key in {Qt.Key.Key_Plus, Qt.Key.Key_Equal, Qt.Key.Key_Minus}:
            self.more_wanted.emit(-1 if key == Qt.Key.Key_Minus else 1)
        else:
            super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Place everything anew."""
        super().resizeEvent(event)
        self._arrange()

    def focusInEvent(self, event: QFocusEvent) -> None:
        """The rules of the column in focus are heavier while the keys are here."""
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """And lighter while they are elsewhere."""
        super().focusOutEvent(event)
        self.update()

    def _arrange(self) -> None:
        content = self._content
        if content is None:
            return
        size = content.plate.size
        self._layout = lay_out(
            self.width(),
            self.height(),
            len(content.counts),
            size.width_mm / size.height_mm,
            hard=content.hard,
        )
        self._at = self._layout.piece(*self._at).middle
        self._table.show_content(content, self._layout)
        self.setAccessibleDescription(spoken(content, content.focus))

    def _focus_on(self, column: int) -> None:
        content = self._content
        if content is None or content.focused(column).focus == content.focus:
            return
        self.focused.emit(content.focused(column).focus)
        self._rest.start()

    def _move(self, right: int, down: int) -> None:
        piece = self.piece
        if piece is not None:
            x, y = piece.middle
            self.look_at(x + right * _STEP * piece.width, y + down * _STEP * piece.height)

    def _drag(self, at: QPointF) -> None:
        if self._layout is None or self._grip is None:
            return
        self.setCursor(Qt.CursorShape.ClosedHandCursor)
        plate, middle = self._layout.plate, at - self._grip
        self.look_at((middle.x() - plate.x) / plate.width, (middle.y() - plate.y) / plate.height)

    def _show_cursor(self, at: QPointF) -> None:
        layout = self._layout
        shape = Qt.CursorShape.ArrowCursor
        if layout is not None and layout.plate.holds(at.x(), at.y()):
            shape = Qt.CursorShape.OpenHandCursor
        elif layout is not None and layout.column_at(at.x(), at.y()) is not None:
            shape = Qt.CursorShape.PointingHandCursor
        self.setCursor(shape)

    def _announce(self) -> None:
        if self._content is not None and self.isVisible():
            said = spoken(self._content, self._content.focus)
            QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, said))


_WAYS: Final[dict[int, tuple[int, int]]] = {
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, -1),
    Qt.Key.Key_Down: (0, 1),
}
