"""How fast the etcher works: what painting, drying and resting take."""

from collections.abc import Callable
from dataclasses import asdict, replace

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QWidget

from toneladder.bite.varnish import varnish_facts
from toneladder.order.values import Rates
from toneladder.quantities import Manner, read_number, write_number, write_painted
from toneladder.quantities.lengths import MM_PER_INCH
from toneladder.wording import say
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.card.decision import Decision, Facts
from toneladder_desktop.drawing.style import NEAR
from toneladder_desktop.fittings.field import Field

_USUAL = Rates()
_CM_PER_INCH = MM_PER_INCH / 10.0
_IN_INCHES = {"fill_cm2_per_min": _CM_PER_INCH**2, "border_cm_per_min": _CM_PER_INCH}


class PaceDecision(Decision):
    """Rates of painting and drying; ``remembered`` tells them for the next plates."""

    remembered = Signal(object)

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(bench, parent)
        self.fields: dict[str, Field[float | None]] = {}
        grid = QGridLayout()
        grid.setHorizontalSpacing(NEAR)
        grid.setVerticalSpacing(NEAR)
        for k, (name, question, least, most, example) in enumerate(_asked()):
            field = Field(
                question,
                self._reader(name, least, most, example),
                self._taker(name),
                hint=say("as usual") if name == "dry_min" else "",
                parent=self,
            )
            self.fields[name] = field
            grid.addWidget(field, k // 2, k % 2)
        self.rows.addLayout(grid)
        self.said = self.note()

    def question(self) -> str:
        """What is decided."""
        return say("Pace")

    def answer(self, facts: Facts) -> tuple[str, str]:
        """The answer, and a note to it."""
        rates = facts.plate.rates
        dry = _drying(facts)
        fill = write_painted(rates.fill_cm2_per_min, facts.manner)
        answer = say("{area} a minute", area=fill)
        own = rates != _USUAL
        note = say("your own rates") if own else say("assumed rates")
        return answer, say("{note} · dries {dry} min", note=note, dry=write_number(dry))

    def show_facts(self, facts: Facts) -> None:
        """Bring every control to what the plate says."""
        self.manner = facts.manner
        for name, question, *_ in _asked(imperial=facts.manner.imperial):
            self.fields[name].ask(question)
        for name, field in self.fields.items():
            field.show_value(_written(name, getattr(facts.plate.rates, name), facts.manner))
        self.said.setText(
            say("Assumptions, all of them, until you change them; they are kept for new plates.")
        )

    def _reader(
        self, name: str, least: float, most: float, example: str
    ) -> Callable[[str], float | None]:
        def reading(text: str) -> float | None:
            if name == "dry_min" and not text.strip():
                return None
            unit = _unit(name, self.manner)
            if unit == 1.0:
                return read_number(text, least, most, example)
            bounds = round(least / unit, 2), round(most / unit)
            return unit * read_number(text, *bounds, f"{float(example) / unit:.1f}")

        return reading

    def _taker(self, name: str) -> Callable[[float | None], None]:
        def take(value: float | None) -> None:
            rates = _with(self.plate.rates, name, value)
            self.change(say("Work at another pace"), replace(self.plate, rates=rates))
            self.remembered.emit(rates)

        return take


def _asked(*, imperial: bool = False) -> tuple[tuple[str, str, float, float, str], ...]:
    """Each rate's name and question, its bounds, and an example of it, both in metric units."""
    fill = say("Fill, in²/min") if imperial else say("Fill, cm²/min")
    border = say("Border, in/min") if imperial else say("Border, cm/min")
    return (
        ("fill_cm2_per_min", fill, 0.1, 1000.0, "3"),
        ("border_cm_per_min", border, 0.1, 1000.0, "6"),
        ("place_s", say("A place, s"), 0.0, 3600.0, "20"),
        ("between_min", say("Rinse, look, min"), 0.0, 600.0, "5"),
        ("dry_min", say("Dry, min"), 0.0, 2880.0, "20"),
        ("rest_every_min", say("Rest after, min"), 10.0, 1440.0, "120"),
        ("rest_min", say("Rest for, min"), 0.0, 600.0, "15"),
    )


def _unit(name: str, manner: Manner) -> float:
    """What the rate is divided by to be written: square centimetres to a square inch, say."""
    return _IN_INCHES.get(name, 1.0) if manner.imperial else 1.0


def _with(rates: Rates, name: str, value: float | None) -> Rates:
    return Rates(**{**asdict(rates), name: value})


def _written(name: str, value: float | None, manner: Manner) -> str:
    if value is None:
        return ""
    unit = _unit(name, manner)
    return write_number(value if unit == 1.0 else round(value / unit, 2), manner)


def _drying(facts: Facts) -> float:
    rates = facts.plate.rates
    usual = varnish_facts(facts.plate.conditions.varnish).drying_min
    return usual if rates.dry_min is None else rates.dry_min
