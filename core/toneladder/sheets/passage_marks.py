"""Soft passages on a map: their border dotted and numbered, and the remedy in the key."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

import numpy as np

from toneladder.borders.remedies import Passage
from toneladder.borders.values import Remedy
from toneladder.lettering import FIGURE_EM, Face
from toneladder.optics import FloatArray
from toneladder.sheets.marks import Anchor, Box, Ink, Mark, Path, Text, frame, line
from toneladder.sheets.setting import HAIR_MM, SMALL_MM, Block
from toneladder.sheets.true_size_frame import FIELD, sign
from toneladder.wording import say

CLEARED_MM = 1.6
"""Width of the bare paper along a soft border, in which its dots lie."""

DOTS_MM = (0.7, 0.8)
"""Side of a dot, and the gap after it."""

_CHIP_MM = 4.4
_AWAY_MM = 4.6


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
    for passage in passages:
        points = passage.points * (-1.0, 1.0) + (width_mm, 0.0)
        run = (tuple((x, y) for x, y in points.tolist()),)
        yield Path(run, stroke_mm=CLEARED_MM, ink=Ink.WHITE, within=shown)
        yield Path(run, stroke_mm=DOTS_MM[0], dash_mm=DOTS_MM, within=shown)
        numbers += _chip(passage.number, points, shown)
    yield from numbers


def passage_key(passages: Sequence[Passage]) -> tuple[Block, ...]:
    """What is done at the dotted borders, each remedy once, with the numbers of its passages."""
    by_remedy: dict[Remedy, list[str]] = {}
    for passage in passages:
        by_remedy.setdefault(passage.remedy, []).append(str(passage.number))
    middle = FIELD.y + FIELD.height / 2
    dots = Path((((0.0, middle), (FIELD.width, middle)),), stroke_mm=DOTS_MM[0], dash_mm=DOTS_MM)
    return tuple(
        sign(
            (dots,),
            say(
                "soft passage {numbers}: {remedy}",
                numbers=", ".join(numbers),
                remedy=say(remedy.value),
            ),
        )
        for remedy, numbers in by_remedy.items()
    )


def _chip(number: int, points: FloatArray, shown: Box) -> list[Mark]:
    """The passage's number on the open metal beside it, if the page shows its middle."""
    at = len(points) // 2
    middle = points[at]
    if not shown.holds(Box(float(middle[0]), float(middle[1]), 0.0, 0.0)):
        return []
    along = points[min(at + 2, len(points) - 1)] - points[max(at - 2, 0)]
    # what is darker and open lies on the right of the walk, which the mirror makes the left
    away = np.array([along[1], -along[0]]) / max(float(np.hypot(*along)), 1e-9)
    text = Text(0.0, 0.0, str(number), Face.SANS_BOLD, SMALL_MM, Anchor.MIDDLE)
    half = np.array([max(_CHIP_MM, text.width + 1.8), _CHIP_MM]) / 2
    low, high = np.array([shown.x, shown.y]) + half, np.array([shown.right, shown.bottom]) - half
    x, y = np.clip(middle + _AWAY_MM * away, low, np.maximum(low, high)).tolist()
    box = Box(x - half[0], y - half[1], 2 * half[0], 2 * half[1])
    return [
        line((float(middle[0]), float(middle[1])), (x, y), HAIR_MM),
        frame(box, HAIR_MM, Ink.WHITE),
        replace(text, x=x, y=y + FIGURE_EM * SMALL_MM / 2),
    ]
