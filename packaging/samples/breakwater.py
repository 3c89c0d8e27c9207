"""Breakwater at dusk: a wash drawing with soft skies."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray
from samples import paper, solid, water
from scipy import ndimage

Floats = NDArray[np.float32]
Face = NDArray[np.float64]

SUN = (0.142, 0.058)  # sideways and upward, for one metre of depth
EYE = 7.5
MOLE = [(-27.0, 6.0), (-20.5, 44.0), (-10.0, 90.0), (4.0, 128.0)]
TOWER = (1.0, 121.0)
BOAT = (37.0, 112.0)
SEA = water.Sea(short=0.45, long=15, steep=0.024, heading=1.35, spread=0.55, seed=5)


def draw(scale: float = 1.0) -> Floats:
    """Tone of each pixel, 0 black to 1 white; 2000 by 1500 at scale 1."""
    w, h = int(2000 * scale), int(1500 * scale)
    fine = 2
    camera = solid.Camera(
        w * fine, h * fine, 2050 * scale * fine, (0.5 * w * fine, 0.60 * h * fine), (0, EYE, 0)
    )
    faces, kinds = _scene()
    above, depth = _painted(faces, kinds, camera, mirror=False)
    below, mirror_depth = _painted(faces, kinds, camera.mirrored(), mirror=True)
    light = _with_water(camera, above, depth, below, mirror_depth)
    light = paper.halved(light, fine)
    tone = paper.shown(light)
    return _washed(tone, scale)


def _washed(tone: Floats, scale: float) -> Floats:
    tone = paper.wobble(tone, 31, 1.3 * scale, 0.006 / scale)
    tone = paper.pooled(tone, 5 * scale, 0.22)
    return paper.on_paper(_deepened(tone), 41, granulation=0.022, tooth=0.005)


def _deepened(tone: Floats) -> Floats:
    """The drawing's own darks and lights: ink nearly black, paper nearly bare."""
    t = np.clip((tone - 0.17) / 0.76, 0, 1)
    return np.asarray(0.035 + 0.945 * t**1.08, np.float32)


# ---------------------------------------------------------------- sky


def _sky(x: Floats, y: Floats) -> Floats:
    """Light of the sky towards (x, y, 1)."""
    y = np.maximum(y, 0)
    dx, dy = x - SUN[0], y - SUN[1]
    far = np.sqrt(dx**2 + (1.7 * dy) ** 2)
    glow = 0.30 * np.exp(-far / 0.06) + 0.60 * np.exp(-far / 0.30)
    band = 0.22 * np.exp(-y / 0.11)
    clear = 0.13 + glow + band
    field = paper.drift((1024, 1024), 7, fall=1.75, coarse=0.004, stretch=(1.0, 2.2))
    streak = paper.drift((1024, 1024), 8, fall=1.5, coarse=0.003, stretch=(1.0, 5.0))
    ground = 1.0 / (y + 0.055)
    cloud = paper.lookup(field, ground * 62, x * ground * 62 + 300)
    veil = paper.lookup(streak, y * 1500 + 30 * x, x * 900 + 100)
    heavy = 0.8 * cloud + 0.55 * veil + 2.2 * (y - 0.2) - 0.5 * np.exp(-far / 0.07)
    cover = _step(-0.5, 1.7, heavy)
    edge = np.exp(-((((heavy) - 0.0) / 0.5) ** 2))
    body = 0.06 + 0.26 * glow + 0.07 * np.exp(-y / 0.2)
    sky = clear * (1 - 0.9 * cover) + body * 0.9 * cover
    sky += 0.22 * edge * glow
    disc = _step(0.0185, 0.0172, np.sqrt(dx**2 + dy**2))
    bar = 1 - 0.75 * cover
    return (sky + 1.5 * disc * bar).astype(np.float32)


