"""The largest jobs, each in a process of its own: how much memory, and how long without a word."""

from collections.abc import Iterator
from pathlib import Path

from tests.bench.alone import alone
from tests.bench.pictures import maze, photograph
from tests.bench.table import Table, figure, tell

_A2 = ("594", "420")
_MARK, _FINEST = "1.5", "0.5"
_TONES = "10"


def table(folder: Path) -> Table:
    """Peak memory above that of the libraries, and the longest time between two words."""
    heads = ("alone in its process", "MB", "goal, MB", "s", "s of CPU", "longest silence, s")
    return Table("Large jobs", heads, tuple(_rows(folder)))


def _rows(folder: Path) -> Iterator[tuple[str, ...]]:
    tell("open 60 megapixels")
    took = alone("open", str(photograph(folder, 60.0)))
    most = 3.0 * took.cells * 3 / 2**20
    goal = f"{most:.0f}, three times the decoded"
    cpu = figure(took.cpu_s)
    yield ("open 60 megapixels", figure(took.above_mb), goal, figure(took.wall_s), cpu, "")
    for what, path, mark in (
        ("A2 plate, 10 tones, maps and tracing", photograph(folder, 24.0), _MARK),
        ("the same of a maze", maze(folder, 24.0), _MARK),
        ("the same of a maze, the finest brush", maze(folder, 24.0), _FINEST),
    ):
        tell(what)
        took = alone("plan", str(path), *_A2, _TONES, mark)
        times = figure(took.wall_s), figure(took.cpu_s), figure(took.longest_silence_s)
        yield (what, figure(took.peak_mb), "1024", *times)
