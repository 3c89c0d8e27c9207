"""Notes on the print: laws that hold for any notes, and what a brush makes of them."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy import ndimage

from toneladder.picture.placing import placing_of
from toneladder.picture.values import Crop, Laying, PlateSize
from toneladder.tones.boxes import Box
from toneladder.tones.brush import clean
from toneladder.tones.notes import Scene, apply_notes, cleaned_within, wished_cells
from toneladder.tones.values import Brush, Note, Wish

SIZE, PX, SHAPE = PlateSize(60.0, 45.0), 4.0, (180, 240)
MARK, GAP = 6.0, 8.0
PARTINGS = (82.0, 66.0, 50.0, 34.0)
PLACING = placing_of(Laying(), SIZE, (1200, 900))
SCENE = Scene(PLACING, PX, PARTINGS, Brush(MARK / PX, GAP / PX))
LAST = len(PARTINGS)

Tones = NDArray[np.uint8]
Rings = tuple[tuple[tuple[float, float], ...], ...]


@cache
def tones(seed: int = 0) -> Tones:
    """Five tones of a clouded picture, cleaned for the brush."""
    noise = ndimage.gaussian_filter(np.random.default_rng(seed).normal(size=SHAPE), 6.0)
    lattice = np.searchsorted(np.quantile(noise, [0.2, 0.4, 0.6, 0.8]), noise).astype(np.uint8)
    cells: Tones = LAST - clean(lattice, MARK, GAP)
    cells.flags.writeable = False
    return cells


def box_mm(x: float, y: float, width: float, height: float) -> Rings:
    corners = [(x, y), (x + width, y), (x + width, y + height), (x, y + height)]
    return (tuple((a, b) for a, b in PLACING.to_picture(corners).tolist()),)


shares = st.tuples(st.floats(-0.1, 1.1), st.floats(-0.1, 1.1))
rings = st.lists(st.lists(shares, min_size=3, max_size=6).map(tuple), min_size=1, max_size=2)
notes = st.builds(
    Note,
    rings.map(tuple),
    st.sampled_from(Wish),
    rungs=st.integers(-5, 5),
    lightness=st.floats(0.0, 100.0),
    wider_mm=st.sampled_from([0.0, 0.0, 1.5, -1.0]),
)
some_notes = st.lists(notes, min_size=1, max_size=3)


def applied(*made: Note, to: Tones | None = None) -> Tones:
    return apply_notes(tones() if to is None else to, made, SCENE)[0]


def global_clean(cells: Tones) -> Tones:
    return 255 - clean(255 - cells, MARK, GAP)


@given(some_notes, st.integers(0, 4))
def test_cleaning_a_corrected_plate_again_changes_nothing(made: list[Note], seed: int) -> None:
    corrected = applied(*made, to=tones(seed))
    again = cleaned_within(corrected, [(slice(0, 180), slice(0, 240))], MARK, GAP)
    assert np.array_equal(again, corrected)
    assert np.array_equal(global_clean(corrected), corrected)


@given(some_notes)
def test_there_is_no_tone_that_the_plate_does_not_have(made: list[Note]) -> None:
    corrected = applied(*made)
    assert corrected.max() <= LAST
    assert corrected.shape == SHAPE
    assert corrected.dtype == np.uint8


@given(notes.filter(lambda note: note.wish is not Wish.RUNGS))
def test_the_same_absolute_note_twice_is_as_once(note: Note) -> None:
    assert np.array_equal(applied(note, note), applied(note))


@given(notes, st.integers(1, 2), st.integers(1, 2), st.sampled_from([-1, 1]))
def test_relative_notes_add(note: Note, one: int, other: int, way: int) -> None:
    first, second, both = (
        replace(note, wish=Wish.RUNGS, rungs=way * rungs) for rungs in (one, other, one + other)
    )
    assert np.array_equal(applied(first, second), applied(both))


@given(notes)
def test_notes_of_no_effect_change_nothing(note: Note) -> None:
    found, (told,) = apply_notes(tones(), [replace(note, wish=Wish.RUNGS, rungs=0)], SCENE)
    assert found is tones()
    assert told.kept_share == 1.0
    assert told.paintable


def test_a_plate_without_notes_is_the_same_array() -> None:
    assert apply_notes(tones(), (), SCENE) == (tones(), ())


@given(some_notes)
def test_nothing_moves_outside_the_box_round_a_note(made: list[Note]) -> None:
    reach = 2 * MARK + GAP + 2
    corrected = applied(*made)
    near = np.zeros(SHAPE, bool)
    for note in made:
        points = np.concatenate([PLACING.to_plate(ring) * PX for ring in note.rings])
        wide = max(0.0, note.wider_mm * PX) + reach
        (left, top), (right, bottom) = points.min(axis=0) - wide, points.max(axis=0) + wide
        rows, columns = (
            slice(max(0, int(top)), max(0, int(bottom) + 1)),
            slice(max(0, int(left)), max(0, int(right) + 1)),
        )
        near[rows, columns] = True
    assert np.array_equal(corrected[~near], tones()[~near])


@settings(max_examples=40)
@given(some_notes, st.integers(0, 4))
def test_every_covered_and_open_place_holds_the_brush(made: list[Note], seed: int) -> None:
    corrected = applied(*made, to=tones(seed))
    for step in range(1, LAST + 1):
        assert not without_disc(corrected < step, MARK)
        assert not without_disc(corrected >= step, GAP)


def without_disc(cells: NDArray[np.bool_], diameter: float) -> int:
    """How many separate places hold no whole disc, as far as the plate reaches."""
    if cells.all():
        return 0
    pieces, number = ndimage.label(cells, structure=np.ones((3, 3)))
    inner = ndimage.distance_transform_edt(cells) > diameter / 2.0
    return int(number) - len(np.setdiff1d(np.unique(pieces[inner]), [0]))


@pytest.mark.parametrize(
    ("wish", "tone"), [(Wish.PAPER, 0), (Wish.DEEPEST, LAST), (Wish.LIGHTNESS, 2)]
)
def test_a_place_large_enough_gets_what_was_meant(wish: Wish, tone: int) -> None:
    note = Note(box_mm(20.0, 15.0, 15.0, 12.0), wish, lightness=58.0)
    found, (told,) = apply_notes(tones(), [note], SCENE)
    assert (found[64:104, 84:136] == tone).all()  # all but a brush's rounding at the corners
    assert told.asked_cells == 60 * 48
    assert told.kept_share > 0.97
    assert told.paintable
    assert not told.sentence


@pytest.mark.parametrize(
    ("lightness", "tone"),
    [(100.0, 0), (82.1, 0), (81.9, 1), (50.1, 2), (49.9, 3), (34.1, 3), (33.9, 4), (0.0, 4)],
)
def test_a_lightness_becomes_the_tone_whose_interval_holds_it(lightness: float, tone: int) -> None:
    note = Note(box_mm(20.0, 15.0, 15.0, 12.0), Wish.LIGHTNESS, lightness=lightness)
    assert applied(note)[84, 110] == tone


def test_a_kept_lightness_finds_its_tone_again_when_the_number_of_tones_changes() -> None:
    note = Note(box_mm(20.0, 15.0, 15.0, 12.0), Wish.LIGHTNESS, lightness=45.0)
    three = replace(SCENE, partings=(70.0, 40.0))
    few = np.minimum(tones(), 2)
    assert apply_notes(few, [note], three)[0][84, 110] == 1
    assert applied(note)[84, 110] == 3


def test_what_no_brush_can_paint_is_told_and_not_painted() -> None:
    even = np.full(SHAPE, 2, np.uint8)
    dot = Note(box_mm(20.0, 20.0, 0.75, 0.75), Wish.PAPER)
    found, (told,) = apply_notes(even, [dot], SCENE)
    assert np.array_equal(found, even)
    assert (told.asked_cells, told.kept_share, told.paintable) == (9, 0.0, False)
    assert told.sentence.startswith("Note 1 is finer than the brush and cannot be painted.")
    wider, (told,) = apply_notes(even, [replace(dot, wider_mm=1.5)], SCENE)
    assert told.paintable
    assert (wider == 0).sum() > 28  # the brush's own disc


def test_a_comb_of_which_the_brush_takes_half_says_how_much() -> None:
    even = np.full(SHAPE, 2, np.uint8)
    handle, teeth = (
        box_mm(10.0, 10.0, 30.0, 4.0),
        [box_mm(10.0 + 3 * n, 14.0, 1.0, 14.0) for n in range(10)],
    )
    _, (told,) = apply_notes(even, [Note(sum(teeth, handle), Wish.DEEPEST)], SCENE)
    assert not told.paintable
    assert 0.4 < told.kept_share < 0.6
    assert f"{round(100 * (1 - told.kept_share))}\N{NO-BREAK SPACE}% of it cannot" in told.sentence


def test_a_note_outside_the_crop_is_kept_and_told() -> None:
    elsewhere = replace(
        SCENE, placing=placing_of(Laying(Crop(0.5, 0.5, 0.5, 0.5)), SIZE, (1200, 900))
    )
    note = Note(box_mm(2.0, 2.0, 10.0, 10.0), Wish.PAPER)
    found, (told,) = apply_notes(tones(), [note], elsewhere)
    assert found is tones()
    assert told.asked_cells == 0
    assert told.sentence == "Note 1 lies outside the plate. It is kept for another crop."


def test_a_hole_in_a_note_is_left_alone() -> None:
    even = np.full(SHAPE, 2, np.uint8)
    frame = box_mm(10.0, 8.0, 35.0, 28.0) + box_mm(20.0, 16.0, 14.0, 12.0)
    found = applied(Note(frame, Wish.PAPER), to=even)
    assert found[88, 108] == 2
    assert found[50, 60] == 0


@pytest.mark.parametrize("wider", [1.5, 3.0])
def test_wider_by_a_brush_reaches_so_far_on_all_sides(wider: float) -> None:
    even = np.full(SHAPE, 2, np.uint8)
    note = Note(box_mm(20.0, 15.0, 15.0, 12.0), Wish.PAPER, wider_mm=wider)
    place = np.zeros(SHAPE, bool)
    place[60:108, 80:140] = True
    grown = applied(note, to=even) == 0
    away = ndimage.distance_transform_edt(~place)
    assert grown[away <= wider * PX - 1.0].all()
    assert not grown[away > wider * PX + 1.0].any()
    narrow = applied(replace(note, wider_mm=-wider), to=even) == 0
    deep = ndimage.distance_transform_edt(place)
    assert not narrow[deep < wider * PX - 1.0].any()
    assert narrow[deep > wider * PX + MARK / 2].all()


def test_a_later_note_has_the_last_word() -> None:
    place = box_mm(20.0, 15.0, 15.0, 12.0)
    found, told = apply_notes(tones(), [Note(place, Wish.PAPER), Note(place, Wish.DEEPEST)], SCENE)
    assert found[84, 110] == LAST
    assert [one.number for one in told] == [1, 2]


def test_the_cells_that_a_note_will_add_are_known_about_right() -> None:
    square = Note(box_mm(20.0, 15.0, 15.0, 12.0), Wish.LIGHTNESS, lightness=50.0, wider_mm=1.0)
    ((lightness, cells),) = wished_cells([square], PLACING, PX)
    _, (told,) = apply_notes(tones(), [square], SCENE)
    assert lightness == 50.0
    assert cells == pytest.approx(told.asked_cells, rel=0.03)
    assert wished_cells([replace(square, wish=Wish.DEEPEST)], PLACING, PX) == ((0.0, cells),)


def test_notes_of_paper_or_rungs_ask_for_no_cells_and_those_beside_the_plate_for_none() -> None:
    place, beside = box_mm(20.0, 15.0, 15.0, 12.0), box_mm(70.0, 15.0, 15.0, 12.0)
    assert not wished_cells([Note(place, Wish.PAPER), Note(place, Wish.RUNGS, 2)], PLACING, PX)
    assert wished_cells([Note(beside, Wish.DEEPEST)], PLACING, PX) == ((0.0, 0),)


@pytest.mark.parametrize("box", [(slice(0, 180), slice(0, 240)), (slice(70, 90), slice(100, 120))])
def test_looking_about_a_box_finds_what_cleaning_everything_finds(box: Box) -> None:
    spotted = tones().copy()
    draw = np.random.default_rng(4)
    spots = spotted[box].shape
    spotted[box] = np.where(draw.random(spots) < 0.2, draw.integers(0, 5, spots), spotted[box])
    assert np.array_equal(cleaned_within(spotted, [box], MARK, GAP), global_clean(spotted))
