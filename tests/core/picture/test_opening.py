"""Any picture a studio owns becomes the same light."""

import hashlib
from collections.abc import Callable
from pathlib import Path
from types import ModuleType

import numpy as np
import pytest
import skimage.color
from numpy.typing import NDArray
from PIL import Image, ImageOps

from toneladder.optics import lightness
from toneladder.picture.opening import open_picture

Encoded = Callable[..., bytes]

# IEC 61966-2-1 and CIE 15 by colour-science and scikit-image: code, linear light, L*
SRGB = [
    (0, 0.0, 0.0),
    (1, 0.00030353, 0.27417),
    (10, 0.00303527, 2.74175),
    (11, 0.00334654, 3.02291),
    (32, 0.01444384, 12.25003),
    (64, 0.05126946, 27.09341),
    (96, 0.11697067, 40.73055),
    (119, 0.18447499, 50.03444),
    (128, 0.21586050, 53.58501),
    (160, 0.35153260, 65.86781),
    (192, 0.52711513, 77.70436),
    (255, 1.0, 100.0),
]


def light_of(data: bytes | Path) -> NDArray[np.float64]:
    return open_picture(data, name="a picture").light / 65535.0


@pytest.mark.parametrize(("code", "linear", "l_star"), SRGB)
@pytest.mark.parametrize("mode", ["L", "RGB", "P", "LA", "RGBA"])
def test_a_grey_of_srgb_is_the_published_light(
    code: int, linear: float, l_star: float, mode: str, encoded: Encoded
) -> None:
    grey = Image.new("RGB", (3, 2), (code,) * 3)
    light = light_of(encoded(grey.quantize(2) if mode == "P" else grey.convert(mode), "PNG"))
    assert light.shape == (2, 3)
    assert light == pytest.approx(linear, abs=1 / 65535)
    assert lightness(light) == pytest.approx(l_star, abs=0.01)


def test_a_ramp_of_sixteen_bits_keeps_its_levels(
    deep_png: Encoded, tiff: Encoded, colour: ModuleType
) -> None:
    codes = np.arange(65536, dtype=np.uint16).reshape(256, 256)
    colours = np.repeat(codes[..., None], 3, axis=2)
    expected = colour.lightness(colour.models.eotf_sRGB(codes / 65535.0) * 100)
    assert np.abs(expected - skimage.color.rgb2lab(colours / 65535.0)[..., 0]).max() < 0.001
    for data in (
        deep_png(codes[..., None]),
        deep_png(colours),
        tiff(codes, photometric="minisblack"),
        tiff(colours, photometric="rgb", compression="lzw"),
        tiff(colours, photometric="rgb", compression="deflate", predictor=True),
    ):
        picture = open_picture(data, name="ramp")
        assert picture.ref.depth == 16
        assert np.abs(lightness(picture.light / 65535.0) - expected).max() < 0.01


def test_a_colour_ramp_of_sixteen_bits_agrees_with_scikit_image(deep_png: Encoded) -> None:
    samples = np.random.default_rng(5).integers(0, 65536, (64, 64, 3), dtype=np.uint16)
    found = lightness(light_of(deep_png(samples)))
    assert np.abs(found - skimage.color.rgb2lab(samples / 65535.0)[..., 0]).max() < 0.02


@pytest.mark.parametrize(
    ("name", "mean", "median"),
    # L* by skimage.color.rgb2lab: mean and 50th percentile
    [
        ("camera.png", 52.281, 62.84),
        ("astronaut.png", 47.718, 55.21),
        ("coffee.png", 44.419, 45.28),
        ("chelsea.png", 49.806, 51.04),
        ("rocket.jpg", 25.736, 23.44),
    ],
)
def test_photographs_are_as_light_as_scikit_image_finds_them(
    name: str, mean: float, median: float, photograph: Callable[[str], Path], encoded: Encoded
) -> None:
    pixels = np.asarray(Image.open(photograph(name)))
    found = lightness(light_of(encoded(Image.fromarray(pixels), "PNG")))
    colours = pixels if pixels.ndim == 3 else np.repeat(pixels[..., None], 3, axis=2)
    assert np.abs(found - skimage.color.rgb2lab(colours)[..., 0]).max() < 0.2
    assert found.mean() == pytest.approx(mean, abs=0.01)
    assert np.median(found) == pytest.approx(median, abs=0.05)


@pytest.mark.parametrize("orientation", range(1, 9))
@pytest.mark.parametrize("kind", ["JPEG", "PNG", "TIFF", "WEBP"])
def test_the_camera_may_be_held_any_way(
    orientation: int, kind: str, encoded: Encoded, photograph: Callable[[str], Path]
) -> None:
    image = Image.open(photograph("chelsea.png")).resize((45, 30))
    exif = Image.Exif()
    exif[0x0112] = orientation
    options = {"lossless": True} if kind == "WEBP" else {"quality": 95} if kind == "JPEG" else {}
    picture = open_picture(encoded(image, kind, exif=exif, **options), name="held")
    unturned = open_picture(encoded(image, kind, **options), name="upright")
    tagged = Image.fromarray(unturned.light)
    tagged.getexif()[0x0112] = orientation
    assert np.array_equal(picture.light, np.asarray(ImageOps.exif_transpose(tagged)))
    assert (picture.ref.height, picture.ref.width) == picture.light.shape


