"""Soft passages: where the picture fades and the plate would show an edge, and what helps."""

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtGui import QHideEvent, QShowEvent
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QPushButton, QWidget

from toneladder.borders.limits import SHORTEST_MM, STEEPEST
from toneladder.borders.values import Remedied, Remedy, Soft
from toneladder.quantities import read_length, read_number, write_length, write_span
from toneladder.wording import say, say_number
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.card.decision import Decision, Facts
from toneladder_desktop.fittings.choice import Choice
from toneladder_desktop.fittings.field import Field

if TYPE_CHECKING:
    from toneladder.borders.remedies import Passage

MOST_LISTED = 12
_SUGGESTED = ""
_ROWS_SEEN = 6
_PER_DARKNESS = 10.0  # CIE L* to one of darkness
_SAME = 0.02  # shares of the picture within which a passage is still the same


class SoftDecision(Decision):
    """What counts as soft, the passages, longest first, and the remedy of the picked one.

    ``picked`` says that another passage is picked, ``seen(bool)`` that the list is opened or
    closed.
    """

    picked = Signal()
    seen = Signal(bool)

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(bench, parent)
        self.passages: tuple[Passage, ...] | None = None
        self._all = False
        self.steepest = Field(
            say("Fades slower than, darkness a mm"),
            _read_steepest,
            self._take_steepest,
            parent=self,
        )
        self.steepest.line.setAccessibleName(say("Fades slower than, darkness to a millimetre"))
        self.shortest = Field(say("At least"), _read_shortest, self._take_shortest, parent=self)
        self.shortest.line.setAccessibleName(say("At least so long"))
        self.beside(self.steepest, self.shortest)
        self.list = QListWidget(self)
        self.list.setAccessibleName(say("Soft passages, longest first"))
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.currentRowChanged.connect(self._pick)
        self.rows.addWidget(self.list)
        self.more = QPushButton(self)
        self.more.setProperty("link", True)
        self.more.clicked.connect(self._list_all)
        self.rows.addWidget(self.more, alignment=Qt.AlignmentFlag.AlignLeft)
        self.remedy = Choice(say("Remedy"), _offered(None), self._take_remedy, self)
        self.rows.addWidget(self.remedy)
        self.take_all = QPushButton(say("take all as suggested"), self)
        self.take_all.setProperty("link", True)
        self.take_all.clicked.connect(self._take_all)
        self.rows.addWidget(self.take_all, alignment=Qt.AlignmentFlag.AlignLeft)
        self.said = self.note()

    def question(self) -> str:
        """What is decided."""
        return say("Soft passages")

    def answer(self, facts: Facts) -> tuple[str, str]:
        """The answer, and a note to it."""
        chosen = len(facts.plate.soft.remedies)
        note = (
            say_number("{n} remedy chosen", "{n} remedies chosen", chosen)
            if chosen
            else say("remedies as suggested")
        )
        if self.passages is None or facts.plan is None:
            return "…", note
        if not self.passages:
            return say("none"), say("no border where the picture fades")
        count = say_number("{n} passage", "{n} passages", len(self.passages))
        length = write_span(sum(passage.length_mm for passage in self.passages), facts.manner)
        return say("{count}, {length}", count=count, length=length), note

    def show_facts(self, facts: Facts) -> None:
        """Bring every control to what the plate says."""
        self.manner = facts.manner
        soft = facts.plate.soft
        self.steepest.show_value(facts.manner.number(soft.steepest / _PER_DARKNESS, 2))
        self.shortest.show_value(write_length(soft.shortest_mm, facts.manner))
        self._show_list()

    def show_passages(self, passages: "tuple[Passage, ...] | None") -> None:
        """Other passages; the picked one stays picked as long as it is there."""
        before = self.passage
        self.passages = passages
        self._show_list(before)

    @property
    def listed(self) -> "list[Passage]":
        """Those in the list, longest first."""
        rising = sorted(self.passages or (), key=lambda passage: -passage.length_mm)
        return rising if self._all else rising[:MOST_LISTED]

    @property
    def passage(self) -> "Passage | None":
        """The one that is picked."""
        row, listed = self.list.currentRow(), self.listed
        return listed[row] if 0 <= row < len(listed) else None

    def showEvent(self, event: QShowEvent) -> None:
        """The passages are pencilled on the print while they are listed."""
        super().showEvent(event)
        self.seen.emit(True)

    def hideEvent(self, event: QHideEvent) -> None:
        """No more."""
        super().hideEvent(event)
        if not event.spontaneous():
            self.seen.emit(False)

    def _show_list(self, before: "Passage | None" = None) -> None:
        listed = self.listed
        with QSignalBlocker(self.list):
            at = self.list.currentRow()
            if before is not None:
                at = next((k for k, one in enumerate(listed) if _same(one, before)), -1)
            self.list.clear()
            for passage in listed:
                item = QListWidgetItem(self._words(passage), self.list)
                item.setToolTip(item.text())
                item.setToolTip(say(passage.remedy.value))
            self.list.setCurrentRow(min(at, len(listed) - 1))
        rows = min(len(listed), _ROWS_SEEN)
        self.list.setFixedHeight(self.list.sizeHintForRow(0) * rows + 4 if rows else 0)
        self.list.setVisible(bool(listed))
        shorter = len(self.passages or ()) - len(listed)
        self.more.setText(say_number("… and {n} shorter one", "… and {n} shorter ones", shorter))
        self.more.setVisible(shorter > 0)
        self._show_picked()

    def _show_picked(self) -> None:
        passage = self.passage
        self.take_all.setVisible(any(not one.by_hand for one in self.passages or ()))
        self.remedy.setVisible(bool(self.passages))
        self.remedy.setEnabled(passage is not None)
        self.said.setText(self._said(passage))
        self.remedy.offer(_offered(passage))
        if passage is not None:
            self.remedy.show_value(passage.remedy.value if passage.by_hand else _SUGGESTED)
        else:
            self.remedy.list.setCurrentIndex(-1)

    def _said(self, passage: "Passage | None") -> str:
        if self.passages is None:
            return say("Looking for them …")
        if passage is None:
            if not self.passages:
                return say("Nowhere would a hard border show that the picture does not have.")
            return say("Pick one to see it on the print, and to choose what helps there.")
        from toneladder.borders.remedies import moment

        step, sentence = moment(passage, self.manner)
        if step is not None:
            sentence = say("At step {step}: {sentence}", step=step, sentence=sentence)
        if passage.by_hand:
            return sentence
        return say("{sentence} Only suggested: on the maps, not in the steps.", sentence=sentence)

    def _words(self, passage: "Passage") -> str:
        return say(
            "{n} · step {step} · {length} · {remedy}",
            n=passage.number,
            step=passage.step,
            length=write_length(round(passage.length_mm), self.manner),
            remedy=_in_short(passage.remedy),
        )

    def _pick(self, _row: int) -> None:
        self._show_picked()
        self.picked.emit()

    def _list_all(self) -> None:
        self._all = True
        self._show_list()
        self.list.setFocus()

    def _take_remedy(self, chosen: str) -> None:
        passage = self.passage
        if passage is None:
            return
        others = tuple(one for one in self.plate.soft.remedies if not _means(one, passage))
        if chosen == _SUGGESTED:
            sentence = say("Passage {n} as suggested", n=passage.number)
            self._change(sentence, replace(self.plate.soft, remedies=others))
            return
        sentence = say("Passage {n}: {remedy}", n=passage.number, remedy=say(Remedy(chosen).value))
        mine = _chosen(passage, Remedy(chosen))
        self._change(sentence, replace(self.plate.soft, remedies=(*others, mine)))

    def _take_all(self) -> None:
        """Every suggestion becomes a choice, so that it stands in the steps."""
        open_ = (one for one in self.passages or () if not one.by_hand)
        taken = tuple(_chosen(passage, passage.suggested) for passage in open_)
        remedies = (*self.plate.soft.remedies, *taken)
        self._change(
            say("Take all remedies as suggested"), replace(self.plate.soft, remedies=remedies)
        )

    def _take_steepest(self, steepest: float) -> None:
        slower = self.manner.number(steepest / _PER_DARKNESS, 2)
        sentence = say("Soft is what fades slower than {slower} a millimetre", slower=slower)
        self._change(sentence, replace(self.plate.soft, steepest=steepest))

    def _take_shortest(self, shortest_mm: float) -> None:
        shortest = write_length(shortest_mm, self.manner)
        sentence = say("Soft passages from {shortest}", shortest=shortest)
        self._change(sentence, replace(self.plate.soft, shortest_mm=shortest_mm))

    def _change(self, sentence: str, soft: Soft) -> None:
        self.change(sentence, replace(self.plate, soft=soft))


