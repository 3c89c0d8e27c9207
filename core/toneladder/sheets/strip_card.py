"""The strip card: a test strip at true size, how it is bitten, and room for what it shows."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from toneladder.bite.cautions import cautions
from toneladder.bite.values import Conditions
from toneladder.errors import StripError
from toneladder.lettering import Face
from toneladder.order.companion import how_to_step
from toneladder.picture.values import PlateSize
from toneladder.quantities import write_bite, write_length, write_minutes
from toneladder.sheets.marks import A4, Mark, Paper, Sheet
from toneladder.sheets.order_head import Folio
from toneladder.sheets.order_words import conditions_words
from toneladder.sheets.setting import (
    BODY_MM,
    Block,
    boxed,
    flowing,
    in_two_columns,
    label,
    moved,
    paragraph,
    stacked,
)
from toneladder.sheets.strip_rows import least_table_height, strip_at_true_size, table, to_write
from toneladder.sheets.true_size import MARGIN_MM
from toneladder.sheets.true_size_frame import Heading, check_bar, head
from toneladder.strip.planning import StripPlan
from toneladder.wording import say

USUAL_SIZE = PlateSize(120.0, 30.0)
"""A strip of metal that is at hand in most studios: an assumption."""

LEAST_PATCH_MM = 6.0
"""A patch narrower than this is hard to cover and to read: an assumption."""

LEAST_HIGH_MM, MOST_HIGH_MM = 10.0, 80.0

_GAP_MM = 2.6


@dataclass(frozen=True, slots=True)
class StripCard:
    """A strip to bite: its metal and bath, its patches, its size, and the plate it is for.

    ``title`` may be empty: the strip then stands for any plate of its bath.
    """

    conditions: Conditions
    plan: StripPlan
    size: PlateSize = USUAL_SIZE
    title: str = ""


def strip_card(card: StripCard, *, made_on: date, paper: Paper = A4) -> tuple[Sheet, ...]:
    """The card on as few pages as it needs, the strip at true size on the first.

    Parameters
    ----------
    card : StripCard
        The strip.
    made_on : date
        The day that the card carries.
    paper : Paper
        The office paper.

    Raises
    ------
    StripError
        The strip is larger than the paper, or its patches would be too narrow.
    """
    width = paper.width_mm - 2 * MARGIN_MM
    _require_size(card, width)
    title = " ".join(card.title.split()) or say("Test strip")
    folio = Folio(title, made_on, say("true size, 1 : 1"), width)
    room = paper.height_mm - 2 * MARGIN_MM
    pages = _pages(card, folio, room)
    return tuple(
        Sheet(paper, _set(blocks, folio, (at, len(pages)), room), title, at, len(pages))
        for at, blocks in enumerate(pages, start=1)
    )


def _pages(card: StripCard, folio: Folio, room: float) -> list[list[Block]]:
    """What each page carries below its head; the table grows into what is left of the first."""
    width = folio.width
    above = [_facts(card, width), strip_at_true_size(card.plan, card.size, width)]
    below = [
        *_remarks(card.plan, width),
        _stepping(width),
        to_write(width),
        _cautions(card.conditions, width),
    ]
    left = room - _head(folio, (1, 1)).height - check_bar().height - 2 * _GAP_MM
    taken = sum(block.height + _GAP_MM for block in above)
    first: list[Block] = []
    for block in below:
        after = taken + sum(one.height + _GAP_MM for one in [*first, block])
        if after + least_table_height(card.plan) > left:
            break
        first.append(block)
    spare = left - taken - sum(block.height + _GAP_MM for block in first)
    page = [*above, table(card.plan, width, spare), *first]
    rest = below[len(first) :]
    return [page, rest] if rest else [page]


def _set(
    blocks: Sequence[Block], folio: Folio, page: tuple[int, int], room: float
) -> tuple[Mark, ...]:
    """The head, the blocks below it, and the bar at the foot."""
    body = stacked([_head(folio, page), *blocks], _GAP_MM)
    bar = check_bar()
    return (
        *moved(body, MARGIN_MM, MARGIN_MM),
        *moved(bar, MARGIN_MM, MARGIN_MM + room - bar.height),
    )


def _head(folio: Folio, page: tuple[int, int]) -> Block:
    lies = say("Grain up, as it lies in the hand; its print is seen the other way round.")
    return head(Heading(say("Strip card"), lies), folio, page)


def _facts(card: StripCard, width: float) -> Block:
    words = [
        *conditions_words(card.size, card.conditions)[:-1],
        say("{bath} in the bath", bath=write_bite(card.plan.bath_s)),
        say("about {time} with all lifts", time=write_minutes(card.plan.work_min)),
    ]
    return flowing([label(word, size=BODY_MM) for word in words], width, 5.0, 1.2)


def _remarks(plan: StripPlan, width: float) -> tuple[Block, ...]:
    return tuple(boxed(paragraph(text, width - 8.0, size=BODY_MM), width) for text in plan.remarks)


def _stepping(width: float) -> Block:
    first = say("Grain it beside the plate, on the same day: the strip stands for that grain.")
    last = say(
        "Wipe the unbitten patch as the others. Read the second or third pull, dry, a day later;"
        " a wet reading is another tone."
    )
    return _told(say("How to bite and read it"), (first, *how_to_step(), last), width)


def _cautions(conditions: Conditions, width: float) -> Block:
    *said, last = cautions(conditions)
    final = paragraph(last, width, Face.SANS_BOLD)
    return stacked([_told(say("Cautions"), said, width), final], 0.8)


def _told(name: str, sentences: Sequence[str], width: float) -> Block:
    """Sentences under their name, in two columns."""
    gap = 6.0
    room = (width - gap) / 2
    texts = [paragraph(text, room) for text in sentences]
    spaced = [Block(room, text.height + 0.9, text.marks) for text in texts]
    return stacked(
        [paragraph(name, width, Face.SANS_BOLD, BODY_MM), in_two_columns(spaced, width, gap)], 0.8
    )


def _require_size(card: StripCard, width: float) -> None:
    size, patches = card.size, len(card.plan.bites_s)
    least = patches * LEAST_PATCH_MM
    if least <= size.width_mm <= width and LEAST_HIGH_MM <= size.height_mm <= MOST_HIGH_MM:
        return
    raise StripError(
        say(
            "A strip of {patches} patches must be {least} to {most} long and {low} to {high} wide"
            " for this card. Nothing was written. Name another size, fewer patches, or larger"
            " paper.",
            patches=patches,
            least=write_length(least),
            most=write_length(float(int(width))),
            low=write_length(LEAST_HIGH_MM),
            high=write_length(MOST_HIGH_MM),
        )
    )
