"""A typed quantity is read as people write it, and a fault stands under it."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from toneladder.errors import PlanError
from toneladder.quantities import read_length, write_length
from toneladder_desktop.fittings.field import Field

pytestmark = pytest.mark.qt_log_ignore("propagateSizeHints")


class Form(QWidget):
    """A field that shows what it took, and another place to go to."""

    def __init__(self) -> None:
        super().__init__()
        self.taken: list[float] = []
        self.field = Field("Margin", read_length, self.take, parent=self)
        self.other = QLineEdit(self)
        rows = QVBoxLayout(self)
        rows.addWidget(self.field)
        rows.addWidget(self.other)
        self.field.show_value("50 mm")
        self.acts = 0

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """A page whose act is on Enter."""
        if event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            self.acts += 1

    def take(self, mm: float) -> None:
        if mm > 500.0:
            raise PlanError("No paper is that wide.")
        self.taken.append(mm)
        self.field.show_value(write_length(mm).replace("\N{NO-BREAK SPACE}", " "))

    def type(self, text: str) -> None:
        self.field.line.selectAll()
        QTest.keyClicks(self.field.line, text)


@pytest.fixture
def form(qtbot: QtBot) -> Form:
    form = Form()
    qtbot.addWidget(form)
    form.show()
    form.activateWindow()
    qtbot.waitActive(form)
    form.field.setFocus()
    return form


@pytest.mark.parametrize("typed", ["12,5 mm", "12.5", "1.25 cm"])
def test_comma_and_point_are_read_alike(form: Form, typed: str) -> None:
    form.type(typed)
    QTest.keyClick(form.field.line, Qt.Key.Key_Return)
    assert form.taken == [12.5]
    assert form.field.line.text() == "12.5 mm"


def test_leaving_takes_the_answer(form: Form) -> None:
    form.type("30")
    form.other.setFocus()
    assert form.taken == [30.0]


def test_what_cannot_be_read_is_said_under_it_and_nothing_is_taken(form: Form) -> None:
    form.type("a thumb")
    QTest.keyClick(form.field.line, Qt.Key.Key_Return)
    assert form.taken == []
    assert form.field.fault.isVisible()
    assert "a thumb" in form.field.fault.text()
    assert form.field.line.accessibleDescription() == form.field.fault.text()
    assert form.field.line.text() == "a thumb"


def test_a_refusal_is_said_under_it_too(form: Form) -> None:
    form.type("9000")
    QTest.keyClick(form.field.line, Qt.Key.Key_Return)
    assert form.field.fault.text() == "No paper is that wide."


def test_escape_brings_the_old_answer_back(form: Form) -> None:
    form.type("a thumb")
    QTest.keyClick(form.field.line, Qt.Key.Key_Return)
    QTest.keyClick(form.field.line, Qt.Key.Key_Escape)
    assert form.field.line.text() == "50 mm"
    assert not form.field.fault.isVisible()


def test_an_unchanged_answer_is_not_taken_again(form: Form) -> None:
    QTest.keyClick(form.field.line, Qt.Key.Key_Return)
    form.other.setFocus()
    assert form.taken == []


@pytest.mark.parametrize("key", [Qt.Key.Key_Return, Qt.Key.Key_Enter])
@pytest.mark.parametrize("typed", ["30 mm", "a thumb", "50 mm"])
def test_enter_settles_the_field_and_never_does_the_act_of_its_page(
    form: Form, typed: str, key: Qt.Key
) -> None:
    form.type(typed)
    QTest.keyClick(form.field.line, key)
    assert form.acts == 0
    QTest.keyClick(form, key)
    assert form.acts == 1


def test_a_question_may_be_put_in_another_unit(form: Form) -> None:
    form.field.ask("Margin, in")
    assert form.field.line.accessibleName() == form.field.label.text() == "Margin, in"
