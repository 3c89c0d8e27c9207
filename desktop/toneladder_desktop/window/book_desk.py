"""Opens the studio book's page in the place of the bench's top."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from toneladder.errors import ToneLadderError
from toneladder.plate.identity import identity_of
from toneladder.plate.limits import faults
from toneladder.wording import say
from toneladder_desktop.bench.beside import Beside
from toneladder_desktop.window.book_keeping import BookKeeping, today
from toneladder_desktop.window.page_desk import PageDesk, Room

if TYPE_CHECKING:
    from toneladder.book.values import KeptBath
    from toneladder_desktop.book import asked
    from toneladder_desktop.book.telling import RecordRead
    from toneladder_desktop.book.view import BookView


class BookDesk(PageDesk["BookView"]):
    """One page for one bench; it is made when it is first wanted."""

    def __init__(
        self,
        room: Room,
        keeping: BookKeeping,
        beside: Beside,
        open_plate: Callable[[Path], object],
    ) -> None:
        super().__init__(room)
        self._keeping, self._beside, self._open_plate = keeping, beside, open_plate
        self._for_plate = False
        keeping.answered.connect(self._answered)
        keeping.failed.connect(self._failed)

    def open(self) -> None:
        """The ledger of plates."""
        view = self._shown()
        view.turn_to(view.plates)

    def open_baths(self) -> None:
        """The ledger of baths."""
        view = self._shown()
        view.turn_to(view.baths)

    def open_record(self) -> None:
        """The record of the open plate."""
        plate = self._bench.plate
        if plate is None:
            self._say_error(say("There is no plate yet. Open a picture first."))
        else:
            self._read_record(identity_of(plate))

    def begin_bath(self) -> None:
        """Begin a bath like the one the open plate is bitten in; the plate takes its name."""
        from toneladder.book.values import Bath

        plate = self._bench.plate
        if plate is None:
            return
        self.open_baths()
        one = plate.conditions
        bath = Bath("", one.metal, one.mordant, strength=one.strength, movement=one.movement)
        self._made().baths.begin(bath, self._preferences.now.manner)
        self._for_plate = True

    def close(self) -> None:
        """Back to the bench."""
        self._for_plate = False
        super().close()

    # answers

    def _answered(self, request: object, answer: object) -> None:
        from toneladder_desktop.book import asked
        from toneladder_desktop.book.telling import RecordRead

        kinds = (asked.Plates, asked.Baths, asked.Strips, asked.Changed)
        if self._view is None and isinstance(answer, kinds):
            return  # nobody has looked into the book yet
        view, manner = self._made(), self._preferences.now.manner
        match answer:
            case asked.Plates():
                view.plates.show_plates(answer, manner)
            case asked.Baths():
                view.baths.show_baths(answer, manner)
            case asked.Strips():
                view.baths.show_strips(answer)
            case RecordRead():
                self._show_record(answer)
            case asked.Fetched():
                self._stand_on(answer)
            case asked.Changed():
                self._changed(request, answer)
            case asked.NameTaken():
                act = say("Take it in as “{name}”", name=answer.name)
                again = asked.TakeIn(answer.path, answer.name)
                view.notice.tell(answer.sentence, [(act, lambda: self._keeping.do(again))])
            case asked.Damaged():
                self._damaged(answer.sentence)

    def _show_record(self, read: "RecordRead") -> None:
        view = self._made()
        if not self._is_open():
            self._shown()
        view.show_record(read, self._preferences.now.manner)
        own = self._lies_open(Path(read.told.record.kept.plate.path))
        view.record.open.setText(say("Back to the plate") if own else say("Open the plate"))

    def _changed(self, request: object, answer: "asked.Changed") -> None:
        from toneladder_desktop.book import asked

        view = self._made()
        if answer.sentence and self._is_open():
            view.notice.tell(answer.sentence)
        if isinstance(request, asked.KeepPull):
            view.record.end()
        if isinstance(request, asked.KeepBath) and answer.bath is not None:
            view.baths.end()
            self._bath_kept(answer.bath)
        if isinstance(request, asked.KeepBath | asked.TakeIn) and answer.bath is not None:
            view.baths.choose(answer.bath.id)
        self._refresh()

    def _bath_kept(self, kept: "KeptBath") -> None:
        """The plate for which a bath was begun is bitten in it."""
        plate, one = self._bench.plate, kept.bath
        if self._for_plate and plate is not None:
            own = (plate.conditions.metal, plate.conditions.mordant)
            if own == (one.metal, one.mordant):
                sentence = say("Bite in the bath “{name}”", name=one.name)
                self._bench.change(sentence, replace(plate, bath=one.name))
        self._for_plate = False
        self._keeping.ask_for_baths()

    def _stand_on(self, fetched: "asked.Fetched") -> None:
        from toneladder.book.baths import require_belongs

        plate, bath, strip = self._bench.plate, fetched.bath, fetched.strip
        if plate is None:
            self._tell(say("There is no plate open. Open one, then take the strip."))
            return
        try:
            require_belongs(bath, plate.conditions)
        except ToneLadderError as refused:
            self._tell(str(refused))
            return
        others = (one for one in plate.evidence.strips if one.bath == bath.name and one != strip)
        evidence = replace(plate.evidence, strips=(*others, strip))
        wanted = replace(plate, bath=bath.name, evidence=evidence)
        wrong = faults(wanted)
        if wrong:
            self._tell(" ".join(wrong))
            return
        self._bench.change(say("Plan by a strip of “{name}”", name=bath.name), wanted)
        self.close()

    def _damaged(self, sentence: str) -> None:
        from toneladder_desktop.book.asked import SetAside

        act = say("Set it aside, begin a fresh one")
        aside = SetAside(today())
        if self._is_open():
            self._made().notice.tell(sentence, [(act, lambda: self._keeping.do(aside))])

    def _failed(self, _request: object, sentence: str) -> None:
        if self._is_open():
            self._tell(sentence)
        else:
            self._say_error(sentence)

    # the page

    def _open(self, path: Path) -> None:
        """What lies open already is gone back to, with all that was changed."""
        if self._lies_open(path):
            self.close()
        else:
            self._open_plate(path)

    def _lies_open(self, path: Path) -> bool:
        lying = self._bench.lying
        return lying is not None and lying.path is not None and lying.path.absolute() == path

    def _read_record(self, identity: str) -> None:
        from toneladder_desktop.book.asked import ReadRecord

        plate, plan = self._bench.plate, self._workings.plan
        request = ReadRecord(identity)
        if plate is not None and plan is not None and identity_of(plate) == identity:
            request = ReadRecord(identity, plate, plan.order)
        self._keeping.ask("record", request)

    def _refresh(self) -> None:
        """What the page shows, asked anew."""
        from toneladder_desktop.book.asked import ListBaths

        view = self._view
        if view is None or not self._is_open():
            return
        part = view.parts.currentWidget()
        if part is view.plates:
            view.plates.ask()
        elif part is view.baths:
            self._keeping.ask("baths", ListBaths())
        elif view.record.identity:
            self._read_record(view.record.identity)

    def _tell(self, sentence: str) -> None:
        self._made().notice.tell(sentence)

    def _shown(self) -> "BookView":
        view = self._made()
        view.notice.put_away()
        self._turn_to()
        return view

    def _make(self) -> "BookView":
        from toneladder_desktop.book.view import BookView
        from toneladder_desktop.window.book_wishes import BookWishes

        view = BookView(self._pages)
        BookWishes(view, self._keeping, self._preferences, self._beside)
        view.left.connect(self.close)
        view.turned.connect(self._refresh)
        view.plates.record_wanted.connect(self._read_record)
        for part in (view.plates, view.record):
            part.opened.connect(lambda path: self._open(Path(path)))
        return view