def test_what_is_transparent_is_white_paper(encoded: Encoded, deep_png: Encoded) -> None:
    clear = np.zeros((2, 2, 4), np.uint8)
    for data in (
        encoded(Image.fromarray(clear), "PNG"),
        encoded(Image.fromarray(clear), "WEBP", lossless=True, exact=True),
        encoded(Image.fromarray(clear), "TIFF"),
        encoded(Image.fromarray(clear).convert("LA"), "PNG"),
        encoded(Image.new("P", (2, 2)), "PNG", transparency=0),
        encoded(Image.new("P", (2, 2)), "GIF", transparency=0),
        encoded(Image.new("L", (2, 2)), "PNG", transparency=0),
        encoded(Image.new("RGB", (2, 2)), "PNG", transparency=(0, 0, 0)),
        deep_png(np.zeros((2, 2, 4), np.uint16)),
        deep_png(np.zeros((2, 2, 2), np.uint16)),
    ):
        assert np.array_equal(light_of(data), np.ones((2, 2)))


def test_what_is_half_transparent_lets_half_of_the_paper_through(
    encoded: Encoded, deep_png: Encoded
) -> None:
    half = np.array([[[0, 0, 0, 51]]], np.uint8)
    assert light_of(encoded(Image.fromarray(half), "PNG")) == pytest.approx(0.8, abs=1e-5)
    deep = np.array([[[0, 0, 0, 13107]]], np.uint16)
    assert light_of(deep_png(deep)) == pytest.approx(0.8, abs=1e-5)


def test_a_picture_of_black_and_white_is_black_and_white(encoded: Encoded, tiff: Encoded) -> None:
    bits = np.arange(48).reshape(6, 8) % 3 == 0
    image = Image.fromarray(bits)
    for data in (
        encoded(image, "PNG"),
        encoded(image, "BMP"),
        encoded(image, "TIFF"),
        encoded(image, "TIFF", compression="group4"),
        tiff(bits, photometric="minisblack"),
    ):
        assert np.array_equal(light_of(data), bits)
        assert open_picture(data, name="x").ref.depth == 1


def test_inks_without_a_profile_darken_the_paper(encoded: Encoded) -> None:
    inks = np.zeros((1, 3, 4), np.uint8)
    inks[0, 1] = (0, 0, 0, 255)
    inks[0, 2] = (0, 0, 0, 127)
    for kind in ("JPEG", "TIFF"):
        options = {"quality": 100} if kind == "JPEG" else {}
        light = light_of(encoded(Image.frombytes("CMYK", (3, 1), inks.tobytes()), kind, **options))
        assert light[0] == pytest.approx([1.0, 0.0, 0.2158605], abs=0.02)


def test_the_first_of_several_pictures_is_used_and_that_is_said(
    encoded: Encoded, tiff: Encoded
) -> None:
    first, second = Image.new("RGB", (4, 3), "white"), Image.new("RGB", (4, 3), "black")
    several = {"save_all": True, "append_images": [second, first]}
    files = [encoded(first, kind, **several) for kind in ("GIF", "PNG", "WEBP", "TIFF")]
    files.append(tiff(np.stack([np.full((4, 5), 65535, np.uint16)] * 3), photometric="minisblack"))
    for data in files:
        picture = open_picture(data, name="several")
        assert picture.light.min() == 65535
        assert picture.notes == ("The file holds 3 pictures; the first is used.",)


def test_a_bitmap_whose_fourth_sample_was_never_filled_in_is_not_clear(encoded: Encoded) -> None:
    pixels = np.zeros((2, 2, 4), np.uint8)
    pixels[..., :3] = 128
    data = bytearray(encoded(Image.fromarray(pixels), "BMP"))
    light = light_of(bytes(data))
    assert light == pytest.approx(0.2158605, abs=1e-5)


def test_the_picture_is_known_by_its_bytes(encoded: Encoded, tmp_path: Path) -> None:
    data = encoded(Image.new("L", (5, 4), 7), "PNG")
    (tmp_path / "named.jpg").write_bytes(data)
    picture = open_picture(tmp_path / "named.jpg", name="named.jpg")
    assert picture.ref.sha256 == hashlib.sha256(data).hexdigest()
    assert (picture.ref.name, picture.ref.width, picture.ref.height) == ("named.jpg", 5, 4)
    assert not picture.light.flags.writeable
    assert not picture.notes
    assert open_picture(data, name="named.jpg").ref == picture.ref


def test_a_picture_of_one_pixel_opens(encoded: Encoded) -> None:
    for kind in ("JPEG", "PNG", "TIFF", "WEBP", "BMP", "GIF"):
        assert open_picture(encoded(Image.new("L", (1, 1)), kind), name="dot").light.shape == (1, 1)
