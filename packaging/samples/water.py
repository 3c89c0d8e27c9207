"""Water at y = 0: the slopes of its waves and the broken mirror they make."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from samples import paper, solid

Floats = NDArray[np.float32]


@dataclass(frozen=True)
class Sea:
    """Waves from short to long (metres), their steepness, direction (radians, from x) and seed."""

    short: float
    long: float
    steep: float
    heading: float
    spread: float
    seed: int
    count: int = 46


def waves(
    sea: Sea, x: Floats, z: Floats, foot_x: Floats, foot_z: Floats
) -> tuple[Floats, Floats, Floats]:
    """Slopes at (x, z); waves finer than a pixel's foot on the water become roughness instead."""
    rng = np.random.default_rng(sea.seed)
    slope_x, slope_z, rough = np.zeros_like(x), np.zeros_like(x), np.zeros_like(x)
    gust = paper.lookup(
        paper.drift((512, 512), sea.seed + 50, fall=1.8, coarse=0.006), z * 1.1, x * 1.6
    )
    gust = np.clip(1 + 0.42 * gust, 0.25, 2.2)
    for _ in range(sea.count):
        length = np.exp(rng.uniform(np.log(sea.short), np.log(sea.long)))
        angle = rng.normal(sea.heading, sea.spread)
        kx, kz = 2 * np.pi / length * np.cos(angle), 2 * np.pi / length * np.sin(angle)
        steep = sea.steep * (length / 3) ** -0.12
        blur = np.exp(-0.06 * ((kx * foot_x) ** 2 + (kz * foot_z) ** 2))
        wave = steep * np.cos(kx * x + kz * z + rng.uniform(0, 7)) * blur
        slope_x += wave * np.cos(angle)
        slope_z += wave * np.sin(angle)
        rough += steep**2 * (1 - blur**2) / 2
    return slope_x * gust, slope_z * gust, np.sqrt(rough) * gust


@dataclass(frozen=True)
class Glance:
    """Rays thrown back by the water, for one metre of depth, and how much of them it throws."""

    x: Floats
    y: Floats
    share: Floats
    rough: Floats


def glance(sea: Sea, camera: solid.Camera, x: Floats, y: Floats) -> tuple[Glance, Floats]:
    """The mirror's rays for rays (x, y) that go down to the water, and the water's depth."""
    eye = camera.eye[1]
    z = eye / np.maximum(-y, 1e-4)
    slope_x, slope_z, rough = waves(
        sea, camera.eye[0] + x * z, z, z / camera.focal, z * z / (eye * camera.focal)
    )
    nx, nz = -0.9 * slope_x, -0.9 * slope_z
    dot = x * nx + y + nz
    back = np.maximum(1 - 2 * dot * nz, 0.2)
    length = np.sqrt(x**2 + y**2 + 1)
    cosine = np.clip(-dot / length / np.sqrt(1 + nx**2 + nz**2), 0.02, 1)
    share = 0.03 + 0.97 * (1 - cosine) ** 4.2
    return Glance((x - 2 * dot * nx) / back, np.abs((y - 2 * dot) / back), share, rough), z


def broken(
    camera: solid.Camera,
    seen: Glance,
    x: Floats,
    up: Floats,
    z: Floats,
    mirror: Floats,
    mirror_depth: Floats,
    beyond: Floats,
) -> Floats:
    """What the mirrored picture shows along the thrown rays; `beyond` where it shows nothing.

    (x, up) are the rays a still mirror would throw. A thing at the mirrored depth d, seen from
    water at depth z, moves by the share 1 - z / d of the ray's own turn.
    """
    cx, cy = camera.vanishing
    best = beyond
    for share in (0.35, 0.75):
        u = x + (seen.x - x) * share
        v = up + (seen.y - up) * share
        i = np.clip(np.rint(cy - v * camera.focal - 0.5), 0, camera.height - 1).astype(np.int32)
        j = np.clip(np.rint(u * camera.focal + cx - 0.5), 0, camera.width - 1).astype(np.int32)
        far = mirror_depth[i, j]
        hit = np.isfinite(far) & (far > z * 0.98)
        true = np.clip(1 - z / np.maximum(far, z), 0, 1)
        best = np.where(hit & (np.abs(true - share) < 0.4), mirror[i, j], best)
    return best
