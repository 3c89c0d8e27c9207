"""How time and memory grow: with the photograph, the plate, the tones, the strip, the book."""

import random
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

import numpy as np
from tests.bench.alone import Alone, alone
from tests.bench.clock import in_turn, peak_of
from tests.bench.curves import strip_of
from tests.bench.pictures import photograph
from tests.bench.planning import A4, plate_of
from tests.bench.table import Table, figure, tell
from tests.core.book.figures import PLATES, STRIPS, fill

from toneladder.bite.curve import starting_curve
from toneladder.book.opening import open_book
from toneladder.book.plates import list_plates
from toneladder.book.strips import list_strips, strips_of
from toneladder.picture.laying import lay
from toneladder.picture.opening import open_picture
from toneladder.plan.choosing import Chosen, choose
from toneladder.plan.memory import Memory
from toneladder.plan.planning import finish, plan
from toneladder.plan.preparing import prepare, seen_of
from toneladder.plate.values import Plate
from toneladder.strip.curve import fit_strips
from toneladder.tones.values import Choice, ToneChoice

MEGAPIXELS = (1.0, 6.0, 24.0, 60.0, 100.0)
PLATES_MM = ((50, 50), (100, 75), (200, 150), (297, 210), (420, 297), (594, 420), (900, 600))
STRIP_PATCHES = (2, 4, 8, 16, 24, 40)
_MARK_MM = 1.5


@dataclass(frozen=True, slots=True)
class Slope:
    """``each`` for one more, and the power with which a column grows over its larger half."""

    each: float
    power: float


