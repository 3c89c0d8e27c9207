"""A canal at night: lamps, lit windows and what the water makes of them."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from samples import houses, night_town, paper, solid, water
from scipy import ndimage

Floats = NDArray[np.float32]

EYE = (-0.4, 3.3, 0.0)
CANAL = water.Sea(short=0.16, long=3.2, steep=0.0105, heading=1.2, spread=0.8, seed=17, count=40)


def draw(scale: float = 1.0) -> Floats:
    """Tone of each pixel, 0 black to 1 white; 2000 by 1500 at scale 1."""
    w, h, fine = int(2000 * scale), int(1500 * scale), 2
    camera = solid.Camera(
        w * fine, h * fine, 1500 * scale * fine, (0.56 * w * fine, 0.50 * h * fine), EYE
    )
    town = night_town.build()
    above, depth = _painted(town, camera)
    below, mirror_depth = _painted(town, camera.mirrored())
    below = np.where(below > 3, 5 * below, below)
    light = paper.halved(_with_water(camera, above, depth, below, mirror_depth), fine)
    light = light + _halos(light, scale)
    tone = paper.shown(light)
    tone = paper.wobble(tone, 3, 0.7 * scale, 0.008 / scale)
    return paper.on_paper(
        0.012 + 0.98 * np.clip((tone - 0.05) / 0.95, 0, 1), 5, granulation=0.012, tooth=0.005
    )


def _halos(light: Floats, scale: float) -> Floats:
    """Light scattered by damp air about everything bright."""
    bright = np.clip(light - 0.45, 0, 6)
    total = np.zeros_like(light)
    for radius, share in ((7, 0.10), (26, 0.08), (90, 0.07), (260, 0.04)):
        step = max(1, int(radius * scale / 6))
        small = (
            bright[::1, ::1] if step == 1 else ndimage.uniform_filter(bright, step)[::step, ::step]
        )
        soft = ndimage.gaussian_filter(small, radius * scale / step)
        rows = np.clip((np.arange(light.shape[0]) - step / 2 + 0.5) / step, 0, soft.shape[0] - 1)
        cols = np.clip((np.arange(light.shape[1]) - step / 2 + 0.5) / step, 0, soft.shape[1] - 1)
        total += share * ndimage.map_coordinates(
            soft, np.meshgrid(rows, cols, indexing="ij"), order=1
        )
    return total


def _with_water(
    camera: solid.Camera, above: Floats, depth: Floats, below: Floats, mirror_depth: Floats
) -> Floats:
    x, y = camera.rays()
    wet = (y < -1e-4) & (depth > EYE[1] / np.maximum(-y, 1e-4))
    top = int(np.nonzero(wet.any(axis=1))[0][0])
    x, y, wet = x[top:], y[top:], wet[top:]
    seen, z = water.glance(CANAL, camera, x, y)
    sky = _sky(seen.x, seen.y)
    mirrored = water.broken(camera, seen, x, -y, z, below, mirror_depth, sky)
    surface = mirrored * (0.12 + 0.88 * seen.share) * 0.85 + 0.006
    light = above.copy()
    light[top:][wet] = surface[wet]
    return light


def _sky(x: Floats, y: Floats) -> Floats:
    field = paper.drift((1024, 1024), 91, fall=1.75, coarse=0.003, stretch=(1.0, 2.6))
    ground = 1 / (np.maximum(y, 0) + 0.3)
    cloud = paper.lookup(field, ground * 260, x * ground * 260 + 500)
    dim = (
        0.016
        + 0.12 * np.exp(-np.maximum(y, 0) / 0.16)
        + 0.05 * np.exp(-((x / 0.2) ** 2) - np.maximum(y, 0) / 0.3)
    )
    return (dim * (1 + 0.42 * np.clip(cloud, -1.6, 2))).astype(np.float32)


def _painted(town: houses.Street, camera: solid.Camera) -> tuple[Floats, Floats]:
    x, y = camera.rays()
    light = _sky(x, np.abs(y))
    depth, ids = solid.view(town.faces, camera)
    seen = ids >= 0
    if camera.eye[1] < 0:
        seen &= camera.eye[1] + y * np.where(seen, depth, 1) > 0
        depth = np.where(seen, depth, np.inf).astype(np.float32)
    where = np.nonzero(seen)
    d = depth[where]
    point = np.stack([camera.eye[0] + x[where] * d, camera.eye[1] + y[where] * d, d], -1).astype(
        np.float32
    )
    own = ids[where]
    normal = solid.normals(town.faces)[own]
    ray = np.stack([x[where], y[where], np.ones_like(d)], axis=-1)
    ray /= np.linalg.norm(ray, axis=1)[:, None]
    normal *= -np.sign(np.einsum("ij,ij->i", normal, ray))[:, None]
    kind = np.array(town.kinds)[own]
    shade = _shade(point, normal, ray, kind, own)
    haze = 1 - np.exp(-d / 130)
    light[where] = shade * (1 - haze) + 0.042 * haze
    return light, depth


def _shade(
    point: Floats, normal: Floats, ray: Floats, kind: NDArray[np.str_], own: NDArray[np.int32]
) -> Floats:
    flat = np.abs(normal[:, 1]) > 0.6
    across = np.where(np.abs(normal[:, 0]) > np.abs(normal[:, 2]), point[:, 2], point[:, 0])
    up = np.where(flat, point[:, 2], point[:, 1])
    across = np.where(flat, point[:, 0], across)
    rough = paper.drift((1024, 1024), 92, fall=1.35, coarse=0.01)
    fleck = paper.lookup(rough, up * 50, across * 50)
    stain = paper.lookup(rough, up * 7 + 300, across * 15 + 500)
    base = {
        "plaster": 0.42,
        "brick": 0.26,
        "reveal": 0.3,
        "trim": 0.5,
        "stone": 0.34,
        "paving": 0.19,
        "tile": 0.12,
        "wood": 0.1,
        "shutter": 0.12,
        "frame": 0.2,
        "door": 0.08,
        "iron": 0.03,
        "hull": 0.10,
        "inside": 0.16,
        "rail": 0.3,
        "thwart": 0.25,
        "coat": 0.04,
        "umbrella": 0.06,
        "pot": 0.1,
    }
    names, inverse = np.unique(kind, return_inverse=True)
    albedo = np.array([base.get(n, 0.05) for n in names], np.float32)[inverse]
    albedo *= 1 + 0.10 * fleck - 0.12 * np.clip(stain, -1, 2)
    courses = np.isin(kind, ["brick", "stone"])
    albedo = np.where(
        courses, albedo * _courses(up, across, np.where(kind == "stone", 0.36, 0.1)), albedo
    )
    stones, tilt = _setts(point)
    paving = kind == "paving"
    albedo = np.where(paving, albedo * stones, albedo)
    normal = np.where(paving[:, None], normal + 0.22 * tilt, normal)
    matt, shine = _lamplight(point, normal, ray)
    night = 0.010 + 0.030 * np.clip(normal[:, 1], 0, 1) + 0.006 * np.clip(normal[:, 0], 0, 1)
    damp = np.where(flat, 0.9, 0.12) * np.isin(
        kind, ["paving", "stone", "trim", "rail", "thwart", "umbrella"]
    )
    light = albedo * (matt + night) + damp * shine
    light = np.where(kind == "lantern", 6.0, light)
    return np.where(
        kind == "lit", 1.25 * _lit(own, point), np.where(kind == "glass", 0.012, light)
    ).astype(np.float32)


def _lamplight(point: Floats, normal: Floats, ray: Floats) -> tuple[Floats, Floats]:
    """Dull light and wet shine of all lamps; the walker stands in its way."""
    matt, shine = np.zeros(len(point), np.float32), np.zeros(len(point), np.float32)
    for number, lamp in enumerate(night_town.LAMPS):
        to = np.array(lamp, np.float32) - point
        distance = np.sqrt(np.einsum("ij,ij->i", to, to))
        to /= distance[:, None]
        power = (8.5 if number != 3 else 6.0) / (distance**2.15 + 0.6)
        if number in (0, 1):
            power = power * _past_walker(point, lamp)
        facing = np.einsum("ij,ij->i", normal, to)
        matt += power * np.clip(facing, 0, 1)
        half = to - ray
        half /= np.linalg.norm(half, axis=1)[:, None]
        gleam = np.clip(np.einsum("ij,ij->i", half, normal), 0, 1) ** 90
        shine += 2.6 * power * gleam * (facing > 0)
    return matt, shine


def _past_walker(point: Floats, lamp: tuple[float, float, float]) -> Floats:
    """0 where the walker's coat or umbrella hides the lamp."""
    dx, dz = lamp[0] - point[:, 0], lamp[2] - point[:, 2]
    t = ((night_town.WALKER[0] - point[:, 0]) * dx + (night_town.WALKER[1] - point[:, 2]) * dz) / (
        dx**2 + dz**2 + 1e-6
    )
    t = np.clip(t, 0.02, 0.98)
    gap = np.hypot(
        point[:, 0] + t * dx - night_town.WALKER[0], point[:, 2] + t * dz - night_town.WALKER[1]
    )
    height = point[:, 1] + t * (lamp[1] - point[:, 1]) - night_town.QUAY
    body = np.where(height < 1.72, 0.26, np.where(height < 2.15, 0.58, 0.0))
    return np.clip((gap - body) / 0.08 + 0.5, 0.0, 1) ** 1.5


