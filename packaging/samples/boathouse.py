"""An old boathouse under a willow: pen and three washes."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage

from samples import boats, houses, paper, pen, solid

Floats = NDArray[np.float32]

EYE = (0.0, 2.7, 0.0)
PLACE, TURN = (2.7, 13.6), 0.62
SUN = np.array([-0.62, 0.66, -0.42])
W, H = 2000, 1500
HORIZON = 0.52 * H
FOCAL = 1650.0


def draw(scale: float = 1.0) -> Floats:
    """Tone of each pixel, 0 black to 1 white; 2000 by 1500, made smaller at a smaller scale."""
    rng = np.random.default_rng(77)
    camera = solid.Camera(W, H, FOCAL, (0.5 * W, HORIZON), EYE)
    model = _model()
    depth, ids = solid.view(model.faces, camera)
    dark, kind = _darkness(model, camera, depth, ids)
    still = _mirror(model, camera)
    wet = (ids < 0) & (np.arange(H)[:, None] > HORIZON + 14) & ~_bank()
    tree = _Tree(rng)
    dark = np.where(wet, np.clip(0.10 + 0.72 * _rippled(still), 0, 1), dark)
    dark = np.maximum(dark, 0.6 * tree.shade * wet)
    dark = np.maximum(dark, _open_water() * wet)
    sheet = _washes(dark, wet, ids, tree)
    strokes = _far_shore(rng, ids, tree)
    strokes += _hatching(rng, dark, kind, wet, tree)
    strokes += _edges(rng, model, camera, depth)
    strokes += _boards(rng, model, camera, depth, ids)
    strokes += tree.strokes
    strokes += _shore(rng)
    ink = pen.inked(strokes, (H, W))
    tone = sheet * (0.06 + 0.94 * ink)
    tone = paper.on_paper(0.03 + 0.94 * tone, 8, granulation=0.02, tooth=0.006)
    return tone if scale >= 1 else ndimage.zoom(ndimage.gaussian_filter(tone, 0.5 / scale), scale, order=1)


# ---------------------------------------------------------------- the model


def _model() -> houses.Street:
    s = houses.Street()
    door: tuple[houses.Opening, ...] = ((0.95, 3.45, -0.4, 2.75, "hole"),)
    # corners in the boathouse's own space: front at z = -3.4
    s.wall((2.2, -3.4), (-2.2, -3.4), 0.35, 3.0, (( 0.95, 3.45, 0.35, 2.75, "hole"),), "board", 0.18)
    side: tuple[houses.Opening, ...] = ((1.5, 2.4, 1.5, 2.4, "glass"), (4.4, 5.3, 1.5, 2.4, "glass"))
    s.wall((2.2, 3.4), (2.2, -3.4), 0.35, 3.0, side, "board", 0.12)
    s.wall((-2.2, -3.4), (-2.2, 3.4), 0.35, 3.0, (), "board")
    s.gable((-2.2, 2.2), (-3.4, 3.4), 3.0, 5.15, along_z=True, over=0.42)
    for x in (-2.1, -0.98, 0.98, 2.1):
        s.add(solid.box((x - 0.14, -0.6, -3.42), (x + 0.14, 0.4, -3.12)), "post")
    for z in (-1.4, 0.8, 3.1):
        s.add(solid.box((1.95, -0.6, z - 0.16), (2.23, 0.4, z + 0.16)), "post")
    s.add(solid.box((-2.2, 0.3, -3.5), (-0.95, 0.42, -3.3)), "trim")
    s.add(solid.box((1.15, 4.0, 1.2), (1.6, 5.5, 1.65)), "brick")
    s.add([np.array([(-2.1, -0.3, -3.2), (2.1, -0.3, -3.2), (2.1, 0.5, 3.2), (-2.1, 0.5, 3.2)])], "hole")
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


def _darkness(
    model: houses.Street, camera: solid.Camera, depth: Floats, ids: NDArray[np.int32]
) -> tuple[Floats, NDArray[np.str_]]:
    """How dark the drawing should be, 0..1, and what stands at each pixel."""
    dark = np.zeros((camera.height, camera.width), np.float32)
    kind = np.full(dark.shape, "air", dtype="<U8")
    seen = np.nonzero(ids >= 0)
    point = camera.points(np.where(np.isfinite(depth), depth, 1))[seen]
    normal = solid.normals(model.faces)[ids[seen]]
    ray = point - np.array(camera.eye, np.float32)
    normal *= -np.sign(np.einsum("ij,ij->i", normal, ray))[:, None]
    own = np.array(model.kinds)[ids[seen]]
    towards = SUN / np.linalg.norm(SUN)
    facing = np.clip(normal @ towards.astype(np.float32), 0, 1)
    sun = facing * solid.open_to(point, model.faces, tuple(SUN), size=2200, slack=0.05)
    dome = np.zeros(len(point), np.float32)
    for k in range(14):
        up, turn = (k + 0.5) / 14, k * 2.399963
        flat = np.sqrt(1 - up * up)
        aim = (flat * np.cos(turn), up, flat * np.sin(turn))
        dome += np.clip(normal @ np.array(aim, np.float32), 0, 1) * solid.open_to(
            point, model.faces, aim, size=600, slack=0.1
        ) / 7
    base = {"tile": 0.5, "board": 0.62, "hole": 0.07, "glass": 0.12, "post": 0.42, "hull": 0.55,
            "inside": 0.36, "rail": 0.85, "thwart": 0.8, "plank": 0.75, "brick": 0.5, "wood": 0.4}
    albedo = np.array([base.get(k, 0.6) for k in np.unique(own)], np.float32)[np.unique(own, return_inverse=True)[1]]
    light = albedo * (1.05 * sun + 0.42 * dome + 0.05)
    dark[seen] = 1 - np.clip(light, 0, 1) ** 0.55
    kind[seen] = own
    return dark, kind


def _mirror(model: houses.Street, camera: solid.Camera) -> Floats:
    """Darkness of the still mirror below the water line."""
    low = camera.mirrored()
    depth, ids = solid.view(model.faces, low)
    _, y = camera.rays()
    height = low.eye[1] + y * np.where(np.isfinite(depth), depth, 0)
    dark, _ = _darkness(model, low, depth, np.where(height > 0, ids, -1))
    return dark


def _rippled(dark: Floats) -> Floats:
    """The mirror broken into level strokes, more so towards the eye."""
    rows, columns = np.indices(dark.shape, dtype=np.float32)
    near = np.clip((rows - HORIZON) / (H - HORIZON), 0, 1)
    wave = paper.drift(dark.shape, 61, fall=1.6, coarse=0.012, stretch=(0.5, 4.0))
    return ndimage.map_coordinates(
        dark, [2 * HORIZON - rows + 10 * near * wave, columns + (6 + 34 * near) * wave], order=1, mode="nearest"
    )


def _open_water() -> Floats:
    """Darkness of the lake itself: the far shore's reflection, cat's-paws, the near shallows."""
    rows, columns = np.indices((H, W), dtype=np.float32)
    below = rows - HORIZON - 14
    wave = paper.drift((H, W), 62, fall=1.5, coarse=0.012, stretch=(1.0, 9.0))
    streak = paper.drift((H, W), 63, fall=1.8, coarse=0.004, stretch=(1.0, 8.0))
    shore = 1.5 * _ridge(columns[0])[None, :]
    mirrored = 0.44 * np.clip((shore - below + 9 * wave) / 10, 0, 1)
    paws = np.clip(0.30 + 0.17 * streak - 0.0005 * below, 0, 0.6) * (below > 30)
    return np.maximum(mirrored, paws)


def _bank() -> NDArray[np.bool_]:
    """The near bank at the lower left."""
    rows, columns = np.indices((H, W), dtype=np.float32)
    line = _bank_line(columns[0])
    return rows > line[None, :]


def _bank_line(x: NDArray[np.float32] | NDArray[np.float64]) -> NDArray[np.float64]:
    t = np.clip((x - 60) / 800, 0, 2.6)
    return 985 + 14 * np.sin(x / 55) + 9 * np.sin(x / 23 + 1) + 330 * t**1.25


# ---------------------------------------------------------------- washes


def _washes(dark: Floats, wet: NDArray[np.bool_], ids: NDArray[np.int32], tree: _Tree) -> Floats:
    """Three flat washes, each laid with a loaded brush over what is dark enough."""
    soft = ndimage.gaussian_filter(dark, 5)
    soft = np.maximum(soft, ndimage.gaussian_filter(tree.mass, 9) * 0.8)
    rows, columns = np.indices(dark.shape, dtype=np.float32)
    bank = _bank()
    soft = np.where(bank, np.maximum(soft, 0.36 + 0.22 * (rows - 985) / 500), soft)
    far = (rows > HORIZON - _ridge(columns[0])[None, :]) & (rows < HORIZON + 15) & (ids < 0)
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


def _ridge(x: NDArray[np.float32] | NDArray[np.float64]) -> NDArray[np.float64]:
    """Height of the far trees above the horizon, pixels."""
    return (
        26 + 12 * np.sin(x / 140 + 1) + 7 * np.abs(np.sin(x / 37)) + 5 * np.abs(np.sin(x / 13 + 2))
        + 36 * np.exp(-(((x - 1690) / 190) ** 2)) + 16 * np.exp(-(((x - 860) / 90) ** 2))
    )


# ---------------------------------------------------------------- lines


def _hatching(
    rng: np.random.Generator, dark: Floats, kind: NDArray[np.str_], wet: NDArray[np.bool_], tree: _Tree
) -> list[pen.Stroke]:
    solidly = (kind != "air") & ~tree.covers
    body = np.where(solidly, ndimage.gaussian_filter(dark, 1.0), 0).astype(np.float32)
    roof = np.isin(kind, ["tile"])
    strokes = pen.hatch(rng, np.where(roof, 0, body), 2.25, spacing=6.0, least=0.40, most=0.74, width=2.0, longest=90)
    strokes += pen.hatch(rng, np.where(roof, 0, body), 1.72, spacing=6.0, least=0.60, most=0.82, width=2.0, longest=80)
    strokes += pen.hatch(rng, body, 0.35, spacing=5.5, least=0.72, most=0.88, width=2.3, longest=90)
    strokes += pen.hatch(rng, body, 2.75, spacing=5.0, least=0.80, most=0.92, width=2.6, longest=80)
    strokes += pen.hatch(rng, np.where(roof, body, 0), 0.98, spacing=6.5, least=0.26, most=0.72, width=2.0, longest=70, curve=0.5)
    water = np.where(wet, dark, 0).astype(np.float32)
    strokes += pen.hatch(rng, water, 0.0, spacing=8.0, least=0.30, most=0.72, width=2.0, longest=110, curve=0.5)
    strokes += pen.hatch(rng, water, 0.03, spacing=6.5, least=0.52, most=0.86, width=2.3, longest=90, curve=0.4)
    return strokes


def _edges(
    rng: np.random.Generator, model: houses.Street, camera: solid.Camera, depth: Floats
) -> list[pen.Stroke]:
    """Outlines: where faces of the model end or fold, as far as they can be seen."""
    strokes = []
    seen: dict[tuple[tuple[float, ...], ...], list[int]] = {}
    for number, face in enumerate(model.faces):
        for p, q in zip(face, np.roll(face, -1, axis=0), strict=True):
            a, b = tuple(np.round(p, 3)), tuple(np.round(q, 3))
            seen.setdefault((min(a, b), max(a, b)), []).append(number)
    normal = solid.normals(model.faces)
    for (a, b), owners in seen.items():
        kinds = {model.kinds[k] for k in owners}
        flat = len(owners) > 1 and all(abs(normal[owners[0]] @ normal[k]) > 0.93 for k in owners[1:])
        if flat and len(kinds) == 1:
            continue
        if kinds <= {"board"} and len(owners) == 1 and abs(a[0] - b[0]) + abs(a[2] - b[2]) > 1e-3 and 0.5 < a[1] < 2.9:
            continue
        heavy = 3.1 if kinds & {"tile", "rail", "hole", "board"} else 2.3
        strokes += _visible(rng, np.array(a), np.array(b), camera, depth, heavy)
    return strokes


def _visible(
    rng: np.random.Generator, a: NDArray[np.float64], b: NDArray[np.float64],
    camera: solid.Camera, depth: Floats, width: float, *, overshoot: float = 5.0,
) -> list[pen.Stroke]:
    """The seen parts of a straight line in space, drawn with the pen."""
    t = np.linspace(0, 1, 90)[:, None]
    p = a + (b - a) * t - np.array(camera.eye)
    x = camera.vanishing[0] + camera.focal * p[:, 0] / p[:, 2]
    y = camera.vanishing[1] - camera.focal * p[:, 1] / p[:, 2]
    ok = (x > 1) & (x < W - 2) & (y > 1) & (y < H - 2) & (p[:, 1] + camera.eye[1] > -0.02)
    i, j = np.clip(y, 1, H - 2).astype(int), np.clip(x, 1, W - 2).astype(int)
    around = np.max([depth[i + di, j + dj] for di in (-1, 0, 1) for dj in (-1, 0, 1)], axis=0)
    ok &= p[:, 2] < around + 0.06
    edges = np.flatnonzero(np.diff(np.concatenate([[0], ok.astype(int), [0]])))
    strokes = []
    for start, stop in zip(edges[::2], edges[1::2], strict=True):
        if stop - start < 3:
            continue
        points = np.column_stack([x[start:stop], y[start:stop]])
        run = points[-1] - points[0]
        length = float(np.linalg.norm(run))
        if length < 4:
            continue
        extra = run / length * rng.uniform(0, overshoot) * min(1.0, length / 80)
        points = np.concatenate([[points[0] - extra], points, [points[-1] + extra]])
        strokes.append(pen.line(rng, points, width, tremor=0.9, taper=0.2, ink=0.06))
        if length > 120 and rng.random() < 0.6:
            shift = rng.normal(0, 1.6, 2)
            strokes.append(pen.line(rng, points[3:-2] + shift, width * 0.6, tremor=0.9, ink=0.12))
    return strokes


def _boards(
    rng: np.random.Generator, model: houses.Street, camera: solid.Camera, depth: Floats, ids: NDArray[np.int32]
) -> list[pen.Stroke]:
    """Joints between boards, rows of shingles."""
    c, t = np.cos(TURN), np.sin(TURN)

    def out(x: float, y: float, z: float) -> NDArray[np.float64]:
        return np.array([PLACE[0] + x * c + z * t, y, PLACE[1] - x * t + z * c])

    strokes = []
    wall = np.isin(np.array(model.kinds), ["board", "plaster"])
    front = np.where(np.append(wall, False)[ids], depth, 0)
    for x in np.arange(-2.2, 2.21, 0.2):
        x_ = x + rng.normal(0, 0.015)
        top = 3.0 + (2.2 - abs(x_)) * 2.15 / 2.2
        y = 0.35
        while y < top:
            end = min(top, y + rng.uniform(0.5, 2.2))
            if rng.random() < 0.86:
                strokes += _visible(rng, out(x_, y, -3.4), out(x_, end, -3.4), camera, front, 1.7, overshoot=1)
            y = end + rng.uniform(0.0, 0.12)
    for z in np.arange(-3.4, 3.4, 0.22):
        z_ = z + rng.normal(0, 0.015)
        strokes += _visible(rng, out(2.2, 0.35, z_), out(2.2, 3.0, z_), camera, front, 1.8, overshoot=1)
    roof = np.where(np.append(np.array(model.kinds) == "tile", False)[ids], depth, 0)
    for k in range(1, 13):
        u = k / 13
        x, y = 2.62 * (1 - u), 2.59 + 2.56 * u
        z = -3.8
        while z < 3.8:
            end = z + rng.uniform(0.25, 1.1)
            sag = 0.03 * np.sin(z * 1.3 + k)
            if rng.random() < 0.8:
                strokes += _visible(rng, out(x, y + sag, z), out(x, y + sag * 0.6, end), camera, roof, 2.0, overshoot=0)
            if rng.random() < 0.7:
                strokes += _visible(rng, out(x, y, end), out(x - 2.62 / 13, y + 2.56 / 13, end), camera, roof, 1.6, overshoot=0)
            z = end
    return strokes


def _far_shore(rng: np.random.Generator, ids: NDArray[np.int32], tree: _Tree) -> list[pen.Stroke]:
    """Trees across the water, birds, a few lines of cloud."""
    strokes = []
    for x in np.arange(4, W - 6, 5.5):
        if rng.random() < 0.3:
            continue
        top = HORIZON - float(_ridge(np.array([x]))[0])
        y = rng.uniform(top, HORIZON + 8)
        i, j = int(y), int(x)
        if ids[i, j] >= 0 or tree.covers[i, j]:
            continue
        t = np.linspace(0, np.pi, 6)
        size = rng.uniform(4, 9)
        points = np.column_stack([x + size * np.cos(t), y - size * 0.7 * np.sin(t)])
        strokes.append(pen.line(rng, points, 1.5, tremor=0.8, ink=0.3))
    runs = [(a, b) for a, b in ((0, 640), (560, 1020), (1650, 2000))]
    for a, b in runs:
        x = np.linspace(a, b, 60)
        y = np.full(60, HORIZON + 14.0)
        keep = np.array([ids[int(v), min(int(u), W - 1)] < 0 and not tree.covers[int(v), min(int(u), W - 1)] for u, v in zip(x, y, strict=True)])
        if keep.sum() > 3:
            strokes.append(pen.line(rng, np.column_stack([x[keep], y[keep]]), 2.2, tremor=0.9, ink=0.2))
    for x, y, s in ((1010, 190, 17), (1075, 235, 12), (1120, 170, 10), (1190, 250, 8)):
        for side in (-1, 1):
            t = np.linspace(0, 1, 6)
            wing = np.column_stack([x + side * s * t, y - s * 0.55 * np.sin(np.pi * 0.8 * t) + 0.2 * s * t])
            strokes.append(pen.line(rng, wing, 2.6, tremor=0.3, ink=0.12))
    return strokes


def _shore(rng: np.random.Generator) -> list[pen.Stroke]:
    """Grass on the near bank, reeds at its edge and at the lower right."""
    strokes = []
    for _ in range(1500):
        x = rng.uniform(-20, 1250)
        low = float(_bank_line(np.array([x]))[0])
        y = low + rng.uniform(0, 1) ** 1.3 * (H + 40 - low)
        if y < low or y > H + 50:
            continue
        size = rng.uniform(18, 46) * (0.6 + (y - 980) / 520)
        strokes.append(_blade(rng, x, y, size, rng.normal(0.15, 0.35), 2.0 + 1.2 * (y - 980) / 520))
    clumps = [(rng.uniform(330, 900), 0.0) for _ in range(60)]
    for x, _ in clumps:
        y = float(_bank_line(np.array([x]))[0]) + 12
        for _ in range(3):
            strokes.append(_blade(rng, x + rng.normal(0, 9), y, rng.uniform(70, 190), rng.normal(0.22, 0.2), 3.2))
    for _ in range(120):
        x, y = rng.normal(1830, 95), rng.uniform(1430, 1530)
        size = rng.uniform(140, 420) * np.exp(-(((x - 1850) / 170) ** 2))
        if size > 60:
            strokes.append(_blade(rng, x, y, size, rng.normal(-0.14, 0.16), 3.8))
    for x, y, size in ((1822, 1450, 400), (1876, 1470, 470), (1768, 1460, 330), (520, 1150, 230)):
        strokes.append(_blade(rng, x, y, size, -0.08, 3.6))
        t = np.linspace(0, 1, 8)
        lean = -0.08
        head = np.column_stack([x + lean * size * (0.86 + 0.14 * t) ** 1.6, y - size * (0.84 + 0.15 * t)])
        stroke = pen.line(rng, head, 15, tremor=0.4, taper=0.2, ink=0.08)
        strokes.append(stroke)
    return strokes


def _blade(rng: np.random.Generator, x: float, y: float, size: float, lean: float, width: float) -> pen.Stroke:
    t = np.linspace(0, 1, 10)
    bend = lean * size * t**1.6 + rng.normal(0, 0.10) * size * t**3
    points = np.column_stack([x + bend, y - size * t * (1 - 0.12 * abs(lean) * t)])
    return pen.line(rng, points, width, tremor=0.5, taper=0.9, ink=0.09 + rng.uniform(0, 0.06))


# ---------------------------------------------------------------- the tree


class _Tree:
    """An old tree on the bank: boughs, bark, and masses of leaves with light on their left."""

    def __init__(self, rng: np.random.Generator) -> None:
        self.strokes: list[pen.Stroke] = []
        self.boughs: list[tuple[NDArray[np.float64], NDArray[np.float64]]] = []
        self._grow(rng, np.array([300.0, 1075.0]), -1.36, 62.0, 0)
        self.clumps = self._leafed(rng)
        self.mass = self._masses()
        self.covers = self.mass > 0.12
        self.shade = np.zeros((H, W), np.float32)
        self._mark_trunk()
        mirror = ndimage.gaussian_filter(self.mass, (14, 5))[::-1]
        shift = int(2 * (HORIZON + 60) - H)
        self.shade = np.roll(mirror, shift, axis=0)
        self._bark(rng)
        self._foliage(rng)

    def _grow(self, rng: np.random.Generator, start: NDArray[np.float64], heading: float, width: float, level: int) -> None:
        length = (430, 330, 230, 150, 90)[level] * rng.uniform(0.85, 1.15)
        n = 16
        path, half = [start], [width / 2]
        angle = heading
        bend = rng.normal(0, 0.035)
        for k in range(n):
            angle += bend + rng.normal(0, 0.055) - 0.012 * (angle + np.pi / 2) * (level > 0)
            path.append(path[-1] + length / n * np.array([np.cos(angle), np.sin(angle)]))
            half.append(width / 2 * (1 - 0.42 * (k + 1) / n))
        if level == 0:
            half = [h + 26 * np.exp(-k / 1.6) for k, h in enumerate(half)]
        self.boughs.append((np.array(path), np.array(half)))
        if level == 4:
            return
        tips = [(n, -0.42), (n, 0.36), (int(n * 0.72), 0.85 if level else 0.75), (int(n * 0.62), -0.8)]
        for at, turn in tips[: 4 if level < 2 else 3]:
            t = turn + rng.normal(0, 0.14)
            self._grow(rng, path[at], angle + t, 2 * half[at] * (0.74 if at == n else 0.55), level + 1)

    def _leafed(self, rng: np.random.Generator) -> list[tuple[float, float, float, float]]:
        """Clumps of leaves (x, y, across, down) at the ends of the boughs."""
        clumps = []
        for path, half in self.boughs:
            if half[0] < 6 and rng.random() < 0.62:
                x, y = path[-1 if rng.random() < 0.6 else 9] + rng.normal(0, 14, 2)
                size = rng.uniform(0.5, 1.15)
                clumps.append((x, y, 70 * size, 46 * size))
        return sorted(clumps, key=lambda c: c[1])

    def _masses(self) -> Floats:
        """Darkness of the leaves as one body lit from the upper left."""
        mass = np.zeros((H, W), np.float32)
        rough = paper.drift((H, W), 66, fall=1.2, coarse=0.02)
        for x, y, a, b in self.clumps:
            x0, x1 = int(max(x - 1.4 * a, 0)), int(min(x + 1.4 * a, W))
            y0, y1 = int(max(y - 1.5 * b, 0)), int(min(y + 1.5 * b, H))
            if x1 <= x0 or y1 <= y0:
                continue
            gy, gx = np.mgrid[y0:y1, x0:x1].astype(np.float32)
            u, v = (gx - x) / a, (gy - y) / b
            inside = u * u + v * v + 0.42 * rough[y0:y1, x0:x1] < 1
            tone = np.clip(0.44 + 0.24 * u + 0.38 * v, 0.16, 0.98)
            part = mass[y0:y1, x0:x1]
            mass[y0:y1, x0:x1] = np.where(inside, np.maximum(tone, 0.55 * part), part)
        return mass

    def _mark_trunk(self) -> None:
        from PIL import Image, ImageDraw  # noqa: PLC0415  drawn once

        sheet = Image.new("L", (W, H), 0)
        brush = ImageDraw.Draw(sheet)
        for path, half in self.boughs:
            if half[0] < 3:
                continue
            along = np.gradient(path, axis=0)
            along /= np.linalg.norm(along, axis=1)[:, None]
            across = np.column_stack([-along[:, 1], along[:, 0]]) * half[:, None]
            ring = np.concatenate([path + across, (path - across)[::-1]])
            brush.polygon([(float(a), float(b)) for a, b in ring], fill=255)
        self.trunk = np.asarray(sheet) > 127
        self.covers = self.covers | self.trunk
        self.mass = np.where(self.trunk & (self.mass < 0.12), 0.62, self.mass).astype(np.float32)

    def _bark(self, rng: np.random.Generator) -> None:
        for path, half in self.boughs:
            along = np.gradient(path, axis=0)
            along /= np.linalg.norm(along, axis=1)[:, None]
            across = np.column_stack([-along[:, 1], along[:, 0]])
            if half[0] < 3.2:
                self.strokes.append(pen.Stroke(path, np.maximum(half * 0.8, 0.7), 0.12))
                continue
            for side, width in ((-1, 2.2), (1, 3.4)):
                self.strokes.append(pen.line(rng, path + side * across * half[:, None], width, tremor=1.1, ink=0.06))
            count = int(half[0] * 1.7)
            for _ in range(count):
                u = 1 - 2 * rng.random() ** 1.8
                a = int(rng.integers(0, len(path) - 4))
                b = min(len(path), a + int(rng.integers(3, 7)))
                points = path[a:b] + u * across[a:b] * half[a:b, None] * 0.95
                self.strokes.append(pen.line(rng, points, 1.9, tremor=1.6, ink=0.1))
            for _ in range(int(half[0] * 2.0)):
                a = int(rng.integers(0, len(path)))
                u0, u1 = rng.uniform(0.15, 0.5), 0.97
                t = np.linspace(u0, u1, 6)
                bow = -5 * np.sin(np.pi * t)
                base = path[a] + rng.uniform(-12, 12) * along[a]
                points = base + t[:, None] * across[a] * half[a] + bow[:, None] * along[a]
                if across[a][0] < 0:
                    points = base - t[:, None] * across[a] * half[a] + bow[:, None] * along[a]
                self.strokes.append(pen.line(rng, points, 1.9, tremor=0.6, ink=0.1))

    def _foliage(self, rng: np.random.Generator) -> None:
        """Scribbled leaves: dense where the mass is dark, open loops at the lit rims."""
        rows, columns = np.nonzero(self.mass > 0.1)
        own = ~self.trunk[rows, columns]
        rows, columns = rows[own], columns[own]
        pick = rng.integers(0, len(rows), 15000)
        for k in pick:
            dark = self.mass[rows[k], columns[k]]
            if rng.random() > 0.16 + 0.95 * dark**2.2:
                continue
            x, y = float(columns[k]), float(rows[k])
            size = rng.uniform(4.5, 9.5)
            a0 = rng.uniform(-0.6, 1.2)
            t = np.linspace(0, rng.uniform(3.2, 6.5), 9)
            points = np.column_stack(
                [x + size * np.cos(t + a0) + 2.3 * t, y + 0.72 * size * np.sin(t + a0) + 0.5 * t]
            )
            self.strokes.append(pen.line(rng, points, 1.5 + 1.3 * dark, tremor=0.6, ink=0.10))
