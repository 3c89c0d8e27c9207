"""What was on the bench when the program died is offered back; what was closed is not."""

import os
import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtWidgets import QMessageBox
from pytestqt.qtbot import QtBot

from toneladder.bite.curve import starting_curve
from toneladder.errors import PlateFileError
from toneladder_desktop.bench.bench import Bench, Lying
from toneladder_desktop.bench.recovery import LATEST_MS, CurveOf, Recovery, take_back, throw_away
from toneladder_desktop.window.bench_window import BenchWindow

pytestmark = pytest.mark.qt_log_ignore("propagateSizeHints")

# opens a plate, changes it, keeps it, and dies as a crash would
DYING = """
import os, sys
from dataclasses import replace
from pathlib import Path
from PySide6.QtWidgets import QApplication
from toneladder.bite.curve import starting_curve
from toneladder.picture.opening import open_picture
from toneladder.picture.values import PlateSize
from toneladder.plate.values import Plate
from toneladder_desktop.bench.bench import Bench, Lying
from toneladder_desktop.bench.recovery import Recovery

app = QApplication([])
picture = Path(sys.argv[1])
ref = open_picture(picture, name=picture.name).ref
plate = Plate("Hill", ref, PlateSize(60.0, 40.0))
bench = Bench()
curve = starting_curve(plate.conditions)
recovery = Recovery(bench, Path(sys.argv[2]), lambda _lying: curve, lambda act: act())
bench.lay(Lying(plate, picture.read_bytes(), Path("/somewhere/hill.plate")))
bench.change("Call it so", replace(plate, title="Hill, unsaved"))
recovery.keep()
other = Recovery(Bench(), Path(sys.argv[2]), lambda _lying: curve, lambda act: act())
print(len(other.left()), flush=True)
os.kill(os.getpid(), 9)
"""


def at_once(act: Callable[[], None]) -> None:
    act()


@pytest.fixture
def left_by_a_crash(picture_file: Path, tmp_path: Path) -> Path:
    """The folder in which a killed program left a plate."""
    room = tmp_path / "state" / "recovery"
    done = subprocess.run(
        [sys.executable, "-c", DYING, str(picture_file), str(room)],
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
        stdout=subprocess.PIPE,
        text=True,
        check=False,
    )
    assert done.returncode == -9
    assert done.stdout == "0\n"  # as long as it lived, nobody else was offered its plate
    return room


@pytest.fixture
def recovery(bench: Bench, lying: Lying, tmp_path: Path) -> Recovery:
    curve = starting_curve(lying.plate.conditions)
    return Recovery(bench, tmp_path / "state" / "recovery", lambda _lying: curve, at_once)


def test_after_a_kill_the_plate_is_offered_and_taken_back(
    left_by_a_crash: Path, recovery: Recovery, lying: Lying
) -> None:
    assert left_by_a_crash.is_dir()
    (left,) = recovery.left()
    assert left.title == "Hill, unsaved"
    back = take_back(left)
    assert back.plate == replace(lying.plate, title="Hill, unsaved")
    assert back.picture == lying.picture
    assert back.path == Path("/somewhere/hill.plate")
    throw_away(left)
    assert recovery.left() == ()


def test_the_window_offers_it_and_the_plate_has_unsaved_changes(
    left_by_a_crash: Path, make_window: Callable[[], BenchWindow], qtbot: QtBot
) -> None:
    assert left_by_a_crash.is_dir()
    window = make_window()
    window.offer_what_was_lost()
    notice = window.top.notice
    assert "Hill, unsaved" in notice.sentence.text()
    with qtbot.waitSignal(window.bench.laid):
        notice._buttons[0].click()
    assert window.bench.name() == "Hill, unsaved"
    assert window.bench.unsaved


def test_what_is_taken_back_is_thrown_away_only_when_it_is_safe_again(
    left_by_a_crash: Path, bench: Bench
) -> None:
    asked: list[Callable[[], None]] = []
    recovery = Recovery(bench, left_by_a_crash, CurveOf(), asked.append)
    (left,) = recovery.left()
    bench.lay(take_back(left), unsaved=True)
    recovery.take_over(left)
    assert left.folder.exists()
    asked[-1]()
    assert not left.folder.exists()
    recovery.close()


def test_whoever_rather_keeps_working_loses_nothing_of_what_was_left(
    left_by_a_crash: Path, make_window: Callable[[], BenchWindow], lying: Lying, qtbot: QtBot
) -> None:
    assert left_by_a_crash.is_dir()
    window = make_window()
    window.bench.lay(replace(lying, plate=replace(lying.plate, title="Now")), unsaved=True)
    window.offer_what_was_lost()
    window.top.notice._buttons[0].click()
    box = window.findChild(QMessageBox)
    assert box is not None
    box.button(QMessageBox.StandardButton.Cancel).click()
    qtbot.wait(50)
    assert window.bench.name() == "Now"
    assert [left.title for left in window.recovery.left()] == ["Hill, unsaved"]


