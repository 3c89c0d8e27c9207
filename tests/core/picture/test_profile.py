"""An embedded colour profile says how light a picture is."""

import io
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
import skimage.color
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PIL import Image, ImageCms

from toneladder.optics import lightness, linear_from_srgb
from toneladder.picture.opening import open_picture
from toneladder.picture.profile import way_of

Encoded = Callable[..., bytes]

# Primaries under D50 as columns, published by Bruce Lindbloom (from memory; the test holds them
# against littlecms, which is given the same): sRGB, and a space with a wider green
SRGB = np.array(
    [
        [0.4360747, 0.3850649, 0.1430804],
        [0.2225045, 0.7168786, 0.0606169],
        [0.0139322, 0.0971045, 0.7141733],
    ]
)
WIDE = np.array(
    [
        [0.6097559, 0.2052401, 0.1492240],
        [0.3111242, 0.6256560, 0.0632197],
        [0.0194811, 0.0608902, 0.7448387],
    ]
)
HALF_A_CODE = 0.3  # L*: what rounding three channels to 8 bits can do


@pytest.fixture
def pixels(photograph: Callable[[str], Path]) -> np.ndarray:
    return np.asarray(Image.open(photograph("chelsea.png")).convert("RGB"))[::6, ::6]


def lightness_of(data: bytes) -> np.ndarray:
    return lightness(open_picture(data, name="profiled").light / 65535.0)


def by_littlecms(image: Image.Image, profile: bytes) -> tuple[np.ndarray, np.ndarray]:
    """L* by Pillow's littlecms, through 8-bit sRGB, and where sRGB could show the colour."""
    srgb = ImageCms.profileToProfile(
        image,
        ImageCms.ImageCmsProfile(io.BytesIO(profile)),
        ImageCms.createProfile("sRGB"),
        outputMode="RGB",
    )
    codes = np.asarray(srgb)
    inside = np.all((codes > 0) & (codes < 255), axis=-1)
    return skimage.color.rgb2lab(codes)[..., 0], np.asarray(inside)


@pytest.mark.parametrize("primaries", [SRGB, WIDE], ids=["sRGB", "wide"])
@pytest.mark.parametrize(
    ("values", "kind"),
    [
        ((1.8,), None),
        ((2.19921875,), None),
        (tuple(np.linspace(0, 1, 64) ** 2.0), None),
        ((2.2,), 0),
        ((2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045), 3),
    ],
    ids=["power 1.8", "power 2.2", "table", "formula 0", "formula 3"],
)
def test_primaries_and_curves_are_read_as_littlecms_reads_them(
    primaries: np.ndarray,
    values: tuple[float, ...],
    kind: int | None,
    pixels: np.ndarray,
    matrix_profile: Encoded,
    curve_tag: Encoded,
    encoded: Encoded,
) -> None:
    profile = matrix_profile(primaries, curve_tag(*values, kind=kind))
    assert way_of(profile, 3, 256).convert is None
    image = Image.fromarray(pixels)
    expected, inside = by_littlecms(image, profile)
    assert inside.mean() > 0.9
    for file in ("PNG", "TIFF"):
        found = lightness_of(encoded(image, file, icc_profile=profile))
        assert np.abs(found - expected)[inside].max() < HALF_A_CODE


def test_a_profile_of_srgb_changes_nothing(
    pixels: np.ndarray, matrix_profile: Encoded, curve_tag: Encoded, encoded: Encoded
) -> None:
    numbers = (2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045)
    profile = matrix_profile(SRGB, curve_tag(*numbers, kind=3))
    image = Image.fromarray(pixels)
    found = lightness_of(encoded(image, "PNG", icc_profile=profile))
    assert np.abs(found - lightness_of(encoded(image, "PNG"))).max() < 0.1


