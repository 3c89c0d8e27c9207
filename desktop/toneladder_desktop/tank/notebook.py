"""What happens at the tank goes into the studio book before anything else is done with it."""

import uuid
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from toneladder.errors import RefusedPairError, TankError
from toneladder.tank.begun import Begun, begun_from, begun_text
from toneladder.tank.record import EventRow, event_from, event_row
from toneladder.tank.session import session
from toneladder.tank.values import Event, Kind, Moment, Stage
from toneladder_desktop.bench.background import Background, Tell

if TYPE_CHECKING:
    from toneladder.book.opening import Book
    from toneladder.book.stay_use import Forwarded


@dataclass(frozen=True, slots=True, eq=False)
class Begin:
    """A plate comes to the tank: with what it was begun, unless a stay of it is still open."""

    plate: str
    begun: Begun
    now: Moment


@dataclass(frozen=True, slots=True, eq=False)
class Look:
    """Whether a stay of the plate at the tank is still open."""

    plate: str


@dataclass(frozen=True, slots=True, eq=False)
class Past:
    """When the plate was bitten before."""

    plate: str


@dataclass(frozen=True, slots=True, eq=False)
class Bitten:
    """When the last stay of each stage of a plate ended, seconds since 1970, UTC; None: not yet."""

    plate: str
    ended_utc_s: Mapping[Stage, float | None]


@dataclass(frozen=True, slots=True, eq=False)
class Note:
    """Something happened."""

    session: str
    event: Event


@dataclass(frozen=True, slots=True, eq=False)
class Hold:
    """A window says that it has the plate."""

    plate: str
    owner: str
    now: Moment


@dataclass(frozen=True, slots=True, eq=False)
class LetGo:
    """A window has done with the plate."""

    plate: str
    owner: str


@dataclass(frozen=True, slots=True, eq=False)
class Opened:
    """The stay at the tank, new or gone on with: its identity, beginning and events."""

    session: str
    begun: Begun
    events: tuple[Event, ...]
    resumed: bool


@dataclass(frozen=True, slots=True, eq=False)
class Noted:
    """An event is safe on the disk; a last one also says what of the bath was used."""

    event: Event
    forwarded: "Forwarded | None" = None


@dataclass(frozen=True, slots=True, eq=False)
class Held:
    """Whether the plate is this window's."""

    ours: bool


