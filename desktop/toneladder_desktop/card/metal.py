"""The plate itself: how large, of which metal, under which ground."""

from dataclasses import replace

from PySide6.QtWidgets import QWidget

from toneladder.bite.values import Fineness, GrainKind, Metal
from toneladder.picture.values import PlateSize
from toneladder.plate.limits import SIDE_MM
from toneladder.plate.values import Plate
from toneladder.quantities import read_size, write_size
from toneladder.wording import say
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.card.decision import Decision, Facts
from toneladder_desktop.card.pairs import fitting_mordant, why_not
from toneladder_desktop.fittings.choice import Choice
from toneladder_desktop.fittings.field import Field


class PlateDecision(Decision):
    """Size, metal, grain."""

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(bench, parent)
        self.sides = Field(
            say("Width × height, as printed"), _read_size, self._take_size, parent=self
        )
        self.metal = Choice(
            say("Metal"), [(m, say(m.value)) for m in Metal], self._take_metal, self
        )
        self.rows.addWidget(self.sides)
        self.rows.addWidget(self.metal)
        self.refused = self.note()
        self.refused.hide()
        self.grain = Choice(
            say("Grain"),
            [
                (GrainKind.ROSIN, say("rosin, melted")),
                (GrainKind.SPRAY, say("spray")),
            ],
            self._take_grain,
            self,
        )
        self.fineness = Choice(
            say("Grain is"), [(f, say(f.value)) for f in Fineness], self._take_fineness, self
        )
        self.rows.addWidget(self.grain)
        self.rows.addWidget(self.fineness)

    def question(self) -> str:
        """What is decided."""
        return say("Plate")

    def answer(self, facts: Facts) -> tuple[str, str]:
        """The answer, and a note to it."""
        plate = facts.plate
        size = write_size(plate.size.width_mm, plate.size.height_mm, facts.manner)
        conditions = plate.conditions
        return (
            say("{metal}, {size}", metal=say(conditions.metal.value), size=size),
            say(
                "{grain}, {fineness} grain",
                grain=say(conditions.grain.value),
                fineness=say(conditions.fineness.value),
            ),
        )

    def show_facts(self, facts: Facts) -> None:
        """Bring every control to what the plate says."""
        self.manner = facts.manner
        size, conditions = facts.plate.size, facts.plate.conditions
        self.sides.show_value(write_size(size.width_mm, size.height_mm, facts.manner))
        self.metal.show_value(conditions.metal)
        self.grain.show_value(conditions.grain)
        self.fineness.show_value(conditions.fineness)
        self.refused.hide()

    def _take_size(self, sides: tuple[float, float]) -> None:
        size = PlateSize(*sides)
        sentence = say("Make the plate {size}", size=write_size(*sides, self.manner))
        self.change(sentence, replace(self.plate, size=size))

    def _take_metal(self, metal: Metal) -> None:
        conditions = self.plate.conditions
        mordant = fitting_mordant(metal, conditions.mordant)
        wanted = replace(conditions, metal=metal, mordant=mordant)
        reason = why_not(wanted)
        if reason:
            self.refused.setText(reason)
            self.refused.show()
            return
        sentence = say("Take {metal}", metal=say(wanted.metal.value))
        if mordant is not conditions.mordant:
            sentence = say(
                "Take {metal}, bitten in {mordant}",
                metal=say(wanted.metal.value),
                mordant=say(mordant.value),
            )
        self.change(sentence, replace(self.plate, conditions=wanted))

    def _take_grain(self, grain: GrainKind) -> None:
        sentence = say("Take {grain} as the grain", grain=say(grain.value))
        self.change(sentence, self._with(grain=grain))

    def _take_fineness(self, fineness: Fineness) -> None:
        sentence = say("Take a {fineness} grain", fineness=say(fineness.value))
        self.change(sentence, self._with(fineness=fineness))

    def _with(self, **new: object) -> Plate:
        conditions = replace(self.plate.conditions, **new)  # type: ignore[arg-type] # its fields
        return replace(self.plate, conditions=conditions)


def _read_size(text: str) -> tuple[float, float]:
    return read_size(text, least_mm=SIDE_MM[0], most_mm=SIDE_MM[1])
