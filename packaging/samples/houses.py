"""Parts of old houses as faces: walls with openings, roofs, chimneys, steps, arches, vines."""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray
from samples import solid

Face = NDArray[np.float64]
Opening = tuple[float, float, float, float, str]  # from, to along the wall; from, to up; kind


@dataclass
class Street:
    """Faces and what each is made of."""

    faces: list[Face] = field(default_factory=list)
    kinds: list[str] = field(default_factory=list)

    def add(self, faces: list[Face], kind: str) -> None:
        """Put faces of one kind into the street."""
        self.faces.extend(faces)
        self.kinds.extend([kind] * len(faces))

    def wall(
        self,
        start: tuple[float, float],
        end: tuple[float, float],
        foot: float,
        top: float,
        openings: tuple[Opening, ...] = (),
        kind: str = "plaster",
        reveal: float = 0.28,
    ) -> None:
        """An upright wall from start to end, (x, z); its outside is to the left going there."""
        a, b = np.array(start, float), np.array(end, float)
        length = float(np.linalg.norm(b - a))
        along = (b - a) / length
        inward = np.array([along[1], -along[0]])

        def at(s: float, y: float, deep: float = 0.0) -> tuple[float, float, float]:
            p = a + along * s + inward * deep
            return (p[0], y, p[1])

        us = sorted({0.0, length, *(v for o in openings for v in o[:2])})
        vs = sorted({foot, top, *(v for o in openings for v in o[2:4])})
        for u0, u1 in pairwise(us):
            for v0, v1 in pairwise(vs):
                mid = ((u0 + u1) / 2, (v0 + v1) / 2)
                if not any(o[0] < mid[0] < o[1] and o[2] < mid[1] < o[3] for o in openings):
                    corners = [at(u0, v0), at(u1, v0), at(u1, v1), at(u0, v1)]
                    self.add([np.array(corners)], kind)
        for u0, u1, v0, v1, inner in openings:
            ring = [(u0, v0), (u1, v0), (u1, v1), (u0, v1)]
            for (p, q), (r, s) in zip(ring, ring[1:] + ring[:1], strict=True):
                self.add(
                    [np.array([at(p, q), at(r, s), at(r, s, reveal), at(p, q, reveal)])], "reveal"
                )
            self.add([np.array([at(p, q, reveal) for p, q in ring])], inner)
            if inner == "glass":
                self._window(at, (u0, u1, v0, v1), reveal)
                self._slab(at, (u0 - 0.12, u1 + 0.12, v0 - 0.10, v0), (-0.14, 0.0), "trim")
            else:
                self._slab(at, (u0 - 0.16, u0, v0, v1), (-0.06, 0.0), "trim")
                self._slab(at, (u1, u1 + 0.16, v0, v1), (-0.06, 0.0), "trim")
                self._slab(at, (u0 - 0.2, u1 + 0.2, v1, v1 + 0.2), (-0.09, 0.0), "trim")

    def shutters(self, start: tuple[float, float], end: tuple[float, float], o: Opening) -> None:
        """A pair of shutters folded back against the wall."""
        a, b = np.array(start, float), np.array(end, float)
        along = (b - a) / np.linalg.norm(b - a)
        inward = np.array([along[1], -along[0]])

        def at(s: float, y: float, deep: float = 0.0) -> tuple[float, float, float]:
            p = a + along * s + inward * deep
            return (p[0], y, p[1])

        leaf = (o[1] - o[0]) / 2
        for u in (o[0] - leaf - 0.02, o[1] + 0.02):
            self._slab(at, (u, u + leaf, o[2], o[3]), (-0.08, -0.02), "shutter")

    def _window(self, at, o, reveal: float) -> None:  # noqa: ANN001  two short-lived closures
        u0, u1, v0, v1 = o
        bar = 0.05
        near = (reveal - 0.08, reveal - 0.01)
        middle = (u0 + u1) / 2
        for u in (u0 + bar, middle, u1 - bar):
            self._slab(at, (u - bar, u + bar, v0, v1), near, "frame")
        for v in np.linspace(v0, v1, 4):
            self._slab(at, (u0, u1, v - bar * 0.6, v + bar * 0.6), near, "frame")

    def _slab(self, at, o, deep: tuple[float, float], kind: str) -> None:  # noqa: ANN001
        u0, u1, v0, v1 = o
        d0, d1 = deep
        ring = [(u0, v0), (u1, v0), (u1, v1), (u0, v1)]
        faces = [np.array([at(u, v, d0) for u, v in ring])]
        for (p, q), (r, s) in zip(ring, ring[1:] + ring[:1], strict=True):
            faces.append(np.array([at(p, q, d0), at(r, s, d0), at(r, s, d1), at(p, q, d1)]))
        self.add(faces, kind)

    def gable(
        self,
        x: tuple[float, float],
        z: tuple[float, float],
        eaves: float,
        ridge: float,
        *,
        along_z: bool,
        over: float = 0.4,
    ) -> None:
        """A pitched roof over x and z with its ridge along z or along x; gable walls below."""
        (x0, x1), (z0, z1) = x, z
        if along_z:
            m = (x0 + x1) / 2
            drop = (ridge - eaves) / (m - x0) * over
            for side, edge in ((x0 - over, eaves - drop), (x1 + over, eaves - drop)):
                top = np.array(
                    [
                        (side, edge, z0 - over),
                        (side, edge, z1 + over),
                        (m, ridge, z1 + over),
                        (m, ridge, z0 - over),
                    ]
                )
                self._roof(top)
            for zz in (z0, z1):
                self.add([np.array([(x0, eaves, zz), (x1, eaves, zz), (m, ridge, zz)])], "plaster")
        else:
            m = (z0 + z1) / 2
            drop = (ridge - eaves) / (m - z0) * over
            for side in (z0 - over, z1 + over):
                top = np.array(
                    [
                        (x0 - over, eaves - drop, side),
                        (x1 + over, eaves - drop, side),
                        (x1 + over, ridge, m),
                        (x0 - over, ridge, m),
                    ]
                )
                self._roof(top)
            for xx in (x0, x1):
                self.add([np.array([(xx, eaves, z0), (xx, eaves, z1), (xx, ridge, m)])], "plaster")

    def _roof(self, top: Face) -> None:
        low = top - np.array([0, 0.14, 0])
        self.add([top], "tile")
        self.add([low], "wood")
        for k in range(4):
            j = (k + 1) % 4
            self.add([np.array([top[k], top[j], low[j], low[k]])], "wood")

    def chimney(self, x: float, z: float, foot: float, top: float, size: float = 0.35) -> None:
        """A stack with a cap and two pots."""
        s = size
        self.add(solid.box((x - s, foot, z - s), (x + s, top, z + s)), "plaster")
        self.add(
            solid.box((x - s - 0.08, top, z - s - 0.08), (x + s + 0.08, top + 0.14, z + s + 0.08)),
            "trim",
        )
        for dx in (-0.45 * s, 0.45 * s):
            rings = [(top + 0.14, 0.13), (top + 0.5, 0.10), (top + 0.52, 0.13), (top + 0.6, 0.12)]
            self.add(solid.turned((x + dx, z), rings, 10), "pot")

    def steps(
        self, x: tuple[float, float], z: float, foot: float, count: int, rise: float, tread: float
    ) -> None:
        """A flight going away from the eye."""
        for k in range(count):
            low, near = foot + k * rise, z + k * tread
            box = solid.box((x[0], low - 1, near), (x[1], low + rise, near + tread + 0.02))
            self.add([box[0], box[4]], "step")

    def arch(
        self, x: tuple[float, float], z: tuple[float, float], spring: float, top: float
    ) -> None:
        """A round arch between two walls, wall above it."""
        r = (x[1] - x[0]) / 2
        angle = np.linspace(np.pi, 0, 17)
        px, py = (x[0] + x[1]) / 2 + r * np.cos(angle), spring + 0.8 * r * np.sin(angle)
        for k in range(16):
            for zz in z:
                self.add(
                    [
                        np.array(
                            [
                                (px[k], py[k], zz),
                                (px[k + 1], py[k + 1], zz),
                                (px[k + 1], top, zz),
                                (px[k], top, zz),
                            ]
                        )
                    ],
                    "plaster",
                )
            self.add(
                [
                    np.array(
                        [
                            (px[k], py[k], z[0]),
                            (px[k], py[k], z[1]),
                            (px[k + 1], py[k + 1], z[1]),
                            (px[k + 1], py[k + 1], z[0]),
                        ]
                    )
                ],
                "reveal",
            )
        self.add(solid.box((x[0], top, z[0] - 0.1), (x[1], top + 0.16, z[1] + 0.1)), "trim")

    def vine(
        self,
        seed: int,
        centre: tuple[float, float, float],
        spread: tuple[float, float, float],
        count: int,
        size: float = 0.11,
    ) -> None:
        """Leaves scattered about a centre."""
        rng = np.random.default_rng(seed)
        for _ in range(count):
            p = np.array(centre) + np.clip(rng.normal(size=3), -2, 2) * np.array(spread)
            u = rng.normal(size=3)
            u /= np.linalg.norm(u)
            v = np.cross(u, rng.normal(size=3))
            v /= np.linalg.norm(v)
            s = size * rng.uniform(0.6, 1.3)
            self.add([np.array([p - s * u, p + 0.55 * s * v, p + s * u, p - 0.55 * s * v])], "leaf")
