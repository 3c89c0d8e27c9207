"""The print on its paper, in the middle of the bench: looked at nearer, further, mirrored."""

from PySide6.QtCore import QEvent, QPointF, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QMouseEvent, QNativeGestureEvent, QWheelEvent
from PySide6.QtWidgets import QWidget

from toneladder_desktop.paper.body import PaperBody

_KEY_ZOOM = 1.25
_KEY_MOVE = 40.0
_FAR = 10.0
_CLICK_PX = 4.0
_WAYS = {
    Qt.Key.Key_Left: (-1.0, 0.0),
    Qt.Key.Key_Right: (1.0, 0.0),
    Qt.Key.Key_Up: (0.0, -1.0),
    Qt.Key.Key_Down: (0.0, 1.0),
}
_BY_KEYS = frozenset(
    (
        Qt.FocusReason.TabFocusReason,
        Qt.FocusReason.BacktabFocusReason,
        Qt.FocusReason.ShortcutFocusReason,
    )
)


class Paper(PaperBody):
    """A print that a hand or keys push about and bring nearer.

    ``pointed`` is the place under the pointer as it prints, in shares (0..1) of the plate;
    outside it lies beyond them; ``left`` says that there is no pointer any more. While a loupe
    lies on it, the arrow keys move that: ``nudged`` by so many steps across and down, as it is
    seen; ``put_away`` is Esc.

    While marks are taken, a click is ``marked(x, y)`` and a drawn line ``drawn(points)``, both in
    millimetres of the plate as it prints; ``drawing(points, cross)`` is on the way there, and
    ``given_up`` is Esc.
    """

    pointed = Signal(float, float)
    left = Signal()
    nudged = Signal(float, float)
    put_away = Signal()
    marked = Signal(float, float)
    drawn = Signal(object)
    drawing = Signal(object, object)
    given_up = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.OpenHandCursor)
        self.setMouseTracking(True)
        self._dragged: QPointF | None = None
        self._loupe = self._marking = False
        self._line: list[tuple[float, float]] = []
        self._cross: tuple[float, float] | None = None

    def take_marks(self, *, on: bool) -> None:
        """A hand marks places instead of pushing the paper, or pushes it again."""
        self._marking = on
        self._line, self._cross = [], None
        self._show_hand()
        if on:
            self.setFocus(Qt.FocusReason.OtherFocusReason)

    def lie_under(self, *, loupe: bool) -> None:
        """A loupe lies on it, which the arrow keys move and Esc puts away; or none does."""
        self._loupe = loupe
        self._show_hand()

    def zoom_in(self) -> None:
        """A step nearer."""
        self.zoom(_KEY_ZOOM)

    def zoom_out(self) -> None:
        """A step further."""
        self.zoom(1.0 / _KEY_ZOOM)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """The wheel goes nearer and further, about the pointer."""
        self.zoom(1.0015 ** event.angleDelta().y(), event.position())

    def event(self, event: QEvent) -> bool:
        """Two fingers go nearer and further too."""
        if (
            isinstance(event, QNativeGestureEvent)
            and event.gestureType() is Qt.NativeGestureType.ZoomNativeGesture
        ):
            self.zoom(1.0 + event.value(), event.position())
            return True
        return super().event(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold of the paper."""
        if event.button() is Qt.MouseButton.LeftButton and self._marking:
            self._line = [self.place_at(event.position())]
        elif event.button() is Qt.MouseButton.LeftButton:
            self._dragged = event.position()
            self.setCursor(Qt.CursorShape.ClosedHandCursor)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Push the paper."""
        self._point(event.position())
        if self._line:
            self._line.append(self.place_at(event.position()))
            self.drawing.emit(tuple(self._line), None)
        if self._dragged is not None:
            way = event.position() - self._dragged
            self._dragged = event.position()
            self.move_by(way.x(), way.y())

    def leaveEvent(self, event: QEvent) -> None:
        """The pointer is nowhere on the plate."""
        super().leaveEvent(event)
        self.left.emit()

    def _point(self, at: QPointF) -> None:
        if self._size is not None:
            x_mm, y_mm = self.place_at(at)
            self.pointed.emit(x_mm / self._size.width_mm, y_mm / self._size.height_mm)

    def mouseReleaseEvent(self, _event: QMouseEvent) -> None:
        """Let go of the paper, or end a mark."""
        self._dragged = None
        if self._line:
            self._end_line()
        self._show_hand()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """The arrows push it or its loupe, + and − go nearer and further, Home fits it."""
        key = Qt.Key(event.key())
        if self._marking and self._mark_by_keys(event):
            return
        if key in _WAYS:
            across, down = _WAYS[key]
            if self._loupe:
                far = _FAR if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else 1.0
                self.nudged.emit(across * far, down * far)
            else:
                self.move_by(-across * _KEY_MOVE, -down * _KEY_MOVE)
        elif key == Qt.Key.Key_Escape and self._loupe:
            self.put_away.emit()
        elif key in {Qt.Key.Key_Plus, Qt.Key.Key_Equal}:
            self.zoom(_KEY_ZOOM)
        elif key == Qt.Key.Key_Minus:
            self.zoom(1.0 / _KEY_ZOOM)
        elif key == Qt.Key.Key_Home:
            self.fit()
        else:
            super().keyPressEvent(event)

    def _end_line(self) -> None:
        """A line that went nowhere is a click."""
        line, self._line = self._line, []
        self.drawing.emit((), None)
        reach = _CLICK_PX / self.px_per_mm
        x, y = line[0]
        if all(abs(a - x) <= reach and abs(b - y) <= reach for a, b in line):
            self.marked.emit(x, y)
        else:
            self.drawn.emit(tuple(line))

    def _mark_by_keys(self, event: QKeyEvent) -> bool:
        """The arrows move a cross, Enter marks what is under it, Esc gives up."""
        key = Qt.Key(event.key())
        if key == Qt.Key.Key_Escape:
            self.given_up.emit()
            return True
        if self._size is None:
            return False
        cross = self._cross or (self._size.width_mm / 2.0, self._size.height_mm / 2.0)
        if key in {Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space}:
            self.marked.emit(*cross)
            return True
        if key not in _WAYS:
            return False
        across, down = _WAYS[key]
        far = _FAR if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else 1.0
        step = far * (-1.0 if self._mirrored else 1.0)
        self._cross = (
            min(max(cross[0] + across * step, 0.0), self._size.width_mm),
            min(max(cross[1] + down * far, 0.0), self._size.height_mm),
        )
        self.drawing.emit((), self._cross)
        return True

    def _show_hand(self) -> None:
        aims = self._loupe or self._marking
        self.setCursor(Qt.CursorShape.CrossCursor if aims else Qt.CursorShape.OpenHandCursor)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """A frame shows where the keys go, if it was keys that came here."""
        self._ringed = event.reason() in _BY_KEYS
        super().focusInEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """The frame goes with the keys."""
        self._ringed = False
        super().focusOutEvent(event)
