"""The tank's own window, for a laptop two metres away: it keeps the time and what happened."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime, tzinfo
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QPointF, QRectF, Qt, QTimer, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QCloseEvent,
    QImage,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QResizeEvent,
)
from PySide6.QtWidgets import QWidget

from toneladder.quantities import write_temperature
from toneladder.tank.acts import entered, press, taken_back
from toneladder.tank.begun import Begun
from toneladder.tank.clocks import elapsed
from toneladder.tank.session import elsewhere, session
from toneladder.tank.sounds import sounds_between
from toneladder.tank.values import Act, Event, Kind, Moment, Offer, Stage, Standing, State
from toneladder.wording import begins, say
from toneladder_desktop.fittings.apart import Apart
from toneladder_desktop.tank.awake import Awake
from toneladder_desktop.tank.clock import read_clocks
from toneladder_desktop.tank.face import BY_DAY, BY_NIGHT, Look, draw, look_of, place
from toneladder_desktop.tank.heard import Loudspeaker
from toneladder_desktop.tank.keys import Presses
from toneladder_desktop.tank.notebook import Notebook, Opened
from toneladder_desktop.tank.offers import Offers

TICK_MS = 100
LEASE_MS = 5000
SAID_S = 4.0
"""How long it stays said that a key does nothing."""

AWAY_S = 5.0
"""Seconds unseen after which it is said that the bite ran on."""

_SPOKEN_S = (60, 30, 10)
if TYPE_CHECKING:
    from toneladder.book.stay_use import Forwarded
    from toneladder_desktop.tank.entering import Entering

Clock = Callable[[], Moment]


@dataclass(frozen=True, slots=True)
class Maps:
    """What is painted at each step of a stage, as on the plate, by the step's number."""

    images: dict[int, QImage]


