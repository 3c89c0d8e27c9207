"""Soft passages of a whole plan, and when their remedies reach its order."""

from dataclasses import replace
from io import BytesIO

import numpy as np
import pytest
from PIL import Image

from toneladder.borders.remedies import Passage, moment
from toneladder.borders.values import Remedied, Remedy, Soft
from toneladder.picture.opening import Picture, open_picture
from toneladder.picture.values import Laying, PlateSize
from toneladder.plan.memory import Memory
from toneladder.plan.planning import Plan, plan
from toneladder.plan.softening import passages_in
from toneladder.plate.values import Plate
from toneladder.sheets.documents import traced


@pytest.fixture(scope="module")
def fading() -> Picture:
    """A sky that fades downwards, slowly, over a dark and sharply bounded land."""
    down = np.linspace(230.0, 120.0, 400)[:, None].repeat(600, axis=1)
    down[300:] = 30.0
    file = BytesIO()
    Image.fromarray(down.astype(np.uint8)).save(file, "PNG")
    return open_picture(file.getvalue(), name="fading.png")


@pytest.fixture(scope="module")
def memory() -> Memory:
    return Memory()


@pytest.fixture(scope="module")
def made(fading: Picture, memory: Memory) -> Plan:
    return plan(fading, Plate("Fading", fading.ref, PlateSize(150.0, 100.0)), memory=memory)


def found(made: Plan) -> tuple[Passage, ...]:
    return passages_in(made.plate, made.prepared, made.tones, made.chosen.count)


def test_a_fading_sky_is_soft_and_the_edge_of_the_land_is_not(made: Plan) -> None:
    passages = found(made)
    assert passages
    size = made.plate.size
    for passage in passages:  # level borders, edge to edge, walked in steps of half a millimetre
        assert float(passage.points[:, 1].max()) < 0.74 * size.height_mm
        assert passage.length_mm == pytest.approx(size.width_mm, abs=1.0)


def test_maps_show_the_same_passages(made: Plan) -> None:
    told = [(one.number, one.step, one.length_mm) for one in traced(made).passages]
    assert told == [(one.number, one.step, one.length_mm) for one in found(made)]


def test_only_what_was_chosen_reaches_the_order(
    made: Plan, fading: Picture, memory: Memory
) -> None:
    assert not any(step.remedies for step in made.order.steps)
    passage = found(made)[0]
    mine = Remedied(*passage.share_xy, passage.step, Remedy.CRAYON)
    again = plan(fading, replace(made.plate, soft=Soft(remedies=(mine,))), memory=memory)
    chosen = next(one for one in found(again) if one.by_hand)
    assert (chosen.number, chosen.remedy) == (passage.number, Remedy.CRAYON)
    for step in again.order.steps:
        assert step.remedies == ((moment(chosen)[1],) if step.step == passage.step else ())


def test_a_remedy_stays_with_its_place_when_the_picture_is_mirrored(
    made: Plan, fading: Picture, memory: Memory
) -> None:
    passage = found(made)[0]
    mine = Remedied(*passage.share_xy, passage.step, Remedy.BURNISH)
    plate = replace(made.plate, soft=Soft(remedies=(mine,)), laying=Laying(mirrored=True))
    again = plan(fading, plate, memory=memory)
    assert len(again.order.after) == len(made.order.after) + 1
    assert [one.step for one in found(again) if one.by_hand] == [passage.step]
