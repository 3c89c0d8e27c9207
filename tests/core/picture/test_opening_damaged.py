"""A file that cannot be used is refused with a sentence, and nothing else happens."""

import contextlib
import io
import struct
import sys
import zlib
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
import tifffile
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PIL import Image

from toneladder.errors import PictureError
from toneladder.picture.opening import open_picture

Encoded = Callable[..., bytes]
KINDS = ("JPEG", "PNG", "TIFF", "WEBP", "BMP", "GIF", "deep PNG", "deep TIFF", "LZW", "deflate")


@pytest.fixture(scope="module")
def noise() -> Image.Image:
    pixels = np.random.default_rng(3).integers(0, 256, (40, 50, 3), dtype=np.uint8)
    return Image.fromarray(pixels)


@pytest.fixture
def whole(
    noise: Image.Image, encoded: Encoded, deep_png: Encoded, tiff: Encoded
) -> dict[str, bytes]:
    files = {kind: encoded(noise, kind) for kind in KINDS[:6]}
    samples = np.asarray(noise).astype(np.uint16) * 257
    files["deep PNG"] = deep_png(samples)
    files["deep TIFF"] = tiff(samples, photometric="rgb")
    files["LZW"] = tiff(samples, photometric="rgb", compression="lzw")
    files["deflate"] = tiff(samples, photometric="rgb", compression="deflate", predictor=True)
    return files


def refusal(data: bytes | Path, limit_megapixels: float = 400.0) -> str:
    with pytest.raises(PictureError) as caught:
        open_picture(data, name="moon.jpg", limit_megapixels=limit_megapixels)
    sentence = str(caught.value)
    assert sentence.endswith(".")
    assert "Nothing was changed." in sentence
    return sentence


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("share", [0.1, 0.5, 0.9])
def test_a_file_that_was_cut_off_is_refused(
    kind: str, share: float, whole: dict[str, bytes], capfd: pytest.CaptureFixture[str]
) -> None:
    data = whole[kind]
    assert open_picture(data, name="whole").light.shape == (40, 50)
    assert "moon.jpg is damaged or cut off" in refusal(data[: int(len(data) * share)])
    assert capfd.readouterr() == ("", "")


@pytest.mark.parametrize("kind", KINDS)
@settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(places=st.lists(st.tuples(st.floats(0, 1), st.integers(1, 255)), min_size=1, max_size=6))
def test_a_damaged_file_opens_or_is_refused_with_a_sentence(
    kind: str, places: list[tuple[float, int]], whole: dict[str, bytes]
) -> None:
    data = bytearray(whole[kind])
    for place, change in places:
        data[int(place**2 * (len(data) - 1))] ^= change  # most of the damage near the heading
    with contextlib.suppress(PictureError):  # and nothing else
        assert open_picture(bytes(data), name="moon.jpg").light.dtype == np.uint16


@pytest.mark.parametrize(
    "data",
    [
        b"A letter about pictures.",
        b"\x00" * 500,
        b"%PDF-1.7",
        b"PK\x03\x04",
        b"<svg xmlns='http://www.w3.org/2000/svg'/>",
        b"\x00\x00\x00\x18ftypheic",
    ],
)
def test_what_is_no_picture_is_refused_whatever_its_name(data: bytes) -> None:
    assert "not a JPEG, PNG, TIFF, WebP, BMP or GIF picture" in refusal(data)


@pytest.mark.parametrize("start", [b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n", b"II*\0", b"MM\0*",
                                   b"RIFF\0\0\0\0WEBP", b"BM", b"GIF89a"])  # fmt: skip
def test_a_file_of_a_beginning_alone_is_refused(start: bytes) -> None:
    assert "damaged or cut off" in refusal(start)
    assert "damaged or cut off" in refusal(start + b"\0" * 300)


def test_an_empty_file_is_refused(tmp_path: Path) -> None:
    (tmp_path / "nothing").touch()
    assert "moon.jpg is empty" in refusal(tmp_path / "nothing")
    assert "moon.jpg is empty" in refusal(b"")


def test_a_missing_file_and_a_folder_are_refused(tmp_path: Path) -> None:
    assert "moon.jpg cannot be read" in refusal(tmp_path / "nowhere")
    assert "moon.jpg is not a file" in refusal(tmp_path)


@pytest.mark.parametrize(("side", "megapixels"), [(30_000, "900"), (60_000, "3600")])
def test_a_huge_heading_is_refused_before_anything_is_decoded(
    side: int, megapixels: str, png: Encoded
) -> None:
    for depth in (8, 16):
        sentence = refusal(png(side, side, depth, 2))
        assert f"{side} × {side} pixels, {megapixels} megapixels; the limit is 400" in sentence


