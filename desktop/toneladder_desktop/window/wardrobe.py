"""Light or dark: the program dressed as the preferences and the desktop want it."""

from PySide6.QtWidgets import QApplication

from toneladder_desktop.bench.settings import Preferences
from toneladder_desktop.drawing.style import Colours, colours_for, wear


class Wardrobe:
    """Dresses the program as the preferences and the desktop want it, also when they change."""

    def __init__(self, app: QApplication, preferences: Preferences) -> None:
        self._app, self._preferences = app, preferences
        self._worn: Colours | None = None
        preferences.changed.connect(self.dress)
        app.styleHints().colorSchemeChanged.connect(self.dress)
        self.dress()

    def dress(self) -> None:
        """Change only what is not worn already."""
        colours = colours_for(self._preferences.now.scheme, self._app)
        if colours != self._worn:
            self._worn = colours
            wear(self._app, colours)