def _hills(x: Floats, y: Floats, sky: Floats) -> Floats:
    """Three ridges in the haze laid over the sky."""
    light = sky
    ridges = [
        (0.030, 0.020, 0.60, 11, -0.55),
        (0.019, 0.014, 0.36, 12, -0.25),
        (0.009, 0.008, 0.20, 13, 0.75),
    ]
    for base, rise, tone, seed, lean in ridges:
        line = paper.drift((64, 2048), seed, fall=2.1, coarse=0.002)[5]
        top = paper.lookup(
            line[None, :], np.zeros_like(x[0]), (x[0] * 900 + 700).astype(np.float32)
        )
        fade = base * (1 + lean * x[0] * 2.6) + rise * top * 0.6
        cover = _step(-0.0006, 0.0006, fade[None, :] - y)
        near_sun = np.exp(-np.abs(x - SUN[0]) / 0.16)
        body = tone * (0.20 + 0.75 * near_sun) + 0.10 * tone * np.exp(-y / 0.01)
        light = light * (1 - cover) + body * cover
    return light


# ---------------------------------------------------------------- solids


def _scene() -> tuple[list[Face], list[str]]:
    faces: list[Face] = []
    kinds: list[str] = []

    def add(new: list[Face], kind: str) -> None:
        faces.extend(new)
        kinds.extend([kind] * len(new))

    add(_mole(), "stone")
    x, z = TOWER
    add(solid.turned(TOWER, [(3.1, 4.6), (5.0, 4.4)]), "base")
    add(solid.turned(TOWER, [(5.0, 2.75), (19.5, 1.95)]), "tower")
    add(solid.turned(TOWER, [(19.5, 2.0), (20.1, 2.95), (20.45, 2.95), (20.5, 1.4)]), "dark")
    add(solid.turned(TOWER, [(20.5, 1.35), (22.9, 1.35)]), "lamp")
    for k in range(8):
        a = k * np.pi / 4 + 0.2
        bar = (x + 1.4 * np.cos(a), z + 1.4 * np.sin(a))
        add(solid.turned(bar, [(20.5, 0.07), (22.9, 0.07)], 6), "dark")
        rail = (x + 2.85 * np.cos(a), z + 2.85 * np.sin(a))
        add(solid.turned(rail, [(20.45, 0.05), (21.5, 0.05)], 6), "dark")
    add(solid.turned(TOWER, [(21.45, 2.9), (21.55, 2.9)]), "dark")
    add(
        solid.turned(TOWER, [(22.9, 1.75), (23.5, 1.3), (24.2, 0.5), (24.6, 0.12), (25.9, 0.05)]),
        "dark",
    )
    add(_boat(), "boat")
    add(_sails(), "sail")
    return faces, kinds


def _mole() -> list[Face]:
    """A wall in three stretches: sloping sides, a walk, a parapet on the sea side."""
    path = np.array(MOLE)
    heading = np.gradient(path, axis=0)
    heading /= np.linalg.norm(heading, axis=1)[:, None]
    side = np.column_stack([heading[:, 1], -heading[:, 0]])
    profile = [(5.2, -0.5), (3.9, 3.1), (-2.6, 3.1), (-2.6, 4.5), (-3.7, 4.5), (-4.9, -0.5)]

    def at(offset: float, height: float) -> NDArray[np.float64]:
        flat = path + side * offset
        return np.column_stack([flat[:, 0], np.full(len(flat), height), flat[:, 1]])

    faces = []
    for (o0, y0), (o1, y1) in pairwise(profile):
        a, b = at(o0, y0), at(o1, y1)
        for k in range(len(path) - 1):
            faces.append(np.array([a[k], a[k + 1], b[k + 1]]))
            faces.append(np.array([a[k], b[k + 1], b[k]]))
    end = np.array([at(o, y)[-1] for o, y in profile])
    faces.append(end[[0, 1, 2, 5]])
    faces.append(end[[2, 3, 4, 5]])
    for k in range(9):
        t = (k + 0.6) / 9 * 2.7
        i = int(t)
        p = path[i] + (path[i + 1] - path[i]) * (t - i) + side[i] * 3.2
        faces.extend(
            solid.turned(
                (p[0], p[1]), [(3.1, 0.28), (3.65, 0.24), (3.7, 0.36), (3.85, 0.3), (3.86, 0)], 10
            )
        )
    return faces


