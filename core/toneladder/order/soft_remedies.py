"""Remedies of soft passages in the order, each at its own moment."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from toneladder.borders.remedies import Passage, moment
from toneladder.borders.values import Remedy
from toneladder.order.values import Order
from toneladder.wording import say_number

MOST_AT_ONCE = 3
"""More remedies at one moment are counted, and stand on the step's map."""


def with_remedies(order: Order, passages: Iterable[Passage]) -> Order:
    """``order`` with the remedies that were chosen by hand; what is only suggested stays out.

    Parameters
    ----------
    order : Order
        Of the plate.
    passages : iterable of Passage
        All of the plate's; those whose hard border is left have nothing to say.
    """
    told: dict[int | None, list[str]] = {}
    chosen = (one for one in passages if one.by_hand and one.remedy is not Remedy.NONE)
    for passage in sorted(chosen, key=lambda one: -one.length_mm):
        step, sentence = moment(passage)
        told.setdefault(step, []).append(sentence)
    steps = tuple(
        replace(step, remedies=_few(told.get(step.step, ()), step.step)) for step in order.steps
    )
    last = _few(told.get(None, ()), len(order.steps))
    return replace(order, steps=steps, after=(*order.after, *last))


def _few(sentences: Sequence[str], step: int) -> tuple[str, ...]:
    """The first of them, and how many more the map of ``step`` shows."""
    more = len(sentences) - MOST_AT_ONCE
    if more <= 0:
        return tuple(sentences)
    rest = say_number(
        "{n} more soft passage is dotted on the map of step {step}.",
        "{n} more soft passages are dotted on the map of step {step}.",
        more,
        step=step,
    )
    return (*sentences[:MOST_AT_ONCE], rest)
