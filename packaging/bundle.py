"""Builds Tone Ladder as a folder that needs no Python: `python3 packaging/bundle.py`.

The last commit is built, not what lies about; the bundle says which. Python alone is needed, and
git: exact packages of bundle-requirements.lock go into `.bundle`. The folder and its archive are
put into `dist`, with every licence text of what is in them. It runs on systems at least as new as
the one it is built on.
"""

import json
import os
import platform
import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

from bundled_licences import write_licences

ROOT = Path(__file__).resolve().parents[1]
ROOM = ROOT / ".bundle"
SOURCE, WORK, VENV = ROOM / "source", ROOM / "work", ROOM / "venv"
PYTHON = VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
DIST = ROOT / "dist"
LOCK = "packaging/bundle-requirements.lock"


def main() -> None:
    """Build it, and say what was built."""
    version = lay_out_commit()
    make_venv()
    frozen = freeze()
    folder = DIST / f"tone-ladder-{version}-{sys.platform}-{platform.machine().lower()}"
    gather(frozen, folder)
    form = "zip" if sys.platform == "win32" else "gztar"
    archive = Path(shutil.make_archive(str(folder), form, DIST, folder.name))
    print(f"{folder}: {megabytes(*folder.rglob('*'))}")
    print(f"{archive}: {megabytes(archive)}")


def lay_out_commit() -> str:
    """Lay the last commit out in ``SOURCE``, with the record of what it is; its version."""
    commit, day = git("show", "-s", "--format=%h %cs").decode().split()
    if git("status", "--porcelain", "--untracked-files=no"):
        print(f"There are changes that are not committed; {commit} is built without them.")
    shutil.rmtree(SOURCE, ignore_errors=True)
    git("clone", "-q", "--shared", str(ROOT), str(SOURCE))
    project = tomllib.loads((SOURCE / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    version = str(project["version"])
    record = SOURCE / "desktop" / "toneladder_desktop" / "output" / "built_from.json"
    known = {"version": version, "commit": commit, "day": day}
    record.write_text(json.dumps(known), encoding="utf-8")
    return version


def git(*words: str) -> bytes:
    """What git says of this checkout."""
    done = subprocess.run(["git", *words], cwd=ROOT, stdout=subprocess.PIPE, check=False)
    if done.returncode:
        sys.exit("A bundle is built from a commit, and git finds none here.")
    return done.stdout


def make_venv() -> None:
    """An environment that holds what is shipped and what builds it, and nothing else."""
    lock = (SOURCE / LOCK).read_text(encoding="utf-8")
    done = VENV / "set-up-from"
    wanted = f"{sys.version}\n{lock}"
    if done.is_file() and done.read_text(encoding="utf-8") == wanted:
        return
    run(sys.executable, "-m", "venv", "--clear", str(VENV))
    pip = [str(PYTHON), "-m", "pip", "install", "-q", "--no-deps", "--require-hashes"]
    run(*pip, "--requirement", str(SOURCE / LOCK))
    for part in VENV.glob("lib/python*/site-packages/PySide6/Qt/plugins/platformthemes/*gtk3*"):
        part.unlink()  # it would bring a second toolkit along, and whatever that needs
    done.write_text(wanted, encoding="utf-8")


def freeze() -> Path:
    """Have PyInstaller read the spec; the folder, or on macOS the program, that it made."""
    made = ROOM / "made"
    paths = os.pathsep.join([str(SOURCE / "core"), str(SOURCE / "desktop")])
    build = [str(PYTHON), "-m", "PyInstaller", "--noconfirm", "--clean", "--log-level", "WARN"]
    places = ["--distpath", str(made), "--workpath", str(WORK)]
    spec = str(SOURCE / "packaging" / "bundle.spec")
    run(*build, *places, spec, environment={**os.environ, "PYTHONPATH": paths})
    warned = (WORK / "bundle" / "warn-bundle.txt").read_text(encoding="utf-8")
    lost = re.findall(r"^missing module named '?(toneladder[\w.]*)", warned, flags=re.MULTILINE)
    if lost:
        sys.exit(f"The commit lacks modules that it imports itself: {', '.join(lost)}.")
    return made / ("Tone Ladder.app" if sys.platform == "darwin" else "toneladder")


def gather(frozen: Path, folder: Path) -> None:
    """Put beside the program what has to go with it."""
    shutil.rmtree(folder, ignore_errors=True)
    if sys.platform == "darwin":
        folder.mkdir(parents=True)
        shutil.copytree(frozen, folder / frozen.name, symlinks=True)
    else:
        shutil.copytree(frozen, folder, symlinks=True)
    if sys.platform == "linux":
        shutil.copytree(SOURCE / "packaging" / "linux", folder, dirs_exist_ok=True)
    write_licences(folder / "licences", SOURCE, WORK / "bundle", VENV)


def run(*command: str, environment: dict[str, str] | None = None) -> None:
    """Run one command; end if it fails."""
    if subprocess.call(command, env=environment):
        sys.exit(f"This failed, and nothing was put into {DIST}: {' '.join(command)}")


def megabytes(*paths: Path) -> str:
    """How much room files take."""
    held = sum(path.stat().st_size for path in paths if path.is_file() and not path.is_symlink())
    return f"{held / 1e6:.0f} MB"


if __name__ == "__main__":
    main()
