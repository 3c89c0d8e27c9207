"""Beside general libraries: how near to the best, and how long, for the same question."""

import warnings
from collections.abc import Callable, Iterator
from dataclasses import dataclass

import kmeans1d
import numpy as np
from numpy.typing import NDArray
from scipy import interpolate, optimize
from skimage import color as skimage_color
from skimage.filters import threshold_multiotsu
from tests.bench.clock import Work, in_turn
from tests.bench.curves import falling
from tests.bench.table import Table, figure, tell
from tests.studios.shops import Shop, all_shops
from tests.studios.trial import ladder_s, read_strip, session

from toneladder.bite.fitting import fit
from toneladder.picture.light import PairTables, srgb_response
from toneladder.picture.squint import LIGHTNESS_FULL, lightness16
from toneladder.tones.choose import Demand, levels_following

Floats = NDArray[np.float64]

_CELLS = 200_000
_OTSU_MOST = 4  # classes; every one more takes some hundred times as long
_LEVELS = np.linspace(92.0, 18.0, 256)


@dataclass(frozen=True, slots=True)
class Asked:
    """One way to answer, how far from the best its answer is, and the work to be timed."""

    who: str
    misses: tuple[str, ...]
    work: Work


def tables(runs: int) -> Iterator[Table]:
    """Tones, lightness and curves."""
    above = ("error above the least",)
    yield _compared("Choosing 4 tones", above, _choosing(4), runs)
    yield _compared("Choosing 12 tones", above, _choosing(12), runs)
    what = "Lightness of 4 megapixels of sRGB"
    yield _compared(what, ("furthest from its definition, L*",), list(_lightness()), runs)
    studios = f"one strip of each of {len(all_shops())} simulated studios"
    what = f"A curve through a strip of 8 patches, {studios}"
    off = ("middle error, L*", "with one bad patch")
    yield _compared(what, off, _fitting(), runs)


def _compared(title: str, misses: tuple[str, ...], asked: list[Asked], runs: int) -> Table:
    tell(title)
    spent = in_turn([one.work for one in asked], runs)
    cells = tuple(
        (one.who, figure(took.wall * 1e3), figure(took.wall / spent[0].wall), *one.misses)
        for one, took in zip(asked, spent, strict=True)
    )
    return Table(title, ("who", "ms", "× ours", *misses), cells)


# tones


def _histogram() -> Floats:
    """Cells of an invented picture on each of 256 lightnesses: a few hills of light and dark."""
    rng = np.random.default_rng(4)
    hills = sum(
        rng.uniform(0.2, 1.0)
        * np.exp(-(((_LEVELS - rng.uniform(20, 90)) / rng.uniform(3, 25)) ** 2))
        for _ in range(4)
    )
    counts = hills * rng.uniform(0.5, 1.0, 256)
    cells: Floats = np.floor(counts / counts.sum() * _CELLS)
    return cells


def _error(counts: Floats, levels: Floats) -> float:
    """Sum of squared distances from the nearest level."""
    return float((counts * ((_LEVELS[:, None] - levels) ** 2).min(axis=1)).sum())


def _choosing(number: int) -> list[Asked]:
    """Free ends and no least gap, which is all that the others can answer."""
    counts = _histogram()
    cells = np.repeat(_LEVELS, counts.astype(int))

    def ours() -> Floats:
        found = levels_following(_LEVELS, counts, [number], Demand())
        return np.array(found[number].levels)

    def exactly() -> Floats:
        return np.array(kmeans1d.cluster(cells, number)[1])

    def lloyd() -> Floats:
        from scipy.cluster.vq import kmeans

        return np.asarray(kmeans(cells, number, iter=1, rng=np.random.default_rng(1))[0])

    def otsu() -> Floats:
        found = threshold_multiotsu(classes=number, hist=(counts[::-1], _LEVELS[::-1]))
        part = np.searchsorted(found, _LEVELS)
        parts = (part == k for k in range(number))
        return np.array([np.average(_LEVELS[of], weights=counts[of]) for of in parts])

    ways: list[tuple[str, Callable[[], Floats]]] = [("ours, exact", ours)]
    ways.append(("kmeans1d, exact, cell by cell", exactly))
    ways.append(("scipy, Lloyd's iterations", lloyd))
    if number <= _OTSU_MOST:
        ways.append(("scikit-image, multi-level Otsu", otsu))
    best = min(_error(counts, way()) for _, way in ways)
    return [Asked(who, (_above(_error(counts, way()) / best - 1.0),), way) for who, way in ways]


def _above(share: float) -> str:
    return "none" if share < 1e-9 else f"{100.0 * share:.2g} %"


# lightness


