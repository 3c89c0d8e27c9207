"""The window speaks the language that is preferred, and every menu can be worked by its letters."""

from collections import Counter
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QTranslator
from PySide6.QtWidgets import QApplication, QMenu

from toneladder.wording import ENGLISH, LANGUAGES, speak_language, spoken
from toneladder_desktop.bench.settings import Preferences
from toneladder_desktop.window.bench_window import BenchWindow
from toneladder_desktop.window.language import speak_as_preferred, translate_qt
from toneladder_desktop.window.preferences_page import PreferencesPage


@pytest.fixture(autouse=True)
def _english_again(qapp: QApplication) -> Iterator[None]:
    yield
    speak_language(ENGLISH)
    for words in qapp.findChildren(QTranslator):
        qapp.removeTranslator(words)
        words.deleteLater()


@pytest.mark.parametrize("wanted", ["de", "en", "x-long"])
def test_the_language_is_the_one_preferred(tmp_path: Path, qapp: QApplication, wanted: str) -> None:
    assert qapp is not None
    file = tmp_path / "preferences.ini"
    Preferences(file).change(language=wanted)
    speak_as_preferred(file)
    assert spoken() == wanted


def test_without_a_preference_it_is_the_desktops(tmp_path: Path) -> None:
    speak_language("de")
    speak_as_preferred(tmp_path / "none.ini")
    assert spoken() == ENGLISH  # the tests run on a desktop without a language


def test_the_language_is_chosen_in_the_preferences(tmp_path: Path, window: BenchWindow) -> None:
    preferences = Preferences(tmp_path / "others.ini")
    page = PreferencesPage(preferences, window)
    answers = page.rows["language"].choice.list
    answers.setCurrentIndex(answers.findText("Deutsch"))
    answers.activated.emit(answers.currentIndex())
    assert preferences.now.language == "de"
    assert "start it again: then all of it is in Deutsch" in page.restart.text()
    page.rows["language"].reset.click()
    assert not page.restart.text()
    page.close()


def test_qts_own_words_are_german_too(qapp: QApplication) -> None:
    speak_language("de")
    translate_qt(qapp)
    assert QCoreApplication.translate("QPlatformTheme", "Cancel") == "Abbrechen"


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_line_of_a_menu_has_a_letter_of_its_own(
    language: str, make_window: Callable[[], BenchWindow]
) -> None:
    speak_language(language)
    window = make_window()
    menus = [action.menu() for action in window.menuBar().actions()]
    tops = [letter(action.text()) for action in window.menuBar().actions()]
    assert "" not in tops
    assert not doubled(tops)
    for menu in menus:
        assert isinstance(menu, QMenu)
        letters = [letter(action.text()) for action in menu.actions()]
        assert not doubled(letters), (menu.title(), doubled(letters))


def letter(text: str) -> str:
    """The letter after the first single ampersand."""
    _, _, after = text.replace("&&", "").partition("&")
    return after[:1].casefold()


def doubled(letters: list[str]) -> list[str]:
    return [one for one, n in Counter(letters).items() if one and n > 1]
