"""Collects the licence text of everything that a bundle holds.

PyInstaller's own tables say which files went in. Each came with a package, whose metadata names
its licence texts, from the system, whose packages keep theirs under /usr/share/doc, or with
Python.
"""

import ast
import re
import shutil
import subprocess
import sys
import sysconfig
from collections.abc import Iterable, Iterator
from importlib.metadata import Distribution, distributions
from pathlib import Path

LICENCE = re.compile(r"(licen[cs]e|copying|notice|authors)[^/]*$|licenses/[^/]+$", re.IGNORECASE)
REPLACING = (
    "Qt and PySide6 are used under the LGPL. They are files of their own, under PySide6 beside the"
    " program, and may be replaced by others of the same version; their source, like that of"
    " every package named here, is published under its name and version."
)
NOT_TEXT = {".py", ".pyc", ".so", ".pyd", ".pyi"}
BROUGHT = {  # packages whose wheels hold no text: ours of their licence
    "pyside6-essentials": ("LGPL-3.0.txt", "GPL-3.0.txt", "Qt-parts.txt"),
    "shiboken6": ("LGPL-3.0.txt", "GPL-3.0.txt"),
}
ALWAYS = "pyinstaller"  # its starter is in every bundle, and in no table


def write_licences(folder: Path, source: Path, work: Path, venv: Path) -> None:
    """Write every text into ``folder``, and a list of what each is for.

    Ends the program if a package was shipped whose text is not to be found.
    """
    folder.mkdir(parents=True)
    shutil.copy(source / "LICENSE", folder / "tone-ladder.txt")
    shutil.copy(source / "core/toneladder/lettering/OFL.txt", folder / "letters.txt")
    python = Path(sysconfig.get_path("stdlib")) / "LICENSE.txt"
    rows = ["tone-ladder.txt: Tone Ladder", "letters.txt: its letters"]
    if python.is_file():
        shutil.copy(python, folder / "python.txt")
        rows.append(f"python.txt: Python {sys.version.split()[0]}")
    files = shipped_files(work)
    rows += _of_packages(files, venv, source / "packaging" / "licences", folder)
    outside = [path for path in files if not path.is_relative_to(venv) and ".so" in path.name]
    rows += _of_the_system(outside, folder)
    (folder / "list.txt").write_text("\n".join([*rows, "", REPLACING, ""]), encoding="utf-8")


def shipped_files(work: Path) -> set[Path]:
    """Every file that PyInstaller put into the bundle, as it was before."""
    tables = [*work.glob("COLLECT-*.toc"), *work.glob("PYZ-*.toc")]
    rows = [row for path in tables for row in _rows(ast.literal_eval(path.read_text("utf-8")))]
    return {Path(row[1]) for row in rows if row[1] and row[1] != "-"}


def _rows(tree: object) -> Iterator[tuple[str, ...]]:
    """The rows (name, file, kind, …) anywhere in a table."""
    if isinstance(tree, tuple) and len(tree) >= 3 and all(isinstance(x, str) for x in tree[:3]):
        yield tuple(map(str, tree[:3]))
    elif isinstance(tree, (list, tuple)):
        for branch in tree:
            yield from _rows(branch)


def _of_packages(files: set[Path], venv: Path, brought: Path, folder: Path) -> Iterator[str]:
    (site,) = {*venv.glob("lib/python*/site-packages"), *venv.glob("Lib/site-packages")}
    for package in sorted(distributions(path=[str(site)]), key=lambda one: one.name.lower()):
        name = package.name.lower().replace("_", "-")
        if name == ALWAYS or any(path in files for path in _all_files(package)):
            texts = list(_texts(package)) or [brought / text for text in BROUGHT.get(name, ())]
            if not texts:
                sys.exit(f"{package.name} is in the bundle, and its licence text is not.")
            yield f"{name}/: {package.name} {package.version}, {_licence(package)}"
            _copy(texts, folder / name)


def _all_files(package: Distribution) -> Iterator[Path]:
    for path in package.files or ():
        yield Path(str(package.locate_file(path)))


def _texts(package: Distribution) -> Iterator[Path]:
    for path in package.files or ():
        if LICENCE.search(path.as_posix()) and path.suffix not in NOT_TEXT:
            yield Path(str(package.locate_file(path)))


def _licence(package: Distribution) -> str:
    """The licence in a package's own words, if it has few."""
    said = package.metadata.get("License-Expression") or package.metadata.get("License") or ""
    return said if said and "\n" not in said.strip() and len(said) < 80 else "see there"


def _copy(texts: Iterable[Path], folder: Path) -> None:
    """Copy texts side by side; those of one name get their folder's name before it."""
    folder.mkdir()
    for text in texts:
        place = folder / text.name
        if place.exists():
            place = folder / f"{text.parent.name}-{text.name}"
        shutil.copy(text, place)


def _of_the_system(files: list[Path], folder: Path) -> Iterator[str]:
    """Libraries of a Debian system, with the copyright file of their package."""
    if not files or not shutil.which("dpkg-query"):
        return
    for package, libraries in sorted(_owners(files).items()):
        notice = Path("/usr/share/doc") / package / "copyright"
        if not notice.is_file():
            sys.exit(f"{libraries} is in the bundle, and {notice} is not on this system.")
        place = folder / "system" / f"{package}.txt"
        place.parent.mkdir(exist_ok=True)
        shutil.copy(notice, place)
        yield f"system/{place.name}: {libraries}, of the system it was built on"


def _owners(files: list[Path]) -> dict[str, str]:
    """The system's package of each file that one owns, with the names of such files."""
    places = {str(path.resolve()) for path in files}
    places |= {place.removeprefix("/usr") for place in places}  # as owned before /lib was /usr/lib
    ask = ["dpkg-query", "--search", *sorted(places)]
    said = subprocess.run(ask, capture_output=True, text=True, check=False).stdout
    owned: dict[str, set[str]] = {}
    for package, path in re.findall(r"^([^\s:,]+)(?::\w+)?: (/.*)$", said, flags=re.MULTILINE):
        owned.setdefault(package, set()).add(Path(path).name)
    return {package: ", ".join(sorted(names)) for package, names in owned.items()}
