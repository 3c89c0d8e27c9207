"""Sets up whatever is missing, then opens Tone Ladder or tests it.

    python3 packaging/dev.py run  [ARGUMENT…]   open the window, or hand the arguments to it
    python3 packaging/dev.py test [ARGUMENT…]   run the tests, the arguments go to pytest

Nothing but Python is needed beforehand. The exact packages of requirements.lock go into the
folder .venv, once. On Linux the system's libraries for windows are looked at as well: root on
Debian and its kin gets them installed, anybody else is told one line to run.
"""

from __future__ import annotations

import hashlib
import os
import shutil
import subprocess
import sys
from collections.abc import Sequence
from importlib.util import find_spec
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
LOCK = ROOT / "packaging" / "requirements.lock"
VENV = ROOT / ".venv"
PYTHON = VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
MOST_AT_ONCE = 4  # a test may take a gigabyte
DONE = VENV / "set-up-from"  # says from which lock, and for which Python, all is in place

QT_PARTS = (
    "QtCore.*so",
    "QtGui.*so",
    "QtWidgets.*so",
    "QtPrintSupport.*so",
    "QtSvg.*so",
    "Qt/plugins/platforms/*.so",
    "Qt/plugins/imageformats/*.so",
    "Qt/plugins/platforminputcontexts/*.so",
    "Qt/plugins/printsupport/*.so",
    "Qt/plugins/wayland-*/*.so",
    "Qt/plugins/xcbglintegrations/*.so",
)
QT_USUALLY = (  # what a bare Debian lacks; named before PySide6 is there to be asked
    *("libcups2", "libdbus-1-3", "libegl1", "libfontconfig1", "libgl1", "libglib2.0-0"),
    *("libwayland-cursor0", "libwayland-egl1", "libxcb-cursor0", "libxcb-icccm4"),
    *("libxcb-keysyms1", "libxcb-shape0", "libxkbcommon-x11-0", "libxkbcommon0"),
)
UNUSUAL_NAMES = {  # libraries whose package is not called after them
    "libglib-2.0.so.0": "libglib2.0-0",
    "libgobject-2.0.so.0": "libglib2.0-0",
    "libgthread-2.0.so.0": "libglib2.0-0",
    "libbrotlicommon.so.1": "libbrotli1",
    "libbrotlidec.so.1": "libbrotli1",
    "libz.so.1": "zlib1g",
}
TEST_TOOLS = {"pdftoppm": "poppler-utils"}  # the tests look at pages as pictures
DESKTOP_TOOLS = {  # a desktop on which a whole job is done by keys, and by a screen reader
    "Xvfb": "xvfb",
    "openbox": "openbox",
    "xdotool": "xdotool",
    "dbus-daemon": "dbus-daemon",
    "/usr/libexec/at-spi-bus-launcher": "at-spi2-core",
}


def main(arguments: list[str]) -> int:
    """Do what the first argument says, with the rest of them."""
    if sys.version_info < (3, 11):
        sys.exit(f"Tone Ladder needs Python 3.11 or newer; this is {sys.version.split()[0]}.")
    command, *rest = arguments or ["help"]
    if command == "run":
        set_up()
        return run(rest)
    if command == "test":
        tools = [package for tool, package in TEST_TOOLS.items() if not shutil.which(tool)]
        set_up(tools)
        return test(rest)
    sys.exit(__doc__)


def run(arguments: list[str]) -> int:
    """Open the window; where there is no screen, plan the first sample picture instead."""
    if arguments or has_screen():
        return start("-m", "toneladder_desktop.app", *arguments)
    sample, folder = min((ROOT / "sample_images").glob("*.png")), Path("tone-ladder-sample")
    print("There is no screen here to open a window on: planning a sample instead.", flush=True)
    plan = ["plan", str(sample), "--out", str(folder), "--replace"]
    status = start("-m", "toneladder_desktop.app", *plan)
    if status == 0:
        print(f"The sheet to pin up by the tank is {folder.resolve() / 'order.pdf'}.")
    return status


