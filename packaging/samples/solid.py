"""Solids seen by an upright camera: depth, faces, and which light reaches a point.

World axes: x to the right, y up, z away from the eye; lengths in metres. The camera looks
along z and is shifted, never tilted, so uprights stay upright as an architect draws them.
A face is an (n, 3) array of the corners of a flat convex polygon.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float32]
Ints = NDArray[np.int32]

NEAR = 0.05
NOTHING = -1


@dataclass(frozen=True)
class Camera:
    """Width and height in pixels, focal length in pixels, vanishing point, eye in metres."""

    width: int
    height: int
    focal: float
    vanishing: tuple[float, float]
    eye: tuple[float, float, float]

    def rays(self) -> tuple[Floats, Floats]:
        """Sideways and upward part of each pixel's ray for one metre of depth."""
        x = (np.arange(self.width, dtype=np.float32) + 0.5 - self.vanishing[0]) / self.focal
        y = -(np.arange(self.height, dtype=np.float32) + 0.5 - self.vanishing[1]) / self.focal
        return np.broadcast_to(x, (self.height, self.width)), np.broadcast_to(
            y[:, None], (self.height, self.width)
        )

    def mirrored(self) -> Camera:
        """The same camera below the level y = 0, as a still water's mirror sees it."""
        return Camera(
            self.width,
            self.height,
            self.focal,
            self.vanishing,
            (self.eye[0], -self.eye[1], self.eye[2]),
        )

    def points(self, depth: Floats) -> Floats:
        """World point of each pixel at the given depth, (h, w, 3)."""
        x, y = self.rays()
        e = self.eye
        return np.stack([e[0] + x * depth, e[1] + y * depth, e[2] + depth], axis=-1)


def view(faces: list[NDArray[np.float64]], camera: Camera) -> tuple[Floats, Ints]:
    """Nearest depth (inf where there is nothing) and face number of each pixel."""
    nearness = np.zeros((camera.height, camera.width), np.float32)
    ids = np.full(nearness.shape, NOTHING, np.int32)
    for number, face in enumerate(faces):
        seen = _before_the_eye(face - np.array(camera.eye))
        if len(seen) < 3:
            continue
        near = 1.0 / seen[:, 2]
        x = camera.vanishing[0] + camera.focal * seen[:, 0] * near
        y = camera.vanishing[1] - camera.focal * seen[:, 1] * near
        _scan(np.column_stack([x, y]), near, nearness, ids, number)
    with np.errstate(divide="ignore"):
        return np.where(nearness > 0, 1 / nearness, np.inf).astype(np.float32), ids


def normals(faces: list[NDArray[np.float64]]) -> Floats:
    """Unit normal of each face, (n, 3), by the order of its corners."""
    found = []
    for face in faces:
        n = np.cross(face[1] - face[0], face[2] - face[0])
        found.append(n / max(float(np.linalg.norm(n)), 1e-9))
    return np.array(found, np.float32)


def open_to(
    points: Floats,
    faces: list[NDArray[np.float64]],
    towards: tuple[float, float, float],
    *,
    size: int = 1024,
    slack: float = 0.05,
) -> Floats:
    """Whether far light from a direction reaches each point: 0..1, edges softened by a pixel."""
    basis = _across(towards)
    flat = [face @ basis.T for face in faces]
    everything = np.concatenate(flat)
    low, high = everything.min(0), everything.max(0)
    scale = (size - 2) / max(high[0] - low[0], high[1] - low[1])
    shape = (int((high[1] - low[1]) * scale) + 3, int((high[0] - low[0]) * scale) + 3)
    nearness = np.full(shape, -1e9, np.float32)
    ids = np.full(shape, NOTHING, np.int32)
    for number, face in enumerate(flat):
        _scan((face[:, :2] - low[:2]) * scale + 1, face[:, 2], nearness, ids, number)
    local = points @ basis.T.astype(np.float32)
    u = (local[..., 0] - low[0]) * scale + 0.5
    v = (local[..., 1] - low[1]) * scale + 0.5
    np.nan_to_num(u, copy=False, posinf=0, neginf=0)
    np.nan_to_num(v, copy=False, posinf=0, neginf=0)
    i = np.clip(np.floor(u), 0, shape[1] - 2).astype(np.int32)
    j = np.clip(np.floor(v), 0, shape[0] - 2).astype(np.int32)
    a = np.clip(u - i, 0, 1).astype(np.float32)
    b = np.clip(v - j, 0, 1).astype(np.float32)
    depth = local[..., 2] + slack
    top = (nearness[j, i] < depth) * (1 - a) + (nearness[j, i + 1] < depth) * a
    low_row = (nearness[j + 1, i] < depth) * (1 - a) + (nearness[j + 1, i + 1] < depth) * a
    return (top * (1 - b) + low_row * b).astype(np.float32)


