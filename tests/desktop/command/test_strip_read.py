"""A scan becomes a strip, or a sentence says why not."""

import json
from pathlib import Path

import pytest
from tests.core.scans.drawing import Look, Page, draw, even_row, grey_scale

from toneladder.strip.file import read_strip
from toneladder.strip.values import Dryness, Means
from toneladder_desktop.app import main

TONES = (90.0, 83.0, 75.0, 65.0, 52.0, 40.0, 30.0, 24.0)
BITES = "0,0:15,0:30,1:00,2:00,4:00,8:00,16:00"
PAGE = Page(200, 80, rows=(even_row(20, 12, 20, 24, TONES), grey_scale(20, 48, 7, 14)))


@pytest.fixture
def scan(tmp_path: Path) -> Path:
    path = tmp_path / "scan.jpg"
    path.write_bytes(draw(PAGE, Look(dpi=130, turn=3.0, jpeg=80), 1).data)
    return path


def test_a_scan_becomes_a_strip(
    scan: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "tank.strip"
    words = ["--metal", "zinc", "--mordant", "copper sulphate with salt", "--temperature", "21C"]
    assert main(["strip", "read", str(scan), "--bites", BITES, "--out", str(out), *words]) == 0
    tree = json.loads(out.read_text(encoding="utf-8"))
    assert [patch["total_bite_s"] for patch in tree["patches"]] == [
        0, 15, 30, 60, 120, 240, 480, 960
    ]  # fmt: skip
    assert [patch["lightness"] for patch in tree["patches"]] == pytest.approx(TONES, abs=1.0)
    assert tree["conditions"]["metal"] == "zinc"
    strip = read_strip(out)
    assert strip.means is Means.SCAN
    assert strip.dryness is Dryness.DRY
    said = capsys.readouterr().out
    assert said.count("darkness") == 8
    assert str(out) in said


def test_a_wet_photograph_with_a_grey_scale_says_so(scan: Path, tmp_path: Path) -> None:
    out = tmp_path / "tank.strip"
    words = ["--wedge", "21x0.15", "--photograph", "--wet", "--grained-on", "2026-03-15"]
    assert main(["strip", "read", str(scan), "--bites", BITES, "--out", str(out), *words]) == 0
    strip = read_strip(out)
    assert strip.means is Means.PHOTOGRAPH
    assert strip.dryness is Dryness.WET
    assert strip.grained_on == "2026-03-15"
    assert min(patch.spread for patch in strip.patches) > 1.0


def test_an_older_strip_is_replaced_only_if_it_is_said(scan: Path, tmp_path: Path) -> None:
    out = tmp_path / "tank.strip"
    out.write_text("kept", encoding="utf-8")
    words = ["strip", "read", str(scan), "--bites", BITES, "--out", str(out)]
    assert main(words) == 2
    assert out.read_text(encoding="utf-8") == "kept"
    assert main([*words, "--replace"]) == 0
    assert len(read_strip(out).patches) == 8


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--bites", "0,0:15,0:30,1:00,2:00"], "8 patches and 5 bites"),
        (["--bites", "0,5,10"], "minutes or as seconds"),
        (["--bites", ""], "not a row of bites"),
        (["--bites", "0,,1:00"], "not a row of bites"),
        (["--bites", "0,-0:15"], "-0:15"),
        (["--bites", "0,0:30,0:15,1:00"], "30\N{NO-BREAK SPACE}s stands before 15"),
        (["--bites", BITES, "--wedge", "12x0.1"], "grey scale of 12 steps was not found"),
        (["--bites", BITES, "--wedge", "grey"], "is no grey scale"),
        (["--bites", BITES, "--paper", "20"], "Bare paper"),
        (["--bites", BITES, "--metal", "zinc", "--mordant", "ferric chloride"], "zinc"),
    ],
)
def test_what_cannot_be_read_gets_a_sentence_and_leaves_nothing(
    scan: Path,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    words: list[str],
    said: str,
) -> None:
    assert main(["strip", "read", str(scan), "--out", str(tmp_path / "x.strip"), *words]) == 2
    heard = capsys.readouterr().err
    assert said in heard
    assert "Traceback" not in heard
    assert [path.name for path in tmp_path.iterdir()] == ["scan.jpg"]


def test_a_scan_without_a_strip_gets_a_sentence(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    bare = tmp_path / "bare.png"
    bare.write_bytes(draw(Page(80, 60), Look(dpi=100), 1).data)
    words = ["strip", "read", str(bare), "--bites", BITES, "--out", str(tmp_path / "x.strip")]
    assert main(words) == 2
    assert "No strip was found" in capsys.readouterr().err
    assert main([*words[:2], str(tmp_path / "nowhere.png"), *words[3:]]) == 2
    assert not (tmp_path / "x.strip").exists()
