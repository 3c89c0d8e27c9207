"""A first look at a file: small, upright, quick, and never in the way."""

import zipfile
from pathlib import Path

import pytest
from PIL import Image
from PySide6.QtGui import QColor, QImage, QPainter
from pytestqt.qtbot import QtBot

from toneladder.plate.file import PlateFile, write_plate
from toneladder_desktop.bench.bench import Lying
from toneladder_desktop.bench.glimpse import LONGEST_PX, glimpse, glimpse_at_once
from toneladder_desktop.window.bench_window import BenchWindow

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")


def test_a_large_picture_is_seen_small_and_upright(tmp_path: Path) -> None:
    path = tmp_path / "turned.jpg"
    exif = Image.Exif()
    exif[0x0112] = 6  # orientation of EXIF 2.3: to be turned a quarter clockwise
    Image.new("L", (3000, 1500), 90).save(path, exif=exif)
    seen = glimpse(path)
    assert (seen.width(), seen.height()) == (LONGEST_PX // 2, LONGEST_PX)


def test_a_plate_is_seen_by_the_preview_in_its_file_without_the_margins(
    tmp_path: Path, lying: Lying
) -> None:
    from toneladder.bite.curve import starting_curve

    margin = round(lying.plate.printing.margin_mm)
    image = QImage(60 + 2 * margin, 40 + 2 * margin, QImage.Format.Format_RGB32)
    image.fill(0xFFFFFF)
    QPainter(image).fillRect(margin, margin, 60, 40, QColor(7, 8, 9))
    image.save(str(tmp_path / "p.png"))
    preview = (tmp_path / "p.png").read_bytes()
    curve = starting_curve(lying.plate.conditions)
    path = tmp_path / "hill.plate"
    write_plate(path, PlateFile(lying.plate, curve, lying.picture, preview))
    seen = glimpse(path)
    assert (seen.width(), seen.height()) == (60, 40)
    corners = {seen.pixelColor(x, y).name() for x in (0, 59) for y in (0, 39)}
    assert corners == {"#070809"}


def test_before_a_window_is_there_only_what_is_read_in_a_moment_is_looked_at(
    tmp_path: Path,
) -> None:
    Image.new("L", (3000, 2000), 90).save(tmp_path / "large.png")
    Image.new("L", (3000, 2000), 90).save(tmp_path / "large.jpg")
    assert glimpse_at_once(tmp_path / "large.png").isNull()
    assert not glimpse_at_once(tmp_path / "large.jpg").isNull()
    assert glimpse_at_once(tmp_path / "missing").isNull()


@pytest.mark.parametrize("content", [b"", b"no picture", b"PK\x03\x04"])
def test_what_cannot_be_seen_is_no_obstacle(tmp_path: Path, content: bytes) -> None:
    (tmp_path / "x").write_bytes(content)
    assert glimpse(tmp_path / "x").isNull()
    assert glimpse(content).isNull()
    with zipfile.ZipFile(tmp_path / "z", "w") as archive:
        archive.writestr("other", b"")
    assert glimpse(tmp_path / "z").isNull()
    assert glimpse(tmp_path / "missing").isNull()


def test_an_empty_bench_shows_it_before_the_plate_is_laid(
    window: BenchWindow, picture_file: Path, qtbot: QtBot
) -> None:
    seen: list[tuple[bool, bool, bool]] = []
    window.workings.glimpsed.connect(
        lambda: seen.append(
            (window.top.paper.fine, window.bench.lying is None, window.caption.isVisible())
        )
    )
    with qtbot.waitSignal(window.filing.opened, timeout=60_000):
        window.open(picture_file)
    assert seen == [(True, True, False)]
