"""A second grain for a richer black: for which tones, and how it is bitten."""

from dataclasses import replace

from PySide6.QtWidgets import QWidget

from toneladder.bite.values import Fineness, GrainKind
from toneladder.order.values import SecondGrain
from toneladder.quantities import write_tone
from toneladder.wording import say, say_number
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.card.bites import read_bites, write_bites
from toneladder_desktop.card.decision import Decision, Facts
from toneladder_desktop.fittings.choice import Choice
from toneladder_desktop.fittings.field import Field

_MOST_OFFERED = 5


class SecondGrainDecision(Decision):
    """None, or a fresh grain in which only the darkest tones stay open."""

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(bench, parent)
        self.darkest = Choice(say("Second grain for"), _offered(), self._take_darkest, self)
        self.grain = Choice(
            say("Its grain"),
            [(GrainKind.ROSIN, say("rosin, melted")), (GrainKind.SPRAY, say("spray"))],
            self._take_grain,
            self,
        )
        self.fineness = Choice(
            say("Its grain is"), [(f, say(f.value)) for f in Fineness], self._take_fineness, self
        )
        self.bites = Field(
            say("Total bites, lightest first"), read_bites, self._take_bites, parent=self
        )
        for part in (self.darkest, self.grain, self.fineness, self.bites):
            self.rows.addWidget(part)
        self.said = self.note()

    def question(self) -> str:
        """What is decided."""
        return say("Second grain")

    def answer(self, facts: Facts) -> tuple[str, str]:
        """The answer, and a note to it."""
        second = facts.plate.second_grain
        if second is None:
            return say("none"), say("black from one grain")
        answer = say_number(
            "for the darkest tone", "for the {n} darkest tones", _open(facts, second)
        )
        grain, fineness = say(second.grain.value), say(second.fineness.value)
        return answer, say(
            "{grain}, {fineness} · {bites}",
            grain=grain,
            fineness=fineness,
            bites=write_bites(_bites(facts, second)) or "…",
        )

    def show_facts(self, facts: Facts) -> None:
        """Bring every control to what the plate says."""
        self.manner = facts.manner
        second = facts.plate.second_grain
        self.darkest.show_value(0 if second is None else second.darkest)
        for part in (self.grain, self.fineness, self.bites):
            part.setVisible(second is not None)
        if second is None:
            self.said.setText(
                say(
                    "For a richer black: the first grain is cleaned off, a fresh one laid, all but"
                    " the darkest tones stopped out, and bitten again."
                )
            )
            return
        self.grain.show_value(second.grain)
        self.fineness.show_value(second.fineness)
        usual = () if second.bites_s else _bites(facts, second)
        self.bites.line.setPlaceholderText(write_bites(usual) or say("as the darkest tone"))
        self.bites.show_value(write_bites(second.bites_s))
        self.said.setText("\n".join(_remarks(facts)))

    def _take_darkest(self, darkest: int) -> None:
        if not darkest:
            self.change(say("No second grain"), replace(self.plate, second_grain=None))
            return
        sentence = say_number(
            "A second grain for the darkest tone",
            "A second grain for the {n} darkest tones",
            darkest,
        )
        self._change(sentence, replace(self._second(), darkest=darkest, bites_s=()))

    def _take_grain(self, grain: GrainKind) -> None:
        sentence = say("Take {grain} as the second grain", grain=say(grain.value))
        self._change(sentence, replace(self._second(), grain=grain))

    def _take_fineness(self, fineness: Fineness) -> None:
        sentence = say("Take a {fineness} second grain", fineness=say(fineness.value))
        self._change(sentence, replace(self._second(), fineness=fineness))

    def _take_bites(self, bites_s: tuple[float, ...]) -> None:
        """As many bites as are written, so many tones."""
        if not bites_s:
            second = replace(self._second(), bites_s=())
            self._change(say("Bite the second grain as the darkest tone"), second)
            return
        sentence = say("Bite the second grain {bites}", bites=write_bites(bites_s))
        self._change(sentence, replace(self._second(), darkest=len(bites_s), bites_s=bites_s))

    def _second(self) -> SecondGrain:
        return self.plate.second_grain or SecondGrain()

    def _change(self, sentence: str, second: SecondGrain) -> None:
        self.change(sentence, replace(self.plate, second_grain=second))


def _offered() -> list[tuple[int, str]]:
    some = [
        (n, say_number("the darkest tone", "the {n} darkest tones", n))
        for n in range(1, _MOST_OFFERED + 1)
    ]
    return [(0, say("none")), *some]


def _open(facts: Facts, second: SecondGrain) -> int:
    """How many tones it can be for, at most all but white."""
    if facts.chosen is None:
        return second.darkest
    return min(second.darkest, facts.chosen.count - 1)


def _bites(facts: Facts, second: SecondGrain) -> tuple[float, ...]:
    """Total bites in the second grain, one for each bite that is really made."""
    if second.bites_s:
        return second.bites_s
    stage = None if facts.plan is None else facts.plan.order.second_grain
    return () if stage is None else tuple(step.total_bite_s for step in stage.steps)


def _remarks(facts: Facts) -> tuple[str, ...]:
    """What it makes of the tones, and what it costs."""
    plan = facts.plan
    if plan is None or plan.order.second_grain is None:
        return ()
    from toneladder.order.second_grain import alike_warnings

    stage, tones = plan.order.second_grain, plan.order.tones
    deeper = [
        say(
            "Tone {tone} prints {after}, not {before}.",
            tone=one.tone,
            after=write_tone(one.lightness, facts.manner),
            before=write_tone(tones[one.tone].lightness, facts.manner),
        )
        for one in stage.tones
    ]
    hours = facts.manner.number(stage.work_min / 60.0, 1)
    longer = say("It takes {hours} h more, on a day of its own.", hours=hours)
    return (*deeper, longer, *alike_warnings(stage))
