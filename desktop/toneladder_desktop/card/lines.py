"""Pen lines: whether they are bitten first, what counts as one, how long they bite."""

from dataclasses import replace

from PySide6.QtWidgets import QCheckBox, QWidget

from toneladder.lines.limits import CONTRAST, WIDEST_MM
from toneladder.lines.values import MOST_DEPTHS, Lines
from toneladder.quantities import read_length, read_number, write_length, write_span
from toneladder.wording import say, say_number
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.card.bites import read_bites, write_bites
from toneladder_desktop.card.decision import Decision, Facts
from toneladder_desktop.fittings.choice import Choice
from toneladder_desktop.fittings.field import Field

_CONTRAST_PER_DARKNESS = 10.0
_REMARKS = 3
_LONG_CM = 1000.0


class LinesDecision(Decision):
    """Lines in the tones, or bitten first through a hard ground."""

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(bench, parent)
        self.first = Choice(
            say("Pen lines"),
            [(False, say("none: all is tone")), (True, say("bitten first"))],
            self._take_first,
            self,
        )
        self.widest = Field(say("Widest line"), _read_widest, self._take_widest, parent=self)
        self.contrast = Field(
            say("More darkness by"), _read_contrast, self._take_contrast, parent=self
        )
        self.contrast.line.setAccessibleName(say("Darker than what lies beside it, by"))
        self.depths = Choice(
            say("Depths"),
            [(n, say_number("{n} depth", "{n} depths", n)) for n in range(1, MOST_DEPTHS + 1)],
            self._take_depths,
            self,
        )
        self.bites = Field(
            say("Total bites, finest first"), read_bites, self._take_bites, parent=self
        )
        self.over = QCheckBox(say("painted over before tones"), self)
        self.over.setAccessibleName(say("Lines painted over before the tones are bitten"))
        self.over.clicked.connect(self._take_over)
        self.rows.addWidget(self.first)
        self.beside(self.widest, self.contrast)
        for part in (self.depths, self.bites, self.over):
            self.rows.addWidget(part)
        self.said = self.note()

    def question(self) -> str:
        """What is decided."""
        return say("Lines")

    def answer(self, facts: Facts) -> tuple[str, str]:
        """The answer, and a note to it."""
        lines = facts.plate.lines
        if lines is None:
            return say("none"), say("all is tone")
        depths = say_number("{n} depth", "{n} depths", lines.depths)
        bites = write_bites(_bites(facts, lines)) or say("bites not known")
        return say("bitten first, {depths}", depths=depths), say(
            "{length} · {bites}", length=_length(facts), bites=bites
        )

    def show_facts(self, facts: Facts) -> None:
        """Bring every control to what the plate says."""
        self.manner = facts.manner
        lines = facts.plate.lines
        self.first.show_value(lines is not None)
        for part in (self.widest, self.contrast, self.depths, self.bites, self.over):
            part.setVisible(lines is not None)
        if lines is None:
            self.said.setText(
                say(
                    "For a drawing in lines over washes: lines are bitten first, through a hard"
                    " ground, and taken out of the tones."
                )
            )
            return
        self.widest.show_value(write_length(lines.widest_mm, facts.manner))
        contrast = lines.contrast / _CONTRAST_PER_DARKNESS
        self.contrast.show_value(facts.manner.number(contrast, 2))
        self.depths.show_value(lines.depths)
        self.bites.line.setPlaceholderText(
            write_bites(_bites(facts, replace(lines, bites_s=()))) or say("not known")
        )
        self.bites.show_value(write_bites(lines.bites_s))
        self.over.setChecked(lines.stopped_out)
        self.said.setText("\n".join(_remarks(facts, lines)))

    def _take_first(self, first: bool) -> None:
        if first:
            self._change(say("Bite lines first"), Lines())
        else:
            self.change(say("Bite no lines"), replace(self.plate, lines=None))

    def _take_widest(self, widest_mm: float) -> None:
        sentence = say("Lines up to {widest} wide", widest=write_length(widest_mm, self.manner))
        self._change(sentence, replace(self._lines(), widest_mm=widest_mm))

    def _take_contrast(self, contrast: float) -> None:
        darker = self.manner.number(contrast / _CONTRAST_PER_DARKNESS, 2)
        sentence = say("Lines are darker by {darker}", darker=darker)
        self._change(sentence, replace(self._lines(), contrast=contrast))

    def _take_depths(self, depths: int) -> None:
        sentence = say_number("Bite lines in one depth", "Bite lines in {n} depths", depths)
        self._change(sentence, replace(self._lines(), depths=depths, bites_s=()))

    def _take_bites(self, bites_s: tuple[float, ...]) -> None:
        """As many bites as are written, so many depths."""
        if not bites_s:
            lines = replace(self._lines(), bites_s=())
            self._change(say("Bite lines as they usually are"), lines)
            return
        sentence = say("Bite lines {bites}", bites=write_bites(bites_s))
        self._change(sentence, replace(self._lines(), depths=len(bites_s), bites_s=bites_s))

    def _take_over(self) -> None:
        over = self.over.isChecked()
        sentence = say("Paint the lines over") if over else say("Leave the lines open")
        self._change(sentence, replace(self._lines(), stopped_out=over))

    def _lines(self) -> Lines:
        return self.plate.lines or Lines()

    def _change(self, sentence: str, lines: Lines) -> None:
        self.change(sentence, replace(self.plate, lines=lines))


def _bites(facts: Facts, lines: Lines) -> tuple[float, ...]:
    from toneladder.lines.bites import line_bites

    return line_bites(lines, facts.plate.conditions)


def _length(facts: Facts) -> str:
    if facts.plan is None or facts.plan.prepared.lines is None:
        return "…"
    length = sum(facts.plan.prepared.lines.lengths_cm)
    if length >= _LONG_CM:
        return say("{length} m", length=facts.manner.number(length / 100.0, 1))
    return write_span(10.0 * length, facts.manner)


def _remarks(facts: Facts, lines: Lines) -> tuple[str, ...]:
    """What may go wrong with these lines under these tones, and what the bites rest on."""
    if facts.plan is None:
        return ()
    from toneladder.order.line_steps import line_warnings

    order = facts.plan.order
    longest_s = order.tones[-1].total_bite_s
    said = line_warnings(lines, facts.plate.conditions, order.line_steps, longest_s)
    if not any(step.length_cm for step in order.line_steps):
        return (say("No lines were found so narrow and so dark."), *list(said)[: _REMARKS - 1])
    return tuple(said)[:_REMARKS]


def _read_widest(text: str) -> float:
    return read_length(text, least_mm=WIDEST_MM[0], most_mm=WIDEST_MM[1])


def _read_contrast(text: str) -> float:
    least, most = (end / _CONTRAST_PER_DARKNESS for end in CONTRAST)
    return read_number(text, least, most, "1.2") * _CONTRAST_PER_DARKNESS
