"""A folder on another machine: slow, silent for a while, or gone. The window lives on."""

from collections.abc import Callable, Iterator
from pathlib import Path
from threading import Timer

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot
from tests.faults.far_folder import FarFolder, far_folder
from tests.faults.people import files, told
from tests.hostile.archives import plate
from tests.hostile.pictures import pictures
from tests.kills.acts import ACTS, Act

from toneladder.bite.curve import starting_curve
from toneladder.bite.values import Conditions
from toneladder.book.network import on_a_network
from toneladder.plate.file import PlateFile, read_plate, write_plate
from toneladder_desktop.bench.glimpse import glimpse_at_once
from toneladder_desktop.bench.settings import Preferences
from toneladder_desktop.window.bench_window import BenchWindow

PLENTY_MS = 60_000
LONGEST_S = 30.0
"""After so long a folder that answers nothing is set free, and the test has failed."""


@pytest.fixture
def far() -> Iterator[FarFolder]:
    with far_folder() as folder:
        content = PlateFile(plate(), starting_curve(Conditions()), pictures()["png"])
        write_plate(folder.path / "a.plate", content)
        yield folder


@pytest.fixture
def window(qapp: QApplication, qtbot: QtBot, tmp_path: Path) -> Iterator[BenchWindow]:
    own = BenchWindow(Preferences(tmp_path / "preferences.ini", qapp), tmp_path / "state")
    qtbot.addWidget(own)
    own.show()
    yield own
    own.bench.give_up()
    own.close()


class Silence:
    """While it lasts the folder answers nothing; whoever waits for it waits for its end."""

    def __init__(self, far: FarFolder) -> None:
        self._held = far.held()
        self._held.__enter__()
        self.broken = False
        self._end = Timer(LONGEST_S, self._break)
        self._end.start()

    def _break(self) -> None:
        self.broken = True
        self._held.__exit__(None, None, None)

    def end(self) -> bool:
        """Let the folder answer again; whether it was silent until now."""
        self._end.cancel()
        self._end.join()
        if not self.broken:
            self._held.__exit__(None, None, None)
        return not self.broken


def lies_there(window: BenchWindow) -> Callable[[], bool]:
    return lambda: window.workings.plan is not None and not window.workings.background.busy


@pytest.mark.parametrize("act", ACTS[:3], ids=lambda act: act.name)
def test_on_a_slow_folder_a_file_is_written_whole(far: FarFolder, act: Act) -> None:
    act.save(far.path, 1)
    far.slow(0.005)
    act.save(far.path, 2)
    assert act.found(far.path) == 2
    assert act.found(far.near) == 2


def test_a_folder_that_goes_away_is_told_of_and_nothing_is_left_by_halves(
    far: FarFolder, tmp_path: Path
) -> None:
    before = files(far.near)
    far.gone()
    for words in (("curve", "a.plate"), ("sheets", "a.plate", "--only", "order", "--out", "b")):
        status, sentence = told(tmp_path, *words[:1], str(far.path / words[1]), *words[2:])
        assert status == 2
        assert "not connected" in sentence
    status, sentence = told(tmp_path, "strip", "plan", "--out", str(far.path / "card.pdf"))
    assert (status, "not connected" in sentence) == (2, True)
    assert files(far.near) == before
    assert files(tmp_path) == {}


def test_while_a_folder_is_silent_the_window_opens_edits_and_saves_beside_it(
    far: FarFolder, window: BenchWindow, qtbot: QtBot
) -> None:
    path = far.path / "a.plate"
    silence = Silence(far)
    assert glimpse_at_once(path).isNull()
    window.open(path)
    qtbot.waitUntil(window.top.slowness.isVisible, timeout=PLENTY_MS)
    assert silence.end()
    qtbot.waitUntil(lies_there(window), timeout=PLENTY_MS)

    silence = Silence(far)
    window.watching.follow()
    window.add_tones(1)
    window.filing.save()
    qtbot.wait(200)
    assert window.filing.saving
    window.add_tones(1)
    assert silence.end()
    with qtbot.waitSignal(window.filing.saved, timeout=PLENTY_MS):
        pass
    assert window.bench.unsaved
    assert read_plate(far.near / "a.plate").plate.tones.count == plate().tones.count + 1


def test_a_silent_folder_keeps_no_other_file_from_being_written_and_no_window_from_closing(
    far: FarFolder, window: BenchWindow, qtbot: QtBot, tmp_path: Path
) -> None:
    window.recent.add(far.path / "a.plate")
    window.watching._often.setInterval(10)
    window.open(far.path / "a.plate")
    qtbot.waitUntil(lies_there(window), timeout=PLENTY_MS)
    qtbot.waitUntil(window.watching._often.isActive, timeout=PLENTY_MS)
    silence = Silence(far)
    qtbot.wait(100)
    written: list[int] = []
    window.beside.do(lambda: (tmp_path / "near").write_text("whole"), written.append)
    qtbot.waitUntil(lambda: written == [5], timeout=PLENTY_MS)
    assert window.close()
    assert silence.end()


def test_a_folder_that_goes_away_while_a_plate_of_it_is_open_takes_nothing_with_it(
    far: FarFolder, window: BenchWindow, qtbot: QtBot, tmp_path: Path
) -> None:
    path = far.path / "a.plate"
    assert on_a_network(path)
    window.open(path)
    qtbot.waitUntil(lies_there(window), timeout=PLENTY_MS)
    window.add_tones(1)
    before = files(far.near)
    far.gone()
    window.filing.save()
    notice = window.top.notice
    qtbot.waitUntil(lambda: "could not be written" in notice.sentence.text(), timeout=PLENTY_MS)
    assert window.bench.unsaved
    assert files(far.near) == before
    window.recovery.keep()
    window.filing._save(tmp_path / "here.plate", None)
    with qtbot.waitSignal(window.filing.saved, timeout=PLENTY_MS):
        pass
    assert read_plate(tmp_path / "here.plate").plate == window.bench.plate


def test_a_far_file_that_others_change_is_noticed_all_the_same(
    far: FarFolder, window: BenchWindow, qtbot: QtBot
) -> None:
    window.watching._often.setInterval(50)
    window.open(far.path / "a.plate")
    qtbot.waitUntil(lies_there(window), timeout=PLENTY_MS)
    qtbot.waitUntil(window.watching._often.isActive, timeout=PLENTY_MS)
    (far.near / "a.plate").write_bytes((far.near / "a.plate").read_bytes() + b"x")
    qtbot.waitUntil(
        lambda: "another program" in window.top.notice.sentence.text(), timeout=PLENTY_MS
    )
