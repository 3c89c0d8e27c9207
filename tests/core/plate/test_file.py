"""A plate's file: what goes in comes out, and a bad one is refused with a sentence."""

import hashlib
import io
import json
import os
import zipfile
from contextlib import suppress
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from toneladder.bite.values import BiteCurve, Conditions, Metal, Mordant, Standing
from toneladder.errors import OutputError, PlateFileError
from toneladder.picture.values import Crop, Laying, PictureRef, PlateSize
from toneladder.plate.file import PlateFile, read_plate, write_plate
from toneladder.plate.record import FORMAT
from toneladder.plate.values import Plate
from toneladder.tones.values import Brush, Choice, Range, ToneChoice

PICTURE = b"not a picture, but bytes that must come back unchanged \x00\xff" * 40
CURVE = BiteCurve(
    bites_s=(0.0, 30.0, 120.0, 900.0),
    lightness=(90.0, 75.0, 50.0, 22.0),
    low=(88.0, 60.0, 35.0, 18.0),
    high=(92.0, 85.0, 70.0, 40.0),
    longest_tested_s=900.0,
    deepest_useful_s=860.0,
    standing=Standing.UNTESTED,
    temperature_c=20.0,
    source="invented for a test",
)
REF = PictureRef(hashlib.sha256(PICTURE).hexdigest(), "harbour.jpg", 300, 200, 8)
PLATE = Plate("Harbour", REF, PlateSize(200.0, 150.0))

CROPS = st.builds(Crop, st.floats(0, 0.4), st.floats(0, 0.4), st.floats(0.1, 0.5), st.just(0.5))
TONES = st.builds(
    ToneChoice,
    count=st.integers(2, 12),
    choice=st.sampled_from(Choice),
    gap_lightness=st.floats(0, 20),
    darkest_kept=st.booleans(),
    range=st.builds(Range, st.none() | st.floats(80, 100), st.none() | st.floats(0, 40)),
    held_partings=st.lists(st.floats(20, 90), max_size=4).map(tuple),
    held_bites=st.lists(st.tuples(st.integers(1, 11), st.floats(15, 900)), max_size=3).map(tuple),
)
PLATES = st.builds(
    replace,
    st.just(PLATE),
    title=st.text(max_size=80),
    size=st.builds(PlateSize, st.floats(5, 3000), st.floats(5, 3000)),
    laying=st.builds(Laying, CROPS, st.floats(-180, 180), st.booleans()),
    squint_mm=st.none() | st.floats(0, 10),
    tones=TONES,
    brush=st.builds(Brush, st.floats(0.5, 8), st.floats(0.5, 8), st.floats(0, 100)),
    conditions=st.builds(
        Conditions, metal=st.sampled_from(Metal), mordant=st.sampled_from(Mordant)
    ),
    start=st.none() | st.just("09:30"),
)


@settings(max_examples=200, deadline=None)
@given(PLATES, st.binary(max_size=200))
def test_save_then_open_gives_an_equal_plate(
    tmp_path_factory: pytest.TempPathFactory, plate: Plate, preview: bytes
) -> None:
    path = tmp_path_factory.getbasetemp() / "equal.plate"
    content = PlateFile(plate, CURVE, PICTURE, preview)
    write_plate(path, content)
    assert read_plate(path) == content


def saved(folder: Path) -> Path:
    path = folder / "harbour.plate"
    write_plate(path, PlateFile(PLATE, CURVE, PICTURE, b"png"))
    return path


def test_the_file_tells_what_it_is_before_anything_else(tmp_path: Path) -> None:
    with zipfile.ZipFile(saved(tmp_path)) as archive:
        first = archive.infolist()[0]
        assert (first.filename, first.compress_type) == ("mimetype", zipfile.ZIP_STORED)
        assert archive.read("picture") == PICTURE
        assert json.loads(archive.read("plate.json"))["format"] == FORMAT


def test_an_older_file_stays_when_the_new_one_cannot_be_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = saved(tmp_path)
    before = path.read_bytes()

    def full(_handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OutputError, match=r"harbour\.plate could not be written"):
        write_plate(path, PlateFile(replace(PLATE, title="new"), CURVE, PICTURE))
    assert path.read_bytes() == before
    assert [p.name for p in tmp_path.iterdir()] == ["harbour.plate"]


