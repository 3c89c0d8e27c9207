"""Texts that have too little room: cut by their widget, or shortened to end in an ellipsis."""

import sys
from collections.abc import Callable, Iterator
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QFontMetrics, QFontMetricsF
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QComboBox,
    QHeaderView,
    QLabel,
    QLineEdit,
    QWidget,
)

from toneladder_desktop.drawing import ruling

_LEEWAY_PX = 1
_LINE_ENDS_PX = 4
_LIST_MARK_PX = 26  # what a list keeps for its triangle and its margins


class Clipping:
    """Watches texts being shortened while a state is brought about, and then looks for cut ones."""

    def __init__(self) -> None:
        self._shortened: set[str] = set()
        for metrics in (QFontMetrics, QFontMetricsF):
            metrics.elidedText = self._watched(metrics.elidedText)  # type: ignore[method-assign] # watched
        drawn, watched = ruling.fitted, self._fitted(ruling.fitted)
        for module in list(sys.modules.values()):
            if getattr(module, "fitted", None) is drawn:
                module.fitted = watched

    def found(self) -> list[str]:
        """What is shortened or cut on all open windows, as sentences."""
        self._shortened.clear()
        for window in QApplication.topLevelWidgets():
            if window.isVisible():
                window.repaint()
                window.grab()
        shortened = {f"shortened: {text}" for text in self._shortened}
        return sorted({*shortened, *(f"cut: {words}" for words in _cut())})

    def _fitted(self, real: Callable[..., str]) -> Callable[..., str]:
        def fitted(text: str, *how: Any) -> str:  # noqa: ANN401 - as it is handed on
            short = real(text, *how)
            if short != text:
                self._shortened.add(text)
            return short

        return fitted

    def _watched(self, real: Callable[..., str]) -> Callable[..., str]:
        def elided(metrics: Any, text: str, *how: Any) -> str:  # noqa: ANN401 - Qt's own
            short = real(metrics, text, *how)
            if short != text:
                self._shortened.add(text)
            return short

        return elided


def _cut() -> Iterator[str]:
    for widget in QApplication.allWidgets():
        if widget.isVisible() and widget.width() > 1:
            looked_at = next((look for kind, look in _LOOKS if isinstance(widget, kind)), None)
            if looked_at is not None:
                yield from looked_at(widget)


def _label(label: QLabel) -> Iterator[str]:
    text, metrics = label.text(), label.fontMetrics()
    if text and label.wordWrap():
        longest = max((metrics.horizontalAdvance(word) for word in text.split()), default=0)
        too_high = label.heightForWidth(label.width()) > label.height() + _LEEWAY_PX
        if too_high or longest > label.contentsRect().width() + _LEEWAY_PX:
            yield text
    elif text:
        yield from _button(label)


def _button(button: QAbstractButton | QLabel) -> Iterator[str]:
    text = button.text().replace("&", "")
    lines = (button.fontMetrics().horizontalAdvance(line) for line in text.splitlines())
    if max(lines, default=0) > button.width() + _LEEWAY_PX:
        yield text


def _list(answers: QComboBox) -> Iterator[str]:
    text = answers.currentText()
    words = (answers.fontMetrics().horizontalAdvance(word) for word in text.split(" "))
    if max(words, default=0) > answers.width() - _LIST_MARK_PX:
        yield text


def _line(line: QLineEdit) -> Iterator[str]:
    text = line.text() or line.placeholderText()
    if line.fontMetrics().horizontalAdvance(text) > line.contentsRect().width() - _LINE_ENDS_PX:
        yield text


def _heads(heads: QHeaderView) -> Iterator[str]:
    if heads.orientation() is Qt.Orientation.Horizontal:
        for column in range(heads.count()):
            text = str(heads.model().headerData(column, Qt.Orientation.Horizontal) or "")
            if heads.fontMetrics().horizontalAdvance(text) > heads.sectionSize(column):
                yield text


_LOOKS: tuple[tuple[type[QWidget], Callable[[Any], Iterator[str]]], ...] = (
    (QLabel, _label),
    (QAbstractButton, _button),
    (QComboBox, _list),
    (QLineEdit, _line),
    (QHeaderView, _heads),
)
