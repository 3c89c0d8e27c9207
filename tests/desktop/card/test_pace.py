"""The pace on the card: rates typed and told in the units somebody prefers."""

from collections.abc import Callable
from typing import Any

import pytest

from toneladder.order.values import Rates
from toneladder.quantities import Manner
from toneladder_desktop.fittings.explaining import explanation_of
from toneladder_desktop.fittings.field import Field
from toneladder_desktop.window.bench_window import BenchWindow

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")


def rates(window: BenchWindow) -> Rates:
    assert window.bench.plate is not None
    return window.bench.plate.rates


def test_rates_are_told_and_typed_in_inches_where_they_are_preferred(
    planned: BenchWindow, types: Callable[[Field[Any], str], None]
) -> None:
    pace = planned.top.pace
    planned.top.card.open(pace)
    fill, border = (pace.fields[name] for name in ("fill_cm2_per_min", "border_cm_per_min"))
    assert (fill.label.text(), fill.line.text()) == ("Fill, cm²/min", "3")
    planned.preferences.change(manner=Manner(imperial=True))
    # 1 in = 2.54 cm exactly: 3 cm² are 0.465 in², 6 cm are 2.362 in
    assert (fill.label.text(), fill.line.text()) == ("Fill, in²/min", "0.47")
    assert (border.label.text(), border.line.text()) == ("Border, in/min", "2.36")
    head = next(row.head for row in planned.top.card.rows if row.head.text() == "Pace")
    assert head._answer.replace("\xa0", " ") == "0.47 in² a minute"
    assert "usually 0.47 in²" in explanation_of(fill.line).replace("\xa0", " ")
    assert "usually 2.36 in" in explanation_of(border.line).replace("\xa0", " ")
    types(border, "2.36")
    assert rates(planned).border_cm_per_min == 6.0
    types(fill, "2")
    assert rates(planned).fill_cm2_per_min == pytest.approx(2 * 2.54**2)
    assert fill.line.text() == "2"
    types(fill, "0")
    assert "outside" in fill.fault.text()
    types(fill, "1,5")
    planned.preferences.change(manner=Manner())
    assert fill.line.text() == "9.677"
