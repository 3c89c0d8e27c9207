"""Notes on the print: what the etcher wants otherwise in a place, and the list of them."""

from dataclasses import dataclass, replace
from functools import partial

from PySide6.QtCore import QSignalBlocker, Signal
from PySide6.QtWidgets import QListWidget, QPushButton, QWidget

from toneladder.plate.values import Plate
from toneladder.quantities import read_size, write_length, write_tone
from toneladder.tones.values import Note, Wish
from toneladder.wording import say, say_number
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.card.decision import Decision, Facts
from toneladder_desktop.drawing.style import NEAR
from toneladder_desktop.fittings.choice import Choice
from toneladder_desktop.fittings.field import Field

_LIST_ROWS = 5


@dataclass(frozen=True, slots=True)
class Meaning:
    """What a note shall say, before it has a place; ``tone`` where a tone was chosen by number."""

    wish: Wish
    rungs: int = 0
    tone: int | None = None


class NotesDecision(Decision):
    """Buttons that begin a note, and the rows of those that are there.

    ``begun(Meaning)`` asks for a place on the print, ``ended()`` for no more places;
    ``placed(x, y)`` is a place that was typed, in millimetres of the plate as it prints;
    ``picked(int)`` is the number of a row, from 0, or -1.
    """

    begun = Signal(object)
    placed = Signal(float, float)
    ended = Signal()
    picked = Signal(int)

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(bench, parent)
        self.buttons: dict[str, QPushButton] = {}
        for key, text, meaning in _meanings():
            button = QPushButton(text, self)
            button.setCheckable(True)
            button.setProperty("small", True)
            button.clicked.connect(lambda on, meaning=meaning: self._press(meaning, on=on))
            self.buttons[key] = button
        lighter, darker, white, black = self.buttons.values()
        self.beside(lighter, darker)
        self.beside(white, black)
        self.tone: Choice[int] = Choice(
            say("Or one tone"), [(n, say("tone {n}", n=n)) for n in range(12)], self._tone, self
        )
        self.rows.addWidget(self.tone)
        self.where: Field[tuple[float, float]] = Field(
            say("Its place, from the left × from the top"),
            partial(read_size, least_mm=0.0),
            lambda place: self.placed.emit(*place),
            hint=say("or click it"),
            parent=self,
        )
        self.where.hide()
        self.rows.addWidget(self.where)
        self.list = QListWidget(self)
        self.list.setAccessibleName(say("Notes on the print"))
        self.list.currentRowChanged.connect(self.picked)
        self.rows.addWidget(self.list)
        self.wider = QPushButton(say("Wider"), self)
        self.narrower = QPushButton(say("Narrower"), self)
        self.back = QPushButton(say("Remove this note"), self)
        self.wider.clicked.connect(lambda: self._grow(1.0))
        self.narrower.clicked.connect(lambda: self._grow(-1.0))
        self.back.clicked.connect(self._take_back)
        for button in (self.wider, self.narrower):
            button.setProperty("small", True)
        self.beside(self.wider, self.narrower)
        self.rows.addWidget(self.back)
        self.rows.setSpacing(NEAR)
        self.said = self.note()

    def question(self) -> str:
        """What is decided."""
        return say("Notes on the print")

    def answer(self, facts: Facts) -> tuple[str, str]:
        """The answer, and a note to it."""
        notes = facts.plate.notes
        if not notes:
            return say("none"), say("every place as the picture has it")
        doubtful = 0 if facts.plan is None else sum(not t.paintable for t in facts.plan.told)
        answer = say_number("{n} note", "{n} notes", len(notes))
        if doubtful:
            return answer, say_number("{n} no brush can paint", "{n} no brush can paint", doubtful)
        return answer, say("over what the picture asks")

    def show_facts(self, facts: Facts) -> None:
        """Bring every control to what the plate says."""
        self.manner = facts.manner
        notes = facts.plate.notes
        texts = [self._words(number, note) for number, note in enumerate(notes, start=1)]
        with QSignalBlocker(self.list):
            at = self.list.currentRow()
            if texts != [self.list.item(row).text() for row in range(self.list.count())]:
                self.list.clear()
                self.list.addItems(texts)
                self.list.setCurrentRow(min(max(at, 0), len(texts) - 1))
        high = self.list.sizeHintForRow(0) if texts else 0
        self.list.setFixedHeight(high * min(len(texts), _LIST_ROWS) + 4)
        for part in (self.list, self.wider, self.narrower, self.back):
            part.setVisible(bool(texts))
        told = () if facts.plan is None else facts.plan.told
        sentences = [one.sentence for one in told if one.sentence]
        self.said.setText("\n".join(sentences[:3]) or _how(bool(texts)))

    def end(self) -> None:
        """No more places are asked for."""
        self.where.hide()
        for button in self.buttons.values():
            button.setChecked(False)
        self.tone.list.setCurrentIndex(-1)

    def pick(self, row: int) -> None:
        """Pick a row out."""
        self.list.setCurrentRow(row)

    def _press(self, meaning: Meaning, *, on: bool) -> None:
        for other in self.buttons.values():
            if other is not self.sender():
                other.setChecked(False)
        self.tone.list.setCurrentIndex(-1)
        if on:
            self._begin(meaning)
        else:
            self.ended.emit()

    def _begin(self, meaning: Meaning) -> None:
        self.where.show()
        self.begun.emit(meaning)

    def _tone(self, tone: int) -> None:
        for button in self.buttons.values():
            button.setChecked(False)
        self._begin(Meaning(Wish.LIGHTNESS, tone=tone))

    def _words(self, number: int, note: Note) -> str:
        words = say("{n}  {wish}", n=number, wish=words_of(note))
        if note.wider_mm:
            return say("{words}, {by}", words=words, by=write_length(note.wider_mm))
        return words

    def _grow(self, brushes: float) -> None:
        row, plate = self.list.currentRow(), self.plate
        if 0 <= row < len(plate.notes):
            note = plate.notes[row]
            by = brushes * plate.brush.mark_mm
            sentence = (
                say("Make note {n} wider", n=row + 1)
                if brushes > 0
                else say("Make note {n} narrower", n=row + 1)
            )
            wider = replace(note, wider_mm=round(note.wider_mm + by, 3))
            self.change(sentence, _with_note(plate, row, wider))

    def _take_back(self) -> None:
        row, plate = self.list.currentRow(), self.plate
        if 0 <= row < len(plate.notes):
            notes = (*plate.notes[:row], *plate.notes[row + 1 :])
            self.change(say("Take note {n} back", n=row + 1), replace(plate, notes=notes))


