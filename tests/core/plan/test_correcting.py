"""Notes in the whole plan: what is printed, what is said, and what stays as it was."""

import json
from dataclasses import replace
from functools import cache
from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from toneladder.picture.opening import Picture, open_picture
from toneladder.picture.placing import placing_of
from toneladder.picture.values import Crop, Laying, PlateSize
from toneladder.plan.comparing import offer, plan_of
from toneladder.plan.export import order_json, tones_png
from toneladder.plan.memory import Memory
from toneladder.plan.planning import Plan, plan
from toneladder.plate.limits import faults
from toneladder.plate.record import read_record, write_record
from toneladder.plate.values import Plate
from toneladder.tones.limits import MOST_POINTS
from toneladder.tones.pointing import place_at, ring_of
from toneladder.tones.values import Brush, Note, Range, ToneChoice, Wish

SIZE = PlateSize(80.0, 60.0)
SQUARE = [(30.0, 20.0), (50.0, 20.0), (50.0, 40.0), (30.0, 40.0)]


@cache
def sample() -> Picture:
    path = Path(__file__).parents[3] / "sample_images" / "breakwater.png"
    return open_picture(path, name=path.name)


MEMORY = Memory()


def planned(*notes: Note, **decisions: object) -> Plan:
    plate = Plate("Breakwater", sample().ref, SIZE, notes=notes)
    return plan(sample(), replace(plate, **decisions), memory=MEMORY)  # type: ignore[arg-type]  # any decision


def drawn(wish: Wish, *, rungs: int = 0, lightness: float = 0.0) -> Note:
    ref = sample().ref
    placing = placing_of(Laying(), SIZE, (ref.width, ref.height))
    return Note(ring_of(SQUARE, placing), wish, rungs, lightness)


def shares_of(done: Plan) -> list[float]:
    """What ``order.json`` says, beside the picture of the tones."""
    tones = np.asarray(Image.open(BytesIO(tones_png(done))))
    said = [tone["share"] for tone in json.loads(order_json(done))["tones"]]
    counted = np.bincount(tones.ravel(), minlength=len(said)) / tones.size
    assert said == pytest.approx(counted.tolist(), abs=1e-12)
    return said


def test_the_shares_of_the_order_are_those_of_the_tones_as_printed() -> None:
    before = shares_of(planned())
    after = shares_of(planned(drawn(Wish.DEEPEST)))
    assert after[-1] > before[-1] + 0.05
    coarse = planned(brush=Brush(smallest_area_mm2=60.0))
    assert shares_of(coarse) != before


@pytest.mark.parametrize("count", [2, 3, 5, 8])
def test_what_was_meant_outlives_another_number_of_tones(count: int) -> None:
    white = planned(drawn(Wish.PAPER), tones=ToneChoice(count))
    black = planned(drawn(Wish.DEEPEST), tones=ToneChoice(count))
    grey = planned(drawn(Wish.LIGHTNESS, lightness=55.0), tones=ToneChoice(count))
    inside = slice(170, 310), slice(250, 390)
    assert (white.tones[inside] == 0).all()
    assert (black.tones[inside] == black.chosen.count - 1).all()
    partings = grey.chosen.parted.partings
    assert (grey.tones[inside] == sum(parting >= 55.0 for parting in partings)).all()


def test_another_number_of_tones_and_back_is_the_same_plan() -> None:
    notes = (drawn(Wish.RUNGS, rungs=1), drawn(Wish.LIGHTNESS, lightness=40.0))
    first = planned(*notes)
    planned(*notes, tones=ToneChoice(8))
    again = planned(*notes)
    assert np.array_equal(again.tones, first.tones)
    assert (again.order, again.told, again.plate) == (first.order, first.told, first.plate)


