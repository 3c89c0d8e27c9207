"""The print on its paper, in the middle of the bench: looked at nearer, further, mirrored."""

from PySide6.QtCore import QEvent, QPointF, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QMouseEvent, QNativeGestureEvent, QWheelEvent
from PySide6.QtWidgets import QWidget

from toneladder_desktop.paper.body import PaperBody

_KEY_ZOOM = 1.25
_KEY_MOVE = 40.0
_FAR = 10.0
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
    """

    pointed = Signal(float, float)
    left = Signal()
    nudged = Signal(float, float)
    put_away = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.OpenHandCursor)
        self.setMouseTracking(True)
        self._dragged: QPointF | None = None
        self._loupe = False

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
        if event.button() is Qt.MouseButton.LeftButton:
            self._dragged = event.position()
            self.setCursor(Qt.CursorShape.ClosedHandCursor)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Push the paper."""
        self._point(event.position())
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
        """Let go of the paper."""
        self._dragged = None
        self._show_hand()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """The arrows push it or its loupe, + and − go nearer and further, Home fits it."""
        key = Qt.Key(event.key())
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

    def _show_hand(self) -> None:
        self.setCursor(Qt.CursorShape.CrossCursor if self._loupe else Qt.CursorShape.OpenHandCursor)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """A frame shows where the keys go, if it was keys that came here."""
        self._ringed = event.reason() in _BY_KEYS
        super().focusInEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """The frame goes with the keys."""
        self._ringed = False
        super().focusOutEvent(event)
