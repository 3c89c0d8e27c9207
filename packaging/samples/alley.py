"""Steps at noon: hard edges, cast shadows, roofs and chimneys of a hill town."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from samples import houses, paper, solid

Floats = NDArray[np.float32]
SUN = (0.50, 0.80, -0.36)
LEFT, RIGHT = -1.9, 2.0


def draw(scale: float = 1.0) -> Floats:
    """Tone of each pixel, 0 black to 1 white; 1500 by 2000 at scale 1."""
    w, h, fine = int(1500 * scale), int(2000 * scale), 2
    camera = solid.Camera(
        w * fine,
        h * fine,
        1560 * scale * fine,
        (0.50 * w * fine, 0.655 * h * fine),
        (0.25, 2.05, 0),
    )
    street = _street()
    depth, ids = solid.view(street.faces, camera)
    x, y = camera.rays()
    light = _sky(x, y)
    seen = np.nonzero(ids >= 0)
    d = depth[seen]
    point = np.stack([camera.eye[0] + x[seen] * d, camera.eye[1] + y[seen] * d, d], axis=-1).astype(
        np.float32
    )
    normal = solid.normals(street.faces)[ids[seen]]
    ray = np.stack([x[seen], y[seen], np.ones_like(d)], axis=-1)
    normal *= -np.sign(np.einsum("ij,ij->i", normal, ray))[:, None]
    kind = np.array(street.kinds)[ids[seen]]
    sun = _sunlight(point, normal, street.faces, scale)
    solids = [f for f, k in zip(street.faces, street.kinds, strict=True) if k != "leaf"]
    dome = _skylight(camera, depth, ids, street.faces, solids, fine)[seen]
    albedo = _stuff(point, normal, kind)
    light[seen] = _lit(normal, kind, sun, dome) * albedo
    tone = paper.shown(paper.halved(light, fine))
    tone = paper.wobble(tone, 3, 0.7 * scale, 0.008 / scale)
    return paper.on_paper(
        np.clip(0.02 + 0.96 * ((tone - 0.09) / 0.90), 0, 1), 5, granulation=0.014, tooth=0.004
    )


def _lit(normal: Floats, kind: NDArray[np.str_], sun: Floats, dome: Floats) -> Floats:
    """Sun, open sky, and the light thrown back by the sunlit wall and the ground."""
    thrown = 0.20 * np.clip(-normal[:, 0], 0, 1) + 0.05 * np.clip(normal[:, 0], 0, 1)
    thrown += 0.10 * np.clip(-normal[:, 1], 0, 1) + 0.05
    leaf = kind == "leaf"
    sun = np.where(leaf, 0.35 + 0.65 * sun, sun) * np.where(leaf, sun > 0, 1)
    return (1.5 * sun + 0.34 * dome + thrown * (0.2 + 0.8 * dome)).astype(np.float32)


def _sunlight(
    point: Floats, normal: Floats, faces: list[NDArray[np.float64]], scale: float
) -> Floats:
    towards = np.array(SUN) / np.linalg.norm(SUN)
    facing = np.clip(normal @ towards.astype(np.float32), 0, 1)
    turned = np.nonzero(facing > 0)[0]
    open_ = np.zeros(len(turned), np.float32)
    for dx, dz in ((0, 0), (0.004, 0.003), (-0.003, 0.004)):
        open_ += solid.open_to(
            point[turned],
            faces,
            (SUN[0] + dx, SUN[1], SUN[2] + dz),
            size=int(5200 * scale),
            slack=0.07,
        )
    facing[turned] *= open_ / 3
    return facing


def _skylight(
    camera: solid.Camera,
    depth: Floats,
    ids: NDArray[np.int32],
    faces: list[NDArray[np.float64]],
    solids: list[NDArray[np.float64]],
    fine: int,
) -> Floats:
    """Share of the open sky each point sees, found on a coarser grid and carried to its faces."""
    step = fine * 2
    coarse_depth, coarse_ids = depth[::step, ::step], ids[::step, ::step]
    x, y = (r[::step, ::step] for r in camera.rays())
    seen = np.nonzero(coarse_ids >= 0)
    d = coarse_depth[seen]
    point = np.stack([camera.eye[0] + x[seen] * d, camera.eye[1] + y[seen] * d, d], axis=-1)
    normal = solid.normals(faces)[coarse_ids[seen]]
    ray = np.stack([x[seen], y[seen], np.ones_like(d)], axis=-1)
    normal *= -np.sign(np.einsum("ij,ij->i", normal, ray))[:, None]
    total = np.zeros(len(d), np.float32)
    count = 32
    for k in range(count):
        up = (k + 0.5) / count
        turn = k * 2.399963
        flat = np.sqrt(1 - up * up)
        towards = (flat * np.cos(turn), up, flat * np.sin(turn))
        facing = np.clip(normal @ np.array(towards, np.float32), 0, 1)
        total += facing * solid.open_to(
            point.astype(np.float32), solids, towards, size=700, slack=0.12
        )
    dome = np.zeros(coarse_ids.shape, np.float32)
    dome[seen] = 2 * total / count
    return _carried(dome, coarse_ids, ids, step)


def _carried(
    coarse: Floats, coarse_ids: NDArray[np.int32], ids: NDArray[np.int32], step: int
) -> Floats:
    """Coarse values spread smoothly, each fine pixel drawing only on its own face."""
    h, w = ids.shape
    row = (np.arange(h, dtype=np.float32)) / step
    col = (np.arange(w, dtype=np.float32)) / step
    i, j = (
        np.minimum(row.astype(int), coarse.shape[0] - 1),
        np.minimum(col.astype(int), coarse.shape[1] - 1),
    )
    a, b = (row - i)[:, None], (col - j)[None, :]
    value, weight = np.zeros((h, w), np.float32), np.full((h, w), 1e-6, np.float32)
    for di, wa in ((0, 1 - a), (1, a)):
        for dj, wb in ((0, 1 - b), (1, b)):
            ii = np.minimum(i + di, coarse.shape[0] - 1)[:, None]
            jj = np.minimum(j + dj, coarse.shape[1] - 1)[None, :]
            share = (wa * wb + 1e-4) * (coarse_ids[ii, jj] == ids)
            value += share * coarse[ii, jj]
            weight += share
            value += 1e-5 * coarse[ii, jj] * (weight < 1e-4)
            weight += 1e-5 * (weight < 1e-4)
    return value / weight


def _sky(x: Floats, y: Floats) -> Floats:
    field = paper.drift((1024, 1024), 71, fall=1.8, coarse=0.003, stretch=(1.0, 3.0))
    ground = 1 / (y + 0.35)
    cloud = paper.lookup(field, ground * 230, x * ground * 300 + 260)
    puff = np.clip((cloud - 0.1) / 1.5, 0, 1) ** 0.8
    return (0.62 - 0.42 * np.clip(y, 0, 1) + 0.42 * puff).astype(np.float32)


def _stuff(point: Floats, normal: Floats, kind: NDArray[np.str_]) -> Floats:
    """How much light each surface gives back, with its courses, cracks, stains and tiles."""
    flat = np.abs(normal[:, 1]) > 0.6
    across = np.where(np.abs(normal[:, 0]) > np.abs(normal[:, 2]), point[:, 2], point[:, 0])
    up = np.where(flat, point[:, 2], point[:, 1])
    across = np.where(flat, point[:, 0], across)
    rough = paper.drift((1024, 1024), 72, fall=1.35, coarse=0.01)
    a = paper.lookup(rough, up * 55, across * 55)
    b = paper.lookup(rough, up * 7 + 300, across * 16 + 500)
    c = paper.lookup(rough, up * 200 + 100, across * 200)
    base = {
        "plaster": 0.80,
        "reveal": 0.72,
        "trim": 0.70,
        "step": 0.60,
        "cobble": 0.52,
        "tile": 0.42,
        "wood": 0.26,
        "shutter": 0.24,
        "frame": 0.6,
        "glass": 0.035,
        "door": 0.16,
        "pot": 0.4,
        "leaf": 0.24,
        "iron": 0.05,
        "cloth": 0.97,
        "check": 0.34,
        "far": 0.62,
        "dark": 0.03,
    }
    names, inverse = np.unique(kind, return_inverse=True)
    albedo = np.array([base[n] for n in names], np.float32)[inverse]
    plaster = (kind == "plaster") | (kind == "far")
    stain = 1 - 0.10 * np.clip(b, -1, 2) + 0.035 * c + 0.05 * a
    albedo = np.where(plaster, albedo * stain, albedo * (1 + 0.07 * c + 0.05 * a))
    fallen = _step(
        0.75,
        1.0,
        a * 0.6 + b * 0.75 + 0.25 * np.clip(1.6 - (point[:, 1] - 0.12 * point[:, 2]), -1, 1),
    )
    albedo = np.where(
        kind == "plaster",
        albedo * (1 - fallen) + fallen * 0.5 * _courses(up, across, 0.26, 0.5),
        albedo,
    )
    steps = np.isin(kind, ["step", "trim"])
    albedo = np.where(steps, albedo * _slabs(point, normal, across), albedo)
    albedo = np.where(kind == "cobble", albedo * _cobbles(point[:, 0], point[:, 2]), albedo)
    albedo = np.where(kind == "tile", albedo * _tiles(point, normal), albedo)
    boards = np.isin(kind, ["door", "wood"])
    albedo = np.where(
        boards, albedo * (0.75 + 0.25 * (np.abs((across / 0.16) % 1 - 0.5) < 0.44)), albedo
    )
    albedo = np.where(kind == "shutter", albedo * (0.62 + 0.55 * ((up / 0.075) % 1)), albedo)
    return np.clip(albedo, 0.01, 1).astype(np.float32)


def _courses(up: Floats, across: Floats, tall: float, wide: float) -> Floats:
    course = np.floor(up / tall)
    place = across / wide + 0.37 * course + 0.2 * np.sin(course * 5.1)
    key = np.sin(np.floor(place) * 12.99 + course * 78.2) * 43758.5
    own = 0.86 + 0.28 * (key - np.floor(key))
    edge = np.minimum(
        np.minimum(place % 1, 1 - place % 1) * wide,
        np.minimum(up / tall % 1, 1 - up / tall % 1) * tall,
    )
    return own * (1 - 0.6 * np.exp(-((edge / 0.016) ** 2)))


def _slabs(point: Floats, normal: Floats, across: Floats) -> Floats:
    """Stone treads: joints staggered from step to step, noses worn pale, dirt in the corners."""
    level = np.floor((point[:, 1] + 0.02 * (normal[:, 1] < 0.5)) / 0.155 + 0.01)
    level = np.where(
        np.abs(normal[:, 1]) > 0.6, np.rint(point[:, 1] / 0.155), np.ceil(point[:, 1] / 0.155)
    )
    place = across / 0.95 + 0.41 * level + 0.21 * np.sin(level * 4.7)
    key = np.sin(np.floor(place) * 12.99 + level * 78.2) * 43758.5
    own = 0.84 + 0.32 * (key - np.floor(key))
    edge = np.minimum(place % 1, 1 - place % 1) * 0.95
    first = np.where(point[:, 2] < 9, 4.2, 10.6)
    back = np.where(np.abs(normal[:, 1]) > 0.6, (point[:, 2] - first) / 0.40 % 1, 0.5)
    nose = 1 + 0.22 * np.exp(-((back / 0.09) ** 2)) - 0.38 * np.exp(-(((1 - back) / 0.12) ** 2))
    foot = np.where(np.abs(normal[:, 1]) > 0.6, 0.5, (point[:, 1] / 0.155) % 1)
    riser = 1 - 0.30 * np.exp(-((foot / 0.2) ** 2)) + 0.25 * np.exp(-(((1 - foot) / 0.12) ** 2))
    return own * nose * riser * (1 - 0.55 * np.exp(-((edge / 0.012) ** 2)))


def _cobbles(x: Floats, z: Floats) -> Floats:
    row = np.floor(z / 0.16)
    u = x / 0.19 + 0.5 * (row % 2) + 0.15 * np.sin(row * 3.3)
    key = np.sin(np.floor(u) * 12.99 + row * 78.2) * 43758.5
    dx, dz = u % 1 - 0.5, z / 0.16 % 1 - 0.5
    dome = np.clip(1 - 3.4 * (dx**2 * 1.1 + dz**2) ** 1.2 * 2, 0.25, 1)
    return dome * (0.78 + 0.4 * (key - np.floor(key)))


def _tiles(point: Floats, normal: Floats) -> Floats:
    """Rows of hollow tiles down the slope."""
    side = np.abs(normal[:, 0]) > np.abs(normal[:, 2])
    across = np.where(side, point[:, 2], point[:, 0])
    down = point[:, 1] / np.maximum(np.sqrt(1 - normal[:, 1] ** 2), 0.2)
    row = np.floor(down / 0.32)
    wave = np.sin(2 * np.pi * across / 0.24)
    lip = down / 0.32 % 1
    key = np.sin(np.floor(across / 0.24) * 12.99 + row * 78.2) * 43758.5
    return (
        (0.80 + 0.42 * wave)
        * (1 - 0.45 * np.exp(-lip / 0.12))
        * (0.82 + 0.36 * (key - np.floor(key)))
    )


def _street() -> houses.Street:
    s = houses.Street()
    s.add([np.array([(-9, 0, -2), (9, 0, -2), (9, 0, 4.2), (-9, 0, 4.2)], float)], "cobble")
    s.steps((LEFT - 0.5, RIGHT + 0.5), 4.2, 0.0, 10, 0.155, 0.40)
    s.add(
        [np.array([(-6, 1.55, 8.2), (9, 1.55, 8.2), (9, 1.55, 10.6), (-6, 1.55, 10.6)], float)],
        "cobble",
    )
    s.steps((LEFT - 0.5, RIGHT + 0.5), 10.6, 1.55, 8, 0.155, 0.40)
    s.add(
        [np.array([(-9, 2.79, 13.8), (9, 2.79, 13.8), (9, 2.79, 30), (-9, 2.79, 30)], float)],
        "cobble",
    )
    _left(s)
    _right(s)
    _end(s)
    return s


def _left(s: houses.Street) -> None:
    """The sunlit side: a tall house, a lower one stepping forward, and a third."""
    door, win = "door", "glass"
    # nearest house; the wall runs towards the eye so that its outside looks right
    a, b = (LEFT, 8.6), (LEFT, 0.2)
    rows: list[houses.Opening] = [
        (2.1, 3.0, 0.95, 3.05, door),
        (5.3, 6.15, 1.5, 2.75, win),
        (1.3, 2.15, 4.3, 5.75, win),
        (4.2, 5.05, 4.3, 5.75, win),
        (6.6, 7.4, 4.3, 5.75, win),
    ]
    s.wall(a, b, -1, 7.6, tuple(rows))
    for o in rows[2:4]:
        s.shutters(a, b, o)
    s.gable((LEFT - 6, LEFT), (0.2, 8.6), 7.6, 9.8, along_z=True)
    s.wall((LEFT - 6, 8.6), (LEFT, 8.6), -1, 7.6)
    s.chimney(LEFT - 1.3, 6.4, 7.6, 9.5)
    # second
    a, b = (LEFT + 0.35, 14.6), (LEFT + 0.35, 8.6)
    rows = [
        (0.8, 1.75, 2.9, 4.9, door),
        (3.6, 4.4, 3.3, 4.6, win),
        (1.0, 1.8, 6.0, 7.4, win),
        (3.7, 4.5, 6.0, 7.4, win),
    ]
    s.wall(a, b, 0, 8.9, tuple(rows))
    s.shutters(a, b, rows[2])
    s.shutters(a, b, rows[3])
    s.wall((LEFT - 5, 8.6), (LEFT + 0.35, 8.6), 0, 8.9)
    s.gable((LEFT - 5, LEFT + 0.35), (8.6, 14.6), 8.9, 11.2, along_z=True)
    s.chimney(LEFT - 0.9, 12.8, 9.0, 11.6)
    s.chimney(LEFT - 3.6, 9.6, 9.0, 12.2, 0.42)
    # lamp on a bracket
    s.add(solid.box((RIGHT - 1.1, 4.72, 9.0), (RIGHT - 0.25, 4.76, 9.04)), "iron")
    s.add(solid.box((RIGHT - 0.62, 4.45, 9.0), (RIGHT - 0.25, 4.48, 9.04)), "iron")
    lamp = [(4.05, 0.05), (4.1, 0.12), (4.5, 0.19), (4.54, 0.22), (4.68, 0.06), (4.74, 0.03)]
    s.add(solid.turned((RIGHT - 1.05, 9.02), lamp, 6), "iron")
    # pots on the steps and a vine over the door
    for z, y, r in ((5.05, 0.31, 0.2), (7.9, 1.395, 0.24), (8.35, 1.55, 0.19)):
        x = LEFT + 0.32
        s.add(
            solid.turned(
                (x, z),
                [
                    (y, r * 0.7),
                    (y + 0.36, r),
                    (y + 0.36, r * 1.15),
                    (y + 0.43, r * 1.15),
                    (y + 0.43, 0),
                ],
                14,
            ),
            "pot",
        )
        s.vine(int(z * 100), (x, y + 0.72, z), (0.14, 0.15, 0.14), 200, 0.05)
    s.vine(9, (LEFT + 0.10, 3.6, 6.2), (0.08, 0.30, 0.75), 700, 0.065)
    s.vine(10, (LEFT + 0.08, 2.5, 5.1), (0.07, 0.75, 0.16), 380, 0.06)


def _right(s: houses.Street) -> None:
    """The shaded side: a near wall and house, a gap that lets the sun through, a tower house."""
    win, door = "glass", "door"
    a, b = (RIGHT, 0.2), (RIGHT, 7.0)
    rows: list[houses.Opening] = [
        (3.2, 4.3, 0.1, 2.5, door),
        (5.2, 6.0, 1.9, 3.0, win),
        (2.6, 3.5, 3.5, 4.7, win),
        (5.2, 6.0, 3.7, 4.8, win),
    ]
    s.wall(a, b, -1, 5.5, tuple(rows))
    s.wall((RIGHT, 7.0), (RIGHT + 6, 7.0), -1, 5.5)
    s.gable((RIGHT, RIGHT + 6), (0.2, 7.0), 5.5, 7.4, along_z=True)
    s.chimney(RIGHT + 1.5, 3.4, 5.6, 7.6)
    s.chimney(RIGHT + 1.1, 6.2, 5.6, 7.2, 0.3)
    a, b = (RIGHT - 0.25, 8.7), (RIGHT - 0.25, 15.5)
    rows = [
        (0.7, 1.5, 2.4, 4.1, win),
        (4.6, 5.5, 3.0, 5.0, door),
        (0.9, 1.7, 5.3, 6.7, win),
        (3.4, 4.2, 5.3, 6.7, win),
    ]
    s.wall(a, b, 0, 7.7, tuple(rows))
    front: list[houses.Opening] = [(1.2, 2.0, 2.7, 4.1, win), (1.2, 2.0, 5.3, 6.6, win)]
    s.wall(
        (RIGHT + 5, 8.7),
        (RIGHT - 0.25, 8.7),
        0,
        7.7,
        tuple((5.25 - o[1], 5.25 - o[0], *o[2:]) for o in front),
    )
    s.gable((RIGHT - 0.25, RIGHT + 5), (8.7, 15.5), 7.7, 9.7, along_z=False)
    s.chimney(RIGHT + 0.5, 13.2, 8.6, 10.3)
    s.arch((LEFT + 0.35, RIGHT - 0.25), (12.6, 13.4), 5.3, 7.3)
    # washing on a line
    z = 8.2
    s.add(solid.box((LEFT, 5.93, z), (RIGHT, 5.945, z + 0.015)), "iron")
    for x0, x1, drop, seed in (
        (-1.2, -0.55, 0.95, 0),
        (-0.4, 0.25, 0.75, 1),
        (0.45, 0.95, 1.05, 2),
        (1.05, 1.4, 0.6, 3),
    ):
        n = 8
        for k in range(n):
            u0, u1 = x0 + (x1 - x0) * k / n, x0 + (x1 - x0) * (k + 1) / n
            d0, d1 = (0.06 * np.sin(k * 1.9 + seed), 0.06 * np.sin((k + 1) * 1.9 + seed))
            s.add(
                [
                    np.array(
                        [
                            (u0, 5.93, z),
                            (u1, 5.93, z),
                            (u1, 5.93 - drop, z + d1),
                            (u0, 5.93 - drop, z + d0),
                        ]
                    )
                ],
                "cloth" if seed % 2 else "check",
            )


def _end(s: houses.Street) -> None:
    """What closes the view: a house across the lane, roofs behind, a bell tower."""
    win, door = "glass", "door"
    rows: list[houses.Opening] = [
        (2.4, 3.5, 2.8, 5.0, door),
        (4.6, 5.4, 3.5, 4.9, win),
        (2.5, 3.3, 6.0, 7.4, win),
        (4.6, 5.4, 6.0, 7.4, win),
    ]
    a, b = (4.2, 20.0), (-3.4, 20.0)
    s.wall(a, b, 2, 8.6, tuple(rows))
    for o in rows[2:]:
        s.shutters(a, b, o)
    s.gable((-3.4, 4.2), (20.0, 26.0), 8.6, 11.0, along_z=False)
    s.chimney(-1.9, 22.0, 9.5, 12.0)
    s.chimney(2.2, 23.0, 9.5, 12.6, 0.45)
    s.wall((-3.4, 20.0), (-3.4, 27.0), 2, 8.6)
    # tower
    x, z, r = 1.3, 36.0, 1.9
    high = 20.5
    opening: tuple[houses.Opening, ...] = ((1.2, 2.6, 16.6, 19.2, "dark"),)
    s.wall((x + r, z - r), (x - r, z - r), 3, high, opening, "far", 0.5)
    s.wall((x - r, z - r), (x - r, z + r), 3, high, opening, "far", 0.5)
    s.add(
        solid.box((x - r - 0.25, high, z - r - 0.25), (x + r + 0.25, high + 0.4, z + r + 0.25)),
        "trim",
    )
    s.add(solid.box((x - r - 0.15, 15.4, z - r - 0.15), (x + r + 0.15, 15.7, z + r + 0.15)), "trim")
    tip = (x, high + 3.6, z)
    c = [
        (x - r, high + 0.4, z - r),
        (x + r, high + 0.4, z - r),
        (x + r, high + 0.4, z + r),
        (x - r, high + 0.4, z + r),
    ]
    s.add([np.array([c[k], c[(k + 1) % 4], tip]) for k in range(4)], "tile")


def _step(low: float, high: float, x: Floats) -> Floats:
    t = np.clip((x - low) / (high - low), 0, 1)
    return t * t * (3 - 2 * t)
