"""The ladder's rungs drawn: swatches on the neutral grey, their words, the signs between."""

from dataclasses import dataclass

from toneladder.boxes import Box
from toneladder.quantities import tone_figure, write_bite
from toneladder.wording import say
from toneladder_desktop.drawing.ruling import Ruling, Set, width_of
from toneladder_desktop.drawing.style import ON_SURROUND, SURROUND, Type
from toneladder_desktop.ladder.content import Content, Rung
from toneladder_desktop.ladder.layout import Layout, RungPlace, Sign
from toneladder_desktop.ladder.rails import Showing
from toneladder_desktop.ladder.words import range_in_short, range_of

DARK_WORDS_ABOVE = 50.0
"""L* above which black words are read best, below it white ones."""

_INSIDE = 7.0  # between the words of a sign and its frame


def paint_rungs(ruling: Ruling, content: Content, layout: Layout, showing: Showing) -> None:
    """The strip with its swatches, and the words beside them."""
    strip = layout.strip
    ruling.fill(strip.x, strip.y, strip.width, strip.height, SURROUND)
    doubts = _doubts(content, layout)
    for k, (rung, place) in enumerate(zip(content.rungs, layout.rungs, strict=True)):
        _swatch(
            ruling, rung, place, content.swatches[k], showing, chosen=k == showing.picked.chosen
        )
        _words(ruling, rung, doubts[k], place, layout, showing)


def _doubts(content: Content, layout: Layout) -> list[str]:
    """The ranges of all rungs; where one in words has no room, signs stand in all of them."""
    if not layout.ranges_shown:
        return [""] * len(content.rungs)
    room = layout.columns.text_end - layout.columns.text
    texts = [range_of(rung) for rung in content.rungs]
    if all(width_of(text, Type.SMALL) <= room for text in texts):
        return texts
    return [range_in_short(rung) for rung in content.rungs]


def paint_sign(ruling: Ruling, sign: Sign, showing: Showing) -> None:
    """The sign between two rungs that print alike; its remedy is a link at its right end."""
    colours, box = showing.colours, sign.box
    said = words_of_sign(box) if sign.wordy else None
    width = box.width if said is None else said.width
    ruling.fill(box.x, box.y, width, box.height, colours.sheet)
    ruling.frame(box.x, box.y, width, box.height, colours.edge)
    if said is not None:
        ruling.words(box.x + _INSIDE, box.middle, "≈", Type.STRONG, colours.ink)
        ruling.words(said.words_x, box.middle, said.words, Type.SMALL, colours.ink)
    else:
        middle = box.x + box.width / 2.0
        ruling.words(middle, box.middle, "≈", Type.STRONG, colours.ink, Set.MIDDLE)


@dataclass(frozen=True, slots=True)
class SignWords:
    """What stands in a sign with words, from left to right, and how wide it is; pixels.

    ``words`` are empty where they would leave no room for the link.
    """

    words: str
    words_x: float
    link_x: float
    width: float


def words_of_sign(box: Box) -> SignWords:
    """Place the words of a sign, and the link behind them, in the room that ``box`` is."""
    words_x = box.x + _INSIDE + width_of("≈", Type.STRONG) + 3.0
    link = width_of(say("make one"), Type.SMALL)
    words = say("print alike")
    link_x = words_x + width_of(words, Type.SMALL) + _INSIDE
    if link_x + link + _INSIDE > box.right:
        words, link_x = "", words_x
    return SignWords(words, words_x, link_x, link_x + link + _INSIDE + 1.0 - box.x)


def _swatch(
    ruling: Ruling, rung: Rung, place: RungPlace, colour: str, showing: Showing, *, chosen: bool
) -> None:
    box = place.swatch
    _around(ruling, box, 3.0 if chosen else 1.0, ON_SURROUND)
    if chosen:
        _around(ruling, box, 1.0, "#FFFFFF")
    _around(ruling, box, -1.0 if chosen else 0.0, colour)
    ink = "#000000" if rung.tone.lightness > DARK_WORDS_ABOVE else "#FFFFFF"
    number, darkness = str(rung.tone.tone), tone_figure(rung.tone.lightness, showing.manner)
    ruling.words(box.x + 13.0, box.middle, number, Type.HEAD, ink, Set.MIDDLE)
    ruling.words(box.right - 6.0, box.middle, darkness, Type.SMALL, ink, Set.RIGHT)


def _around(ruling: Ruling, box: Box, reach: float, colour: str) -> None:
    ruling.fill(
        box.x - reach, box.y - reach, box.width + 2.0 * reach, box.height + 2.0 * reach, colour
    )


def _words(
    ruling: Ruling, rung: Rung, doubt: str, place: RungPlace, layout: Layout, showing: Showing
) -> None:
    x, middle = layout.columns.text, place.row.middle
    room = layout.columns.text_end - x
    if rung.tone.tone == 0:
        ruling.words(x, middle, say("white"), Type.TEXT, showing.colours.ink)
        return
    total = write_bite(rung.tone.total_bite_s)
    ruling.words(
        x, middle - (8.0 if doubt else 0.0), total, Type.ANSWER, showing.colours.ink, room=room
    )
    if doubt:
        ruling.words(x, middle + 9.0, doubt, Type.SMALL, showing.colours.pencil, room=room)
