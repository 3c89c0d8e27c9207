"""What every decision of the card has: a question, an answer in few words, and a body."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtWidgets import (
    QBoxLayout,
    QCheckBox,
    QLabel,
    QPushButton,
    QRadioButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from toneladder.bite.values import BiteCurve
from toneladder.errors import PlanError
from toneladder.lettering import wrapped
from toneladder.plate.limits import faults
from toneladder.plate.values import Plate
from toneladder.quantities import Manner
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.drawing.style import APART, CARD, NEAR, TIGHT, Type, font
from toneladder_desktop.fittings.label import Label

if TYPE_CHECKING:
    from toneladder.plan.choosing import Chosen
    from toneladder.plan.planning import Plan

_PAD = APART + 2
_SCROLLED = 12
_ROOM = CARD - 2 * _PAD - _SCROLLED
_TICK = 16 + NEAR


@dataclass(frozen=True, slots=True, eq=False)
class Facts:
    """What the card tells: the plate, and as much of its plan as is ready."""

    plate: Plate
    chosen: "Chosen | None"
    plan: "Plan | None"
    curve: BiteCurve | None
    manner: Manner


class Decision(QWidget):
    """One decision. Subclasses say its question, its answer, and fill the body."""

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.bench = bench
        self.manner = Manner()
        self.rows = QVBoxLayout(self)
        self.rows.setContentsMargins(_PAD, 0, _PAD, _PAD)
        self.rows.setSpacing(NEAR)

    @property
    def plate(self) -> Plate:
        """The plate that lies open."""
        plate = self.bench.plate
        if plate is None:
            raise PlanError
        return plate

    def question(self) -> str:
        """What is decided, in a word or three."""
        raise NotImplementedError

    def answer(self, facts: Facts) -> tuple[str, str]:
        """The answer in few words, and a note to it; both on one line each."""
        raise NotImplementedError

    def show_facts(self, facts: Facts) -> None:
        """Bring every control to what the plate says."""
        raise NotImplementedError

    def change(self, sentence: str, plate: Plate, series: str = "") -> None:
        """Decide: one undo step.

        Raises
        ------
        PlanError
            The plate would be out of bounds; nothing was changed.
        """
        wrong = faults(plate)
        if wrong:
            raise PlanError(" ".join(wrong))
        self.bench.change(sentence, plate, series)

    def beside(self, *parts: QWidget) -> None:
        """Parts side by side; one below the other where their words are too long for that."""
        room = _ROOM - sum(part.minimumSizeHint().width() for part in parts)
        gap = NEAR if room >= NEAR * (len(parts) - 1) else TIGHT
        ways = QBoxLayout.Direction
        fits = room >= gap * (len(parts) - 1)
        row = QBoxLayout(ways.LeftToRight if fits else ways.TopToBottom)
        row.setSpacing(gap if fits else NEAR)
        for part in parts:
            row.addWidget(part, 1)
        self.rows.addLayout(row)

    def fit_buttons(self) -> None:
        """Words that are too long for a button of the card stand smaller, from edge to edge.

        Beside a tick or a dot they have as many lines as they need.
        """
        for button in self.findChildren(QPushButton):
            if button.sizeHint().width() > _ROOM:
                button.setProperty("small", True)
                button.setFont(font(Type.SMALL))
                button.style().polish(button)

        for ticked in (*self.findChildren(QCheckBox), *self.findChildren(QRadioButton)):
            lines = wrapped(ticked.text(), *Type.TEXT.value, _ROOM - _TICK)
            if len(lines) > 1:
                ticked.setAccessibleName(ticked.accessibleName() or ticked.text())
                ticked.setText("\n".join(lines))

    def note(self) -> QLabel:
        """A line or more of small text in the body."""
        label = Label(self)
        label.setFont(font(Type.SMALL))
        label.setWordWrap(True)
        label.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)
        self.rows.addWidget(label)
        return label
