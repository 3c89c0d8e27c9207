"""The order that a session was begun with, as text: enough to come back to it after a crash."""

import math
from collections.abc import Callable
from dataclasses import asdict, dataclass, replace

from toneladder.errors import TankError
from toneladder.order.values import Order
from toneladder.records import listed, read_record, text_of
from toneladder.tank.values import Facts
from toneladder.wording import say

LONGEST_TEXT = 2_000_000
_UNKNOWN_S = -1.0  # a text of numbers has no infinite one


@dataclass(frozen=True, slots=True)
class Begun:
    """An order and what it was worked out with."""

    order: Order
    facts: Facts


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
    if begun is None or faults or not begun.order.steps:
        raise TankError(
            say(
                "The order of this session cannot be read: {faults}. What was logged is kept.",
                faults=listed(faults) or say("it has no steps"),
            )
        )
    told = _ranges(begun.order, lambda longest: math.inf if longest < 0.0 else longest)
    return replace(begun, order=told)


def _ranges(order: Order, turned: Callable[[float], float]) -> Order:
    """The order with the upper ends of its ranges turned: nobody may know them."""
    return replace(
        order,
        tones=tuple(replace(tone, longest_s=turned(tone.longest_s)) for tone in order.tones),
        steps=tuple(replace(step, longest_s=turned(step.longest_s)) for step in order.steps),
    )
