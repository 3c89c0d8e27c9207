"""Preferences on one page: language, units, dress, paper, the lift, a ruler for the screen."""

from dataclasses import replace

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from toneladder.quantities import Manner, read_length, write_length
from toneladder.wording import LANGUAGES, say
from toneladder_desktop.bench.settings import PAPERS, Preferences, paper_name
from toneladder_desktop.drawing.style import APART, NEAR, WIDE, Scheme, colours_of
from toneladder_desktop.fittings.apart import Apart
from toneladder_desktop.fittings.choice import Choice
from toneladder_desktop.fittings.field import Field

MM_PER_INCH = 25.4
_BAR_PX = 300


class PreferencesPage(Apart):
    """Everything preferred; what is chosen holds at once."""

    def __init__(self, preferences: Preferences, parent: QWidget) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("Preferences"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._preferences = preferences
        self.language = Choice(
            say("Language, from the next start"),
            [("", say("as the desktop")), *LANGUAGES.items()],
            self._language,
        )
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
            say("Office paper"), [(paper, paper_name(paper)) for paper in PAPERS], self._paper
        )
        self.lift = Choice(
            say("At the lift the tank's screen"),
            [(False, say("changes light and dark")), (True, say("stays still"))],
            self._lift,
        )
        self.bar = _Bar(self)
        self.measured = Field(
            say("For true size: with a ruler, this bar is"), _read_bar, self._measured, parent=self
        )
        rows = QVBoxLayout(self)
        rows.setContentsMargins(WIDE, WIDE, WIDE, WIDE)
        rows.setSpacing(APART)
        choices = (self.lengths, self.warmth, self.decimal, self.scheme, self.paper, self.lift)
        for part in (self.language, *choices):
            rows.addWidget(part)
        rows.addSpacing(NEAR)
        rows.addWidget(self.bar)
        rows.addWidget(self.measured)
        rows.addStretch(1)
        preferences.changed.connect(self._show)
        self._show()
        self.setMinimumWidth(320)
        self.language.setFocus()

    def _show(self) -> None:
        now = self._preferences.now
        self.language.show_value(now.language)
        self.lengths.show_value(now.manner.imperial)
        self.warmth.show_value(now.manner.fahrenheit)
        self.decimal.show_value(now.manner.decimal)
        self.scheme.show_value(now.scheme)
        self.paper.show_value(now.paper)
        self.lift.show_value(now.steady)
        px_per_mm = now.screen_px_per_mm or self.screen().physicalDotsPerInch() / MM_PER_INCH
        length_mm = round(_BAR_PX * self.devicePixelRatioF() / px_per_mm, 1)
        self.measured.show_value(write_length(length_mm, now.manner))

    def _measured(self, length_mm: float) -> None:
        px_per_mm = _BAR_PX * self.devicePixelRatioF() / length_mm
        self._preferences.change(screen_px_per_mm=px_per_mm)

    def _language(self, language: str) -> None:
        self._preferences.change(language=language)

    def _manner(self) -> Manner:
        return self._preferences.now.manner

    def _lengths(self, imperial: bool) -> None:
        self._preferences.change(manner=replace(self._manner(), imperial=imperial))

    def _warmth(self, fahrenheit: bool) -> None:
        self._preferences.change(manner=replace(self._manner(), fahrenheit=fahrenheit))

    def _decimal(self, decimal: str) -> None:
        self._preferences.change(manner=replace(self._manner(), decimal=decimal))

    def _scheme(self, scheme: Scheme) -> None:
        self._preferences.change(scheme=scheme)

    def _paper(self, paper: str) -> None:
        self._preferences.change(paper=paper)

    def _lift(self, steady: bool) -> None:
        self._preferences.change(steady=steady)


class _Bar(QWidget):
    """A bar to lay a ruler along, so that true size is true on this screen."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setFixedSize(_BAR_PX, 14)
        self.setAccessibleName(say("A bar to lay a ruler along"))

    def paintEvent(self, _event: QPaintEvent) -> None:
        """A line between two upright ends; its length is from outside to outside."""
        painter = QPainter(self)
        ink = QColor(colours_of(self).ink)
        painter.fillRect(0, 6, _BAR_PX, 2, ink)
        painter.fillRect(0, 0, 2, 14, ink)
        painter.fillRect(_BAR_PX - 2, 0, 2, 14, ink)


def _read_bar(text: str) -> float:
    return read_length(text, least_mm=10.0, most_mm=1000.0)
