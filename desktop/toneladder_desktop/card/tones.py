"""How many tones, and whether they follow the picture."""

from dataclasses import replace

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtWidgets import (
    QButtonGroup,
    QHBoxLayout,
    QPushButton,
    QRadioButton,
    QSpinBox,
    QWidget,
)

from toneladder.errors import PlanError
from toneladder.tones.values import FEWEST_TONES, MOST_TONES, Choice
from toneladder.wording import say, say_number
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.card.decision import Decision, Facts
from toneladder_desktop.card.patches import PatchList
from toneladder_desktop.drawing.style import APART, CONTROL, TIGHT, Type, font
from toneladder_desktop.fittings.label import Label
from toneladder_desktop.fittings.undo_through import UndoThrough


class TonesDecision(Decision):
    """Number and manner of the tones; ``comparison_wanted`` asks to see several numbers."""

    comparison_wanted = Signal()

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(bench, parent)
        self.number = QSpinBox(self)
        self.fewer, self.more = QPushButton("−", self), QPushButton("+", self)
        self._build_stepper()
        self.manner_of = QButtonGroup(self)
        self.even, self.follow, self.copy = (
            QRadioButton(say("even steps")),
            QRadioButton(say("follow the picture")),
            QRadioButton(say("from the strip")),
        )
        label = Label(say("Where they part"), self)
        label.setFont(font(Type.SMALL))
        self.rows.addWidget(label)
        for button, choice in (
            (self.follow, Choice.PICTURE),
            (self.even, Choice.EVEN),
            (self.copy, Choice.STRIP),
        ):
            self.manner_of.addButton(button)
            button.setAccessibleName(say("Tones: {manner}", manner=button.text()))
            button.clicked.connect(lambda _on, choice=choice: self._take_choice(choice))
            self.rows.addWidget(button)
        self.patches = PatchList(self)
        self.patches.ticked.connect(self._take_patches)
        self.rows.addWidget(self.patches)
        self.refused = self.note()
        self.refused.hide()
        self.let_go = QPushButton(say("Let all go"), self)
        self.let_go.setProperty("link", True)
        self.let_go.clicked.connect(self.let_all_go)
        self.rows.addWidget(self.let_go, alignment=Qt.AlignmentFlag.AlignLeft)

    def question(self) -> str:
        """What is decided."""
        return say("Tones")

    def answer(self, facts: Facts) -> tuple[str, str]:
        """The answer, and a note to it."""
        tones = facts.plate.tones
        count = tones.count if facts.chosen is None else facts.chosen.count
        answer = say("{tones}, {bites}", tones=_tones(count), bites=_bites(count - 1))
        if count < tones.count:
            return answer, say("{asked} were asked for", asked=tones.count)
        note = _choices()[tones.choice]
        held = len(tones.held_partings) + len(tones.held_bites)
        if held:
            note = say("{note}, {held} held", note=note, held=held)
        return answer, note

    def show_facts(self, facts: Facts) -> None:
        """Bring every control to what the plate says."""
        tones = facts.plate.tones
        with QSignalBlocker(self.number):
            self.number.setValue(tones.count)
        self.fewer.setEnabled(tones.count > FEWEST_TONES)
        self.more.setEnabled(tones.count < MOST_TONES)
        self.even.setChecked(tones.choice is Choice.EVEN)
        self.follow.setChecked(tones.choice is Choice.PICTURE)
        self.copy.setChecked(tones.choice is Choice.STRIP)
        strips = facts.plate.evidence.strips
        self.copy.setEnabled(bool(strips))
        self.copy.setToolTip("" if strips else say("No strip of this bath was read yet."))
        self.patches.setVisible(bool(strips) and tones.choice is Choice.STRIP)
        if self.patches.isVisibleTo(self):
            self.patches.show_facts(facts)
        self.refused.hide()
        self.let_go.setVisible(bool(tones.held_partings or tones.held_bites))

    def take_number(self, count: int) -> None:
        """Make it so many tones, as far as there can be so many."""
        count = min(max(count, FEWEST_TONES), MOST_TONES)
        tones = replace(self.plate.tones, count=count, patches_s=())
        self.change(say("Make it {tones}", tones=_tones(count)), replace(self.plate, tones=tones))

    def let_all_go(self) -> None:
        """Let everything that is held by hand follow again."""
        tones = replace(self.plate.tones, held_partings=(), held_bites=())
        self.change(say("Let everything go that is held"), replace(self.plate, tones=tones))

    def take_choice(self, choice: Choice) -> None:
        """Follow the picture, go in even steps, or copy the strip's patches."""
        sentence = {
            Choice.EVEN: say("Space the tones evenly"),
            Choice.PICTURE: say("Let the tones follow the picture"),
            Choice.STRIP: say("Copy the tones from the strip"),
        }[choice]
        tones = replace(self.plate.tones, choice=choice)
        self.change(sentence, replace(self.plate, tones=tones))

    _take_choice = take_choice

    def _take_patches(self, patches_s: tuple[float, ...]) -> None:
        """As many tones as patches are ticked, and white."""
        if not patches_s:
            tones = replace(self.plate.tones, patches_s=())
            sentence = say("Copy the patches that fit the picture best")
        else:
            tones = replace(self.plate.tones, count=len(patches_s) + 1, patches_s=patches_s)
            sentence = say_number(
                "Copy {n} patch of the strip", "Copy {n} patches of the strip", len(patches_s)
            )
        try:
            self.change(sentence, replace(self.plate, tones=tones))
        except PlanError as fault:
            self.patches.take_back()
            self.refused.setText(str(fault))
            self.refused.show()

    def _build_stepper(self) -> None:
        label = Label(say("How many, with white"), self)
        label.setFont(font(Type.SMALL))
        label.setBuddy(self.number)
        self.number.setRange(FEWEST_TONES, MOST_TONES)
        self.number.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.number.setKeyboardTracking(False)
        self.number.setFont(font(Type.STRONG))
        self.number.setFixedSize(CONTROL + APART, CONTROL)
        for field in (self.number, self.number.lineEdit()):
            UndoThrough(field, lambda: True)
        self.number.setAccessibleName(say("Number of tones, with white"))
        self.number.valueChanged.connect(self.take_number)
        row = QHBoxLayout()
        row.setSpacing(TIGHT)
        for button, by, name in (
            (self.fewer, -1, say("One tone less")),
            (self.more, 1, say("One tone more")),
        ):
            button.setFixedWidth(CONTROL)
            button.setProperty("small", True)
            button.setAccessibleName(name)
            button.setToolTip(name)
            button.clicked.connect(lambda _on, by=by: self.take_number(self.plate.tones.count + by))
        for part in (self.fewer, self.number, self.more):
            row.addWidget(part)
        row.addStretch(1)
        self.compare = QPushButton(say("see 2 to 10"), self)
        self.compare.setProperty("link", True)
        self.compare.setAccessibleName(say("See 2 to 10 tones side by side"))
        self.compare.clicked.connect(self.comparison_wanted)
        self.rows.addWidget(label)
        self.rows.addLayout(row)
        self.rows.addWidget(self.compare, alignment=Qt.AlignmentFlag.AlignLeft)


def _choices() -> dict[Choice, str]:
    return {
        Choice.EVEN: say("even steps"),
        Choice.PICTURE: say("following the picture"),
        Choice.STRIP: say("copied from the strip"),
    }


def _tones(count: int) -> str:
    return say_number("{n} tone", "{n} tones", count)


def _bites(count: int) -> str:
    return say_number("{n} bite", "{n} bites", count)