def words_of(note: Note) -> str:
    """What a note says, in words."""
    if note.wish is Wish.PAPER:
        return say("keep white")
    if note.wish is Wish.DEEPEST:
        return say("keep black")
    if note.wish is Wish.LIGHTNESS:
        return say("print {darkness}", darkness=write_tone(note.lightness))
    if note.rungs > 0:
        return say_number("darker by one", "darker by {n}", note.rungs)
    return say_number("lighter by one", "lighter by {n}", -note.rungs)


def _meanings() -> tuple[tuple[str, str, Meaning], ...]:
    return (
        ("lighter", say("Lighter by one"), Meaning(Wish.RUNGS, -1)),
        ("darker", say("Darker by one"), Meaning(Wish.RUNGS, 1)),
        ("paper", say("Keep white"), Meaning(Wish.PAPER)),
        ("deepest", say("Keep black"), Meaning(Wish.DEEPEST)),
    )


def _with_note(plate: Plate, row: int, note: Note) -> Plate:
    return replace(plate, notes=(*plate.notes[:row], note, *plate.notes[row + 1 :]))


def _how(some: bool) -> str:
    if some:
        return say("Choose what a place shall be, then click it, or draw round it. Esc ends.")
    return say(
        "Choose what a place shall be; then click the place on the print, or draw round it."
        " Keys: arrows move the cross, Enter marks, Esc ends; or type where it is."
    )
