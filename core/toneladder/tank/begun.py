"""The order that a session was begun with, as text: enough to come back to it after a crash."""

import math
from collections.abc import Callable, Iterator
from dataclasses import asdict, dataclass, replace

from toneladder.bite.values import Conditions
from toneladder.errors import TankError
from toneladder.order.values import Order
from toneladder.plate.limits import rate_faults
from toneladder.plate.record import curve_faults
from toneladder.records import bounds, listed, read_record, text_of
from toneladder.tank.values import Facts, Stage
from toneladder.wording import say

LONGEST_TEXT = 2_000_000
_BITE_S = (0.01, 400_000.0)
_RATE = (1e-3, 1e3)
_AREA_CM2 = 1e6
_GAINED = (1.0, 5.0)
_UNKNOWN_S = -1.0  # a text of numbers has no infinite one


@dataclass(frozen=True, slots=True)
class Begun:
    """An order and what it was worked out with; the bath by its name in the book, if it has one.

    ``order`` is that of the stage at hand; ``conditions`` are the plate's, None if not noted.
    """

    order: Order
    facts: Facts
    bath: str = ""
    conditions: Conditions | None = None


def begun_text(begun: Begun) -> str:
    """JSON for the studio book."""
    told = _ranges(begun.order, lambda longest: _UNKNOWN_S if math.isinf(longest) else longest)
    return text_of(asdict(replace(begun, order=told)))


def begun_from(text: str) -> Begun:
    """What :func:`begun_text` wrote.

    Raises
    ------
    TankError
        The text is not such a record; everything wrong with it is named.
    """
    begun, faults = read_record(text, Begun, longest=LONGEST_TEXT)
    found = faults if begun is None else (*faults, *_faults(begun))
    if begun is None or found:
        raise TankError(
            say(
                "The order of this session cannot be read: {faults}. What was logged is kept.",
                faults=listed(found),
            )
        )
    told = _ranges(begun.order, lambda longest: math.inf if longest < 0.0 else longest)
    return replace(begun, order=told)


def _faults(begun: Begun) -> Iterator[str]:
    """What no plan ever gave to a session."""
    order, facts = begun.order, begun.facts
    if not order.steps:
        yield say("it has no steps")
    if [tone.tone for tone in order.tones] != list(range(len(order.tones))):
        yield say("its tones are not counted through")
    numbers = [step.step for step in order.steps]
    if numbers != sorted({*numbers} & {*range(1, len(order.tones))}):
        yield say("its steps do not belong to its tones")
    for step in order.steps:
        yield from bounds(say("a bite"), step.bite_s, *_BITE_S, unit=" s")
    yield from rate_faults(facts.rates)
    if facts.curve is not None:
        yield from curve_faults(facts.curve)
    elif facts.stage is Stage.TONES:
        yield say("it has no curve")
    for bare in facts.bare_cm2:
        yield from bounds(say("the bare metal"), bare, 0.0, _AREA_CM2, unit=" cm²")
    yield from bounds(say("the depth bitten"), facts.um_per_min, 0.0, 1e4, unit=" µm/min")
    yield from bounds(say("the longest dip"), facts.longest_dip_s, 1.0, _BITE_S[1], unit=" s")
    yield from bounds(say("the rate"), facts.rate, *_RATE)
    yield from bounds(say("the rate gained over 10 °C"), facts.q, *_GAINED)
    yield from bounds(say("the count before a bite"), facts.count_in_s, 0.0, 600.0, unit=" s")


def _ranges(order: Order, turned: Callable[[float], float]) -> Order:
    """The order with the upper ends of its ranges turned: nobody may know them."""
    return replace(
        order,
        tones=tuple(replace(tone, longest_s=turned(tone.longest_s)) for tone in order.tones),
        steps=tuple(replace(step, longest_s=turned(step.longest_s)) for step in order.steps),
    )
