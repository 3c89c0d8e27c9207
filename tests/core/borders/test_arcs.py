"""Borders as lines, beside scikit-image: its polygons filled again, its contours."""

from itertools import combinations, pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import array_shapes, arrays
from numpy.typing import NDArray
from scipy.spatial import cKDTree
from skimage.draw import polygon2mask
from skimage.measure import find_contours

from toneladder.borders.arcs import OUTSIDE, Arc, border_arcs, rings, trace
from toneladder.optics import FloatArray
from toneladder.tones.parting import ToneArray

# Saddles, islands of one cell, tones at the plate's edge and plates of one tone are all frequent.
PLATES = arrays(
    np.uint8,
    array_shapes(min_dims=2, max_dims=2, max_side=9),
    elements=st.integers(0, 3),
    fill=st.integers(0, 3),
)
PX_PER_MM = st.sampled_from([1.0, 3.0, 7.9, 8.0])


def filled(
    outlines: tuple[FloatArray, ...], shape: tuple[int, int], px: float
) -> NDArray[np.bool_]:
    """The cells whose middle is inside, by the even-odd rule."""
    inside = np.zeros(shape, dtype=np.bool_)
    for ring in outlines:
        inside ^= polygon2mask(shape, ring[:, ::-1] * px - 0.5)
    return inside


def area(outlines: tuple[FloatArray, ...]) -> float:
    return sum(
        float(np.sum(x * np.roll(y, -1) - y * np.roll(x, -1))) / 2.0
        for x, y in (ring.T for ring in outlines)
    )


def walked(arc: Arc) -> FloatArray:
    """Its points, the first once more if it is closed."""
    return np.vstack([arc.points, arc.points[:1]]) if arc.closed else arc.points


def close_set(line: FloatArray, apart: float) -> FloatArray:
    pieces = [
        a + (b - a) * np.linspace(0.0, 1.0, 2 + int(np.hypot(*(b - a)) / apart))[:, None]
        for a, b in pairwise(line)
    ]
    return np.concatenate(pieces)


@given(PLATES, PX_PER_MM)
def test_every_cell_lies_on_its_own_side(tones: ToneArray, px: float) -> None:
    arcs = trace(tones, px)
    for tone in range(4):
        outline = rings(arcs, (tone,))
        assert np.array_equal(filled(outline, tones.shape, px), tones == tone)


@given(PLATES)
def test_between_the_cells_too_every_point_has_one_tone(tones: ToneArray) -> None:
    arcs = trace(tones, 1.0)
    shape = (7 * tones.shape[0], 7 * tones.shape[1])
    how_often = sum(filled(rings(arcs, (k,)), shape, 7.0).astype(int) for k in range(4))
    assert np.all(how_often == 1)


@given(PLATES, PX_PER_MM)
def test_areas_add_up_to_the_plate(tones: ToneArray, px: float) -> None:
    arcs = trace(tones, px)
    areas = [area(rings(arcs, (tone,))) for tone in range(4)]
    assert sum(areas) == pytest.approx(tones.size / px**2, rel=1e-9)
    assert min(areas) >= 0.0


@given(PLATES, st.integers(1, 3))
def test_what_a_step_covers_is_the_sum_of_its_tones(tones: ToneArray, step: int) -> None:
    arcs = trace(tones, 8.0)
    covered = rings(arcs, range(step))
    assert np.array_equal(filled(covered, tones.shape, 8.0), tones < step)
    parts = sum(area(rings(arcs, (k,))) for k in range(step))
    assert area(covered) == pytest.approx(parts, abs=1e-9)


@given(PLATES)
def test_lines_meet_at_their_ends_alone(tones: ToneArray) -> None:
    pieces = [
        (a, b)
        for arc in trace(tones, 1.0)
        for a, b in zip(walked(arc)[:-1], walked(arc)[1:], strict=True)
    ]
    starts, ends = (np.array(side) for side in zip(*pieces, strict=True))
    first, second = np.array(list(combinations(range(len(pieces)), 2)), dtype=int).T

    def side(a: FloatArray, b: FloatArray, c: FloatArray) -> FloatArray:
        along, away = b - a, c - a
        return along[:, 0] * away[:, 1] - along[:, 1] * away[:, 0]

    p, q, r, s = starts[first], ends[first], starts[second], ends[second]
    parted = (side(p, q, r) * side(p, q, s) < -1e-12) & (side(r, s, p) * side(r, s, q) < -1e-12)
    assert not parted.any()


