"""Bites a hand can time with wet gloves and a clock."""

from collections.abc import Sequence

from toneladder.picture.values import PlateSize

HAND_STEPS_S = ((60.0, 5.0), (300.0, 15.0), (600.0, 30.0), (float("inf"), 60.0))
SHORTEST_S = 15.0
LONGEST_DIP_S = 300.0
DIP_STEP_S = 5.0
MOST_DIPS = 288  # a day of the longest dips
LOWERING_MM_PER_S = 100.0
FOOT_EXCESS = 0.25


def hand_step(bite_s: float) -> float:
    """The step a hand can time near a bite: 5 s up to 1 min, 15 to 5, 30 to 10, 1 min above."""
    return next(step for limit, step in HAND_STEPS_S if bite_s <= limit)


def shortest_bite(size: PlateSize) -> float:
    """The shortest bite worth timing, seconds.

    The foot of the plate goes in first and comes out last. At 100 mm/s, an assumption, it
    gains two passes over the plate's height; that may be a quarter of the bite at most.
    """
    foot_gains = 2.0 * size.height_mm / LOWERING_MM_PER_S
    bite = max(SHORTEST_S, foot_gains / FOOT_EXCESS)
    step = hand_step(bite)
    return step * -(-bite // step)


def rounded(bite_s: float, *, dark: bool) -> float:
    """The nearest bite a hand can time; on a tie, lights go down and darks up."""
    step = hand_step(bite_s)
    below = step * (bite_s // step)
    rest = bite_s - below
    up = rest >= step / 2.0 if dark else rest > step / 2.0
    return below + step if up else below


def hand_timed(
    totals_s: Sequence[float], shortest_s: float, longest_s: float, held: Sequence[bool] = ()
) -> tuple[float, ...]:
    """Bites a hand can time whose sums come nearest to the wanted totals.

    Parameters
    ----------
    totals_s : sequence of float
        Wanted total bites of tones 1, 2, …, rising, clock seconds.
    shortest_s : float
        No bite is shorter.
    longest_s : float
        Rounding leads no total past this; a wanted total that is already past it stays.
    held : sequence of bool, optional
        Totals that the etcher holds: they are met to the second where the hand can.

    Returns
    -------
    As many bites, seconds.
    """
    bites: list[float] = []
    reached = 0.0
    for k, total in enumerate(totals_s):
        wanted = max(total - reached, 0.0)
        exact = k < len(held) and held[k]
        bite = wanted if exact else rounded(wanted, dark=2 * k >= len(totals_s))
        limit = max(longest_s, total)
        while bite > shortest_s and reached + bite > limit + 1e-9:
            bite -= hand_step(bite)
        bites.append(max(bite, shortest_s))
        reached += bites[-1]
    return tuple(bites)


def dips(bite_s: float, longest_s: float = LONGEST_DIP_S) -> tuple[float, ...]:
    """A long bite as dips of five minutes, or ``longest_s``, at the most, with a look between.

    One of more than a day, which a clock that was set may feign, has as many dips as a day.
    """
    number = int(min(max(1.0, -(-bite_s // longest_s)), MOST_DIPS))
    each, longer = divmod(round(bite_s / DIP_STEP_S), number)
    return tuple(DIP_STEP_S * (each + (k >= number - longer)) for k in range(number))
