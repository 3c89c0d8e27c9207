"""The ground against published formulas and against grounds laid disc by disc."""

from functools import cache

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.ndimage import distance_transform_edt

from toneladder.bite.grain import Grain, edge_length, grown_coverage, land, land_and_edge

# Chiu, Stoyan, Kendall and Mecke, Stochastic Geometry and its Applications (2013), ch. 3, equal
# discs of radius r; computed apart from this program: coverage, mean overlap, edge times r
EQUAL_DISCS = [
    (0.2, 0.223144, 0.357030),
    (0.3, 0.356675, 0.499345),
    (0.4, 0.510826, 0.612991),
    (0.5, 0.693147, 0.693147),
    (0.6, 0.916291, 0.733033),
    (0.7, 1.203973, 0.722384),
]

# The same source: coverage, growth in radii, coverage afterwards
GROWN = [
    (0.4, -0.2, 0.278865),
    (0.5, -0.2, 0.358287),
    (0.6, -0.2, 0.443688),
    (0.4, 0.2, 0.520777),
    (0.5, 0.2, 0.631433),
    (0.6, 0.2, 0.732720),
    (0.5, -0.5, 0.159104),
    (0.5, -0.1, 0.429618),
    (0.5, 0.1, 0.567731),
    (0.5, 0.5, 0.789776),
]

RADIUS_PX = 16
SIDE_PX = 2400
REACH_PX = 40

# By how much a pixel's distance to the nearest open pixel exceeds its depth under the edge,
# measured on lone discs, where the depth is known
PIXEL_DEPTHS = [0.0, 1.0, 2.0, 4.0, 10.0, 30.0]
PIXEL_EXCESS = [0.0, 0.44, 0.37, 0.31, 0.22, 0.13]
STEPS = np.arange(0.1, 1.15, 0.1)

GROUNDS = st.builds(
    Grain,
    coverage=st.floats(0.05, 0.9),
    diameter_um=st.floats(10.0, 200.0),
    spread=st.floats(0.0, 0.8),
)


@pytest.mark.parametrize(("coverage", "overlap", "edge"), EQUAL_DISCS)
def test_an_unbitten_ground_has_the_published_overlap_and_edge(
    coverage: float, overlap: float, edge: float
) -> None:
    grain = Grain(coverage, 2.0, 0.0)
    assert grain.overlap == pytest.approx(overlap, abs=6e-7)
    assert edge_length(0.0, grain) == pytest.approx(edge, abs=6e-7)


def test_the_edge_is_longest_at_the_published_coverage() -> None:
    # 2/e at a coverage of 1 - 1/e, the same source
    assert edge_length(0.0, Grain(1.0 - np.exp(-1.0), 2.0, 0.0)) == pytest.approx(
        0.735759, abs=6e-7
    )


@pytest.mark.parametrize(("coverage", "growth", "expected"), GROWN)
def test_grains_grow_and_shrink_as_published(
    coverage: float, growth: float, expected: float
) -> None:
    assert grown_coverage(growth, Grain(coverage, 2.0, 0.0)) == pytest.approx(expected, abs=6e-7)


def test_a_half_covered_ground_has_the_published_number_of_grains() -> None:
    # radius 25 µm: 353.02 grains and 27.726 mm of edge to the square millimetre, the same source
    grain = Grain(0.5, 50.0, 0.0)
    assert grain.per_um2 * 1e6 == pytest.approx(353.02, abs=6e-3)
    assert edge_length(0.0, grain) * 1e3 == pytest.approx(27.726, abs=6e-4)


def test_mixed_grains_cover_as_published() -> None:
    # mean radius 50 µm, coefficient of variation 0.5, 64 to the square millimetre, cover 0.466512
    grain = Grain(0.466512, 100.0, float(np.sqrt(np.log(1.25))))
    assert grain.per_um2 * 1e6 == pytest.approx(64.0, abs=1e-3)


@given(GROUNDS)
def test_nothing_is_lost_before_the_bite(grain: Grain) -> None:
    assert land(0.0, grain) == pytest.approx(grain.coverage, abs=1e-12)


@given(GROUNDS)
def test_land_only_shrinks_and_the_edge_is_its_loss(grain: Grain) -> None:
    undercut = np.linspace(0.0, 2.0, 4001) * grain.mean_radius_um
    standing, edge = land_and_edge(undercut, grain)
    assert np.all(np.diff(standing) <= 1e-12)
    assert np.all((standing >= 0.0) & (edge >= 0.0))
    lost = np.sum((edge[1:] + edge[:-1]) / 2.0 * np.diff(undercut))
    assert lost == pytest.approx(float(standing[0] - standing[-1]), rel=2e-3)


