"""A display that is unplugged while the window is open: the last change is kept all the same."""

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from tests.faults.people import ROOT, environment, without_libraries
from tests.hostile.archives import plate
from tests.hostile.pictures import pictures

from toneladder.bite.curve import starting_curve
from toneladder.bite.values import Conditions
from toneladder.plate.file import PlateFile, read_plate, write_plate
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.bench.recovery import CurveOf, Recovery, take_back

_PLENTY_S = 60.0

_EDITED = """
import sys
from pathlib import Path
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication
from toneladder_desktop.window.bench_window import BenchWindow
from toneladder_desktop.window.start import open_window

def edit():
    windows = [one for one in app.topLevelWidgets() if isinstance(one, BenchWindow)]
    if windows and windows[0].furnished and windows[0].bench.lying is not None:
        look.stop()
        windows[0].add_tones(1)
        print(windows[0].bench.plate.tones.count, flush=True)

app = QApplication(sys.argv[:1])
look = QTimer(interval=20)
look.timeout.connect(edit)
look.start()
sys.exit(open_window([Path(sys.argv[1])]))
"""
"""One tone more, as soon as the plate lies there; told at once, before it is kept anywhere."""


@contextmanager
def display() -> Iterator[tuple[str, "subprocess.Popen[bytes]"]]:
    """A display of its own, and the server that may be taken away."""
    if shutil.which("Xvfb") is None:
        pytest.skip("there is no Xvfb here")
    told, tells = os.pipe()
    words = ["Xvfb", "-displayfd", str(tells), "-screen", "0", "1400x900x24", "-nolisten", "tcp"]
    server = subprocess.Popen(words, pass_fds=[tells], stderr=subprocess.DEVNULL)
    os.close(tells)
    try:
        with os.fdopen(told) as file:
            number = file.readline().strip()
        if not number:
            pytest.skip("no display can be had here")
        yield f":{number}", server
    finally:
        server.kill()
        server.wait()


def test_an_unplugged_display_ends_the_program_and_the_last_change_is_kept(tmp_path: Path) -> None:
    path = tmp_path / "a.plate"
    curve = starting_curve(Conditions())
    write_plate(path, PlateFile(plate(), curve, pictures()["png"]))
    before = path.read_bytes()
    own = {f"XDG_{kind}_HOME": str(tmp_path) for kind in ("CONFIG", "DATA", "STATE")}
    with display() as (name, server):
        program = subprocess.Popen(
            [sys.executable, "-c", _EDITED, str(path)],
            cwd=ROOT,
            env=environment(**own, HOME=str(tmp_path), DISPLAY=name, QT_QPA_PLATFORM="xcb"),
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
        try:
            assert program.stdout is not None
            count = program.stdout.readline().strip()
            server.kill()
            _, said = program.communicate(timeout=_PLENTY_S)
        finally:
            program.kill()
            program.wait()
    if "Qt platform plugin" in said:
        pytest.skip("Qt has no windows on such a display here")
    assert program.returncode == 1
    assert "Traceback" not in said
    assert "Its unsaved changes are kept" in said
    assert path.read_bytes() == before
    room = tmp_path / "toneladder" / "recovery"
    (left,) = Recovery(Bench(), room, CurveOf(), lambda act: act()).left()
    assert take_back(left).plate.tones.count == int(count) == read_plate(path).plate.tones.count + 1


def test_a_library_that_windows_need_is_named_where_it_is_missing(tmp_path: Path) -> None:
    before = without_libraries("libxcb-cursor.so.0")
    with display() as (name, _server):
        done = subprocess.run(
            [*before, sys.executable, "-m", "toneladder_desktop.app"],
            cwd=tmp_path,
            env=environment(HOME=str(tmp_path), DISPLAY=name),
            capture_output=True,
            text=True,
            check=False,
            timeout=_PLENTY_S,
        )
    assert done.returncode == 2
    assert "Traceback" not in done.stderr
    assert done.stderr.startswith("No window can be opened here: libxcb-cursor.so.0")
    assert done.stderr.count("\n") == 1


def test_a_library_that_sheets_need_is_named_where_it_is_missing(tmp_path: Path) -> None:
    (tmp_path / "a.png").write_bytes(pictures()["png"])
    words = ("toneladder_desktop.app", "plan", "a.png", "--plate", "30x22", "--out", "out")
    done = subprocess.run(
        [*without_libraries("libEGL.so.1"), sys.executable, "-m", *words],
        cwd=tmp_path,
        env=environment(HOME=str(tmp_path)),
        capture_output=True,
        text=True,
        check=False,
        timeout=_PLENTY_S,
    )
    assert done.returncode == 2
    assert "Traceback" not in done.stderr
    assert "is missing here (libEGL.so.1" in done.stderr
    assert not (tmp_path / "out").exists()
