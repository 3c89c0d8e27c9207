"""Prints are laid on their scans, and scans of something else are refused.

``python -m tests.core.proof.figures`` tries many more, on plans of the sample pictures.
"""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from numpy.typing import NDArray
from skimage import data
from tests.core.proof.drawing import Array, Look, blobs, draw
from tests.core.proof.trial import Planned, off_mm, random_look, random_print

from toneladder.errors import ProofError
from toneladder.picture.opening import open_picture
from toneladder.proof.registering import register
from toneladder.proof.values import Registration

PX = 8.0
PLAIN = Look(dpi=150.0, turn=1.5, scale=1.03, margin=15.0)


def plate(count: int = 5, seed: int = 0) -> Planned:
    return Planned(blobs(count, seed), np.linspace(90.0, 25.0, count), PX)


def laid(one: Planned, look: Look, printed: Array | None = None) -> tuple[Registration, float]:
    scan = draw(one.tones, one.lightness if printed is None else printed, PX, look)
    light = open_picture(scan.data, name="scan").light
    found = register(light, one.tones, PX, dpi=look.dpi)
    return found, off_mm(found, scan.matrix, one)


@pytest.mark.parametrize("seed", range(8))
def test_any_print_is_laid_to_a_third_of_a_millimetre(seed: int) -> None:
    chance = np.random.default_rng(seed)
    one = plate(int(chance.integers(3, 10)), seed)
    dpi = float(chance.choice([100.0, 150.0, 200.0, 300.0]))
    look = random_look(chance, dpi, cropped=seed % 3 == 0)
    found, off = laid(one, look, random_print(chance, one))
    assert off <= 0.3
    assert found.residual_mm <= 0.3
    assert found.rotation_deg == pytest.approx(look.turn, abs=0.3)
    assert found.scale == pytest.approx(look.scale, abs=0.01)
    assert found.confidence > 0.5


def test_a_scan_that_names_no_resolution_or_a_wrong_one_is_laid_too() -> None:
    one = plate()
    scan = draw(one.tones, one.lightness, PX, PLAIN)
    light = open_picture(scan.data, name="scan").light
    for dpi in (None, 72.0):
        assert off_mm(register(light, one.tones, PX, dpi=dpi), scan.matrix, one) <= 0.3


@pytest.mark.parametrize("quarter", [1, 2, 3])
def test_a_print_may_lie_on_its_side_or_head(quarter: int) -> None:
    assert laid(plate(), replace(PLAIN, quarter=quarter))[1] <= 0.3


def test_marked_corners_are_a_start_and_need_not_be_exact() -> None:
    one = plate()
    scan = draw(one.tones, one.lightness, PX, replace(PLAIN, turn=25.0))
    light = open_picture(scan.data, name="scan").light
    with pytest.raises(ProofError):
        register(light, one.tones, PX, dpi=PLAIN.dpi)
    right, foot = 520 / PX, 400 / PX
    points = scan.matrix @ np.array([[0, right, right, 0], [0, 0, foot, foot], [1, 1, 1, 1.0]])
    marked = [(x + 6.0, y - 5.0) for x, y in points.T.tolist()]
    found = register(light, one.tones, PX, dpi=PLAIN.dpi, corners=marked)
    assert off_mm(found, scan.matrix, one) <= 0.3


def test_where_the_print_lies_is_told_from_the_middle_of_the_scan() -> None:
    found, _ = laid(plate(), replace(PLAIN, turn=0.0, scale=1.0, shift=(4.0, -3.0)))
    assert found.shift_mm == pytest.approx((4.0, -3.0), abs=0.1)
    assert found.px_per_mm == pytest.approx(150.0 / 25.4, rel=0.002)


def other_plate() -> NDArray[np.uint16]:
    scan = draw(blobs(5, 77), np.linspace(90.0, 25.0, 5), PX, PLAIN)
    return open_picture(scan.data, name="scan").light


def mirrored() -> NDArray[np.uint16]:
    scan = draw(blobs(5, 0)[:, ::-1], np.linspace(90.0, 25.0, 5), PX, PLAIN)
    return open_picture(scan.data, name="scan").light


def grey(picture: NDArray[np.uint8]) -> NDArray[np.uint16]:
    plain = picture if picture.ndim == 2 else picture.mean(axis=2)
    return np.asarray((plain / 255.0) ** 2.2 * 65535.0, np.uint16)


SOMETHING_ELSE: dict[str, Callable[[], NDArray[np.uint16]]] = {
    "another plate": other_plate,
    "the plate itself, not its print": mirrored,
    "a cat": lambda: grey(data.chelsea()),
    "coins": lambda: grey(data.coins()),
    "a blank page": lambda: np.full((500, 700), 56000, np.uint16),
    "black": lambda: np.zeros((500, 700), np.uint16),
    "a speck": lambda: np.full((3, 2), 56000, np.uint16),
}


@pytest.mark.parametrize("what", SOMETHING_ELSE)
def test_what_is_not_this_plate_is_refused(what: str) -> None:
    with pytest.raises(ProofError, match="does not look like this plate"):
        register(SOMETHING_ELSE[what](), plate().tones, PX, dpi=None)


def test_corners_marked_far_from_the_print_find_nothing() -> None:
    one = plate()
    light = open_picture(draw(one.tones, one.lightness, PX, PLAIN).data, name="scan").light
    away = [(9000.0, 9000.0), (9300.0, 9000.0), (9300.0, 9200.0), (9000.0, 9200.0)]
    with pytest.raises(ProofError):
        register(light, one.tones, PX, corners=away)
