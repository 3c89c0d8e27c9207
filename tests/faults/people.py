"""Small disks, people who may not, and the program run under narrow limits."""

import os
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
NOBODY = 65534
"""The user that owns nothing, on Linux."""

_LIMITED = """
import json, resource, sys
for name, most in json.loads(sys.argv[1]).items():
    resource.setrlimit(getattr(resource, name), (most, most))
if "RLIMIT_FSIZE" in json.loads(sys.argv[1]):
    import signal
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
from toneladder_desktop.app import main
sys.exit(main(sys.argv[2:]))
"""


def environment(**more: str) -> dict[str, str]:
    """That of a person without a display."""
    path = os.pathsep.join(str(ROOT / part) for part in ("core", "desktop", "."))
    own = dict.fromkeys(("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS"), "1")
    # a disk that is full must not be left with compiled modules by halves
    own["PYTHONDONTWRITEBYTECODE"] = "1"
    return {"PATH": os.environ["PATH"], "PYTHONPATH": path, **own, **more}


def told(folder: Path, *words: str, limits: str = "{}", **more: str) -> tuple[int, str]:
    """Exit status of the command, and what it said to the person; never a traceback."""
    done = subprocess.run(
        [sys.executable, "-c", _LIMITED, limits, *words],
        cwd=folder,
        env=environment(**more),
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )
    assert "Traceback" not in done.stderr, done.stderr
    return done.returncode, done.stderr


@contextmanager
def as_nobody() -> Iterator[None]:
    """The block is run by a person whom permissions bind; root passes them all."""
    if os.name != "posix":
        pytest.skip("permissions are told apart on POSIX only")
    if os.geteuid() != 0:
        yield
        return
    os.seteuid(NOBODY)
    try:
        yield
    finally:
        os.seteuid(0)


def let_in(folder: Path) -> None:
    """Whoever is nobody may come as far as that folder of the tests, and look about in it."""
    for above in (folder, *folder.parents):
        above.chmod(above.stat().st_mode | 0o055)
        if above.name.startswith("pytest-of-"):
            break


@contextmanager
def small_disk(size: str = "1m") -> Iterator[Path]:
    """A file system of that size, where one may be mounted."""
    folder = Path(tempfile.mkdtemp(prefix="small-disk-"))
    mount = ["mount", "-t", "tmpfs", "-o", f"size={size},mode=777", "tmpfs", str(folder)]
    if sys.platform != "linux" or os.geteuid() != 0:
        pytest.skip("only root may mount a small disk")
    if subprocess.run(mount, capture_output=True, check=False).returncode != 0:
        pytest.skip("no small disk can be mounted here")
    try:
        yield folder
    finally:
        subprocess.run(["umount", "-l", str(folder)], check=False)
        folder.rmdir()


def files(folder: Path) -> Mapping[str, bytes]:
    """Everything in a folder, by name."""
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def without_libraries(*names: str) -> list[str]:
    """Words before a command that runs it where those libraries of the system are gone.

    It has a view of its own of the folder they lie in; everybody else's is as before.
    """
    folders = {path.parent for name in names for path in Path("/usr/lib").glob(f"*/{name}")}
    if sys.platform != "linux" or os.geteuid() != 0 or len(folders) != 1:
        pytest.skip("only root may take a library of the system away, where it lies as usual")
    folder = str(folders.pop())
    gone = " ".join(f"{folder}/{name}*" for name in names)
    script = f"""
mount -t tmpfs tmpfs /mnt && mkdir /mnt/upper /mnt/work &&
mount -t overlay overlay -o lowerdir={folder},upperdir=/mnt/upper,workdir=/mnt/work {folder} &&
rm {gone} && exec "$@"
"""
    words = ["unshare", "--mount", "sh", "-c", script, "sh"]
    if subprocess.run([*words, "true"], capture_output=True, check=False).returncode != 0:
        pytest.skip("no view of the system's own can be made here")
    return words