def slope(sizes: Sequence[float], values: Sequence[float]) -> Slope:
    """Least squares: a straight line, weighed so that small sizes count as well, and a power."""
    x, y = np.asarray(sizes, float), np.maximum(np.asarray(values, float), 1e-9)
    each = np.polyfit(x, y, 1, w=1.0 / y)[0]
    large = slice(len(x) // 2 - 1, None)
    power = np.polyfit(np.log(x[large]), np.log(y[large]), 1)[0]
    return Slope(float(each), float(power))


def tables(folder: Path, runs: int, *, largest: float = 100.0) -> Iterator[Table]:
    """All that grows; photographs of up to ``largest`` megapixels."""
    yield _photographs(folder, runs, [size for size in MEGAPIXELS if size <= largest])
    yield _plates(photograph(folder, 24.0))
    yield _numbers(photograph(folder, 24.0), runs)
    yield _strips(runs)
    yield _book(folder, runs)


def _photographs(folder: Path, runs: int, sizes: Sequence[float]) -> Table:
    """Opening, laying on an A4 plate, and everything after that."""
    heads = (
        "megapixels",
        "open, ms",
        "open, MB",
        "of the decoded",
        "lay, ms",
        "the rest, ms",
        "MB",
    )
    rows = [(size, *_one_photograph(photograph(folder, size), size, runs)) for size in sizes]
    cells = tuple(tuple(figure(value) for value in row) for row in rows)
    said = _grown(heads, rows, (1, 2, 4, 5, 6), "megapixel")
    title = (
        "Growth with the photograph, A4 plate, 8 tones (the rest: a changed squint, all after it)"
    )
    return Table(title, heads, cells, said)


def _one_photograph(path: Path, megapixels: float, runs: int) -> tuple[float, ...]:
    tell(f"a photograph of {megapixels:g} megapixels")
    opened = alone("open", str(path))
    picture = open_picture(path, name=path.name)
    plate = plate_of(picture)
    curve, memory = starting_curve(plate.conditions), Memory()
    done = plan(picture, plate, curve, memory=memory)
    plates = iter([replace(plate, squint_mm=0.74), plate] * (runs + 2))

    def rest() -> object:
        return plan(picture, next(plates), curve, memory=memory)

    laying, after = in_turn(
        [lambda: lay(picture, plate.laying, A4, done.prepared.grid), rest], runs
    )
    decoded = opened.cells * 3 / 2**20
    times = laying.wall * 1e3, after.wall * 1e3
    return (opened.wall_s * 1e3, opened.above_mb, opened.above_mb / decoded, *times, peak_of(rest))


def _plates(path: Path) -> Table:
    """The whole plan with maps and tracing, each plate in a process of its own."""
    heads = ("plate, cm", "million cells", "s", "s of CPU", "MB", "longest silence, s")
    rows = []
    for width, height in PLATES_MM:
        tell(f"a plate of {width} × {height} mm")
        took = alone("plan", str(path), str(width), str(height), "10", str(_MARK_MM))
        rows.append(_measured(took))
    names = (f"{width / 10:g} × {height / 10:g}" for width, height in PLATES_MM)
    cells = tuple((name, *map(figure, row)) for name, row in zip(names, rows, strict=True))
    said = _grown(heads[1:], rows, (2, 3), "million cells")
    title = (
        "Growth with the plate: 10 tones, 24 megapixels, opened, planned, maps and tracing laid out"
    )
    return Table(title, heads, cells, said)


def _measured(took: Alone) -> tuple[float, ...]:
    silence = took.longest_silence_s
    return took.cells / 1e6, took.wall_s, took.cpu_s, took.above_mb, silence


def _numbers(path: Path, runs: int) -> Table:
    """Choosing tones, and everything after that."""
    picture = open_picture(path, name=path.name)
    plate = plate_of(picture)
    curve = starting_curve(plate.conditions)
    prepared = prepare(picture, seen_of(plate), Memory())
    rows = []
    for count in range(2, 13):
        tell(f"{count} tones")
        one = replace(plate, tones=ToneChoice(count, Choice.PICTURE))

        def chosen(one: Plate = one) -> Chosen:
            return choose(prepared, one, curve)

        def finished(one: Plate = one, tones: Chosen = chosen()) -> object:  # noqa: B008  (bound now)
            return finish(prepared, tones, one, curve)

        quick, slow = in_turn([chosen, finished], runs)
        rows.append((count, quick.wall * 1e3, slow.wall * 1e3))
    heads = ("tones", "tones and bites, ms", "places, borders, the order, ms")
    said = _grown(heads, rows, (1, 2), "tone")
    cells = tuple(tuple(map(figure, row)) for row in rows)
    return Table("Growth with the number of tones, A4 plate", heads, cells, said)


def _strips(runs: int) -> Table:
    rows = []
    for patches in STRIP_PATCHES:
        tell(f"a strip of {patches} patches")
        strip = strip_of(patches)
        work = partial(fit_strips, [strip])
        (spent,) = in_turn([work], runs)
        rows.append((patches, spent.wall * 1e3, peak_of(work)))
    heads = ("patches", "fit, ms", "MB")
    said = _grown(heads, rows, (1,), "patch")
    return Table(
        "Growth with the strip", heads, tuple(tuple(map(figure, row)) for row in rows), said
    )


def _book(folder: Path, runs: int) -> Table:
    """A book of a few years, and one of some lifetimes."""
    sizes = ((STRIPS // 10, PLATES // 10), (STRIPS, PLATES))
    columns = [
        _one_book(folder / f"book-{strips}", strips, plates, runs) for strips, plates in sizes
    ]
    heads = (
        "studio book, ms",
        *(f"{strips:,} strips, {plates:,} plates" for strips, plates in sizes),
    )
    cells = tuple((name, *(figure(column[name]) for column in columns)) for name in columns[-1])
    return Table("Growth with the studio book", heads, cells)


def _one_book(path: Path, strips: int, plates: int, runs: int) -> dict[str, float]:
    tell(f"a book of {strips:,} strips")
    with open_book(path) as book:
        baths = fill(book, random.Random(1), strips, plates)  # noqa: S311  (a trial, no secret)
        acts: dict[str, Callable[[], object]] = {
            "open it": lambda: open_book(path).close(),
            "list plates, last saved 1,000": lambda: list_plates(book),
            "find plates by three words": lambda: list_plates(book, "étaples 77 RAG"),
            "find no plate": lambda: list_plates(book, "100%"),
            "list strips, newest 1,000": lambda: list_strips(book),
            "find strips by two words": lambda: list_strips(book, words="ÉTANG 177"),
            "find no strip": lambda: list_strips(book, words="zinc"),
            "read all strips of a bath": lambda: strips_of(book, baths[3]),
        }
        spent = in_turn(list(acts.values()), runs)
    return {name: took.wall * 1e3 for name, took in zip(acts, spent, strict=True)}


def _grown(
    heads: Sequence[str], rows: Sequence[Sequence[float]], columns: Sequence[int], unit: str
) -> tuple[str, ...]:
    """What one more costs, and the power of growth, of some columns against the first."""
    sizes = [row[0] for row in rows]
    told = []
    for column in columns:
        found = slope(sizes, [row[column] for row in rows])
        told.append(f"{heads[column]}: {figure(found.each)} a {unit}, power {found.power:.2f}")
    return (f"Fitted: {'; '.join(told)}.",)
