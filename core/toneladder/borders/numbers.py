"""Where the number of a tone stands in each of its places on a tracing.

A place with room has its number inside, once, where the widest circle fits. A smaller one is
pointed at by a leader from a number in free room nearby; neighbours of one tone share a number.
"""

import itertools
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from toneladder.borders.room import Room, Spot, spots
from toneladder.lettering import FIGURE_EM, Face, text_width
from toneladder.tones.parting import ToneArray

Point = tuple[float, float]

SLIVER_MM = 0.3
"""Half width, mm, below which a place has no number: nobody can paint or point at it."""

REACH_MM = 14.0
"""How far a leader may lead."""

MOST_LEADERS = 4
"""How many places one number may speak for."""

_AIR_MM = 0.3
_TURNS = np.arange(16) * np.pi / 8.0 + np.pi / 16.0
_WAYS = np.stack([np.cos(_TURNS), np.sin(_TURNS)], axis=1)


@dataclass(frozen=True, slots=True)
class Number:
    """The number of one tone: where its middle stands, mm as the print is seen.

    ``radius_mm`` is the circle round it that is free for it. ``leaders`` are the middles of
    the small places it speaks for; without any it stands inside its own.
    """

    tone: int
    x_mm: float
    y_mm: float
    radius_mm: float
    leaders: tuple[Point, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class Numbered:
    """All numbers of a tracing.

    ``slivers`` counts the places too thin for a number (those thinner still are not seen),
    ``crowded_out`` those near which no number found room. ``room`` is what the numbers left.
    """

    numbers: tuple[Number, ...]
    slivers: int
    crowded_out: int
    room: Room = field(repr=False)


def needed_mm(tone: int, figure_mm: float) -> float:
    """Radius of the circle that the number ``tone`` needs in figures ``figure_mm`` high."""
    width = text_width(str(tone), Face.SANS, figure_mm / FIGURE_EM)
    return float(np.hypot(width, figure_mm)) / 2.0 + _AIR_MM


def place_numbers(tones: ToneArray, px_per_mm: float, *, figure_mm: float = 2.4) -> Numbered:
    """Numbers for all places of all tones.

    Parameters
    ----------
    tones : (height, width) array of uint8
        Tone number of every cell.
    px_per_mm : float
        Cells to the millimetre.
    figure_mm : float
        Height of the figures.

    Returns
    -------
    Numbered
        No number lies over another, over a leader or over a small place. Leaders are given to
        the widest places first; every place without a number is counted.
    """
    found, room = spots(tones, px_per_mm)
    needs = {tone: needed_mm(tone, figure_mm) for tone in {spot.tone for spot in found}}
    inside = [spot for spot in found if spot.radius_mm >= needs[spot.tone]]
    small = [spot for spot in found if SLIVER_MM <= spot.radius_mm < needs[spot.tone]]
    for spot in inside:
        room.take([(spot.x_mm, spot.y_mm)], needs[spot.tone])
    for spot in small:
        room.take([(spot.x_mm, spot.y_mm)], spot.radius_mm)
    led = _led(small, room, needs)
    numbers = [Number(s.tone, s.x_mm, s.y_mm, s.radius_mm) for s in inside]
    pointed_at = sum(len(number.leaders) for number in led)
    slivers = len(found) - len(inside) - len(small)
    return Numbered((*numbers, *led), slivers, len(small) - pointed_at, room)


def _led(small: list[Spot], room: Room, needs: dict[int, float]) -> list[Number]:
    """A leader for every small place that can have one, the largest first."""
    led = _Led()
    for spot in sorted(small, key=lambda spot: -spot.radius_mm):
        shared = led.shared_by(spot, room)
        if shared is not None:
            number = led.numbers[shared]
            leaders = (*number.leaders, (spot.x_mm, spot.y_mm))
            led.numbers[shared] = replace(number, leaders=leaders)
            room.take_line(spot, (number.x_mm, number.y_mm), number.radius_mm)
            continue
        need = needs[spot.tone]
        place = room.near(spot, need, _offsets(spot.radius_mm + need))
        if place is not None:
            led.add(Number(spot.tone, *place, need, ((spot.x_mm, spot.y_mm),)))
            room.take_line(spot, place, need)
            room.take([place], need)
    return led.numbers


class _Led:
    """Numbers that small places are led to, found by tone and by where they stand.

    The plate is divided into squares as wide as a leader may reach: what a place can be led to
    is in its own square or in one of the eight round it.
    """

    def __init__(self) -> None:
        self.numbers: list[Number] = []
        self._in_square: dict[tuple[int, int, int], list[int]] = defaultdict(list)

    def add(self, number: Number) -> None:
        """One more number."""
        column, row = _square(number.x_mm, number.y_mm)
        self._in_square[number.tone, column, row].append(len(self.numbers))
        self.numbers.append(number)

    def shared_by(self, spot: Spot, room: Room) -> int | None:
        """The nearest number of the same tone that may speak for ``spot``, too."""
        within = [
            (float(np.hypot(number.x_mm - spot.x_mm, number.y_mm - spot.y_mm)), index)
            for index, number in self._about(spot)
            if len(number.leaders) < MOST_LEADERS
        ]
        for apart, index in sorted(within)[:3]:
            number = self.numbers[index]
            end = (number.x_mm, number.y_mm)
            if apart <= REACH_MM and room.is_open(spot, end, number.radius_mm):
                return index
        return None

    def _about(self, spot: Spot) -> Iterator[tuple[int, Number]]:
        column, row = _square(spot.x_mm, spot.y_mm)
        for across, down in itertools.product((-1, 0, 1), repeat=2):
            for index in self._in_square.get((spot.tone, column + across, row + down), ()):
                yield index, self.numbers[index]


def _square(x_mm: float, y_mm: float) -> tuple[int, int]:
    return int(x_mm // REACH_MM), int(y_mm // REACH_MM)


def _offsets(least_mm: float) -> NDArray[np.float64]:
    """Where to look for room round a place: sixteen directions, near ones first; (n, 2), mm."""
    away = np.arange(least_mm + 0.8, REACH_MM, 1.5)
    offsets: NDArray[np.float64] = (away[:, None, None] * _WAYS).reshape(-1, 2)
    return offsets
