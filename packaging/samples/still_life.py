"""A jug, pears and a cloth by a north window: gentle modelling, soft shadows."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw
from samples import paper
from scipy import interpolate, ndimage

Floats = NDArray[np.float32]

CELL = 0.01
EYE = np.array([0.35, 3.0, -9.4], np.float32)
AIM = np.array([0.24, 1.12, 0.0], np.float32)
WINDOW = np.array([-0.80, 0.57, -0.20], np.float32) / np.float32(1.0025)
JUG_PLACE = (-0.60, 0.62)

JUG = [
    (0.0, 0.0),
    (0.60, 0.0),
    (0.72, 0.12),
    (0.98, 0.55),
    (1.08, 0.98),
    (0.98, 1.42),
    (0.70, 1.86),
    (0.57, 2.16),
    (0.60, 2.44),
    (0.74, 2.68),
    (0.70, 2.72),
    (0.53, 2.46),
    (0.49, 2.16),
    (0.62, 1.84),
    (0.88, 1.42),
    (0.96, 0.98),
    (0.80, 0.4),
    (0.0, 0.2),
]
PEAR = [
    (0.0, 0.05),
    (0.16, 0.02),
    (0.42, 0.08),
    (0.62, 0.34),
    (0.655, 0.58),
    (0.56, 0.88),
    (0.39, 1.12),
    (0.285, 1.34),
    (0.22, 1.50),
    (0.11, 1.57),
    (0.0, 1.565),
]
# pears: foot (x, y, z), lean (radians) and the compass point leant to, size
PEARS = (
    ((1.06, 0.0, -0.18), 0.10, 0.5, 1.06),
    ((1.40, 0.60, -0.74), 1.40, -1.02, 0.96),
    ((0.20, 0.0, -1.02), -0.07, 1.2, 0.92),
)


def draw(scale: float = 1.0) -> Floats:
    """Tone of each pixel, 0 black to 1 white; 1840 by 1380 at scale 1."""
    w, h = int(1840 * scale), int(1380 * scale)
    tables = _tables()
    rows, columns = np.indices((h, w), dtype=np.float32).reshape(2, -1)
    light = _cast(rows + 0.5, columns + 0.5, w, h, tables).reshape(h, w)
    tone = paper.shown(light)
    steep = ndimage.maximum_filter(tone, 3) - ndimage.minimum_filter(tone, 3) > 0.022
    edge = np.nonzero(steep.ravel())[0]
    total = np.zeros(len(edge), np.float32)
    for dx, dy in ((0.12, 0.38), (0.38, 0.88), (0.62, 0.12), (0.88, 0.62)):
        total += paper.shown(_cast(rows[edge] + dy, columns[edge] + dx, w, h, tables))
    tone.ravel()[edge] = total / 4
    tone = np.clip((tone - 0.09) / 0.91, 0, 1)
    tone = 0.55 * tone + 0.45 * tone * tone * (3 - 2 * tone)
    return paper.on_paper(0.02 + 0.955 * tone, 15, granulation=0.009, tooth=0.003)


def _cast(rows: Floats, columns: Floats, w: int, h: int, tables: dict[str, Floats]) -> Floats:
    """Light along the rays through places in the picture, (row, column) in pixels."""
    ahead = AIM - EYE
    ahead /= np.linalg.norm(ahead)
    right = np.cross(np.array([0, 1, 0], np.float32), ahead)
    right /= np.linalg.norm(right)
    up = np.cross(ahead, right)
    x, y = (columns - w / 2) / (1.62 * w), (h / 2 - rows) / (1.62 * w)
    ray = ahead + x[:, None] * right + y[:, None] * up
    ray = (ray / np.linalg.norm(ray, axis=1)[:, None]).astype(np.float32)
    parts = np.array_split(ray, max(2, len(ray) // 60000))
    with ThreadPoolExecutor(2) as pool:
        return np.concatenate(list(pool.map(lambda part: _traced(part, tables), parts)))


def _traced(ray: Floats, tables: dict[str, Floats]) -> Floats:
    distance = np.full(len(ray), 5.5, np.float32)
    active = np.arange(len(ray))
    for _ in range(240):
        d = _scene(EYE + ray[active] * distance[active, None], tables)[0]
        distance[active] += d * 0.8
        active = active[(d > 0.0012) & (distance[active] < 24)]
        if len(active) == 0:
            break
    close = np.nonzero(distance < 23)[0]
    for _ in range(4):
        distance[close] += 0.8 * _scene(EYE + ray[close] * distance[close, None], tables)[0]
    point = EYE + ray * distance[:, None]
    wall = (point[:, 2] > 4.9) | (distance > 23)
    light = _wall(point)
    seen = np.nonzero(~wall)[0]
    light[seen] = _shaded(point[seen], ray[seen], tables)
    back = np.nonzero(wall)[0]
    light[back] *= 0.55 + 0.45 * _open(
        point[back] + np.array([0, 0, -0.03], np.float32), WINDOW, tables, 3.0
    )
    return light


def _wall(point: Floats) -> Floats:
    """The plaster behind: dark on the window's side, lit on the far side."""
    across = np.clip((point[:, 0] + 5.2) / 9.5, 0, 1)
    cloud = paper.lookup(
        paper.drift((512, 512), 31, fall=1.9, coarse=0.01), point[:, 1] * 45, point[:, 0] * 45
    )
    t = across * across * (3 - 2 * across)
    return ((0.045 + 0.34 * t) * (1 - 0.06 * (point[:, 1] - 1.5)) * (1 + 0.05 * cloud)).astype(
        np.float32
    )