def test(arguments: list[str]) -> int:
    """Run the tests; windows are drawn off the screen unless a platform is set.

    All of them run as many at once as there are cores; some of them, one after the other.
    """
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    os.chdir(ROOT)
    lacking = [package for tool, package in DESKTOP_TOOLS.items() if not shutil.which(tool)]
    if lacking and sys.platform.startswith("linux"):
        print(f"Tests of a whole desktop are left out; they need {' '.join(lacking)}.", flush=True)
    cores = min(os.cpu_count() or 1, MOST_AT_ONCE)
    at_once = [] if arguments or cores < 2 else ["-n", str(cores), "--dist", "loadfile"]
    return start("-m", "pytest", *at_once, *arguments)


def has_screen() -> bool:
    """Whether a window can open here."""
    screens = ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")
    return not sys.platform.startswith("linux") or any(os.environ.get(name) for name in screens)


def start(*command: str) -> int:
    """Run Python of the virtual environment on the project's own packages."""
    paths = os.pathsep.join([str(ROOT / "core"), str(ROOT / "desktop")])
    return subprocess.call([str(PYTHON), *command], env={**os.environ, "PYTHONPATH": paths})


def set_up(tools: Sequence[str] = ()) -> None:
    """Make .venv, if the lock has changed, and see to the system's libraries and ``tools``."""
    lacking = set(tools)
    ready = DONE.is_file() and DONE.read_text(encoding="utf-8") == wanted()
    if not ready:
        if not PYTHON.exists() or not has_pip():
            make_venv(lacking)
        print("Installing the packages of packaging/requirements.lock into .venv.", flush=True)
        pip = [str(PYTHON), "-m", "pip", "install", "--require-hashes", "--requirement", str(LOCK)]
        if subprocess.call(pip):
            sys.exit("The packages could not be installed; nothing outside .venv was changed.")
        if sys.platform.startswith("linux"):
            lacking |= {package_of(name) for name in missing_libraries()}
    need_packages(lacking)
    if not ready:
        DONE.write_text(wanted(), encoding="utf-8")


def wanted() -> str:
    """The lock and the Python that a finished environment stands for."""
    version = subprocess.run([str(PYTHON), "-V"], capture_output=True, text=True, check=False)
    return f"{hashlib.sha256(LOCK.read_bytes()).hexdigest()} {version.stdout.strip()}\n"


def has_pip() -> bool:
    """Whether the environment is whole; a system's new Python leaves an old one without pip."""
    return subprocess.call([str(PYTHON), "-c", "import pip"], stderr=subprocess.DEVNULL) == 0


def make_venv(lacking: set[str]) -> None:
    """Make .venv afresh, with the system's package for it where that is split off."""
    if not find_spec("ensurepip"):
        venv_package = f"python{sys.version_info.major}.{sys.version_info.minor}-venv"
        need_packages({venv_package, *QT_USUALLY, *lacking})
    if subprocess.call([sys.executable, "-m", "venv", "--clear", str(VENV)]):
        sys.exit("The folder .venv could not be made; nothing else was changed.")


def missing_libraries() -> set[str]:
    """Libraries of the system that Qt's parts ask for and that are not there."""
    (pyside,) = VENV.glob("lib/python*/site-packages/PySide6")
    parts = [str(path) for pattern in QT_PARTS for path in pyside.glob(pattern)]
    if not shutil.which("ldd"):
        return set()
    said = subprocess.run(["ldd", *parts], capture_output=True, text=True, check=False).stdout
    missing = {line.split()[0] for line in said.splitlines() if line.endswith("not found")}
    return {name for name in missing if not name.startswith("libQt6")}  # parts we do not ship


def package_of(library: str) -> str:
    """The Debian package of a library: its name and version in small letters, by their rule."""
    name, _, version = library.lower().partition(".so.")
    return UNUSUAL_NAMES.get(library, f"{name}{'-' if name[-1].isdigit() else ''}{version}")


def need_packages(packages: set[str]) -> None:
    """Install the system's packages as root; tell anybody else the line to run, and stop."""
    if not packages:
        return
    names = sorted(packages)
    if not shutil.which("apt-get"):
        sys.exit(f"The system lacks, by their Debian names: {' '.join(names)}. Install them.")
    install = ["apt-get", "install", "-y", "--no-install-recommends", *names]
    if os.geteuid() != 0:
        line = " ".join(["sudo", *install])
        sys.exit(f"Some parts of the system are missing. Run this line, then try again:\n\n{line}")
    settings = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    subprocess.call(["apt-get", "-q", "update"], env=settings)
    if subprocess.call(install, env=settings):
        sys.exit(f"The system's packages could not be installed: {' '.join(names)}.")


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
