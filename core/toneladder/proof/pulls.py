"""Two pulls of one plate: what differs between them is the wiping, what does not is the plate."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import hypot

from toneladder.proof.notes import where
from toneladder.proof.places import LEAST_DIFFERENCE
from toneladder.proof.values import Place, ProofReading, ToneReading
from toneladder.quantities import write_apart
from toneladder.wording import say

_SURE = 2.0
_NEAR_MM = 4.0


@dataclass(frozen=True, slots=True)
class Pulls:
    """Two pulls side by side.

    ``tones`` are means of both. ``wiped`` are the tones, and ``wiped_places`` the places, that
    differ between the pulls; ``plate`` and ``plate_places`` are off in both alike.
    """

    tones: tuple[ToneReading, ...]
    wiped: tuple[int, ...]
    plate: tuple[int, ...]
    wiped_places: tuple[Place, ...]
    plate_places: tuple[Place, ...]

    def sentences(self) -> Iterator[str]:
        """What the two pulls tell together."""
        if self.wiped:
            yield say(
                "Not the same in both pulls: {tones}. That is the wiping, not the plate; pull a"
                " third before the plate is changed.",
                tones=_listed(self.wiped),
            )
        if self.plate:
            yield say(
                "Off the plan in both pulls alike: {tones}. That is in the plate.",
                tones=_listed(self.plate),
            )
        for place in self.wiped_places:
            yield say("{where}: in one pull alone, so it was wiped so.", where=_where(place))
        for place in self.plate_places:
            yield say("{where}: in both pulls, so it is in the plate.", where=_where(place))
        if not (self.wiped or self.plate or self.wiped_places or self.plate_places):
            yield say("Both pulls agree with each other and with the plan.")


def compare(one: ProofReading, other: ProofReading) -> Pulls:
    """What two pulls of one plate tell about wiping and plate."""
    theirs = {tone.tone: tone for tone in other.tones}
    pairs = [(tone, theirs[tone.tone]) for tone in one.tones if tone.tone in theirs]
    wiped, plate, tones = [], [], []
    for first, second in pairs:
        apart = second.printed_lightness - first.printed_lightness
        limit = max(LEAST_DIFFERENCE, _SURE * hypot(first.spread, second.spread))
        mean = _mean(first, second)
        tones.append(mean)
        if abs(apart) > limit:
            wiped.append(first.tone)
        elif abs(mean.difference) > max(LEAST_DIFFERENCE, _SURE * mean.spread):
            plate.append(first.tone)
    both = tuple(place for place in one.places if _again(place, other.places))
    alone = [place for place in one.places if not _again(place, other.places)]
    alone += [place for place in other.places if not _again(place, one.places)]
    return Pulls(tuple(tones), tuple(wiped), tuple(plate), tuple(alone), both)


def _mean(first: ToneReading, second: ToneReading) -> ToneReading:
    """Both pulls as one reading; what they disagree about stays in the spread."""
    apart = (second.printed_lightness - first.printed_lightness) / 2.0
    spread = hypot(hypot(first.spread, second.spread) / 2.0, apart)
    return replace(
        first,
        printed_lightness=round(first.printed_lightness + apart, 2),
        spread=round(spread, 2),
        cells=min(first.cells, second.cells),
        low=min(first.low, second.low),
        high=max(first.high, second.high),
        note=first.note or second.note,
    )


def _again(place: Place, others: tuple[Place, ...]) -> bool:
    """Whether a place of one pull is found in the other too."""
    reach = max(_NEAR_MM, place.area_mm2**0.5)
    return any(
        other.tone == place.tone
        and (other.difference > 0) == (place.difference > 0)
        and hypot(other.x_mm - place.x_mm, other.y_mm - place.y_mm) < reach
        for other in others
    )


def _listed(tones: tuple[int, ...]) -> str:
    return ", ".join(say("tone {n}", n=tone) for tone in tones)


def _where(place: Place) -> str:
    by = write_apart(place.difference)
    values = {"n": place.tone, "at": where(place), "by": by}
    if place.difference < 0:
        return say("Tone {n}, {by} darker, {at}", **values)
    return say("Tone {n}, {by} lighter, {at}", **values)