def _shaded(point: Floats, ray: Floats, tables: dict[str, Floats]) -> Floats:
    normal = _normal(point, tables)
    _, what = _scene(point, tables)
    lift = point + normal * 0.02
    total = np.zeros(len(point), np.float32)
    aims = [(0.0, 0.0)]
    for dx, dy in aims:
        aim = WINDOW + np.array([dx, dy, -dx * 0.6], np.float32)
        aim /= np.linalg.norm(aim)
        facing = np.clip((normal @ aim + 0.05) / 1.05, 0, 1)
        lit = np.nonzero(facing > 0)[0]
        open_ = np.zeros(len(point), np.float32)
        open_[lit] = _open(lift[lit], aim, tables, 5.0)
        total += facing * open_
    direct = total / len(aims)
    hollow = _hollow(point, normal, tables)
    albedo, gloss, sharp = _stuff(point, what)
    sky = 0.5 + 0.5 * normal[:, 1]
    thrown = 0.5 * np.clip(-normal[:, 1] * 0.7 + 0.3, 0, 1) + 0.35 * np.clip(normal[:, 0], 0, 1)
    light = albedo * (1.28 * direct + hollow * (0.065 * sky + 0.075 * thrown + 0.012))
    back = ray - 2 * np.einsum("ij,ij->i", ray, normal)[:, None] * normal
    toward = back @ WINDOW
    side = back @ _sideways()
    lift_ = back @ np.cross(WINDOW, _sideways())
    pane = np.clip((0.13 - np.abs(side)) / (0.15 + 0.3 * sharp) + 0.5, 0, 1)
    pane *= np.clip((0.16 - np.abs(lift_)) / (0.15 + 0.3 * sharp) + 0.5, 0, 1) * (toward > 0)
    broad = np.clip(toward, 0, 1) ** (4 + 30 * (1 - sharp))
    fresnel = 0.25 + 0.75 * np.clip(1 + np.einsum("ij,ij->i", ray, normal), 0, 1) ** 3
    light += gloss * fresnel * (0.8 * pane * (direct > 0.05) + 0.25 * broad * direct)
    room = 0.05 + 0.22 * np.clip(back[:, 0] * 0.7 + 0.3, 0, 1) * (back[:, 2] > -0.2)
    return (light + gloss * fresnel * room * hollow * 0.35).astype(np.float32)


def _sideways() -> Floats:
    side = np.cross(np.array([0, 1, 0], np.float32), WINDOW)
    return (side / np.linalg.norm(side)).astype(np.float32)


