"""What the plate would print if it were stopped here."""

from io import BytesIO

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray
from PIL import Image

from toneladder.optics import lightness, linear_from_srgb
from toneladder.preview.preview import lightness_after, preview, preview_png
from toneladder.preview.values import InkAndPaper, Texture

TONES = (90.0, 72.0, 55.0, 37.0, 20.0)
# equal discs of 75 um, coverage 0.5: integral of the covariance 0.644134 r^2, computed from
# Chiu, Stoyan, Kendall & Mecke, Stochastic Geometry, ch. 3, apart from this program
GRAIN = Texture(0.5, 0.644134 / 0.25 * 37.5**2)
LADDER = np.repeat(np.arange(5, dtype=np.uint8), 240)[None, :].repeat(400, axis=0)

falling = st.lists(st.floats(12.0, 90.0), min_size=2, max_size=12).map(
    lambda ls: tuple(sorted(ls, reverse=True))
)


def seen(
    tones: NDArray[np.uint8] = LADDER,
    tone_lightness: tuple[float, ...] = TONES,
    *,
    out_px_per_mm: float = 8.0,
    margins: bool = False,
    seed: int = 3,
) -> NDArray[np.uint8]:
    return preview(
        tones,
        tone_lightness,
        InkAndPaper(margin_mm=5.0),
        GRAIN,
        px_per_mm=8.0,
        out_px_per_mm=out_px_per_mm,
        margins=margins,
        seed=seed,
    )


def light(image: NDArray[np.uint8]) -> NDArray[np.float64]:
    weights = (0.2126, 0.7152, 0.0722)  # IEC 61966-2-1
    return linear_from_srgb(image / 255.0) @ weights


@given(falling, st.data())
def test_a_longer_bite_is_never_lighter(
    tone_lightness: tuple[float, ...], data: st.DataObject
) -> None:
    step = data.draw(st.integers(1, len(tone_lightness) - 1))
    before, after = lightness_after(tone_lightness, step - 1), lightness_after(tone_lightness, step)
    assert all(late <= early for early, late in zip(before, after, strict=True))


@given(falling, st.data())
def test_a_step_leaves_what_was_stopped_out_as_it_was(
    tone_lightness: tuple[float, ...], data: st.DataObject
) -> None:
    step = data.draw(st.integers(1, len(tone_lightness) - 1))
    before, after = lightness_after(tone_lightness, step - 1), lightness_after(tone_lightness, step)
    assert before[:step] == after[:step] == tone_lightness[:step]


def test_before_the_first_bite_all_is_white_and_after_the_last_all_is_done() -> None:
    assert lightness_after(TONES, 0) == (90.0,) * 5
    assert lightness_after(TONES, 4) == TONES


def test_a_plate_not_yet_bitten_prints_one_even_white() -> None:
    image = seen(tone_lightness=lightness_after(TONES, 0))
    assert len(np.unique(image.reshape(-1, 3), axis=0)) == 1


def test_stopped_out_tones_look_the_same_after_every_later_step() -> None:
    early, done = seen(tone_lightness=lightness_after(TONES, 2)), seen()
    assert (early[:, : 3 * 240] == done[:, : 3 * 240]).all()
    assert light(early)[:, 3 * 240 :].mean() > light(done)[:, 3 * 240 :].mean()


@pytest.mark.parametrize("out_px_per_mm", [8.0, 4.5, 3.0, 1.0])
@pytest.mark.parametrize("tone", range(5))
def test_a_textured_area_is_as_light_as_its_tone(tone: int, out_px_per_mm: float) -> None:
    flat = np.full((640, 640), tone, dtype=np.uint8)
    found = lightness(light(seen(flat, out_px_per_mm=out_px_per_mm)).mean())
    assert found == pytest.approx(TONES[tone], abs=0.3)


