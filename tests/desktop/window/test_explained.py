"""Figures that are not the etcher's own say what they are, and what they rest on."""

import pytest
from PySide6.QtWidgets import QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from toneladder.handbook.numbers import Source, number
from toneladder_desktop.fittings.explaining import explanation_of
from toneladder_desktop.fittings.field import Field
from toneladder_desktop.ladder.figures import source_of
from toneladder_desktop.window.bench_window import BenchWindow

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")

SOURCES = tuple(f"Source: {source.value}." for source in Source)


def explained(parent: QWidget) -> list[QWidget]:
    return [part for part in parent.findChildren(QWidget) if explanation_of(part)]


def test_every_explanation_names_its_source_to_pointer_and_reader(window: BenchWindow) -> None:
    parts = explained(window.top.card)
    assert len(parts) >= 25
    for part in parts:
        text = explanation_of(part)
        assert any(source in text for source in SOURCES), text
        assert part.accessibleDescription() == text
        owner = part.parentWidget()
        assert owner is not None
        assert text.split(".")[0][:20] in owner.toolTip() + part.toolTip()


def test_every_field_with_an_assumed_figure_is_explained(planned: BenchWindow) -> None:
    """What stands in a field of pace, brush, lines, soft passages before anybody typed it."""
    top = planned.top
    for decision in (top.pace, top.steps, top.lines, top.soft, top.greys):
        lines = [field.line for field in decision.findChildren(Field)]
        assert lines
        assert [
            line.accessibleName()
            for line in lines
            if not explanation_of(line) and line is not top.steps.start.line
        ] == []


def test_a_fault_is_told_instead_and_then_the_explanation_again(planned: BenchWindow) -> None:
    line = planned.top.steps.mark.line
    assert isinstance(line, QLineEdit)
    line.setText("wide")
    planned.top.steps.mark.commit()
    assert line.accessibleDescription() == planned.top.steps.mark.fault.text() != ""
    line.setText("1.2 mm")
    planned.top.steps.mark.commit()
    assert line.accessibleDescription() == number("brush.mark_mm").text


def test_bites_on_the_ladder_say_whether_a_strip_stands_behind_them(
    planned: BenchWindow, qtbot: QtBot
) -> None:
    qtbot.waitActive(planned)
    ladder = planned.top.ladder
    shown = ladder._shown()
    assert shown is not None
    content, layout = shown
    row, columns = layout.rungs[1].row, layout.columns
    told = ladder.figures.told_at(columns.text + 2.0, row.middle)
    assert told == number("curve.untested").text
    assert "strip" in told
    assert ladder.figures.told_at(columns.text + 2.0, layout.rungs[0].row.middle) == ""
    assert ladder.figures.told_at(columns.strip + 2.0, row.middle) == ""
    assert source_of(content) == "curve.untested"