def _boat() -> list[Face]:
    x, z = BOAT
    ribs = np.linspace(-1, 1, 13)
    half = 1.35 * (1 - np.abs(ribs) ** 2.4)
    sheer = 0.95 + 0.42 * ribs**2 + 0.2 * ribs
    faces: list[Face] = []
    along = x + 4.6 * ribs + 0.35 * ribs * (ribs > 0)
    keel = x + 3.9 * ribs
    low = np.full(13, -0.2)
    for side in (-1, 1):
        foot = np.column_stack([keel, low, z + side * 0.75 * half])
        rail = np.column_stack([along, sheer, z + side * half])
        faces += [np.array([foot[k], rail[k], rail[k + 1], foot[k + 1]]) for k in range(12)]
    faces += solid.turned((x + 0.7, z), [(0.5, 0.09), (11.6, 0.05)], 6)
    faces += solid.box((x - 4.2, 1.62, z - 0.05), (x + 0.7, 1.74, z + 0.05))
    faces += solid.box((x - 2.9, 1.0, z - 0.35), (x - 2.3, 1.9, z + 0.2))
    faces += solid.turned((x - 2.6, z), [(1.9, 0.2), (2.2, 0.22), (2.4, 0.1)], 8)
    return faces


def _sails() -> list[Face]:
    """A mainsail and a jib, bellied, in narrow strips."""
    x, z = BOAT
    faces = []
    for foot0, foot1, head, tack in (
        ((x - 4.1, 1.75), (x + 0.55, 1.75), (x + 0.6, 11.2), 0.5),
        ((x + 1.0, 1.7), (x + 4.9, 1.55), (x + 0.95, 9.6), 0.4),
    ):
        n = 8
        for i in range(n):
            for j in range(n):
                quad = []
                for a, b in ((i, j), (i, j + 1), (i + 1, j + 1), (i + 1, j)):
                    u, v = a / n, b / n
                    px = (foot0[0] * (1 - u) + foot1[0] * u) * (1 - v) + head[0] * v
                    py = (foot0[1] * (1 - u) + foot1[1] * u) * (1 - v) + head[1] * v
                    belly = -tack * 4 * u * (1 - u) * (1 - v) * (0.4 + v)
                    quad.append((px + 0.3 * np.sin(v * 2) * (u < 0.5) * -0.4, py, z + belly))
                faces.append(np.array(quad))
    return faces


def _painted(
    faces: list[Face], kinds: list[str], camera: solid.Camera, *, mirror: bool
) -> tuple[Floats, Floats]:
    """Light of sky, hills and solids as this camera sees them, and the depth."""
    x, y = camera.rays()
    light = _hills(x, y, _sky(x, y))
    depth, ids = solid.view(faces, camera)
    seen = ids >= 0
    if mirror:
        seen &= camera.eye[1] + y * np.where(seen, depth, 1) > 0
        depth = np.where(seen, depth, np.inf).astype(np.float32)
    where = np.nonzero(seen)
    d = depth[where]
    point = np.stack([x[where] * d, camera.eye[1] + y[where] * d, d], axis=-1).astype(np.float32)
    normal = solid.normals(faces)[ids[where]]
    ray = np.stack([x[where], y[where], np.ones_like(d)], axis=-1)
    normal *= -np.sign(np.einsum("ij,ij->i", normal, ray))[:, None]
    kind = np.array(kinds)[ids[where]]
    light[where] = _shade(point, normal, kind)
    return light, depth


def _shade(point: Floats, normal: Floats, kind: NDArray[np.str_]) -> Floats:
    sun = np.array([SUN[0], SUN[1] + 0.03, 1.0])
    sun /= np.linalg.norm(sun)
    for name in ("tower", "base", "lamp"):
        own = kind == name
        radial = point[own][:, [0, 2]] - np.array(TOWER)
        radial /= np.linalg.norm(radial, axis=1)[:, None]
        normal[own] = np.column_stack([radial[:, 0], np.zeros(len(radial)), radial[:, 1]])
    rim = np.clip(normal @ sun, 0, 1)
    up = 0.5 + 0.5 * normal[:, 1]
    west = np.clip(0.5 + 0.5 * normal[:, 0], 0, 1)
    wash = 0.030 + 0.05 * up + 0.10 * west**2 + 0.9 * rim
    stain = paper.drift((512, 512), 21, fall=1.3, coarse=0.01)
    fleck = paper.lookup(
        stain, point[:, 1] * 40 + point[:, 2] * 3, point[:, 0] * 25 + point[:, 2] * 9
    )
    albedo = np.full(len(point), 0.28, np.float32)
    albedo[kind == "tower"] = 1.35
    albedo[kind == "base"] = 0.6
    albedo[kind == "dark"] = 0.1
    albedo[kind == "boat"] = 0.12
    light = wash * albedo * (1 + 0.16 * fleck)
    stone = kind == "stone"
    light[stone] = _masonry(point[stone], normal[stone], light[stone])
    sail = kind == "sail"
    light[sail] = 0.34 + 0.02 * (point[sail][:, 1] - 6) + 0.04 * fleck[sail]
    light[kind == "lamp"] = 1.25
    tower = kind == "tower"
    band = np.abs(point[tower][:, 1] - 12.6) < 1.7
    light[tower] *= np.where(band, 0.36, 1.0)
    haze = 1 - np.exp(-point[:, 2] / 900)
    return (light * (1 - haze) + 0.35 * haze).astype(np.float32)


