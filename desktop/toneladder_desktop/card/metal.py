"""The plate itself: how large, of which metal, under which ground."""

from dataclasses import replace

from PySide6.QtWidgets import QWidget

from toneladder.bite.values import Fineness, GrainKind, Metal
from toneladder.picture.values import PlateSize
from toneladder.plate.limits import MARGIN_STRIP_MM, SIDE_MM
from toneladder.plate.values import Plate
from toneladder.quantities import Manner, read_length, read_size, write_length, write_size
from toneladder.strip.values import Edge, MarginStrip
from toneladder.wording import say
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.card.decision import Decision, Facts
from toneladder_desktop.card.pairs import fitting_mordant, why_not
from toneladder_desktop.fittings.choice import Choice
from toneladder_desktop.fittings.field import Field

_NO_EDGE = ""
_SAME_MM = 0.06  # an inch plate's side is written to the tenth of a millimetre


class PlateDecision(Decision):
    """Size, metal, grain, and a strip in the margin."""

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(bench, parent)
        self.sides = Field(
            say("Width × height, as printed"), _read_size, self._take_size, parent=self
        )
        self.metal = Choice(
            say("Metal"), [(m, say(m.value)) for m in Metal], self._take_metal, self
        )
        self.common = Choice(say("Or a common size"), _common(Manner()), self._take_size, self)
        for part in (self.sides, self.common, self.metal):
            self.rows.addWidget(part)
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
        self.edge = Choice(
            say("Strip in margin"),
            [(_NO_EDGE, say("none")), *((edge.value, say(edge.value)) for edge in Edge)],
            self._take_edge,
            self,
        )
        self.wide = Field(say("Its width"), _read_wide, self._take_wide, parent=self)
        self.wide.line.setAccessibleName(say("Width of the strip in the margin"))
        self.beside(self.edge, self.wide)

    def question(self) -> str:
        """What is decided."""
        return say("Plate")

    def answer(self, facts: Facts) -> tuple[str, str]:
        """The answer, and a note to it."""
        plate = facts.plate
        size = write_size(plate.size.width_mm, plate.size.height_mm, facts.manner)
        conditions = plate.conditions
        note = say(
            "{grain}, {fineness} grain",
            grain=say(conditions.grain.value),
            fineness=say(conditions.fineness.value),
        )
        if plate.margin_strip is not None:
            edge = say(plate.margin_strip.edge.value)
            note = say("{note} · strip {edge}", note=note, edge=edge)
        return say("{metal}, {size}", metal=say(conditions.metal.value), size=size), note

    def show_facts(self, facts: Facts) -> None:
        """Bring every control to what the plate says."""
        self.manner = facts.manner
        size, conditions = facts.plate.size, facts.plate.conditions
        self.sides.show_value(write_size(size.width_mm, size.height_mm, facts.manner))
        sizes = _common(facts.manner, upright=_is_upright(facts.plate))
        self.common.offer(sizes)
        self.common.show_value(_nearest((size.width_mm, size.height_mm), sizes))
        self.metal.show_value(conditions.metal)
        self.grain.show_value(conditions.grain)
        self.fineness.show_value(conditions.fineness)
        self.refused.hide()
        strip = facts.plate.margin_strip
        self.edge.show_value(_NO_EDGE if strip is None else strip.edge.value)
        self.wide.setVisible(strip is not None)
        self.wide.show_value("" if strip is None else write_length(strip.width_mm, facts.manner))

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
        self.change(sentence, replace(self.plate, conditions=wanted, bath=""))

    def _take_grain(self, grain: GrainKind) -> None:
        sentence = say("Take {grain} as the grain", grain=say(grain.value))
        self.change(sentence, self._with(grain=grain))

    def _take_fineness(self, fineness: Fineness) -> None:
        sentence = say("Take a {fineness} grain", fineness=say(fineness.value))
        self.change(sentence, self._with(fineness=fineness))

    def _take_edge(self, edge: str) -> None:
        if edge == _NO_EDGE:
            self.change(say("No strip in the margin"), replace(self.plate, margin_strip=None))
            return
        strip = replace(self.plate.margin_strip or MarginStrip(), edge=Edge(edge))
        sentence = say("A strip in the margin: {edge}", edge=say(strip.edge.value))
        self.change(sentence, replace(self.plate, margin_strip=strip))

    def _take_wide(self, width_mm: float) -> None:
        strip = replace(self.plate.margin_strip or MarginStrip(), width_mm=width_mm)
        wide = write_length(width_mm, self.manner)
        sentence = say("A strip of {width} in the margin", width=wide)
        self.change(sentence, replace(self.plate, margin_strip=strip))

    def _with(self, **new: object) -> Plate:
        conditions = replace(self.plate.conditions, **new)  # type: ignore[arg-type] # its fields
        return replace(self.plate, conditions=conditions)


def _read_size(text: str) -> tuple[float, float]:
    return read_size(text, least_mm=SIDE_MM[0], most_mm=SIDE_MM[1])


def _read_wide(text: str) -> float:
    return read_length(text, least_mm=MARGIN_STRIP_MM[0], most_mm=MARGIN_STRIP_MM[1])


def _common(manner: Manner, *, upright: bool = False) -> list[tuple[tuple[float, float], str]]:
    """Common sizes in the unit that is preferred, lying or upright, and how they are written."""
    from toneladder.picture.plate_sizes import common_sizes

    found = []
    for one in common_sizes():
        sides = one.size.width_mm, one.size.height_mm
        if upright:
            sides = sides[1], sides[0]
        if one.in_inches == manner.imperial:
            found.append((sides, write_size(*sides, manner)))
    return found


def _is_upright(plate: Plate) -> bool:
    """Whether what of the picture lies on the plate is taller than wide."""
    crop, picture = plate.laying.crop, plate.picture
    across, down = crop.width * picture.width, crop.height * picture.height
    on_its_side = abs((plate.laying.turn_deg % 180.0) - 90.0) < 45.0
    return across > down if on_its_side else down > across


def _nearest(
    sides: tuple[float, float], offered: list[tuple[tuple[float, float], str]]
) -> tuple[float, float]:
    """The common size that a plate has, or its own, which is none of them."""
    for common, _ in offered:
        if all(abs(one - other) <= _SAME_MM for one, other in zip(sides, common, strict=True)):
            return common
    return sides
