"""Every figure that stands on the window is written in the manner that is preferred."""

import re
from collections.abc import Callable, Iterator

import pytest
from PySide6.QtWidgets import (
    QAbstractButton,
    QComboBox,
    QLabel,
    QLineEdit,
    QTableWidget,
    QWidget,
)
from pytestqt.qtbot import QtBot

from toneladder.quantities import Manner, Scale
from toneladder_desktop.bench.bench import Lying
from toneladder_desktop.window.bench_window import BenchWindow
from toneladder_desktop.window.preferences_page import PreferencesPage

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")

POINT = re.compile(r"\d\.\d")
METRIC = re.compile(r"(?<!50)\s(?:mm|cm|°C)(?![\w²])|\d\smin\s\d+\ss|\bdarkness\b")
ELSEWHERE = Manner(",", imperial=True, fahrenheit=True, strokes=True, scale=Scale.LIGHTNESS)
KEPT = (
    "darkness to a millimetre",
    "darkness a mm",
    "More darkness by",
    "of darkness to the millimetre",
    "one more brings less than",
)
"""Told in the unit that their own fields name."""


@pytest.fixture
def elsewhere(make_window: Callable[[], BenchWindow], lying: Lying, qtbot: QtBot) -> BenchWindow:
    window = make_window()
    window.preferences.change(manner=ELSEWHERE)
    window.bench.lay(lying)
    qtbot.waitUntil(lambda: window.workings.plan is not None, timeout=60_000)
    qtbot.waitUntil(lambda: window.top.paper.fine, timeout=60_000)
    return window


def told(root: QWidget) -> Iterator[str]:
    for widget in (root, *root.findChildren(QWidget)):
        yield from (widget.accessibleName(), widget.accessibleDescription(), widget.toolTip())
        if isinstance(widget, QLabel | QAbstractButton):
            yield widget.text()
        elif isinstance(widget, QLineEdit):
            yield from (widget.text(), widget.placeholderText())
        elif isinstance(widget, QComboBox):
            yield from (widget.itemText(row) for row in range(widget.count()))
        elif isinstance(widget, QTableWidget):
            cells = (
                widget.item(row, column)
                for row in range(widget.rowCount())
                for column in range(widget.columnCount())
            )
            heads = (widget.horizontalHeaderItem(column) for column in range(widget.columnCount()))
            yield from (item.text() for item in (*cells, *heads) if item is not None)
    yield from (action.text() for action in root.actions())


def bypasses(root: QWidget, pattern: re.Pattern[str]) -> list[str]:
    if isinstance(root, PreferencesPage):
        return []  # it shows how each manner writes
    return [
        text
        for text in told(root)
        if pattern.search(text) and not any(kept in text for kept in KEPT)
    ]


def test_the_window_has_no_point_and_no_other_unit(elsewhere: BenchWindow) -> None:
    texts = list(told(elsewhere))
    assert any("L*" in text for text in texts)
    assert any(re.search(r"\d,\d", text) for text in texts)
    assert bypasses(elsewhere, POINT) == []
    assert bypasses(elsewhere, METRIC) == []
