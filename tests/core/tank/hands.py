"""An order to bite, clocks that obey, and hands that press: what the tests at the tank share."""

from dataclasses import dataclass, field, replace
from functools import cache

import numpy as np

from toneladder.bite.curve import lightness_at, starting_curve
from toneladder.bite.values import BiteCurve, Conditions
from toneladder.order.ladder import Wanted, make_ladder
from toneladder.order.making import Job, make_order
from toneladder.order.values import Order, Rates
from toneladder.picture.values import PlateSize
from toneladder.tank.acts import entered, press
from toneladder.tank.session import session
from toneladder.tank.values import Act, Event, Facts, Kind, Moment, Standing
from toneladder.tones.values import Painting

SIZE = PlateSize(200.0, 150.0)
NOON = Moment(5000.0, 1_800_014_400.0, "first")  # 2027-01-15 12:00 UTC
PLANNED_C = 20.0


@cache
def curve() -> BiteCurve:
    return starting_curve(Conditions())


@cache
def facts(rate: float = 1.0) -> Facts:
    return Facts(curve(), rate, PLANNED_C)


@cache
def order_of(tones: int, rate: float = 1.0) -> Order:
    """An order of evenly spaced tones on the starting curve of copper."""
    deepest = float(lightness_at(curve(), curve().deepest_useful_s))
    levels = tuple(float(level) for level in np.linspace(curve().lightness[0], deepest, tones))
    ladder = make_ladder(
        Wanted(levels, (1.0 / tones,) * tones, (None,) * tones), curve(), rate, SIZE
    )
    painting = Painting(area_cm2=40.0, places=69, border_cm=90.0, new_border_cm=60.0)
    job = Job(tones, SIZE, Conditions(), Rates())
    return make_order(job, ladder, [painting] * (tones - 1))


@dataclass
class Hands:
    """Somebody at the tank, with a clock that stands still until told to go on."""

    order: Order = field(default_factory=lambda: order_of(6))
    facts: Facts = field(default_factory=facts)
    now: Moment = NOON
    events: list[Event] = field(default_factory=list)

    @property
    def standing(self) -> Standing:
        """What stands on the screen; what came by itself is logged, as the window does it."""
        found = session(self.order, self.facts, self.events, self.now)
        self.events.extend(found.due)
        return session(self.order, self.facts, self.events, self.now)

    def copy(self) -> "Hands":
        """The same hands, which may now do something else."""
        return replace(self, events=list(self.events))

    def wait(self, seconds: float) -> Standing:
        self.now = self.now.later(seconds)
        return self.standing

    def press(self, act: Act = Act.MAIN, after: float = 2.0) -> Standing:
        standing = self.wait(after)
        self.events.extend(press(standing, act, self.now))
        return self.standing

    def enter(
        self, kind: Kind, *, seconds: float = 0.0, reading: float = 0.0, of: int = 0, text: str = ""
    ) -> Standing:
        made = entered(
            self.standing, kind, self.now, seconds=seconds, reading=reading, of=of, text=text
        )
        self.events.extend(made)
        return self.standing

    def begin_bite(self) -> Standing:
        """From wherever the plate is out, to its first instant in the bath."""
        if self.standing.sentence.startswith("Back and edges"):
            self.press()
        self.enter(Kind.COUNTING)
        return self.wait(self.facts.count_in_s)

    def bite(self, over: float = 0.0) -> Standing:
        """One whole dip, lifted ``over`` seconds after its tone."""
        standing = self.begin_bite()
        self.wait(standing.length_s + over)
        return self.enter(Kind.LIFTED)
