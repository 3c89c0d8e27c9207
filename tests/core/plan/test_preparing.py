"""A glance is nearly what is prepared, and is taken only where it is a gain."""

from dataclasses import replace
from io import BytesIO

import numpy as np
import pytest
from PIL import Image
from scipy.ndimage import gaussian_filter

from toneladder.picture.opening import Picture, open_picture
from toneladder.picture.values import PlateSize
from toneladder.plan.memory import Memory
from toneladder.plan.preparing import SCREEN_CELLS, Prepared, glance, prepare, seen_of
from toneladder.plate.values import Plate

A4 = PlateSize(297.0, 210.0)


@pytest.fixture(scope="module")
def plate_and_picture() -> tuple[Plate, Picture]:
    """Soft hills of light, 3 : 2."""
    hills = gaussian_filter(np.random.default_rng(3).normal(size=(400, 600)), 20.0)
    grey = np.rint(255.0 * (hills - hills.min()) / np.ptp(hills)).astype(np.uint8)
    file = BytesIO()
    Image.fromarray(grey).save(file, "PNG")
    picture = open_picture(file.getvalue(), name="hills.png")
    return Plate("Hills", picture.ref, A4), picture


@pytest.mark.parametrize("keeps_edges", [False, True])
def test_a_glance_is_nearly_what_is_prepared(
    plate_and_picture: tuple[Plate, Picture], *, keeps_edges: bool
) -> None:
    plate, picture = plate_and_picture
    memory, seen = Memory(), seen_of(replace(plate, keeps_edges=keeps_edges))
    glanced = glance(picture, seen, memory)
    fine = prepare(picture, seen, memory)
    assert glanced is not None
    assert glanced.coarser == 3
    assert fine.coarser == 1
    assert glanced.cleaned.size < 2.5 * SCREEN_CELLS
    assert glanced.grid.px_per_mm == fine.grid.px_per_mm / 3
    steps = np.abs(printed(glanced) - printed(fine)[1::3, 1::3])
    assert steps.mean() < 0.5  # L*
    assert np.percentile(steps, 99) < 2.0
    shares = np.cumsum(glanced.cleaned_counts / glanced.cleaned.size)
    assert shares == pytest.approx(np.cumsum(fine.cleaned_counts / fine.cleaned.size), abs=0.02)


def printed(prepared: Prepared) -> np.ndarray:
    """CIE L* of every cell."""
    return prepared.lattice.lightness()[prepared.cleaned]


def test_no_glance_is_taken_at_what_is_remembered_or_small(
    plate_and_picture: tuple[Plate, Picture],
) -> None:
    plate, picture = plate_and_picture
    memory = Memory()
    seen = seen_of(plate)
    prepare(picture, seen, memory)
    assert glance(picture, seen, memory) is None
    assert glance(picture, replace(seen, squint_mm=1.0), memory) is not None
    assert prepare(picture, seen, memory).asked is prepare(picture, seen, memory).asked
    small = replace(seen, size=PlateSize(120.0, 80.0))
    assert glance(picture, small, memory) is None
