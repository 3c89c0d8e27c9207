"""Round a drawing at true size: the plate's outline and corners, the seams of its pieces."""

from toneladder.boxes import Box, Point
from toneladder.lettering import CAPITAL_EM, Face
from toneladder.sheets.marks import Anchor, Mark, Path, Text
from toneladder.sheets.setting import HAIR_MM, SMALL_MM
from toneladder.sheets.tiling import Tile, tile_name

GUTTER_MM = 5.0
"""Room round a drawing for its marks."""

OUTLINE_MM = 0.3
_FROM_MM, TO_MM = 1.0, 4.5
"""Where a tick begins and ends, from the edge outwards."""

_BASELINE_MM = 1.3
_CLEAR_MM = 1.4


def outline(box: Box, shown: Box, stroke_mm: float = OUTLINE_MM) -> tuple[Mark, ...]:
    """The outline of ``box``, just outside it, as far as a page shows it."""
    round_it = box.inset(-stroke_mm / 2)
    x0, x1 = _stretch(box.x, box.right, shown.x, shown.right, stroke_mm)
    y0, y1 = _stretch(box.y, box.bottom, shown.y, shown.bottom, stroke_mm)
    sides: list[tuple[Point, Point]] = []
    if _shown(box.y, shown.y, shown.bottom):
        sides.append(((x0, round_it.y), (x1, round_it.y)))
    if _shown(box.bottom, shown.y, shown.bottom):
        sides.append(((x0, round_it.bottom), (x1, round_it.bottom)))
    if _shown(box.x, shown.x, shown.right):
        sides.append(((round_it.x, y0), (round_it.x, y1)))
    if _shown(box.right, shown.x, shown.right):
        sides.append(((round_it.right, y0), (round_it.right, y1)))
    return (Path(tuple(sides), stroke_mm=stroke_mm),) if sides and x0 < x1 and y0 < y1 else ()


def corner_marks(box: Box, shown: Box) -> tuple[Mark, ...]:
    """Two ticks outside every corner of ``box`` that a page shows, in line with its edges."""
    ticks = [
        tick
        for x, outwards in ((box.x, -1), (box.right, 1))
        for y, upwards in ((box.y, -1), (box.bottom, 1))
        if _shown(x, shown.x, shown.right) and _shown(y, shown.y, shown.bottom)
        for tick in (
            ((x + outwards * _FROM_MM, y), (x + outwards * TO_MM, y)),
            ((x, y + upwards * _FROM_MM), (x, y + upwards * TO_MM)),
        )
    ]
    return (Path(tuple(ticks), stroke_mm=HAIR_MM),) if ticks else ()


def piece_marks(tile: Tile) -> tuple[Mark, ...]:
    """Ticks outside the picture in line with all edges of the piece, and its neighbours' names.

    Where the piece meets a neighbour it is cut at the ticks, or the neighbour is laid on them.
    """
    shown, own = tile.shown, tile.own
    ticks: list[tuple[Point, Point]] = []
    for x in (own.x, own.right):
        ticks += [((x, y - s * _FROM_MM), (x, y - s * TO_MM)) for y, s in _ends_down(shown)]
    for y in (own.y, own.bottom):
        ticks += [((x - s * _FROM_MM, y), (x - s * TO_MM, y)) for x, s in _ends_across(shown)]
    return (Path(tuple(ticks), stroke_mm=HAIR_MM), *_names(tile))


def neighbours(tile: Tile) -> dict[str, str]:
    """The names of the pieces on the left, on the right, above and below."""
    return {
        side: tile_name(row, column)
        for side, row, column in (
            ("left", tile.row, tile.column - 1),
            ("right", tile.row, tile.column + 1),
            ("above", tile.row - 1, tile.column),
            ("below", tile.row + 1, tile.column),
        )
        if 0 <= row < tile.rows and 0 <= column < tile.columns
    }


def _names(tile: Tile) -> tuple[Mark, ...]:
    """Every neighbour's name in the gutter: left and right above the picture, by their seam."""
    shown, own = tile.shown, tile.own
    head, foot = shown.y - _BASELINE_MM, shown.bottom + _BASELINE_MM + CAPITAL_EM * SMALL_MM
    middle = own.x + own.width / 2
    places = {
        "left": ("←", own.x + _CLEAR_MM, head, Anchor.LEFT),
        "right": ("→", own.right - _CLEAR_MM, head, Anchor.RIGHT),
        "above": ("↑", middle, head, Anchor.MIDDLE),
        "below": ("↓", middle, foot, Anchor.MIDDLE),
    }
    return tuple(
        Text(x, y, f"{arrow} {name}", Face.SANS_BOLD, SMALL_MM, anchor)
        for side, name in neighbours(tile).items()
        for arrow, x, y, anchor in (places[side],)
    )


def _stretch(
    start: float, end: float, first: float, last: float, beyond: float
) -> tuple[float, float]:
    """From one end of an outline to the other, or to where the page's piece ends."""
    return (
        start - beyond if _shown(start, first, last) else max(start, first),
        end + beyond if _shown(end, first, last) else min(end, last),
    )


def _shown(at: float, first: float, last: float) -> bool:
    return first - 1e-9 <= at <= last + 1e-9


def _ends_down(shown: Box) -> tuple[tuple[float, int], ...]:
    return ((shown.y, 1), (shown.bottom, -1))


def _ends_across(shown: Box) -> tuple[tuple[float, int], ...]:
    return ((shown.x, 1), (shown.right, -1))