@pytest.mark.skipif(sys.platform == "win32", reason="memory is asked of POSIX")
@pytest.mark.parametrize("depth", [8, 16])
def test_a_huge_heading_takes_no_memory_while_its_orientation_is_looked_for(
    depth: int, png: Encoded
) -> None:
    import resource

    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    refusal(png(30, 268_566_550, depth, 2))
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < 100_000


def test_the_limit_is_the_readers_own(encoded: Encoded) -> None:
    data = encoded(Image.new("L", (2000, 1000)), "PNG")
    assert open_picture(data, name="x", limit_megapixels=2.0).ref.width == 2000
    assert "2 megapixels; the limit is 1" in refusal(data, limit_megapixels=1.0)


def test_a_picture_that_takes_too_much_memory_is_refused_and_both_numbers_are_named(
    png: Encoded,
) -> None:
    assert "takes 1440\u00a0MB of memory and the limit is 1000\u00a0MB" in refusal(
        png(18_000, 20_000, 8, 2)
    )
    assert "takes 1350\u00a0MB" in refusal(png(15_000, 15_000, 16, 2))


def test_a_picture_that_grows_in_passes_counts_them(encoded: Encoded) -> None:
    data = bytearray(encoded(Image.new("RGB", (8, 8)), "JPEG", progressive=True, subsampling=0))
    frame = data.index(b"\xff\xc2")
    data[frame + 5 : frame + 9] = struct.pack(">HH", 15_000, 15_000)
    # 4 bytes a pixel, and 2 for each of 3 channels until the last pass
    assert "takes 2250\u00a0MB" in refusal(bytes(data))


def test_a_wrong_checksum_is_refused(png: Encoded, deep_png: Encoded) -> None:
    for data in (
        png(2, 1, 8, 0, b"\0\1\2"),
        deep_png(np.array([[[1], [2]]], np.uint16)),
    ):
        at = data.index(b"IDAT")
        assert open_picture(data, name="x").light.shape == (1, 2)
        assert "damaged" in refusal(data[: at + 8] + b"\xff" + data[at + 9 :])


def test_a_text_that_swells_is_refused(png: Encoded, png_chunk: Encoded) -> None:
    swelling = zlib.compress(b"\0" * 50_000_000, 9)
    for kind in (b"zTXt", b"iCCP"):
        assert "damaged" in refusal(png(1, 1, 8, 0, b"\0\0", png_chunk(kind, b"x\0\0" + swelling)))


def test_a_page_that_swells_is_refused(tiff: Encoded) -> None:
    data = bytearray(tiff(np.zeros((64, 64), np.uint16), compression="deflate"))
    swelling = zlib.compress(b"\0" * 200_000_000, 9)
    with tifffile.TiffFile(io.BytesIO(bytes(data))) as file:
        tags = file.pages.first.tags
        for code, value in ((273, len(data)), (279, len(swelling))):
            struct.pack_into("<I", data, tags[code].valueoffset, value)
    assert "damaged" in refusal(bytes(data) + swelling)


def test_a_page_with_a_larger_picture_inside_is_refused(encoded: Encoded) -> None:
    data = bytearray(encoded(Image.new("RGB", (16, 16)), "TIFF", compression="jpeg"))
    frame = data.index(b"\xff\xc0")
    data[frame + 5 : frame + 9] = struct.pack(">HH", 60_000, 60_000)
    assert "damaged" in refusal(bytes(data))


def test_a_damaged_orientation_is_ignored(
    encoded: Encoded, png: Encoded, png_chunk: Encoded
) -> None:
    jpeg = encoded(Image.new("L", (6, 4)), "JPEG", exif=b"Exif\0\0II*\0\x08\0\0\0\xff\xff\x12\x01")
    assert open_picture(jpeg, name="x").light.shape == (4, 6)
    rows = b"\0\0\0\0\0" * 2
    data = png(4, 2, 8, 0, rows, png_chunk(b"eXIf", b"MM\0*\0\0\0\x08\0\x01\x01\x12\0\x02\xff\xff"))
    assert open_picture(data, name="x").light.shape == (2, 4)


def test_samples_that_cannot_be_seen_are_refused(tiff: Encoded) -> None:
    for samples in (np.zeros((4, 5), np.complex64), np.zeros((4, 5), np.int16)):
        assert "kind that cannot be read" in refusal(tiff(samples, photometric="minisblack"))


def test_what_a_sensor_saw_is_refused(tiff: Encoded) -> None:
    version = (50706, "B", 4, b"\1\4\0\0", True)
    raw = tiff(np.zeros((4, 5), np.uint16), photometric="minisblack", extratags=[version])
    assert "what a camera's sensor saw" in refusal(raw)
