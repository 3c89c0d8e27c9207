"""The 256 lightnesses on which tones are chosen and painted areas are cleaned.

Everything after the squint happens on this lattice: cleaning is flat morphology, which
commutes with parting, so that every number of tones is one look-up table of 256 entries.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from toneladder.optics import FloatArray
from toneladder.tones.values import Range

STEPS = 256
FULL_SCALE = 65535 / 100.0
LEAST_CONTRAST = 10.0
WITHOUT_CONTRAST = (95.0, 10.0)

LatticeArray = NDArray[np.uint8]
LightnessArray = NDArray[np.uint16]


@dataclass(frozen=True, slots=True)
class Lattice:
    """Even steps of picture lightness between the 0.1 and 99.9 percentiles of one picture.

    ``lowest`` is the CIE L* of step 0, ``pitch`` the L* between steps (above 0).
    ``paper_from`` and ``black_from`` are the 99.5 and 0.5 percentiles, L*.
    """

    lowest: float
    pitch: float
    paper_from: float
    black_from: float

    @property
    def flat(self) -> bool:
        """Whether the picture is all but one single lightness."""
        return self.paper_from - self.black_from < LEAST_CONTRAST

    def lightness(self) -> FloatArray:
        """Picture lightness L* of every step, shape (256,), rising."""
        return self.lowest + self.pitch * np.arange(STEPS, dtype=np.float64)


def lattice_of(lightness16: LightnessArray) -> Lattice:
    """The lattice of one picture.

    Parameters
    ----------
    lightness16 : (height, width) array of uint16
        CIE L* x 655.35 on the plate's grid, after the squint.
    """
    counts = np.bincount(lightness16.ravel(), minlength=65536)
    rising = np.cumsum(counts)

    def percentile(share: float) -> float:
        return float(np.searchsorted(rising, share * rising[-1])) / FULL_SCALE

    low, high = percentile(0.001), percentile(0.999)
    pitch = max(high - low, 1.0) / (STEPS - 1)
    return Lattice(low, pitch, percentile(0.995), percentile(0.005))


def on_lattice(lightness16: LightnessArray, lattice: Lattice) -> LatticeArray:
    """The nearest step of ``lattice`` for every cell, (height, width) of uint8."""
    codes = np.arange(65536) / FULL_SCALE
    nearest = np.rint((codes - lattice.lowest) / lattice.pitch)
    table = np.clip(nearest, 0, STEPS - 1).astype(np.uint8)
    return np.take(table, lightness16)


def target_lightness(lattice: Lattice, span: Range, paper: float, deepest: float) -> FloatArray:
    """The printed lightness L* each step of the lattice asks for, shape (256,), never falling.

    Parameters
    ----------
    lattice : Lattice
        Of the picture.
    span : Range
        What of the picture becomes paper and what deepest; None takes the lattice's own.
    paper, deepest : float, L*
        The lightest and darkest the plate can print, ``paper > deepest``.
    """
    white, black = ends_of(lattice, span)
    reach = max(white - black, lattice.pitch)
    dark: FloatArray = np.clip((white - lattice.lightness()) / reach, 0.0, 1.0)
    dark = dark**2.0**span.middle
    return paper - (paper - deepest) * dark


def ends_of(lattice: Lattice, span: Range) -> tuple[float, float]:
    """Picture lightness L* that becomes paper, and that which becomes deepest."""
    white, black = WITHOUT_CONTRAST if lattice.flat else (lattice.paper_from, lattice.black_from)
    return (
        white if span.paper_from is None else span.paper_from,
        black if span.black_from is None else span.black_from,
    )
