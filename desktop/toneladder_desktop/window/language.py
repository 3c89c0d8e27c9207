"""The language of the window: the one preferred, else the desktop's; Qt's own words with it."""

from pathlib import Path

from PySide6.QtCore import QLibraryInfo, QLocale, QSettings, QTranslator
from PySide6.QtWidgets import QApplication

from toneladder.wording import ENGLISH, LANGUAGES, LONGER, language_of, speak_language, spoken


def speak_as_preferred(preferences: Path) -> None:
    """Say everything in the language of the preferences' file, before they are asked properly."""
    said = QSettings(str(preferences), QSettings.Format.IniFormat).value("language")
    speak_language(language_meant(str(said)))


def language_meant(said: str) -> str:
    """The language that a preference means: it, or the desktop's where it names none."""
    known = said in LANGUAGES or said == LONGER
    return said if known else language_of(QLocale.system().uiLanguages())


def translate_qt(app: QApplication) -> None:
    """Let Qt's own dialogs and menus of text fields speak the language that is spoken."""
    if spoken() == ENGLISH:
        return
    words = QTranslator(app)
    folder = QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath)
    if words.load(f"qtbase_{spoken()}", folder):
        app.installTranslator(words)
