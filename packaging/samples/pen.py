"""Pen lines: strokes with pressure and tremor, hatching that follows a darkness, ink on paper."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw

Floats = NDArray[np.float32]
Points = NDArray[np.float64]


@dataclass(frozen=True)
class Stroke:
    """A line of the pen: points (n, 2) in pixels, its half widths (n,), and the ink's tone."""

    points: Points
    half: NDArray[np.float64]
    ink: float = 0.1


def inked(strokes: list[Stroke], shape: tuple[int, int]) -> Floats:
    """Tone of bare white paper with the strokes drawn on it, in their order."""
    fine = 3
    sheet = Image.new("L", (shape[1] * fine, shape[0] * fine), 255)
    brush = ImageDraw.Draw(sheet)
    for stroke in strokes:
        p = stroke.points
        if len(p) < 2:
            continue
        along = np.gradient(p, axis=0)
        along /= np.maximum(np.linalg.norm(along, axis=1), 1e-6)[:, None]
        across = np.column_stack([-along[:, 1], along[:, 0]]) * stroke.half[:, None]
        ring = np.concatenate([p + across, (p - across)[::-1]]) * fine
        brush.polygon([(float(x), float(y)) for x, y in ring], fill=int(255 * stroke.ink))
    small = sheet.resize((shape[1], shape[0]), Image.Resampling.BOX)
    return np.asarray(small, np.float32) / 255


def line(
    rng: np.random.Generator,
    points: Points,
    width: float,
    *,
    tremor: float = 0.8,
    taper: float = 0.35,
    ink: float = 0.1,
) -> Stroke:
    """A stroke through the points, drawn by hand: it strays, presses and lifts."""
    gaps = np.linalg.norm(np.diff(points, axis=0), axis=1)
    reach = np.concatenate([[0], np.cumsum(gaps)])
    n = int(np.clip(reach[-1] / 7, 4, 160))
    t = np.linspace(0, reach[-1], n)
    path = np.column_stack([np.interp(t, reach, points[:, k]) for k in (0, 1)])
    for wave, share in ((14, 0.45), (45, 0.7), (160, 1.0)):
        knots = max(2, int(reach[-1] / wave) + 2)
        stray = rng.normal(0, tremor * share, (knots, 2))
        place = np.linspace(0, reach[-1], knots)
        path += np.column_stack([np.interp(t, place, stray[:, k]) for k in (0, 1)])
    knots = max(3, int(reach[-1] / 60) + 2)
    press = np.interp(t, np.linspace(0, reach[-1], knots), rng.uniform(0.72, 1.2, knots))
    u = np.linspace(0, 1, n)
    lift = np.clip(np.minimum(u / 0.12 + 0.45, (1 - u) / taper + 0.22), 0, 1)
    return Stroke(path, 0.5 * width * press * lift, ink)


def hatch(
    rng: np.random.Generator,
    dark: Floats,
    angle: float,
    *,
    spacing: float,
    least: float,
    most: float,
    width: float,
    longest: float = 120.0,
    curve: float = 0.0,
    ink: float = 0.12,
) -> list[Stroke]:
    """Parallel strokes where it is dark enough: few at `least` darkness, all of them at `most`."""
    h, w = dark.shape
    d = np.array([np.cos(angle), np.sin(angle)])
    n = np.array([-d[1], d[0]])
    corners = np.array([(0, 0), (w, 0), (0, h), (w, h)], float)
    across, along = corners @ n, corners @ d
    order = np.array([0.0, 0.5, 0.25, 0.75])
    strokes: list[Stroke] = []
    step = 4.0
    t = np.arange(along.min(), along.max(), step)
    for number, c in enumerate(np.arange(across.min(), across.max(), spacing)):
        off = c + rng.normal(0, 0.14 * spacing)
        bow = curve * spacing * np.sin(t / 210 + 0.013 * c)
        x, y = off * n[0] + t * d[0] + bow * n[0], off * n[1] + t * d[1] + bow * n[1]
        ok = (x >= 0) & (x < w - 1) & (y >= 0) & (y < h - 1)
        here = np.zeros_like(t)
        here[ok] = dark[y[ok].astype(int), x[ok].astype(int)]
        need = least + (most - least) * order[number % 4]
        down = here > need + rng.normal(0, 0.02)
        edges = np.flatnonzero(np.diff(np.concatenate([[0], down.astype(int), [0]])))
        for start, stop in zip(edges[::2], edges[1::2], strict=True):
            _in_pieces(rng, strokes, x, y, here, start, stop, step, width, longest, ink)
    return strokes


def _in_pieces(
    rng: np.random.Generator,
    strokes: list[Stroke],
    x: NDArray[np.float64],
    y: NDArray[np.float64],
    here: NDArray[np.float64],
    start: int,
    stop: int,
    step: float,
    width: float,
    longest: float,
    ink: float,
) -> None:
    """One run of a hatching line, drawn as a hand's successive strokes."""
    k = start
    while k < stop - 1:
        reach = max(3, int(longest * rng.uniform(0.5, 1.1) / step))
        end = min(stop, k + reach)
        if end - k >= 3:
            press = 0.75 + 0.55 * float(here[k:end].mean())
            points = np.column_stack([x[k:end:2], y[k:end:2]])
            if len(points) > 1:
                strokes.append(
                    line(
                        rng, points, width * press, tremor=0.55, ink=ink + rng.uniform(-0.03, 0.08)
                    )
                )
        k = end + int(rng.integers(0, 3))
