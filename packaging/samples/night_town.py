"""The town of the night picture: two rows of houses on a canal."""

from __future__ import annotations

import numpy as np
from samples import boats, houses, solid

QUAY = 1.0
EDGE = -3.2
WALL = -7.6
FAR_WALL = 3.1
LAMPS = (
    (-3.75, 4.35, 9.5),
    (-3.75, 4.35, 19.5),
    (-3.75, 4.35, 31.0),
    (0.0, 6.5, 36.2),
    (-3.75, 4.35, 46.0),
    (-3.75, 4.35, 64.0),
    (3.9, 4.4, 52.0),
)
WALKER = (-5.0, 14.6)


def build() -> houses.Street:
    """Both quays, the bridge, the house where the canal turns, lamps, boats and a walker."""
    s = houses.Street()
    s.add(
        [
            np.array(
                [
                    (WALL, QUAY, -1),
                    (EDGE - 0.45, QUAY, -1),
                    (EDGE - 0.45, QUAY, 90),
                    (WALL, QUAY, 90),
                ],
                float,
            )
        ],
        "paving",
    )
    s.add(solid.box((EDGE - 0.45, QUAY - 0.25, -1), (EDGE, QUAY + 0.04, 90)), "trim")
    s.wall((EDGE, 90), (EDGE, -1), -0.6, QUAY - 0.2, kind="stone")
    _row(s, seed=4, x=WALL, z=2.0, left=True)
    _row(s, seed=8, x=FAR_WALL, z=5.5, left=False)
    _bridge(s)
    _end(s)
    for number, lamp in enumerate(LAMPS):
        _lamp(s, lamp, foot=QUAY if number != 3 else 3.9)
    for z in (7.0, 12.4, 16.8, 24.0):
        s.add(
            solid.turned(
                (EDGE - 0.28, z),
                [
                    (QUAY, 0.13),
                    (QUAY + 0.5, 0.11),
                    (QUAY + 0.55, 0.17),
                    (QUAY + 0.66, 0.15),
                    (QUAY + 0.7, 0),
                ],
                10,
            ),
            "iron",
        )
    for centre, turn in (((1.35, 13.0), 1.50), ((EDGE + 0.85, 14.2), 1.53), ((1.9, 25.0), 1.5)):
        faces, kinds = boats.open_boat(centre, 4.6, 1.45, turn)
        for face, kind in zip(faces, kinds, strict=True):
            s.add([face], kind)
    _walker(s)
    return s


def _row(s: houses.Street, *, seed: int, x: float, z: float, left: bool) -> None:
    """A row of tall narrow houses, each with its own height, bays and gable."""
    rng = np.random.default_rng(seed)
    foot = QUAY if left else -0.6
    while z < 62:
        wide = rng.uniform(4.2, 6.6)
        floors = int(rng.integers(3, 5))
        floor = rng.uniform(2.75, 3.1)
        bays = 2 if wide < 5.0 else 3
        top = QUAY + 0.5 + floors * floor
        near, far = z, z + wide
        a, b = ((x, far), (x, near)) if left else ((x, near), (x, far))
        openings: list[houses.Opening] = []
        pitch = wide / bays
        for level in range(floors):
            for bay in range(bays):
                u = pitch * (bay + 0.5)
                y = QUAY + 0.85 + level * floor
                if level == 0 and bay == (seed + int(z)) % bays:
                    openings.append((u - 0.5, u + 0.5, QUAY + 0.05, QUAY + 2.45, "door"))
                    if not left:
                        _water_steps(s, x, near + u)
                    continue
                chance = 0.42 if left else 0.56
                lit = "lit" if rng.random() < chance else "glass"
                openings.append((u - 0.48, u + 0.48, y, y + 1.55 - 0.1 * level, lit))
        kind = "brick" if rng.random() < 0.45 else "plaster"
        s.wall(
            a,
            b,
            foot,
            top,
            tuple((*o[:4], "glass" if o[4] == "lit" else o[4]) for o in openings),
            kind,
            0.2,
        )
        for o in openings:
            if o[4] == "lit":
                _pane(s, a, b, o)
        deep = (x - 6, x) if left else (x, x + 6)
        s.gable(deep, (near, far), top, top + 0.42 * wide, along_z=False, over=0.22)
        for zz in (near, far):
            s.add(
                [
                    np.array(
                        [
                            (deep[0], foot, zz),
                            (deep[1], foot, zz),
                            (deep[1], top, zz),
                            (deep[0], top, zz),
                        ]
                    )
                ],
                kind,
            )
        if rng.random() < 0.8:
            cx = x - rng.uniform(1.2, 2.4) if left else x + rng.uniform(1.2, 2.4)
            s.chimney(cx, near + 0.55, top + 0.2, top + 0.42 * wide + 0.9, 0.32)
        z = far + (0.0 if rng.random() < 0.8 else 1.1)


def _water_steps(s: houses.Street, x: float, z: float) -> None:
    """Steps from a door down to the canal."""
    for k in range(5):
        low = (x - 0.62, -0.6, z - 0.7 - 0.30 * k)
        s.add(solid.box(low, (x, QUAY - 0.22 * k, z + 0.7)), "stone")


def _pane(
    s: houses.Street, a: tuple[float, float], b: tuple[float, float], o: houses.Opening
) -> None:
    """A lit pane just before the dark one."""
    p, q = np.array(a), np.array(b)
    along = (q - p) / np.linalg.norm(q - p)
    inward = np.array([along[1], -along[0]]) * 0.196
    ring = [(o[0], o[2]), (o[1], o[2]), (o[1], o[3]), (o[0], o[3])]
    s.add(
        [
            np.array(
                [[(p + along * u + inward)[0], v, (p + along * u + inward)[1]] for u, v in ring]
            )
        ],
        "lit",
    )


