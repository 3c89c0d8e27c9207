"""The covariance of what the model may miss."""

import numpy as np
import pytest
from scipy.special import gamma, kv

from toneladder.bite.fitting import Scatter, Session
from toneladder.bite.fitting.doubt import Places, covariance, variance
from toneladder.bite.fitting.plate_scatter import first_law

LAW = first_law([Session(()), Session((), proof=True)], 0, Scatter())
ONE = first_law([Session(())], 0, Scatter())


def places(bites: list[float], session: list[int], slope: float = -15.0) -> Places:
    count = len(bites)
    return Places(
        np.array(bites), np.array(session), np.linspace(88.0, 20.0, count), np.full(count, slope)
    )


def test_it_is_a_covariance_and_its_diagonal_is_the_variance() -> None:
    every = places([0.0, 15.0, 60.0, 240.0, 15.0, 60.0, 60.0], [0, 0, 0, 0, 1, 1, 2])
    table = covariance(every, every, LAW)
    assert table == pytest.approx(table.T)
    assert np.linalg.eigvalsh(table).min() > -1e-9
    assert np.diag(table) == pytest.approx(variance(every, LAW))


def test_the_warp_of_time_is_of_the_published_family() -> None:
    """Rasmussen and Williams 2006, equation 4.14, smoothness 5/2; Bessel function from scipy."""
    bites = np.array([10.0, 25.0, 80.0, 400.0])
    strip, black = np.zeros(4, dtype=np.intp), np.full(4, 14.0)
    steep, level = (
        covariance(here, here, ONE)
        for here in (Places(bites, strip, black, np.full(4, slope)) for slope in (10.0, 0.0))
    )
    axis = np.log(bites + 6.0)
    slowing = np.outer(*[0.14 * (axis - np.log(66.0))] * 2)
    warp = ((steep - level) / 10.0**2 - slowing) / 0.15**2
    apart = np.abs(np.subtract.outer(axis, axis)) / 1.5
    scaled = np.sqrt(5.0) * apart + 1e-9
    wanted = 2.0**-1.5 / gamma(2.5) * scaled**2.5 * kv(2.5, scaled)
    assert warp == pytest.approx(wanted, abs=1e-6)


def test_a_level_curve_leaves_no_doubt_about_time() -> None:
    level = places([300.0, 600.0], [2, 2], slope=0.0)
    steep = places([300.0, 600.0], [2, 2], slope=-20.0)
    assert np.all(variance(level, LAW) < 0.6 * variance(steep, LAW))


def test_two_patches_of_one_plate_share_its_luck_and_two_plates_do_not() -> None:
    here, same, other = (places([60.0], [session]) for session in (1, 1, 2))
    assert covariance(here, same, LAW)[0, 0] > covariance(here, other, LAW)[0, 0]
