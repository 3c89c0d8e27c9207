"""A hand on the ladder, by mouse or finger: it takes a peg, moves it, lets it go."""

from math import hypot
from typing import Final

from PySide6.QtCore import QEvent, QObject, QPointF, Qt, QTimer, Signal
from PySide6.QtGui import QEventPoint, QMouseEvent, QTouchEvent
from PySide6.QtWidgets import QWidget

from toneladder_desktop.ladder.content import Content, Peg
from toneladder_desktop.ladder.layout import Layout
from toneladder_desktop.ladder.moving import Grip, grip_of, moved

HOLD_MS: Final = 150
"""A finger rests on a peg this long before it moves it: a swipe moves nothing."""

STILL_PX: Final = 8.0
_NOWHERE = QPointF(-1.0, -1.0)


class Hand(QObject):
    """Turns the mouse and the touches of a ladder into grips.

    Signals
    -------
    took(Peg), went(Peg, int), left()
        A peg was taken; it is at another reading; it was let go.
    picked(object), pointed(object)
        A peg or a tone was clicked or tapped, or nothing (None); the pointer is on one, or on
        nothing.
    doubled(Peg)
        A peg was clicked twice.
    """

    took = Signal(object)
    went = Signal(object, int)
    left = Signal()
    picked = Signal(object)
    pointed = Signal(object)
    doubled = Signal(object)

    def __init__(self, ladder: QWidget) -> None:
        super().__init__(ladder)
        self.grip: Grip | None = None
        self._content: Content | None = None
        self._layout: Layout | None = None
        self._touched: QPointF | None = None
        self._still = QTimer(self, singleShot=True, interval=HOLD_MS)
        self._still.timeout.connect(self._held_still)
        ladder.setMouseTracking(True)
        ladder.setAttribute(Qt.WidgetAttribute.WA_AcceptTouchEvents)
        ladder.installEventFilter(self)

    def show(self, content: Content | None, layout: Layout | None) -> None:
        """What lies under the hand now."""
        self._content, self._layout = content, layout

    def take(self, peg: Peg, y: float, *, fine: bool = False) -> None:
        """Take ``peg`` at height ``y``."""
        if self._content is not None and self._layout is not None:
            self.grip = grip_of(self._content, self._layout, peg, y, fine=fine)
            self.took.emit(peg)

    def move(self, y: float, *, fine: bool = False) -> None:
        """Move what is in the hand."""
        before = self.grip
        if before is None or self._layout is None:
            return
        self.grip = grip = moved(before, self._layout, y, fine=fine)
        if grip.reading != before.reading or grip.stopped != before.stopped:
            self.went.emit(grip.peg, grip.reading)

    def leave(self) -> None:
        """Let go of whatever is in the hand."""
        if self.drop() is not None:
            self.left.emit()

    def drop(self) -> Grip | None:
        """Forget what is in the hand without a word; returns what that was."""
        grip, self.grip = self.grip, None
        self._still.stop()
        self._touched = None
        return grip

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Everything that a mouse or a finger does on the ladder; the wheel does nothing."""
        if isinstance(event, QTouchEvent):
            self._touch(event)
            return True
        if isinstance(event, QMouseEvent):
            return self._mouse(event)
        if event.type() is QEvent.Type.Leave:
            self.pointed.emit(None)
        return super().eventFilter(watched, event)

    def _mouse(self, event: QMouseEvent) -> bool:
        at, kind = event.position(), event.type()
        fine = bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier)
        left = event.button() is Qt.MouseButton.LeftButton
        found = self._found(at)
        if kind is QEvent.Type.MouseMove and self.grip is not None:
            self.move(at.y(), fine=fine)
        elif kind is QEvent.Type.MouseMove and not event.buttons():
            self.pointed.emit(found)
        elif kind is QEvent.Type.MouseButtonDblClick and left and isinstance(found, Peg):
            self.doubled.emit(found)
        elif kind is QEvent.Type.MouseButtonPress and left and isinstance(found, Peg):
            self.take(found, at.y(), fine=fine)
        elif kind is QEvent.Type.MouseButtonPress and left:
            self.picked.emit(found)
        elif kind is QEvent.Type.MouseButtonRelease and left:
            self.leave()
        else:
            return False
        return True

    def _touch(self, event: QTouchEvent) -> None:
        """One finger holds still on a peg, then moves it; two fingers do nothing."""
        event.accept()
        points = event.points()
        if event.type() is QEvent.Type.TouchCancel or len(points) != 1:
            self.leave()
            return
        at, state = points[0].position(), points[0].state()
        if state is QEventPoint.State.Pressed:
            self._touched = QPointF(at)
            self._still.start()
        elif state is QEventPoint.State.Released:
            found = self._found(at) if self.grip is None and self._touched is not None else None
            self.leave()
            if found is not None:
                self.picked.emit(found)
        elif self.grip is not None:
            self.move(at.y())
        elif self._touched is not None:
            way = at - self._touched
            if hypot(way.x(), way.y()) > STILL_PX:
                self._still.stop()
                self._touched = None

    def _held_still(self) -> None:
        found = self._found(self._touched or _NOWHERE)
        if isinstance(found, Peg) and self._touched is not None:
            self.take(found, self._touched.y())

    def _found(self, at: QPointF) -> Peg | int | None:
        return None if self._layout is None else self._layout.found_at(at.x(), at.y())
