"""Cells are means over their areas, whatever the pitch."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from toneladder.picture import averaging
from toneladder.picture.averaging import Axis, bands


def laid(raster: np.ndarray, down: Axis, across: Axis) -> np.ndarray:
    cells = np.empty((down.cells, across.cells), np.float32)
    for rows, band in bands(raster, down, across):
        cells[rows] = band
    return cells


def share(first: float, last: float, pixel: int) -> float:
    return max(0.0, min(last, pixel + 1) - max(first, pixel))


def mean_by_loop(raster: np.ndarray, down: Axis, across: Axis, row: int, column: int) -> float:
    top, bottom = (down.start + (row + k) * down.pitch for k in (0, 1))
    left, right = (across.start + (column + k) * across.pitch for k in (0, 1))
    total = weight = 0.0
    for y in range(raster.shape[0]):
        for x in range(raster.shape[1]):
            part = share(top, bottom, y) * share(left, right, x)
            total += part * float(raster[y, x])
            weight += part
    return total / weight


@settings(max_examples=150, deadline=None)
@given(st.data())
def test_a_mean_over_areas_is_that_of_a_plain_loop(data: st.DataObject) -> None:
    sides = [data.draw(st.integers(1, 12), "length") for _ in range(2)]
    axes = []
    for length in sides:
        cells = data.draw(st.integers(1, length), "cells")
        pitch = data.draw(st.floats(1.0000001, max(1.0000002, length / cells)), "pitch")
        slack = max(0.0, length - cells * pitch)
        axes.append(Axis(data.draw(st.floats(0.0, 1.0), "start") * slack, pitch, cells, length))
    raster = np.random.default_rng(data.draw(st.integers(0, 99))).integers(0, 65536, sides)
    found = laid(raster.astype(np.uint16), axes[0], axes[1])
    for row in range(axes[0].cells):
        for column in range(axes[1].cells):
            expected = mean_by_loop(raster, axes[0], axes[1], row, column)
            assert found[row, column] == pytest.approx(expected, abs=0.1)


@given(st.integers(1, 40), st.integers(1, 40), st.integers(1, 40), st.integers(0, 99))
def test_the_mean_of_the_whole_is_kept(height: int, width: int, cells: int, seed: int) -> None:
    raster = np.random.default_rng(seed).integers(0, 65536, (height, width), dtype=np.uint16)
    rows, columns = min(cells, height), min(cells, width)
    down, across = (
        Axis(0.0, height / rows, rows, height),
        Axis(0.0, width / columns, columns, width),
    )
    assert laid(raster, down, across).mean() == pytest.approx(raster.mean(), rel=1e-5, abs=0.1)


def test_bands_do_not_show(monkeypatch: pytest.MonkeyPatch) -> None:
    raster = np.random.default_rng(1).integers(0, 65536, (90, 70), dtype=np.uint16)
    down, across = Axis(2.5, 3.3, 25, 90), Axis(1.25, 2.9, 22, 70)
    whole = laid(raster, down, across)
    monkeypatch.setattr(averaging, "_BAND_PIXELS", 100)
    assert np.array_equal(laid(raster, down, across), whole)


def test_a_raster_on_its_own_grid_is_itself() -> None:
    raster = np.random.default_rng(1).integers(0, 65536, (9, 7), dtype=np.uint16)
    assert np.array_equal(laid(raster, Axis(0, 1, 9, 9), Axis(0, 1, 7, 7)), raster)


def test_between_coarse_pixels_light_changes_along_a_straight_line() -> None:
    raster = np.array([[0, 1000, 3000]], np.uint16)
    found = laid(raster, Axis(0, 0.25, 4, 1), Axis(0, 0.25, 12, 3))
    middles = (np.arange(12) + 0.5) * 0.25 - 0.5
    assert found == pytest.approx(np.tile(np.interp(middles, [0, 1, 2], [0, 1000, 3000]), (4, 1)))


def test_one_pixel_fills_any_grid() -> None:
    found = laid(np.array([[777]], np.uint16), Axis(0.1, 0.001, 50, 1), Axis(0, 0.002, 90, 1))
    assert np.array_equal(found, np.full((50, 90), 777))


def test_a_cell_over_the_edge_is_as_its_part_inside() -> None:
    raster = np.array([[10, 20, 30, 40, 50]], np.uint16)
    found = laid(raster, Axis(0, 1, 1, 1), Axis(0.0, 2.2, 3, 5))[0]
    assert found == pytest.approx(
        [(10 + 20 + 30 * 0.2) / 2.2, (30 * 0.8 + 40 + 50 * 0.4) / 2.2, 50]
    )


def test_very_many_rows_add_up() -> None:
    raster = np.full((140_000, 2), 65535, np.uint16)
    found = laid(raster, Axis(0, 140_000, 1, 140_000), Axis(0, 1, 2, 2))
    assert found == pytest.approx(65535, abs=0.01)
