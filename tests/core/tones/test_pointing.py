"""A click, or a line drawn round something, becomes a place that outlives the plate's grid."""

from functools import cache

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy import ndimage

from toneladder.errors import PlanError
from toneladder.picture.placing import Placing, placing_of
from toneladder.picture.values import Crop, Laying, PlateSize
from toneladder.tones.limits import MOST_POINTS
from toneladder.tones.notes import Scene, apply_notes
from toneladder.tones.outlines import inside
from toneladder.tones.pointing import place_at, ring_of
from toneladder.tones.values import Brush, Note, Wish

SIZE = PlateSize(40.0, 30.0)
PX = 4.0
LAYINGS = (
    Laying(),
    Laying(Crop(0.1, 0.2, 0.6, 0.7)),
    Laying(Crop(0.2, 0.2, 0.6, 0.6), 30.0, mirrored=True),
    Laying(turn_deg=-90.0),
)


@cache
def tones() -> NDArray[np.uint8]:
    noise = ndimage.gaussian_filter(np.random.default_rng(3).normal(size=(120, 160)), 7.0)
    found: NDArray[np.uint8] = np.searchsorted(np.quantile(noise, [0.25, 0.5, 0.75]), noise).astype(
        np.uint8
    )
    return found


def on(laying: Laying) -> Placing:
    return placing_of(laying, SIZE, (900, 600))


def cells_of(
    rings: tuple[tuple[tuple[float, float], ...], ...], placing: Placing
) -> NDArray[np.bool_]:
    return inside([placing.to_plate(ring) * PX for ring in rings], (120, 160))


@pytest.mark.parametrize("laying", LAYINGS)
@given(st.floats(0.0, 39.99), st.floats(0.0, 29.99))
def test_a_click_takes_the_connected_place_under_it(laying: Laying, x: float, y: float) -> None:
    cells, placing = tones(), on(laying)
    row, column = int(y * PX), int(x * PX)
    pieces, _ = ndimage.label(cells == cells[row, column], np.ones((3, 3)))
    piece = pieces == pieces[row, column]
    found = cells_of(place_at(cells, (x, y), placing, PX), placing)
    assert not (ndimage.binary_erosion(piece, np.ones((3, 3)), border_value=1) & ~found).any()
    assert not (found & ~ndimage.binary_dilation(piece, np.ones((3, 3)))).any()


def test_a_clicked_place_made_darker_is_the_place_that_gets_darker() -> None:
    placing = on(Laying())
    # a disc that any brush can paint, on paper
    rows, columns = np.mgrid[0:120, 0:160]
    disc = ((rows - 60) ** 2 + (columns - 70) ** 2 < 30**2).astype(np.uint8)
    note = Note(place_at(disc, (17.5, 15.0), placing, PX), Wish.RUNGS, rungs=1)
    scene = Scene(placing, PX, (80.0, 50.0, 20.0), Brush())
    darker, (told,) = apply_notes(disc, [note], scene)
    assert told.paintable
    assert set(np.unique(darker)) <= {0, 1, 2}
    wrong = darker != 2 * disc
    rim = ndimage.binary_dilation(disc, np.ones((3, 3))) & ~ndimage.binary_erosion(
        disc, np.ones((3, 3))
    )
    assert not (wrong & ~rim).any()


def test_a_point_beside_the_plate_has_no_place() -> None:
    for point in ((-0.1, 5.0), (5.0, 30.1), (40.0, 5.0)):
        with pytest.raises(PlanError, match="no plate at this point"):
            place_at(tones(), point, on(Laying()), PX)


@pytest.mark.parametrize("laying", LAYINGS)
def test_a_line_drawn_round_a_place_holds_what_was_drawn_round(laying: Laying) -> None:
    placing, around = on(laying), np.linspace(0.0, 2.0 * np.pi, 3000)
    drawn = np.stack([20.0 + 9.0 * np.cos(around), 15.0 + 9.0 * np.sin(around)], axis=1)
    rings = ring_of(drawn, placing)
    assert len(rings[0]) < 60
    found = cells_of(rings, placing)
    rows, columns = (np.mgrid[0:120, 0:160] + 0.5) / PX
    away = np.hypot(columns - 20.0, rows - 15.0)
    assert found[away < 8.85].all()
    assert not found[away > 9.05].any()


def test_a_line_round_nothing_is_refused_with_a_sentence() -> None:
    for drawn in ([], [(1.0, 1.0)], [(1.0, 1.0), (9.0, 1.0)], [(1.0, 1.0)] * 50):
        with pytest.raises(PlanError, match="goes round no place"):
            ring_of(drawn, on(Laying()))


def test_a_long_scribble_stays_within_bounds() -> None:
    scribble = np.random.default_rng(1).uniform(0.0, 30.0, size=(6000, 2))
    assert sum(map(len, ring_of(scribble, on(Laying())))) <= MOST_POINTS
