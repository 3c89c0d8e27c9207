"""The words for lines and second grain, and the files they bring."""

import json
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from toneladder.plate.file import read_plate
from toneladder_desktop.app import main
from toneladder_desktop.output.results import FILES, LINES


@pytest.fixture
def net(tmp_path: Path) -> Path:
    """A grey field half over paper, and a net of lines over both."""
    grey = np.full((240, 320), 235, np.uint8)
    grey[:, 160:] = 130
    for at in range(15, 240, 40):
        grey[at : at + 3] = 15
        grey[:, at : at + 3] = 15
    path = tmp_path / "net.png"
    Image.fromarray(grey).save(path)
    return path


def plan(net: Path, out: Path, *words: str) -> int:
    return main(["plan", str(net), "--out", str(out), "--plate", "40x30mm", "--tones", "3", *words])


def test_lines_bring_a_picture_of_their_own_and_the_plate_knows_them(
    net: Path, tmp_path: Path
) -> None:
    out = tmp_path / "out"
    words = ("--lines", "0.8mm", "--line-bites", "10:00,40:00", "--second-grain", "1")
    assert plan(net, out, *words) == 0
    assert sorted(p.name for p in out.iterdir()) == sorted((*FILES, LINES))
    order = json.loads((out / "order.json").read_text(encoding="utf-8"))
    assert [step["total_bite_s"] for step in order["line_steps"]] == [600.0, 2400.0]
    assert order["second_grain"]["steps"][0]["stop_out"] == [0, 1]
    plate = read_plate(out / "plan.plate").plate
    assert plate.lines is not None
    assert (plate.lines.widest_mm, plate.lines.depths) == (0.8, 2)
    assert plate.second_grain is not None
    assert "Line bite 2." in (out / "order.txt").read_text(encoding="utf-8")


def test_lines_may_be_asked_for_without_a_width(net: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    assert plan(net, out, "--lines", "--line-depths", "3", "--lines-painted-over") == 0
    lines = read_plate(out / "plan.plate").plate.lines
    assert lines is not None
    assert (lines.widest_mm, lines.depths, lines.stopped_out) == (1.0, 3, True)


def test_a_new_plan_without_lines_leaves_no_lines_of_the_older_one(
    net: Path, tmp_path: Path
) -> None:
    out = tmp_path / "out"
    assert plan(net, out, "--lines") == 0
    assert plan(net, out, "--replace") == 0
    assert sorted(p.name for p in out.iterdir()) == sorted(FILES)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--line-depths", "2"), "Say --lines"),
        (("--line-bites", "10:00"), "Say --lines"),
        (("--lines", "--line-depths", "0"), "number of line depths"),
        (("--lines", "--line-depths", "7"), "number of line depths"),
        (("--lines", "9mm"), "widest line"),
        (("--lines", "--line-depths", "2", "--line-bites", "10:00"), "give one for each"),
        (("--lines", "--line-bites", "20:00,10:00"), "must rise"),
        (("--second-grain", "0"), "second grain"),
    ],
)
def test_wrong_words_are_one_sentence_and_nothing_is_written(
    net: Path,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    words: tuple[str, ...],
    said: str,
) -> None:
    out = tmp_path / "out"
    assert plan(net, out, *words) != 0
    assert said in capsys.readouterr().err
    assert not out.exists()
