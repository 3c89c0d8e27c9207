"""Notes on the print: a place is clicked or drawn round, and becomes a note of the plate."""

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from toneladder.errors import ToneLadderError
from toneladder.plate.limits import faults
from toneladder.plate.values import Plate
from toneladder.tones.values import Note, Wish
from toneladder.wording import say
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.bench.workings import Workings
from toneladder_desktop.card.notes import Meaning, NotesDecision, words_of
from toneladder_desktop.fittings.notice import Notice
from toneladder_desktop.paper.leaders import Leader, Pencil
from toneladder_desktop.paper.paper import Paper

if TYPE_CHECKING:
    from toneladder.picture.placing import Placing
    from toneladder.plan.choosing import Chosen
    from toneladder.tones.pointing import Rings


class Noting(QObject):
    """Joins the notes of the card with the paper."""

    def __init__(
        self,
        bench: Bench,
        workings: Workings,
        paper: Paper,
        decision: NotesDecision,
        notice: Notice,
    ) -> None:
        super().__init__(paper)
        self._bench, self._workings, self._paper = bench, workings, paper
        self._decision, self._notice = decision, notice
        self.pencil = Pencil(paper)
        self._meaning: Meaning | None = None
        self._meant: Meaning | None = None
        self._picked = -1
        decision.begun.connect(self._begin)
        decision.ended.connect(self.end)
        decision.picked.connect(self._pick)
        paper.marked.connect(self._mark)
        decision.placed.connect(self._mark)
        workings.pointed.connect(self._pointed)
        paper.drawn.connect(self._draw_round)
        paper.drawing.connect(self.pencil.show_drawn)
        paper.given_up.connect(self.end)
        bench.plate_changed.connect(self._show)
        workings.worked.connect(self._show)
        bench.laid.connect(self._lay)

    def end(self) -> None:
        """The paper is pushed about again."""
        self._meaning = None
        self._paper.take_marks(on=False)
        self._decision.end()
        self.pencil.show_drawn(())

    def _lay(self) -> None:
        self._meant = None
        self.end()

    def _begin(self, meaning: Meaning) -> None:
        self._meaning = meaning
        self._paper.take_marks(on=True)

    def _mark(self, x_mm: float, y_mm: float) -> None:
        self._meant = self._meaning  # the hand may put it away before the place is found
        if not self._workings.point(x_mm, y_mm):
            self._notice.tell(say("The tones are still being worked out; try again in a moment."))

    def _draw_round(self, way: object) -> None:
        plate = self._bench.plate
        if plate is None:
            return
        from toneladder.plan.preparing import placing_on
        from toneladder.tones.pointing import ring_of

        try:
            rings = ring_of(way, placing_on(plate))  # type: ignore[arg-type] # points
        except ToneLadderError as fault:
            self._notice.tell(str(fault))
            return
        self._take(rings, self._meaning)

    def _pointed(self, rings: "Rings") -> None:
        self._take(rings, self._meant)

    def _take(self, rings: "Rings", meaning: Meaning | None) -> None:
        plate, chosen = self._bench.plate, self._workings.chosen
        if plate is None or meaning is None:
            return
        note = Note(rings, meaning.wish, rungs=meaning.rungs, lightness=_lightness(meaning, chosen))
        wanted = replace(plate, notes=(*plate.notes, note))
        wrong = faults(wanted)
        if wrong:
            self._notice.tell(" ".join(wrong))
            return
        number = len(wanted.notes)
        self._bench.change(say("Note {n}: {wish}", n=number, wish=words_of(note)), wanted)
        self._decision.pick(number - 1)

    def _pick(self, row: int) -> None:
        self._picked = row
        self._show()

    def _show(self, _plate: object = None) -> None:
        plate, plan = self._bench.plate, self._workings.plan
        if plate is None or not plate.notes:
            self.pencil.show_leaders(())
            return
        from toneladder.plan.preparing import placing_on

        placing = placing_on(plate)
        told = {} if plan is None else {one.number: one for one in plan.told}
        leaders = []
        for number, note in enumerate(plate.notes, start=1):
            leader = _leader(plate, note, number, placing)
            if leader is not None:
                doubtful = number in told and not told[number].paintable
                picked = number - 1 == self._picked
                leaders.append(replace(leader, picked=picked, doubtful=doubtful))
        self.pencil.show_leaders(tuple(leaders))


def _lightness(meaning: Meaning, chosen: "Chosen | None") -> float:
    """The printed lightness that a tone's number means, so that a note outlives the number."""
    if meaning.wish is not Wish.LIGHTNESS or meaning.tone is None or chosen is None:
        return 0.0
    tones = chosen.ladder.tones
    return round(tones[min(meaning.tone, len(tones) - 1)].lightness, 2)


def _leader(plate: Plate, note: Note, number: int, placing: "Placing") -> Leader | None:
    """A leader to a point inside of the note's first outline; None if that lies off the plate."""
    import numpy as np

    rings = [placing.to_plate(ring) for ring in note.rings]
    outline = tuple(tuple((float(x), float(y)) for x, y in ring) for ring in rings)
    first = rings[0]
    x, y = first[np.argmin(np.hypot(*(first - first.mean(axis=0)).T))]
    middle = (first.mean(axis=0) + np.array([x, y])) / 2.0
    inside = 0.0 <= middle[0] <= plate.size.width_mm and 0.0 <= middle[1] <= plate.size.height_mm
    return Leader(number, float(middle[0]), float(middle[1]), outline) if inside else None
