"""What can be done at the tank as buttons that a screen reader finds and presses.

The face draws its bars itself, and keys and fingers go to the window; these buttons lie where
the bars are drawn, and draw nothing.
"""

from collections.abc import Callable, Mapping

from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QPaintEvent
from PySide6.QtWidgets import QPushButton, QWidget

from toneladder.tank.values import Act, Offer


class Offers(QWidget):
    """One button for each act; those that mean nothing now are hidden. ``pressed(Act)`` tells."""

    pressed = Signal(object)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self._buttons = {act: _Button(self) for act in Act}
        for act, button in self._buttons.items():
            button.clicked.connect(lambda _on=False, act=act: self.pressed.emit(act))

    def show_offers(
        self, offer: Callable[[Act], Offer | None], places: Mapping[Act, QRectF]
    ) -> None:
        """What can be done now, and where it stands on the face."""
        for act, button in self._buttons.items():
            offered = offer(act)
            if offered is not None:
                button.setGeometry(places[act].toRect())
                if button.text() != offered.label:
                    button.setText(offered.label)
            button.setVisible(offered is not None)


class _Button(QPushButton):
    """A button without a face; keys stay with the window."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw nothing."""
