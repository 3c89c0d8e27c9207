"""The ladder's rails drawn: histogram, fan, pegs, brackets, scales."""

from dataclasses import dataclass
from itertools import pairwise

from toneladder.quantities import Manner
from toneladder_desktop.drawing.ruling import Ruling, Set
from toneladder_desktop.drawing.style import Colours, Type
from toneladder_desktop.ladder.content import Content, Side
from toneladder_desktop.ladder.layout import PEG_WIDTH, Layout, PegPlace, RungPlace
from toneladder_desktop.ladder.read_out import Picked

FAN_STRENGTH = 0.45


@dataclass(frozen=True, slots=True)
class Showing:
    """How the ladder is worn: colours, what is picked out, how numbers are written."""

    colours: Colours
    picked: Picked = Picked()
    manner: Manner = Manner()


def paint_rails(ruling: Ruling, content: Content, layout: Layout, showing: Showing) -> None:
    """Everything outside the strip: what a rung stands for, and how long it bites."""
    _histogram(ruling, content, layout, showing.colours)
    for k, place in enumerate(layout.rungs):
        _fan(ruling, layout, place, showing, chosen=k == showing.picked.chosen)
    _left_rail(ruling, layout, showing.colours)
    _right_rail(ruling, content, layout, showing.colours)
    for k, place in enumerate(layout.rungs):
        _printed(ruling, layout, place, showing.colours)
        _bite(ruling, content, layout, place, showing.colours, chosen=k == showing.picked.chosen)
    for peg in layout.pegs:
        _peg(ruling, content, layout, peg, showing)
    if showing.picked.pointed_lightness is not None:
        _pointer(ruling, layout, showing.picked.pointed_lightness, showing.colours)


def _histogram(ruling: Ruling, content: Content, layout: Layout, colours: Colours) -> None:
    x, right = layout.columns.rail_left, layout.columns.histogram_end - 2.0
    size = 100.0 / len(content.histogram)
    outline = [
        (x + share * (right - x), layout.darkness.y(100.0 - (k + 0.5) * size))
        for k, share in enumerate(content.histogram)
        if share > 0.0
    ]
    if len(outline) < 2:
        return
    ruling.shape([(x, outline[0][1]), *outline, (x, outline[-1][1])], colours.rule)
    for start, end in pairwise(outline):
        ruling.line(start, end, colours.edge)


def _fan(
    ruling: Ruling, layout: Layout, place: RungPlace, showing: Showing, *, chosen: bool
) -> None:
    x, right = layout.columns.fan, layout.columns.strip
    corners = [
        (x, place.fan_top),
        (right, place.swatch.y),
        (right, place.swatch.bottom),
        (x, place.fan_bottom),
    ]
    ruling.shape(corners, showing.colours.tint if chosen else mixed(showing.colours))
    if chosen:
        ruling.line(corners[0], corners[1], showing.colours.edge)
        ruling.line(corners[3], corners[2], showing.colours.edge)


def mixed(colours: Colours) -> str:
    """A shade between ground and rule, for what only leads the eye."""
    ground, rule = (bytes.fromhex(c.removeprefix("#")) for c in (colours.ground, colours.rule))
    between = (round(g + FAN_STRENGTH * (r - g)) for g, r in zip(ground, rule, strict=True))
    return "#" + "".join(f"{byte:02X}" for byte in between)


def _left_rail(ruling: Ruling, layout: Layout, colours: Colours) -> None:
    x, scale = layout.columns.rail_left, layout.darkness
    ruling.upright(x, scale.top, scale.bottom, colours.ink, 2.0)
    for dark in range(11):
        reach = 6.0 if dark % 2 == 0 else 3.0
        ruling.level(x, x + reach, scale.y(100.0 - 10.0 * dark), colours.ink)
    for mark in layout.darkness_marks:
        right = layout.columns.ticks - 4.0
        ruling.words(right, mark.y, mark.text, Type.SMALL, colours.pencil, Set.RIGHT)


