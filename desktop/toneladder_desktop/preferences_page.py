"""Preferences on one page: units, decimal sign, light or dark, paper, a ruler for the screen."""

from dataclasses import replace

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from toneladder.quantities import Manner
from toneladder.wording import say
from toneladder_desktop.choice import Choice
from toneladder_desktop.settings import Preferences
from toneladder_desktop.style import APART, WIDE, Scheme


class PreferencesPage(QWidget):
    """Everything preferred; what is chosen holds at once."""

    def __init__(self, preferences: Preferences, parent: QWidget) -> None:
        super().__init__(parent, Qt.WindowType.Window)
        self.setWindowTitle(say("Preferences"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._preferences = preferences
        self.lengths = Choice(
            say("Lengths"), [(False, say("millimetres")), (True, say("inches"))], self._lengths
        )
        self.warmth = Choice(
            say("Temperatures"), [(False, say("°C")), (True, say("°F"))], self._warmth
        )
        self.decimal = Choice(
            say("Decimal sign"), [(".", say("point, 1.5")), (",", say("comma, 1,5"))], self._decimal
        )
        self.scheme = Choice(
            say("The window is"),
            [
                (Scheme.SYSTEM, say("as the desktop")),
                (Scheme.LIGHT, say("light")),
                (Scheme.DARK, say("dark")),
            ],
            self._scheme,
        )
        self.paper = Choice(
            say("Office paper"), [("a4", say("A4")), ("letter", say("US Letter"))], self._paper
        )
        rows = QVBoxLayout(self)
        rows.setContentsMargins(WIDE, WIDE, WIDE, WIDE)
        rows.setSpacing(APART)
        for part in (self.lengths, self.warmth, self.decimal, self.scheme, self.paper):
            rows.addWidget(part)
        rows.addStretch(1)
        preferences.changed.connect(self._show)
        self._show()
        self.setMinimumWidth(320)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Esc closes it."""
        if event.key() == Qt.Key.Key_Escape:
            self.close()
        else:
            super().keyPressEvent(event)

    def _show(self) -> None:
        now = self._preferences.now
        self.lengths.show_value(now.manner.imperial)
        self.warmth.show_value(now.manner.fahrenheit)
        self.decimal.show_value(now.manner.decimal)
        self.scheme.show_value(now.scheme)
        self.paper.show_value(now.paper)

    def _manner(self) -> Manner:
        return self._preferences.now.manner

    def _lengths(self, imperial: bool) -> None:  # noqa: FBT001 - a choice
        self._preferences.change(manner=replace(self._manner(), imperial=imperial))

    def _warmth(self, fahrenheit: bool) -> None:  # noqa: FBT001 - a choice
        self._preferences.change(manner=replace(self._manner(), fahrenheit=fahrenheit))

    def _decimal(self, decimal: str) -> None:
        self._preferences.change(manner=replace(self._manner(), decimal=decimal))

    def _scheme(self, scheme: Scheme) -> None:
        self._preferences.change(scheme=scheme)

    def _paper(self, paper: str) -> None:
        self._preferences.change(paper=paper)
