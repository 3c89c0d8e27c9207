"""What an edition needs: a few questions, and the answer under them as they are answered."""

from PySide6.QtWidgets import QSizePolicy, QWidget

from toneladder.errors import PlanError
from toneladder.order.edition import MOST_PRINTS, Edition, Needs, edition_needs
from toneladder.picture.values import PlateSize
from toneladder.quantities import Manner, read_length, read_number, write_length, write_size
from toneladder.wording import say, say_number
from toneladder_desktop.book.form import Form
from toneladder_desktop.drawing.style import Type, font
from toneladder_desktop.fittings.explaining import explain
from toneladder_desktop.fittings.label import Label


class EditionForm(Form):
    """Questions about an edition; the answer follows every one of them."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(Edition(), parent)
        self._size: PlateSize | None = None
        self._manner = Manner()
        self.head.setText(say("What an edition needs"))
        self.side_by_side(
            self.add_field("prints", say("Prints"), _count),
            self.add_field("artist_proofs", say("Artist's"), _count),
            self.add_field("proofs", say("Trial proofs"), _count),
        )
        self.side_by_side(
            self.add_field("margin_mm", say("Margin"), _margin, self._length),
            self.add_field("foot_mm", say("Foot"), _foot, self._length, hint=say("as the margin")),
            self.add_field("spoilt_share", say("Spoilt, %"), _share, self._percent),
        )
        self.side_by_side(
            self.add_field("pull_min", say("Minutes a print"), _minutes, self._number),
            self.add_field("day_hours", say("Hours a day"), _hours, self._number),
        )
        for name in ("artist_proofs", "spoilt_share", "pull_min", "day_hours"):
            explain(self.fields[name], f"edition.{name}")
        self.answer, self.reminders = Label(self), Label(self)
        for label in (self.answer, self.reminders):
            label.setWordWrap(True)
            label.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)
            self.rows.addWidget(label)
        self.answer.setFont(font(Type.STRONG))
        self.reminders.setFont(font(Type.SMALL))
        self.reminders.setObjectName("pencil")
        self.changed.connect(lambda _edition: self._reckon())

    def show_plate(self, size: PlateSize | None, edition: Edition, manner: Manner) -> None:
        """The plate that is printed; None if its size is not known."""
        self._size, self._manner = size, manner
        self.setVisible(size is not None)
        self.show_value(edition)
        self._reckon()

    def _reckon(self) -> None:
        if self._size is None:
            return
        try:
            needs = edition_needs(self._size, self.value)
        except PlanError as fault:
            self.answer.setText(str(fault))
            self.reminders.setText("")
            return
        self.answer.setText(words(needs, self._manner))
        assumed = say("Times and spoilage are assumptions: put your own in their place.")
        self.reminders.setText("\n".join((*needs.reminders, assumed)))

    def _length(self, mm: float | None) -> str:
        return "" if mm is None else write_length(mm, self._manner)

    def _percent(self, share: float) -> str:
        return self._manner.number(100.0 * share, 1)

    def _number(self, value: float) -> str:
        return self._manner.number(value, 1)


def words(needs: Needs, manner: Manner) -> str:
    """What is needed, in one or two sentences.

    >>> from toneladder.order.edition import Edition
    >>> needs = edition_needs(PlateSize(200.0, 150.0), Edition(20, 2, 5))
    >>> words(needs, Manner()).replace(chr(160), " ")
    '30 sheets of 300 × 250 mm, 3 of them to spare. 2 days, at 24 prints a day.'
    """
    return say(
        "{sheets} of {size}, {spare} of them to spare. {days}, at {a_day} a day.",
        sheets=say_number("{n} sheet", "{n} sheets", needs.sheets),
        size=write_size(needs.width_mm, needs.height_mm, manner),
        spare=needs.spare,
        days=say_number("{n} day", "{n} days", needs.days),
        a_day=say_number("{n} print", "{n} prints", needs.prints_a_day),
    )


def _count(text: str) -> int:
    return round(read_number(text, 0.0, float(MOST_PRINTS), "10"))


def _margin(text: str) -> float:
    return read_length(text, least_mm=1.0, most_mm=500.0)


def _foot(text: str) -> float | None:
    return _margin(text) if text.strip() else None


def _share(text: str) -> float:
    return read_number(text, 0.0, 49.0, "10") / 100.0


def _minutes(text: str) -> float:
    return read_number(text, 0.5, 600.0, "15")


def _hours(text: str) -> float:
    return read_number(text, 0.5, 24.0, "6")