@given(GROUNDS, st.floats(0.0, 1.0))
def test_a_whole_ground_keeps_more_than_its_grains_one_by_one(grain: Grain, radii: float) -> None:
    undercut = radii * grain.mean_radius_um
    assert land(undercut, grain) >= grown_coverage(-undercut, grain) - 1e-12


@pytest.mark.parametrize("coverage", [0.3, 0.5, 0.7])
@pytest.mark.parametrize("spread", [0.0, 0.4, 0.5])
def test_land_is_that_of_simulated_grounds(coverage: float, spread: float) -> None:
    left = _simulated_land(coverage, spread)
    grain = Grain(left[0], 2.0, spread)
    assert np.abs(land(STEPS[:10], grain) - left[1:11]).max() <= 0.02


@pytest.mark.parametrize("coverage", [0.3, 0.5, 0.7])
@pytest.mark.parametrize(("spread", "farthest"), [(0.0, 0.8), (0.4, 1.0), (0.5, 1.0)])
def test_edge_is_that_of_simulated_grounds(coverage: float, spread: float, farthest: float) -> None:
    # the edge at t is how fast land is lost there: the loss from t - 0.1 to t + 0.1
    left = _simulated_land(coverage, spread)
    at = np.arange(0.1, farthest + 0.05, 0.1)
    edge = edge_length(at, Grain(left[0], 2.0, spread))
    simulated = (left[:-2] - left[2:])[: at.size] / 0.2
    assert np.abs(edge / simulated - 1.0).max() <= 0.05


def test_simulated_grounds_do_not_shrink_grain_by_grain() -> None:
    """Without the correction the formula would fail the tests above."""
    left = _simulated_land(0.7, 0.4)
    bare_formula = grown_coverage(-STEPS[:10], Grain(left[0], 2.0, 0.4))
    assert np.abs(bare_formula - left[1:11]).max() > 0.05


@cache
def _simulated_land(coverage: float, spread: float) -> NDArray[np.float64]:
    """Land left after 0, 0.1, 0.2 ... mean radii, of grounds laid disc by disc and eaten in."""
    inner = slice(REACH_PX, -REACH_PX)
    fine = np.arange(0.0, REACH_PX, 0.1)
    deeper = np.zeros(fine.size)
    for seed in (3, 4):
        away = distance_transform_edt(_laid(coverage, spread, np.random.default_rng(seed)))
        away = away[inner, inner]
        depth = away - np.interp(away, PIXEL_DEPTHS, PIXEL_EXCESS)
        counts = np.histogram(depth, np.append(fine, np.inf))[0]
        deeper += np.cumsum(counts[::-1])[::-1] / counts.sum() / 2.0
        deeper[0] += np.mean(away > 0.0) / 2.0 - np.mean(depth >= 0.0) / 2.0
    smooth = np.convolve(deeper, np.full(21, 1.0 / 21.0), mode="same")
    return np.append(deeper[0], np.interp(STEPS * RADIUS_PX, fine, smooth))


def _laid(coverage: float, spread: float, rng: np.random.Generator) -> NDArray[np.bool_]:
    """A ground of log-normal discs of mean radius ``RADIUS_PX``, falling anywhere."""
    mean_square = RADIUS_PX**2 * np.exp(spread**2)
    margin = int(RADIUS_PX * np.exp(4.0 * spread)) + 1
    whole = SIDE_PX + 2 * margin
    grains = rng.poisson(-np.log1p(-coverage) / (np.pi * mean_square) * whole**2)
    radii = RADIUS_PX * np.exp(spread * rng.standard_normal(grains) - spread**2 / 2.0)
    ground = np.zeros((SIDE_PX, SIDE_PX), dtype=np.bool_)
    for (x, y), radius in zip(
        rng.uniform(-margin, SIDE_PX + margin, (grains, 2)), radii, strict=True
    ):
        first_x, first_y = max(int(x - radius), 0), max(int(y - radius), 0)
        piece = ground[first_y : max(int(y + radius) + 2, 0), first_x : max(int(x + radius) + 2, 0)]
        down, along = (
            np.arange(n) + o for n, o in zip(piece.shape, (first_y - y, first_x - x), strict=True)
        )
        piece |= down[:, np.newaxis] ** 2 + along**2 <= radius**2
    return ground
