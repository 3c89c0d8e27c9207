"""Lines are taken out before the squint: the tones know nothing of them."""

from dataclasses import replace
from io import BytesIO

import numpy as np
import pytest
from PIL import Image

from toneladder.lines.values import Lines
from toneladder.picture.opening import Picture, open_picture
from toneladder.picture.values import PlateSize
from toneladder.plan.memory import Memory
from toneladder.plan.planning import plan
from toneladder.plan.preparing import prepare, seen_of
from toneladder.plate.values import Plate


@pytest.fixture(scope="module")
def picture() -> Picture:
    """Two washes and a net of half-millimetre lines, 60 by 45 mm at 8 dots to the millimetre."""
    grey = np.full((360, 480), 235, np.uint8)
    grey[:, 240:] = 150
    grey[20::40] = 25
    grey[21::40] = 25
    grey[:, 20::40] = 25
    grey[:, 21::40] = 25
    file = BytesIO()
    Image.fromarray(grey).save(file, "PNG")
    return open_picture(file.getvalue(), name="net.png")


def plate(picture: Picture, lines: Lines | None) -> Plate:
    return Plate("Net", picture.ref, PlateSize(60.0, 45.0), lines=lines)


def test_without_lines_there_is_no_layer(picture: Picture) -> None:
    assert prepare(picture, seen_of(plate(picture, None)), Memory()).lines is None


def test_tones_are_those_of_the_washes_alone(picture: Picture) -> None:
    done = plan(picture, plate(picture, Lines()))
    assert done.prepared.lines is not None
    assert done.prepared.lines.mask[20::40].all()
    # but for the ghost of the squint along the washes' common edge
    assert not done.tones[:, :230].any()
    assert (done.tones[:, 250:] == done.tones.max()).all()


def test_how_lines_are_bitten_does_not_part_them_anew(picture: Picture) -> None:
    memory = Memory()
    first = prepare(picture, seen_of(plate(picture, Lines())), memory)
    bitten = replace(Lines(), bites_s=(600.0,), stopped_out=True)
    again = prepare(picture, seen_of(plate(picture, bitten)), memory)
    assert again.lines is first.lines
    assert again.cleaned is first.cleaned
    other = prepare(picture, seen_of(plate(picture, Lines(widest_mm=0.15))), memory)
    assert other.lines is not first.lines


def test_a_picture_without_lines_is_told(picture: Picture) -> None:
    faint = Lines(contrast=90.0)
    assert any(
        "No lines were found" in note
        for note in plan(picture, plate(picture, faint)).prepared.notes
    )