def _stuff(point: Floats, what: NDArray[np.int32]) -> tuple[Floats, Floats, Floats]:
    """Reflectance, gloss, and softness of the gloss, by what the point belongs to."""
    field = paper.drift((512, 512), 33, fall=1.3, coarse=0.02)
    a = paper.lookup(field, point[:, 1] * 70, (point[:, 0] + 0.6 * point[:, 2]) * 70)
    b = paper.lookup(field, point[:, 1] * 260 + 90, (point[:, 0] - 0.7 * point[:, 2]) * 260)
    turn = np.arctan2(point[:, 2] - JUG_PLACE[1], point[:, 0] - JUG_PLACE[0])
    brim = (
        0.86 + 0.10 * np.sin(2.3 * turn + 0.5) + 0.07 * np.sin(5 * turn) + 0.03 * np.sin(11 * turn)
    )
    glaze = np.clip((point[:, 1] - brim) / 0.03, 0, 1)
    roll = np.exp(-(((point[:, 1] - brim - 0.03) / 0.035) ** 2))
    jug = (0.62 + 0.03 * a + 0.025 * b) * (1 - glaze) + glaze * (0.10 + 0.02 * a) * (
        1 - 0.35 * roll
    )
    pear = 0.46 * (1 + 0.06 * a) * (1 - 0.22 * np.clip(b - 1.1, 0, 1))
    albedo = np.choose(what, [0.82 + 0 * a, jug, pear, 0.045 + 0 * a, 0.085 * (1 + 0.10 * b)])
    gloss = np.choose(what, [0 * a, 0.5 * glaze, 0.22 + 0 * a, 0.05 + 0 * a, 0.08 + 0 * a])
    soft = np.choose(what, [1 + 0 * a, 0.03 + 0 * a, 0.5 + 0 * a, 0.6 + 0 * a, 0.5 + 0 * a])
    weave = 1 + 0.018 * np.sin(point[:, 0] * 190) * np.sin(point[:, 2] * 190 + point[:, 1] * 190)
    stripe = (np.abs(point[:, 0] * 0.96 + 0.30 * point[:, 2] - 2.05) < 0.055) | (
        np.abs(point[:, 0] * 0.96 + 0.30 * point[:, 2] - 2.25) < 0.022
    )
    albedo = np.where(what == 0, albedo * weave * np.where(stripe, 0.45, 1), albedo)
    return albedo.astype(np.float32), gloss.astype(np.float32), soft.astype(np.float32)


# ---------------------------------------------------------------- marching


def _open(point: Floats, aim: Floats, tables: dict[str, Floats], hard: float) -> Floats:
    """How much of a broad light each point sees along a direction."""
    result = np.ones(len(point), np.float32)
    active = np.arange(len(point))
    for t in np.geomspace(0.06, 6.5, 40, dtype=np.float32):
        d = _scene(point[active] + aim * t, tables, near=0.7)[0]
        result[active] = np.minimum(result[active], np.clip(0.5 + 0.5 * hard * d / t, 0, 1))
        active = active[result[active] > 0.004]
        if len(active) == 0:
            break
    return result * result * (3 - 2 * result)


def _hollow(point: Floats, normal: Floats, tables: dict[str, Floats]) -> Floats:
    """1 in the open, towards 0 in crevices."""
    shut = np.zeros(len(point), np.float32)
    for reach, weight in ((0.06, 0.9), (0.16, 0.55), (0.36, 0.32), (0.75, 0.17)):
        d = _scene(point + normal * reach, tables)[0]
        shut += weight * np.clip((reach - d) / reach, 0, 1)
    return np.clip(1 - 0.62 * shut, 0.06, 1)


def _normal(point: Floats, tables: dict[str, Floats]) -> Floats:
    e = 0.03
    total = np.zeros_like(point)
    for k in ((1, -1, -1), (-1, -1, 1), (-1, 1, -1), (1, 1, 1)):
        k_ = np.array(k, np.float32)
        total += k_ * _scene(point + k_ * e, tables)[0][:, None]
    return total / np.maximum(np.linalg.norm(total, axis=1), 1e-6)[:, None]