@given(PLATES)
def test_the_lighter_tone_is_on_the_left(tones: ToneArray) -> None:
    for arc in trace(tones, 1.0):
        assert arc.left < arc.right
        ring = arc.points
        if arc.closed:  # y runs down: a ring with its inside on the right has a positive area
            inside = filled((ring,), tones.shape, 1.0)
            dark_inside = tones[inside].max() >= arc.right
            assert (area((ring,)) > 0.0) == dark_inside


@given(PLATES)
def test_the_edge_of_the_plate_is_traced_once_and_straight(tones: ToneArray) -> None:
    height, width = tones.shape
    edge = [arc for arc in trace(tones, 1.0) if arc.left == OUTSIDE]
    assert all(len(arc.points) == 2 for arc in edge)
    long = sum(float(np.abs(arc.points[1] - arc.points[0]).sum()) for arc in edge)
    assert long == 2 * (height + width)
    assert all(arc.left == OUTSIDE for arc in edge)


def test_a_plate_of_one_tone_has_its_edge_alone() -> None:
    arcs = trace(np.full((5, 8), 2, dtype=np.uint8), 2.0)
    assert [arc.right for arc in arcs] == [2] * 4
    (ring,) = rings(arcs, (2,))
    assert area((ring,)) == pytest.approx(10.0)
    assert border_arcs(arcs, 2) == ()
    assert rings(arcs, (0, 1)) == ()


def test_an_island_of_one_cell_keeps_half_its_area() -> None:
    tones = np.zeros((3, 3), dtype=np.uint8)
    tones[1, 1] = 1
    (island,) = (arc for arc in trace(tones, 1.0) if arc.closed)
    assert area((island.points,)) == pytest.approx(0.5)


@pytest.mark.parametrize("step", [1, 2, 3, 4])
def test_a_border_runs_where_an_independent_contour_runs(hills: ToneArray, step: int) -> None:
    ours = np.concatenate(
        [close_set(walked(arc), 0.05) for arc in border_arcs(trace(hills, 1.0), step)]
    )
    contours = find_contours((hills >= step).astype(float), 0.5)
    theirs = np.concatenate([close_set(line[:, ::-1] + 0.5, 0.05) for line in contours])
    apart, _ = cKDTree(theirs).query(ours)
    assert apart.max() < 0.75
    back, _ = cKDTree(ours).query(theirs)
    assert back.max() < 0.75
    assert apart.mean() < 0.2


def test_a_large_plate_is_filled_again_cell_for_cell(hills: ToneArray) -> None:
    arcs = trace(hills, 8.0)
    for tone in range(5):
        assert np.array_equal(filled(rings(arcs, (tone,)), hills.shape, 8.0), hills == tone)


def test_a_disc_becomes_a_round_line_of_few_points() -> None:
    y, x = np.mgrid[-60:61, -60:61]
    tones = (x**2 + y**2 < 50.0**2).astype(np.uint8)
    (disc,) = (arc for arc in trace(tones, 8.0) if arc.closed)
    away = np.hypot(*(close_set(walked(disc), 0.01) * 8.0 - 60.5).T) - 50.0
    assert np.abs(away).max() < 1.0  # line and circle pass the same gate, one cell long
    assert area((disc.points,)) == pytest.approx(np.pi * (50.0 / 8.0) ** 2, rel=0.01)
    assert len(disc.points) < 100


def test_a_slanting_border_is_a_straight_line() -> None:
    y, x = np.mgrid[0:80, 0:200]
    tones = (y > 20 + 0.17 * x).astype(np.uint8)
    (border,) = border_arcs(trace(tones, 8.0), 1)
    points = border.points * 8.0
    away = points[:, 1] - (20.5 + 0.17 * (points[:, 0] - 0.5))
    assert np.abs(away).max() < 0.75
    assert len(border.points) < 20


def test_a_finer_tolerance_keeps_the_line_nearer_to_the_staircase(hills: ToneArray) -> None:
    contours = find_contours((hills >= 2).astype(float), 0.5)
    theirs = cKDTree(np.concatenate([close_set(line[:, ::-1] + 0.5, 0.02) for line in contours]))
    for tolerance in (0.0, 0.01, 0.03):
        lines = border_arcs(trace(hills, 1.0, tolerance_mm=tolerance), 2)
        ours = np.concatenate([walked(arc)[1:-1] for arc in lines])
        assert theirs.query(ours)[0].max() < tolerance + 0.03