def test_while_a_hand_never_rests_its_changes_are_kept_all_the_same(
    bench: Bench, lying: Lying, recovery: Recovery, tmp_path: Path, qtbot: QtBot
) -> None:
    bench.lay(lying)
    for number in range(LATEST_MS // 200 + 3):
        bench.change("Call it so", replace(lying.plate, title=str(number)))
        qtbot.wait(200)
    (kept,) = (tmp_path / "state" / "recovery").glob("*/plate.json")
    assert '"title":' in kept.read_text()
    recovery.close()


def test_a_change_is_kept_before_anything_of_the_plate_is_worked_out(
    bench: Bench, lying: Lying, tmp_path: Path
) -> None:
    recovery = Recovery(bench, tmp_path / "state" / "recovery", CurveOf(), at_once)
    bench.lay(lying)
    bench.change("a", replace(lying.plate, title="A"))
    recovery.keep()
    recovery._lock = None  # as if its program had died
    other = Recovery(Bench(), tmp_path / "state" / "recovery", CurveOf(), at_once)
    (left,) = other.left()
    assert take_back(left).plate.title == "A"


def test_what_is_saved_or_unchanged_leaves_nothing(
    bench: Bench, lying: Lying, recovery: Recovery, tmp_path: Path
) -> None:
    bench.lay(lying)
    recovery.keep()
    other = Recovery(Bench(), tmp_path / "state" / "recovery", CurveOf(), at_once)
    assert other.left() == ()
    changed = replace(lying.plate, title="Other")
    bench.change("Call it so", changed)
    recovery.keep()
    bench.now_saved(tmp_path / "other.plate", changed)
    recovery.keep()
    recovery.close()
    assert other.left() == ()
    assert list((tmp_path / "state" / "recovery").iterdir()) == []


def test_the_picture_is_written_once(
    bench: Bench, lying: Lying, recovery: Recovery, tmp_path: Path
) -> None:
    bench.lay(lying)
    bench.change("a", replace(lying.plate, title="A"))
    recovery.keep()
    (kept,) = (tmp_path / "state" / "recovery").glob(f"*/{lying.plate.picture.sha256}")
    before = kept.stat().st_mtime_ns
    bench.change("b", replace(lying.plate, title="B"))
    recovery.keep()
    assert kept.stat().st_mtime_ns == before
    assert kept.read_bytes() == lying.picture


def test_a_place_that_cannot_be_written_to_is_told(
    bench: Bench, lying: Lying, tmp_path: Path
) -> None:
    (tmp_path / "file").write_text("in the way")
    curve = starting_curve(lying.plate.conditions)
    recovery = Recovery(bench, tmp_path / "file", lambda _lying: curve, at_once)
    bench.lay(lying)
    bench.change("a", replace(lying.plate, title="A"))
    recovery.keep()
    assert recovery.broken


@pytest.mark.parametrize("text", ["{", "[" * 100_000, '{"plate": []}', '"\\ud800'])
def test_damaged_leavings_are_offered_and_thrown_away_only_when_that_is_asked(
    recovery: Recovery, tmp_path: Path, text: str
) -> None:
    folder = tmp_path / "state" / "recovery" / "broken"
    folder.mkdir(parents=True)
    (folder / "plate.json").write_text(text)
    (left,) = recovery.left()
    with pytest.raises(PlateFileError, match="It was left as it is"):
        take_back(left)
    assert folder.exists()
    throw_away(left)
    assert recovery.left() == ()


def test_leavings_without_a_plate_are_cleared_away(recovery: Recovery, tmp_path: Path) -> None:
    folder = tmp_path / "state" / "recovery" / "empty"
    folder.mkdir(parents=True)
    assert recovery.left() == ()
    assert not folder.exists()


def test_a_lock_that_names_nobody_keeps_a_plate_from_nobody(
    recovery: Recovery, tmp_path: Path
) -> None:
    folder = tmp_path / "state" / "recovery" / "nameless"
    folder.mkdir(parents=True)
    (folder / "plate.json").write_text('{"plate": {"title": "Boats"}}')
    (folder / "lock").write_bytes(b"")
    assert recovery.left() == ()  # somebody may just be writing a name into it
    os.utime(folder / "lock", (0.0, 0.0))
    assert [left.title for left in recovery.left()] == ["Boats"]
