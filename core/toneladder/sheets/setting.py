"""Setting type on a sheet: blocks that know their size and can be put anywhere."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from toneladder.boxes import Box
from toneladder.lettering import Face, wrapped
from toneladder.sheets.marks import Mark, Picture, Text, frame

HEADING_MM = 5.2
BODY_MM = 3.9
SMALL_MM = 3.55
"""Sizes (em) of the letters on a sheet: about 15, 11 and 10 points."""

HAIR_MM = 0.25
RULE_MM = 0.45
HEAVY_MM = 0.7

_LEADING = 1.2
_RISE = 0.78  # of the first baseline below the block's top, in em


@dataclass(frozen=True, slots=True)
class Block:
    """Marks set from the origin to the right and down, and the room they take."""

    width: float
    height: float
    marks: tuple[Mark, ...] = ()


def moved(block: Block, x: float, y: float) -> tuple[Mark, ...]:
    """The block's marks with its top left corner at (``x``, ``y``)."""
    return tuple(_moved(mark, x, y) for mark in block.marks)


def paragraph(text: str, width: float, face: Face = Face.SANS, size: float = SMALL_MM) -> Block:
    """``text`` broken into lines no wider than ``width``, set from the left."""
    lines = wrapped(text, face, size, width)
    leading = _LEADING * size
    marks = tuple(
        Text(0.0, _RISE * size + row * leading, words, face, size)
        for row, words in enumerate(lines)
        if words
    )
    return Block(max((mark.width for mark in marks), default=0.0), leading * len(lines), marks)


def label(text: str, face: Face = Face.SANS, size: float = SMALL_MM) -> Block:
    """``text`` on one line, however long."""
    word = Text(0.0, _RISE * size, text, face, size)
    return Block(word.width, _LEADING * size, (word,))


def ticked(text: str, width: float, size: float = BODY_MM) -> Block:
    """A box to tick, and beside it what was done."""
    side = 0.95 * size
    words = paragraph(text, width - 1.4 * side, size=size)
    box = frame(Box(RULE_MM / 2, 0.06 * size, side, side), RULE_MM)
    return beside((Block(side, side, (box,)), words), 0.4 * side)


def beside(blocks: Sequence[Block], gap: float) -> Block:
    """Blocks side by side, their tops level."""
    marks: list[Mark] = []
    x = 0.0
    for block in blocks:
        marks += moved(block, x, 0.0)
        x += block.width + gap
    return Block(x - gap, max(block.height for block in blocks), tuple(marks))


def stacked(blocks: Sequence[Block], gap: float = 0.0) -> Block:
    """Blocks one below the other; those without height leave no gap."""
    marks: list[Mark] = []
    y = 0.0
    standing = [block for block in blocks if block.height > 0.0]
    for block in standing:
        marks += moved(block, 0.0, y)
        y += block.height + gap
    width = max((block.width for block in standing), default=0.0)
    return Block(width, max(y - gap, 0.0), tuple(marks))


def flowing(blocks: Sequence[Block], width: float, gap: float, leading: float) -> Block:
    """Blocks in a line that begins anew where ``width`` is full."""
    lines: list[list[Block]] = []
    taken = width
    for block in blocks:
        if not lines or taken + gap + block.width > width:
            lines.append([])
            taken = -gap
        lines[-1].append(block)
        taken += gap + block.width
    return stacked([beside(line, gap) for line in lines], leading)


def gridded(texts: Sequence[str], width: float, gap: float = 6.0) -> Block:
    """Boxes to tick in as many even columns as the longest text allows."""
    for columns in range(min(4, len(texts)), 0, -1):
        room = (width - (columns - 1) * gap) / columns
        cells = [ticked(text, room) for text in texts]
        if columns == 1 or max(cell.height for cell in cells) < 2 * BODY_MM:
            break
    else:
        return Block(width, 0.0)
    rows = []
    for start in range(0, len(cells), columns):
        row = cells[start : start + columns]
        marks = [mark for at, cell in enumerate(row) for mark in moved(cell, at * (room + gap), 0)]
        rows.append(Block(width, max(cell.height for cell in row), tuple(marks)))
    return stacked(rows, 1.6)


def in_two_columns(blocks: Sequence[Block], width: float, gap: float) -> Block:
    """Blocks that run down two columns, split where the two are most nearly of one height."""
    tries = (
        (stacked(blocks[:at]), stacked(blocks[at:])) for at in range(len(blocks) // 2, len(blocks))
    )
    left, right = min(tries, key=lambda pair: max(column.height for column in pair))
    return beside([replace(left, width=(width - gap) / 2), right], gap)


def boxed(block: Block, width: float) -> Block:
    """``block`` in a box with a double rule: something to be heeded."""
    height = block.height + 5.6
    outer = Box(0.0, 0.0, width, height).inset(HEAVY_MM / 2)
    rules = (frame(outer, HEAVY_MM), frame(outer.inset(1.1), HAIR_MM))
    return Block(width, height, (*rules, *moved(block, 4.0, 2.8)))


def _moved(mark: Mark, x: float, y: float) -> Mark:
    if isinstance(mark, Text):
        return replace(mark, x=mark.x + x, y=mark.y + y)
    if isinstance(mark, Picture):
        return replace(mark, box=mark.box.moved(x, y))
    lines = tuple(tuple([(px + x, py + y) for px, py in points]) for points in mark.lines)
    within = None if mark.within is None else mark.within.moved(x, y)
    return replace(mark, lines=lines, within=within)
