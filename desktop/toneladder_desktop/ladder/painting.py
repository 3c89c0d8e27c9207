"""The whole ladder drawn: words above and below, rails, rungs, the read-out beside a hand."""

from collections.abc import Sequence
from math import ceil

from toneladder.boxes import Box
from toneladder.lettering import wrapped
from toneladder.wording import say
from toneladder_desktop.drawing.ruling import Ruling, Set, width_of
from toneladder_desktop.drawing.style import Colours, Type
from toneladder_desktop.ladder.content import Content, Side
from toneladder_desktop.ladder.layout import Layout, PegPlace
from toneladder_desktop.ladder.moving import Grip
from toneladder_desktop.ladder.rails import Showing, paint_rails
from toneladder_desktop.ladder.read_out import (
    Picked,
    ReadOut,
    foot_of,
    read_out,
    remark_of,
    with_range,
)
from toneladder_desktop.ladder.rungs import paint_rungs, paint_sign
from toneladder_desktop.ladder.words import letting_all_go, standing_of, title_of

LINE = 17.0
_PAD = 10.0
_MARGIN = 2.0
_WORDS_HALF, _RING = 18.0, 4.0
_LINK_ROW, _HEAD_LINE, _TIGHT_LINE = 1, 14.0, 15.0


def paint_ladder(
    ruling: Ruling, content: Content, layout: Layout, showing: Showing, grip: Grip | None = None
) -> None:
    """The ladder as it stands in the window; with ``grip``, the read-out beside the hand."""
    colours = showing.colours
    _head(ruling, content, layout, colours)
    paint_rails(ruling, content, layout, showing)
    paint_rungs(ruling, content, layout, showing)
    for sign in layout.signs:
        paint_sign(ruling, sign, showing)
    foot = foot_of(content, showing.picked, showing.manner)
    _foot(ruling, layout, showing.picked, foot, colours)
    if grip is not None:
        told = read_out(content, grip.peg, showing.picked.before, showing.manner)
        if not layout.ranges_shown:
            told = with_range(content, grip.peg, told)
        remark = grip.stopped or remark_of(content, grip.peg.step)
        if remark:
            told = ReadOut(told.title, (*told.lines, remark))
        _beside(ruling, box_beside(layout, layout.place(grip.peg), told), told, colours)


def paint_empty(ruling: Ruling, width: float, colours: Colours) -> None:
    """What stands in the ladder's place on an empty bench."""
    ruling.words(_MARGIN, 16.0, say("No tones yet"), Type.HEAD, colours.ink)
    words = say("The ladder stands here once there is a picture.")
    for k, line in enumerate(wrapped(words, *Type.SMALL.value, width - 2.0 * _MARGIN)):
        ruling.words(_MARGIN, 37.0 + k * LINE, line, Type.SMALL, colours.pencil)


def _head(ruling: Ruling, content: Content, layout: Layout, colours: Colours) -> None:
    """How many tones, how they are chosen, and what the columns are."""
    columns, small = layout.columns, Type.SMALL
    link = width_of(letting_all_go(content), Type.TEXT) + 8.0
    whole = columns.end - _MARGIN
    ruling.words(_MARGIN, 15.0, title_of(content), Type.HEAD, colours.ink, room=whole - link)
    ruling.words(_MARGIN, 35.0, standing_of(content), small, colours.pencil, room=whole)
    y, last = layout.strip.y - 10.0, say("total bite, in the bath")
    first = columns.strip - _MARGIN - 4.0
    rest = columns.end - columns.text
    for x, text, at, room in (
        (_MARGIN, say("in the picture"), Set.LEFT, first),
        (columns.strip, say("prints"), Set.LEFT, 64.0),
        (columns.end, last, Set.RIGHT, rest),
    ):
        for k, line in enumerate(reversed(wrapped(text, *small.value, room)[:2])):
            ruling.words(x, y - k * _HEAD_LINE, line, small, colours.pencil, at, room)


