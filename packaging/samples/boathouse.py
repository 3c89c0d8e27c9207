"""An old boathouse and a tree: pen and three washes."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from samples import boathouse_lines, houses, paper, pen, solid
from samples.boathouse_model import EYE, FOCAL, HORIZON, H, W, bank_line, model, ridge
from samples.boathouse_tree import Tree
from scipy import ndimage

Floats = NDArray[np.float32]
SUN = np.array([-0.62, 0.66, -0.42])


def draw(scale: float = 1.0) -> Floats:
    """Tone of each pixel, 0 black to 1 white; 2000 by 1500, made smaller at a smaller scale."""
    rng = np.random.default_rng(77)
    camera = solid.Camera(W, H, FOCAL, (0.5 * W, HORIZON), EYE)
    house = model()
    depth, ids = solid.view(house.faces, camera)
    dark, kind = _darkness(house, camera, depth, ids)
    still = _mirror(house, camera)
    wet = (ids < 0) & (np.arange(H)[:, None] > HORIZON + 14) & ~_bank()
    tree = Tree(rng)
    dark = np.where(wet, np.clip(0.10 + 0.72 * _rippled(still), 0, 1), dark)
    dark = np.maximum(dark, 0.6 * tree.shade * wet)
    dark = np.maximum(dark, _open_water() * wet)
    sheet = _washes(dark, ids, tree)
    strokes = boathouse_lines.far_shore(rng, ids, tree)
    strokes += boathouse_lines.hatching(rng, dark, kind, wet, tree)
    strokes += boathouse_lines.edges(rng, house, camera, depth)
    strokes += boathouse_lines.boards(rng, house, camera, depth, ids)
    strokes += tree.strokes
    strokes += boathouse_lines.shore(rng)
    ink = pen.inked(strokes, (H, W))
    tone = sheet * (0.06 + 0.94 * ink)
    tone = paper.on_paper(0.03 + 0.94 * tone, 8, granulation=0.02, tooth=0.006)
    return (
        tone
        if scale >= 1
        else ndimage.zoom(ndimage.gaussian_filter(tone, 0.5 / scale), scale, order=1)
    )


def _darkness(
    house: houses.Street, camera: solid.Camera, depth: Floats, ids: NDArray[np.int32]
) -> tuple[Floats, NDArray[np.str_]]:
    """How dark the drawing should be, 0..1, and what stands at each pixel."""
    dark = np.zeros((camera.height, camera.width), np.float32)
    kind = np.full(dark.shape, "air", dtype="<U8")
    seen = np.nonzero(ids >= 0)
    point = camera.points(np.where(np.isfinite(depth), depth, 1))[seen]
    normal = solid.normals(house.faces)[ids[seen]]
    ray = point - np.array(camera.eye, np.float32)
    normal *= -np.sign(np.einsum("ij,ij->i", normal, ray))[:, None]
    own = np.array(house.kinds)[ids[seen]]
    towards = SUN / np.linalg.norm(SUN)
    facing = np.clip(normal @ towards.astype(np.float32), 0, 1)
    sun = facing * solid.open_to(point, house.faces, tuple(SUN), size=2200, slack=0.05)
    dome = np.zeros(len(point), np.float32)
    for k in range(14):
        up, turn = (k + 0.5) / 14, k * 2.399963
        flat = np.sqrt(1 - up * up)
        aim = (flat * np.cos(turn), up, flat * np.sin(turn))
        dome += (
            np.clip(normal @ np.array(aim, np.float32), 0, 1)
            * solid.open_to(point, house.faces, aim, size=600, slack=0.1)
            / 7
        )
    base = {
        "tile": 0.5,
        "board": 0.62,
        "hole": 0.07,
        "glass": 0.12,
        "post": 0.42,
        "hull": 0.55,
        "inside": 0.36,
        "rail": 0.85,
        "thwart": 0.8,
        "plank": 0.75,
        "brick": 0.5,
        "wood": 0.4,
    }
    albedo = np.array([base.get(k, 0.6) for k in np.unique(own)], np.float32)[
        np.unique(own, return_inverse=True)[1]
    ]
    light = albedo * (1.05 * sun + 0.42 * dome + 0.05)
    dark[seen] = 1 - np.clip(light, 0, 1) ** 0.55
    kind[seen] = own
    return dark, kind


def _mirror(house: houses.Street, camera: solid.Camera) -> Floats:
    """Darkness of the still mirror below the water line."""
    low = camera.mirrored()
    depth, ids = solid.view(house.faces, low)
    _, y = camera.rays()
    height = low.eye[1] + y * np.where(np.isfinite(depth), depth, 0)
    dark, _ = _darkness(house, low, depth, np.where(height > 0, ids, -1))
    return dark


def _rippled(dark: Floats) -> Floats:
    """The mirror broken into level strokes, more so towards the eye."""
    rows, columns = np.indices(dark.shape, dtype=np.float32)
    near = np.clip((rows - HORIZON) / (H - HORIZON), 0, 1)
    wave = paper.drift(dark.shape, 61, fall=1.6, coarse=0.012, stretch=(0.5, 4.0))
    return ndimage.map_coordinates(
        dark,
        [2 * HORIZON - rows + 10 * near * wave, columns + (6 + 34 * near) * wave],
        order=1,
        mode="nearest",
    )


def _open_water() -> Floats:
    """Darkness of the lake itself: the far shore's reflection, cat's-paws, the near shallows."""
    rows, columns = np.indices((H, W), dtype=np.float32)
    below = rows - HORIZON - 14
    wave = paper.drift((H, W), 62, fall=1.5, coarse=0.012, stretch=(1.0, 9.0))
    streak = paper.drift((H, W), 63, fall=1.8, coarse=0.004, stretch=(1.0, 8.0))
    shore = 1.5 * ridge(columns[0])[None, :]
    mirrored = 0.44 * np.clip((shore - below + 9 * wave) / 10, 0, 1)
    paws = np.clip(0.30 + 0.17 * streak - 0.0005 * below, 0, 0.6) * (below > 30)
    return np.maximum(mirrored, paws)


def _bank() -> NDArray[np.bool_]:
    """The near bank at the lower left."""
    rows, columns = np.indices((H, W), dtype=np.float32)
    line = bank_line(columns[0])
    return rows > line[None, :]


def _washes(dark: Floats, ids: NDArray[np.int32], tree: Tree) -> Floats:
    """Three flat washes, each laid with a loaded brush over what is dark enough."""
    soft = ndimage.gaussian_filter(dark, 5)
    soft = np.maximum(soft, ndimage.gaussian_filter(tree.mass, 9) * 0.8)
    rows, columns = np.indices(dark.shape, dtype=np.float32)
    bank = _bank()
    soft = np.where(bank, np.maximum(soft, 0.36 + 0.22 * (rows - 985) / 500), soft)
    far = (rows > HORIZON - ridge(columns[0])[None, :]) & (rows < HORIZON + 15) & (ids < 0)
    soft = np.where(far, np.maximum(soft, 0.34), soft)
    stray = paper.drift(dark.shape, 51, fall=1.5, coarse=0.004) * 0.03
    sky = paper.drift(dark.shape, 52, fall=2.0, coarse=0.0015, stretch=(1.0, 2.2))
    open_ = (ids < 0) & (rows < HORIZON) & ~far
    cloud = 0.9 * np.clip(sky + 0.2 + 0.9 * (0.35 - rows / HORIZON), 0, 2) / 2
    tone = np.ones_like(dark)
    for level, strength, seed in ((0.30, 0.16, 53), (0.52, 0.26, 54), (0.72, 0.38, 55)):
        field = ndimage.gaussian_filter(soft + stray, 1.5)
        wash = np.clip((field - level) / 0.03 + 0.5, 0, 1)
        flow = paper.drift(dark.shape, seed, fall=1.8, coarse=0.003)
        rim = np.clip(wash - ndimage.gaussian_filter(wash, 5), 0, 1)
        body = strength * wash * (1 + 0.16 * flow) + 0.20 * strength * rim * 2
        tone *= 1 - np.clip(body, 0, 0.9)
    veil = np.clip(cloud * 2.2 - 0.35, 0, 1) * open_
    rim = np.clip(veil - ndimage.gaussian_filter(veil, 6), 0, 1)
    tone *= 1 - 0.20 * ndimage.gaussian_filter(veil, 2) - 0.10 * rim
    return np.clip(tone, 0.05, 1).astype(np.float32)
