"""The pen's lines of the boathouse: outlines, boards, hatching, grass."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from samples import houses, pen, solid
from samples.boathouse_model import HORIZON, PLACE, TURN, H, W, bank_line, ridge
from samples.boathouse_tree import Tree
from scipy import ndimage

Floats = NDArray[np.float32]


def hatching(
    rng: np.random.Generator,
    dark: Floats,
    kind: NDArray[np.str_],
    wet: NDArray[np.bool_],
    tree: Tree,
) -> list[pen.Stroke]:
    """Hatching and cross-hatching where the drawing is dark; level strokes on the water."""
    solidly = (kind != "air") & ~tree.covers
    body = np.where(solidly, ndimage.gaussian_filter(dark, 1.0), 0).astype(np.float32)
    roof = np.isin(kind, ["tile"])
    strokes = pen.hatch(
        rng,
        np.where(roof, 0, body),
        2.25,
        spacing=6.0,
        least=0.40,
        most=0.74,
        width=2.0,
        longest=90,
    )
    strokes += pen.hatch(
        rng,
        np.where(roof, 0, body),
        1.72,
        spacing=6.0,
        least=0.60,
        most=0.82,
        width=2.0,
        longest=80,
    )
    strokes += pen.hatch(rng, body, 0.35, spacing=5.5, least=0.72, most=0.88, width=2.3, longest=90)
    strokes += pen.hatch(rng, body, 2.75, spacing=5.0, least=0.80, most=0.92, width=2.6, longest=80)
    strokes += pen.hatch(
        rng,
        np.where(roof, body, 0),
        0.98,
        spacing=6.5,
        least=0.26,
        most=0.72,
        width=2.0,
        longest=70,
        curve=0.5,
    )
    water = np.where(wet, dark, 0).astype(np.float32)
    strokes += pen.hatch(
        rng, water, 0.0, spacing=8.0, least=0.30, most=0.72, width=2.0, longest=110, curve=0.5
    )
    strokes += pen.hatch(
        rng, water, 0.03, spacing=6.5, least=0.52, most=0.86, width=2.3, longest=90, curve=0.4
    )
    return strokes


def edges(
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
        flat = len(owners) > 1 and all(
            abs(normal[owners[0]] @ normal[k]) > 0.93 for k in owners[1:]
        )
        if flat and len(kinds) == 1:
            continue
        if (
            kinds <= {"board"}
            and len(owners) == 1
            and abs(a[0] - b[0]) + abs(a[2] - b[2]) > 1e-3
            and 0.5 < a[1] < 2.9
        ):
            continue
        heavy = 3.1 if kinds & {"tile", "rail", "hole", "board"} else 2.3
        strokes += _visible(rng, np.array(a), np.array(b), camera, depth, heavy)
    return strokes


def _visible(
    rng: np.random.Generator,
    a: NDArray[np.float64],
    b: NDArray[np.float64],
    camera: solid.Camera,
    depth: Floats,
    width: float,
    *,
    overshoot: float = 5.0,
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


def boards(
    rng: np.random.Generator,
    model: houses.Street,
    camera: solid.Camera,
    depth: Floats,
    ids: NDArray[np.int32],
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
                strokes += _visible(
                    rng, out(x_, y, -3.4), out(x_, end, -3.4), camera, front, 1.7, overshoot=1
                )
            y = end + rng.uniform(0.0, 0.12)
    for z in np.arange(-3.4, 3.4, 0.22):
        z_ = z + rng.normal(0, 0.015)
        strokes += _visible(
            rng, out(2.2, 0.35, z_), out(2.2, 3.0, z_), camera, front, 1.8, overshoot=1
        )
    roof = np.where(np.append(np.array(model.kinds) == "tile", False)[ids], depth, 0)
    for k in range(1, 13):
        u = k / 13
        x, y = 2.62 * (1 - u), 2.59 + 2.56 * u
        z = -3.8
        while z < 3.8:
            end = z + rng.uniform(0.25, 1.1)
            sag = 0.03 * np.sin(z * 1.3 + k)
            if rng.random() < 0.8:
                strokes += _visible(
                    rng,
                    out(x, y + sag, z),
                    out(x, y + sag * 0.6, end),
                    camera,
                    roof,
                    2.0,
                    overshoot=0,
                )
            if rng.random() < 0.7:
                strokes += _visible(
                    rng,
                    out(x, y, end),
                    out(x - 2.62 / 13, y + 2.56 / 13, end),
                    camera,
                    roof,
                    1.6,
                    overshoot=0,
                )
            z = end
    return strokes


def far_shore(rng: np.random.Generator, ids: NDArray[np.int32], tree: Tree) -> list[pen.Stroke]:
    """Trees across the water, birds, a few lines of cloud."""
    strokes = []
    for x in np.arange(4, W - 6, 5.5):
        if rng.random() < 0.3:
            continue
        top = HORIZON - float(ridge(np.array([x]))[0])
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
        keep = np.array(
            [
                ids[int(v), min(int(u), W - 1)] < 0 and not tree.covers[int(v), min(int(u), W - 1)]
                for u, v in zip(x, y, strict=True)
            ]
        )
        if keep.sum() > 3:
            strokes.append(
                pen.line(rng, np.column_stack([x[keep], y[keep]]), 2.2, tremor=0.9, ink=0.2)
            )
    for x, y, s in ((1010, 190, 17), (1075, 235, 12), (1120, 170, 10), (1190, 250, 8)):
        for side in (-1, 1):
            t = np.linspace(0, 1, 6)
            wing = np.column_stack(
                [x + side * s * t, y - s * 0.55 * np.sin(np.pi * 0.8 * t) + 0.2 * s * t]
            )
            strokes.append(pen.line(rng, wing, 2.6, tremor=0.3, ink=0.12))
    return strokes


def shore(rng: np.random.Generator) -> list[pen.Stroke]:
    """Grass on the near bank, reeds at its edge and at the lower right."""
    strokes = []
    for _ in range(1500):
        x = rng.uniform(-20, 1250)
        low = float(bank_line(np.array([x]))[0])
        y = low + rng.uniform(0, 1) ** 1.3 * (H + 40 - low)
        if y < low or y > H + 50:
            continue
        size = rng.uniform(18, 46) * (0.6 + (y - 980) / 520)
        strokes.append(_blade(rng, x, y, size, rng.normal(0.15, 0.35), 2.0 + 1.2 * (y - 980) / 520))
    clumps = [(rng.uniform(330, 900), 0.0) for _ in range(60)]
    for x, _ in clumps:
        y = float(bank_line(np.array([x]))[0]) + 12
        for _ in range(3):
            size = rng.uniform(70, 190)
            strokes += [_blade(rng, x + rng.normal(0, 9), y, size, rng.normal(0.22, 0.2), 3.2)]
    for _ in range(120):
        x, y = rng.normal(1830, 95), rng.uniform(1430, 1530)
        size = rng.uniform(140, 420) * np.exp(-(((x - 1850) / 170) ** 2))
        if size > 60:
            strokes.append(_blade(rng, x, y, size, rng.normal(-0.14, 0.16), 3.8))
    for x, y, size in ((1822, 1450, 400), (1876, 1470, 470), (1768, 1460, 330), (520, 1150, 230)):
        strokes.append(_blade(rng, x, y, size, -0.08, 3.6))
        t = np.linspace(0, 1, 8)
        lean = -0.08
        head = np.column_stack(
            [x + lean * size * (0.86 + 0.14 * t) ** 1.6, y - size * (0.84 + 0.15 * t)]
        )
        stroke = pen.line(rng, head, 15, tremor=0.4, taper=0.2, ink=0.08)
        strokes.append(stroke)
    return strokes


def _blade(
    rng: np.random.Generator, x: float, y: float, size: float, lean: float, width: float
) -> pen.Stroke:
    t = np.linspace(0, 1, 10)
    bend = lean * size * t**1.6 + rng.normal(0, 0.10) * size * t**3
    points = np.column_stack([x + bend, y - size * t * (1 - 0.12 * abs(lean) * t)])
    return pen.line(rng, points, width, tremor=0.5, taper=0.9, ink=0.09 + rng.uniform(0, 0.06))
