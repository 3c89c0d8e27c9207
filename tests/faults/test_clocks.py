"""A clock that jumped between two starts, or while a file was written: what it leaves on the disk.

The times of files are set as such a clock would have left them.
"""

import os
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot
from tests.hostile.archives import plate
from tests.hostile.pictures import pictures

from toneladder.bite.curve import starting_curve
from toneladder.bite.values import Conditions
from toneladder.errors import OutputError
from toneladder.writing import OLD_S, write_whole
from toneladder_desktop.bench.bench import Bench, Lying
from toneladder_desktop.bench.recovery import Recovery, take_back
from toneladder_desktop.bench.settings import Preferences
from toneladder_desktop.window.bench_window import BenchWindow

CURVE = starting_curve(Conditions())
JUMPED = [-1e9, 0.0, 1e9, 4e9, 1.4e10]
"""The clock of 1938, 1970, 2001, 2096 and 2413, seconds since 1970."""


def kept(room: Path) -> Recovery:
    """A plate with a change that is kept, in a window that lives."""
    bench = Bench()
    recovery = Recovery(bench, room, lambda _lying: CURVE, lambda act: act())
    bench.lay(Lying(plate(), pictures()["png"]))
    bench.change("title", replace(plate(), title="Changed"))
    recovery.keep()
    return recovery


def crashed(recovery: Recovery) -> None:
    """Its window ends without a word."""
    assert recovery._lock is not None
    recovery._lock.unlock()


def jump(folder: Path, clock_s: float) -> None:
    for path in (*folder.rglob("*"), folder):
        try:
            os.utime(path, (clock_s, clock_s))
        except OSError:
            pytest.skip("this disk has no such times")


@pytest.mark.parametrize("clock_s", JUMPED)
def test_what_was_kept_by_another_clock_is_offered_and_is_whole(
    clock_s: float, qtbot: QtBot, qapp: QApplication, tmp_path: Path
) -> None:
    crashed(kept(tmp_path / "recovery"))
    jump(tmp_path / "recovery", clock_s)
    window = BenchWindow(Preferences(tmp_path / "preferences.ini", qapp), tmp_path)
    qtbot.addWidget(window)
    window.offer_what_was_lost()
    assert "“Changed” was open when the program stopped" in window.top.notice.sentence.text()
    (left,) = window.recovery.left()
    assert take_back(left).plate.title == "Changed"
    window.close()


@pytest.mark.parametrize("clock_s", JUMPED)
def test_what_a_living_window_keeps_is_not_taken_from_it_whatever_the_clock_says(
    clock_s: float, qapp: QApplication, tmp_path: Path
) -> None:
    assert qapp is not None
    living = kept(tmp_path)
    jump(tmp_path, clock_s)
    other = Recovery(Bench(), tmp_path, lambda _lying: CURVE, lambda act: act())
    assert other.left() == ()
    assert living._own.is_dir()
    crashed(living)
    assert [one.title for one in other.left()] == ["Changed"]


def test_two_writers_between_whom_the_clock_jumps_leave_one_whole_file(tmp_path: Path) -> None:
    path = tmp_path / "a.plate"
    path.write_bytes(b"older")

    def interrupted(file: object) -> None:
        (unfinished,) = tmp_path.glob(".a.plate-*")
        long_ago = path.stat().st_mtime - 2.0 * OLD_S
        os.utime(unfinished, (long_ago, long_ago))
        write_whole(path, lambda other: other.write(b"newer"))
        assert file is not None

    with pytest.raises(OutputError, match="could not be written"):
        write_whole(path, interrupted)
    assert path.read_bytes() == b"newer"
    assert [one.name for one in tmp_path.iterdir()] == ["a.plate"]
