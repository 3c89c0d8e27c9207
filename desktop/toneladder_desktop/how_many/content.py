"""What the test strip shows: one plate in several numbers of tones, as one frozen value."""

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from toneladder.quantities import Manner
from toneladder.tones.values import FEWEST_TONES, MOST_TONES
from toneladder_desktop.how_many.work import Floor, Offered

if TYPE_CHECKING:
    from toneladder.bite.values import Standing
    from toneladder.plan.comparing import Enough, Gain, Offer
    from toneladder.plate.values import Plate

USUAL_MOST = 10
"""Columns go up to this many tones; more are shown if asked for."""


@dataclass(frozen=True, slots=True, eq=False)
class Content:
    """Everything on the test strip.

    ``counts`` are the numbers of tones, a column each, and ``offered`` what is known of them;
    ``focus`` is the column looked at. ``enough`` and ``floor`` are None until every number is
    worked out; ``least_gain`` is what one more tone must bring, in darkness.
    """

    plate: "Plate"
    standing: "Standing"
    counts: tuple[int, ...]
    offered: tuple[Offered | None, ...]
    focus: int
    least_gain: float
    enough: "Enough | None" = None
    floor: float | None = None
    manner: Manner = Manner()

    @property
    def own(self) -> int:
        """The number of tones that the plate asks for now."""
        return self.plate.tones.count

    @property
    def looked_at(self) -> Offered | None:
        """What is known of the column in focus."""
        return self.offered[self.focus]

    @property
    def hard(self) -> bool:
        """Whether any column is hard to paint."""
        offers = (self.offer(k) for k in range(len(self.counts)))
        return any(o is not None and o.costs is not None and o.costs.hard_to_paint for o in offers)

    @property
    def missing(self) -> tuple[int, ...]:
        """The numbers of tones of which tones or costs are still to be worked out."""
        return tuple(
            count
            for count, known in zip(self.counts, self.offered, strict=True)
            if known is None or known.offer.costs is None
        )

    def offer(self, column: int) -> "Offer | None":
        """The offer of a column; None while it is being worked out, or past the last one."""
        if column >= len(self.offered):
            return None
        offered = self.offered[column]
        return None if offered is None else offered.offer

    def gain(self, column: int) -> "Gain | None":
        """What one more tone than in ``column`` brings and costs."""
        from toneladder.plan.comparing import gain

        fewer, more = self.offer(column), self.offer(column + 1)
        return None if fewer is None or more is None else gain(fewer, more)

    def is_enough(self, column: int) -> bool:
        """Whether this column's number of tones is the one that is enough."""
        return self.enough is not None and self.enough.asked == self.counts[column]

    def asking(self, least_gain: float) -> "Content":
        """The same where one more tone must bring another gain."""
        return _judged(replace(self, least_gain=least_gain))

    def focused(self, column: int) -> "Content":
        """The same with another column in focus, as far as there are columns."""
        return replace(self, focus=min(max(column, 0), len(self.counts) - 1))

    def up_to(self, most: int) -> "Content":
        """Columns up to ``most`` tones; not fewer than usual, and never without the plate's own."""
        most = min(max(most, USUAL_MOST, self.own), MOST_TONES)
        counts = tuple(range(FEWEST_TONES, most + 1))
        offered = (*self.offered, *[None] * len(counts))[: len(counts)]
        focus = min(self.focus, len(counts) - 1)
        changed = replace(self, counts=counts, offered=tuple(offered), focus=focus)
        return _judged(changed)

    def with_answer(self, answer: Offered | Floor) -> "Content":
        """The same with one thing more known."""
        if isinstance(answer, Floor):
            return replace(self, floor=answer.darkness)
        offered = tuple(
            answer if count == answer.offer.asked else known
            for count, known in zip(self.counts, self.offered, strict=True)
        )
        return _judged(replace(self, offered=offered))


def content_of(plate: "Plate", standing: "Standing", least_gain: float, manner: Manner) -> Content:
    """The test strip of a plate of which nothing is known yet, the plate's own column in focus."""
    empty = Content(plate, standing, (), (), 0, least_gain, manner=manner).up_to(USUAL_MOST)
    return empty.focused(plate.tones.count - FEWEST_TONES)


def _judged(content: Content) -> Content:
    """With how many are enough, as soon as every column has its tones."""
    from toneladder.plan.comparing import enough

    offers = [known.offer for known in content.offered if known is not None]
    if len(offers) < len(content.counts):
        return replace(content, enough=None)
    found = enough(offers, content.least_gain, manner=content.manner)
    return replace(content, enough=found)
