"""A print to be noted: what it is, its number, paper, ink, day."""

from dataclasses import replace

from PySide6.QtWidgets import QWidget

from toneladder.book.values import Pull, PullKind
from toneladder.quantities import read_day, read_number, write_day
from toneladder.wording import say
from toneladder_desktop.book.form import Form, plain

MOST = 100_000.0


class PullForm(Form):
    """Questions about a print."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(Pull("", PullKind.TRIAL), parent)
        kinds = [(kind, say(kind.value)) for kind in PullKind]
        self.side_by_side(
            self.add_choice("kind", say("It is"), kinds),
            self.add_field(
                "pulled_on", say("Pulled on"), read_day, write_day, hint=say("not noted")
            ),
        )
        self.side_by_side(
            self.add_field("number", say("Number"), _whole, _written, hint=say("none")),
            self.add_field("edition", say("Of an edition of"), _whole, _written, hint=say("none")),
        )
        self.side_by_side(
            self.add_field("paper", say("Paper"), plain, hint=say("not noted")),
            self.add_field("ink", say("Ink"), plain, hint=say("not noted")),
        )
        self.rows.addWidget(self.add_field("note", say("Note"), plain))
        self.add_buttons(say("Keep the note"), say("Discard"))

    def begin(self, pull: Pull, *, new: bool) -> None:
        """Begin with these answers."""
        self.head.setText(say("Note a print") if new else say("Change the note"))
        for field in self.fields.values():
            field.show_value(" ")  # whatever was half typed for another print is gone
        self.show_value(pull)
        self.choices["kind"].list.setFocus()


def next_pull(before: Pull | None, today: str) -> Pull:
    """What the next print probably is: as the last one, its number one on, today."""
    if before is None:
        return Pull(today, PullKind.TRIAL)
    number = None if before.number is None else before.number + 1
    if number is not None and before.edition is not None and number > before.edition:
        number = None
    return replace(before, pulled_on=today, number=number, note="")


def _whole(text: str) -> int | None:
    return round(read_number(text, 1.0, MOST, "3")) if text.strip() else None


def _written(number: int | None) -> str:
    return "" if number is None else str(number)
