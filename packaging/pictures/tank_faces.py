"""The tank's face in every state, brought about by what happens at a tank."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import UTC
from functools import cache

from PySide6.QtGui import QImage, QPainter

from toneladder.lines.values import Lines
from toneladder.order.values import SecondGrain
from toneladder.picture.opening import open_picture
from toneladder.picture.values import PlateSize
from toneladder.plan.planning import Plan, plan
from toneladder.plate.values import Plate
from toneladder.tank.acts import entered, press
from toneladder.tank.begun import Begun
from toneladder.tank.facts import begun_of
from toneladder.tank.session import elsewhere, session
from toneladder.tank.values import Act, Event, Kind, Moment, Stage, Standing
from toneladder.tones.values import ToneChoice
from toneladder_desktop.tank.face import BY_DAY, BY_NIGHT, draw, look_of, place
from toneladder_desktop.tank.maps import stage_maps

SIZES = ((1366, 768), (1920, 1080), (3840, 2160))
NINE = Moment(5000.0, 1_800_003_600.0, "first")


@cache
def planned(tones: int) -> Plan:
    """A sample with lines before its tones and a second grain after them."""
    from pathlib import Path

    from toneladder.wording import say

    file = min((Path(__file__).resolve().parents[2] / "sample_images").glob("*.png"))
    picture = open_picture(file, name=file.name)
    plate = Plate(
        say("sample"),
        picture.ref,
        PlateSize(200.0, 150.0),
        tones=ToneChoice(tones),
        lines=Lines(depths=3),
        second_grain=SecondGrain(2, (300.0, 600.0)),
    )
    return plan(picture, plate)


@dataclass
class Stay:
    """Somebody at the tank."""

    begun: Begun
    now: Moment = NINE
    events: list[Event] = field(default_factory=list)

    @property
    def standing(self) -> Standing:
        """What stands on the screen."""
        for _ in range(2):
            found = session(self.begun.order, self.begun.facts, self.events, self.now)
            self.events.extend(found.due)
        return found

    def wait(self, seconds: float) -> "Stay":
        """Time passes."""
        self.standing  # noqa: B018 - what comes by itself is logged
        self.now = self.now.later(seconds)
        return self

    def act(self, act: Act = Act.MAIN, after_s: float = 2.0) -> "Stay":
        """A hand acts."""
        self.wait(after_s)
        self.events.extend(press(self.standing, act, self.now))
        return self

    def enter(self, kind: Kind, **values: object) -> "Stay":
        """Something is entered."""
        self.events.extend(entered(self.standing, kind, self.now, **values))  # type: ignore[arg-type] # by name
        return self

    def given(self, steps: int) -> "Stay":
        """So many steps are bitten as planned."""
        self.act()
        for step in self.begun.order.steps[:steps]:
            self.enter(Kind.GIVEN, seconds=step.bite_s).enter(Kind.DRY)
        return self

    def bite(self) -> "Stay":
        """Into the bath."""
        return self.enter(Kind.COUNTING).wait(10.0)

    def lift(self, over_s: float = 0.0) -> "Stay":
        """Into the bath and out of it, so much late."""
        return self.bite().left(-over_s).enter(Kind.LIFTED)

    def left(self, seconds: float) -> "Stay":
        """So many seconds before the lift."""
        standing = self.standing
        return self.wait(standing.length_s - standing.bitten_s - seconds)


def stay(stage: Stage = Stage.TONES, tones: int = 6) -> Stay:
    """A plate comes to the tank."""
    return Stay(begun_of(planned(tones), stage))


def _out(over_s: float, steps: int = 2) -> Stay:
    """Just out of the bath, so much late."""
    return stay().given(steps).lift(over_s)


def _silent() -> Stay:
    """At the tank where nothing can be heard."""
    return stay().enter(Kind.NO_SOUND).act()


def _restarted(one: Stay) -> Stay:
    return one.wait(40.0).enter(Kind.BACK, seconds=40.0)


def _clocks_apart(one: Stay, seconds: float) -> Stay:
    one.now = replace(one.now, utc_s=one.now.utc_s + seconds)
    return one


FACES: Mapping[str, Callable[[], Stay]] = {
    "check": stay,
    "no-sound": lambda: stay().enter(Kind.NO_SOUND),
    "ready-1": lambda: stay().act(),
    "ready-3": lambda: stay().given(2),
    "ready-dips": lambda: stay().given(4),
    "ready-12-tones": lambda: stay(tones=12).given(10),
    "skip": lambda: stay().given(2).act(Act.SECOND),
    "count-in": lambda: stay().given(2).act().wait(4.0),
    "biting": lambda: stay().given(2).bite().wait(8.0),
    "biting-12-tones": lambda: stay(tones=12).act().bite().wait(2.0),
    "biting-half-way": lambda: stay().given(2).bite().left(40.0),
    "biting-long": lambda: stay().given(4).bite().wait(20.0),
    "asked": lambda: stay().given(2).bite().act(),
    "last-ten": lambda: stay().given(2).bite().left(7.0),
    "lift": lambda: stay().given(2).bite().left(-1.5),
    "lift-late": lambda: stay().given(2).bite().left(-45.0),
    "when": lambda: stay().given(2).bite().left(-14.0).act(),
    "when-set": lambda: stay().given(2).bite().left(-14.0).act().act(Act.EARLIER),
    "when-early": lambda: stay().given(2).bite().left(8.0).act(),
    "out-early": lambda: stay().given(2).bite().act().act(Act.SECOND),
    "out": lambda: _out(0.0),
    "silent-count-in": lambda: _silent().act().act().wait(4.0),
    "silent-last-ten": lambda: _silent().bite().left(7.0),
    "silent-when": lambda: _silent().bite().left(-14.0).act(),
    "silent-out": lambda: _silent().lift(),
    "warmer": lambda: stay().given(2).act(Act.LATER).act(Act.LATER),
    "painted-late": lambda: _out(0.0).act().wait(9000.0),
    "out-last": lambda: stay().given(4).lift().lift(),
    "worked-out": lambda: _out(20.0),
    "worked-out-long": lambda: _out(120.0),
    "lost-tone": lambda: _out(260.0),
    "stop-out": lambda: _out(0.0).act(),
    "drying": lambda: _out(0.0).act().act(after_s=1500.0).wait(120.0),
    "dry": lambda: _out(0.0).act().act(after_s=1500.0).wait(1200.0),
    "back": lambda: _restarted(stay().given(2).bite()),
    "clocks": lambda: _clocks_apart(stay().given(4).bite().wait(30.0), 240.0),
    "clocks-back": lambda: _clocks_apart(stay().given(4).bite().wait(30.0), -3600.0),
    "end": lambda: stay().given(5),
    "lines-check": lambda: stay(Stage.LINES),
    "lines-ready-1": lambda: stay(Stage.LINES).act(),
    "lines-ready-3": lambda: stay(Stage.LINES).given(2),
    "lines-biting": lambda: stay(Stage.LINES).given(1).bite().wait(30.0),
    "lines-stop-out": lambda: stay(Stage.LINES).act().lift().act(),
    "lines-worked-out": lambda: stay(Stage.LINES).act().lift(120.0),
    "lines-lost": lambda: stay(Stage.LINES).act().lift(1200.0),
    "lines-skip": lambda: stay(Stage.LINES).given(1).act(Act.SECOND),
    "lines-end": lambda: stay(Stage.LINES).given(3),
    "second-check": lambda: stay(Stage.SECOND),
    "second-stop-out": lambda: stay(Stage.SECOND).act(),
    "second-ready": lambda: stay(Stage.SECOND).act().act().act(after_s=2000.0),
    "second-biting": lambda: stay(Stage.SECOND).bite().wait(20.0),
    "second-worked-out": lambda: stay(Stage.SECOND).lift(60.0),
    "second-skip": lambda: stay(Stage.SECOND).lift().enter(Kind.DRY).act(Act.SECOND),
}
"""Each state of the face, by what happened before it."""


def face(name: str, width: int, height: int, *, dark: bool) -> QImage:
    """The face of that name, of so many pixels."""
    if name == "elsewhere":
        standing, maps = elsewhere(NINE), {}
    else:
        one = FACES[name]()
        standing = one.standing
        maps = (
            stage_maps(planned(len(one.begun.order.tones)), one.begun.facts.stage)
            if ("stop-out" in name)
            else {}
        )
    look = look_of(standing, standing.then, maps, UTC)
    image = QImage(width, height, QImage.Format.Format_RGB32)
    shades = BY_NIGHT if dark else BY_DAY
    image.fill(shades.ground if not look.turned else shades.ink)
    painter = QPainter(image)
    draw(painter, look, place(look, float(width), float(height)), shades, float(width))
    painter.end()
    return image


NAMES = (*FACES, "elsewhere")
