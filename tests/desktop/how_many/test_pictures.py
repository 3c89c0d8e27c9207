"""Columns are taken from the plate's cells and coloured; numbers of tones are never averaged."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PySide6.QtGui import QImage

from toneladder.bite.curve import starting_curve
from toneladder.picture.values import Grid, PictureRef, PlateSize
from toneladder.plan.comparing import offer
from toneladder.plan.preparing import Prepared, seen_of
from toneladder.plate.values import Plate
from toneladder.preview.colour import palette
from toneladder.tones.lattice import Lattice
from toneladder.tones.parting import step_counts
from toneladder_desktop.how_many.pictures import SAMPLES, Pictures, Seen, sampled
from toneladder_desktop.how_many.piece import EVERYTHING, Piece
from toneladder_desktop.how_many.work import Offered

pytestmark = pytest.mark.usefixtures("qapp")

PLATE = Plate("steps", PictureRef("", "steps", 256, 128, 8), PlateSize(32.0, 16.0))
CELLS = np.tile(np.arange(256, dtype=np.uint8), (128, 1))
CURVE = starting_curve(PLATE.conditions)


def ready() -> Prepared:
    """Every step of the lattice as a column of cells, 8 to the millimetre."""
    counts = step_counts(CELLS)
    lattice = Lattice(5.0, 90.0 / 255.0, 94.0, 6.0)
    return Prepared(seen_of(PLATE), Grid(256, 128, 8.0), lattice, CELLS, CELLS, counts, counts, ())


def values(image: QImage) -> np.ndarray:
    flat = np.frombuffer(image.constBits(), dtype=np.uint8)
    return flat.reshape(image.height(), image.bytesPerLine())[:, : image.width()].copy()


def colours(image: QImage) -> np.ndarray:
    flat = np.frombuffer(image.constBits(), dtype=np.uint8)
    rows = flat.reshape(image.height(), image.bytesPerLine())[:, : 4 * image.width()]
    return rows.reshape(image.height(), image.width(), 4)[:, :, 2::-1].copy()


@settings(max_examples=50)
@given(st.floats(0.0, 0.7), st.floats(0.0, 0.7), st.floats(0.05, 0.3), st.integers(5, 90))
def test_every_sample_is_the_cell_under_its_middle(
    x: float, y: float, share: float, pixels: int
) -> None:
    cells = np.arange(97 * 61, dtype=np.uint32).astype(np.uint8).reshape(61, 97)
    found = values(sampled(cells, Piece(x, y, share, share), pixels, pixels))
    count = SAMPLES * pixels
    for row, column in ((0, 0), (count - 1, count - 1), (count // 2, count // 3)):
        across = x + share * (column + 0.5) / count
        down = y + share * (row + 0.5) / count
        assert found[row, column] == cells[int(down * 61), int(across * 97)]


@pytest.mark.parametrize("count", [2, 5, 9])
def test_a_column_has_the_colours_in_which_its_tones_print(count: int) -> None:
    found = offer(ready(), PLATE, CURVE, count)
    seen = Seen(64.0, 8.0, 2.0)
    image = Pictures().picture(Offered(found), PLATE.printing, CELLS, EVERYTHING, seen)
    printed = palette([tone.lightness for tone in found.chosen.ladder.tones], PLATE.printing)
    # 128 samples across 256 steps: sample k is step 2 k + 1
    expected = printed[np.array(found.chosen.parted.table)[1::2]]
    assert (colours(image)[3] == expected).all()


def test_on_a_coarse_screen_a_border_is_mixed_and_nothing_else() -> None:
    found = offer(ready(), PLATE, CURVE, 2)
    seen = Seen(85.0, 8.0, 1.0)
    image = Pictures().picture(Offered(found), PLATE.printing, CELLS, EVERYTHING, seen)
    row = colours(image)[4].astype(int)
    printed = palette([tone.lightness for tone in found.chosen.ladder.tones], PLATE.printing)
    plain = (row == printed[0]).all(axis=1) | (row == printed[1]).all(axis=1)
    assert (image.width(), image.height()) == (85, 8)
    assert np.count_nonzero(~plain) <= 1


def test_a_number_with_tones_of_its_own_is_taken_from_those() -> None:
    found = offer(ready(), PLATE, CURVE, 3)
    own = np.full_like(CELLS, 2)
    image = Pictures().picture(
        Offered(found, own), PLATE.printing, CELLS, EVERYTHING, Seen(16.0, 8.0, 2.0)
    )
    printed = palette([tone.lightness for tone in found.chosen.ladder.tones], PLATE.printing)
    assert (colours(image) == printed[2]).all()


def test_what_is_remembered_is_what_would_be_drawn_anew() -> None:
    pictures, seen = Pictures(), Seen(40.0, 30.0, 1.0)
    pieces = [Piece(0.1, 0.0, 0.3, 0.5), Piece(0.6, 0.2, 0.3, 0.5), Piece(0.1, 0.0, 0.3, 0.5)]
    blue = replace(PLATE.printing, ink="#203060")
    for count in (4, 7, 4):
        offered = Offered(offer(ready(), PLATE, CURVE, count))
        for piece in pieces:
            for printing in (PLATE.printing, blue):
                again = pictures.picture(offered, printing, CELLS, piece, seen)
                anew = Pictures().picture(offered, printing, CELLS, piece, seen)
                assert again == anew
