"""Random scans and photographs of known strips, and how well they are read."""

import time
from dataclasses import dataclass, replace

import numpy as np
from tests.core.scans.drawing import Look, Page, Row, Scan, draw, grey_scale

from toneladder.errors import StripError
from toneladder.picture.opening import open_picture
from toneladder.scans.finding import find_strip
from toneladder.scans.reading import read_patches
from toneladder.scans.values import FoundStrip, GreyScale

# the scale that Tone Ladder is told of: 21 steps, 0.15 of density apart, from 0.05
SCALE = GreyScale(tuple(float(d) for d in 0.05 + 0.15 * np.arange(21)))
PAPER = 94.0
DPI = (150.0, 150.0, 200.0, 300.0, 300.0, 400.0, 600.0, 1200.0)


@dataclass(frozen=True)
class Trial:
    """One scan that was read: what was wrong with it, if anything, and by how much."""

    seed: int
    patches: int
    dpi: float
    fault: str
    errors: tuple[float, ...]
    spreads: tuple[float, ...]
    seconds: float


def scanned(seed: int) -> Trial:
    """A scan of a strip: askew, unevenly lit, noisy, some with a neighbour."""
    chance = np.random.default_rng(seed)
    dpi = float(chance.choice(DPI))
    row, page = _page(chance, small=dpi > 500)
    blur = chance.uniform(0.5, 1.6) * max(1.0, dpi / 300.0)
    look = Look(
        dpi=dpi,
        turn=chance.uniform(-10, 10) + 90.0 * chance.choice([0, 0, 2, 2, 1, 3]),
        gradient=chance.uniform(0.0, 0.15),
        gradient_towards=chance.uniform(0, 360),
        grain=chance.uniform(0.02, 0.08),
        noise=chance.uniform(0.001, 0.006),
        blur=blur,
        bits=int(chance.choice([8, 16])),
        jpeg=60 if chance.random() < 0.5 else None,
        mark=chance.choice([0.0, 2.0, 5.0]),
    )
    return _tried(seed, row, page, look, None)


def scaled(seed: int, *, gamma: float | None = None) -> Trial:
    """A scan by a scanner with a curve of its own, a grey scale beside the strip."""
    chance = np.random.default_rng(seed)
    row, page = _page(chance, beside=True)
    look = Look(
        dpi=float(chance.choice([150.0, 200.0, 300.0])),
        turn=chance.uniform(-10, 10) + 180.0 * chance.integers(2),
        gradient=chance.uniform(0.0, 0.15),
        gradient_towards=chance.uniform(0, 360),
        grain=chance.uniform(0.02, 0.08),
        noise=chance.uniform(0.001, 0.004),
        bits=int(chance.choice([8, 16])),
        gamma=gamma or chance.uniform(1.5, 2.6),
    )
    return _tried(seed, row, page, look, SCALE)


def photographed(seed: int) -> Trial:
    """A photograph from a telephone: in perspective, the table round the page."""
    chance = np.random.default_rng(seed)
    row, page = _page(chance, beside=True)
    page = replace(page, around=float(chance.uniform(20, 70)))
    look = Look(
        dpi=float(chance.uniform(110, 220)),
        turn=chance.uniform(-10, 10) + 180.0 * chance.integers(2),
        tilt=chance.uniform(0, 15),
        tilt_towards=chance.uniform(0, 360),
        gradient=chance.uniform(0.0, 0.25),
        gradient_towards=chance.uniform(0, 360),
        bow=chance.uniform(0.0, 0.1),
        grain=chance.uniform(0.02, 0.08),
        noise=chance.uniform(0.002, 0.008),
        blur=chance.uniform(0.8, 1.6),
        gain=chance.uniform(0.75, 0.95),
        jpeg=int(chance.choice([60, 80, 92])),
    )
    return _tried(seed, row, page, look, SCALE)