def _lightness() -> Iterator[Asked]:
    rng = np.random.default_rng(8)
    rgb = rng.integers(0, 256, (2000, 2000, 3), dtype=np.uint8)
    quads = np.zeros((2000, 2000, 4), np.uint8)
    quads[..., :3] = rgb
    pairs = quads.view(np.uint16)
    tables = PairTables.of(srgb_response(3, 256))
    true = _defined(rgb)

    def ours() -> NDArray[np.uint16]:
        return lightness16(tables.light(pairs).astype(np.float32) / np.float32(65535.0))

    def by_skimage() -> NDArray[np.float64]:
        return np.asarray(skimage_color.rgb2lab(rgb)[..., 0])

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # it warns on import that it will not plot
        import colour

    def by_colour() -> NDArray[np.float64]:
        linear = colour.models.eotf_sRGB(rgb / 255.0)
        luminance = linear @ np.array([0.2126, 0.7152, 0.0722])
        return np.asarray(colour.colorimetry.lightness_CIE1976(100.0 * luminance))

    off = np.abs(ours() * (100.0 / LIGHTNESS_FULL) - true).max()
    yield Asked("ours, by tables", (figure(float(off)),), ours)
    yield Asked("scikit-image", (figure(float(np.abs(by_skimage() - true).max())),), by_skimage)
    yield Asked("colour-science", (figure(float(np.abs(by_colour() - true).max())),), by_colour)


def _defined(rgb: NDArray[np.uint8]) -> Floats:
    """CIE L* as IEC 61966-2-1 and CIE 15 define it, written out here."""
    code = np.arange(256) / 255.0
    linear = np.where(code <= 0.04045, code / 12.92, ((code + 0.055) / 1.055) ** 2.4)
    light = 0.2126 * linear[rgb[..., 0]] + 0.7152 * linear[rgb[..., 1]]
    light += 0.0722 * linear[rgb[..., 2]]
    lightness: Floats = np.where(
        light > 216.0 / 24389.0, 116.0 * np.cbrt(light) - 16.0, light * 24389.0 / 27.0
    )
    return lightness


# curves


def _fitting() -> list[Asked]:
    """One strip of each studio that is etched by other rules than the program's own."""
    chance = np.random.default_rng(12)
    shops = all_shops()
    bites = [ladder_s(shop) for shop in shops]
    good, bad = (
        [read_strip(*pair, chance, one_bad=one_bad)[0] for pair in zip(shops, bites, strict=True)]
        for one_bad in (False, True)
    )

    def miss(way: _Way, read: list[Floats]) -> str:
        off = [
            way(shop, bite, tones, between := np.geomspace(bite[1], bite[-1], 40))
            - shop.prints(between)
            for shop, bite, tones in zip(shops, bites, read, strict=True)
        ]
        return figure(float(np.sqrt(np.median([np.mean(one**2) for one in off]))))

    def timed(way: _Way) -> Work:
        return lambda: way(shops[0], bites[0], good[0], bites[0])

    ways = (
        ("ours, with its band of doubt", _ours),
        ("curve_fit, exponential, 3 parameters", _exponential),
        ("curve_fit, stretched exponential, 4 parameters", _stretched),
        ("monotone cubic over the logarithm of time", _monotone),
    )
    return [Asked(who, (miss(way, good), miss(way, bad)), timed(way)) for who, way in ways]


_Way = Callable[[Shop, Floats, Floats, Floats], Floats]
"""From a studio, the bites of its strip, what was read, and other bites to what these print."""


def _ours(shop: Shop, bites: Floats, read: Floats, between: Floats) -> Floats:
    curve = fit([session(bites, read)], shop.studio.conditions).curve
    return np.interp(between, curve.bites_s, curve.lightness)


def _exponential(_shop: Shop, bites: Floats, read: Floats, between: Floats) -> Floats:
    start = (90.0, 20.0, 100.0)
    found, _ = optimize.curve_fit(falling, bites, read, p0=start, maxfev=20_000)
    return falling(between, *found)


def _stretched(_shop: Shop, bites: Floats, read: Floats, between: Floats) -> Floats:
    def curve(bite: Floats, white: float, black: float, tau: float, power: float) -> Floats:
        return falling((bite / abs(tau)) ** abs(power), white, black, 1.0)

    start = (90.0, 20.0, 100.0, 0.9)
    found, _ = optimize.curve_fit(curve, bites, read, p0=start, maxfev=20_000)
    return curve(between, *found)


def _monotone(_shop: Shop, bites: Floats, read: Floats, between: Floats) -> Floats:
    axis = np.log(bites + 6.0)
    drawn = interpolate.PchipInterpolator(axis, np.minimum.accumulate(read))
    return np.asarray(drawn(np.log(between + 6.0)))