def test_another_crop_and_back_is_the_same_plan_and_the_place_moves_with_the_picture() -> None:
    note = drawn(Wish.DEEPEST)
    first = planned(note)
    cropped = planned(note, laying=Laying(Crop(0.25, 0.25, 0.5, 0.5)))
    last = cropped.chosen.count - 1
    # twice as large about the same middle: 30..50 by 20..40 mm is now 20..60 by 10..50
    assert (cropped.tones[90:390, 170:470] == last).all()
    outside = planned(note, laying=Laying(Crop(0.0, 0.75, 0.25, 0.25)))
    assert outside.told[0].sentence in outside.order.warnings
    assert "outside the plate" in outside.told[0].sentence
    again = planned(note)
    assert np.array_equal(again.tones, first.tones)
    assert again.order == first.order


def test_what_the_brush_takes_away_is_among_the_warnings() -> None:
    note = drawn(Wish.PAPER)
    ref = sample().ref
    placing = placing_of(Laying(), SIZE, (ref.width, ref.height))
    dot = replace(note, rings=ring_of([(40.0, 30.0), (40.6, 30.0), (40.3, 30.6)], placing))
    done = planned(note, dot)
    assert [told.paintable for told in done.told] == [True, True]  # in white, the dot is white
    alone = planned(replace(dot, wish=Wish.DEEPEST))
    assert not alone.told[0].paintable
    assert alone.told[0].sentence in alone.order.warnings


def test_a_place_smaller_than_the_limit_stays_if_a_hand_asked_for_it() -> None:
    ref = sample().ref
    placing = placing_of(Laying(), SIZE, (ref.width, ref.height))
    small = [(30.0, 20.0), (33.0, 20.0), (33.0, 23.0), (30.0, 23.0)]
    note = Note(ring_of(small, placing), Wish.PAPER)
    done = planned(note, brush=Brush(smallest_area_mm2=30.0))
    assert done.told[0].kept_share > 0.9
    assert done.tones[172, 252] == 0


def test_black_that_only_a_note_asks_for_keeps_its_tone() -> None:
    light = Picture(sample().ref, np.maximum(sample().light, 14_000), ())
    black = ToneChoice(6, range=Range(black_from=0.0))

    def deepest(*notes: Note) -> tuple[tuple[int, ...], float]:
        plate = Plate("Breakwater", sample().ref, SIZE, tones=black, notes=notes)
        done = plan(light, plate)
        return done.chosen.parted.joined, done.order.tones[-1].share

    joined, _ = deepest()
    assert 5 in joined
    joined, share = deepest(drawn(Wish.DEEPEST))
    assert 5 not in joined
    assert share == pytest.approx(20.0 * 20.0 / (80.0 * 60.0), rel=0.02)


def test_every_number_of_tones_on_offer_is_planned_with_the_notes() -> None:
    done = planned(drawn(Wish.PAPER))
    known = done.prepared, done.plate, done.curve
    for count in (3, 7):
        other = plan_of(offer(*known, count), *known)
        assert other.chosen.count == count
        assert (other.tones[170:310, 250:390] == 0).all()


def test_notes_come_back_from_the_plates_file() -> None:
    ref, done = sample().ref, planned()
    placing = placing_of(Laying(), SIZE, (ref.width, ref.height))
    place = place_at(done.tones, (40.0, 10.0), placing, done.prepared.grid.px_per_mm)
    notes = (Note(place, Wish.RUNGS, -1, wider_mm=1.5), drawn(Wish.LIGHTNESS, lightness=61.5))
    plate = replace(done.plate, notes=notes, keeps_edges=True)
    assert not faults(plate)
    assert read_record(write_record(plate, done.curve)).plate == plate


def test_the_longest_notes_fit_into_the_plates_file() -> None:
    corners = tuple((0.123456 + n / 1e6, 0.654321) for n in range(MOST_POINTS))
    plate = replace(planned().plate, notes=(Note((corners,), Wish.PAPER),) * 10)
    assert not faults(plate)
    assert read_record(write_record(plate, planned().curve)).plate == plate


def test_a_plate_that_keeps_edges_is_another_plan() -> None:
    soft, sharp = planned(), planned(keeps_edges=True)
    assert sharp.prepared.seen.keeps_edges
    assert 0.002 < (soft.tones != sharp.tones).mean() < 0.3