def tones_of(chance: np.random.Generator, patches: int) -> tuple[float, ...]:
    """Invented tones of doubling bites: plate tone or bare paper first, black and level at last."""
    bare = PAPER if chance.random() < 0.25 else float(chance.uniform(88.0, 92.5))
    black = float(chance.uniform(18.0, 32.0))
    quickness = chance.uniform(0.35, 0.7)
    step = chance.uniform(3.2, 7.0) / patches
    depth = quickness * np.expm1(step * np.arange(patches))
    tones = black + (bare - black) * np.exp(-depth / 2.2)
    if bare == PAPER:
        # a paler second patch could as well be the unbitten one, with plate tone on it
        tones[1:] = np.minimum(tones[1:], PAPER - 6.0)
    return tuple(float(tone) for tone in tones)


def _page(
    chance: np.random.Generator, *, beside: bool = False, small: bool = False
) -> tuple[Row, Page]:
    patches = int(chance.integers(4, 17))
    longest = 95.0 if small else 200.0
    pitch = min(float(chance.uniform(8, 25)), longest / patches)
    widths = pitch * (1.0 + chance.uniform(0, 0.03) * chance.normal(size=patches))
    height = float(chance.uniform(10, 14) if small else chance.uniform(12, 30))
    length = float(widths.sum())
    rows = [Row(0, 0, tuple(widths), height, tones_of(chance, patches))]
    if beside:
        step = float(chance.uniform(5.5, 8.5))
        rows.append(grey_scale(chance.uniform(-5, 5), height + chance.uniform(6, 15), step, 14.0))
    elif chance.random() < 0.4:
        other = int(chance.integers(4, 10))
        tones = tones_of(chance, other)[:: int(chance.choice([1, -1]))]
        share = chance.uniform(0.5, 0.85) * min(1.0, pitch * patches / (other * pitch))
        apart = chance.uniform(3, 12)
        rows.append(Row(2.0, height + apart, (pitch * share,) * other, height * 0.8, tones))
    right = max(row.x + sum(row.widths) for row in rows)
    left, foot = min(row.x for row in rows), max(row.y + row.height for row in rows)
    edge = 10.0 if small else float(chance.uniform(12, 30))
    lean = 0.18 * max(right - left, length)
    page = Page(
        right - left + 2 * edge + 0.18 * foot,
        foot + 2 * edge + lean,
        PAPER,
        tuple(
            replace(row, x=row.x - left + edge + 0.09 * foot, y=row.y + edge + lean / 2)
            for row in rows
        ),
    )
    return page.rows[0], page


def _tried(seed: int, row: Row, page: Page, look: Look, scale: GreyScale | None) -> Trial:
    scan = draw(page, look, seed)
    light = open_picture(scan.data, name="scan").light
    patches = len(row.tones)
    start = time.perf_counter()
    try:
        found = find_strip(light, patches=patches, scale=scale)
        bites = [float(n) for n in range(patches)]
        reading = read_patches(light, found, bites, scale=scale, photograph=look.tilt > 0)
    except StripError as refused:
        spent = time.perf_counter() - start
        return Trial(seed, patches, look.dpi, str(refused).split(".")[0], (), (), spent)
    spent = time.perf_counter() - start
    errors = tuple(
        patch.lightness - tone for patch, tone in zip(reading.patches, row.tones, strict=True)
    )
    fault = "" if _lies_right(found, scan) else "a patch lies elsewhere"
    spreads = tuple(patch.spread for patch in reading.patches)
    return Trial(seed, patches, look.dpi, fault, errors, spreads, spent)


def _lies_right(found: FoundStrip, scan: Scan) -> bool:
    """Whether every patch was found within a sixth of its width."""
    middles = np.array([np.mean(quad, axis=0) for quad in found.patches])
    off = np.linalg.norm(middles - np.array(scan.middles), axis=1)
    return bool((off < scan.patch_px / 6).all())