def _scene(
    point: Floats, tables: dict[str, Floats], *, near: float = 0.15
) -> tuple[Floats, NDArray[np.int32]]:
    """Distance to the nearest surface and what it is: cloth, jug, pear, stem, table.

    A body farther off than `near` is known by the ball about it, a lower bound.
    """
    x, y, z = np.ascontiguousarray(point.T)
    best = 5.0 - z
    what = np.zeros(len(point), np.int32)

    def nearer(d: Floats, number: int, which: NDArray[np.int64] | None = None) -> None:
        closer = np.nonzero(d < (best if which is None else best[which]))[0]
        target = closer if which is None else which[closer]
        best[target] = d[closer]
        what[target] = number

    def about(centre: tuple[float, float, float], radius: float, number: int) -> NDArray[np.int64]:
        """Points close to a ball; the others know only the ball."""
        cx, cy, cz = centre
        gap = np.sqrt((x - cx) ** 2 + (y - cy) ** 2 + (z - cz) ** 2) - radius
        far = gap > near
        nearer(np.where(far, gap, 99), number)
        return np.nonzero(~far)[0]

    nearer(_table_top(point), 4)
    low = y < 0.6 + near
    nearer(np.where(low, 99, y - 0.55), 0)
    own = np.nonzero(low)[0]
    nearer(_cloth(point[own], tables), 0, own)
    own = about((JUG_PLACE[0] + 0.1, 1.4, JUG_PLACE[1]), 1.75, 1)
    nearer(_jug(point[own], tables), 1, own)
    for place, lean, compass, size in PEARS:
        middle = (
            place[0] + size * 0.85 * np.sin(lean) * np.cos(compass),
            place[1] + size * 0.95 * np.cos(lean),
            place[2] + size * 0.85 * np.sin(lean) * np.sin(compass),
        )
        own = about(middle, 1.12 * size, 2)
        p = _pear_space(point[own], place, lean, compass, size)
        nearer(_turned(p, tables["pear"]) * (size * 0.9), 2, own)
        nearer(_stem(p) * (size * 0.9), 3, own)
    return best, what


def _tables() -> dict[str, Floats]:
    tables = {n: _table(line) for n, line in (("jug", JUG), ("pear", PEAR))}
    tables["folds"] = _folds()
    tables["handle"] = _strap()
    return tables


def _folds() -> Floats:
    """Height of the cloth on the table, cells of 0.02; rows z from -2.6, columns x from -2.6."""
    z, x = np.meshgrid(np.arange(-2.6, 2.6, 0.02), np.arange(-2.6, 5.4, 0.02), indexing="ij")
    rng = np.random.default_rng(23)
    sway = paper.drift(x.shape, 24, fall=2.6, coarse=0.004) * 0.10
    height = np.zeros_like(x)
    for k in range(12):
        at = -1.6 + 6.0 * (k + rng.uniform(-0.45, 0.45)) / 12
        lean = rng.normal(0.1, 0.7)
        wide = 0.06 + 0.17 * rng.random() ** 1.6
        tall = wide * rng.uniform(0.6, 1.0)
        reach = rng.uniform(-1.5, 0.5) if k % 3 else rng.uniform(0.2, 1.4)
        line = x - at - lean * (z + 1.9) - sway * (1 + 0.5 * np.sin(k)) - 0.05 * np.sin(2.3 * z + k)
        side = np.where(line < 0, wide * 0.62, wide * 1.5)
        fade = np.clip((reach - z) / 1.1, 0, 1)
        height += tall * np.exp(-(np.abs(line / side) ** 1.7)) * fade * fade * (3 - 2 * fade)
    height += 0.012 * paper.drift(x.shape, 25, fall=2.3, coarse=0.01)
    for px, pz, r in (
        (*JUG_PLACE, 1.0),
        (1.06, -0.18, 0.72),
        (0.2, -1.02, 0.6),
        (1.9, -1.1, 0.85),
    ):
        gap = np.hypot(x - px, z - pz)
        height *= 1 - 0.96 * np.exp(-((gap / r) ** 4))
    height = ndimage.gaussian_filter(height, 1.1)
    return np.clip(height, 0, 0.4).astype(np.float32)


