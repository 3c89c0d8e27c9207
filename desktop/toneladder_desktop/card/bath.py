"""The bath: which mordant, how warm, how strong, still or moving; and what to beware of."""

from dataclasses import replace

from PySide6.QtCore import Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QPushButton, QWidget

from toneladder.bite.values import BiteCurve, Conditions, Mordant, Movement, Standing
from toneladder.book.values import KeptBath
from toneladder.errors import RefusedPairError
from toneladder.plate.values import Plate
from toneladder.quantities import read_strength, read_temperature, write_temperature
from toneladder.wording import say
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.card.decision import Decision, Facts
from toneladder_desktop.card.pairs import why_not
from toneladder_desktop.fittings.choice import Choice
from toneladder_desktop.fittings.field import Field


class BathDecision(Decision):
    """Which bath of the studio, or mordant, strength and movement of another; temperature.

    ``baths_wanted()`` asks for the baths of the studio book, ``keep_wanted()`` wants this bath
    to be one of them.
    """

    baths_wanted = Signal()
    keep_wanted = Signal()

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(bench, parent)
        self._baths: tuple[KeptBath, ...] = ()
        self._named = ""
        self.kept: Choice[str] = Choice(
            say("Bath of the studio"), _named((), ""), self._take_bath, self
        )
        self.keep = QPushButton(say("Keep this bath"), self)
        self.keep.clicked.connect(self.keep_wanted)
        self.rows.addWidget(self.kept)
        self.rows.addWidget(self.keep)
        self.mordant = Choice(
            say("Mordant"), [(m, say(m.value)) for m in Mordant], self._take_mordant, self
        )
        self.rows.addWidget(self.mordant)
        self.refused = self.note()
        self.refused.hide()
        self._refused_at: Conditions | None = None
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
        self.beside(self.temperature, self.strength)
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
        self._named = facts.plate.bath
        self._show_names()
        self.mordant.show_value(conditions.mordant)
        if self._refused_at != conditions:  # it stays as long as the bath is as it was
            self._refused_at = None
            self.refused.hide()
        self.temperature.show_value(write_temperature(conditions.temperature_c, facts.manner))
        self.strength.show_value(conditions.strength)
        self.movement.show_value(conditions.movement)
        if facts.curve is not None:
            self.source.setText(_where_from(facts.curve))
        if facts.plan is not None:
            self.cautions.setText("\n".join(facts.plan.order.cautions[:2]))

    def show_baths(self, baths: tuple[KeptBath, ...]) -> None:
        """The baths of the studio book that bite."""
        self._baths = baths
        self._show_names()

    def showEvent(self, event: QShowEvent) -> None:
        """Whoever looks wants to see the baths as they are now."""
        super().showEvent(event)
        self.baths_wanted.emit()

    def _show_names(self) -> None:
        self.kept.offer(_named(self._baths, self._named))
        self.kept.show_value(self._named)
        self.keep.setVisible(not self._named)

    def _take_bath(self, name: str) -> None:
        from toneladder.book.baths import require_belongs

        kept = next((one for one in self._baths if one.bath.name == name), None)
        if kept is None:
            self.change(say("No bath of the studio"), replace(self.plate, bath=""))
            return
        bath = kept.bath
        wanted = replace(
            self.plate.conditions,
            mordant=bath.mordant,
            strength=bath.strength,
            movement=bath.movement,
        )
        try:
            require_belongs(bath, wanted)
        except RefusedPairError as refused:
            self._refuse(str(refused))
            return
        sentence = say("Bite in the bath “{name}”", name=name)
        self.change(sentence, replace(self.plate, conditions=wanted, bath=name))

    def _take_mordant(self, mordant: Mordant) -> None:
        wanted = replace(self.plate.conditions, mordant=mordant)
        reason = why_not(wanted)
        if reason:
            self._refuse(reason)
            return
        sentence = say("Bite in {mordant}", mordant=say(wanted.mordant.value))
        self.change(sentence, replace(self.plate, conditions=wanted, bath=""))

    def _refuse(self, sentence: str) -> None:
        """Why the bath stays as it is, until it is another."""
        self._refused_at = self.plate.conditions
        self.mordant.show_value(self._refused_at.mordant)
        self._show_names()
        self.refused.setText(sentence)
        self.refused.show()

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


def _named(baths: tuple[KeptBath, ...], name: str) -> list[tuple[str, str]]:
    """Names to choose from: none, those of the book, and the plate's own if the book lacks it."""
    known = [(one.bath.name, one.bath.name) for one in baths]
    own = [(name, name)] if name and name not in {known_name for known_name, _ in known} else []
    return [("", say("none of them")), *known, *own]


def _where_from(curve: BiteCurve) -> str:
    if curve.standing is Standing.STRIP:
        return say("Times are from a strip: {source}.", source=curve.source)
    return say("Times are starting points, untested: {source}.", source=curve.source)


def _read_strength(text: str) -> str:
    return read_strength(text) if text.strip() else ""
