"""The bath: which mordant, how warm, how strong, still or moving; and what to beware of."""

from dataclasses import replace

from PySide6.QtWidgets import QHBoxLayout, QWidget

from toneladder.bite.values import BiteCurve, Mordant, Movement, Standing
from toneladder.plate.values import Plate
from toneladder.quantities import read_strength, read_temperature, write_temperature
from toneladder.wording import say
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.card.decision import Decision, Facts
from toneladder_desktop.card.pairs import why_not
from toneladder_desktop.drawing.style import NEAR
from toneladder_desktop.fittings.choice import Choice
from toneladder_desktop.fittings.field import Field


class BathDecision(Decision):
    """Mordant, temperature, strength, movement."""

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(bench, parent)
        self.mordant = Choice(
            say("Mordant"), [(m, say(m.value)) for m in Mordant], self._take_mordant, self
        )
        self.rows.addWidget(self.mordant)
        self.refused = self.note()
        self.refused.hide()
        self.temperature = Field(
            say("Temperature"), read_temperature, self._take_temperature, parent=self
        )
        self.strength = Field(
            say("Strength"),
            _read_strength,
            self._take_strength,
            hint=say("not said"),
            parent=self,
        )
        self.movement = Choice(
            say("The bath is"), [(m, say(m.value)) for m in Movement], self._take_movement, self
        )
        both = QHBoxLayout()
        both.setSpacing(NEAR)
        both.addWidget(self.temperature, 1)
        both.addWidget(self.strength, 1)
        self.rows.addLayout(both)
        self.rows.addWidget(self.movement)
        self.source = self.note()
        self.cautions = self.note()

    def question(self) -> str:
        """What is decided."""
        return say("Bath")

    def answer(self, facts: Facts) -> tuple[str, str]:
        """The answer, and a note to it."""
        conditions = facts.plate.conditions
        warmth = write_temperature(conditions.temperature_c, facts.manner)
        strip = facts.curve is not None and facts.curve.standing is Standing.STRIP
        note = say("times from a strip") if strip else say("no strip: times untested")
        return say(conditions.mordant.value), say("{warmth} · {note}", warmth=warmth, note=note)

    def show_facts(self, facts: Facts) -> None:
        """Bring every control to what the plate says."""
        self.manner = facts.manner
        conditions = facts.plate.conditions
        self.mordant.show_value(conditions.mordant)
        self.refused.hide()
        self.temperature.show_value(write_temperature(conditions.temperature_c, facts.manner))
        self.strength.show_value(conditions.strength)
        self.movement.show_value(conditions.movement)
        if facts.curve is not None:
            self.source.setText(_where_from(facts.curve))
        if facts.plan is not None:
            self.cautions.setText("\n".join(facts.plan.order.cautions[:2]))

    def _take_mordant(self, mordant: Mordant) -> None:
        wanted = replace(self.plate.conditions, mordant=mordant)
        reason = why_not(wanted)
        if reason:
            self.refused.setText(reason)
            self.refused.show()
            return
        sentence = say("Bite in {mordant}", mordant=say(wanted.mordant.value))
        self.change(sentence, replace(self.plate, conditions=wanted))

    def _take_temperature(self, warmth_c: float) -> None:
        sentence = say("Bath at {warmth}", warmth=write_temperature(warmth_c, self.manner))
        self.change(sentence, self._with(temperature_c=warmth_c))

    def _take_strength(self, strength: str) -> None:
        sentence = (
            say("Bath of {strength}", strength=strength) if strength else say("Strength not said")
        )
        self.change(sentence, self._with(strength=strength))

    def _take_movement(self, movement: Movement) -> None:
        sentence = say("A bath that is {movement}", movement=say(movement.value))
        self.change(sentence, self._with(movement=movement))

    def _with(self, **new: object) -> Plate:
        conditions = replace(self.plate.conditions, **new)  # type: ignore[arg-type] # its fields
        return replace(self.plate, conditions=conditions)


def _where_from(curve: BiteCurve) -> str:
    if curve.standing is Standing.STRIP:
        return say("Times are from a strip: {source}.", source=curve.source)
    return say("Times are starting points, untested: {source}.", source=curve.source)


def _read_strength(text: str) -> str:
    return read_strength(text) if text.strip() else ""