@pytest.mark.parametrize(
    ("out_px_per_mm", "window_mm"),  # windows of 8 pixels or more, wider than the pixels' softness
    [(8.0, 1.0), (8.0, 2.0), (8.0, 4.0), (4.0, 2.0), (4.0, 4.0)],
)
def test_texture_quietens_with_the_area_of_the_window(
    out_px_per_mm: float, window_mm: float
) -> None:
    pieces = []
    for seed in range(3):
        flat = np.full((1280, 1280), 1, dtype=np.uint8)
        pieces.append(light(seen(flat, out_px_per_mm=out_px_per_mm, seed=seed)))
    image = np.concatenate(pieces)
    side = round(window_mm * out_px_per_mm)
    rows, columns = image.shape[0] // side, image.shape[1] // side
    means = image.reshape(rows, side, columns, side).mean(axis=(1, 3))
    # L* 72 with half the metal land: paper Y(90) and an opening mixed by Yule and Nielsen's
    # n = 1.6, both seen through the tone's own scattered light
    paper, tone = (np.asarray([0.76303354, 0.43744]) ** (1 / 1.6)).tolist()
    differ = (paper - (2 * tone - paper)) * tone**0.6
    expected = differ**2 * 0.644134 * 37.5**2 / (window_mm * 1000.0) ** 2
    assert means.var() == pytest.approx(expected, rel=0.15)


@pytest.mark.parametrize("tone", range(5))
def test_at_fit_to_window_the_grain_is_nearly_silent(tone: int) -> None:
    flat = np.full((1200, 1200), tone, dtype=np.uint8)
    image = light(seen(flat, out_px_per_mm=3.0))
    assert lightness(image).std() < 2.8  # a limit of our own, judged by eye
    millimetres = image.reshape(150, 3, 150, 3).mean(axis=(1, 3))
    # a millimetre is about the finest period that the eye sees best at reading distance; two
    # swatches are told apart at 2.3 L* (Mahy, Van Eycken & Oosterlinck 1994)
    assert lightness(millimetres).std() < 2.3 / 2


def test_white_keeps_its_plate_tone_darker_than_the_margin() -> None:
    image = light(seen(np.zeros((400, 400), dtype=np.uint8), margins=True))
    plate, margin = lightness(image[40:-40, 40:-40].mean()), lightness(image[:25].mean())
    assert plate == pytest.approx(90.0, abs=0.3)
    assert margin > plate + 3.0


def test_the_same_seed_gives_the_same_print_and_another_gives_another_grain() -> None:
    assert (seen(margins=True) == seen(margins=True)).all()
    assert (seen(seed=3) != seen(seed=4)).any()


def test_seen_from_further_away_light_is_averaged_not_its_codes() -> None:
    checks = np.indices((400, 400)).sum(axis=0).astype(np.uint8) % 2 * 4
    found = light(seen(checks, out_px_per_mm=2.0)).mean()
    # L* 90 is Y 0.76303354, L* 20 is Y 0.02989052 (CIE 15)
    assert found == pytest.approx((0.76303354 + 0.02989052) / 2, rel=0.005)


@pytest.mark.parametrize("out_px_per_mm", [8.0, 3.0, 12.0])
def test_the_picture_is_as_large_as_asked(out_px_per_mm: float) -> None:
    image = seen(out_px_per_mm=out_px_per_mm, margins=True)
    margin = round(5.0 * out_px_per_mm)
    height, width = (round(cells * out_px_per_mm / 8.0) for cells in LADDER.shape)
    assert image.shape == (height + 2 * margin, width + 2 * margin, 3)
    assert image.dtype == np.uint8


@pytest.mark.parametrize("shape", [(1, 1), (1, 700), (3, 2)])
def test_the_smallest_plates_print(shape: tuple[int, int]) -> None:
    assert seen(np.ones(shape, dtype=np.uint8), out_px_per_mm=0.5).shape[2] == 3


def test_png_is_the_picture_no_larger_than_the_limit() -> None:
    image = seen(margins=True)
    same = np.asarray(Image.open(BytesIO(preview_png(image))))
    assert (same == image).all()
    small = Image.open(BytesIO(preview_png(image, size_limit=300)))
    assert max(small.size) == 300
