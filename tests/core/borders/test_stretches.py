"""What runs along an etched line needs no tracing; what is soft is dotted."""

import numpy as np
import pytest

from toneladder.borders.arcs import OUTSIDE, Arc, border_arcs, trace
from toneladder.borders.length import length_mm
from toneladder.borders.soft import soft_passages
from toneladder.borders.stretches import parted, soft_stretches, without_lines
from toneladder.borders.values import Soft
from toneladder.optics import FloatArray
from toneladder.tones.parting import ToneArray

PX = 8.0


def long(arcs: tuple[Arc, ...]) -> float:
    return sum(length_mm(arc) for arc in arcs if arc.left != OUTSIDE)


def halves() -> ToneArray:
    """30 x 20 mm: light above, dark below, parted level at 10 mm."""
    tones = np.zeros((160, 240), dtype=np.uint8)
    tones[80:] = 1
    return tones


def test_without_lines_all_arcs_stay() -> None:
    arcs = trace(halves(), PX)
    assert without_lines(arcs, None, PX) == arcs
    assert without_lines(arcs, np.zeros((160, 240), dtype=np.bool_), PX) == arcs


@pytest.mark.parametrize(("row", "left_mm"), [(80, 20.0), (77, 20.0), (72, 30.0)])
def test_a_border_beside_a_line_is_left_out_within_half_a_millimetre(
    row: int, left_mm: float
) -> None:
    along = np.zeros((160, 240), dtype=np.bool_)
    along[row, 84:164] = True  # a line ten millimetres long
    left = without_lines(trace(halves(), PX), along, PX)
    assert long(left) == pytest.approx(left_mm, abs=1.3)  # half a millimetre at both ends


def test_a_line_that_only_crosses_leaves_a_border_whole() -> None:
    along = np.zeros((160, 240), dtype=np.bool_)
    along[:, 100:104] = True
    assert long(without_lines(trace(halves(), PX), along, PX)) == pytest.approx(30.0)


def test_a_border_under_a_broad_line_goes_and_the_edge_of_the_plate_stays() -> None:
    arcs = trace(halves(), PX)
    left = without_lines(arcs, np.ones((160, 240), dtype=np.bool_), PX)
    assert {arc.left for arc in left} == {OUTSIDE}
    assert len(left) == sum(arc.left == OUTSIDE for arc in arcs)


@pytest.mark.parametrize("turn", range(0, 360, 40))
def test_a_ring_is_cut_wherever_it_began(turn: int) -> None:
    y, x = np.mgrid[-80:81, -80:81]
    tones = (x**2 + y**2 < 64.0**2).astype(np.uint8)
    arcs = trace(tones, PX)
    at = np.radians(turn)

    def on_one_side(middles: FloatArray, _: object) -> np.ndarray[tuple[int], np.dtype[np.bool_]]:
        beside = middles - 80.5 / PX
        return np.asarray(beside @ (np.cos(at), np.sin(at)) > 0.0)

    left, out = parted(arcs, on_one_side)
    assert long(out) == pytest.approx(np.pi * 8.0, rel=0.03)
    assert long(left) + long(out) == pytest.approx(long(arcs))
    assert sum(arc.left != OUTSIDE for arc in left) == len(out) == 1


def test_hard_and_soft_stretches_make_up_all_borders(hills: ToneArray) -> None:
    arcs = trace(hills, PX)
    across = np.linspace(0.0, 6.0, hills.shape[1])[None, :] * np.ones((hills.shape[0], 1))
    lightness = 50.0 + np.cumsum(across, axis=1) / PX  # from 0 to 6 L* per mm
    passages = soft_passages(arcs, lightness, PX, Soft(), 5)
    hard, soft = soft_stretches(arcs, passages)
    assert long(hard) + long(soft) == pytest.approx(long(arcs))
    assert long(border_arcs(soft, 2)) > 0.0
    steps = {(arc.left, arc.right) for arc in soft}
    assert steps <= {(a, b) for a in range(5) for b in range(a + 1, 5)}
    listed = sum(passage.length_mm for passage in passages)
    assert long(soft) == pytest.approx(listed, rel=0.1)
