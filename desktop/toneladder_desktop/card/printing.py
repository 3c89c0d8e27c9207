"""Ink and paper, and how wide the margin is."""

from dataclasses import replace

from PySide6.QtWidgets import QWidget

from toneladder.quantities import read_length, write_length
from toneladder.wording import say
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.card.decision import Decision, Facts
from toneladder_desktop.fittings.choice import Choice
from toneladder_desktop.fittings.field import Field


def inks() -> tuple[tuple[str, str], ...]:
    """Inks by colour and name."""
    return (
        ("#1d1b1a", say("black")),
        ("#14171c", say("cool black")),
        ("#33261d", say("brown black")),
        ("#4a2a18", say("sepia")),
        ("#1b2a3f", say("blue black")),
    )


def papers() -> tuple[tuple[str, str], ...]:
    """Papers by colour and name."""
    return (
        ("#f4efe3", say("warm white")),
        ("#f7f7f5", say("white")),
        ("#efe6d0", say("cream")),
        ("#e3dccb", say("buff")),
    )


class PrintingDecision(Decision):
    """Ink, paper, margin."""

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(bench, parent)
        self.ink = Choice(say("Ink"), inks(), self._take_ink, self)
        self.paper = Choice(say("Paper"), papers(), self._take_paper, self)
        self.margin = Field(say("Margin round the plate"), _read_margin, self._take_margin)
        for part in (self.ink, self.paper, self.margin):
            self.rows.addWidget(part)

    def question(self) -> str:
        """What is decided."""
        return say("Ink and paper")

    def answer(self, facts: Facts) -> tuple[str, str]:
        """The answer, and a note to it."""
        printing = facts.plate.printing
        ink, paper = dict(inks()).get(printing.ink), dict(papers()).get(printing.paper)
        answer = say(
            "{ink} on {paper}", ink=ink or say("other ink"), paper=paper or say("other paper")
        )
        margin = write_length(printing.margin_mm, facts.manner)
        return answer, say("margin {margin}", margin=margin)

    def show_facts(self, facts: Facts) -> None:
        """Bring every control to what the plate says."""
        self.manner = facts.manner
        printing = facts.plate.printing
        self.ink.show_value(printing.ink)
        self.paper.show_value(printing.paper)
        self.margin.show_value(write_length(printing.margin_mm, facts.manner))

    def _take_ink(self, ink: str) -> None:
        sentence = say("Print in {ink}", ink=dict(inks())[ink])
        printing = replace(self.plate.printing, ink=ink)
        self.change(sentence, replace(self.plate, printing=printing))

    def _take_paper(self, paper: str) -> None:
        sentence = say("Print on {paper} paper", paper=dict(papers())[paper])
        printing = replace(self.plate.printing, paper=paper)
        self.change(sentence, replace(self.plate, printing=printing))

    def _take_margin(self, margin_mm: float) -> None:
        sentence = say("Margin of {margin}", margin=write_length(margin_mm, self.manner))
        printing = replace(self.plate.printing, margin_mm=margin_mm)
        self.change(sentence, replace(self.plate, printing=printing))


def _read_margin(text: str) -> float:
    return read_length(text, least_mm=0.0, most_mm=500.0)
