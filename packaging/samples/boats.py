"""Small open boats as faces."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Face = NDArray[np.float64]


def open_boat(
    centre: tuple[float, float], length: float, beam: float, turn: float, level: float = 0.0
) -> tuple[list[Face], list[str]]:
    """A rowing boat afloat at (x, z): strakes, a rail, thwarts; its bow points along `turn`."""
    n = 16
    t = np.linspace(-1, 1, n + 1)
    half = 0.5 * beam * np.clip(1 - np.abs(t) ** 2.3 * np.where(t < 0, 0.55, 1.0), 0, 1)
    sheer = 0.42 + 0.22 * t**2 + 0.12 * np.clip(t, 0, 1)
    low = np.where(t > 0, -0.12 + 0.25 * np.clip(t, 0, 1) ** 4, -0.12 + 0.08 * t**2)
    along = 0.5 * length * (t + 0.06 * np.clip(t, 0, 1) ** 3)
    faces: list[Face] = []
    kinds: list[str] = []

    def put(points: list[tuple[float, float, float]], kind: str) -> None:
        faces.append(_set(np.array(points, float), centre, turn, level))
        kinds.append(kind)

    def rib(k: int, s: int, f: float, inset: float = 0.0) -> tuple[float, float, float]:
        wide = s * half[k] * (0.62 + 0.38 * f**0.7) * (1 - inset)
        return (along[k] * (0.93 + 0.07 * f), low[k] + (sheer[k] - low[k]) * f, wide)

    for k in range(n):
        for s in (-1, 1):
            for f0, f1 in ((0.0, 0.35), (0.35, 0.7), (0.7, 1.0)):
                put([rib(k, s, f0), rib(k, s, f1), rib(k + 1, s, f1), rib(k + 1, s, f0)], "hull")
                put(
                    [
                        rib(k, s, f0, 0.06),
                        rib(k, s, f1, 0.06),
                        rib(k + 1, s, f1, 0.06),
                        rib(k + 1, s, f0, 0.06),
                    ],
                    "inside",
                )
            put(
                [rib(k, s, 1.0), rib(k, s, 1.0, 0.1), rib(k + 1, s, 1.0, 0.1), rib(k + 1, s, 1.0)],
                "rail",
            )
        put([rib(k, -1, 0.1), rib(k, 1, 0.1), rib(k + 1, 1, 0.1), rib(k + 1, -1, 0.1)], "inside")
    put([rib(0, -1, 0.0), rib(0, 1, 0.0), rib(0, 1, 1.0), rib(0, -1, 1.0)], "hull")
    for k in (4, 8, 12):
        a, b, c, d = rib(k, -1, 0.72), rib(k, 1, 0.72), rib(k + 1, 1, 0.72), rib(k + 1, -1, 0.72)
        put([a, b, c, d], "thwart")
    return faces, kinds


def _set(points: Face, centre: tuple[float, float], turn: float, level: float) -> Face:
    c, s = np.cos(turn), np.sin(turn)
    x = centre[0] + points[:, 0] * c - points[:, 2] * s
    z = centre[1] + points[:, 0] * s + points[:, 2] * c
    return np.column_stack([x, points[:, 1] + level, z])
