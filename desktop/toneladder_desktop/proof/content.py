"""What the proof's page shows: each tone as planned and as printed, and what was really bitten."""

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from toneladder.errors import ToneLadderError
from toneladder.quantities import Manner, read_bite, write_apart, write_bite, write_temperature
from toneladder.wording import say

if TYPE_CHECKING:
    from toneladder.order.values import Order
    from toneladder.proof.values import ProofReading, ToneReading

LEAST = 1.0
"""CIE L* within which a tone printed as planned, as far as an eye can tell."""


@dataclass(frozen=True, slots=True)
class Row:
    """One tone: planned lightness L*, what was read of it, its total bite as typed."""

    tone: int
    planned: float
    bite: str
    reading: "ToneReading | None" = None


@dataclass(frozen=True, slots=True)
class Content:
    """All tones of the plate; bites are those of a bath at ``planned_c``, degrees Celsius."""

    rows: tuple[Row, ...]
    planned_c: float | None = None

    def read(self, reading: "ProofReading") -> "Content":
        """With what a proof told."""
        told = {one.tone: one for one in reading.tones}
        rows = tuple(replace(row, reading=told.get(row.tone)) for row in self.rows)
        return replace(self, rows=rows)

    def bitten(self, tone: int, text: str) -> "Content":
        """A tone's total bite as somebody says it really was."""
        rows = tuple(replace(row, bite=text) if row.tone == tone else row for row in self.rows)
        return replace(self, rows=rows)

    def bites_s(self) -> tuple[float, ...] | None:
        """Total bites of all tones, seconds; None while one cannot be read."""
        try:
            return tuple(read_bite(row.bite) for row in self.rows)
        except ToneLadderError:
            return None

    def fault(self, tone: int) -> str:
        """Why a tone's bite cannot be read, or nothing."""
        try:
            read_bite(self.rows[tone].bite)
        except ToneLadderError as fault:
            return str(fault)
        return ""


def content_of(
    order: "Order", given_s: tuple[float, ...] = (), planned_c: float | None = None
) -> Content:
    """The tones of an order, nothing read yet, with the bites that were really given if known.

    Both are seconds in a bath at ``planned_c``, degrees Celsius.
    """
    planned = tuple(tone.total_bite_s for tone in order.tones)
    bites = given_s if len(given_s) == len(planned) else planned
    return Content(
        tuple(
            Row(tone.tone, tone.lightness, write_bite(total) if total else "0")
            for tone, total in zip(order.tones, bites, strict=True)
        ),
        planned_c,
    )


def bites_head(content: Content, manner: Manner) -> str:
    """What the column of bites is called: a warmer bath gives the same in less time."""
    if content.planned_c is None:
        return say("Really bitten")
    return say("Really bitten, as at {bath}", bath=write_temperature(content.planned_c, manner))


def headline(content: Content, manner: Manner) -> str:
    """The one sentence before any table: what strayed most."""
    read = [row.reading for row in content.rows if row.reading is not None]
    if not read:
        return say("Open a scan of the dry proof: the second or third pull.")
    worst = max(read, key=lambda one: abs(one.difference))
    if abs(worst.difference) <= LEAST:
        return say("Every tone printed as planned, as near as can be told.")
    return say("Tone {n} {how} than planned.", n=worst.tone, how=difference(worst, manner))


def difference(reading: "ToneReading", manner: Manner) -> str:
    """By how much a tone printed darker or lighter."""
    by = write_apart(reading.difference, manner)
    if abs(reading.difference) < 0.5:
        return say("as planned")
    if reading.difference < 0.0:
        return say("is {by} darker", by=by)
    return say("is {by} lighter", by=by)
