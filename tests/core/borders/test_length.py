"""Lengths of lines beside geometry, and beside the Crofton count of the cells."""

import numpy as np
import pytest

from toneladder.borders.arcs import trace
from toneladder.borders.length import border_lengths_mm
from toneladder.tones.parting import ToneArray
from toneladder.tones.places import border_cells


def test_a_round_border_is_as_long_as_a_circle() -> None:
    y, x = np.mgrid[-100:101, -100:101]
    tones = (x**2 + y**2 < 80.0**2).astype(np.uint8)
    assert border_lengths_mm(trace(tones, 8.0), 2) == pytest.approx([2 * np.pi * 10.0], rel=0.01)


@pytest.mark.parametrize("slope", [0.0, 0.2, 0.5, 1.0])
def test_a_straight_border_is_as_long_as_a_straight_line(slope: float) -> None:
    y, x = np.mgrid[0:400, 0:300]
    tones = (y > 20.3 + slope * x).astype(np.uint8)
    long = 300.0 * np.hypot(1.0, slope)
    assert border_lengths_mm(trace(tones, 8.0), 2) == pytest.approx([long / 8.0], rel=0.01)


def test_a_border_between_distant_tones_counts_for_every_step() -> None:
    tones = np.zeros((10, 20), dtype=np.uint8)
    tones[:, 10:] = 3
    assert border_lengths_mm(trace(tones, 2.0), 4) == pytest.approx([5.0] * 3)


def test_lines_are_as_long_as_crofton_counts(hills: ToneArray) -> None:
    cells = border_cells(hills, 5)
    counted = [float(cells[:k, k:].sum()) / 8.0 for k in range(1, 5)]
    # [Ohser2009] with eight directions is true within 1.5 %
    assert border_lengths_mm(trace(hills, 8.0), 5) == pytest.approx(counted, rel=0.025)
