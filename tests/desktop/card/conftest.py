"""What the tests of the card share."""

from collections.abc import Callable
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from toneladder_desktop.fittings.choice import Choice
from toneladder_desktop.fittings.field import Field

Types = Callable[[Field[Any], str], None]
Chooses = Callable[[Choice[Any], str], None]


@pytest.fixture
def types() -> Types:
    """Type into a field and press Enter."""

    def type_into(field: Field[Any], text: str) -> None:
        field.line.setFocus()
        field.line.clear()
        QTest.keyClicks(field.line, text)
        QTest.keyClick(field.line, Qt.Key.Key_Return)

    return type_into


@pytest.fixture
def chooses() -> Chooses:
    """Choose from a list by its words."""

    def choose_from(choice: Choice[Any], words: str) -> None:
        listed = [choice.list.itemText(row) for row in range(choice.list.count())]
        choice.list.activated.emit(listed.index(words))

    return choose_from
