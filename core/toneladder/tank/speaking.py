"""What a screen reader says of its own accord, beside every new sentence."""

from collections.abc import Iterator

from toneladder.quantities import write_bite
from toneladder.tank.clocks import elapsed
from toneladder.tank.values import Moment, Standing
from toneladder.wording import say

SPOKEN_BEFORE_S = (60.0, 30.0, 10.0)
SPOKEN_OVER_EVERY_S = 10.0


def spoken_between(standing: Standing, then: Moment, now: Moment) -> tuple[str, ...]:
    """What falls due to be spoken after ``then`` and not after ``now``, while a bite runs.

    Parameters
    ----------
    standing : Standing
        As it is now.
    then, now : Moment
        Two instants; asked for one stretch after the other, everything is said exactly once.
    """
    if standing.zero is None or not standing.in_bath or standing.answered:
        return ()
    since = -elapsed(then, standing.zero).steady_s
    until = -elapsed(now, standing.zero).steady_s
    return tuple(text for at, text in _due(standing.length_s, until) if since < at <= until)


def _due(length_s: float, until_s: float) -> Iterator[tuple[float, str]]:
    for before in SPOKEN_BEFORE_S:
        if before < length_s:
            yield -before, say("{time} to go.", time=write_bite(before))
    yield 0.0, say("Lift now.")
    for times in range(1, int(max(until_s, 0.0) / SPOKEN_OVER_EVERY_S) + 1):
        over = times * SPOKEN_OVER_EVERY_S
        yield over, say("{time} over.", time=write_bite(over))