def _foot(ruling: Ruling, layout: Layout, picked: Picked, said: ReadOut, colours: Colours) -> None:
    """A read-out, or the key, below the rails; a title may be empty."""
    foot = layout.foot
    room = foot.width - 2.0 * _MARGIN
    ruling.level(foot.x, foot.right, foot.y, colours.rule)
    y = foot.y + 13.0
    if said.title:
        ruling.words(_MARGIN, y, said.title, Type.STRONG, colours.ink, room=room)
        y += LINE + 2.0
    parts = _rows(said.lines, room, beside_link=picked.only_key)
    there_is = max(ceil((foot.bottom - 4.0 - y) / LINE), 1)
    leading = LINE if len(parts) <= there_is else _TIGHT_LINE
    there_is = max(int((foot.bottom - 6.0 - y) / leading) + 1, there_is)
    if len(parts) > there_is:
        parts = [*parts[: there_is - 1], say("{words} …", words=parts[there_is - 1])]
    for k, part in enumerate(parts):
        ruling.words(_MARGIN, y + k * leading, part, Type.SMALL, colours.pencil)


def _rows(lines: Sequence[str], room: float, *, beside_link: bool) -> list[str]:
    """Sentences in rows of their own; the row that a link stands beside is the shorter for it."""
    rows: list[str] = []
    link = width_of(say("hide"), Type.SMALL) + 8.0
    for line in lines:
        rest = line
        while rest:
            short = beside_link and len(rows) == _LINK_ROW
            first = wrapped(rest, *Type.SMALL.value, room - (link if short else 0.0))[0]
            rows.append(first)
            rest = rest[len(first) :].lstrip(" ")
    return rows


def _beside(ruling: Ruling, box: Box, said: ReadOut, colours: Colours) -> None:
    """A read-out on a sheet of its own."""
    ruling.fill(box.x, box.y, box.width, box.height, colours.sheet)
    ruling.frame(box.x, box.y, box.width, box.height, colours.edge)
    y = box.y + 16.0
    ruling.words(box.x + _PAD, y, said.title, Type.STRONG, colours.ink)
    for line in said.lines:
        y += LINE + 1.0
        ruling.words(box.x + _PAD, y, line, Type.SMALL, colours.pencil)


def box_beside(layout: Layout, place: PegPlace, said: ReadOut) -> Box:
    """Where the read-out of a peg in hand stands: beside its rail, over no rung that it changes.

    Of the places that leave those rungs free it takes one level with the hand only if it must,
    then one that hides no other rung by half, as near to the hand as it can be.
    """
    lines = [width_of(said.title, Type.STRONG), *(width_of(t, Type.SMALL) for t in said.lines)]
    width = max(lines) + 2.0 * _PAD
    height = 26.0 + (LINE + 1.0) * len(said.lines) + 4.0
    columns, strip = layout.columns, layout.strip
    if place.peg.side is Side.PARTING:
        x = min(columns.rail_left + 14.0, columns.end - width)
        changed = {place.peg.step - 1, place.peg.step}
    else:
        x = max(columns.lanes[0] - 8.0 - width, _MARGIN)
        changed = {place.peg.step}
    top = min(place.true_y, place.body.y) - _PAD
    low = max(place.true_y, place.body.bottom) + _PAD
    rungs = [_drawn(layout, step) for step in range(len(layout.rungs))]

    def amiss(y: float) -> tuple[float, ...]:
        """How ill it would stand at a height: the worst first."""
        reach = [max(0.0, min(y + height, end) - max(y, start)) for start, end in rungs]
        at_hand = sum(reach[step] for step in changed)
        halves = sum(0.0 < reach[k] < end - start for k, (start, end) in enumerate(rungs))
        over_hand = max(0.0, min(y + height, low) - max(y, top))
        return at_hand, over_hand, halves, abs(y + height / 2.0 - place.true_y)

    least, most = strip.y, strip.bottom - height
    ends = [y for start, end in rungs for y in (start - height, end, (start + end - height) / 2.0)]
    heights = [y for y in (*ends, top - height, low) if least <= y <= most]
    return Box(x, min((*heights, least, most), key=amiss), width, height)


def _drawn(layout: Layout, step: int) -> tuple[float, float]:
    """From where to where a rung's swatch and its words reach down the strip."""
    rung = layout.rungs[step]
    half = rung.swatch.height / 2.0 + _RING
    half = max(half, _WORDS_HALF) if layout.ranges_shown else half
    return rung.row.middle - half, rung.row.middle + half
