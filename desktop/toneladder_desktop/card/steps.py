"""The steps: with which brush, with which varnish, from what time of day."""

from dataclasses import replace

from PySide6.QtWidgets import QWidget

from toneladder.bite.values import Varnish
from toneladder.plate.limits import BRUSH_MM
from toneladder.quantities import read_length, read_time_of_day, write_length
from toneladder.wording import say, say_number
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.card.decision import Decision, Facts
from toneladder_desktop.fittings.choice import Choice
from toneladder_desktop.fittings.field import Field


class StepsDecision(Decision):
    """Brush, varnish, and when work begins."""

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(bench, parent)
        self.mark = Field(say("Smallest dot to paint"), _read_brush, self._take_mark, parent=self)
        self.gap = Field(
            say("Smallest gap to leave open"), _read_brush, self._take_gap, parent=self
        )
        self.varnish = Choice(
            say("Stop-out varnish"), [(v, say(v.value)) for v in Varnish], self._take_varnish, self
        )
        self.start = Field(
            say("Begin at"), _read_start, self._take_start, hint=say("any time"), parent=self
        )
        for part in (self.mark, self.gap, self.varnish, self.start):
            self.rows.addWidget(part)

    def question(self) -> str:
        """What is decided."""
        return say("Steps")

    def answer(self, facts: Facts) -> tuple[str, str]:
        """The answer, and a note to it."""
        brush = write_length(facts.plate.brush.mark_mm, facts.manner)
        note = say(
            "brush {brush} · {varnish} varnish",
            brush=brush,
            varnish=say(facts.plate.conditions.varnish.value),
        )
        count = facts.plate.tones.count - 1 if facts.chosen is None else facts.chosen.count - 1
        steps = say_number("{n} step", "{n} steps", count)
        if facts.plan is None:
            return say("{steps}, … places", steps=steps), note
        places = sum(step.painting.places for step in facts.plan.order.steps)
        return say_number("{steps}, {n} place", "{steps}, {n} places", places, steps=steps), note

    def show_facts(self, facts: Facts) -> None:
        """Bring every control to what the plate says."""
        self.manner = facts.manner
        brush = facts.plate.brush
        self.mark.show_value(write_length(brush.mark_mm, facts.manner))
        self.gap.show_value(write_length(brush.gap_mm, facts.manner))
        self.varnish.show_value(facts.plate.conditions.varnish)
        self.start.show_value(_as_said(facts.plate.start or ""))

    def _take_mark(self, mark_mm: float) -> None:
        sentence = say("Paint dots from {mark}", mark=write_length(mark_mm, self.manner))
        brush = replace(self.plate.brush, mark_mm=mark_mm)
        self.change(sentence, replace(self.plate, brush=brush))

    def _take_gap(self, gap_mm: float) -> None:
        sentence = say("Leave gaps from {gap}", gap=write_length(gap_mm, self.manner))
        brush = replace(self.plate.brush, gap_mm=gap_mm)
        self.change(sentence, replace(self.plate, brush=brush))

    def _take_varnish(self, varnish: Varnish) -> None:
        sentence = say("Stop out with {varnish} varnish", varnish=say(varnish.value))
        conditions = replace(self.plate.conditions, varnish=varnish)
        self.change(sentence, replace(self.plate, conditions=conditions))

    def _take_start(self, start: str) -> None:
        sentence = (
            say("Begin at {start}", start=_as_said(start)) if start else say("Begin at any time")
        )
        self.change(sentence, replace(self.plate, start=start or None))


def _as_said(start: str) -> str:
    """A time of day without an idle nought, as everywhere on the bench.

    >>> _as_said("09:30")
    '9:30'
    """
    return start.removeprefix("0")


def _read_brush(text: str) -> float:
    return read_length(text, least_mm=BRUSH_MM[0], most_mm=BRUSH_MM[1])


def _read_start(text: str) -> str:
    return read_time_of_day(text) if text.strip() else ""