def box(
    low: tuple[float, float, float], high: tuple[float, float, float]
) -> list[NDArray[np.float64]]:
    """The six faces of an upright box, seen from outside."""
    (a, b, c), (d, e, f) = low, high
    return [
        np.array(corners, float)
        for corners in (
            [(a, b, c), (a, e, c), (d, e, c), (d, b, c)],
            [(a, b, f), (d, b, f), (d, e, f), (a, e, f)],
            [(a, b, c), (a, b, f), (a, e, f), (a, e, c)],
            [(d, b, c), (d, e, c), (d, e, f), (d, b, f)],
            [(a, e, c), (a, e, f), (d, e, f), (d, e, c)],
            [(a, b, c), (d, b, c), (d, b, f), (a, b, f)],
        )
    ]


def turned(
    centre: tuple[float, float], rings: list[tuple[float, float]], sides: int = 24
) -> list[NDArray[np.float64]]:
    """A body turned about an upright axis at (x, z): rings of (height, radius), upwards."""
    angles = np.linspace(0, 2 * np.pi, sides + 1)
    x, z = centre[0] + 0 * angles, centre[1] + 0 * angles
    faces = []
    for (y0, r0), (y1, r1) in pairwise(rings):
        low = np.column_stack([x + r0 * np.cos(angles), y0 + 0 * x, z + r0 * np.sin(angles)])
        top = np.column_stack([x + r1 * np.cos(angles), y1 + 0 * x, z + r1 * np.sin(angles)])
        faces += [np.array([low[k], top[k], top[k + 1], low[k + 1]]) for k in range(sides)]
    return faces


def _across(towards: tuple[float, float, float]) -> NDArray[np.float64]:
    """Rows: two directions across the light, and the one towards it."""
    w = np.array(towards, float)
    w /= np.linalg.norm(w)
    helper = np.array([0.0, 1.0, 0.0]) if abs(w[1]) < 0.9 else np.array([1.0, 0.0, 0.0])
    u = np.cross(helper, w)
    u /= np.linalg.norm(u)
    return np.array([u, np.cross(w, u), w])


def _before_the_eye(face: NDArray[np.float64]) -> NDArray[np.float64]:
    """The part of a polygon in front of the near plane."""
    if (face[:, 2] >= NEAR).all():
        return face
    kept = []
    for here, there in zip(face, np.roll(face, -1, axis=0), strict=True):
        if here[2] >= NEAR:
            kept.append(here)
        if (here[2] >= NEAR) != (there[2] >= NEAR):
            kept.append(here + (there - here) * (NEAR - here[2]) / (there[2] - here[2]))
    return np.array(kept).reshape(-1, 3)


def _scan(
    corners: NDArray[np.float64],
    near: NDArray[np.float64],
    nearness: Floats,
    ids: Ints,
    number: int,
) -> None:
    """Paint one projected polygon where it is nearer than what stands there."""
    height, width = nearness.shape
    x0, y0 = np.maximum(np.floor(corners.min(0)).astype(int), 0)
    x1 = min(int(np.ceil(corners[:, 0].max())) + 1, width)
    y1 = min(int(np.ceil(corners[:, 1].max())) + 1, height)
    if x1 <= x0 or y1 <= y0:
        return
    a, b = corners, np.roll(corners, -1, axis=0)
    area = float(np.sum(a[:, 0] * b[:, 1] - b[:, 0] * a[:, 1]))
    if abs(area) < 1e-6:
        return
    x = (np.arange(x0, x1) + 0.5)[None, :]
    y = (np.arange(y0, y1) + 0.5)[:, None]
    inside = np.ones((y1 - y0, x1 - x0), bool)
    for p, q in zip(a, b, strict=True):
        side = (q[0] - p[0]) * (y - p[1]) - (q[1] - p[1]) * (x - p[0])
        inside &= (side * np.sign(area)) >= 0
    centre = corners.mean(0)
    across, down, level = _plane(corners - centre, near)
    depth = (across * (x - centre[0]) + down * (y - centre[1]) + level).astype(np.float32)
    here = nearness[y0:y1, x0:x1]
    wins = inside & (depth > here)
    here[wins] = depth[wins]
    ids[y0:y1, x0:x1][wins] = number


def _plane(corners: NDArray[np.float64], near: NDArray[np.float64]) -> tuple[float, float, float]:
    """Slopes and level of a quantity that is linear over a flat polygon."""
    (x0, y0), (x1, y1), (x2, y2) = corners[0], corners[1], corners[2]
    area = (x1 - x0) * (y2 - y0) - (x2 - x0) * (y1 - y0)
    if abs(area) < 1e-3:
        terms = np.column_stack([corners, np.ones(len(corners))])
        a, b, c = np.linalg.lstsq(terms, near, rcond=None)[0]
        return float(a), float(b), float(c)
    d1, d2 = near[1] - near[0], near[2] - near[0]
    a = (d1 * (y2 - y0) - d2 * (y1 - y0)) / area
    b = (d2 * (x1 - x0) - d1 * (x2 - x0)) / area
    return float(a), float(b), float(near[0] - a * x0 - b * y0)