class TankWindow(Apart):
    """One plate at the tank.

    Signals
    -------
    told(str)
        What the bench shows while this window is hidden.
    ended(given_s)
        The session is over: the total bites that the tones really got, tone 0 first, as
        seconds in a bath of the planned temperature.
    gone()
        The window has closed, and let the plate go.
    """

    told = Signal(str)
    ended = Signal(object)
    gone = Signal()

    def __init__(
        self,
        plate: str,
        begun: Begun,
        notebook: Notebook,
        *,
        title: str = "",
        maps: Maps | None = None,
        clock: Clock = read_clocks,
        zone: tzinfo | None = None,
        steady: Callable[[], bool] = bool,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("At the tank: {title}", title=title))
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMinimumSize(640, 420)
        room = self.screen().availableGeometry()
        self.resize(min(1366, room.width()), min(768, room.height()))
        self._plate, self._begun, self._notebook = plate, begun, notebook
        self._clock, self._steady = clock, steady
        self._zone = zone or datetime.now(UTC).astimezone().tzinfo or UTC
        self._maps = {} if maps is None else maps.images
        self._session = ""
        self._events: list[Event] = []
        self._waiting: list[Event] = []
        self._ours, self._dark, self._failed = True, False, ""
        self._stopped = False
        self._entering: Entering | None = None
        self._said_until: Moment | None = None
        self._spoken: tuple[object, ...] = ()
        self._heard_until = clock()
        self.forwarded: Forwarded | None = None
        self.standing: Standing = self._now()
        self.offers = Offers(self)
        self.offers.pressed.connect(lambda act: self.act(act, clock()))
        self.speaker, self.awake = Loudspeaker(self), Awake(self)
        self._presses = Presses(self)
        self._presses.acted.connect(self.act)
        notebook.opened.connect(self._opened)
        notebook.noted.connect(self._noted)
        notebook.held.connect(self._held)
        notebook.failed.connect(self._could_not_note)
        notebook.forwarded.connect(self._forwarded)
        self._tick = QTimer(self, interval=TICK_MS)
        self._tick.setTimerType(Qt.TimerType.PreciseTimer)
        self._tick.timeout.connect(self.tick)
        self._lease = QTimer(self, interval=LEASE_MS)
        self._lease.timeout.connect(lambda: notebook.hold(plate, clock()))
        notebook.hold(plate, clock())
        notebook.begin(plate, begun, clock())
        self._lease.start()

    @property
    def events(self) -> tuple[Event, ...]:
        """Everything that is safe in the studio book."""
        return tuple(self._events)

    @property
    def in_bath(self) -> bool:
        """Whether the plate is in the bath."""
        return self.standing.in_bath or self.standing.state is State.COUNT_IN

    @property
    def stage(self) -> Stage:
        """What is bitten."""
        return self._begun.facts.stage

    def tick(self) -> None:
        """Look at the clocks: what is to be said, heard and noted now."""
        if not self._session:
            return
        now = self._clock()
        standing = self._standing(now)
        if self._ours and not self._waiting:
            for event in standing.due:
                self._note(event)
        if self._ours:
            for sound in sounds_between(standing, self._heard_until, now):
                self.speaker.play(sound)
        self._heard_until = now
        if self._just_silent(standing):
            self._note(Event(standing.next_number, Kind.NO_SOUND, now))
        self.awake.keep(awake=standing.in_bath and self._ours)
        self._show(standing)

    def act(self, act: Act, at: Moment) -> None:
        """A hand did something, at that moment."""
        if not self._ours or self._waiting or not self._session:
            return
        standing = self._standing(at)
        for event in press(standing, act, at):
            self._note(event)

    def _just_silent(self, standing: Standing) -> bool:
        """Whether nothing can be heard here any more, and nobody was told; not in a bite."""
        resting = standing.state in {State.CHECK, State.READY}
        told = standing.silent or self._waiting
        return resting and not told and not self.speaker.works

    def offer(self, which: Act) -> Offer | None:
        """What an act would do now."""
        acts = {
            Act.MAIN: self.standing.main,
            Act.SECOND: self.standing.second,
            Act.EARLIER: self.standing.earlier,
            Act.LATER: self.standing.later,
        }
        return acts[which]

    # hands

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Space and Enter act, Backspace is the second act, arrows a little less or more."""
        key, now = Qt.Key(event.key()), self._clock()
        if event.isAutoRepeat():
            return
        if key in {Qt.Key.Key_Space, Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            self._presses.down(self.standing, now)
        elif key == Qt.Key.Key_Backspace:
            self.act(Act.SECOND, now)
        elif key in {Qt.Key.Key_Down, Qt.Key.Key_Left}:
            self.act(Act.EARLIER, now)
        elif key in {Qt.Key.Key_Up, Qt.Key.Key_Right}:
            self.act(Act.LATER, now)
        elif not self._quietly(key) and not event.modifiers() and key != Qt.Key.Key_Tab:
            self._said_until = now.later(SAID_S)
            self.update()

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        """The one key comes up."""
        keys = {Qt.Key.Key_Space, Qt.Key.Key_Return, Qt.Key.Key_Enter}
        if not event.isAutoRepeat() and Qt.Key(event.key()) in keys:
            self._presses.up()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """The bars act, nothing else does."""
        if event.button() is not Qt.MouseButton.LeftButton:
            return
        main, second = self._bars()
        if main.contains(event.position()):
            self._presses.down(self.standing, self._clock())
        elif second.contains(event.position()):
            self.act(Act.SECOND, self._clock())
        else:
            self._said_until = self._clock().later(SAID_S)
            self.update()

    def mouseReleaseEvent(self, _event: QMouseEvent) -> None:
        """A finger or button comes up."""
        self._presses.up()

    def event(self, event: QEvent) -> bool:
        """Tab goes nowhere: there is one act."""
        tabs = {Qt.Key.Key_Tab, Qt.Key.Key_Backtab}
        pressed = event.type() is QEvent.Type.KeyPress
        if isinstance(event, QKeyEvent) and pressed and event.key() in tabs:
            self.keyPressEvent(event)
            return True
        return super().event(event)

    def enter(self) -> None:
        """Enter a reading, a slip, a note, with dry hands; not while the plate is in the bath."""
        from toneladder_desktop.tank.entering import Entering

        if self._entering is None:
            self._entering = Entering(len(self._begun.order.tones), self.stage, self)
            self._entering.entered.connect(self._enter)
            self._entering.taken_back.connect(self._take_back)
        self._list_events()
        self._entering.show()
        self._entering.raise_()

    def try_the_sound(self) -> None:
        """Hear what will be heard at the lift."""
        from toneladder.tank.sounds import Sound

        self.speaker.play(Sound.LIFT_LONG)

    # the window's own

    def closeEvent(self, event: QCloseEvent) -> None:
        """A bite goes on without a window, and so does its clock."""
        if self.in_bath:
            event.ignore()
            self.hide()
            return
        if self._ours and not self._waiting and self._now().state is State.END:
            event.ignore()
            self._note(Event(len(self._events), Kind.CLOSED, self._clock()))
            return
        self.stop()
        self.gone.emit()
        event.accept()

    def stop(self) -> None:
        """Let the plate go; everything is noted."""
        if self._stopped:
            return
        self._stopped = True
        self._tick.stop()
        self._lease.stop()
        self.awake.keep(awake=False)
        self.speaker.close()
        self._notebook.close(self._plate)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw it."""
        painter = QPainter(self)
        look = self._look()
        width, height = float(self.width()), float(self.height())
        shades = BY_NIGHT if self._dark else BY_DAY
        painter.fillRect(self.rect(), shades.turned.ground if not look.turned else shades.ground)
        draw(painter, look, place(look, width, height), shades, width)

    def _quietly(self, key: Qt.Key) -> bool:
        """Keys that change how it is seen or heard, or what is entered with dry hands."""
        resting = self.standing.state in {State.CHECK, State.READY}
        if key == Qt.Key.Key_F11:
            self.setWindowState(self.windowState() ^ Qt.WindowState.WindowFullScreen)
        elif key == Qt.Key.Key_F6:
            self._dark = not self._dark
            self.update()
        elif key == Qt.Key.Key_F7 and resting:
            self.try_the_sound()
        elif key == Qt.Key.Key_F8 and not self.in_bath:
            self.enter()
        else:
            return False
        return True

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The acts stay where they are drawn."""
        super().resizeEvent(event)
        self.offers.setGeometry(self.rect())
        self._show_offers()

    def _show_offers(self) -> None:
        main, second = self._bars()
        less = QRectF(main.topLeft(), QPointF(main.center().x(), main.bottom()))
        more = QRectF(QPointF(main.center().x(), main.top()), main.bottomRight())
        places = {Act.MAIN: main, Act.SECOND: second, Act.EARLIER: less, Act.LATER: more}
        self.offers.show_offers(self.offer, places)

    def _bars(self) -> tuple[QRectF, QRectF]:
        layout = place(self._look(), float(self.width()), float(self.height()))
        boxes = (layout.main, layout.second)
        main, second = (QRectF(QPointF(b.x, b.y), QPointF(b.right, b.bottom)) for b in boxes)
        return main, second

    def _look(self) -> Look:
        steady = self._steady()
        return look_of(self.standing, self._then(), self._maps, self._zone, steady=steady)

    def _then(self) -> str:
        if self._failed:
            return self._failed
        until = self._said_until
        if until is not None and elapsed(self._clock(), until).steady_s > 0.0:
            return say("Only the space bar acts now.")
        return self.standing.then

    # what happened

    def _enter(self, kind: Kind, seconds: float, reading: float, of: int, text: str) -> None:
        now = self._clock()
        standing = self._standing(now)
        if not self._waiting and self._ours:
            more = entered(standing, kind, now, seconds=seconds, reading=reading, of=of, text=text)
            for event in more:
                self._note(event)

    def _take_back(self, number: int) -> None:
        now = self._clock()
        if not self._waiting and self._ours:
            for event in taken_back(self._standing(now), number, now):
                self._note(event)

    def _list_events(self) -> None:
        if self._entering is not None:
            self._entering.show_events(self.events, self._in_words)

    def _in_words(self, event: Event) -> str:
        at = datetime.fromtimestamp(event.at.utc_s, UTC).astimezone(self._zone)
        words = say("{time}  {what}", time=f"{at:%H:%M:%S}", what=say(event.kind.value))
        if event.text:
            return say("{words}: {text}", words=words, text=event.text)
        return words

    def _opened(self, opened: Opened) -> None:
        self._session, self._begun = opened.session, opened.begun
        self._events = list(opened.events)
        now = self._clock()
        if opened.resumed and self._events:
            away = elapsed(self._events[-1].at, now).steady_s
            if away > AWAY_S and self._standing(now).in_bath:
                self._note(Event(len(self._events), Kind.BACK, now, seconds=away))
        self._heard_until = now
        self._tick.start()
        self.tick()

    def _note(self, event: Event) -> None:
        self._waiting.append(event)
        self._notebook.note(self._session, event)

    def _noted(self, event: object) -> None:
        if isinstance(event, Event) and event in self._waiting:
            self._waiting.remove(event)
            self._events.append(event)
            self._failed = ""
            self._list_events()
            if event.kind is Kind.CLOSED:
                rate = self._begun.facts.rate
                self.ended.emit(tuple(s / rate for s in self._now().effective_s))
                self.close()
                return
            self.tick()

    def _could_not_note(self, sentence: str) -> None:
        """The disk refuses: go on from memory, and say so until it takes notes again."""
        self._failed = say("Not noted, keep a pencil by: {why}", why=sentence)
        for event in self._waiting:
            if event.number == len(self._events):
                self._events.append(event)
        self._waiting = []
        self.update()

    def _forwarded(self, forwarded: "Forwarded") -> None:
        self.forwarded = forwarded

    def _held(self, ours: bool) -> None:
        if ours != self._ours:
            self._ours = ours
            self.tick()

    def _standing(self, now: Moment) -> Standing:
        if not self._ours:
            return elsewhere(now)
        return session(self._begun.order, self._begun.facts, self._events, now, zone=self._zone)

    def _now(self) -> Standing:
        return self._standing(self._clock())

    def _show(self, standing: Standing) -> None:
        before, self.standing = self.standing, standing
        if standing.state is not before.state:
            self._presses.drop()
        self._speak(standing)
        self.told.emit(self._in_short(standing))
        self.setAccessibleName(standing.sentence)
        self.setAccessibleDescription(self._then())
        self._show_offers()
        self.update()

    def _in_short(self, standing: Standing) -> str:
        figure = standing.figure
        if not standing.in_bath or figure is None:
            return ""
        seconds = int(figure.seconds) if figure.up else -int(-figure.seconds // 1)
        words = say("{n} s {words}", n=seconds, words=figure.words)
        return say("{step} biting, {words}", step=begins(standing.bite_name), words=words)

    def _speak(self, standing: Standing) -> None:
        """A screen reader hears every new sentence, and the figure at 60, 30 and 10 s."""
        figure = standing.figure
        near: int | None = None
        if figure is not None and standing.in_bath:
            whole = round(figure.seconds)
            if figure.up and whole:
                near = whole // 10 * 10
            elif whole in _SPOKEN_S:
                near = whole
        told = (standing.sentence, near, _set_by_arrows(standing))
        if told != self._spoken:
            moved = self._spoken[:2] == told[:2]
            self._spoken = told
            words = standing.sentence if near is None else say("{n} seconds", n=near)
            spoken = (moved and told[2]) or words
            QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, spoken))


def _set_by_arrows(standing: Standing) -> str:
    """What the arrow keys have set so far, in words."""
    if standing.state is State.READY:
        return write_temperature(standing.bath_c)
    if standing.state is State.WHEN and standing.main is not None:
        return standing.main.label
    return ""
