"""The curve drawn: band, line, patches, and the plate's rungs led to both scales."""

from dataclasses import replace
from itertools import pairwise

from toneladder.quantities import scale_name
from toneladder.wording import say
from toneladder_desktop.curve.content import Content, Reading
from toneladder_desktop.curve.layout import Chip, Layout
from toneladder_desktop.drawing.ruling import Ruling, Set
from toneladder_desktop.drawing.style import Colours, Type

PATCH = 3.5
"""Half the side of a patch's sign, pixels."""


def paint(
    ruling: Ruling, content: Content, layout: Layout, colours: Colours, chosen: int | None
) -> None:
    """The whole drawing; ``chosen`` is the tone that is picked out."""
    _scales(ruling, content, layout, colours)
    _band(ruling, content, layout, colours)
    for chip in layout.chips:
        _leader(ruling, layout, chip, colours, picked=chip.tone == chosen)
    _line(ruling, content, layout, colours)
    rung = next((one for one in content.rungs if one.tone == chosen), None)
    if rung is not None:
        _doubt(ruling, layout, rung.bite_s, (rung.low, rung.high), colours)
    for reading in content.readings:
        _patch(ruling, layout, reading, colours)
    for chip in layout.chips:
        _chip(ruling, chip, colours, picked=chip.tone == chosen)


def faded(colours: Colours) -> Colours:
    """Colours of a drawing that does not count now: nothing in ink, no tint."""
    return replace(colours, ink=colours.edge, pencil=colours.edge, tint=colours.ground)


def _scales(ruling: Ruling, content: Content, layout: Layout, colours: Colours) -> None:
    field, scales = layout.scales.field, layout.scales
    for y, text in layout.darkness_marks:
        ruling.level(field.x, field.right, y, colours.rule)
        ruling.words(field.x - 8.0, y, text, Type.SMALL, colours.pencil, Set.RIGHT)
    heads = field.y - 14.0
    ruling.words(4.0, heads, scale_name(), Type.SMALL, colours.pencil)
    total = say("total bite, in the bath of the curve")
    ruling.words(field.right, heads, total, Type.SMALL, colours.pencil, Set.RIGHT)
    ruling.upright(field.x, field.y, field.bottom, colours.ink, 2.0)
    tested = scales.x(content.longest_tested_s)
    ruling.level(field.x, tested, field.bottom, colours.ink, 2.0)
    x = tested + 4.0
    while x < field.right:
        ruling.level(x, min(x + 2.0, field.right), field.bottom, colours.ink, 2.0)
        x += 5.0
    ruling.upright(tested, field.y, field.bottom, colours.edge)
    for at, text in layout.bite_marks:
        ruling.upright(at, field.bottom, field.bottom + 5.0, colours.ink)
        where = Set.LEFT if at - field.x < 20.0 else Set.MIDDLE
        ruling.words(at, field.bottom + 17.0, text, Type.SMALL, colours.pencil, where)


def _band(ruling: Ruling, content: Content, layout: Layout, colours: Colours) -> None:
    """Where the next plate's tones will lie: a tint between two thin lines, dotted if untested."""
    scales = layout.scales
    upper = [(scales.x(b), scales.y(v)) for b, v in zip(content.bites_s, content.high, strict=True)]
    lower = [(scales.x(b), scales.y(v)) for b, v in zip(content.bites_s, content.low, strict=True)]
    ruling.shape([*upper, *reversed(lower)], colours.tint)
    for edge in (upper, lower):
        for k, (start, end) in enumerate(pairwise(edge)):
            if not content.untested or k % 6 < 3:
                ruling.line(start, end, colours.edge)


def _line(ruling: Ruling, content: Content, layout: Layout, colours: Colours) -> None:
    scales = layout.scales
    points = [
        (scales.x(b), scales.y(v)) for b, v in zip(content.bites_s, content.line, strict=True)
    ]
    ruling.curve(points, colours.ink, 2.0)


def _leader(ruling: Ruling, layout: Layout, chip: Chip, colours: Colours, *, picked: bool) -> None:
    field = layout.scales.field
    colour = colours.ink if picked else colours.edge
    ruling.upright(chip.x, chip.y, field.bottom, colour)
    middle = chip.box.x + chip.box.width / 2.0
    ruling.line((chip.x, field.bottom + 28.0), (middle, chip.box.y), colour)
    if picked:
        ruling.level(field.x, chip.x, chip.y, colour)


def _doubt(
    ruling: Ruling, layout: Layout, bite_s: float, band: tuple[float, float], colours: Colours
) -> None:
    x, scales = layout.scales.x(bite_s), layout.scales
    low, high = (scales.y(value) for value in band)
    ruling.upright(x, min(low, high), max(low, high), colours.ink, 3.0)
    for y in (low, high):
        ruling.level(x - 6.0, x + 6.0, y, colours.ink, 2.0)


def _patch(ruling: Ruling, layout: Layout, reading: Reading, colours: Colours) -> None:
    """A full square of the newest session, an open one of older ones; crossed if doubtful."""
    x, y = layout.scales.x(reading.bite_s), layout.scales.y(reading.lightness)
    side = 2.0 * PATCH
    ruling.fill(x - PATCH - 1.0, y - PATCH - 1.0, side + 2.0, side + 2.0, colours.sheet)
    if reading.newest and not reading.doubtful:
        ruling.fill(x - PATCH, y - PATCH, side, side, colours.ink)
    else:
        ruling.frame(x - PATCH, y - PATCH, side, side, colours.ink, 1.5)
    if reading.doubtful:
        reach = PATCH + 3.0
        ruling.line((x - reach, y - reach), (x + reach, y + reach), colours.ink)
        ruling.line((x - reach, y + reach), (x + reach, y - reach), colours.ink)


def _chip(ruling: Ruling, chip: Chip, colours: Colours, *, picked: bool) -> None:
    box = chip.box
    area = (box.x, box.y, box.width, box.height)
    ruling.fill(*area, colours.ink if picked else colours.sheet)
    ruling.frame(*area, colours.ink, 1.5)
    ink = colours.sheet if picked else colours.ink
    middle = box.y + box.height / 2.0
    ruling.words(box.x + box.width / 2.0, middle, str(chip.tone), Type.STRONG, ink, Set.MIDDLE)
