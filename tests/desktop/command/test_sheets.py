"""The headless command for sheets: every file at once, or one sentence and nothing."""

from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from pypdf import PdfReader

from toneladder.sheets.documents import Kind
from toneladder_desktop.app import main
from toneladder_desktop.command.sheets import kinds

MAPS = [f"map-{step}.{end}" for step in range(1, 5) for end in ("pdf", "svg")]
ALL = sorted(
    [
        *MAPS,
        "guide.pdf",
        "order.pdf",
        "registration.pdf",
        "strip-card.pdf",
        "tracing.pdf",
        "tracing.svg",
    ]
)


@pytest.fixture(scope="module")
def plate_of(tmp_path_factory: pytest.TempPathFactory) -> Callable[[int], Path]:
    folder = tmp_path_factory.mktemp("plates")
    y, x = np.mgrid[0:90, 0:120]
    grey = np.clip(128 + 90 * np.sin(x / 19) + 60 * np.cos(y / 11 + x / 27), 0, 255)
    file = BytesIO()
    Image.fromarray(grey.astype(np.uint8)).save(file, "PNG")
    (folder / "waves.png").write_bytes(file.getvalue())

    def make(tones: int) -> Path:
        out = folder / str(tones)
        if not out.exists():
            words = ["plan", str(folder / "waves.png"), "--out", str(out), "--plate", "80x60mm"]
            assert main([*words, "--tones", str(tones), "--gap-lightness", "0"]) == 0
        return out / "plan.plate"

    return make


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def run(plate: Path, out: Path, *words: str) -> int:
    return main(["sheets", str(plate), "--out", str(out), *words])


def test_one_command_writes_every_sheet(
    plate_of: Callable[[int], Path], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "new" / "sheets"
    assert run(plate_of(5), out) == 0
    assert names(out) == ALL
    assert f"{len(ALL)} files are in {out}." in capsys.readouterr().out
    for name in ALL:
        if name.endswith(".pdf"):
            box = PdfReader(out / name).pages[0].mediabox
            assert (float(box.width), float(box.height)) == pytest.approx((595.3, 841.9), abs=0.6)
    for name in ("tracing.svg", "map-1.svg"):
        assert 'viewBox="0 0 80 60"' in (out / name).read_text(encoding="utf-8")


@pytest.mark.parametrize(("paper", "size"), [("a3", (841.9, 1190.6)), ("letter", (612.0, 792.0))])
def test_other_papers_can_be_named(
    plate_of: Callable[[int], Path], tmp_path: Path, paper: str, size: tuple[float, float]
) -> None:
    assert run(plate_of(5), tmp_path, "--paper", paper, "--only", "maps") == 0
    box = PdfReader(tmp_path / "map-1.pdf").pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx(size, abs=0.6)


@pytest.mark.parametrize(
    ("only", "files"),
    [
        ("maps", MAPS),
        ("tracing", ["tracing.pdf", "tracing.svg"]),
        ("order, strip-card", ["order.pdf", "strip-card.pdf"]),
        ("registration,guide,lines", ["guide.pdf", "registration.pdf"]),
    ],
)
def test_only_what_was_asked_for_is_written(
    plate_of: Callable[[int], Path], tmp_path: Path, only: str, files: list[str]
) -> None:
    assert run(plate_of(5), tmp_path, "--only", only) == 0
    assert names(tmp_path) == sorted(files)


def test_sheets_that_are_there_are_replaced_only_on_request(
    plate_of: Callable[[int], Path], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(plate_of(5), tmp_path, "--only", "maps") == 0
    (tmp_path / "map-1.pdf").write_text("mine")
    assert run(plate_of(5), tmp_path, "--only", "maps") == 2
    assert "map-1.pdf" in capsys.readouterr().err
    assert (tmp_path / "map-1.pdf").read_text() == "mine"
    assert run(plate_of(5), tmp_path, "--only", "maps", "--replace") == 0
    assert len(PdfReader(tmp_path / "map-1.pdf").pages) == 1


def test_maps_of_steps_that_are_no_more_go_with_the_others(
    plate_of: Callable[[int], Path], tmp_path: Path
) -> None:
    assert run(plate_of(5), tmp_path, "--only", "maps") == 0
    (tmp_path / "notes.txt").write_text("mine")
    assert run(plate_of(3), tmp_path, "--only", "maps", "--replace") == 0
    two = [f"map-{step}.{end}" for step in (1, 2) for end in ("pdf", "svg")]
    assert names(tmp_path) == [*two, "notes.txt"]
    assert run(plate_of(5), tmp_path, "--only", "guide") == 0
    assert names(tmp_path) == ["guide.pdf", *two, "notes.txt"]


def test_a_plate_without_lines_has_no_sheet_of_them(
    plate_of: Callable[[int], Path], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "out"
    assert run(plate_of(5), out, "--only", "lines") == 2
    assert "no pen lines" in capsys.readouterr().err
    assert not out.exists()


@pytest.mark.parametrize("only", ["map", "maps,tracings", ",", ""])
def test_unknown_kinds_are_refused_in_a_sentence(
    plate_of: Callable[[int], Path],
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    only: str,
) -> None:
    out = tmp_path / "out"
    assert run(plate_of(5), out, "--only", only) == 2
    assert "order, maps, tracing, guide, lines, strip-card, registration" in capsys.readouterr().err
    assert not out.exists()


def test_what_is_no_plate_is_refused_and_nothing_is_written(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "x.plate").write_bytes(b"no plate")
    assert run(tmp_path / "x.plate", tmp_path / "out") == 2
    assert capsys.readouterr().err.count("\n") == 1
    assert not (tmp_path / "out").exists()


def test_a_file_in_the_place_of_the_folder_is_refused(
    plate_of: Callable[[int], Path], tmp_path: Path
) -> None:
    (tmp_path / "out").write_text("mine")
    assert run(plate_of(5), tmp_path / "out", "--replace") == 2
    assert (tmp_path / "out").read_text() == "mine"


def test_the_foot_of_the_paper_can_be_larger(
    plate_of: Callable[[int], Path], tmp_path: Path
) -> None:
    words = ["--only", "registration", "--margin", "50mm", "--foot", "75mm"]
    assert run(plate_of(5), tmp_path, *words) == 0
    text = PdfReader(tmp_path / "registration.pdf").pages[0].extract_text()
    assert "180 × 185 mm" in " ".join(text.split())


def test_every_kind_can_be_named() -> None:
    assert kinds(", ".join(Kind)) == tuple(Kind)
