"""What a plan stands on, said in the command: strips, a check patch, patches that become tones."""

import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image
from skimage import data

from toneladder.bite.curve import lightness_at
from toneladder.bite.fitting import Patch
from toneladder.bite.values import Conditions
from toneladder.picture.opening import open_picture
from toneladder.plan.planning import plan
from toneladder.plan.standing import curve_of
from toneladder.plate.file import read_plate
from toneladder.strip.file import write_strip
from toneladder.strip.values import Strip
from toneladder_desktop.app import main

# invented readings of an invented bath
LIGHTNESS = {0: 90.1, 15: 83.0, 30: 76.5, 60: 66.8, 120: 55.1, 240: 44.0, 480: 33.2, 960: 24.5}


@pytest.fixture
def strip(tmp_path: Path) -> Path:
    path = tmp_path / "tank.strip"
    patches = tuple(Patch(float(bite), tone) for bite, tone in LIGHTNESS.items())
    write_strip(path, Strip(Conditions(), patches, grained_on="2026-03-15"))
    return path


@pytest.fixture
def coins(tmp_path: Path) -> Path:
    path = tmp_path / "coins.png"
    Image.fromarray(data.coins()).save(path)
    return path


def planned(coins: Path, *words: str) -> dict[str, Any]:
    out = coins.parent / "out"
    assert main(["plan", str(coins), "--out", str(out), "--plate", "100x80mm", *words]) == 0
    order: dict[str, Any] = json.loads((out / "order.json").read_text(encoding="utf-8"))
    return order


def test_the_plate_s_file_holds_its_strips_and_its_curve(coins: Path, strip: Path) -> None:
    order = planned(coins, "--strip", str(strip), "--grained-on", "2026-03-15")
    file = read_plate(coins.parent / "out" / "plan.plate")
    (kept,) = file.plate.evidence.strips
    assert [patch.lightness for patch in kept.patches] == list(LIGHTNESS.values())
    assert curve_of(file.plate) == file.curve
    picture = open_picture(file.picture, name=file.plate.picture.name)
    again = plan(picture, file.plate).order
    assert list(again.warnings) == order["warnings"]
    assert [tone.total_bite_s for tone in again.tones] == [
        tone["total_bite_s"] for tone in order["tones"]
    ]
    assert not any("grained" in line for line in order["warnings"])


def test_a_check_patch_sets_the_day_s_rate(coins: Path, strip: Path) -> None:
    planned(coins, "--strip", str(strip))
    curve = read_plate(coins.parent / "out" / "plan.plate").curve
    slower = float(lightness_at(curve, 0.88 * 60.0))
    words = ("--check", f"1:00,{slower:.2f}", "--temperature", "17C", "--replace")
    order = planned(coins, "--strip", str(strip), *words)
    assert order["conditions"]["rate"] == pytest.approx(0.88, abs=0.005)
    assert any("12\u00a0% slower" in line for line in order["warnings"])
    assert not any("lengthened" in line for line in order["warnings"])


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--check", "16:00,24.6"], "Bite a shorter patch"),
        (["--check", "1:00"], "not a bite and a lightness"),
        (["--check", "60,66"], "60"),
        (["--grained-on", "yesterday"], "2026-03-15"),
    ],
    ids=str,
)
def test_what_tells_nothing_is_refused_in_a_sentence(
    coins: Path, strip: Path, words: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    out = coins.parent / "out"
    begin = ["plan", str(coins), "--out", str(out), "--plate", "100x80mm", "--strip", str(strip)]
    assert main([*begin, *words]) != 0
    assert said in capsys.readouterr().err
    assert not out.exists()


def test_the_patches_that_are_named_become_the_tones(coins: Path, strip: Path) -> None:
    order = planned(coins, "--strip", str(strip), "--patches", "0:15,1:00,4:00")
    assert [tone["total_bite_s"] for tone in order["tones"]] == [0.0, 15.0, 60.0, 240.0]
    assert [tone["lightness"] for tone in order["tones"]] == [90.1, 83.0, 66.8, 44.0]


def test_the_best_patches_are_taken_if_none_is_named(coins: Path, strip: Path) -> None:
    order = planned(coins, "--strip", str(strip), "--choose", "strip", "--tones", "4")
    assert len(order["tones"]) == 4
    assert {tone["total_bite_s"] for tone in order["tones"]} <= set(map(float, LIGHTNESS))


def test_two_strips_of_one_bath_are_fitted_together(coins: Path, strip: Path) -> None:
    planned(coins, "--strip", str(strip), "--strip", str(strip))
    assert "2 sessions" in read_plate(coins.parent / "out" / "plan.plate").curve.source


def test_a_strip_in_the_margin_shows_every_tone_side_by_side(coins: Path) -> None:
    order = planned(coins, "--margin-strip", "bottom", "--tones", "4")
    assert any("along the bottom edge" in line for line in order["warnings"])
    foot = np.asarray(Image.open(coins.parent / "out" / "tones.png"))[-1]
    count = len(order["tones"])
    assert np.array_equal(foot, np.repeat(np.arange(count), len(foot) // count))
    assert sum(tone["share"] for tone in order["tones"]) == pytest.approx(1.0)
