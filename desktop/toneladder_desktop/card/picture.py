"""Which picture, how much of its small detail is let go, and which way up it lies."""

from dataclasses import replace

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QPushButton, QWidget

from toneladder.picture.values import PlateSize
from toneladder.quantities import read_length, write_length
from toneladder.wording import say
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.card.decision import Decision, Facts
from toneladder_desktop.fittings.field import Field

_WHOLE = 0.995
"""Share of the picture from which on nobody misses the rest."""


class PictureDecision(Decision):
    """The picture; ``other_wanted`` asks for another one, ``laying_wanted`` to lay it."""

    other_wanted = Signal()
    laying_wanted = Signal()

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(bench, parent)
        self.squint = Field(
            say("Squint: let go of detail under"), _read_squint, self._take_squint, parent=self
        )
        self.rows.addWidget(self.squint)
        self.edges = QCheckBox(say("keep edges sharp"), self)
        self.edges.clicked.connect(self._keep_edges)
        self.rows.addWidget(self.edges)
        self.lay = QPushButton(say("Lay the plate on it …"), self)
        self.lay.clicked.connect(self.laying_wanted)
        self.rows.addWidget(self.lay)
        self.turn = QPushButton(say("Quarter turn"), self)
        self.turn.clicked.connect(self._turn)
        self.mirror = QPushButton(say("Mirror"), self)
        self.mirror.setAccessibleName(say("Mirror the picture, left to right"))
        self.mirror.clicked.connect(self._mirror)
        self.beside(self.turn, self.mirror)
        self.other = QPushButton(say("Another picture …"), self)
        self.other.clicked.connect(self.other_wanted)
        self.rows.addWidget(self.other)

    def question(self) -> str:
        """What is decided."""
        return say("Picture")

    def answer(self, facts: Facts) -> tuple[str, str]:
        """The answer, and a note to it."""
        from toneladder.picture.placing import share_taken

        laying, picture = facts.plate.laying, facts.plate.picture
        share = share_taken(laying, facts.plate.size, (picture.width, picture.height))
        part = say("whole picture") if share >= _WHOLE else say("part of the picture")
        squint = write_length(_squint_mm(facts), facts.manner)
        return picture.name, say("squint {squint} · {part}", squint=squint, part=part)

    def show_facts(self, facts: Facts) -> None:
        """Bring every control to what the plate says."""
        self.manner = facts.manner
        self.squint.show_value(write_length(_squint_mm(facts), facts.manner))
        self.edges.setChecked(facts.plate.keeps_edges)

    def _take_squint(self, squint_mm: float) -> None:
        sentence = say("Squint {squint}", squint=write_length(squint_mm, self.manner))
        self.change(sentence, replace(self.plate, squint_mm=squint_mm))

    def _keep_edges(self) -> None:
        kept = self.edges.isChecked()
        sentence = say("Squint, and keep edges") if kept else say("Squint evenly")
        self.change(sentence, replace(self.plate, keeps_edges=kept))

    def _turn(self) -> None:
        plate = self.plate
        turned = replace(plate.laying, turn_deg=(plate.laying.turn_deg + 90.0) % 360.0)
        size = PlateSize(plate.size.height_mm, plate.size.width_mm)
        self.change(say("Turn picture and plate"), replace(plate, laying=turned, size=size))

    def _mirror(self) -> None:
        plate = self.plate
        flipped = replace(plate.laying, mirrored=not plate.laying.mirrored)
        self.change(say("Mirror the picture"), replace(plate, laying=flipped))


def _read_squint(text: str) -> float:
    return read_length(text, least_mm=0.0, most_mm=50.0)


def _squint_mm(facts: Facts) -> float:
    squint = facts.plate.squint_mm
    return facts.plate.brush.mark_mm / 2.0 if squint is None else squint
