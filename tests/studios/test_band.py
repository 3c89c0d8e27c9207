"""The band is for the next plate, and as wide as it has to be: no more, no less."""

import numpy as np
import pytest
from tests.studios.trial import five_plates, tones_hit


@pytest.mark.parametrize(
    "patches", [tuple(range(8)), (0, 1, 3, 5), (1, 3)], ids=["eight", "four", "two"]
)
def test_the_band_holds_nine_tones_in_ten_of_plates_that_stray(patches: tuple[int, ...]) -> None:
    """Plates stray by 10 % in time and 1.5 L* in tone, one standard deviation."""
    table = tones_hit(patches, seeds=6 if len(patches) == 8 else 5)
    assert 0.85 <= table.cover <= 0.97
    assert table.worst_cover >= 0.70


def test_one_bad_patch_does_not_make_the_band_a_lie() -> None:
    table = tones_hit(one_bad=True)
    assert 0.85 <= table.cover <= 0.97
    assert table.worst_cover >= 0.70


def test_after_five_plates_the_band_is_narrower_and_still_holds() -> None:
    series = five_plates()
    assert 0.85 <= np.mean(series.held_after) <= 0.95
    assert np.mean(series.width_after) < np.mean(series.width_first)