def _in_short(remedy: Remedy) -> str:
    """A remedy in one word, for a narrow list."""
    return {
        Remedy.NONE: say("hard"),
        Remedy.SPIT_BITE: say("spit"),
        Remedy.CRAYON: say("crayon"),
        Remedy.CREEPING_BITE: say("creep"),
        Remedy.BURNISH: say("burnish"),
    }[remedy]


def _offered(passage: "Passage | None") -> list[tuple[str, str]]:
    """What is suggested, and every remedy of its own."""
    suggested = say("as suggested")
    if passage is not None:
        suggested = say("as suggested: {remedy}", remedy=_in_short(passage.suggested))
    return [(_SUGGESTED, suggested), *((r.value, say(r.value)) for r in Remedy)]


def _chosen(passage: "Passage", remedy: Remedy) -> Remedied:
    x, y = passage.share_xy
    return Remedied(x, y, passage.step, remedy)


def _means(chosen: Remedied, passage: "Passage") -> bool:
    """Whether a remedy was chosen for this passage."""
    x, y = passage.share_xy
    return chosen.step == passage.step and max(abs(chosen.x - x), abs(chosen.y - y)) <= _SAME


def _same(one: "Passage", other: "Passage") -> bool:
    x, y = other.share_xy
    return _means(Remedied(x, y, other.step, other.remedy), one)


def _read_steepest(text: str) -> float:
    least, most = (end / _PER_DARKNESS for end in STEEPEST)
    return read_number(text, least, most, "0.3") * _PER_DARKNESS


def _read_shortest(text: str) -> float:
    return read_length(text, least_mm=SHORTEST_MM[0], most_mm=SHORTEST_MM[1])
