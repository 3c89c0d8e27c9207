"""What else is known of a strip: how and when it was bitten, printed and read."""

from collections.abc import Callable
from dataclasses import replace

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from toneladder.quantities import (
    Manner,
    read_day,
    read_number,
    read_temperature,
    write_day,
    write_number,
    write_temperature,
)
from toneladder.strip.values import Dryness, Means, Wiping
from toneladder.wording import say
from toneladder_desktop.drawing.style import APART, NEAR, Type, font
from toneladder_desktop.fittings.choice import Choice
from toneladder_desktop.fittings.explaining import explain
from toneladder_desktop.fittings.field import Field
from toneladder_desktop.fittings.label import Label
from toneladder_desktop.strip.draft import Draft

NO_SCALE, STEPS_21 = "none", "21 steps"


class Conditions(QWidget):
    """Questions about the strip; ``changed(draft)`` has the answers in it."""

    changed = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._draft: Draft | None = None
        self._manner = Manner()
        self.rows = QVBoxLayout(self)
        self.rows.setContentsMargins(APART, APART, APART, APART)
        self.rows.setSpacing(NEAR)
        self.means = self._choice(say("Read with"), _means(), "means")
        self.unit = self._choice(say("Readings are"), _units(), "unit")
        self.scale = Choice(say("Grey scale in the scan"), _scales(), self._take_scale, self)
        self.scale.show_value(NO_SCALE)
        explain(self.means, "reading.paper")
        explain(self.unit, "reading.spread")
        self.rows.addWidget(self.scale)
        self.dryness = self._choice(say("The print is"), _dryness(), "dryness")
        self.warm = self._field(say("Bath temperature"), read_temperature, self._take_warmth)
        explain(self.warm, "strip.apart")
        self.bitten = self._field(say("Bitten on"), read_day, self._taker("bitten_on"))
        self.grained = self._field(say("Grained on"), read_day, self._taker("grained_on"))
        explain(self.grained, "strip.grained_on")
        self.pull = self._field(say("Which pull"), _read_pull, self._taker("pull"))
        self.wiping = self._choice(say("Wiped last with"), _wipings(), "wiping")
        self.ink = self._field(say("Ink"), _plain, self._taker("ink"))
        self.paper = self._field(say("Paper"), _plain, self._taker("paper"))
        self.note = Label(say("Read it dry, a day later; of the second or third pull."), self)
        self.note.setWordWrap(True)
        self.note.setFont(font(Type.SMALL))
        self.note.setObjectName("pencil")
        self.note.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)
        self.rows.addWidget(self.note)
        self.rows.addStretch(1)

    @property
    def with_scale(self) -> bool:
        """Whether a grey scale lies beside the strip."""
        return self.scale.list.currentIndex() == 1

    def show_draft(self, draft: Draft, manner: Manner) -> None:
        """The answers as they are."""
        self._draft, self._manner = draft, manner
        self.means.show_value(draft.means)
        self.unit.show_value(draft.unit)
        self.dryness.show_value(draft.dryness)
        self.wiping.show_value(draft.wiping)
        self.warm.show_value(write_temperature(draft.conditions.temperature_c, manner))
        self.bitten.show_value(write_day(draft.bitten_on))
        self.grained.show_value(write_day(draft.grained_on))
        self.pull.show_value(write_number(draft.pull))
        self.ink.show_value(draft.ink)
        self.paper.show_value(draft.paper)

    def _choice(self, question: str, answers: object, name: str) -> Choice[object]:
        choice: Choice[object] = Choice(question, answers, self._taker(name), self)  # type: ignore[arg-type] # pairs of many kinds
        self.rows.addWidget(choice)
        return choice

    def _field(
        self, question: str, read: Callable[[str], object], take: Callable[[object], object]
    ) -> Field[object]:
        field: Field[object] = Field(question, read, take, hint=say("not noted"), parent=self)
        self.rows.addWidget(field)
        return field

    def _taker(self, name: str) -> Callable[[object], None]:
        def take(value: object) -> None:
            if self._draft is not None:
                self.changed.emit(replace(self._draft, **{name: value}))  # type: ignore[arg-type] # one of its fields

        return take

    def _take_warmth(self, warmth_c: object) -> None:
        if self._draft is not None and isinstance(warmth_c, float):
            conditions = replace(self._draft.conditions, temperature_c=warmth_c)
            self.changed.emit(replace(self._draft, conditions=conditions))

    def _take_scale(self, scale: str) -> None:
        self.scale.show_value(scale)


def _means() -> list[tuple[Means, str]]:
    return [(means, say(means.value)) for means in Means]


def _units() -> list[tuple[str, str]]:
    return [
        ("lightness", say("lightness L*")),
        ("density", say("densities")),
        ("step", say("steps of a grey scale")),
    ]


def _scales() -> list[tuple[str, str]]:
    return [
        (NO_SCALE, say("none")),
        (STEPS_21, say("{n} steps, {apart} apart", n=21, apart=write_number(0.15))),
    ]


def _dryness() -> list[tuple[Dryness, str]]:
    return [(one, say(one.value)) for one in Dryness]


def _wipings() -> list[tuple[Wiping, str]]:
    return [(one, say(one.value)) for one in Wiping]


def _read_pull(text: str) -> int:
    return round(read_number(text, 1.0, 99.0, "2"))


def _plain(text: str) -> str:
    return " ".join(text.split())[:200]
