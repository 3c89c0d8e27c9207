"""Sharing rows and blocks out over pages: few pages, evenly filled, nothing left out."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from toneladder.sheets.setting import Block

FIRST_PAGE_ROWS = 6
"""No more rows on the first page, however much room there is."""

TALLEST_ROW_MM = 42.0
"""Rows grow into spare room up to this height; the rest is for the pencil."""


@dataclass(frozen=True, slots=True)
class Closing:
    """A block below the rows.

    ``name`` is what it is called; of all that is left the one of least ``turn`` finds its page
    first; ``after_rows`` says that it never comes before the last row.
    """

    name: str
    block: Block
    turn: int
    after_rows: bool


@dataclass(slots=True)
class Page:
    """What one page carries: the numbers of its rows and of the blocks below them."""

    room: float
    rows: list[int] = field(default_factory=list)
    closings: list[int] = field(default_factory=list)
    taken: float = 0.0


def shared_out(
    heights: Sequence[float],
    closings: Sequence[Closing],
    rooms: tuple[float, float],
    gap: float,
) -> list[Page]:
    """Pages that hold every row and every block, none of them split.

    Parameters
    ----------
    heights : sequence of float
        The least height of every row, millimetres.
    closings : sequence of Closing
        Blocks below the rows, in the order in which a page shows them.
    rooms : (first, later)
        Room for rows and blocks on the first page and on each later one.
    gap : float
        Room above every block.
    """
    pages = _evenly(heights, rooms)
    last = len(pages) - 1
    for at in sorted(range(len(closings)), key=lambda at: closings[at].turn):
        height = gap + closings[at].block.height
        allowed = pages[last if closings[at].after_rows else 0 :]
        page = next((page for page in allowed if page.taken + height <= page.room), None)
        if page is None:
            page = Page(rooms[1])
            pages.append(page)
        page.closings = sorted([*page.closings, at])
        page.taken += height
    return pages


def level(heights: Sequence[float], room: float) -> float:
    """The height to which the lowest rows can be raised together within ``room``.

    >>> level([20.0, 30.0, 30.0], 90.0)
    30.0
    >>> level([20.0, 30.0, 30.0], 84.0)
    24.0
    """
    rising = sorted(heights)
    raised = (
        (room - sum(rising[count:])) / count
        for count in range(len(rising), 0, -1)
        if (room - sum(rising[count:])) / count >= rising[count - 1]
    )
    return min(next(raised, rising[0]), TALLEST_ROW_MM)


def _evenly(heights: Sequence[float], rooms: tuple[float, float]) -> list[Page]:
    """The fewest pages for all rows, and among those the most even ones."""
    tries = [_filled(heights, rooms, most) for most in range(1, len(heights) + 1)]
    return min(tries, key=len)


def _filled(heights: Sequence[float], rooms: tuple[float, float], most: int) -> list[Page]:
    pages = [Page(rooms[0])]
    for row, height in enumerate(heights):
        limit = min(most, FIRST_PAGE_ROWS) if len(pages) == 1 else most
        page = pages[-1]
        movable = page.rows or len(pages) == 1  # a tall head may leave no room for a row
        if movable and (len(page.rows) == limit or page.taken + height > page.room):
            page = Page(rooms[1])
            pages.append(page)
        page.rows.append(row)
        page.taken += height
    return pages
