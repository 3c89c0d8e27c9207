"""Soft passages on a map: their border dotted and numbered, and the remedy in the key."""

from collections.abc import Iterable, Iterator, Sequence

import numpy as np

from toneladder.borders.remedies import Passage
from toneladder.borders.values import Remedy
from toneladder.boxes import Box, Point
from toneladder.lettering import FIGURE_EM, Face, text_width
from toneladder.optics import FloatArray
from toneladder.sheets.marks import Anchor, Ink, Mark, Path, Text, frame, line
from toneladder.sheets.setting import HAIR_MM, SMALL_MM, Block
from toneladder.sheets.true_size_frame import FIELD, sign
from toneladder.wording import say

CLEARED_MM = 1.6
"""Width of the bare paper along a soft border, in which its dots lie."""

DOTS_MM = (0.7, 0.8)
"""Side of a dot, and the gap after it."""

_CHIP_MM = 4.4
_AWAY_MM = 4.6
_SHARES = (0.5, 0.35, 0.65, 0.2, 0.8, 0.05, 0.95)  # of the way along a passage


def passage_marks(passages: Iterable[Passage], width_mm: float, shown: Box) -> Iterator[Mark]:
    """The passages of one step as far as a page shows them, mirrored as on the plate.

    Parameters
    ----------
    passages : iterable of Passage
        As the print is seen.
    width_mm : float
        The plate's width, about which they are mirrored.
    shown : Box
        The piece of the plate on the page.
    """
    numbers: list[Mark] = []
    taken: list[Box] = []
    for passage in passages:
        points = passage.points * (-1.0, 1.0) + (width_mm, 0.0)
        run = (tuple(map(tuple, points.tolist())),)
        yield Path(run, stroke_mm=CLEARED_MM, ink=Ink.WHITE, within=shown)
        yield Path(run, stroke_mm=DOTS_MM[0], dash_mm=DOTS_MM, within=shown)
        wide = text_width(str(passage.number), Face.SANS_BOLD, SMALL_MM) + 1.8
        place = _place(points, (max(_CHIP_MM, wide), _CHIP_MM), shown, taken)
        if place is not None:
            taken.append(place[1])
            numbers += _drawn(passage.number, *place)
    yield from numbers


def passage_key(passages: Sequence[Passage]) -> tuple[Block, ...]:
    """What is done at the dotted borders, each remedy once, with the numbers of its passages."""
    by_remedy: dict[Remedy, list[int]] = {}
    for passage in passages:
        by_remedy.setdefault(passage.remedy, []).append(passage.number)
    middle = FIELD.y + FIELD.height / 2
    dots = Path((((0.0, middle), (FIELD.width, middle)),), stroke_mm=DOTS_MM[0], dash_mm=DOTS_MM)
    return tuple(
        sign(
            (dots,),
            say(
                "soft passage {numbers}: {remedy}",
                numbers=_runs(numbers),
                remedy=say(remedy.value),
            ),
        )
        for remedy, numbers in by_remedy.items()
    )


def _place(
    points: FloatArray, size: tuple[float, float], shown: Box, taken: Sequence[Box]
) -> tuple[Point, Box] | None:
    """Where a number of ``size`` stands, and the point of the border that it belongs to.

    On the open metal beside the passage if there is room; never over another number.
    """
    for share in _SHARES:
        at = round(share * (len(points) - 1))
        along = points[min(at + 2, len(points) - 1)] - points[max(at - 2, 0)]
        # what is darker and open lies on the right of the walk, which the mirror makes the left
        open_side = np.array([along[1], -along[0]]) / max(float(np.hypot(*along)), 1e-9)
        for away in (_AWAY_MM, -_AWAY_MM):
            x, y = (points[at] + away * open_side).tolist()
            box = Box(x - size[0] / 2, y - size[1] / 2, *size)
            if shown.covers(box) and not any(box.meets(other) for other in taken):
                return (float(points[at][0]), float(points[at][1])), box
    return None


def _drawn(number: int, at: Point, box: Box) -> list[Mark]:
    x, y = box.centre, box.middle
    baseline = y + FIGURE_EM * SMALL_MM / 2
    return [
        line(at, (x, y), HAIR_MM),
        frame(box, HAIR_MM, Ink.WHITE),
        Text(x, baseline, str(number), Face.SANS_BOLD, SMALL_MM, Anchor.MIDDLE),
    ]


def _runs(numbers: Sequence[int]) -> str:
    """Numbers in order, what follows on as from and to.

    >>> _runs([1, 2, 3, 5, 6, 9])
    '1–3, 5, 6, 9'
    """
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(
        f"{run[0]}–{run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs
    )
