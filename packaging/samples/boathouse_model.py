"""The boathouse, its jetty and boat, and the lines of both shores."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from samples import boats, houses, solid

EYE = (0.0, 2.7, 0.0)
PLACE, TURN = (2.7, 13.6), 0.62
W, H = 2000, 1500
HORIZON = 0.52 * H
FOCAL = 1650.0


def model() -> houses.Street:
    """Faces of the boathouse, turned and set in its place, and of the boat before it."""
    s = houses.Street()
    # corners in the boathouse's own space: front at z = -3.4
    s.wall((2.2, -3.4), (-2.2, -3.4), 0.35, 3.0, ((0.95, 3.45, 0.35, 2.75, "hole"),), "board", 0.18)
    side: tuple[houses.Opening, ...] = (
        (1.5, 2.4, 1.5, 2.4, "glass"),
        (4.4, 5.3, 1.5, 2.4, "glass"),
    )
    s.wall((2.2, 3.4), (2.2, -3.4), 0.35, 3.0, side, "board", 0.12)
    s.wall((-2.2, -3.4), (-2.2, 3.4), 0.35, 3.0, (), "board")
    s.gable((-2.2, 2.2), (-3.4, 3.4), 3.0, 5.15, along_z=True, over=0.42)
    for x in (-2.1, -0.98, 0.98, 2.1):
        s.add(solid.box((x - 0.14, -0.6, -3.42), (x + 0.14, 0.4, -3.12)), "post")
    for z in (-1.4, 0.8, 3.1):
        s.add(solid.box((1.95, -0.6, z - 0.16), (2.23, 0.4, z + 0.16)), "post")
    s.add(solid.box((-2.2, 0.3, -3.5), (-0.95, 0.42, -3.3)), "trim")
    s.add(solid.box((1.15, 4.0, 1.2), (1.6, 5.5, 1.65)), "brick")
    s.add(
        [np.array([(-2.1, -0.3, -3.2), (2.1, -0.3, -3.2), (2.1, 0.5, 3.2), (-2.1, 0.5, 3.2)])],
        "hole",
    )
    # a jetty on the left, running out
    for k in range(27):
        z = -8.2 + 0.31 * k
        s.add(solid.box((-3.75, 0.42, z), (-2.35, 0.49, z + 0.28)), "plank")
    for z in (-8.0, -6.0, -4.0, -2.0):
        for x in (-3.72, -2.38):
            top = 1.05 if x < -3 or z < -7 else 0.75
            s.add(solid.turned((x, z), [(-0.6, 0.09), (top, 0.08), (top + 0.01, 0)], 9), "post")
    c, t = np.cos(TURN), np.sin(TURN)
    for k, face in enumerate(s.faces):
        x, y, z = face[:, 0], face[:, 1], face[:, 2]
        s.faces[k] = np.column_stack([PLACE[0] + x * c + z * t, y, PLACE[1] - x * t + z * c])
    faces, kinds = boats.open_boat((0.95, 7.9), 3.7, 1.35, 2.72)
    for face, kind in zip(faces, kinds, strict=True):
        s.add([face], kind)
    return s


def bank_line(x: NDArray[np.float32] | NDArray[np.float64]) -> NDArray[np.float64]:
    """Row at which the near bank begins, by column, pixels."""
    t = np.clip((x - 60) / 800, 0, 2.6)
    return 985 + 14 * np.sin(x / 55) + 9 * np.sin(x / 23 + 1) + 330 * t**1.25


def ridge(x: NDArray[np.float32] | NDArray[np.float64]) -> NDArray[np.float64]:
    """Height of the far trees above the horizon, pixels."""
    return (
        26
        + 12 * np.sin(x / 140 + 1)
        + 7 * np.abs(np.sin(x / 37))
        + 5 * np.abs(np.sin(x / 13 + 2))
        + 36 * np.exp(-(((x - 1690) / 190) ** 2))
        + 16 * np.exp(-(((x - 860) / 90) ** 2))
    )
