"""A strip is planned in the command, and its card printed."""

from pathlib import Path

import pytest
from PIL import Image
from pypdf import PdfReader
from skimage import data

from toneladder_desktop.app import main


def said(capsys: pytest.CaptureFixture[str], *words: str) -> str:
    assert main(["strip", "plan", *words]) == 0
    return capsys.readouterr().out.replace("\u00a0", " ")


def test_the_ladder_taught_everywhere_is_what_comes_first(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """15 s, 30 s, 1, 2, 4, 8, 16 min: a typical class ladder (common practice, no source)."""
    text = said(capsys)
    totals = ("15 s", "30 s", "1 min", "2 min", "4 min", "8 min", "16 min")
    for patch, total in enumerate(totals, start=2):
        (line,) = (one for one in text.splitlines() if one.startswith(f"Patch {patch}:"))
        assert f"{total} in all" in line
    assert "Patch 1: never bitten" in text
    assert "16 min in the bath" in text
    assert "same lifts and rinses as the plate" in text


def test_the_bath_decides_how_long_it_takes(capsys: pytest.CaptureFixture[str]) -> None:
    words = ("--metal", "zinc", "--mordant", "nitric acid", "--patches", "6")
    text = said(capsys, *words)
    assert "Patch 6:" in text
    assert "Patch 7:" not in text
    assert "8 min in the bath" in text


def test_the_card_is_a_page_that_gives_its_words_back(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "card.pdf"
    text = said(capsys, "--out", str(out), "--paper", "letter", "--size", "100x25mm")
    assert str(out) in text
    (page,) = PdfReader(out).pages
    assert float(page.mediabox.width) == pytest.approx(215.9 / 25.4 * 72.0, abs=0.6)
    words = " ".join(page.extract_text().replace("\u00a0", " ").split())
    for expected in ("Strip card", "100 × 25 mm", "16 min", "50 mm if printed at 100 %"):
        assert expected in words


def test_the_patches_for_a_plate_tell_most_about_its_tones(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    picture, out = tmp_path / "coins.png", tmp_path / "out"
    Image.fromarray(data.coins()).save(picture)
    begin = ["plan", str(picture), "--out", str(out), "--plate", "100x80mm", "--tones", "3"]
    assert main([*begin, "--title", "Coins", "--strength", "38 Be"]) == 0
    card = tmp_path / "card.pdf"
    for_plate = said(capsys, "--plan", str(out / "plan.plate"), "--out", str(card))
    assert for_plate.splitlines()[:8] != said(capsys).splitlines()[:8]
    words = PdfReader(card).pages[0].extract_text()
    assert "Coins" in words
    assert "38" in words


def test_an_older_card_is_not_written_over(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "card.pdf"
    out.write_text("mine", encoding="utf-8")
    assert main(["strip", "plan", "--out", str(out)]) == 2
    assert "--replace" in capsys.readouterr().err
    assert out.read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (["--patches", "2"], "3 to 16 can"),
        (["--patches", "17"], "3 to 16 can"),
        (["--metal", "zinc"], "heat"),
        (["--size", "400x30mm", "--out", "card.pdf"], "Name another size"),
        (["--plan", "nowhere.plate"], "no file nowhere.plate"),
    ],
    ids=str,
)
def test_what_cannot_be_planned_gets_a_sentence(
    words: list[str],
    why: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(["strip", "plan", *words]) == 2
    assert why in capsys.readouterr().err
    assert not list(tmp_path.iterdir())
