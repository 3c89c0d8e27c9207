"""Opens the proof's page; what it tells goes to the strip that the plate's times stand on."""

from dataclasses import replace
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal

from toneladder.errors import ToneLadderError
from toneladder.plate.limits import faults
from toneladder.plate.values import Plate
from toneladder.quantities import write_day
from toneladder.strip.values import Means, Session, Strip
from toneladder.wording import say
from toneladder_desktop.bench.background import Background, Work, later
from toneladder_desktop.bench.opening import ask_for_scan
from toneladder_desktop.bench.workings import grey_image
from toneladder_desktop.window.page_desk import PageDesk, Room

if TYPE_CHECKING:
    from toneladder_desktop.proof.content import Content
    from toneladder_desktop.proof.view import ProofView
    from toneladder_desktop.proof.work import Read

_SLOT = "proof"


class ProofDesk(PageDesk["ProofView"]):
    """One page for one bench; it is made when it is first wanted.

    ``accepted(reading, scan)`` says that the plate learnt from what was read on a scan.
    """

    accepted = Signal(object, object)

    def __init__(self, room: Room) -> None:
        super().__init__(room)
        self._background = Background(later(_work), self)
        self._background.answered.connect(self._answered)
        self._background.failed.connect(self._failed)
        self._content: Content | None = None
        self._read: Read | None = None
        self._scan = Path()

    def open(self) -> None:
        """The page for the open plate, nothing read yet."""
        plan = self._workings.plan
        if plan is None:
            self._say_error(say("The order is still being worked out; try again in a moment."))
            return
        from toneladder_desktop.proof.content import content_of

        view = self._made()
        planned_c = plan.plate.conditions.temperature_c
        self._content = content_of(plan.order, plan.plate.given_s, planned_c)
        self._read = None
        view.notice.put_away()
        self._show()
        self._turn_to()

    def stop(self) -> None:
        """The window closes."""
        self._background.close()

    def open_scan(self, path: Path, *, second: bool = False) -> None:
        """Have a scan laid over the plan and read."""
        plan = self._workings.plan
        if plan is not None and self._view is not None:
            from toneladder_desktop.proof.work import OpenProof

            self._scan = path
            self._view.notice.put_away()
            self._view.subtitle.setText(say("Laying the proof over its plan …"))
            self._background.ask(_SLOT, OpenProof(path, plan, second=second))

    def _answered(self, _request: object, answer: object) -> None:
        from toneladder_desktop.bench.scanned import Scan
        from toneladder_desktop.proof.work import NotThis, Read

        view = self._view
        if view is None or self._content is None:
            return
        match answer:
            case Scan():
                view.board.show_scan(grey_image(answer.image), answer.width, answer.height)
                view.corners.setEnabled(True)
            case NotThis():
                self._show()
                view.notice.tell(answer.sentence)
                if not view.board.corners:
                    view.board.mark_by_hand()
            case Read():
                self._read = answer
                self._content = self._content.read(answer.reading)
                view.board.show_corners(self._corners(answer))
                self._show()

    def _corners(self, read: "Read") -> tuple[tuple[float, float], ...]:
        plate = self._bench.plate
        if plate is None:
            return ()
        width, height = plate.size.width_mm, plate.size.height_mm
        x, y = read.reading.registration.to_scan([0, width, width, 0], [0, 0, height, height])
        return tuple((float(a), float(b)) for a, b in zip(x, y, strict=True))

    def _failed(self, _request: object, sentence: str) -> None:
        if self._view is not None:
            self._show()
            self._view.notice.tell(sentence)

    def _lay_between(self, corners: tuple[tuple[float, float], ...]) -> None:
        plan = self._workings.plan
        if plan is not None:
            from toneladder_desktop.proof.work import LayBetween

            self._background.ask(_SLOT, LayBetween(corners, plan))

    def _bitten(self, tone: int, text: str) -> None:
        if self._content is not None:
            self._content = self._content.bitten(tone, text)
            self._show()

    def _take(self) -> None:
        plate, content, read = self._bench.plate, self._content, self._read
        bites = None if content is None else content.bites_s()
        if plate is None or read is None or bites is None or self._view is None:
            return
        from toneladder.plan.proofed import regrained
        from toneladder.proof.meaning import session_of_proof

        day = datetime.now().astimezone().date().isoformat()
        try:
            session = session_of_proof(
                read.reading.tones,
                bites,
                temperature_c=plate.conditions.temperature_c,
                name=say("proof of {day}", day=write_day(day)),
                regrained=regrained(plate),
            )
        except ToneLadderError as fault:
            self._view.notice.tell(str(fault))
            return
        wanted = learnt(plate, session)
        wrong = faults(wanted)
        if wrong:
            self._view.notice.tell(" ".join(wrong))
            return
        self._bench.change(say("Learn from the proof of {day}", day=write_day(day)), wanted)
        self.accepted.emit(read.reading, self._scan)
        self.close()

    def _show(self) -> None:
        if self._view is not None and self._content is not None:
            self._view.show_content(self._content, self._preferences.now.manner, self._read)

    def _make(self) -> "ProofView":
        from toneladder_desktop.proof.view import ProofView

        view = ProofView(self._pages)
        view.scan_wanted.connect(self._choose_scan)
        view.scan_dropped.connect(self.open_scan)
        view.corners_marked.connect(self._lay_between)
        view.bitten.connect(self._bitten)
        view.taken.connect(self._take)
        view.left.connect(self.close)
        return view

    def _choose_scan(self, second: bool) -> None:
        ask_for_scan(self._pages, Path.home(), lambda path: self.open_scan(path, second=second))


def _work() -> Work:
    from toneladder_desktop.proof.work import ProofWork

    return ProofWork().work


def learnt(plate: Plate, session: Session) -> Plate:
    """The plate standing on its newest strip and this proof too, or on the proof alone."""
    from toneladder.proof.meaning import with_proof

    strips = plate.evidence.strips
    if strips:
        strips = (*strips[:-1], with_proof(strips[-1], session))
    else:
        strips = (Strip(plate.conditions, session.patches, means=Means.SCAN, bath=plate.bath),)
    return replace(plate, evidence=replace(plate.evidence, strips=strips))
