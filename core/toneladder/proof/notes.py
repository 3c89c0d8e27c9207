"""What there is to say about a proof that was read."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from toneladder.proof.values import Place, ToneReading
from toneladder.quantities import write_apart, write_area, write_length, write_percent
from toneladder.wording import say, say_number

_ALIKE = 1.0
_CUT_OFF = 0.01


def notes_on(
    read: Sequence[ToneReading], unread: Sequence[int], paper_round: int, cut_off: float
) -> Iterator[str]:
    """Sentences about what could not be read, or not surely.

    ``paper_round`` counts the sides of the plate on which bare paper is seen, ``cut_off`` is
    the share of the plate that lies beyond the scan.
    """
    for tone in unread:
        yield say("Tone {n} cannot be read: too little of it lies clear of its borders.", n=tone)
    if paper_round == 0:
        yield say(
            "No bare paper is seen round the print: the tones are as the scanner has them, and"
            " uneven light stays in them. Scan it again with its margins."
        )
    elif paper_round == 1:
        yield say(
            "Bare paper is seen on one side alone: uneven light could not be straightened. Scan it"
            " again with all its margins."
        )
    if cut_off > _CUT_OFF:
        yield say("{share} of the plate lies beyond the scan.", share=write_percent(cut_off))
    yield from _reversals(read)


def _reversals(read: Sequence[ToneReading]) -> Iterator[str]:
    for lighter, darker in pairwise(read):
        sure = _ALIKE + max(lighter.spread, darker.spread)
        if darker.printed_lightness > lighter.printed_lightness + sure:
            yield say(
                "Tone {darker} printed lighter than tone {lighter}. Both were kept as they were"
                " read.",
                darker=darker.tone,
                lighter=lighter.tone,
            )


def where(place: Place) -> str:
    """Where the middle of a place lies on the print."""
    return say(
        "{x} from the left, {y} from the top",
        x=write_length(round(place.x_mm)),
        y=write_length(round(place.y_mm)),
    )


def about_places(places: Sequence[Place], most: int = 6) -> Iterator[str]:
    """Where a tone differs from itself, and what that often comes from.

    What it comes from is common practice, no source.
    """
    for place in places[:most]:
        values = {
            "n": place.tone,
            "at": where(place),
            "area": write_area(place.area_mm2),
            "by": write_apart(place.difference),
        }
        if place.difference < 0:
            yield say(
                "Tone {n} is {by} darker {at}, over {area}: foul bite, varnish laid too thin, or"
                " ink left by the wiping.",
                **values,
            )
        else:
            yield say(
                "Tone {n} is {by} lighter {at}, over {area}: uneven grain, varnish where none was"
                " meant, or wiped too clean.",
                **values,
            )
    rest = len(places) - most
    if rest > 0:
        yield say_number("One more place differs.", "{n} more places differ.", rest)