def _right_rail(ruling: Ruling, content: Content, layout: Layout, colours: Colours) -> None:
    x, scale = layout.columns.rail_right, layout.bites
    end = min(layout.tested_y, scale.bottom)
    ruling.upright(x, scale.top, end, colours.ink, 2.0)
    if layout.tested_y < scale.bottom:
        ruling.dotted(x, end + 3.0, scale.bottom, colours.ink, 2.0)
    for mark in layout.bite_marks:
        ruling.level(x - 4.0, x, mark.y, colours.ink)
        ruling.words(layout.columns.end, mark.y, mark.text, Type.SMALL, colours.pencil, Set.RIGHT)
    if content.tested_s < scale.end_s:
        ruling.level(x - 4.0, x + 4.0, end, colours.ink, 2.0)


def _printed(ruling: Ruling, layout: Layout, place: RungPlace, colours: Colours) -> None:
    """Where on the left rail a rung prints: a tick in its place, or a ring and a dashed line."""
    x, fan = layout.columns.ticks, layout.columns.fan
    if not place.displaced:
        ruling.level(x, fan, place.printed_y, colours.ink, 2.0)
        return
    start = (fan - 4.0, place.printed_y)
    ruling.slant(start, (layout.columns.strip, place.swatch.middle), colours.ink, dashed=True)
    ruling.ring(*start, 3.5, colours.ink, colours.sheet)


def _bite(
    ruling: Ruling,
    content: Content,
    layout: Layout,
    place: RungPlace,
    colours: Colours,
    *,
    chosen: bool,
) -> None:
    """The line from a rung's words to its true total bite, and the bracket of its doubt."""
    if place.bite_y is None or place.bracket is None:
        return
    bracket, columns = place.bracket, layout.columns
    colour = colours.ink if chosen else colours.edge
    x = columns.lanes[0] - 3.0
    ruling.line((columns.text_end + 1.0, place.row.middle), (x, place.bite_y), colour)
    ruling.level(x, columns.rail_right, place.bite_y, colour)
    rule = ruling.dotted if content.untested else ruling.upright
    rule(bracket.x, bracket.top, bracket.bottom, colour, 1.0)
    ruling.level(bracket.x - 2.0, bracket.x + 3.0, bracket.top, colour)
    if not bracket.open_end:
        ruling.level(bracket.x - 2.0, bracket.x + 3.0, bracket.bottom, colour)


def _peg(
    ruling: Ruling, content: Content, layout: Layout, place: PegPlace, showing: Showing
) -> None:
    colours, columns, body = showing.colours, layout.columns, place.body
    active = place.peg in (showing.picked.focused, showing.picked.in_hand)
    left = place.peg.side is Side.PARTING
    tip = body.right if left else body.x
    rail = columns.rail_left if left else columns.rail_right
    if abs(body.middle - place.true_y) <= 1.0:
        ruling.level(min(tip, rail), max(tip, rail), place.true_y, colours.ink)
    else:
        ruling.line((tip, body.middle), (rail, place.true_y), colours.ink)
    if left:
        colour = colours.accent if active else colours.ink
        ruling.level(rail, columns.fan, place.true_y, colour, 2.0 if active else 1.0)
    held = content.is_held(place.peg)
    area = (body.x, body.y, body.width, body.height)
    ruling.fill(*area, colours.ink if held else colours.sheet)
    ruling.frame(*area, colours.ink, 1.5)
    if held:
        ruling.fill(body.x + PEG_WIDTH / 2.0 - 3.0, body.middle - 1.0, 6.0, 2.0, colours.sheet)
    if active:
        ruling.frame(body.x - 4.0, body.y - 4.0, 26.0, 20.0, colours.accent, 2.0)


def _pointer(ruling: Ruling, layout: Layout, lightness: float, colours: Colours) -> None:
    """The place of the picture under the pointer on the paper."""
    x, y = layout.columns.rail_left, layout.darkness.y(lightness)
    ruling.shape([(x + 2.0, y), (x + 10.0, y - 4.5), (x + 10.0, y + 4.5)], colours.ink)