def _cloth(point: Floats, tables: dict[str, Floats]) -> Floats:
    """A cloth half over the table: folds on top, a fall over the front edge."""
    x, y, z = point[:, 0], point[:, 1], point[:, 2]
    folds = tables["folds"]
    v = np.clip((np.maximum(z, -2.05) + 2.6) / 0.02, 0, folds.shape[0] - 1.01)
    u = np.clip((x + 2.6) / 0.02, 0, folds.shape[1] - 1.01)
    ridge = _between(folds, v, u)
    deep = np.clip(-y, 0, 1.5)
    front = (
        -2.02 - ridge * (1.0 + 0.8 * deep) - 0.10 * deep * np.sin(x * 3.1 + 0.7 * np.sin(1.3 * x))
    )
    round_ = 0.13
    dy, dz = y - 0.015 - ridge + round_, front - z + round_
    corner = (
        np.hypot(np.maximum(dy, 0), np.maximum(dz, 0)) + np.minimum(np.maximum(dy, dz), 0) - round_
    )
    left = -1.78 + 0.24 * z + 0.03 * np.sin(3.1 * z + 0.5) - x
    far = z - 1.75 - 0.06 * np.sin(2.0 * x)
    edge = np.maximum(corner, np.maximum(left, far))
    return (edge * 0.6).astype(np.float32)


def _between(table: Floats, v: Floats, u: Floats) -> Floats:
    """A table read between its cells, row v and column u."""
    i, j = v.astype(np.int32), u.astype(np.int32)
    b, a = (v - i).astype(np.float32), (u - j).astype(np.float32)
    flat, width = table.ravel(), table.shape[1]
    k = i * width + j
    low = flat[k] * (1 - a) + flat[k + 1] * a
    high = flat[k + width] * (1 - a) + flat[k + width + 1] * a
    return low * (1 - b) + high * b


def _table_top(point: Floats) -> Floats:
    y, z = point[:, 1], point[:, 2]
    return np.maximum(np.maximum(y + 0.035, -0.35 - y - 3), np.maximum(-1.98 - z, z - 4.0)).astype(
        np.float32
    )


def _jug(point: Floats, tables: dict[str, Floats]) -> Floats:
    q = point - np.array([JUG_PLACE[0], 0.03, JUG_PLACE[1]], np.float32)
    off = np.arctan2(q[:, 2], q[:, 0]) - 2.85
    off = np.where(off < -np.pi, off + 2 * np.pi, off)
    lip = np.exp(-((off / 0.42) ** 2)) * np.clip((q[:, 1] - 1.95) / 0.75, 0, 1.1) ** 1.6
    pull = 1 + 0.42 * lip
    body = (
        _turned(np.stack([q[:, 0] / pull, q[:, 1] - 0.10 * lip, q[:, 2] / pull], -1), tables["jug"])
        * 0.8
    )
    handle = _handle(q, tables["handle"])
    k = 0.09
    blend = np.clip(0.5 + 0.5 * (handle - body) / k, 0, 1)
    return (handle * (1 - blend) + body * blend - k * blend * (1 - blend)).astype(np.float32)


def _handle(q: Floats, table: Floats) -> Floats:
    """A strap from the neck to the shoulder, away from the lip."""
    turn = 2.85 - np.pi
    along = q[:, 0] * np.cos(turn) + q[:, 2] * np.sin(turn)
    aside = -q[:, 0] * np.sin(turn) + q[:, 2] * np.cos(turn)
    u = np.clip(along / 0.02, 0, table.shape[1] - 1.01)
    v = np.clip(q[:, 1] / 0.02, 0, table.shape[0] - 1.01)
    gap = _between(table, v, u) + 0.7 * np.maximum(-along, 0)
    return ((np.hypot(gap * 1.35, aside * 0.78) - 0.115) * 0.72).astype(np.float32)


