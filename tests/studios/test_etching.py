"""The simulated studios themselves: honest, varied, and not the program's own model."""

import numpy as np
import pytest
from tests.studios.etching import DEPTHS_UM, printed_by_depth, white
from tests.studios.shops import all_shops

from toneladder.bite.print_model import printed_lightness
from toneladder.bite.starting_points import starting_point


def test_there_are_twelve_different_grounds_and_baths_at_least() -> None:
    studios = [shop.studio for shop in all_shops()]
    assert len({(s.coverage, s.diameter_um, s.spread, s.rate_um_per_min) for s in studios}) >= 12
    assert len({(s.conditions.metal, s.conditions.mordant) for s in studios}) >= 4


def test_the_kept_table_is_what_the_etching_gives() -> None:
    shop = all_shops()[1]
    some = [4, 30, 44]
    again = printed_by_depth(shop.studio, shop.seed, DEPTHS_UM[some])
    assert again == pytest.approx(shop.by_depth[some], abs=1e-3)


def test_every_studio_prints_white_first_and_gets_dark() -> None:
    for shop in all_shops():
        assert float(shop.prints(0.0)) == white(shop.studio)
        fallen = np.minimum.accumulate(shop.by_depth)
        assert np.all(shop.by_depth - fallen < 8.0)  # one or two get a little lighter past black
        assert fallen[-1] < 36.0
        assert 86.0 < white(shop.studio) < 95.0


def test_no_studio_prints_as_the_model_of_its_bath_says() -> None:
    bites = np.array([15.0, 60.0, 240.0, 480.0])
    for shop in all_shops():
        model = starting_point(shop.studio.conditions).model
        assert np.abs(shop.prints(bites) - printed_lightness(bites, model)).max() > 2.0
