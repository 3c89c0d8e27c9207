"""The whole plan, on photographs that scikit-image ships (CC0, public domain) and our samples."""

from dataclasses import replace
from functools import cache
from io import BytesIO
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image
from scipy import ndimage
from skimage import data

from toneladder.bite.curve import starting_curve
from toneladder.picture.opening import Picture, open_picture
from toneladder.picture.values import PlateSize
from toneladder.plan.choosing import choose, targets_of
from toneladder.plan.memory import Memory
from toneladder.plan.planning import Plan, plan
from toneladder.plan.preparing import prepare, seen_of
from toneladder.plate.values import Plate
from toneladder.tones.values import Brush, Choice, ToneChoice

PHOTOGRAPHS = ("camera", "coffee", "chelsea", "astronaut", "rocket")
SAMPLES = sorted((Path(__file__).parents[3] / "sample_images").glob("*.[pj][np]g"))
PICTURES = [*PHOTOGRAPHS, *(path.name for path in SAMPLES)]
BRUSHES = (Brush(0.75, 1.0), Brush(1.5, 2.0), Brush(3.0, 4.0))


@cache
def picture(name: str) -> Picture:
    if name not in PHOTOGRAPHS:
        return open_picture(next(p for p in SAMPLES if p.name == name), name=name)
    file = BytesIO()
    Image.fromarray(np.asarray(getattr(data, name)())).save(file, "PNG")
    return open_picture(file.getvalue(), name=f"{name}.png")


def planned(name: str, memory: Memory | None = None, **decisions: object) -> Plan:
    found = picture(name)
    plate = replace(Plate(name, found.ref, PlateSize(120.0, 90.0)), **decisions)  # type: ignore[arg-type]  # any decision
    return plan(found, plate, memory=memory)


@pytest.mark.parametrize("name", PHOTOGRAPHS)
@pytest.mark.parametrize("brush", BRUSHES, ids=str)
def test_no_place_is_below_the_brush(name: str, brush: Brush) -> None:
    memory = Memory()
    for count in (3, 6, 10):
        tones = ToneChoice(count, Choice.PICTURE)
        done = planned(name, memory, brush=brush, tones=tones)
        px = done.prepared.grid.px_per_mm
        for k in range(1, done.chosen.count):
            covered = done.tones < k
            assert not without_disc(covered, brush.mark_mm * px)
            assert not without_disc(~covered, brush.gap_mm * px)


def without_disc(cells: NDArray[np.bool_], diameter: float) -> int:
    """How many separate places hold no whole disc, as far as the plate reaches."""
    if cells.all():
        return 0
    pieces, number = ndimage.label(cells, structure=np.ones((3, 3)))
    inside = ndimage.distance_transform_edt(cells) > diameter / 2.0
    return int(number) - len(np.setdiff1d(np.unique(pieces[inside]), [0]))


@pytest.mark.parametrize("name", PICTURES)
def test_the_plan_is_true_to_the_picture(name: str) -> None:
    # the local mean over three brush widths, against the target, beside the same tones uncleaned
    memory = Memory()
    for count in (4, 5, 6, 7, 8):
        done = planned(name, memory, tones=ToneChoice(count, Choice.PICTURE))
        prepared, parted = done.prepared, done.chosen.parted
        targets = targets_of(prepared, done.plate, done.curve)
        levels = np.array(parted.levels)[np.array(parted.table)]
        width = round(3 * done.plate.brush.mark_mm * prepared.grid.px_per_mm)
        wanted = ndimage.uniform_filter(targets[prepared.asked], width)
        cleaned = ndimage.uniform_filter(levels[prepared.cleaned], width)
        plain = ndimage.uniform_filter(levels[prepared.asked], width)
        ours = float(np.sqrt(np.mean((cleaned - wanted) ** 2)))
        uncleaned = float(np.sqrt(np.mean((plain - wanted) ** 2)))
        assert ours <= 1.5 * uncleaned, f"{name}, {count} tones: {ours:.2f} against {uncleaned:.2f}"


def test_covered_areas_are_nested_and_every_cell_gets_its_total() -> None:
    done = planned("coffee", tones=ToneChoice(7, Choice.PICTURE))
    order = done.order
    given = np.zeros(done.tones.shape)
    covered = np.zeros(done.tones.shape, dtype=bool)
    for step in order.steps:
        now = covered | np.isin(done.tones, step.stop_out)
        assert np.all(now[covered])
        covered = now
        given[~covered] += step.bite_s
    totals = np.array([tone.total_bite_s for tone in order.tones])
    assert np.allclose(given, totals[done.tones])
    assert given[done.tones == 0].max() == 0.0
    assert not covered[done.tones == order.tones[-1].tone].any()


def test_a_stage_is_not_done_again_when_nothing_under_it_changed() -> None:
    memory = Memory()
    one = planned("camera", memory, tones=ToneChoice(4))
    other = planned("camera", memory, tones=ToneChoice(8))
    assert other.prepared.cleaned is one.prepared.cleaned
    brushed = planned("camera", memory, brush=Brush(3.0, 4.0))
    assert brushed.prepared.cleaned is not one.prepared.cleaned


def test_choosing_alone_agrees_with_the_whole_plan() -> None:
    done = planned("chelsea", tones=ToneChoice(6, Choice.PICTURE))
    prepared = prepare(picture("chelsea"), seen_of(done.plate), Memory())
    chosen = choose(prepared, done.plate, starting_curve(done.plate.conditions))
    assert chosen == done.chosen


def test_the_work_can_be_stopped_between_stages() -> None:
    class StoppedError(Exception):
        pass

    def stop(_doing: str) -> None:
        raise StoppedError

    found = picture("camera")
    with pytest.raises(StoppedError):
        plan(found, Plate("camera", found.ref, PlateSize(120.0, 90.0)), tell=stop)


@pytest.mark.parametrize("name", PHOTOGRAPHS)
def test_tones_stay_in_order_and_the_ends_are_kept(name: str) -> None:
    done = planned(name, tones=ToneChoice(8, Choice.PICTURE))
    levels = done.chosen.parted.levels
    assert levels[0] == done.curve.lightness[0]
    assert all(a - b >= 2.3 for a, b in pairwise(levels))


def test_a_smallest_area_is_kept_to() -> None:
    brush = Brush(1.5, 2.0, smallest_area_mm2=12.0)
    done = planned("coffee", brush=brush, tones=ToneChoice(6, Choice.PICTURE))
    least = 12.0 * done.prepared.grid.px_per_mm**2
    for k in range(1, done.chosen.count):
        for cells in (done.tones < k, done.tones >= k):
            pieces, number = ndimage.label(cells, structure=np.ones((3, 3)))
            assert np.bincount(pieces.ravel(), minlength=number + 1)[1:].min() >= least


def test_held_partings_and_bites_are_kept_by_the_plan() -> None:
    tones = ToneChoice(6, Choice.PICTURE, held_partings=(55.0,), held_bites=((3, 240.0),))
    done = planned("astronaut", tones=tones)
    assert 55.0 in done.chosen.parted.partings
    assert 240.0 in [tone.total_bite_s for tone in done.order.tones]