@pytest.mark.parametrize("kind", [1, 2, 4])
def test_every_formula_of_a_curve_is_read(
    kind: int, curve_tag: Encoded, grey_profile: Encoded
) -> None:
    # ICC.1:2010 table of parametric curves: g a b c d e f
    numbers = {
        1: (2.0, 1.0, -0.1),
        2: (2.0, 0.9, 0.05, 0.02),
        4: (2.0, 0.9, 0.05, 0.3, 0.2, 0.05, 0.02),
    }[kind]
    at = np.linspace(0, 1, 256)
    g, a, b, c, d, e, f = numbers + (0.0,) * (7 - len(numbers))
    expected = {
        1: np.where(at >= -b / a, np.maximum(a * at + b, 0) ** g, 0),
        2: np.where(at >= -b / a, np.maximum(a * at + b, 0) ** g + c, c),
        4: np.where(at >= d, (a * at + b) ** g + e, c * at + f),
    }[kind]
    way = way_of(grey_profile(curve_tag(*numbers, kind=kind)), 1, 256)
    assert way.convert is None
    assert way.response.curves[0] == pytest.approx(np.clip(expected, 0, 1), abs=1e-4)


def test_a_grey_profile_is_a_curve(
    grey_profile: Encoded, curve_tag: Encoded, encoded: Encoded
) -> None:
    profile = grey_profile(curve_tag(1.5))
    codes = np.arange(256, dtype=np.uint8).reshape(16, 16)
    for mode in ("L", "LA"):
        image = Image.fromarray(codes).convert(mode)
        light = open_picture(encoded(image, "PNG", icc_profile=profile), name="grey").light
        assert light / 65535 == pytest.approx((codes / 255) ** 1.5, abs=1e-5)


def test_a_profile_of_tables_goes_through_littlecms(
    ink_profile: bytes, encoded: Encoded, tiff: Encoded
) -> None:
    inks = np.random.default_rng(2).integers(0, 256, (20, 30, 4), dtype=np.uint8)
    image = Image.frombytes("CMYK", (30, 20), inks.tobytes())
    expected, _ = by_littlecms(image, ink_profile)
    assert np.ptp(expected) > 60
    found = lightness_of(encoded(image, "TIFF", icc_profile=ink_profile))
    assert np.abs(found - expected).max() < 0.6
    deep = tiff(inks.astype(np.uint16) * 257, photometric="separated", iccprofile=ink_profile)
    assert np.abs(lightness_of(deep) - expected).max() < 0.6


def test_a_profile_in_a_photograph_is_honoured(photograph: Callable[[str], Path]) -> None:
    data = photograph("rocket.jpg").read_bytes()
    image = Image.open(io.BytesIO(data))
    expected, inside = by_littlecms(image, image.info["icc_profile"])
    assert inside.mean() > 0.9
    assert np.abs(lightness_of(data) - expected)[inside].max() < HALF_A_CODE


@pytest.mark.parametrize("channels", [1, 3, 4])
def test_a_profile_of_another_space_is_as_good_as_none(
    channels: int, grey_profile: Encoded, matrix_profile: Encoded, curve_tag: Encoded
) -> None:
    curve = curve_tag(3.0)
    wrong = grey_profile(curve) if channels > 1 else matrix_profile(SRGB, curve)
    way = way_of(wrong, channels, 256)
    assert way.convert is None
    assert way.response.curves[0] == pytest.approx(linear_from_srgb(np.linspace(0, 1, 256)))


@settings(
    max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(
    places=st.lists(st.tuples(st.integers(0, 2000), st.integers(1, 255)), min_size=1, max_size=8),
    keep=st.integers(0, 2000),
)
def test_a_damaged_profile_never_stops_a_picture(
    places: list[tuple[int, int]],
    keep: int,
    matrix_profile: Encoded,
    curve_tag: Encoded,
    ink_profile: bytes,
    encoded: Encoded,
) -> None:
    for profile, mode in ((matrix_profile(WIDE, curve_tag(1.8)), "RGB"), (ink_profile, "CMYK")):
        damaged = bytearray(profile)
        for place, change in places:
            damaged[place % len(damaged)] ^= change
        cut = bytes(damaged[: max(1, keep)])
        data = encoded(Image.new(mode, (2, 2)), "TIFF", icc_profile=cut)
        assert open_picture(data, name="x").light.shape == (2, 2)
