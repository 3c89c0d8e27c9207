"""What is heard and when: the count-in, the warnings, the lift, and the call of a late lift.

All tones lie below 1.5 kHz, where hearing lasts longest. The lift mirrors the entry: three
short, then a long one, on which the plate is under the rinse.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum

from toneladder.tank.clocks import elapsed
from toneladder.tank.values import Moment, Standing, State

LONG_BITE_S = 120.0
WARNED_S = (60.0, 30.0)
CALLED_EVERY_S = 2.0
LOUDER_AFTER_S = 10.0


class Sound(StrEnum):
    """What can be heard."""

    IN_SHORT = "short: soon into the bath"
    IN_LONG = "long: into the bath"
    WARNING = "two short: a lift is coming"
    LIFT_SHORT = "short: lift and carry"
    LIFT_LONG = "long: under the rinse"
    CALL = "falling pair: still in the bath"
    LOUD_CALL = "louder falling pair: still in the bath"
    DRY = "soft: it should be dry"


@dataclass(frozen=True, slots=True)
class Tone:
    """A tone: hertz, seconds, loudness (0..1), and the silence after it in seconds."""

    hertz: float
    seconds: float
    loudness: float = 0.6
    silence_s: float = 0.0


TONES: Mapping[Sound, tuple[Tone, ...]] = {
    Sound.IN_SHORT: (Tone(440.0, 0.15),),
    Sound.IN_LONG: (Tone(880.0, 0.8),),
    Sound.WARNING: (Tone(660.0, 0.12, 0.6, 0.12), Tone(660.0, 0.12)),
    Sound.LIFT_SHORT: (Tone(880.0, 0.15, 0.8),),
    Sound.LIFT_LONG: (Tone(1320.0, 0.8, 0.8),),
    Sound.CALL: (Tone(1040.0, 0.2, 0.7, 0.05), Tone(780.0, 0.3, 0.7)),
    Sound.LOUD_CALL: (Tone(1040.0, 0.2, 1.0, 0.05), Tone(780.0, 0.3, 1.0)),
    Sound.DRY: (Tone(520.0, 0.4, 0.3),),
}
"""What each sound is made of."""


def sounds_between(standing: Standing, then: Moment, now: Moment) -> tuple[Sound, ...]:
    """What falls due after ``then`` and not after ``now``.

    Parameters
    ----------
    standing : Standing
        As it is now, or was at any time since ``then``.
    then, now : Moment
        Two instants; asked for one stretch after the other, every sound comes exactly once.
    """
    return tuple(sound for _, sound in heard(standing, then, now))


def heard(standing: Standing, then: Moment, now: Moment) -> tuple[tuple[float, Sound], ...]:
    """As :func:`sounds_between`, each with its time in seconds after ``then``."""
    if standing.zero is None:
        return ()
    since = -elapsed(then, standing.zero).steady_s
    until = -elapsed(now, standing.zero).steady_s
    due = sorted(_due(standing, until))
    return tuple((at - since, sound) for at, sound in due if since < at <= until)


def warnings_of(length_s: float) -> tuple[float, ...]:
    """Seconds before the lift at which a bite of that length is warned of."""
    return WARNED_S if length_s >= LONG_BITE_S else (length_s / 2.0,)


def _due(standing: Standing, until_s: float) -> Iterator[tuple[float, Sound]]:
    """Every sound with its time, seconds after the zero."""
    if standing.state is State.COUNT_IN:
        yield from ((-k, Sound.IN_SHORT) for k in (3.0, 2.0, 1.0))
        yield 0.0, Sound.IN_LONG
    elif standing.state is State.DRYING:
        yield 0.0, Sound.DRY
    elif standing.in_bath:
        # the end of the count-in, if it came between two looks
        yield from ((-standing.length_s - k, Sound.IN_SHORT) for k in (3.0, 2.0, 1.0))
        yield -standing.length_s, Sound.IN_LONG
        yield from ((-before, Sound.WARNING) for before in warnings_of(standing.length_s))
        yield from ((-k, Sound.LIFT_SHORT) for k in (3.0, 2.0, 1.0))
        yield 0.0, Sound.LIFT_LONG
        if not standing.answered:
            for call in range(1, int(max(until_s, 0.0) / CALLED_EVERY_S) + 1):
                at = call * CALLED_EVERY_S
                yield at, Sound.LOUD_CALL if at > LOUDER_AFTER_S else Sound.CALL
