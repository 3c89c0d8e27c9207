"""Keeps in the studio book what is saved and read, and asks it, always beside the window."""

from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from toneladder.plate.identity import identity_of
from toneladder.strip.values import Strip
from toneladder.wording import say
from toneladder_desktop.bench.asked import Save
from toneladder_desktop.bench.background import Background, Work, later
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.bench.workings import Workings

if TYPE_CHECKING:
    from toneladder.book.values import ProofReading as KeptReading
    from toneladder.proof.values import ProofReading


class BookKeeping(QObject):
    """The one way from a window into the book.

    Signals
    -------
    answered(request, answer), failed(request, sentence)
        What became of a request, if somebody looks at the book.
    baths_known(baths)
        The baths in which a plate may be bitten: those that are not retired.
    told(sentence)
        Something was not kept that nobody asked for: a quiet sentence.
    """

    answered = Signal(object, object)
    failed = Signal(object, str)
    baths_known = Signal(object)
    told = Signal(str)

    def __init__(self, bench: Bench, workings: Workings, path: Path, parent: QObject) -> None:
        super().__init__(parent)
        self._bench, self._path = bench, path
        self._asked = 0
        self._background = Background(later(self._work), self)
        self._background.answered.connect(self._answered)
        self._background.failed.connect(self._failed)
        self._proofs: dict[str, list[KeptReading]] = {}
        workings.saved.connect(self._keep_plate)

    def ask(self, slot: str, request: object) -> None:
        """Ask something; whatever the slot was asked before is stale from now on."""
        self._background.ask(slot, request)

    def do(self, request: object) -> None:
        """Do something in the book: no act is dropped for a newer one."""
        self._asked += 1
        self.ask(f"act {self._asked}", request)

    def ask_for_baths(self) -> None:
        """Ask which baths there are; ``baths_known`` answers."""
        from toneladder_desktop.book.asked import ListBaths

        if self._path.exists():
            self.ask("baths for the card", ListBaths())
        else:
            self.baths_known.emit(())

    def keep_strip(self, strip: Strip) -> None:
        """Keep a strip that the plate stands on with the plate's bath, if the book has that."""
        from toneladder_desktop.book.asked import KeepStrip

        plate = self._bench.plate
        if plate is not None and plate.bath and self._path.exists():
            self.do(KeepStrip(plate.bath, strip))

    def keep_proof(self, reading: "ProofReading", scan: Path) -> None:
        """Keep what the open plate learnt from a proof as soon as the plate itself is saved."""
        from toneladder_desktop.book.entry import proof_of

        plate = self._bench.plate
        if plate is not None:
            proof = proof_of(reading, today(), scan)
            self._proofs.setdefault(identity_of(plate), []).append(proof)

    def take_back_use(self, stay: str) -> None:
        """What a stay at the tank dissolved shall not count in its bath's use."""
        from toneladder_desktop.book.asked import TakeBackUse

        self.do(TakeBackUse(stay))

    def stop(self) -> None:
        """The window closes: what was asked is still done, and once a day the book is copied."""
        if self._path.exists() or self._asked:
            from toneladder_desktop.book.asked import CopyOnceADay

            self.do(CopyOnceADay(today()))
        self._background.finish()

    def _work(self) -> Work:
        from toneladder_desktop.book.work import BookWork

        return BookWork(self._path).work

    def _keep_plate(self, request: Save) -> None:
        from toneladder_desktop.book.asked import KeepPlate, KeepProof
        from toneladder_desktop.book.entry import entry_of

        plate, plan = request.lying.plate, request.plan
        tones = plate.tones.count if plan is None else len(plan.order.tones)
        now = datetime.now(UTC).timestamp()
        entry = entry_of(plate, tones, request.path, now)
        self.do(KeepPlate(entry, plate.conditions))
        for proof in self._proofs.pop(entry.identity, ()):
            self.do(KeepProof(entry.identity, proof))

    def _answered(self, request: object, answer: object) -> None:
        from toneladder_desktop.book.asked import Baths, Changed, Damaged, TakeBackUse

        if isinstance(answer, Damaged) and _why(request):
            self._failed(request, answer.sentence)
            return
        if isinstance(request, TakeBackUse) and isinstance(answer, Changed):
            self.told.emit(answer.sentence)
        if isinstance(answer, Baths):
            kept = (line.kept for line in answer.lines)
            self.baths_known.emit(tuple(one for one in kept if not one.bath.retired_on))
        self.answered.emit(request, answer)

    def _failed(self, request: object, sentence: str) -> None:
        lost = _why(request)
        if lost:
            self.told.emit(say("{lost} {why}", lost=lost, why=sentence))
        else:
            self.failed.emit(request, sentence)


def today() -> str:
    """The day here, ``YYYY-MM-DD``."""
    return datetime.now().astimezone().date().isoformat()


def _why(request: object) -> str:
    """What was not kept, of what was to be kept without being asked for; else empty."""
    from toneladder_desktop.book.asked import KeepPlate, KeepProof, KeepStrip, TakeBackUse

    match request:
        case KeepPlate():
            return say("The plate is saved, but it is not entered in the studio book.")
        case KeepProof():
            return say("The plate learnt from its proof, but the book does not have the reading.")
        case KeepStrip():
            return say("The plate stands on the strip, but the book does not have it.")
        case TakeBackUse():
            return say("The bath's use could not be taken back.")
        case _:
            return ""