class Notebook(QObject):
    """The studio book on a thread of its own; nothing that is asked of it is ever dropped.

    ``opened``, ``unfinished``, ``bitten``, ``noted`` and ``held`` answer; ``forwarded`` says what
    was brought forward in the bath's use, ``failed(sentence)`` what could not be kept.
    """

    opened = Signal(object)
    unfinished = Signal(object)
    bitten = Signal(object)
    noted = Signal(object)
    forwarded = Signal(object)
    held = Signal(bool)
    failed = Signal(str)

    def __init__(self, path: Path, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._background = Background(_Work(path).work, self)
        self._background.answered.connect(self._answered)
        self._background.failed.connect(lambda _request, sentence: self.failed.emit(sentence))
        self._asked = 0
        self.owner = uuid.uuid4().hex

    def begin(self, plate: str, begun: Begun, now: Moment) -> None:
        """A plate comes to the tank."""
        self._ask(Begin(plate, begun, now))

    def look(self, plate: str) -> None:
        """Ask whether a stay of the plate is still open; ``unfinished`` says that there is one."""
        self._ask(Look(plate))

    def past(self, plate: str) -> None:
        """Ask when the plate was bitten before; ``bitten`` tells."""
        self._ask(Past(plate))

    def note(self, session: str, event: Event) -> None:
        """Something happened; ``noted`` follows when it is safe."""
        self._ask(Note(session, event))

    def hold(self, plate: str, now: Moment) -> None:
        """Say that this window has the plate; ``held`` tells whether it does."""
        self._background.ask("hold", Hold(plate, self.owner, now))

    def close(self, plate: str) -> None:
        """Let the plate go, and end the thread when all is written."""
        self._ask(LetGo(plate, self.owner))
        self._background.finish()

    def _ask(self, request: object) -> None:
        self._asked += 1
        self._background.ask(f"note {self._asked}", request)

    def _answered(self, request: object, answer: object) -> None:
        match answer:
            case Opened() if isinstance(request, Look):
                self.unfinished.emit(answer)
            case Opened():
                self.opened.emit(answer)
            case Bitten():
                self.bitten.emit(answer)
            case Noted():
                if answer.forwarded is not None:
                    self.forwarded.emit(answer.forwarded)
                self.noted.emit(answer.event)
            case Held():
                self.held.emit(answer.ours)


class _Work:
    """On the notebook's own thread, which has its own way into the book."""

    def __init__(self, path: Path) -> None:
        self._path = path
        self._book: Book | None = None
        self._begun: dict[str, Begun] = {}
        self._acts: dict[type, Callable[[object], object]] = {
            Begin: self._begin,
            Look: self._look,
            Past: self._past,
            Note: self._note,
            Hold: self._hold,
            LetGo: self._let_go,
        }

    def work(self, request: object, _tell: Tell) -> Iterator[object]:
        answer = self._acts[type(request)](request)
        if answer is not None:
            yield answer

    def _open(self) -> "Book":
        if self._book is None:
            from toneladder.book.opening import open_book

            self._book = open_book(self._path)
        return self._book

    def _look(self, request: object) -> object:
        if not isinstance(request, Look) or not self._path.exists():
            return None
        return self._still_open(request.plate)

    def _past(self, request: object) -> object:
        from toneladder.book.tank_log import events_of, sessions_of

        if not isinstance(request, Past) or not self._path.exists():
            return None
        book = self._open()
        ended: dict[Stage, float | None] = {}
        for stay in sessions_of(book, request.plate):
            begun, events = self._read_if(stay.order), events_of(book, stay.identity)
            if begun is not None and events:
                over = events[-1].kind == Kind.CLOSED.value
                ended[begun.facts.stage] = events[-1].utc_s if over else None
        return Bitten(request.plate, ended)

    def _still_open(self, plate: str, stage: Stage | None = None) -> Opened | None:
        """The last stay of the plate, or the last one of a stage, unless it is over."""
        from toneladder.book.tank_log import events_of, sessions_of

        book = self._open()
        for stay in reversed(sessions_of(book, plate)):
            begun = self._read(stay.order, stage)
            if begun is None:
                continue
            if stage is not None and begun.facts.stage is not stage:
                continue
            events = tuple(_event(logged) for logged in events_of(book, stay.identity))
            if not events or events[-1].kind is Kind.CLOSED:
                return None
            self._begun[stay.identity] = begun
            return Opened(stay.identity, begun, events, resumed=True)
        return None

    def _read(self, text: str, stage: Stage | None) -> Begun | None:
        """With what a stay began; one that cannot be read is of no stage that is asked for."""
        return begun_from(text) if stage is None else self._read_if(text)

    def _read_if(self, text: str) -> Begun | None:
        """With what a stay began; None if that cannot be read."""
        try:
            return begun_from(text)
        except TankError:
            return None

    def _in_bath(self, plate: str, now: Moment) -> Opened | None:
        """The last stay of the plate, if it is in the bath whatever anybody says."""
        last = self._still_open(plate)
        if last is None:
            return None
        standing = session(last.begun.order, last.begun.facts, last.events, now)
        return last if standing.in_bath else None

    def _begin(self, request: object) -> object:
        from toneladder.book.tank_log import begin_session
        from toneladder.book.values import TankSession

        if not isinstance(request, Begin):
            return None
        stage = request.begun.facts.stage
        open_one = self._in_bath(request.plate, request.now) or self._still_open(
            request.plate, stage
        )
        if open_one is not None:
            return open_one
        book = self._open()
        identity = uuid.uuid4().hex
        text = begun_text(request.begun)
        self._begun[identity] = request.begun
        begin_session(book, TankSession(identity, request.plate, request.now.utc_s, text))
        return Opened(identity, request.begun, (), resumed=False)

    def _note(self, request: object) -> object:
        from toneladder.book.tank_log import append_event
        from toneladder.book.values import Logged

        if not isinstance(request, Note):
            return None
        closes = request.event.kind is Kind.CLOSED
        forwarded = self._bring_forward(request) if closes else None
        row, boot = event_row(request.event), request.event.at.boot
        logged = Logged(row.number, row.kind, row.boottime_s, row.utc_s, boot, row.detail)
        append_event(self._open(), request.session, logged)
        return Noted(request.event, forwarded)

    def _bring_forward(self, request: Note) -> "Forwarded | None":
        """What the stay dissolved, noted before its end is: a crash between them loses neither."""
        from toneladder.book.stay_use import bring_forward
        from toneladder.book.tank_log import events_of

        begun = self._begun.get(request.session)
        if begun is None:
            return None
        book = self._open()
        events = tuple(_event(logged) for logged in events_of(book, request.session))
        day = datetime.fromtimestamp(request.event.at.utc_s, UTC).astimezone().date().isoformat()
        try:
            return bring_forward(book, request.session, begun, events, day)
        except RefusedPairError:
            return None

    def _hold(self, request: object) -> object:
        from toneladder.book.tank_log import hold_plate
        from toneladder.book.values import Lease

        if not isinstance(request, Hold):
            return None
        now = request.now
        lease = Lease(request.plate, request.owner, now.boot, now.boottime_s, now.utc_s)
        return Held(hold_plate(self._open(), lease).owner == request.owner)

    def _let_go(self, request: object) -> object:
        from toneladder.book.tank_log import let_go

        if isinstance(request, LetGo) and self._book is not None:
            let_go(self._book, request.plate, request.owner)
            self._book.close()
            self._book = None
        return None


def _event(logged: object) -> Event:
    from toneladder.book.values import Logged

    if not isinstance(logged, Logged):
        raise TypeError(logged)
    return event_from(
        EventRow(logged.number, logged.kind, logged.boottime_s, logged.utc_s, logged.detail)
    )
