"""The headless command: from a picture to six files, or one sentence and nothing."""

import json
import os
import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from scipy import ndimage
from skimage import data

from toneladder.picture.opening import open_picture
from toneladder.plan.export import order_json
from toneladder.plan.planning import plan
from toneladder.plate.file import read_plate
from toneladder.tones.places import border_cells
from toneladder_desktop.app import main
from toneladder_desktop.output.results import FILES


@pytest.fixture
def coffee(tmp_path: Path) -> Path:
    """A photograph shipped with scikit-image, CC0."""
    path = tmp_path / "coffee.jpg"
    Image.fromarray(data.coffee()).save(path, quality=92)
    return path


def test_a_word_that_is_neither_command_nor_file_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(["sheetz"]) == 2
    assert "sheetz is no command and no file here" in capsys.readouterr().err


def test_one_command_makes_every_file(coffee: Path, tmp_path: Path) -> None:
    out = tmp_path / "new" / "plan"
    assert main(["plan", str(coffee), "--out", str(out), "--plate", "200x150mm"]) == 0
    assert sorted(p.name for p in out.iterdir()) == sorted(FILES)
    order = json.loads((out / "order.json").read_text(encoding="utf-8"))
    assert list(order) == [
        "format",
        "plate",
        "conditions",
        "asked_tones",
        "tones",
        "steps",
        "cautions",
        "warnings",
    ]
    assert order["conditions"]["standing"] == "starting point, untested"
    assert order["plate"] == {
        "width_mm": 200.0,
        "height_mm": 150.0,
        "px_per_mm": 8.0,
        "grid": [1600, 1200],
    }
    assert (len(order["tones"]), len(order["steps"])) == (5, 4)
    assert all(step["lift_at"] is None for step in order["steps"])
    with Image.open(out / "tones.png") as tones:
        assert (tones.mode, tones.size) == ("L", (1600, 1200))
    assert "untested" in (out / "order.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("count", [3, 5, 8])
def test_what_the_order_tells_is_what_the_tones_show(
    coffee: Path, tmp_path: Path, count: int
) -> None:
    out = tmp_path / "out"
    words = [
        "--plate",
        "160x120mm",
        "--tones",
        str(count),
        "--start",
        "9.30",
        "--choose",
        "picture",
    ]
    assert main(["plan", str(coffee), "--out", str(out), *words]) == 0
    order = json.loads((out / "order.json").read_text(encoding="utf-8"))
    tones = np.asarray(Image.open(out / "tones.png"))
    n, px = len(order["tones"]), order["plate"]["px_per_mm"]
    for k, tone in enumerate(order["tones"]):
        assert tone["share"] == pytest.approx(np.mean(tones == k))
    total = 0.0
    for k, step in enumerate(order["steps"], start=1):
        new = tones == k - 1
        _, places = ndimage.label(new, structure=np.ones((3, 3)))
        assert step["stop_out"] == [k - 1]
        assert step["islands"] == places
        assert step["stop_out_cm2"] == pytest.approx(new.sum() / px**2 / 100.0)
        covered = (tones < k).astype(np.uint8)
        assert step["border_cm"] == pytest.approx(border_cells(covered, 2)[0, 1] / px / 10.0)
        total += step["bite_s"]
        assert step["total_bite_s"] == order["tones"][k]["total_bite_s"] == total
        assert step["lift_at"] >= "09:30"
    assert tones.max() < n


def test_the_plate_file_opened_again_gives_the_same_order(coffee: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    assert (
        main(["plan", str(coffee), "--out", str(out), "--tones", "7", "--crop", "0,0,0.8,1"]) == 0
    )
    content = read_plate(out / "plan.plate")
    assert content.picture == coffee.read_bytes()
    picture = open_picture(content.picture, name=content.plate.picture.name)
    again = plan(picture, content.plate, content.curve)
    assert order_json(again) == (out / "order.json").read_text(encoding="utf-8")


def test_nothing_is_overwritten_unless_it_is_said(
    coffee: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "out"
    out.mkdir()
    (out / "order.json").write_text("mine")
    assert main(["plan", str(coffee), "--out", str(out)]) == 2
    assert "…" not in capsys.readouterr().err  # refused before any work is done in vain
    assert [p.name for p in out.iterdir()] == ["order.json"]
    assert (out / "order.json").read_text() == "mine"
    assert main(["plan", str(coffee), "--out", str(out), "--replace"]) == 0
    assert sorted(p.name for p in out.iterdir()) == sorted(FILES)


@pytest.mark.parametrize(
    "words",
    [
        ["--tones", "13"],
        ["--tones", "1"],
        ["--tones", "five"],
        ["--tones", "4.5"],
        ["--plate", "200"],
        ["--plate", "1,234x200"],
        ["--plate", "-20x30mm"],
        ["--plate", "0.1x0.1mm"],
        ["--plate", "9000x9000mm"],
        ["--metal", "gold"],
        ["--metal", "zinc"],
        ["--metal", "aluminium"],
        ["--metal", "steel"],
        ["--metal", "other"],
        ["--mordant", "vinegar"],
        ["--brush", "0.1mm"],
        ["--temperature", "900"],
        ["--temperature", "nan"],
        ["--gap-lightness", "nan"],
        ["--gap-lightness", "inf"],
        ["--crop", "0,0,1"],
        ["--crop", "0,0,nan,1"],
        ["--crop", "0.5,0.5,0.9,0.9"],
        ["--turn", "inf"],
        ["--squint", "900mm"],
        ["--start", "25:00"],
        ["--unknown"],
        ["--paper", "a0"],
        ["--limit-megapixels", "nan"],
    ],
)
def test_wrong_use_gets_one_sentence_and_leaves_nothing(
    coffee: Path, tmp_path: Path, words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "out"
    assert main(["plan", str(coffee), "--out", str(out), *words]) == 2
    said = capsys.readouterr().err.strip()
    assert said
    assert "Traceback" not in said
    assert "usage:" not in said
    assert not out.exists()


@pytest.mark.parametrize(
    "words", [["plan"], ["plan", "x.jpg"], ["plan", "nowhere.jpg", "--out", "o"]]
)
def test_a_missing_word_or_picture_is_said(
    words: list[str],
    capsys: pytest.CaptureFixture[str],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(words) == 2
    assert "Traceback" not in capsys.readouterr().err
    assert not list(tmp_path.iterdir())


def flat(value: int) -> Image.Image:
    return Image.new("L", (300, 200), value)


def grey16() -> Image.Image:
    ramp = np.linspace(0, 65535, 300 * 200).reshape(200, 300).astype(np.uint16)
    return Image.fromarray(ramp)


ODD: dict[str, Callable[[], Image.Image]] = {
    "white.png": lambda: flat(255),
    "black.png": lambda: flat(0),
    "grey.png": lambda: flat(119),
    "dot.png": lambda: Image.new("L", (1, 1), 128),
    "thread.png": lambda: Image.fromarray(
        np.tile(np.linspace(0, 255, 30_000).astype(np.uint8), (2, 1))
    ),
    "deep.png": grey16,
    "print.tif": lambda: Image.fromarray(data.coffee()).convert("CMYK"),
    "clear.png": lambda: Image.new("RGBA", (300, 200), (0, 0, 0, 0)),
    "two.png": lambda: Image.fromarray(
        np.repeat(np.array([[60, 200]], dtype=np.uint8), 150, axis=1).repeat(200, axis=0)
    ),
}


@pytest.mark.parametrize("name", ODD)
@pytest.mark.parametrize("choose", ["even", "picture"])
def test_odd_pictures_get_a_sensible_plan(name: str, choose: str, tmp_path: Path) -> None:
    path = tmp_path / name
    ODD[name]().save(path)
    out = tmp_path / "out"
    words = ["--plate", "80x60mm", "--tones", "6", "--choose", choose]
    assert main(["plan", str(path), "--out", str(out), *words]) == 0
    order = json.loads((out / "order.json").read_text(encoding="utf-8"))
    assert order["asked_tones"] == 6
    assert len(order["steps"]) == len(order["tones"]) - 1 >= 1
    assert sum(tone["share"] for tone in order["tones"]) == pytest.approx(1.0)
    if len(order["tones"]) < 6:
        assert any("tones" in warning for warning in order["warnings"])
    if name in {"white.png", "clear.png"}:
        assert [tone["share"] for tone in order["tones"]] == [1.0, 0.0]
    if name == "black.png":
        assert [tone["share"] for tone in order["tones"]] == [0.0, 1.0]


def cut(whole: bytes) -> bytes:
    return whole[: len(whole) // 2]


def png(picture: Image.Image) -> bytes:
    file = BytesIO()
    picture.save(file, "PNG")
    return file.getvalue()


def claiming(width: int, height: int) -> bytes:
    """A PNG whose header claims a size that its data does not have."""
    import struct
    import zlib

    def chunk(kind: bytes, body: bytes) -> bytes:
        return (
            struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))
        )

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", head)
        + chunk(b"IDAT", zlib.compress(b""))
        + chunk(b"IEND", b"")
    )


BAD: dict[str, Callable[[], bytes]] = {
    "empty.jpg": lambda: b"",
    "cut.png": lambda: cut(png(Image.fromarray(data.coffee()))),
    "text.png": lambda: b"This is not a picture at all.\n" * 50,
    "huge.png": lambda: claiming(60_000, 60_000),
    "large.png": lambda: claiming(20_000, 20_001),
    "archive.jpg": lambda: b"PK\x03\x04" + bytes(500),
}


@pytest.mark.parametrize("name", BAD)
def test_a_bad_picture_gets_a_sentence_and_leaves_nothing(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / name
    path.write_bytes(BAD[name]())
    before = path.read_bytes()
    assert main(["plan", str(path), "--out", str(tmp_path / "out")]) == 2
    said = capsys.readouterr().err
    assert name in said
    assert "Traceback" not in said
    assert [p.name for p in tmp_path.iterdir()] == [name]
    assert path.read_bytes() == before


def test_a_folder_that_cannot_be_written_is_said_and_nothing_is_left(
    coffee: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "file").write_text("x")
    assert main(["plan", str(coffee), "--out", str(tmp_path / "file")]) == 2
    assert main(["plan", str(coffee), "--out", str(tmp_path / "file" / "deeper")]) == 2
    assert capsys.readouterr().err.count("\n") >= 2
    assert sorted(p.name for p in tmp_path.iterdir()) == ["coffee.jpg", "file"]


def test_half_written_files_are_taken_away_again(
    coffee: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(self: Path, *_: object, **__: object) -> int:
        raise OSError(28, "No space left on device", str(self))

    monkeypatch.setattr(Path, "write_text", full)
    assert main(["plan", str(coffee), "--out", str(tmp_path / "out")]) == 2
    assert [p.name for p in tmp_path.iterdir()] == ["coffee.jpg"]


def test_quantities_are_read_as_people_write_them(coffee: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    words = ["--plate", "8x6in", "--brush", "1,5 mm", "--temperature", "68F", "--squint", "0,6 mm"]
    assert main(["plan", str(coffee), "--out", str(out), *words]) == 0
    plate = read_plate(out / "plan.plate").plate
    assert (plate.size.width_mm, plate.size.height_mm) == pytest.approx((203.2, 152.4))
    assert (plate.brush.mark_mm, plate.brush.gap_mm) == pytest.approx((1.5, 2.0))
    assert plate.conditions.temperature_c == pytest.approx(20.0)
    assert plate.squint_mm == pytest.approx(0.6)
    assert not plate.keeps_edges


def test_edges_are_kept_where_that_is_asked(coffee: Path, tmp_path: Path) -> None:
    soft, sharp = tmp_path / "soft", tmp_path / "sharp"
    words = ["plan", str(coffee), "--plate", "80x60mm", "--out"]
    assert main([*words, str(soft)]) == 0
    assert main([*words, str(sharp), "--keep-edges"]) == 0
    assert read_plate(sharp / "plan.plate").plate.keeps_edges
    assert (soft / "tones.png").read_bytes() != (sharp / "tones.png").read_bytes()


def test_the_program_runs_on_its_own_without_a_display(coffee: Path, tmp_path: Path) -> None:
    hidden = {"DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"}
    environment = {name: value for name, value in os.environ.items() if name not in hidden}
    environment["PYTHONPATH"] = os.pathsep.join(filter(None, sys.path))
    start = [sys.executable, "-m", "toneladder_desktop.app"]
    words = ["plan", str(coffee), "--out", str(tmp_path / "out"), "--plate", "60x45mm"]
    done = subprocess.run(
        [*start, *words], env=environment, capture_output=True, text=True, check=False, timeout=120
    )
    assert done.returncode == 0, done.stderr
    assert (tmp_path / "out" / "order.pdf").stat().st_size > 10_000
    window = subprocess.run(
        start, env=environment, capture_output=True, text=True, check=False, timeout=120
    )
    assert window.returncode == 2
    assert "no display" in window.stderr


def test_temperature_changes_the_clock_and_not_the_tones(coffee: Path, tmp_path: Path) -> None:
    picture = open_picture(coffee, name="coffee.jpg")
    assert main(["plan", str(coffee), "--out", str(tmp_path / "out")]) == 0
    plate = read_plate(tmp_path / "out" / "plan.plate").plate
    warm = replace(plate, conditions=replace(plate.conditions, temperature_c=26.0))
    cool, hot = plan(picture, plate), plan(picture, warm)
    assert np.array_equal(cool.tones, hot.tones)
    assert hot.order.tones[-1].total_bite_s < cool.order.tones[-1].total_bite_s
