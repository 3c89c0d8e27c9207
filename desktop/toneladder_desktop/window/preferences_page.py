"""Preferences on one page: every row of their table, each with a way back, and a ruler."""

from functools import partial
from typing import Any

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QShowEvent
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from toneladder.quantities import read_length, write_length
from toneladder.wording import LANGUAGES, say, spoken
from toneladder_desktop.bench.settings import Preferences
from toneladder_desktop.drawing.style import APART, NEAR, TIGHT, WIDE, Type, colours_of, font
from toneladder_desktop.fittings.apart import Apart
from toneladder_desktop.fittings.choice import Choice
from toneladder_desktop.fittings.field import Field
from toneladder_desktop.fittings.label import Label
from toneladder_desktop.window.language import language_meant
from toneladder_desktop.window.preferences_table import Preference, all_preferences

MM_PER_INCH = 25.4
_BAR_PX = 300
_HIGHEST = 720


class PreferencesPage(Apart):
    """Everything preferred; what is chosen holds at once."""

    def __init__(self, preferences: Preferences, parent: QWidget) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("Preferences"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._preferences = preferences
        self.search = QLineEdit(self)
        self.search.setPlaceholderText(say("Search"))
        self.search.setAccessibleName(say("Search the preferences"))
        self.search.textChanged.connect(self._look_for)
        self.rows = {row.key: _Row(row, preferences, self) for row in all_preferences()}
        self.restart = Label("", self)
        self.restart.setFont(font(Type.STRONG))
        self.restart.setWordWrap(True)
        self.bar = _Bar(self)
        self.measured = Field(
            say("For true size: with a ruler, this bar is"), _read_bar, self._measured, parent=self
        )
        inner = QWidget(self)
        rows = QVBoxLayout(inner)
        rows.setContentsMargins(0, 0, NEAR, 0)
        rows.setSpacing(APART)
        for row in self.rows.values():
            rows.addWidget(row)
        rows.addSpacing(NEAR)
        rows.addWidget(self.bar)
        rows.addWidget(self.measured)
        rows.addStretch(1)
        area = self.area = QScrollArea(self)
        area.setFrameShape(QScrollArea.Shape.NoFrame)
        area.setWidgetResizable(True)
        area.setWidget(inner)
        page = QVBoxLayout(self)
        page.setContentsMargins(WIDE, WIDE, WIDE, WIDE)
        page.setSpacing(APART)
        page.addWidget(self.search)
        page.addWidget(area, 1)
        page.addWidget(self.restart)
        preferences.changed.connect(self._show)
        self._show()
        self.setMinimumWidth(460)
        room = self.screen().availableGeometry().height()
        self.resize(460, min(inner.sizeHint().height() + 3 * WIDE + 40, _HIGHEST, room - 40))
        self.search.setFocus()

    def showEvent(self, event: QShowEvent) -> None:
        """Open it so high that no row is cut at its lower end."""
        super().showEvent(event)
        QTimer.singleShot(0, self, self._end_between_rows)

    def _end_between_rows(self) -> None:
        end = self.area.viewport().height()
        rows = [row.geometry() for row in self.rows.values() if row.isVisible()]
        cut = next((row for row in rows if row.top() < end <= row.bottom()), None)
        if cut is not None and self.area.verticalScrollBar().value() == 0:
            self.resize(self.width(), self.height() - (end - cut.top()))

    def _look_for(self, words: str) -> None:
        for row in self.rows.values():
            row.setVisible(row.preference.found_by(words))
        ruler = all(
            word in self.measured.line.accessibleName().casefold()
            for word in words.casefold().split()
        )
        self.bar.setVisible(ruler)
        self.measured.setVisible(ruler)

    def _show(self) -> None:
        now = self._preferences.now
        for preference in all_preferences():
            self.rows[preference.key].show_now(preference)
        self.restart.setText(_restart_words(now.language))
        self.restart.setVisible(bool(self.restart.text()))
        px_per_mm = now.screen_px_per_mm or self.screen().physicalDotsPerInch() / MM_PER_INCH
        length_mm = round(_BAR_PX * self.devicePixelRatioF() / px_per_mm, 1)
        self.measured.show_value(write_length(length_mm, now.manner))

    def _measured(self, length_mm: float) -> None:
        """Nothing typed is the way back: the screen as it says of itself."""
        px_per_mm = _BAR_PX * self.devicePixelRatioF() / length_mm if length_mm else 0.0
        self._preferences.change(screen_px_per_mm=px_per_mm)


class _Row(QWidget):
    """One preference: its question and answers, and the way back to what is usual here."""

    def __init__(self, preference: Preference, preferences: Preferences, parent: QWidget) -> None:
        super().__init__(parent)
        self.preference, self._preferences = preference, preferences
        self.choice: Choice[Any] = Choice(preference.question, preference.answers, self._take, self)
        self.choice.list.setAccessibleDescription(preference.does)
        self.reset = QPushButton(say("Reset"), self)
        self.reset.setAccessibleName(say("Reset: {question}", question=preference.question))
        self.reset.clicked.connect(partial(self._take, preference.get(preferences.usual)))
        does = Label(preference.does, self)
        does.setObjectName("pencil")
        does.setFont(font(Type.SMALL))
        does.setWordWrap(True)
        row = QHBoxLayout()
        row.setSpacing(NEAR)
        row.addWidget(self.choice, 1)
        row.addWidget(self.reset, 0, Qt.AlignmentFlag.AlignBottom)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.setSpacing(TIGHT)
        rows.addLayout(row)
        rows.addWidget(does)
        self.setFocusProxy(self.choice)

    def show_now(self, preference: Preference) -> None:
        """What is preferred now; the answers are the same, perhaps written in another manner."""
        self.choice.offer(preference.answers)
        now = self.preference.get(self._preferences.now)
        self.choice.show_value(now)
        self.reset.setEnabled(now != self.preference.get(self._preferences.usual))

    def _take(self, answer: object, *_on: object) -> None:
        self._preferences.become(self.preference.put(self._preferences.now, answer))


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


def _restart_words(language: str) -> str:
    """What is to be done before another language is spoken; empty while none is asked for."""
    meant = language_meant(language)
    if meant == spoken():
        return ""
    return say(
        "Close Tone Ladder and start it again: then all of it is in {language}. Until then all"
        " stays as it is.",
        language=LANGUAGES.get(meant, meant),
    )


def _read_bar(text: str) -> float:
    return read_length(text, least_mm=10.0, most_mm=1000.0) if text.strip() else 0.0
