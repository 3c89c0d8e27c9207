"""Every tone of a proof is read, as light as it printed; what is odd is pointed out."""

from dataclasses import replace

import numpy as np
import pytest
from numpy.typing import NDArray
from tests.core.proof.drawing import Array, Look, blobs, draw

from toneladder.picture.opening import open_picture
from toneladder.proof.pulls import compare
from toneladder.proof.reading import read_tones
from toneladder.proof.registering import register
from toneladder.proof.values import ProofReading

PX = 8.0
PLANNED = np.array([90.0, 74.0, 58.0, 42.0, 26.0])
PRINTED = PLANNED + np.array([-1.0, 6.0, -8.0, 5.0, 2.0])
LOOK = Look(dpi=200.0, turn=-1.2, margin=16.0, gradient=0.12, gradient_towards=30.0)


def read(
    look: Look = LOOK,
    printed: Array = PRINTED,
    tones: NDArray[np.uint8] | None = None,
    foul: NDArray[np.float32] | None = None,
    seed: int = 0,
) -> ProofReading:
    cells = blobs(5, 3) if tones is None else tones
    scan = draw(cells, printed, PX, look, seed, foul)
    light = open_picture(scan.data, name="scan").light
    laid = register(light, cells, PX, dpi=look.dpi)
    return read_tones(light, laid, cells, PX, PLANNED.tolist(), paper=look.paper)


def errors_of(reading: ProofReading, printed: Array = PRINTED) -> Array:
    return np.array(
        [tone.printed_lightness - printed[tone.tone] for tone in reading.tones], np.float64
    )


def test_tones_are_read_in_uneven_light_that_the_margins_straighten() -> None:
    reading = read()
    assert [tone.tone for tone in reading.tones] == [0, 1, 2, 3, 4]
    assert np.abs(errors_of(reading)).max() < 0.5
    assert reading.unread == ()
    assert reading.places == ()
    assert reading.notes == ()


@pytest.mark.parametrize("jpeg", [None, 60])
def test_warm_paper_reads_as_light_as_it_is(jpeg: int | None) -> None:
    reading = read(replace(LOOK, warm=(1.03, 1.0, 0.91), jpeg=jpeg))
    assert np.abs(errors_of(reading)).max() < 0.8


def test_paper_is_as_light_as_it_is_said_to_be() -> None:
    dim = replace(LOOK, gradient=0.0, paper=90.0)
    assert np.abs(errors_of(read(dim))).max() < 0.5


def test_without_paper_round_the_print_the_scanner_is_believed_and_that_is_said() -> None:
    reading = read(replace(LOOK, margin=None, turn=0.5, gradient=0.0))
    assert np.abs(errors_of(reading)).max() < 0.5
    assert any("No bare paper" in note for note in reading.notes)
    assert min(tone.spread for tone in reading.tones) > 1.4


def test_uneven_light_without_paper_stays_in_the_reading() -> None:
    reading = read(replace(LOOK, margin=None, turn=0.5, gradient=0.2))
    assert np.abs(errors_of(reading)).max() > 1.0


def test_the_map_shows_printed_less_planned() -> None:
    reading = read()
    drawn = reading.map
    x, y = 200, 150
    tone = int(blobs(5, 3)[y, x])
    at = drawn.differences[int(y / PX / drawn.pitch_mm), int(x / PX / drawn.pitch_mm)]
    seen = drawn.differences[np.isfinite(drawn.differences)]
    assert np.isnan(at) or at == pytest.approx(PRINTED[tone] - PLANNED[tone], abs=3.0)
    assert seen.min() == pytest.approx(-8.0, abs=2.0)
    assert seen.max() == pytest.approx(6.0, abs=2.0)


def spot(cells: NDArray[np.uint8], tone: int, by: float) -> tuple[NDArray[np.float32], Array]:
    """A round place of 6 mm in the widest part of a tone."""
    from scipy import ndimage

    depth = ndimage.distance_transform_edt(np.pad(cells == tone, 1))[1:-1, 1:-1]
    row, column = np.unravel_index(int(depth.argmax()), depth.shape)
    rows, columns = np.ogrid[: cells.shape[0], : cells.shape[1]]
    inside = np.hypot(rows - row, columns - column) < 3.0 * PX
    return np.where(inside & (cells == tone), by, 0.0).astype(np.float32), np.array(
        [column / PX, row / PX]
    )


@pytest.mark.parametrize("by", [-6.0, 6.0])
def test_a_foul_place_is_pointed_at_and_does_not_move_the_tone(by: float) -> None:
    cells = blobs(5, 3)
    foul, middle = spot(cells, 2, by)
    reading = read(foul=foul)
    (place,) = reading.places
    assert place.tone == 2
    assert (place.x_mm, place.y_mm) == pytest.approx(tuple(middle), abs=1.5)
    assert place.difference == pytest.approx(by, abs=1.2)
    assert 10.0 < place.area_mm2 < 32.0
    assert abs(errors_of(reading)[2]) < 0.8


def test_a_tone_too_small_to_be_read_is_named() -> None:
    cells = np.where(blobs(5, 3) == 4, 3, blobs(5, 3)).astype(np.uint8)
    cells[100:104, 100:104] = 4
    reading = read(tones=cells)
    assert reading.unread == (4,)
    assert any("Tone 4 cannot be read" in note for note in reading.notes)


def test_a_narrow_tone_over_one_per_cent_is_read_and_marked_unsure() -> None:
    cells = np.where(blobs(5, 3) == 4, 3, blobs(5, 3)).astype(np.uint8)
    cells[40:360:40, 20:500] = 4
    cells[41:361:40, 20:500] = 4
    cells[42:362:40, 20:500] = 4
    reading = read(tones=cells)
    narrow = reading.tones[4]
    assert narrow.cells >= 50
    assert narrow.note
    assert narrow.spread > reading.tones[3].spread


def test_tones_that_printed_in_another_order_are_kept_and_named() -> None:
    printed = PRINTED.copy()
    printed[[2, 3]] = 35.0, 55.0
    reading = read(printed=printed)
    assert np.abs(errors_of(reading, printed)).max() < 0.5
    assert any("Tone 3 printed lighter than tone 2" in note for note in reading.notes)


def test_two_pulls_tell_the_wiping_from_the_plate() -> None:
    cells = blobs(5, 3)
    smear, _ = spot(cells, 0, -6.0)
    bitten, _ = spot(cells, 2, -6.0)
    wiped = PRINTED.copy()
    wiped[3] -= 9.0
    pulls = compare(read(foul=smear + bitten), read(printed=wiped, foul=bitten, seed=9))
    assert pulls.wiped == (3,)
    assert pulls.plate == (1, 2)
    assert [place.tone for place in pulls.wiped_places] == [0]
    assert [place.tone for place in pulls.plate_places] == [2]
    mean = pulls.tones[3]
    assert mean.printed_lightness == pytest.approx(PRINTED[3] - 4.5, abs=0.5)
    assert mean.spread > 4.0
