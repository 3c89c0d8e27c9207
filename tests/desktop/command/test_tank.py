"""``toneladder tank``: a table of events in, what would have been said out."""

from pathlib import Path

import pytest
from PIL import Image
from skimage import data

from toneladder_desktop.app import main

EVENTS = """time,event,value
0:00:00,in
0:00:45,out,5 s ago
0:30:00,painted
0:45:00,temperature,22C
0:50:00,in
"""


@pytest.fixture(scope="module")
def plate(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("plan")
    picture = folder / "coins.png"
    Image.fromarray(data.coins()).save(picture)
    words = ["plan", str(picture), "--out", str(folder / "out"), "--tones", "5"]
    assert main([*words, "--plate", "60x45mm"]) == 0
    return next((folder / "out").glob("*.plate"))


def test_what_would_be_said_and_the_order_that_remains(
    plate: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    table = tmp_path / "events.csv"
    table.write_text(EVENTS, encoding="utf-8")
    before = plate.read_bytes()
    capsys.readouterr()
    assert main(["tank", str(plate), "--simulate", str(table)]) == 0
    said = capsys.readouterr().out.replace("\N{NO-BREAK SPACE}", " ")
    assert "0:00:00  Leave it in. Tones 1 to 4 are biting." in said
    assert "(long: under the rinse)" in said
    assert "Step 1: bitten 40 s, planned" in said
    assert "Step 2: bite" in said
    assert plate.read_bytes() == before


def test_a_bite_that_is_not_over_says_what_it_has_had(
    plate: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    table = tmp_path / "events.csv"
    table.write_text("0:00:00,in\n0:00:10,out\n", encoding="utf-8")
    assert main(["tank", str(plate), "--simulate", str(table)]) == 0
    said = capsys.readouterr().out.replace("\N{NO-BREAK SPACE}", " ")
    assert "Step 1: 10 s of " in said
    assert "bitten so far." in said


@pytest.fixture(scope="module")
def staged(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A plate with lines before its tones, and a second grain after them."""
    folder = tmp_path_factory.mktemp("staged")
    picture = folder / "coins.png"
    Image.fromarray(data.coins()).save(picture)
    words = ["plan", str(picture), "--out", str(folder / "out"), "--tones", "5", "--lines"]
    assert main([*words, "--second-grain", "2", "--plate", "60x45mm"]) == 0
    return next((folder / "out").glob("*.plate"))


@pytest.mark.parametrize(
    ("stage", "said"),
    [
        ("lines", ("Line bite 1. All lines open.", "Line bite 1: bitten ", "all lines: 1 h")),
        ("second", ("Stop out tones 0, 1 and 2:", "Bite 1 in the second grain: bitten ")),
        ("tones", ("Step 1. ", "Step 1: bitten ")),
    ],
)
def test_each_stage_is_rehearsed_on_its_own(
    staged: Path,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    stage: str,
    said: tuple[str, ...],
) -> None:
    table = tmp_path / "events.csv"
    table.write_text("0:00:00,press\n0:00:10,bite,1:00:00\n", encoding="utf-8")
    capsys.readouterr()
    assert main(["tank", str(staged), "--stage", stage, "--simulate", str(table)]) == 0
    heard = capsys.readouterr().out.replace("\N{NO-BREAK SPACE}", " ")
    for words in said:
        assert words in heard


def test_a_plate_without_lines_has_none_to_rehearse(
    plate: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    table = tmp_path / "events.csv"
    table.write_text("0:00:00,in\n", encoding="utf-8")
    assert main(["tank", str(plate), "--stage", "lines", "--simulate", str(table)]) == 2
    assert capsys.readouterr().err.startswith("This plate has no lines to bite.")


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("0:00:00,fly\n", "Row 1: “fly” is not known"),
        ("0:00:00,in\n0:00:01,in\n", "Row 2: the plate is in the bath already."),
    ],
)
def test_a_bad_row_is_one_sentence(
    plate: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], text: str, sentence: str
) -> None:
    table = tmp_path / "events.csv"
    table.write_text(text, encoding="utf-8")
    capsys.readouterr()
    assert main(["tank", str(plate), "--simulate", str(table)]) == 2
    heard = capsys.readouterr()
    assert heard.out == ""
    assert heard.err.startswith(sentence)
    assert heard.err.count("\n") == 1


def test_a_table_or_a_plate_that_is_not_there_is_said(
    plate: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["tank", str(plate), "--simulate", str(tmp_path / "none.csv")]) == 2
    assert "none.csv cannot be read" in capsys.readouterr().err
    table = tmp_path / "events.csv"
    table.write_bytes(b"\xff\xfe\x00")
    assert main(["tank", str(plate), "--simulate", str(table)]) == 2
    assert "is not a text file" in capsys.readouterr().err
    table.write_text("0:00:00,in\n", encoding="utf-8")
    assert main(["tank", str(tmp_path / "none.plate"), "--simulate", str(table)]) == 2
    assert main(["tank", str(plate)]) == 2
