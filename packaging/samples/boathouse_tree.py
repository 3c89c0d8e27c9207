"""An old tree drawn with the pen."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw
from samples import paper, pen
from samples.boathouse_model import HORIZON, H, W
from scipy import ndimage

Floats = NDArray[np.float32]


class Tree:
    """An old tree on the bank: boughs, bark, and masses of leaves with light on their left."""

    def __init__(self, rng: np.random.Generator) -> None:
        self.strokes: list[pen.Stroke] = []
        self.boughs: list[tuple[NDArray[np.float64], NDArray[np.float64]]] = []
        self._grow(rng, np.array([300.0, 1075.0]), -1.36, 62.0, 0)
        self.clumps = self._leafed(rng)
        self.mass = self._masses()
        self.covers = self.mass > 0.12
        self.shade = np.zeros((H, W), np.float32)
        self._mark_trunk()
        mirror = ndimage.gaussian_filter(self.mass, (14, 5))[::-1]
        shift = int(2 * (HORIZON + 60) - H)
        self.shade = np.roll(mirror, shift, axis=0)
        self._bark(rng)
        self._foliage(rng)

    def _grow(
        self,
        rng: np.random.Generator,
        start: NDArray[np.float64],
        heading: float,
        width: float,
        level: int,
    ) -> None:
        length = (430, 330, 230, 150, 90)[level] * rng.uniform(0.85, 1.15)
        n = 16
        path, half = [start], [width / 2]
        angle = heading
        bend = rng.normal(0, 0.035)
        for k in range(n):
            angle += bend + rng.normal(0, 0.055) - 0.012 * (angle + np.pi / 2) * (level > 0)
            path.append(path[-1] + length / n * np.array([np.cos(angle), np.sin(angle)]))
            half.append(width / 2 * (1 - 0.42 * (k + 1) / n))
        if level == 0:
            half = [h + 26 * np.exp(-k / 1.6) for k, h in enumerate(half)]
        self.boughs.append((np.array(path), np.array(half)))
        if level == 4:
            return
        tips = [
            (n, -0.42),
            (n, 0.36),
            (int(n * 0.72), 0.85 if level else 0.75),
            (int(n * 0.62), -0.8),
        ]
        for at, turn in tips[: 4 if level < 2 else 3]:
            t = turn + rng.normal(0, 0.14)
            self._grow(
                rng, path[at], angle + t, 2 * half[at] * (0.74 if at == n else 0.55), level + 1
            )

    def _leafed(self, rng: np.random.Generator) -> list[tuple[float, float, float, float]]:
        """Clumps of leaves (x, y, across, down) at the ends of the boughs."""
        clumps = []
        for path, half in self.boughs:
            if half[0] < 6 and rng.random() < 0.62:
                x, y = path[-1 if rng.random() < 0.6 else 9] + rng.normal(0, 14, 2)
                size = rng.uniform(0.5, 1.15)
                clumps.append((x, y, 70 * size, 46 * size))
        return sorted(clumps, key=lambda c: c[1])

    def _masses(self) -> Floats:
        """Darkness of the leaves as one body lit from the upper left."""
        mass = np.zeros((H, W), np.float32)
        rough = paper.drift((H, W), 66, fall=1.2, coarse=0.02)
        for x, y, a, b in self.clumps:
            x0, x1 = int(max(x - 1.4 * a, 0)), int(min(x + 1.4 * a, W))
            y0, y1 = int(max(y - 1.5 * b, 0)), int(min(y + 1.5 * b, H))
            if x1 <= x0 or y1 <= y0:
                continue
            gy, gx = np.mgrid[y0:y1, x0:x1].astype(np.float32)
            u, v = (gx - x) / a, (gy - y) / b
            inside = u * u + v * v + 0.42 * rough[y0:y1, x0:x1] < 1
            tone = np.clip(0.44 + 0.24 * u + 0.38 * v, 0.16, 0.98)
            part = mass[y0:y1, x0:x1]
            mass[y0:y1, x0:x1] = np.where(inside, np.maximum(tone, 0.55 * part), part)
        return mass

    def _mark_trunk(self) -> None:

        sheet = Image.new("L", (W, H), 0)
        brush = ImageDraw.Draw(sheet)
        for path, half in self.boughs:
            if half[0] < 3:
                continue
            along = np.gradient(path, axis=0)
            along /= np.linalg.norm(along, axis=1)[:, None]
            across = np.column_stack([-along[:, 1], along[:, 0]]) * half[:, None]
            ring = np.concatenate([path + across, (path - across)[::-1]])
            brush.polygon([(float(a), float(b)) for a, b in ring], fill=255)
        self.trunk = np.asarray(sheet) > 127
        self.covers = self.covers | self.trunk
        self.mass = np.where(self.trunk & (self.mass < 0.12), 0.62, self.mass).astype(np.float32)

    def _bark(self, rng: np.random.Generator) -> None:
        for path, half in self.boughs:
            along = np.gradient(path, axis=0)
            along /= np.linalg.norm(along, axis=1)[:, None]
            across = np.column_stack([-along[:, 1], along[:, 0]])
            if half[0] < 3.2:
                self.strokes.append(pen.Stroke(path, np.maximum(half * 0.8, 0.7), 0.12))
                continue
            for side, width in ((-1, 2.2), (1, 3.4)):
                self.strokes.append(
                    pen.line(rng, path + side * across * half[:, None], width, tremor=1.1, ink=0.06)
                )
            count = int(half[0] * 1.7)
            for _ in range(count):
                u = 1 - 2 * rng.random() ** 1.8
                a = int(rng.integers(0, len(path) - 4))
                b = min(len(path), a + int(rng.integers(3, 7)))
                points = path[a:b] + u * across[a:b] * half[a:b, None] * 0.95
                self.strokes.append(pen.line(rng, points, 1.9, tremor=1.6, ink=0.1))
            for _ in range(int(half[0] * 2.0)):
                a = int(rng.integers(0, len(path)))
                u0, u1 = rng.uniform(0.15, 0.5), 0.97
                t = np.linspace(u0, u1, 6)
                bow = -5 * np.sin(np.pi * t)
                base = path[a] + rng.uniform(-12, 12) * along[a]
                points = base + t[:, None] * across[a] * half[a] + bow[:, None] * along[a]
                if across[a][0] < 0:
                    points = base - t[:, None] * across[a] * half[a] + bow[:, None] * along[a]
                self.strokes.append(pen.line(rng, points, 1.9, tremor=0.6, ink=0.1))

    def _foliage(self, rng: np.random.Generator) -> None:
        """Scribbled leaves: dense where the mass is dark, open loops at the lit rims."""
        rows, columns = np.nonzero(self.mass > 0.1)
        own = ~self.trunk[rows, columns]
        rows, columns = rows[own], columns[own]
        pick = rng.integers(0, len(rows), 15000)
        for k in pick:
            dark = self.mass[rows[k], columns[k]]
            if rng.random() > 0.16 + 0.95 * dark**2.2:
                continue
            x, y = float(columns[k]), float(rows[k])
            size = rng.uniform(4.5, 9.5)
            a0 = rng.uniform(-0.6, 1.2)
            t = np.linspace(0, rng.uniform(3.2, 6.5), 9)
            points = np.column_stack(
                [x + size * np.cos(t + a0) + 2.3 * t, y + 0.72 * size * np.sin(t + a0) + 0.5 * t]
            )
            self.strokes.append(pen.line(rng, points, 1.5 + 1.3 * dark, tremor=0.6, ink=0.10))
