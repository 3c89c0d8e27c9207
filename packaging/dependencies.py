"""Lists what is depended on, for DEVELOPERS.md: reason, licence, size, and what importing costs.

python packaging/dependencies.py           print the table
python packaging/dependencies.py --write   put it into DEVELOPERS.md
"""

import re
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from importlib.metadata import distribution, packages_distributions
from pathlib import Path
from statistics import median

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).parents[1]
PAGE = ROOT / "DEVELOPERS.md"
START, END = "<!-- dependencies -->\n", "<!-- end of dependencies -->\n"
RUNS = 5

REASONS = {
    "imagecodecs": "colour PNG of 16 bits, compressed TIFF",
    "numpy": "arrays: everything that is worked out on a grid",
    "pillow": "opening pictures and their profiles; PNG written",
    "platformdirs": "where state and settings belong on this system",
    "pydantic": "the border of files of text: every fault of a bad one named at once",
    "pyside6-essentials": "window, painting, PDF and printer",
    "scikit-image": "connected places, borders, reconstruction of lightness",
    "scipy": "filters, distances, statistics",
    "tifffile": "the directory of a TIFF, and its 16 bits",
    "colour-science": "independent answers to compare with: lightness and colour",
    "fonttools": "independent answers: letters; makes the bundled ones",
    "hypothesis": "laws, tried on examples that nobody chose",
    "jeepney": "reads the window as a screen reader does, over D-Bus",
    "kmeans1d": "independent answers: the choice of tones",
    "packaging": "reads what pyproject.toml asks for, and in what versions",
    "pint": "independent answers: factors of quantities",
    "pypdf": "independent answers: what is in a PDF",
    "pytest": "runs the tests",
    "pytest-qt": "driven windows in tests",
    "pytest-xdist": "as many tests at once as there are cores",
    "import-linter": "who may import whom",
    "mypy": "types",
    "ruff": "style, and many a fault",
    "hatchling": "the wheel",
}

RUN_AS = {
    "import-linter": (".ci/run", "lint-imports"),
    "mypy": (".ci/run", "-m mypy"),
    "ruff": (".ci/run", "-m ruff"),
    "hatchling": (".ci/run", "-m hatchling"),
    "pytest-xdist": ("packaging/dev.py", '"--dist"'),
}
"""What nobody imports: the file in which it is run, and by which words."""

OPTIONAL = {
    "atheris": "drives tests/hostile/harness_*.py, by whoever has it",
    "_typeshed": "only type checkers know it",
}
"""What is imported here or there, and not asked for."""

_IMPORT = re.compile(r"^ *(?:from ([\w.]+) import|import ([\w., ]+)$)", re.MULTILINE)
_OURS = {"toneladder", "toneladder_desktop", "tests", *(p.stem for p in ROOT.glob("packaging/*"))}


@dataclass(frozen=True, slots=True)
class Group:
    """Some of what is asked for, and the folders whose modules may import it."""

    title: str
    asked: tuple[str, ...]
    folders: tuple[str, ...]


def groups() -> tuple[Group, ...]:
    """What pyproject.toml asks for, to run, and to test, check and build."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    named = project["dependency-groups"]
    further = [line for name in ("test", "check", "build") for line in named[name]]
    return (
        Group("shipped", _names(project["project"]["dependencies"]), ("core", "desktop")),
        Group("for tests, checks and builds", _names(further), ("tests", "packaging")),
    )


def unused() -> Iterator[str]:
    """Every package that is asked for, and that nothing imports or runs."""
    for group in groups():
        names = imported(group.folders)
        for name in group.asked:
            place, words = RUN_AS.get(name, ("", ""))
            if place and words in (ROOT / place).read_text(encoding="utf-8"):
                continue
            if not any(provides(name, module) for module in names):
                yield f"{name}: nothing in {' and '.join(group.folders)} imports it"


def missing() -> Iterator[str]:
    """Every module of others that something imports, and that nothing asked for brings."""
    asked: tuple[str, ...] = ()
    for group in groups():
        asked += group.asked
        for module in sorted(imported(group.folders)):
            top = module.partition(".")[0]
            known = top in sys.stdlib_module_names or top in _OURS or top in OPTIONAL
            if not known and not any(provides(name, module) for name in asked):
                yield f"{module}: {' or '.join(group.folders)} imports it, nothing asked for has it"


def table() -> str:
    """Rows of Markdown: one package each, as it is installed here."""
    rows = ["| package | for | licence | MB | ms to import |", "|---|---|---|--:|--:|"]
    for group in groups():
        rows.append(f"| *{group.title}* | | | | |")
        rows += [row(name, group) for name in sorted(group.asked)]
    return "\n".join(rows) + "\n"


def row(name: str, group: Group) -> str:
    """One package: its own files, and the processor's time of importing what we import of it."""
    modules = sorted(module for module in imported(group.folders) if provides(name, module))
    cost = f"{cost_ms(modules):.0f}" if modules else ""
    cells = (name, REASONS[name], _licence(name), f"{size_mb(name):.1f}", cost)
    return f"| {' | '.join(cells)} |"


@cache
def imported(folders: tuple[str, ...]) -> frozenset[str]:
    """Every module that the modules in some folders import, by its whole name."""
    paths = (path for folder in folders for path in (ROOT / folder).rglob("*.py"))
    lines = [line for path in paths for line in _IMPORT.findall(path.read_text(encoding="utf-8"))]
    named = [part.split()[0] for _, plain in lines for part in plain.split(",") if part.strip()]
    return frozenset({module for module, _ in lines if module} | set(named))


def provides(name: str, module: str) -> bool:
    """Whether a module comes with a package."""
    return name in _brought_by(module.partition(".")[0])


def size_mb(name: str) -> float:
    """Size of a package's own files, without what it needs itself."""
    files = distribution(name).files or ()
    places = [Path(str(file.locate())) for file in files]
    return sum(place.stat().st_size for place in places if place.is_file()) / 1e6


def cost_ms(modules: list[str]) -> float:
    """The processor's time of importing modules in a new process, with all they need; a median."""
    script = f"import time\nt = time.process_time()\nimport {', '.join(modules)}\n"
    script += "print(1000.0 * (time.process_time() - t))"
    return median(
        float(
            subprocess.check_output(
                [sys.executable, "-c", script], stderr=subprocess.DEVNULL, text=True
            )
        )
        for _ in range(RUNS)
    )


@cache
def _brought_by(top: str) -> frozenset[str]:
    return frozenset(canonicalize_name(name) for name in _tops().get(top, ()))


@cache
def _tops() -> dict[str, list[str]]:
    return dict(packages_distributions())


def _names(lines: list[str]) -> tuple[str, ...]:
    return tuple(str(canonicalize_name(Requirement(line).name)) for line in lines)


def _licence(name: str) -> str:
    sys.path.insert(0, str(Path(__file__).parent))
    from licences import licence_of

    return licence_of(name)


def main(arguments: list[str]) -> None:
    """Print the table, or write it between its two marks in the page."""
    rows = table()
    if arguments == ["--write"]:
        page = PAGE.read_text(encoding="utf-8")
        before, after = page.split(START)[0], page.split(END)[1]
        PAGE.write_text(before + START + rows + END + after, encoding="utf-8")
    else:
        sys.stdout.write(rows)


if __name__ == "__main__":
    main(sys.argv[1:])
