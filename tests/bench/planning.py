"""From a photograph to the plan of an A4 plate: opening, squinting, the brush, tones, the whole."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

import numpy as np
from PIL import Image
from tests.bench.clock import Work, in_turn, peak_of
from tests.bench.pictures import drawing, maze, photograph
from tests.bench.table import Row, tell

from toneladder.bite.curve import starting_curve
from toneladder.bite.values import BiteCurve
from toneladder.borders.arcs import trace
from toneladder.lines.separating import separate
from toneladder.lines.values import Lines
from toneladder.picture.opening import Picture, open_picture
from toneladder.picture.values import Crop, Laying, PlateSize
from toneladder.plan.choosing import choose
from toneladder.plan.memory import Memory
from toneladder.plan.planning import Plan, plan
from toneladder.plan.preparing import prepare, seen_of
from toneladder.plate.values import Plate
from toneladder.sheets.documents import Kind, Wanted, documents
from toneladder.tones.brush import paintable
from toneladder.tones.choose import Demand, levels_following
from toneladder.tones.values import Brush, Choice, Note, ToneChoice, Wish

A4 = PlateSize(297.0, 210.0)
PX_PER_MM = 8.0
DECODE = "one decode of it"
_DAY = date(2026, 1, 1)


def decode(path: Path) -> None:
    """The floor of opening: one decode."""
    with Image.open(path) as picture:
        picture.load()


def plate_of(picture: Picture, size: PlateSize = A4, tones: int = 8) -> Plate:
    """A plate of tones that follow the picture."""
    return Plate("bench", picture.ref, size, tones=ToneChoice(tones, Choice.PICTURE))


def on_paper(done: Plan) -> int:
    """All maps and the tracing of a plan, page by page and as lines; how many files that is."""
    wanted = Wanted(_DAY, kinds=(Kind.MAPS, Kind.TRACING))
    return sum(1 for _ in documents(done, wanted))


@dataclass(frozen=True, slots=True)
class Planning:
    """The rows of one photograph, beside the decoding of its file."""

    path: Path
    picture: Picture
    plate: Plate
    curve: BiteCurve
    runs: int

    @classmethod
    def of(cls, path: Path, runs: int) -> "Planning":
        """On an A4 plate, 8 tones, cells of an eighth of a millimetre."""
        picture = open_picture(path, name=path.name)
        plate = plate_of(picture)
        return cls(path, picture, plate, starting_curve(plate.conditions), runs)

    def row(self, what: str, work: Work, goal: str = "") -> Row:
        """What ``work`` takes beside one decode."""
        tell(what)
        ours, floor = in_turn([work, lambda: decode(self.path)], self.runs)
        return Row(what, ours, DECODE, floor, goal, peak_of(work))

    def again(self, what: str, plates: tuple[Plate, Plate], goal: str = "") -> Row:
        """Planning one plate and the other in turn, with everything that need not be done again."""
        memory = Memory()
        turn = iter(plates * (self.runs + 4))

        def work() -> object:
            return plan(self.picture, next(turn), self.curve, memory=memory)

        work()
        return self.row(what, work, goal)


def rows(folder: Path, runs: int) -> Iterator[Row]:
    """Everything between a file and its sheets."""
    path = photograph(folder, 24.0)
    yield _opening(path, runs)
    bench = Planning.of(path, runs)
    yield from _stages(bench)
    yield from _wholes(bench, folder)
    yield from _changes(bench)
    yield _lines(bench)


def _opening(path: Path, runs: int) -> Row:
    tell("open")

    def ours() -> object:
        return open_picture(path, name=path.name)

    spent, floor = in_turn([ours, lambda: decode(path)], runs)
    what = "open a photograph of 24 megapixels"
    return Row(what, spent, DECODE, floor, "≤ 2.5 ×", peak_of(ours))


def _stages(bench: Planning) -> Iterator[Row]:
    memory = Memory()
    prepared = prepare(bench.picture, seen_of(bench.plate), memory)
    px = prepared.grid.px_per_mm
    yield bench.row(
        "change the brush, the whole grid of an A4 plate",
        lambda: paintable(prepared.asked, 1.5 * px, 2.0 * px),
        "≤ 0.7 ×",
    )
    yield _solving(prepared.asked_counts.astype(float), bench.runs)
    tell("a dragged peg")
    (dragged,) = in_turn([lambda: choose(prepared, bench.plate, bench.curve)], bench.runs)
    yield Row("tones and bites under a dragged peg", dragged, goal="≤ 16 ms")


def _solving(weights: np.ndarray, runs: int) -> Row:
    tell("solve")
    grey = np.arange(24_000_000, dtype=np.uint32).astype(np.uint8)
    targets = np.linspace(24.0, 90.0, len(weights))
    pinned = Demand(90.0, 24.0, 6.0)
    works: tuple[Work, Work] = (
        lambda: levels_following(targets, weights, range(2, 13), pinned),
        lambda: np.bincount(grey),
    )
    ours, floor = in_turn(works, runs)
    what = "every number of tones 2…12, exactly, ends and least gap kept"
    return Row(what, ours, "bincount of 24 million", floor, "≤ 0.2 ×, ≤ 10 ms", peak_of(works[0]))


def _wholes(bench: Planning, folder: Path) -> Iterator[Row]:
    def whole(one: Planning) -> Plan:
        return plan(one.picture, one.plate, one.curve, memory=Memory())

    yield bench.row("plan an A4 plate, 8 tones", lambda: whole(bench))
    yield bench.row(
        "the same with all maps and the tracing laid out",
        lambda: on_paper(whole(bench)),
        "≤ 8 ×",
    )
    ugly = Planning.of(maze(folder, 24.0), bench.runs)
    done = whole(ugly)
    yield ugly.row("the same of an ugly picture, a maze", lambda: on_paper(whole(ugly)))
    yield ugly.row("trace the maze's borders", lambda: trace(done.tones, PX_PER_MM), "≤ 1 s")


def _changes(bench: Planning) -> Iterator[Row]:
    """What a changed decision takes until the whole plan is there again."""
    plate = bench.plate
    picture_laid = Laying(crop=Crop(0.05, 0.05, 0.9, 0.9))
    rings = (((0.4, 0.4), (0.5, 0.4), (0.5, 0.5), (0.4, 0.5)),)
    yield bench.again("plan again: brush", (replace(plate, brush=Brush(1.5, 2.1)), plate))
    yield bench.again("plan again: squint", (replace(plate, squint_mm=0.9), plate))
    edges = replace(plate, keeps_edges=True)
    other = replace(edges, squint_mm=0.9)
    yield bench.again("plan again: squint that keeps edges", (other, edges))
    yield bench.again("plan again: crop", (replace(plate, laying=picture_laid), plate))
    noted = replace(plate, notes=(Note(rings, Wish.RUNGS, rungs=1),))
    yield bench.again("plan again: a note of 3 × 2 cm", (noted, plate))
    yield bench.again("plan again: another number of tones", (replace(plate, tones=_SEVEN), plate))


_SEVEN = ToneChoice(7, Choice.PICTURE)


def _lines(bench: Planning) -> Row:
    grid = (round(A4.height_mm * PX_PER_MM), round(A4.width_mm * PX_PER_MM))
    light = drawing(grid, PX_PER_MM)
    lines = Lines(depths=3)
    what = "part pen lines from washes, A4 plate, three depths"
    return bench.row(what, lambda: separate(light, PX_PER_MM, lines), "≤ 1 s")
