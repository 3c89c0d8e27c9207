"""Readings become a strip, a strip a curve, and a plan stands on it."""

import json
from itertools import pairwise
from pathlib import Path

import pytest
from PIL import Image
from skimage import data

from toneladder.picture.opening import open_picture
from toneladder.plan.export import order_json
from toneladder.plan.planning import plan
from toneladder.plate.file import read_plate
from toneladder_desktop.app import main

# invented readings of an invented bath
READINGS = """total_bite,lightness
0,90.1
0:15,83.0
30 s,76.5
1:00,66.8
2 min,55.1
4:00,44.0
8:00,33.2
16:00,24.5
"""


@pytest.fixture
def readings(tmp_path: Path) -> Path:
    path = tmp_path / "readings.csv"
    path.write_text(READINGS, encoding="utf-8")
    return path


@pytest.fixture
def strip(readings: Path, tmp_path: Path) -> Path:
    path = tmp_path / "tank.strip"
    assert main(["strip", "fit", str(readings), "--temperature", "21C", "--out", str(path)]) == 0
    return path


def test_readings_become_a_strip_that_keeps_them(strip: Path) -> None:
    tree = json.loads(strip.read_text(encoding="utf-8"))
    assert tree["format"] == 1
    assert tree["conditions"]["metal"] == "copper"
    assert tree["conditions"]["temperature_c"] == 21.0
    assert [patch["total_bite_s"] for patch in tree["patches"]][:3] == [0.0, 15.0, 30.0]
    assert tree["patches"][3]["lightness"] == 66.8


def test_the_curve_goes_from_no_bite_to_the_longest_tested(
    strip: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    capsys.readouterr()
    assert main(["curve", str(strip), "--json"]) == 0
    tree = json.loads(capsys.readouterr().out)
    rows = tree["curve"]
    assert len(rows) >= 200
    assert rows[0]["total_bite_s"] == 0.0
    assert rows[-1]["total_bite_s"] == pytest.approx(tree["longest_tested_s"]) == 960.0
    assert all(a["lightness"] >= b["lightness"] for a, b in pairwise(rows))
    assert all(row["low"] <= row["lightness"] <= row["high"] for row in rows)
    minute = min(rows, key=lambda row: abs(row["total_bite_s"] - 60.0))
    assert minute["lightness"] == pytest.approx(66.8, abs=2.0)


def test_the_curve_can_be_read_by_a_person(strip: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["curve", str(strip)]) == 0
    assert "not tested beyond 16\u00a0min" in capsys.readouterr().out


def test_a_plan_stands_on_the_strip_and_says_so(strip: Path, tmp_path: Path) -> None:
    picture = tmp_path / "coins.png"
    Image.fromarray(data.coins()).save(picture)
    out = tmp_path / "out"
    words = ["--plate", "100x80mm", "--strip", str(strip)]
    assert main(["plan", str(picture), "--out", str(out), *words]) == 0
    order = json.loads((out / "order.json").read_text(encoding="utf-8"))
    assert order["conditions"]["standing"] == "from a strip"
    assert order["conditions"]["temperature_c"] == 21.0
    assert order["conditions"]["rate"] == 1.0
    assert not any("until a strip is read" in warning for warning in order["warnings"])
    assert max(tone["total_bite_s"] for tone in order["tones"]) <= 960.0
    kept = read_plate(out / "plan.plate")
    again = plan(open_picture(kept.picture, name="coins.png"), kept.plate, kept.curve)
    assert order_json(again) == (out / "order.json").read_text(encoding="utf-8")


def test_strip_and_plate_of_one_day_are_not_warned_of(readings: Path, tmp_path: Path) -> None:
    picture, day = tmp_path / "coins.png", ["--grained-on", "2026-03-15"]
    Image.fromarray(data.coins()).save(picture)
    strip, out = str(tmp_path / "grained.strip"), tmp_path / "out"
    assert main(["strip", "fit", str(readings), "--out", strip, *day]) == 0
    words = ["--plate", "100x80mm", "--strip", strip, *day]
    assert main(["plan", str(picture), "--out", str(out), *words]) == 0
    order = json.loads((out / "order.json").read_text(encoding="utf-8"))
    assert not any("grained" in warning for warning in order["warnings"])


def test_a_warmer_day_shortens_the_bites_and_is_said(strip: Path, tmp_path: Path) -> None:
    picture = tmp_path / "coins.png"
    Image.fromarray(data.coins()).save(picture)
    for name, degrees in (("as then", "21"), ("warm", "24.5")):
        words = ["--plate", "100x80mm", "--strip", str(strip), "--temperature", degrees]
        assert main(["plan", str(picture), "--out", str(tmp_path / name), *words]) == 0
    then, warm = (
        json.loads((tmp_path / name / "order.json").read_text(encoding="utf-8"))
        for name in ("as then", "warm")
    )
    assert warm["tones"][-1]["total_bite_s"] < then["tones"][-1]["total_bite_s"]
    assert any("bite a new strip" in warning for warning in warm["warnings"])


def test_a_strip_of_another_metal_is_refused(
    strip: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    picture = tmp_path / "coins.png"
    Image.fromarray(data.coins()).save(picture)
    words = ["--strip", str(strip), "--metal", "zinc", "--mordant", "nitric acid"]
    assert main(["plan", str(picture), "--out", str(tmp_path / "out"), *words]) == 2
    assert "tells nothing" in capsys.readouterr().err
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize(
    "text",
    ["", "total_bite,lightness\n", "total_bite,lightness\n1:00,dark\n", "0:15,130\n", "\x00\x01"],
)
def test_bad_readings_get_a_sentence_and_leave_nothing(
    text: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "readings.csv"
    path.write_text(text, encoding="utf-8")
    assert main(["strip", "fit", str(path), "--out", str(tmp_path / "x.strip")]) == 2
    said = capsys.readouterr().err
    assert said.strip()
    assert "Traceback" not in said
    assert [p.name for p in tmp_path.iterdir()] == ["readings.csv"]


@pytest.mark.parametrize(
    "words",
    [
        ["strip"],
        ["strip", "fit"],
        ["strip", "fit", "nowhere.csv", "--out", "x.strip"],
        ["curve", "nowhere.strip"],
        ["curve"],
    ],
)
def test_wrong_use_gets_a_sentence(
    words: list[str],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(words) == 2
    assert "Traceback" not in capsys.readouterr().err
    assert not list(tmp_path.iterdir())


def test_a_strip_is_not_overwritten_unless_it_is_said(readings: Path, strip: Path) -> None:
    before = strip.read_bytes()
    assert main(["strip", "fit", str(readings), "--out", str(strip)]) == 2
    assert strip.read_bytes() == before
    assert main(["strip", "fit", str(readings), "--out", str(strip), "--replace"]) == 0


def test_dangerous_pairs_are_refused_for_strips_too(readings: Path, tmp_path: Path) -> None:
    words = ["--metal", "zinc", "--mordant", "ferric chloride", "--out", str(tmp_path / "z.strip")]
    assert main(["strip", "fit", str(readings), *words]) == 2
    assert not (tmp_path / "z.strip").exists()
