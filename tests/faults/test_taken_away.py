"""Files that go, shrink or are locked while they are read, and between reading and saving."""

import os
import shutil
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import product
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot
from tests.faults.people import as_nobody, files, let_in
from tests.hostile.archives import plate, strip
from tests.hostile.pictures import pictures

from toneladder.bite.curve import starting_curve
from toneladder.bite.values import Conditions
from toneladder.plate.file import PlateFile, read_plate, write_plate
from toneladder.strip.file import strip_text
from toneladder_desktop.app import main
from toneladder_desktop.bench.settings import Preferences
from toneladder_desktop.window.bench_window import BenchWindow

PLENTY_MS = 30_000
TABLE = "total_bite,lightness\n0 s,91\n0:30,75\n1:00,62\n2:00,46\n4:00,31\n"


def _delete(path: Path) -> None:
    path.unlink(missing_ok=True)


def _cut(path: Path) -> None:
    os.truncate(path, path.stat().st_size // 2)


def _empty(path: Path) -> None:
    os.truncate(path, 0)


def _lock(path: Path) -> None:
    path.chmod(0o000)


@dataclass
class Snare:
    """Does something to a file in the moment in which it is opened for the ``left``-th time."""

    path: Path = Path()
    act: Callable[[Path], None] | None = None
    left: int = 0

    def heard(self, event: str, words: tuple[object, ...]) -> None:
        if self.act is None or event != "open" or str(words[0]) != str(self.path):
            return
        self.left -= 1
        if self.left == 0:
            act, self.act = self.act, None
            act(self.path)


SNARE = Snare()
sys.addaudithook(SNARE.heard)


@contextmanager
def snared(path: Path, act: Callable[[Path], None], opening: int) -> Iterator[None]:
    SNARE.path, SNARE.act, SNARE.left = path, act, opening
    try:
        yield
    finally:
        SNARE.act = None


WORDS = {
    "picture.png": ("plan", "picture.png", "--plate", "30x22", "--out", "out"),
    "a.plate": ("sheets", "a.plate", "--only", "order", "--out", "out"),
    "a.strip": ("curve", "a.strip"),
    "readings.csv": ("strip", "fit", "readings.csv", "--out", "out"),
}


@pytest.fixture
def table(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with one file of each kind in it; we stand there."""
    folder = tmp_path / "table"
    folder.mkdir()
    (folder / "picture.png").write_bytes(pictures()["png"])
    (folder / "readings.csv").write_text(TABLE)
    (folder / "a.strip").write_text(strip_text(strip()), encoding="utf-8")
    content = PlateFile(plate(), starting_curve(Conditions()), pictures()["png"])
    write_plate(folder / "a.plate", content)
    folder.chmod(0o777)
    let_in(folder)
    monkeypatch.chdir(folder)
    return folder


@pytest.mark.parametrize("name", WORDS)
def test_a_file_that_is_taken_away_as_it_is_read_is_told_of(
    name: str, table: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with snared(Path(name), _delete, 0):  # which also loads everything, before rights are dropped
        assert main(WORDS[name]) == 0
        openings = -SNARE.left
    _clear(table)
    before = files(table)
    assert openings > 0
    for opening, act in product(range(1, openings + 1), (_delete, _cut, _empty, _lock)):
        capsys.readouterr()
        with as_nobody(), snared(Path(name), act, opening):
            assert main(WORDS[name]) == 2, (opening, act)
            assert SNARE.act is None
        said = capsys.readouterr().err
        assert "Traceback" not in said
        assert len(said.strip()) > 20
        _delete(table / name)
        (table / name).write_bytes(before[name])
        assert files(table) == before


def _clear(table: Path) -> None:
    """Take away what came out."""
    for path in table.glob("out*"):
        if path.is_dir():
            shutil.rmtree(path)
        else:
            path.unlink()


@pytest.fixture
def opened(
    table: Path, tmp_path: Path, qapp: QApplication, qtbot: QtBot
) -> Iterator[tuple[BenchWindow, Path]]:
    """A window with a plate of that folder, and a change that is not saved."""
    path = table / "a.plate"
    window = BenchWindow(Preferences(tmp_path / "preferences.ini", qapp), tmp_path / "state")
    qtbot.addWidget(window)
    window.show()
    window.open(path)
    qtbot.waitUntil(lambda: window.workings.plan is not None, timeout=PLENTY_MS)
    with qtbot.waitSignal(window.filing.saved, timeout=PLENTY_MS):  # loads everything
        window.filing.save()
    window.add_tones(1)
    yield window, path
    window.bench.give_up()
    window.close()


def _folder_gone(path: Path) -> None:
    shutil.rmtree(path.parent)


def _folder_locked(path: Path) -> None:
    path.parent.chmod(0o555)


def _folder_in_its_place(path: Path) -> None:
    path.unlink()
    path.mkdir()


@pytest.mark.parametrize(
    ("act", "reason"),
    [
        (_folder_gone, "there is nothing of that name"),
        (_folder_locked, "you have no permission"),
        (_folder_in_its_place, "it is not a file"),
    ],
)
def test_what_was_taken_away_since_it_was_opened_is_told_of_when_it_is_saved(
    act: Callable[[Path], None], reason: str, opened: tuple[BenchWindow, Path], qtbot: QtBot
) -> None:
    window, path = opened
    act(path)
    there = files(path.parent) if path.parent.exists() else {}
    notice = window.top.notice
    with as_nobody():
        window.filing.save()
        qtbot.waitUntil(lambda: reason in notice.sentence.text(), timeout=PLENTY_MS)
    assert "unchanged" in notice.sentence.text()
    assert window.bench.unsaved
    assert (files(path.parent) if path.parent.exists() else {}) == there
    elsewhere = path.parents[1] / "b.plate"
    with qtbot.waitSignal(window.filing.saved, timeout=PLENTY_MS):
        window.filing._save(elsewhere, None)
    assert read_plate(elsewhere).plate == window.bench.plate
    assert not window.bench.unsaved


@pytest.mark.parametrize("act", [_delete, _cut])
def test_a_file_that_was_deleted_or_cut_since_is_written_whole_again(
    act: Callable[[Path], None], opened: tuple[BenchWindow, Path], qtbot: QtBot
) -> None:
    window, path = opened
    act(path)
    with qtbot.waitSignal(window.filing.saved, timeout=PLENTY_MS):
        window.filing.save()
    assert read_plate(path).plate == window.bench.plate
