"""An etching studio in numbers, that shares nothing with the program's own model.

Discs of resist are laid on a raster and etched pixel by pixel with a distance transform. Ink
lies in every pixel by itself: a meniscus of the wiping cloth reaches down into it, the deeper
the farther the next wall. Light goes in through the ink, wanders in the paper and comes out
somewhere else. Everything in micrometres.
"""

from dataclasses import dataclass

import numpy as np
from scipy.ndimage import distance_transform_edt, gaussian_filter

from toneladder.bite.values import Conditions
from toneladder.optics import FloatArray

DEPTHS_UM = np.geomspace(0.05, 160.0, 56)
_SIDE = 560


@dataclass(frozen=True, slots=True)
class Studio:
    """A metal, a bath, a ground, an ink and a way of wiping."""

    name: str
    conditions: Conditions
    coverage: float
    diameter_um: float
    spread: float
    rate_um_per_min: float
    slowing: float
    """Depth goes with the bite to this power: 1 is an even bite."""
    wetting_s: float
    """Seconds until the bite begins."""
    etch_factor: float
    wall: float
    """How far from a wall, in depths, the floor reaches its full depth."""
    cloth_um: float
    """Radius to which the wiping cloth bends into an opening."""
    rough: float
    """Share of the depth that stays as roughness of the floor, and holds ink."""
    ink_per_um: float
    black: float
    film: float
    """Optical depth of the plate tone."""
    paper_lightness: float
    wandering_um: float
    """How far light wanders in the paper."""


def printed_by_depth(studio: Studio, seed: int, depths_um: FloatArray = DEPTHS_UM) -> FloatArray:
    """CIE L* of the print for every depth of bite."""
    cell = studio.diameter_um / 36.0
    into_land = _ground(studio, cell, np.random.default_rng(seed))
    return np.array(
        [_lightness(_reflectance(d, studio, into_land, cell)) for d in depths_um.tolist()]
    )


def white(studio: Studio) -> float:
    """CIE L* of wiped, unbitten metal."""
    return _lightness(_luminance(studio.paper_lightness) * float(np.exp(-2.0 * studio.film)))


def depth_um(studio: Studio, bites_s: FloatArray) -> FloatArray:
    """Depth of every total bite."""
    minutes = np.maximum(bites_s - studio.wetting_s, 0.0) / 60.0
    return studio.rate_um_per_min * minutes**studio.slowing


def _ground(studio: Studio, cell: float, rng: np.random.Generator) -> FloatArray:
    """Distance (µm) from every pixel under resist to the nearest open metal; 0 where open."""
    land = np.zeros((_SIDE, _SIDE), dtype=bool)
    median = studio.diameter_um / 2.0 * np.exp(-(studio.spread**2) / 2.0)
    y, x = np.mgrid[:_SIDE, :_SIDE] * cell
    while land.mean() < studio.coverage:
        radius = median * np.exp(studio.spread * rng.normal())
        at_y, at_x = rng.uniform(-2.0 * median, _SIDE * cell + 2.0 * median, 2)
        land |= (y - at_y) ** 2 + (x - at_x) ** 2 <= radius**2
    return np.asarray(distance_transform_edt(land)) * cell


def _reflectance(depth: float, studio: Studio, into_land: FloatArray, cell: float) -> float:
    undercut = depth / studio.etch_factor
    standing = np.where(into_land > 0.0, np.clip((into_land - undercut) / cell + 0.5, 0, 1), 0.0)
    if (standing >= 0.5).any():
        to_wall = np.asarray(distance_transform_edt(standing < 0.5)) * cell
    else:
        to_wall = np.full_like(standing, 1e6)
    floor = depth * -np.expm1(-to_wall / (studio.wall * depth))
    wiped = to_wall**2 / (2.0 * studio.cloth_um)
    ink = np.maximum(floor - wiped, studio.rough * floor)
    inked = np.exp(-studio.film - studio.ink_per_um * ink)
    through = standing * np.exp(-studio.film) + (1.0 - standing) * inked
    back = gaussian_filter(through, studio.wandering_um / cell, mode="reflect")
    paper = _luminance(studio.paper_lightness) * (through * back)
    return float(np.mean(paper + (1.0 - standing) * studio.black * (1.0 - inked)))


def _luminance(lightness: float) -> float:
    return float(((lightness + 16.0) / 116.0) ** 3)


def _lightness(luminance: float) -> float:
    return float(116.0 * luminance ** (1.0 / 3.0) - 16.0)
