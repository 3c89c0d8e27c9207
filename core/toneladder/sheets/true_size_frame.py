"""Head and foot of a page at true size: which plate, which sheet, how it lies, is it true."""

from collections.abc import Sequence
from dataclasses import dataclass

from toneladder.boxes import Box
from toneladder.lettering import Face, text_width, wrapped
from toneladder.sheets.marks import Mark, filled, frame, line
from toneladder.sheets.order_head import Folio
from toneladder.sheets.order_words import written_date
from toneladder.sheets.setting import (
    BODY_MM,
    HAIR_MM,
    HEAVY_MM,
    SMALL_MM,
    Block,
    beside,
    flowing,
    label,
    moved,
    paragraph,
    stacked,
)
from toneladder.sheets.tiling import Tile
from toneladder.wording import say

BAR_MM = 50.0
"""Length of the bar that shows whether a page was printed at its true size."""

FIELD = Box(0.0, 0.1, 9.0, 4.0)
"""The field beside every word of the key."""

_BAR_PARTS = 5
_BAR_HIGH_MM = 2.2
_TITLE_SIZES = ((6.2, 1), (5.0, 1), (4.2, 2))
_NAME_MM = 5.2
_APART_MM = 6.0
_SCHEME_MM = (3.2, 9.0)  # sides of a page's little field at the most, and of the whole scheme


@dataclass(frozen=True, slots=True)
class Heading:
    """What a sheet is called, how it lies on the plate, and the key to what is drawn."""

    name: str
    lies: str
    key: tuple[Block, ...] = ()


def head(heading: Heading, folio: Folio, page: tuple[int, int]) -> Block:
    """Plate, sheet, how it lies, day, page and scale."""
    width = folio.width
    facts = say(
        "{date} · {page} · {scale}",
        date=written_date(folio.made_on),
        page=say("page {page} of {pages}", page=page[0], pages=page[1]),
        scale=folio.scale,
    )
    name = label(heading.name, Face.SANS_BOLD, _NAME_MM)
    title_room = width - name.width - _APART_MM
    lies_room = width - text_width(facts, Face.SANS, SMALL_MM) - _APART_MM
    lies = paragraph(heading.lies, lies_room, Face.SANS_BOLD, BODY_MM)
    return stacked(
        [
            _with_right(_title(folio.title, title_room), name, width),
            _with_right(lies, label(facts), width),
            Block(width, HEAVY_MM, (line((0, HEAVY_MM / 2), (width, HEAVY_MM / 2), HEAVY_MM),)),
        ],
        0.8,
    )


def foot(heading: Heading, width: float, tile: Tile) -> Block:
    """The key, the bar to check with and, on one of several pages, where it belongs."""
    blocks = [flowing(heading.key, width, 5.0, 0.8)] if heading.key else []
    blocks.append(check_bar())
    if not tile.whole:
        blocks.append(_belongs(tile, width))
    return stacked(blocks, 1.4)


def sign(marks: Sequence[Mark], words: str) -> Block:
    """One thing of the key: a field of ``FIELD``'s size as it is drawn, and what it means."""
    return beside(
        [Block(FIELD.width, FIELD.bottom, tuple(marks)), label(words, Face.SANS_BOLD)], 1.6
    )


def check_bar() -> Block:
    """A bar of exactly 50 mm from end to end, and what to do with it."""
    part = BAR_MM / _BAR_PARTS
    top = 0.9
    fields = [Box(at * part, top, part, _BAR_HIGH_MM) for at in range(0, _BAR_PARTS, 2)]
    rules = Box(0.0, top, BAR_MM, _BAR_HIGH_MM).inset(HAIR_MM / 2)
    bar: tuple[Mark, ...] = (filled([box.corners for box in fields]), frame(rules, HAIR_MM))
    words = label(say("50 mm if printed at 100 %: measure it before you trust the sheet"))
    return beside([Block(BAR_MM, top + _BAR_HIGH_MM, bar), words], 2.0)


def _belongs(tile: Tile, width: float) -> Block:
    """Which piece this is, and how the pieces come together."""
    scheme = _scheme(tile)
    name = label(say("Piece {tile}", tile=tile.name), Face.SANS_BOLD, BODY_MM)
    words = say(
        "of {n} pieces. Cut at the ticks on the left and at the top; lay each cut edge on the "
        "ticks of the piece the arrow names; tape.",
        n=tile.rows * tile.columns,
    )
    room = width - scheme.width - name.width - 5.0
    return beside([scheme, name, paragraph(words, room)], 2.5)


def _scheme(tile: Tile) -> Block:
    """All pages as small fields, this one in black."""
    most = max(tile.rows, tile.columns)
    side = min(_SCHEME_MM[0], _SCHEME_MM[1] / most)
    fields = [
        Box(0.2 + column * side, 0.2 + row * side, side, side)
        for row in range(tile.rows)
        for column in range(tile.columns)
    ]
    here = fields[tile.row * tile.columns + tile.column]
    marks = (*(frame(field, 0.2) for field in fields), filled([here.corners]))
    return Block(tile.columns * side + 0.4, tile.rows * side + 0.4, marks)


def _title(title: str, room: float) -> Block:
    """The plate's name in the largest letters that hold it, in the end cut short."""
    for size, most in _TITLE_SIZES:
        lines = wrapped(title, Face.SERIF_BOLD, size, room)
        if len(lines) <= most:
            return paragraph(title, room, Face.SERIF_BOLD, size)
    kept = "\n".join((lines[0], _cut_short(lines[1], Face.SERIF_BOLD, size, room)))
    return paragraph(kept, room, Face.SERIF_BOLD, size)


def _cut_short(text: str, face: Face, size: float, room: float) -> str:
    while text and text_width(f"{text}…", face, size) > room:
        text = text[:-1]
    return f"{text.rstrip()}…"


def _with_right(left: Block, right: Block, width: float) -> Block:
    """Two blocks at the two ends of a line, their feet level."""
    height = max(left.height, right.height)
    marks = (
        *moved(left, 0.0, height - left.height),
        *moved(right, width - right.width, height - right.height),
    )
    return Block(width, height, marks)
