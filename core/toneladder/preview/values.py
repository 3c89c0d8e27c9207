"""What a plate is printed with, and what its grain looks like."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class InkAndPaper:
    """What the plate is printed with: ink and paper as sRGB, the paper's margin in mm."""

    ink: str = "#1d1b1a"
    paper: str = "#f4efe3"
    margin_mm: float = 50.0


@dataclass(frozen=True, slots=True)
class Texture:
    """The grain as it is seen from too far away to tell one particle from the next.

    ``coverage`` is the share (0..1) of the metal under the fresh grain. ``correlation_area_um2``
    is the integral of the grain's correlation over the plane, square micrometres: the coverage
    of a large window of area A varies from place to place with the variance
    ``coverage * (1 - coverage) * correlation_area_um2 / A``.
    """

    coverage: float
    correlation_area_um2: float


@dataclass(frozen=True, slots=True)
class LoupeGrain:
    """The grain as discs under the glass.

    ``coverage`` (0..1) of the fresh grain, mean ``diameter_um`` of its discs, ``spread`` the
    standard deviation of the logarithm of their diameters. ``undercut_um`` is how far the
    mordant has eaten sideways under every edge when each tone is done; without it only as much
    is eaten as the tone needs. ``ink_lightness`` is the L* of ink lying thick.
    """

    coverage: float
    diameter_um: float
    spread: float
    undercut_um: tuple[float, ...] = ()
    ink_lightness: float = 10.0
