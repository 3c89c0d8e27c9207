"""What of the picture is paper, what is black, and how the greys lie between."""

from dataclasses import replace

from PySide6.QtWidgets import QWidget

from toneladder.quantities import name_tone, read_tone, write_tone
from toneladder.tones.values import Range
from toneladder.wording import say
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.card.decision import Decision, Facts
from toneladder_desktop.fittings.choice import Choice
from toneladder_desktop.fittings.field import Field


def middles() -> tuple[tuple[float, str], ...]:
    """How the middle greys may lie: the bend of the range, and its name."""
    return (
        (1.0, say("much lighter")),
        (0.5, say("lighter")),
        (0.0, say("as they are")),
        (-0.5, say("darker")),
        (-1.0, say("much darker")),
    )


class GreysDecision(Decision):
    """Paper from, black from, middle greys; empty fields leave the ends to the picture."""

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(bench, parent)
        self.paper = Field(
            say("Paper from"), _read_end, self._take_paper, hint=say("as it is"), parent=self
        )
        self.black = Field(
            say("Black from"), _read_end, self._take_black, hint=say("as it is"), parent=self
        )
        self.middle = Choice(say("Middle greys"), middles(), self._take_middle, self)
        self.beside(self.paper, self.black)
        self.rows.addWidget(self.middle)
        self.ends = self.note()

    def question(self) -> str:
        """What is decided."""
        return say("Greys")

    def answer(self, facts: Facts) -> tuple[str, str]:
        """The answer, and a note to it."""
        span = facts.plate.tones.range
        middle = dict(middles()).get(span.middle, say("bent"))
        note = say("middle greys {middle}", middle=middle)
        if span.paper_from is None and span.black_from is None:
            return say("as the picture has them"), note
        white, black = (
            say("picture") if end is None else write_tone(end, facts.manner)
            for end in (span.paper_from, span.black_from)
        )
        return say("paper {white}, black {black}", white=white, black=black), note

    def show_facts(self, facts: Facts) -> None:
        """Bring every control to what the plate says."""
        self.manner = facts.manner
        span = facts.plate.tones.range
        self.paper.show_value(self._written(span.paper_from))
        self.black.show_value(self._written(span.black_from))
        self.middle.show_value(span.middle)
        if facts.plan is not None:
            from toneladder.tones.lattice import ends_of

            white, black = ends_of(facts.plan.prepared.lattice, span)
            self.ends.setText(
                say(
                    "What is lighter than {white} in the picture stays paper, what"
                    " is darker than {black} prints darkest. The ladder shows the greys as they"
                    " are after that.",
                    white=name_tone(white, facts.manner),
                    black=name_tone(black, facts.manner),
                )
            )

    def _written(self, end: float | None) -> str:
        return "" if end is None else write_tone(end, self.manner)

    def _take_paper(self, end: float | None) -> None:
        sentence = (
            say("Paper as the picture has it")
            if end is None
            else say("Paper from {end}", end=name_tone(end, self.manner))
        )
        self._take(sentence, replace(self.plate.tones.range, paper_from=end))

    def _take_black(self, end: float | None) -> None:
        sentence = (
            say("Black as the picture has it")
            if end is None
            else say("Black from {end}", end=name_tone(end, self.manner))
        )
        self._take(sentence, replace(self.plate.tones.range, black_from=end))

    def _take_middle(self, middle: float) -> None:
        sentence = say("Middle greys {middle}", middle=dict(middles())[middle])
        self._take(sentence, replace(self.plate.tones.range, middle=middle))

    def _take(self, sentence: str, span: Range) -> None:
        tones = replace(self.plate.tones, range=span)
        self.change(sentence, replace(self.plate, tones=tones))


def _read_end(text: str) -> float | None:
    return read_tone(text) if text.strip() else None
