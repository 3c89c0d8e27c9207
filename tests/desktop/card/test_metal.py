"""The plate on the card: common sizes, and a strip in the margin."""

from collections.abc import Callable
from typing import Any

import pytest

from toneladder.quantities import Manner
from toneladder.strip.values import Edge, MarginStrip
from toneladder_desktop.fittings.choice import Choice
from toneladder_desktop.fittings.field import Field
from toneladder_desktop.window.bench_window import BenchWindow

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")


def offered(choice: Choice[Any]) -> list[str]:
    texts = [choice.list.itemText(row) for row in range(choice.list.count())]
    return [text.replace("\N{NO-BREAK SPACE}", " ") for text in texts]


def test_common_sizes_lie_or_stand_as_the_picture_does(planned: BenchWindow) -> None:
    plate, bench = planned.top.plate, planned.bench
    planned.top.card.open(plate)
    assert plate.common.list.currentIndex() == -1
    assert "200 × 150 mm" in offered(plate.common)
    plate.common.list.activated.emit(offered(plate.common).index("200 × 150 mm"))
    assert bench.plate is not None
    assert (bench.plate.size.width_mm, bench.plate.size.height_mm) == (200.0, 150.0)
    assert plate.sides.line.text().replace("\N{NO-BREAK SPACE}", " ") == "200 × 150 mm"
    planned.top.picture.turn.click()
    assert "150 × 200 mm" in offered(plate.common)
    assert plate.common.list.currentText().replace("\N{NO-BREAK SPACE}", " ") == "150 × 200 mm"
    planned.preferences.change(manner=Manner(imperial=True))
    assert "5 × 7 in" in offered(plate.common)
    assert not any(text.endswith("mm") for text in offered(plate.common))


def margin_of(window: BenchWindow) -> MarginStrip | None:
    assert window.bench.plate is not None
    return window.bench.plate.margin_strip


def test_a_strip_in_the_margin_has_an_edge_and_a_width(
    planned: BenchWindow,
    chooses: Callable[[Choice[Any], str], None],
    types: Callable[[Field[Any], str], None],
) -> None:
    plate, bench = planned.top.plate, planned.bench
    planned.top.card.open(plate)
    assert not plate.wide.isVisible()
    chooses(plate.edge, "right")
    assert margin_of(planned) == MarginStrip(Edge.RIGHT)
    types(plate.wide, "1,2 cm")
    assert margin_of(planned) == MarginStrip(Edge.RIGHT, 12.0)
    types(plate.wide, "1 mm")
    assert "outside" in plate.wide.fault.text()
    chooses(plate.edge, "none")
    assert margin_of(planned) is None
    assert bench.undo.undoText() == "No strip in the margin"
