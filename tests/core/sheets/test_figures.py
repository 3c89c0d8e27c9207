"""Many numbers at once are written as each of them is."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as some

from toneladder.sheets.figures import figure, figures

MILLIMETRES = some.floats(-2000.0, 2000.0)
HALF_WAY = some.integers(-2_000_000, 2_000_000).map(lambda n: (n + 0.5) / 1000.0)


@given(some.lists(MILLIMETRES | HALF_WAY))
def test_many_numbers_are_written_as_each_of_them_is(numbers: list[float]) -> None:
    assert figures(np.array(numbers, dtype=np.float64)) == [figure(one) for one in numbers]


@given(MILLIMETRES)
def test_what_is_written_is_the_number_to_a_thousandth(number: float) -> None:
    assert float(figure(number)) == round(number, 3)
