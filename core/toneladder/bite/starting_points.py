"""Where the bite curve of a metal and a mordant starts before any strip was bitten.

The numbers of a model are chosen so that its curve runs through the times that test logs
and studios report; they mean nothing more. Marks say how good each time is.
"""

from dataclasses import dataclass
from enum import StrEnum

from toneladder.bite.print_model import BathModel
from toneladder.bite.values import Conditions, Fineness, GrainKind, Metal, Mordant, Movement
from toneladder.errors import RefusedPairError
from toneladder.wording import say

STARTING_TEMPERATURE_C = 20.0


class Mark(StrEnum):
    """How well a time is known."""

    PUBLISHED = "published"
    PRACTICE = "common practice, from memory"
    ASSUMED = "assumption"


@dataclass(frozen=True, slots=True)
class StartingPoint:
    """The model at the middle of what is likely, and how long anybody is known to have bitten."""

    model: BathModel
    longest_tested_s: float
    longest_mark: Mark
    source: str


@dataclass(frozen=True, slots=True)
class _Times:
    """Times of one pair; ``pace`` is how much faster than copper in ferric chloride it bites."""

    pace: float
    longest_s: float
    mark: Mark
    source: str


# Copper in ferric chloride, 36 to 39 degrees Baumé: first tone after about 15 s (common
# practice, from memory), black at 15 min (published test logs). Its pace is 1.
_COPPER_RATE = 4.5

# Mean diameters, µm: fine 20 to 50, medium 50 to 100, coarse 100 to 200 (common practice, from
# memory, no source). Fine and coarse stand at the end next to medium: an assumption.
_DIAMETER_UM = {Fineness.FINE: 50.0, Fineness.MEDIUM: 75.0, Fineness.COARSE: 100.0}

# A sprayed ground holds dots of 30 to 150 µm (common practice, from memory, no source).
_SPREAD = {GrainKind.ROSIN: 0.4, GrainKind.SPRAY: 0.5}

# Rocking speeds the bite (published, without a number); how much is an assumption.
_PACE_OF = {Movement.STILL: 1.0, Movement.MOVING: 1.3}


def starting_point(conditions: Conditions) -> StartingPoint:
    """Starting point of ``conditions`` at 20 °C; strength does not change it.

    Raises
    ------
    RefusedPairError
        If metal and mordant must not meet, or nobody has published times for them.
    """
    require_safe_pair(conditions.metal, conditions.mordant)
    times = _known_times().get((conditions.metal, conditions.mordant))
    if times is None:
        raise RefusedPairError(_why_a_strip(conditions.metal, conditions.mordant))
    assumed = (
        conditions.grain is not GrainKind.ROSIN
        or conditions.fineness is not Fineness.MEDIUM
        or conditions.movement is not Movement.STILL
    )
    source = times.source
    if assumed:
        source = say(
            "{source}; what this grain and this movement change in it is an assumption",
            source=source,
        )
    return StartingPoint(
        model=_model(conditions, times.pace),
        longest_tested_s=times.longest_s,
        longest_mark=times.mark,
        source=source,
    )


def require_safe_pair(metal: Metal, mordant: Mordant) -> None:
    """Pass if ``metal`` may be bitten in ``mordant``, strip or no strip.

    Raises
    ------
    RefusedPairError
        If the two must not meet; the sentence says why.
    """
    if mordant not in {Mordant.FERRIC_CHLORIDE, Mordant.FERRIC_CITRIC}:
        return
    if metal is Metal.ZINC:
        raise RefusedPairError(
            say(
                "Zinc must not go into ferric chloride: it heats up, gives off hydrogen and"
                " hydrochloric vapour and grows a crust of iron. Nothing was planned."
                " Choose copper sulphate with salt for zinc, or a copper plate."
            )
        )
    if metal is Metal.ALUMINIUM:
        raise RefusedPairError(
            say(
                "Aluminium must not go into ferric chloride: it is attacked at once, with heat,"
                " hydrogen and hydrochloric vapour. Nothing was planned."
                " Choose copper sulphate with salt for aluminium, or a copper plate."
            )
        )


def _model(conditions: Conditions, pace: float) -> BathModel:
    return BathModel(
        rate_um_per_min=_COPPER_RATE * pace * _PACE_OF[conditions.movement],
        coverage=0.5,
        diameter_um=_DIAMETER_UM[conditions.fineness],
        spread=_SPREAD[conditions.grain],
        ink_strength=0.45,
        black=0.022,
        widest_gap_um=450.0,
        white_lightness=90.0,
    )


def _known_times() -> dict[tuple[Metal, Mordant], _Times]:
    return {
        (Metal.COPPER, Mordant.FERRIC_CHLORIDE): _Times(
            pace=1.0,
            longest_s=900.0,
            mark=Mark.PUBLISHED,
            source=say(
                "published test logs, black at 15 min in 36 to 39 °Bé;"
                " the first tones are common practice, from memory"
            ),
        ),
        (Metal.COPPER, Mordant.FERRIC_CITRIC): _Times(
            pace=1.0,
            longest_s=900.0,
            mark=Mark.ASSUMED,
            source=say("taken over from ferric chloride without citric acid: an assumption"),
        ),
        (Metal.ZINC, Mordant.COPPER_SULPHATE_SALT): _Times(
            pace=2.5,
            longest_s=360.0,
            mark=Mark.PRACTICE,
            source=say("common practice, from memory: 10 s to 6 min in 50 g of each to the litre"),
        ),
        (Metal.ZINC, Mordant.NITRIC_ACID): _Times(
            pace=3.0,
            longest_s=300.0,
            mark=Mark.PRACTICE,
            source=say(
                "common practice, from memory: 5 s to 5 min in 1 part acid to 15 parts water;"
                " that the lightest tones take only seconds is published"
            ),
        ),
        (Metal.ALUMINIUM, Mordant.COPPER_SULPHATE_SALT): _Times(
            pace=3.0,
            longest_s=1020.0,
            mark=Mark.PUBLISHED,
            source=say(
                "published test logs in 70 g of each to the litre: a tone at 5 s, darker middle"
                " tones at 2 to 3 min, black at 8 min, bitten up to 17 min"
            ),
        ),
    }


def _why_a_strip(metal: Metal, mordant: Mordant) -> str:
    if metal is Metal.STEEL:
        return say(
            "There is no starting point for steel: no aquatint times for it have been published."
            " Nothing was planned. Bite and print a test strip of this steel first."
        )
    if metal is Metal.OTHER or mordant is Mordant.OTHER:
        return say(
            "There is no starting point for a metal or a bath that is not in the list:"
            " only a strip can tell how it bites. Nothing was planned."
            " Bite and print a test strip first."
        )
    return say(
        "There is no starting point for {metal} in {mordant} yet: no aquatint times were found."
        " Nothing was planned. Bite and print a test strip first, or choose another bath.",
        metal=say(metal.value),
        mordant=say(mordant.value),
    )