def _bridge(s: houses.Street) -> None:
    """A hump of stone over the canal."""
    n = 20
    x = np.linspace(EDGE, FAR_WALL + 0.4, n + 1)
    m, r = (x[0] + x[-1]) / 2, (x[-1] - x[0]) / 2
    under = 0.1 + 2.5 * np.sqrt(np.clip(1 - ((x - m) / (r - 0.1)) ** 2, 0, 1))
    deck = 2.2 + 1.5 * np.cos((x - m) / r * 1.25)
    for z in (35.0, 38.0):
        for k in range(n):
            s.add(
                [
                    np.array(
                        [
                            (x[k], under[k], z),
                            (x[k + 1], under[k + 1], z),
                            (x[k + 1], deck[k + 1] + 0.8, z),
                            (x[k], deck[k] + 0.8, z),
                        ]
                    )
                ],
                "stone",
            )
    for k in range(n):
        s.add(
            [
                np.array(
                    [
                        (x[k], under[k], 35.0),
                        (x[k], under[k], 38.0),
                        (x[k + 1], under[k + 1], 38.0),
                        (x[k + 1], under[k + 1], 35.0),
                    ]
                )
            ],
            "stone",
        )
        top = [deck[k] + 0.8, deck[k + 1] + 0.8]
        s.add(
            [
                np.array(
                    [
                        (x[k], top[0], 34.9),
                        (x[k], top[0], 35.3),
                        (x[k + 1], top[1], 35.3),
                        (x[k + 1], top[1], 34.9),
                    ]
                )
            ],
            "trim",
        )


def _end(s: houses.Street) -> None:
    """Where the canal turns: a house across it, and a slender tower against the sky."""
    rows: list[houses.Opening] = [
        (k * 2.6 + 1.0, k * 2.6 + 2.0, y, y + 1.5, "glass")
        for k in range(5)
        for y in (2.2, 5.0, 7.8)
    ]
    a, b = (8.0, 74.0), (-8.0, 74.0)
    s.wall(a, b, -0.5, 10.2, tuple(rows))
    for k in (1, 5, 6, 10, 13):
        _pane(s, a, b, rows[k])
    s.gable((-8.0, 8.0), (74.0, 82.0), 10.2, 14.0, along_z=False)
    x, z = -1.3, 95.0
    s.add(solid.box((x - 2.4, 0, z - 2.4), (x + 2.4, 25, z + 2.4)), "brick")
    s.add(
        solid.turned(
            (x, z),
            [
                (25, 2.9),
                (25.6, 2.9),
                (25.6, 1.9),
                (29, 1.9),
                (29.2, 2.3),
                (31, 1.5),
                (33, 0.5),
                (37, 0.05),
            ],
            8,
        ),
        "tile",
    )


def _lamp(s: houses.Street, lamp: tuple[float, float, float], foot: float) -> None:
    x, y, z = lamp
    post = [
        (foot, 0.17),
        (foot + 0.5, 0.13),
        (foot + 0.6, 0.06),
        (y - 0.5, 0.045),
        (y - 0.42, 0.10),
        (y - 0.3, 0.10),
    ]
    s.add(solid.turned((x, z), post, 10), "iron")
    s.add(solid.turned((x, z), [(y - 0.3, 0.11), (y + 0.14, 0.2)], 6), "lantern")
    s.add(
        solid.turned(
            (x, z), [(y + 0.14, 0.26), (y + 0.3, 0.12), (y + 0.34, 0.05), (y + 0.46, 0.0)], 6
        ),
        "iron",
    )
    s.add(solid.box((x - 0.34, y - 0.5, z - 0.02), (x + 0.34, y - 0.46, z + 0.02)), "iron")


def _walker(s: houses.Street) -> None:
    """Somebody going home under an umbrella."""
    x, z = WALKER
    q = QUAY
    s.add(solid.turned((x - 0.10, z), [(q, 0.07), (q + 0.5, 0.075)], 8), "coat")
    s.add(solid.turned((x + 0.11, z + 0.18), [(q + 0.02, 0.07), (q + 0.5, 0.075)], 8), "coat")
    s.add(
        solid.turned(
            (x, z),
            [
                (q + 0.42, 0.30),
                (q + 0.95, 0.225),
                (q + 1.3, 0.235),
                (q + 1.42, 0.2),
                (q + 1.48, 0.07),
            ],
            14,
        ),
        "coat",
    )
    s.add(
        solid.turned(
            (x, z + 0.03),
            [
                (q + 1.46, 0.07),
                (q + 1.52, 0.10),
                (q + 1.62, 0.115),
                (q + 1.72, 0.08),
                (q + 1.75, 0.0),
            ],
            12,
        ),
        "coat",
    )
    s.add(
        solid.turned(
            (x + 0.14, z - 0.02),
            [
                (q + 1.84, 0.62),
                (q + 1.98, 0.52),
                (q + 2.10, 0.30),
                (q + 2.16, 0.02),
                (q + 2.27, 0.0),
            ],
            8,
        ),
        "umbrella",
    )
    s.add(solid.turned((x + 0.14, z - 0.02), [(q + 1.1, 0.015), (q + 2.1, 0.015)], 5), "iron")
