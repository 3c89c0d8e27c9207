"""Tones chosen exactly, beside an independent solver and a printed table."""

import csv
from itertools import pairwise
from pathlib import Path

import kmeans1d
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy import special

from toneladder.tones.choose import Demand, even_levels, levels_following

STEPS = np.linspace(92.0, 18.0, 256)
PAPER, DEEPEST = 92.0, 18.0


def histogram(seed: int) -> NDArray[np.float64]:
    """Cells of an invented picture: a few hills of light and dark, some steps empty."""
    rng = np.random.default_rng(seed)
    hills = sum(
        rng.uniform(0.2, 1.0) * np.exp(-(((STEPS - rng.uniform(20, 90)) / rng.uniform(3, 25)) ** 2))
        for _ in range(4)
    )
    return np.floor(40.0 * hills * rng.random(256))


@pytest.mark.parametrize("seed", range(10))
def test_no_other_tones_are_nearer_to_the_picture(seed: int) -> None:
    # independent optimum: kmeans1d, which implements Grønlund et al. 2017
    weights = histogram(seed)
    cells = np.repeat(STEPS, weights.astype(int))
    found = levels_following(STEPS, weights, range(2, 13), Demand())
    for count in range(2, 13):
        clusters, centres = kmeans1d.cluster(cells.tolist(), count)
        best = float(np.sum((cells - np.array(centres)[clusters]) ** 2))
        assert found[count].error == pytest.approx(best, rel=1e-9, abs=1e-9)


# [Max1960] table I for the unit Gaussian, printed to four digits; the file holds the same table
# worked out to nine.
TABLE = Path(__file__).parents[2] / "data" / "gaussian_quantisers.csv"


def printed_table() -> dict[int, tuple[list[float], list[float]]]:
    """Levels and partings for each number of tones."""
    table: dict[int, tuple[list[float], list[float]]] = {}
    with TABLE.open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            levels, partings = table.setdefault(int(row["N"]), ([], []))
            levels.append(float(row["level"]))
            partings.append(float(row["upper_threshold"]))
    return table


@pytest.mark.parametrize("count", range(2, 11))
def test_a_gaussian_is_parted_as_the_printed_table_says(count: int) -> None:
    levels, partings = printed_table()[count]
    edges = np.unique(np.concatenate([np.linspace(-6.0, 6.0, 241), partings[:-1]]))
    share = np.diff(special.ndtr(edges))
    density = np.exp(-(edges**2) / 2.0) / np.sqrt(2.0 * np.pi)
    means = -np.diff(density) / share
    found = levels_following(means, share, [count], Demand())[count]
    assert found.levels[::-1] == pytest.approx(levels, abs=5e-4)


# [WangSong2011] worked examples, brute force over every partition gives the same
EXAMPLES = [
    ((4, 4.1, 4.2, -50, 200.2, 200.4, 200.9, 80, 100, 102), 4, (200.5, 94, 4.1, -50), 296.28),
    ((1, 2, 3, 10, 11, 12, 20, 21, 22), 3, (21, 11, 2), 6.0),
    ((-1, 2, -1, 2, 4, 5, 6, -1, 2, -1), 3, (5, 2, -1), 2.0),
]


@pytest.mark.parametrize(("values", "count", "levels", "error"), EXAMPLES)
def test_worked_examples_come_out(
    values: tuple[float, ...], count: int, levels: tuple[float, ...], error: float
) -> None:
    found = levels_following(np.array(values), np.ones(len(values)), [count], Demand())[count]
    assert found.levels == pytest.approx(levels)
    assert found.error == pytest.approx(error)


def brute_force(x: NDArray[np.float64], w: NDArray[np.float64], count: int, want: Demand) -> float:
    """Least error over every way to cut the steps, by trying them all."""
    from itertools import combinations_with_replacement

    best = np.inf
    for cuts in combinations_with_replacement(range(len(x) + 1), count - 1):
        ends = (0, *cuts, len(x))
        levels, error = [], 0.0
        for k in range(count):
            piece = slice(ends[k], ends[k + 1])
            pin = want.paper if k == 0 else want.deepest if k == count - 1 else None
            if pin is None and not w[piece].sum():
                break
            level = np.average(x[piece], weights=w[piece]) if pin is None else pin
            levels.append(level)
            error += float(np.sum(w[piece] * (x[piece] - level) ** 2))
        else:
            if all(a - b >= want.gap - 1e-12 for a, b in pairwise(levels)):
                best = min(best, error)
    return best


@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize("gap", [0.0, 8.0])
def test_pins_and_gap_are_kept_and_nothing_nearer_is_missed(seed: int, gap: float) -> None:
    rng = np.random.default_rng(seed)
    x = -np.sort(-rng.uniform(DEEPEST, PAPER, 9))
    w = rng.integers(1, 50, 9).astype(float)
    want = Demand(PAPER, DEEPEST, gap)
    found = levels_following(x, w, range(2, 6), want)
    for count in range(2, 6):
        best = brute_force(x, w, count, want)
        if not np.isfinite(best):
            assert count not in found
            continue
        levels = np.array(found[count].levels)
        assert (levels[0], levels[-1]) == (PAPER, DEEPEST)
        assert np.all(-np.diff(levels) >= gap - 1e-9)
        assert found[count].error <= best + 1e-6


@given(st.integers(0, 1000), st.floats(25.0, 85.0), st.integers(3, 8))
def test_a_held_parting_is_a_parting(seed: int, parting: float, count: int) -> None:
    want = Demand(PAPER, DEEPEST, 0.0, (parting,))
    found = levels_following(STEPS, histogram(seed) + 1.0, [count], want)[count]
    assert parting in found.partings
    assert list(found.partings) == sorted(found.partings, reverse=True)


@given(st.integers(0, 1000), st.floats(25.0, 85.0), st.integers(3, 8), st.data())
def test_a_held_bite_keeps_its_lightness(
    seed: int, level: float, count: int, data: st.DataObject
) -> None:
    tone = data.draw(st.integers(1, count - 2))
    want = Demand(PAPER, DEEPEST, 0.0, (), ((tone, level),))
    found = levels_following(STEPS, histogram(seed) + 1.0, [count], want)[count]
    assert found.levels[tone] == level


def test_even_steps_are_even_and_a_gap_leaves_fewer() -> None:
    weights = np.ones(256)
    even = even_levels(STEPS, weights, 5, PAPER, DEEPEST, Demand())
    assert np.diff(even.levels) == pytest.approx([-18.5] * 4)
    fewer = even_levels(STEPS, weights, 12, PAPER, DEEPEST, Demand(gap=10.0))
    assert fewer.count == 8
    assert even_levels(STEPS, weights, 12, PAPER, DEEPEST, Demand(gap=6.0)).count == 12


def test_a_picture_with_fewer_greys_than_tones_gives_fewer_tones() -> None:
    weights = np.zeros(256)
    weights[[10, 120, 240]] = 100.0
    found = levels_following(STEPS, weights, range(2, 13), Demand())
    assert max(found) == 3
