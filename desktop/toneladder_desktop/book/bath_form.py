"""A bath to be filled in: a new one, or one of the book as it shall be."""

from PySide6.QtWidgets import QWidget

from toneladder.bite.values import Metal, Mordant, Movement
from toneladder.book.values import Bath
from toneladder.quantities import Manner, read_day, read_number, read_strength, write_day
from toneladder.strip.values import Vessel
from toneladder.wording import say
from toneladder_desktop.book.form import Form, plain

BLANK = Bath("", Metal.COPPER, Mordant.FERRIC_CHLORIDE)


class BathForm(Form):
    """Questions about a bath."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(BLANK, parent)
        self._manner = Manner()
        self.rows.addWidget(self.add_field("name", say("Name"), plain))
        self.side_by_side(
            self.add_choice("metal", say("For"), [(m, say(m.value)) for m in Metal]),
            self.add_choice("mordant", say("Mordant"), [(m, say(m.value)) for m in Mordant]),
        )
        self.side_by_side(
            self.add_field("strength", say("Strength"), _strength, hint=say("not said")),
            self.add_field("made_on", say("Made on"), read_day, write_day, hint=say("not noted")),
        )
        self.side_by_side(
            self.add_choice("movement", say("The bath is"), [(m, say(m.value)) for m in Movement]),
            self.add_choice("vessel", say("Plates are in it"), _vessels()),
        )
        unknown = say("not known")
        self.side_by_side(
            self.add_field("litres", say("Litres"), _litres, self._written, hint=unknown),
            self.add_field("salt_g", say("Salt in it, grams"), _grams, self._written, hint=unknown),
        )
        self.rows.addWidget(self.add_field("note", say("Note"), plain))
        self.rows.addStretch(1)
        self.add_buttons(say("Keep the bath"), say("Discard"))

    def begin(self, bath: Bath, manner: Manner, *, new: bool) -> None:
        """Begin with these answers."""
        self._manner = manner
        self.head.setText(say("A new bath") if new else say("Change the bath"))
        for field in self.fields.values():
            field.show_value(" ")  # whatever was half typed for another bath is gone
        self.show_value(bath)
        self.fields["name"].line.setFocus()

    def _written(self, number: float | None) -> str:
        return "" if number is None else self._manner.number(number, 3)


def _vessels() -> list[tuple[Vessel, str]]:
    return [(Vessel.UPRIGHT, say("upright")), (Vessel.TRAY, say("flat, in a tray"))]


def _strength(text: str) -> str:
    return read_strength(text) if text.strip() else ""


def _litres(text: str) -> float | None:
    return read_number(text, 0.01, 100_000.0, "12.5") if text.strip() else None


def _grams(text: str) -> float | None:
    return read_number(text, 0.1, 1_000_000.0, "500") if text.strip() else None