def test_a_folder_that_is_not_there_is_said_plainly(tmp_path: Path) -> None:
    with pytest.raises(OutputError, match="could not be written"):
        saved(tmp_path / "nowhere")


def rebuilt(path: Path, changes: dict[str, bytes | None]) -> Path:
    """The same file with some members exchanged, left out (None) or added."""
    with zipfile.ZipFile(path) as archive:
        members: dict[str, bytes | None] = {i.filename: archive.read(i) for i in archive.infolist()}
    members |= changes
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as archive:
        for name, data in members.items():
            if data is not None:
                archive.writestr(name, data)
    path.write_bytes(file.getvalue())
    return path


def with_json(path: Path, **changes: object) -> Path:
    with zipfile.ZipFile(path) as archive:
        tree = json.loads(archive.read("plate.json"))
    tree |= changes
    return rebuilt(path, {"plate.json": json.dumps(tree).encode()})


def test_a_later_version_is_left_alone_and_named(tmp_path: Path) -> None:
    with pytest.raises(PlateFileError, match="later version"):
        read_plate(with_json(saved(tmp_path), format=FORMAT + 1))


def test_every_fault_is_listed_at_once(tmp_path: Path) -> None:
    path = saved(tmp_path)
    with zipfile.ZipFile(path) as archive:
        tree = json.loads(archive.read("plate.json"))
    tree["plate"]["colour"] = "blue"
    tree["plate"]["tones"]["count"] = "many"
    tree["plate"]["size"].pop("width_mm")
    with pytest.raises(PlateFileError) as caught:
        read_plate(rebuilt(path, {"plate.json": json.dumps(tree).encode()}))
    for word in ("plate.colour", "plate.tones.count", "plate.size.width_mm"):
        assert word in str(caught.value)


@pytest.mark.parametrize("number", ["NaN", "Infinity", "-Infinity", "1e999"])
def test_a_number_that_is_none_is_refused(tmp_path: Path, number: str) -> None:
    path = saved(tmp_path)
    with zipfile.ZipFile(path) as archive:
        text = archive.read("plate.json").decode()
    text = text.replace('"width_mm": 200.0', f'"width_mm": {number}')
    with pytest.raises(PlateFileError):
        read_plate(rebuilt(path, {"plate.json": text.encode()}))


@pytest.mark.parametrize(
    "changes",
    [
        {"../../climbing": b"x"},
        {"/etc/passwd": b"x"},
        {"plate.json": None},
        {"picture": None},
        {"picture": b"another picture"},
        {"mimetype": b"application/zip"},
        {"plate.json": b"\xff\xfe not text"},
        {"plate.json": b"[" * 100_000},
        {"plate.json": b"{}"},
    ],
)
def test_a_file_that_holds_something_else_is_refused(
    tmp_path: Path, changes: dict[str, bytes | None]
) -> None:
    path = rebuilt(saved(tmp_path), changes)
    before = path.read_bytes()
    with pytest.raises(PlateFileError):
        read_plate(path)
    assert path.read_bytes() == before
    assert [p.name for p in tmp_path.iterdir()] == ["harbour.plate"]


def test_a_zip_that_unpacks_without_end_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "bomb.plate"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("mimetype", b"application/x-toneladder-plate")
        archive.writestr("plate.json", b"0" * 200_000_000)
    with pytest.raises(PlateFileError):
        read_plate(path)


@pytest.mark.parametrize("seed", range(300))
def test_a_cut_or_flipped_file_is_refused_or_equal(tmp_path: Path, seed: int) -> None:
    rng = np.random.default_rng(seed)
    path = saved(tmp_path)
    whole = path.read_bytes()
    if seed % 3 == 0:
        path.write_bytes(whole[: int(rng.integers(len(whole)))])
    else:
        damaged = bytearray(whole)
        for _ in range(1 + seed % 4):
            damaged[rng.integers(len(damaged))] ^= 1 << int(rng.integers(8))
        path.write_bytes(damaged)
    with suppress(PlateFileError):
        content = read_plate(path)
        assert content.picture == PICTURE
        assert content.plate == PLATE


def test_a_missing_file_is_said_so(tmp_path: Path) -> None:
    with pytest.raises(PlateFileError, match="no file nowhere"):
        read_plate(tmp_path / "nowhere.plate")