def _lit(own: NDArray[np.int32], point: Floats) -> Floats:
    """Lit panes: each room its own strength, a curtain's folds over it."""
    key = np.sin(own * 12.9898) * 43758.5453
    key = key - np.floor(key)
    fold = 0.9 + 0.1 * np.sin(point[:, 2] * 31 + point[:, 0] * 37)
    return (0.35 + 0.75 * key) * fold


def _courses(up: Floats, across: Floats, tall: Floats) -> Floats:
    course = np.floor(up / tall)
    wide = tall * 2.3
    place = across / wide + 0.5 * (course % 2) + 0.1 * np.sin(course * 5.1)
    key = np.sin(np.floor(place) * 12.99 + course * 78.2) * 43758.5
    edge = np.minimum(
        np.minimum(place % 1, 1 - place % 1) * wide,
        np.minimum(up / tall % 1, 1 - up / tall % 1) * tall,
    )
    return (0.8 + 0.4 * (key - np.floor(key))) * (1 - 0.5 * np.exp(-((edge / 0.014) ** 2)))


def _setts(point: Floats) -> tuple[Floats, Floats]:
    """Paving setts: own tone, and the tilt of their rounded tops."""
    row = np.floor(point[:, 2] / 0.22)
    u = point[:, 0] / 0.30 + 0.5 * (row % 2)
    key = np.sin(np.floor(u) * 12.99 + row * 78.2) * 43758.5
    key = key - np.floor(key)
    dx, dz = u % 1 - 0.5, point[:, 2] / 0.22 % 1 - 0.5
    joint = 1 - 0.6 * np.exp(-((np.minimum(0.5 - np.abs(dx), 0.5 - np.abs(dz)) / 0.08) ** 2))
    tilt = np.stack(
        [dx + 0.4 * (key - 0.5), np.zeros_like(dx), dz + 0.3 * np.sin(key * 40)], axis=-1
    )
    return (0.75 + 0.5 * key) * joint, tilt.astype(np.float32)
