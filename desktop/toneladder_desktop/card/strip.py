"""The strip that the plate's times stand on, and how fast the bath bites today."""

from dataclasses import replace

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QPushButton, QWidget

from toneladder.bite.values import Standing
from toneladder.quantities import (
    read_bite,
    read_day,
    read_tone,
    scale_name,
    write_bite,
    write_day,
    write_tone,
)
from toneladder.strip.values import CheckPatch, Strip
from toneladder.wording import say, say_number
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.card.decision import Decision, Facts
from toneladder_desktop.fittings.field import Field


class StripDecision(Decision):
    """Strips and check patch.

    ``wanted`` asks for the page of the strip, ``another`` for that of a new one, ``card`` for a
    strip card to print.
    """

    wanted = Signal()
    another = Signal()
    card = Signal()

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(bench, parent)
        self.open = QPushButton(say("Read the strip …"), self)
        self.open.clicked.connect(self.wanted)
        self.print = QPushButton(say("Strip card …"), self)
        self.print.clicked.connect(self.card)
        self.more = QPushButton(say("Another strip …"), self)
        self.more.clicked.connect(self.another)
        self.forget = QPushButton(say("Plan without a strip"), self)
        self.forget.clicked.connect(self._forget)
        for pair in ((self.open, self.print), (self.more, self.forget)):
            self.beside(*pair)
        self.grained = Field(
            say("Plate grained on"), read_day, self._take_grained, hint=say("not noted")
        )
        self.rows.addWidget(self.grained)
        self.check_bite = Field(
            say("Check patch bit for"), _read_bite, self._take_bite, hint=say("none")
        )
        self.check_tone = Field(say("It prints"), _read_tone, self._take_tone, hint=scale_name())
        self.beside(self.check_bite, self.check_tone)
        self._bite_s: float | None = None
        self.doubts = self.note()

    def question(self) -> str:
        """What is decided."""
        return say("Strip")

    def answer(self, facts: Facts) -> tuple[str, str]:
        """The answer, and a note to it."""
        strips = facts.plate.evidence.strips
        if not strips:
            return say("none yet"), say("times untested")
        newest = strips[-1]
        name = say("of {day}", day=write_day(newest.bitten_on)) if newest.bitten_on else say("read")
        if facts.curve is not None and facts.curve.standing is Standing.UNTESTED:
            return name, say("tells nothing of this bath: times untested")
        note = say_number("{n} patch", "{n} patches", len(newest.patches))
        if len(strips) > 1:
            note = say("{note}, {n} strips together", note=note, n=len(strips))
        if facts.plate.evidence.check is not None:
            note = say("{note}, check patch", note=note)
        return name, note

    def show_facts(self, facts: Facts) -> None:
        """Bring every control to what the plate says."""
        self.manner = facts.manner
        evidence = facts.plate.evidence
        some = bool(evidence.strips)
        self.open.setText(say("Look at it …") if some else say("Read one …"))
        self.more.setVisible(some)
        self.forget.setVisible(some)
        self.grained.show_value(write_day(facts.plate.grained_on))
        check = evidence.check
        self.check_bite.setVisible(some)
        self.check_tone.setVisible(some)
        if check is not None:
            self._bite_s = check.bite_s
            self.check_tone.show_value(write_tone(check.lightness, facts.manner))
        else:
            self.check_tone.show_value("")
            self.check_tone.line.setPlaceholderText(scale_name())
        bite = self._bite_s if some else None
        self.check_bite.show_value("" if bite is None else write_bite(bite))
        self.doubts.setText(_doubts(facts))

    def _forget(self) -> None:
        evidence = replace(self.plate.evidence, strips=(), check=None)
        self._bite_s = None
        self.change(say("Plan by no strip"), replace(self.plate, evidence=evidence))

    def _take_grained(self, day: str) -> None:
        sentence = say("Grained on {day}", day=day) if day else say("Day of graining not noted")
        self.change(sentence, replace(self.plate, grained_on=day))

    def _take_bite(self, bite_s: float | None) -> None:
        self._bite_s = bite_s
        check = self.plate.evidence.check
        if bite_s is None:
            self._check(say("No check patch"), None)
        elif check is not None:
            self._check(_sentence(bite_s), replace(check, bite_s=bite_s))
        else:
            self.check_bite.show_value(write_bite(bite_s))

    def _take_tone(self, lightness: float | None) -> None:
        if lightness is None:
            self._check(say("No check patch"), None)
        elif self._bite_s is not None:
            warmth = self.plate.conditions.temperature_c
            check = CheckPatch(self._bite_s, lightness, temperature_c=warmth)
            self._check(_sentence(self._bite_s), check)

    def _check(self, sentence: str, check: CheckPatch | None) -> None:
        evidence = replace(self.plate.evidence, check=check)
        self.change(sentence, replace(self.plate, evidence=evidence))


def _sentence(bite_s: float) -> str:
    return say("Check patch of {bite}", bite=write_bite(bite_s))


def _doubts(facts: Facts) -> str:
    strips: tuple[Strip, ...] = facts.plate.evidence.strips
    if not strips:
        return say(
            "Bite a strip beside the plate, in the same tank, print it, and read it dry: then"
            " the times are those of your bath."
        )
    from toneladder.plan.standing import doubts_of

    return "\n".join(doubts_of(facts.plate)[:3])


def _read_bite(text: str) -> float | None:
    return read_bite(text) if text.strip() else None


def _read_tone(text: str) -> float | None:
    return read_tone(text) if text.strip() else None
