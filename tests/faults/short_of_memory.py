"""Opens a picture in a window that may have little more memory than it has:

python -m tests.faults.short_of_memory PLATE PICTURE ROOM STATE

prints what the window says, and then whether the plate that lay there is still worked on.
"""

import resource
import sys
from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QDeadlineTimer
from PySide6.QtWidgets import QApplication

from toneladder_desktop.bench.settings import Preferences
from toneladder_desktop.window.bench_window import BenchWindow

_MOST_MS = 60_000


def taken_bytes() -> int:
    """The memory that this process has addresses of."""
    status = Path("/proc/self/status").read_text(encoding="ascii")
    return 1024 * int(status.partition("VmSize:")[2].split()[0])


def waited(app: QApplication, until: Callable[[], bool]) -> None:
    """Let the window work until something holds.

    Raises
    ------
    TimeoutError
        It never does.
    """
    end = QDeadlineTimer(_MOST_MS)
    while not until():
        app.processEvents()
        if end.hasExpired():
            raise TimeoutError


def main(plate: Path, picture: Path, room: int, state: Path) -> None:
    """Open the plate; then, with so little room left, the picture; then add a tone."""
    app = QApplication(sys.argv[:1])
    window = BenchWindow(Preferences(state / "preferences.ini"), state)
    window.show()
    window.open(plate)
    waited(app, lambda: window.workings.plan is not None and window.top.paper.fine)
    notice = window.top.notice
    notice.put_away()
    resource.setrlimit(resource.RLIMIT_AS, (taken_bytes() + room, resource.RLIM_INFINITY))
    window.open(picture)
    waited(app, notice.isVisible)
    sys.stdout.write(f"{notice.sentence.text()}\n")
    before = window.workings.plan
    window.add_tones(1)
    waited(app, lambda: window.workings.plan not in {None, before})
    open_plate = window.bench.plate
    sys.stdout.write(f"{open_plate.title if open_plate else ''} {window.bench.unsaved}\n")
    sys.stdout.flush()
    window.bench.give_up()
    window.close()


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]), int(sys.argv[3]), Path(sys.argv[4]))
