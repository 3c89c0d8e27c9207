"""Factors and scales beside an independent library of units.

Numbers as people type them are never given to it: it reads "1,5 mm" as 15 mm.
"""

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.quantities import read_bite, read_length, read_temperature

UNITS: pint.UnitRegistry[float] = pint.UnitRegistry()


@pytest.mark.parametrize("unit", ["mm", "cm", "in"])
@given(number=st.floats(0.1, 90.0).map(lambda x: round(x, 3)))
def test_lengths_are_converted_as_the_library_converts_them(unit: str, number: float) -> None:
    expected = UNITS.Quantity(number, unit).to("mm").magnitude
    assert read_length(f"{number:g} {unit}") == pytest.approx(expected)


@given(st.floats(34.0, 138.0).map(lambda x: round(x, 1)))
def test_fahrenheit_is_converted_as_the_library_converts_it(number: float) -> None:
    expected = UNITS.Quantity(number, "degF").to("degC").magnitude
    assert read_temperature(f"{number:g} °F") == pytest.approx(expected)


@given(st.integers(1, 90).map(float))
def test_minutes_are_converted_as_the_library_converts_them(number: float) -> None:
    assert read_bite(f"{number:g} min") == UNITS.Quantity(number, "minute").to("s").magnitude