def _strap() -> Floats:
    """Distances to the handle's line, cells of 0.02; rows height, columns away from the axis."""
    knots = np.array(
        [
            (0.50, 2.38),
            (0.70, 2.49),
            (0.92, 2.52),
            (1.14, 2.44),
            (1.29, 2.24),
            (1.33, 1.98),
            (1.25, 1.70),
            (1.10, 1.46),
            (0.90, 1.30),
        ]
    )
    line = interpolate.CubicSpline(np.arange(len(knots)), knots)(
        np.linspace(0, len(knots) - 1, 240)
    )
    y, a = np.meshgrid(np.arange(0, 3.4, 0.02), np.arange(0, 2.6, 0.02), indexing="ij")
    gap = np.min(np.hypot(a[..., None] - line[:, 0], y[..., None] - line[:, 1]), axis=-1)
    return gap.astype(np.float32)


def _pear_space(
    point: Floats, place: tuple[float, float, float], lean: float, compass: float, size: float
) -> Floats:
    """The point in a pear's own upright space."""
    p = (point - np.array(place, np.float32) - np.array([0, 0.03, 0], np.float32)) / np.float32(
        size
    )
    c, s = np.cos(compass), np.sin(compass)
    along, aside = p[:, 0] * c + p[:, 2] * s, -p[:, 0] * s + p[:, 2] * c
    cl, sl = np.cos(lean), np.sin(lean)
    up, out = p[:, 1] * cl + along * sl, along * cl - p[:, 1] * sl
    bend = 0.13 * np.clip(up - 0.5, 0, 1.3) ** 2
    return np.stack([out - bend, up, aside * 1.0], axis=-1).astype(np.float32)


def _stem(p: Floats) -> Floats:
    t = np.clip((p[:, 1] - 1.5) / 0.42, 0, 1)
    gap = np.hypot(p[:, 0] - 0.10 * t * t, p[:, 2] - 0.05 * t)
    tall = np.maximum(np.maximum(1.5 - p[:, 1], p[:, 1] - 1.92), 0)
    return (np.hypot(gap, tall) - 0.028 - 0.018 * t**4).astype(np.float32)


def _turned(p: Floats, table: Floats) -> Floats:
    """Distance to a turned body whose section's distances stand in a table."""
    rho = np.sqrt(p[:, 0] ** 2 + p[:, 2] ** 2)
    u = np.clip(rho / CELL + 0.0, 0, table.shape[1] - 1.001)
    v = np.clip((p[:, 1] + 0.6) / CELL, 0, table.shape[0] - 1.001)
    beyond = np.hypot(rho / CELL - u, (p[:, 1] + 0.6) / CELL - v) * CELL
    j, i = u.astype(np.int32), v.astype(np.int32)
    a, b = (u - j).astype(np.float32), (v - i).astype(np.float32)
    flat, width = table.ravel(), table.shape[1]
    k = i * width + j
    low = flat[k] * (1 - a) + flat[k + 1] * a
    high = flat[k + width] * (1 - a) + flat[k + width + 1] * a
    return (low * (1 - b) + high * b + beyond).astype(np.float32)


def _table(outline: list[tuple[float, float]]) -> Floats:
    """Signed distances to a half section, in rows of height from -0.6 and columns of radius."""
    points = np.array(outline)
    t = np.concatenate([[0], np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1))])
    smooth = interpolate.Akima1DInterpolator(t, points)(np.linspace(0, t[-1], 600))
    fine, width, height = 4, 200, 400
    image = Image.new("1", (width * fine * 2, height * fine))
    both = np.concatenate([smooth, smooth[::-1] * [-1, 1]])
    place = [((x / CELL + width) * fine, (y + 0.6) / CELL * fine) for x, y in both]
    ImageDraw.Draw(image).polygon(place, fill=1)
    inside = np.array(image)
    signed = ndimage.distance_transform_edt(~inside) - ndimage.distance_transform_edt(inside)
    signed = ndimage.gaussian_filter(signed * (CELL / fine), 3.2 * fine)
    return signed[::fine, width * fine :: fine].astype(np.float32)
