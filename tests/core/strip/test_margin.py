"""A strip of the tones in the plate's own margin."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.picture.values import PlateSize
from toneladder.strip.margin import margin_notes, margin_patches, with_margin
from toneladder.strip.values import Edge, MarginStrip

SHAPE = (240, 400)


@given(st.sampled_from(Edge), st.floats(3.0, 60.0), st.integers(2, 12))
def test_the_patches_fill_their_band_once_and_nothing_else(
    edge: Edge, width_mm: float, count: int
) -> None:
    seen = np.zeros(SHAPE, dtype=int)
    for patch in margin_patches(MarginStrip(edge, width_mm), SHAPE, 4.0, count):
        seen[patch.rows, patch.columns] += 1
    assert set(np.unique(seen)) == {0, 1}
    side = {
        Edge.TOP: seen[0],
        Edge.BOTTOM: seen[-1],
        Edge.LEFT: seen[:, 0],
        Edge.RIGHT: seen[:, -1],
    }
    assert side[edge].all()
    assert seen.sum() <= seen.size / 3.0 + max(SHAPE)


@pytest.mark.parametrize("edge", Edge)
def test_every_tone_gets_the_same_room(edge: Edge) -> None:
    laid = with_margin(np.full(SHAPE, 9, dtype=np.uint8), MarginStrip(edge, 10.0), 4.0, 5)
    cells = np.bincount(laid.ravel(), minlength=10)[:5]
    along = 400 if edge in {Edge.TOP, Edge.BOTTOM} else 240
    assert cells.tolist() == [40 * along // 5] * 5


def test_the_picture_outside_the_band_is_left_as_it_was() -> None:
    tones = np.random.default_rng(1).integers(0, 5, SHAPE).astype(np.uint8)
    laid = with_margin(tones, MarginStrip(Edge.BOTTOM, 10.0), 4.0, 5)
    assert np.array_equal(laid[:-40], tones[:-40])
    assert with_margin(tones, None, 4.0, 5) is tones


def test_what_the_picture_loses_is_said() -> None:
    (lost,) = margin_notes(MarginStrip(Edge.LEFT, 12.0), PlateSize(100.0, 80.0), 5)
    assert "12\N{NO-BREAK SPACE}mm along the left edge" in lost


def test_patches_too_small_to_read_are_named() -> None:
    said = list(margin_notes(MarginStrip(Edge.TOP, 10.0), PlateSize(40.0, 80.0), 10))
    assert "hard to paint and to read" in said[1]