def _masonry(point: Floats, normal: Floats, light: Floats) -> Floats:
    """Courses of blocks, weed at the waterline, a wet walk that mirrors the sky."""
    along = point[:, 2] * 1.08 + 0.3 * point[:, 0]
    course = np.floor(point[:, 1] / 0.92)
    block = along / 2.3 + 0.5 * (course % 2) + 0.13 * np.sin(course * 7)
    key = np.sin(np.floor(block) * 12.9898 + course * 78.233) * 43758.5453
    own = 1 + 0.42 * ((key - np.floor(key)) - 0.5)
    joint_a = np.minimum(block % 1, 1 - block % 1) * 2.3
    joint_b = np.minimum(point[:, 1] / 0.92 % 1, 1 - point[:, 1] / 0.92 % 1) * 0.92
    joint = 1 - 0.55 * np.exp(-((np.minimum(joint_a, joint_b) / 0.06) ** 2))
    upright = np.abs(normal[:, 1]) < 0.7
    wet = _step(1.5, 0.2, point[:, 1] + 0.25 * np.sin(along * 1.7) + 0.2 * np.sin(along * 0.61))
    wall = light * own * joint * (1 - 0.72 * wet)
    glance = 0.20 + 0.34 * np.exp(-np.abs(point[:, 0] / np.maximum(point[:, 2], 1) - SUN[0]) / 0.35)
    walk = light * (0.8 + 0.2 * own) + 0.5 * glance
    return np.where(upright, wall, walk)


# ---------------------------------------------------------------- water


def _with_water(
    camera: solid.Camera, above: Floats, depth: Floats, below: Floats, mirror_depth: Floats
) -> Floats:
    x, y = camera.rays()
    wet = (y < -1e-5) & (depth > EYE / np.maximum(-y, 1e-5))
    top = int(np.nonzero(wet.any(axis=1))[0][0])
    x, y, wet = x[top:], y[top:], wet[top:]
    seen, z = water.glance(SEA, camera, x, y)
    sky = _table(seen.x, seen.y + 0.9 * seen.rough)
    mirrored = water.broken(camera, seen, x, -y, z, below, mirror_depth, sky)
    body = 0.016 + 0.02 * np.exp(-z / 60)
    surface = mirrored * seen.share * 0.93 + body * (1 - seen.share)
    light = above.copy()
    light[top:][wet] = surface[wet]
    return light


def _table(rx: Floats, ry: Floats) -> Floats:
    """The sky with its hills, read from a table along reflected rays."""
    u = np.linspace(-0.9, 0.9, 1600, dtype=np.float32)
    v = np.concatenate([np.linspace(0, 0.12, 500), np.linspace(0.12, 0.9, 700)[1:]]).astype(
        np.float32
    )
    gx, gy = np.meshgrid(u, v)
    table = _hills(gx, gy, _sky(gx, gy))
    row = np.interp(ry, v, np.arange(len(v))).astype(np.float32)
    column = (np.clip(rx, -0.9, 0.9) + 0.9) / 1.8 * 1599
    return ndimage.map_coordinates(table, [row, column], order=1, mode="nearest")


def _step(low: float, high: float, x: Floats) -> Floats:
    t = np.clip((x - low) / (high - low), 0, 1)
    return t * t * (3 - 2 * t)
