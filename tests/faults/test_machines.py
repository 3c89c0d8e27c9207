"""A machine that lacks something: a display, a sound player, a font, a letter, a library."""

import json
import os
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest
from pypdf import PdfReader
from pytestqt.qtbot import QtBot
from tests.core.tank.hands import facts, order_of
from tests.faults.people import environment, told
from tests.hostile.pictures import pictures

from toneladder import lettering
from toneladder.book.opening import open_book
from toneladder.book.tank_log import append_event, begin_session
from toneladder.book.values import Logged, TankSession
from toneladder.errors import BookError
from toneladder.plate.file import read_plate
from toneladder.tank.record import EventRow, event_from
from toneladder.tank.session import session
from toneladder.tank.sounds import Sound
from toneladder.tank.values import Moment
from toneladder_desktop.tank.heard import Loudspeaker

LACKING = """
import sys
class Lacking:
    def find_spec(self, name, path=None, target=None):
        if name == sys.argv[1]:
            raise ImportError("libEGL.so.1: cannot open shared object file: No such file")
sys.meta_path.insert(0, Lacking())
from toneladder_desktop.app import main
sys.exit(main(sys.argv[2:]))
"""


def test_without_a_display_the_window_is_refused_and_a_plan_is_made(tmp_path: Path) -> None:
    (tmp_path / "a.png").write_bytes(pictures()["png"])
    status, sentence = told(tmp_path)
    assert (status, "no display here" in sentence) == (2, True)
    status, _ = told(tmp_path, "plan", "a.png", "--plate", "30x22", "--out", "out")
    assert status == 0
    assert (tmp_path / "out" / "order.pdf").read_bytes().startswith(b"%PDF")


@pytest.mark.parametrize(
    "library", ["PySide6.QtGui", "imagecodecs", "scipy.ndimage", "skimage.morphology"]
)
def test_a_missing_library_is_told_in_a_sentence(tmp_path: Path, library: str) -> None:
    (tmp_path / "a.png").write_bytes(pictures()["png 16"])
    words = ("plan", "a.png", "--plate", "30x22", "--out", "out", "--lines")
    done = subprocess.run(
        [sys.executable, "-c", LACKING, library, *words],
        cwd=tmp_path,
        env=environment(),
        capture_output=True,
        text=True,
        check=False,
    )
    assert "Traceback" not in done.stderr
    assert done.returncode == 2
    assert not (tmp_path / "out").exists()
    assert ("missing here" in done.stderr) != ("damaged" in done.stderr)


def test_without_a_sound_player_the_tank_is_silent_and_says_so(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    assert qtbot is not None
    monkeypatch.setenv("PATH", str(tmp_path))
    speaker = Loudspeaker()
    assert not speaker.works
    for sound in Sound:
        speaker.play(sound)
    assert speaker.played == list(Sound)
    speaker.close()


def test_a_sound_player_that_fails_is_noticed(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    player = tmp_path / "paplay"
    player.write_text("#!/bin/sh\nexit 1\n")
    player.chmod(0o755)
    monkeypatch.setenv("PATH", f"{tmp_path}{os.pathsep}{os.environ['PATH']}")
    monkeypatch.setattr("toneladder_desktop.tank.heard._PLAYERS", (("paplay",),))
    speaker = Loudspeaker()
    assert speaker.works
    speaker.play(next(iter(Sound)))
    qtbot.waitUntil(lambda: not speaker.works, timeout=10_000)
    speaker.close()


def test_a_missing_font_is_told_in_a_sentence(tmp_path: Path) -> None:
    (tmp_path / "a.png").write_bytes(pictures()["png"])
    script = f"""
import sys
from pathlib import Path
from toneladder import lettering
lettering._HERE = Path({str(tmp_path)!r})
from toneladder_desktop.app import main
sys.exit(main(["plan", "a.png", "--plate", "30x22", "--out", "out"]))
"""
    done = subprocess.run(
        [sys.executable, "-c", script],
        cwd=tmp_path,
        env=environment(),
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.returncode, "Traceback" in done.stderr) == (2, False)
    assert "there is nothing of that name" in done.stderr
    assert not (tmp_path / "out").exists()
    assert lettering.font_path(lettering.Face.SANS).is_file()


def test_letters_that_no_font_here_has_are_told_of_and_stop_no_sheet(tmp_path: Path) -> None:
    """A system without any font of its own: only the bundled letters are there."""
    (tmp_path / "a.png").write_bytes(pictures()["png"])
    (tmp_path / "fonts").mkdir()
    (tmp_path / "fonts.conf").write_text(
        f"<fontconfig><dir>{tmp_path}/fonts</dir><cachedir>{tmp_path}/cache</cachedir></fontconfig>"
    )
    title = "水の港 \U0001f30a Łódź \u05d0 \ue000"
    words = ("plan", "a.png", "--plate", "30x22", "--title", title, "--out", "out")
    status, sentence = told(tmp_path, *words, FONTCONFIG_FILE=str(tmp_path / "fonts.conf"))
    assert status == 0
    assert "No font here has 水 の 港 \U0001f30a \u05d0 \ue000: on the sheets" in sentence
    assert read_plate(tmp_path / "out" / "plan.plate").plate.title == title
    assert len(PdfReader(tmp_path / "out" / "order.pdf").pages) >= 1


def test_letters_that_only_the_bundled_ones_have_are_not_told_of(tmp_path: Path) -> None:
    (tmp_path / "a.png").write_bytes(pictures()["png"])
    words = ("plan", "a.png", "--plate", "30x22", "--title", "Łódź, Größe ½ °Bé", "--out", "out")
    status, sentence = told(tmp_path, *words)
    assert (status, "No font here" in sentence) == (0, False)


def test_a_locked_book_says_so_and_loses_no_event(tmp_path: Path) -> None:
    path = tmp_path / "book.sqlite"
    with open_book(path, patience_s=0.05) as book:
        begin_session(book, TankSession("stay", "boats", 0.0, "{}"))
        other = sqlite3.connect(path, isolation_level=None)
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(BookError, match="in use by another program"):
            append_event(book, "stay", Logged(0, "started", 1.0, 1.0))
        other.execute("ROLLBACK")
        other.close()
        append_event(book, "stay", Logged(0, "started", 1.0, 1.0))


@pytest.mark.parametrize("jump_s", [-1.8e9, -3600.0, 3600.0, 86_400.0, 1.8e9, 9e10])
@pytest.mark.parametrize("boot", ["first", "second"])
def test_a_clock_that_jumps_never_makes_a_bite_that_cannot_be_shown(
    jump_s: float, boot: str
) -> None:
    rows = [
        EventRow(0, "count-in begun", 5000.0, 1.8e9, json.dumps({"boot": "first"})),
        EventRow(1, "started", 5010.0, 1.8e9 + 10, json.dumps({"boot": "first"})),
        EventRow(2, "lift proposed", 60.0, 1.8e9 + jump_s, json.dumps({"boot": boot})),
        EventRow(3, "lifted", 90.0, 1.8e9 + jump_s + 30, json.dumps({"boot": boot})),
    ]
    events = [event_from(row) for row in rows]
    now = Moment(200.0, 1.8e9 + jump_s + 140, boot)
    standing = session(order_of(5), facts(), events, now)
    assert standing.sentence
    assert standing.dips or standing.in_bath
    for order in (standing.order, *standing.orders):
        assert order is None or max(len(step.dips_s) for step in order.steps) <= 288
