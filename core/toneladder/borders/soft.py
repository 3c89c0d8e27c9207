"""Soft passages: stretches of border where the picture fades and the plate would show an edge."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from toneladder.borders.arcs import Arc, border_arcs
from toneladder.borders.joining import joined
from toneladder.borders.remedies import Passage, suggested
from toneladder.borders.values import Remedied, Soft
from toneladder.optics import FloatArray

_EVERY_MM = 0.5
_BREAK_MM = 3.0  # a break that no hand would stop for
_ACROSS_MM = (-1.5, -0.75, 0.0, 0.75, 1.5)
_NEAR = 0.06  # shares of the picture within which a passage is the one that was meant


@dataclass(frozen=True, slots=True, eq=False)
class _Walk:
    """A border walked in even steps: points (n, 2) mm and the direction to its right (n, 2)."""

    step: int
    points: FloatArray
    right: FloatArray
    closed: bool


def soft_passages(
    arcs: Sequence[Arc],
    lightness: NDArray[np.floating],
    px_per_mm: float,
    soft: Soft,
    count: int,
    to_picture: Callable[[ArrayLike], FloatArray] | None = None,
) -> tuple[Passage, ...]:
    """Where a hard border would show that the picture does not have.

    The brush moves borders by up to its own width, so what counts is the steepest change of
    the picture within 1.5 mm on either side. Soft stretches less than 3 mm apart are one.

    Parameters
    ----------
    arcs : sequence of Arc
        Everything that was traced.
    lightness : (height, width) array
        What each cell of the picture, as it was squinted at, asks for; CIE L*.
    px_per_mm : float
        Cells to the millimetre.
    soft : Soft
        What counts as soft, and the remedies chosen by hand.
    count : int
        Number of tones.
    to_picture : callable, optional
        From points (n, 2) of the plate, mm, to shares of the whole picture; without it the
        picture is the plate.

    Returns
    -------
    tuple of Passage
        Step by step, the longest of each step first, numbered from 1.
    """
    size = np.array(lightness.shape[::-1]) / px_per_mm
    to_share = to_picture or (lambda points: np.asarray(points) / size)
    walks = [walk for step in range(1, count) for walk in _walks(arcs, step, soft.shortest_mm)]
    if not walks:
        return ()
    slope, level = _across(walks, lightness, px_per_mm)
    ends = np.cumsum([len(walk.points) for walk in walks])
    found = [
        _passage(walk, at, steep[at], light[at], (float(size[0]), float(size[1])), count)
        for walk, steep, light in zip(
            walks, np.split(slope, ends[:-1]), np.split(level, ends[:-1]), strict=True
        )
        for at in _stretches(steep < soft.steepest, soft.shortest_mm, closed=walk.closed)
    ]
    found.sort(key=lambda passage: (passage.step, -passage.length_mm))
    middles = to_share(np.array([p.points[len(p.points) // 2] for p in found]).reshape(-1, 2))
    placed = [
        replace(passage, number=number, share_xy=(float(middle[0]), float(middle[1])))
        for number, (passage, middle) in enumerate(zip(found, middles, strict=True), start=1)
    ]
    return _by_hand(placed, soft.remedies, to_share)


def _walks(arcs: Iterable[Arc], step: int, shortest_mm: float) -> Iterator[_Walk]:
    """The border of ``step``, in even steps; what is shorter than any passage is left out."""
    border = border_arcs(arcs, step)
    lines = [(arc.points, True) for arc in border if arc.closed]
    lines += [
        (line.points, line.closed)
        for line in joined([arc.points for arc in border if not arc.closed])
    ]
    for points, closed in lines:
        whole = np.vstack([points, points[:1]]) if closed else points
        way = np.diff(whole, axis=0)
        gone = np.concatenate([[0.0], np.cumsum(np.hypot(way[:, 0], way[:, 1]))])
        if gone[-1] < shortest_mm:
            continue
        at = np.arange(0.0, gone[-1], _EVERY_MM)
        x, y = (np.interp(at, gone, whole[:, axis]) for axis in (0, 1))
        dx, dy = (np.gradient(_evened(side, closed=closed)) for side in (x, y))
        long = np.maximum(np.hypot(dx, dy), 1e-9)
        yield _Walk(step, np.stack([x, y], 1), np.stack([-dy / long, dx / long], 1), closed)


def _evened(side: FloatArray, *, closed: bool) -> FloatArray:
    """A coordinate along a walk without the last unsteadiness of the cells."""
    around = np.pad(side, 2, mode="wrap" if closed else "edge")
    return np.convolve(around, np.full(5, 0.2), mode="valid")


def _across(
    walks: Sequence[_Walk], lightness: NDArray[np.floating], px_per_mm: float
) -> tuple[FloatArray, FloatArray]:
    """The steepest change across, L* per mm, and the lightness at every point of all walks."""
    from scipy import ndimage

    points = np.concatenate([walk.points for walk in walks])
    right = np.concatenate([walk.right for walk in walks])
    seen = np.stack(
        [
            ndimage.map_coordinates(
                lightness,
                ((points + offset * right) * px_per_mm - 0.5).T[::-1],
                order=1,
                mode="nearest",
                output=np.float64,
            )
            for offset in _ACROSS_MM
        ]
    )
    apart = np.diff(_ACROSS_MM)[:, None]
    return np.abs(np.diff(seen, axis=0) / apart).max(axis=0), seen[len(_ACROSS_MM) // 2]


def _stretches(
    soft: NDArray[np.bool_], shortest_mm: float, *, closed: bool
) -> Iterator[NDArray[np.intp]]:
    """Which points of a walk make a passage, for every passage of it."""
    size = len(soft)
    where = np.arange(size)
    if closed and soft.all():
        if size * _EVERY_MM >= shortest_mm:
            yield np.append(where, 0)
        return
    if closed:
        where = np.roll(where, -int(np.argmin(soft)))
    runs = np.flatnonzero(np.diff(soft[where].astype(np.int8), prepend=0, append=0))
    starts, ends = runs[::2], runs[1::2]
    parted = (starts[1:] - ends[:-1]) * _EVERY_MM > _BREAK_MM
    starts, ends = (
        starts[np.append(True, parted)[: len(starts)]],
        ends[np.append(parted, True)[: len(ends)]],
    )
    for start, end in zip(starts.tolist(), ends.tolist(), strict=True):
        if (end - start - 1) * _EVERY_MM >= shortest_mm:
            yield where[start:end]


def _passage(
    walk: _Walk,
    at: NDArray[np.intp],
    slope: FloatArray,
    lightness: FloatArray,
    plate_mm: tuple[float, float],
    count: int,
) -> Passage:
    points = walk.points[at]
    light = float(lightness.mean())
    last = walk.step == count - 1
    remedy = suggested(points, light, plate_mm, last=last)
    way = np.diff(points, axis=0)
    return Passage(
        number=0,
        step=walk.step,
        points=points,
        length_mm=float(np.hypot(way[:, 0], way[:, 1]).sum()),
        slope=float(np.median(slope)),
        lightness=light,
        suggested=remedy,
        remedy=remedy,
        share_xy=(0.0, 0.0),
        last=last,
    )


def _by_hand(
    passages: Sequence[Passage],
    chosen: Sequence[Remedied],
    to_share: Callable[[ArrayLike], FloatArray],
) -> tuple[Passage, ...]:
    """The remedies that were chosen by hand, each for the passage of its step nearest to it."""
    result = list(passages)
    for choice in chosen:
        apart = [
            (float(np.hypot(*(to_share(passage.points) - (choice.x, choice.y)).T).min()), index)
            for index, passage in enumerate(passages)
            if passage.step == choice.step
        ]
        if apart and min(apart)[0] <= _NEAR:
            index = min(apart)[1]
            result[index] = replace(result[index], remedy=choice.remedy, by_hand=True)
    return tuple(result)
