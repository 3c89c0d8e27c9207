"""What was read from a pulled proof, and how it lies on its scan."""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import ArrayLike, NDArray

FloatArray = NDArray[np.float64]
Raster = NDArray[np.float32]
ToneArray = NDArray[np.uint8]
BoolArray = NDArray[np.bool_]
IndexArray = NDArray[np.intp]

Point = tuple[float, float]
"""Pixels of the scan from its left and from its top; a pixel's middle lies at a half."""


@dataclass(frozen=True, slots=True)
class Registration:
    """How a print lies on its scan.

    ``matrix`` is (a, b, c), (d, e, f): the scan's pixel of a point of the plate in millimetres
    from its top left is (a x + b y + c, d x + e y + f). ``rotation_deg`` is clockwise;
    ``scale`` is the print's size on the scan against its size on the plate, by the resolution
    that the scan says it has, or in pixels of the scan to a cell of the plate if it says none.
    ``shift_mm`` is where the plate's middle lies from the scan's, to the right and down;
    ``shear`` a tangent. ``residual_mm`` is how far places of the print still lie off, root mean
    square; ``score`` how much of what changes from place to place the plan explains, 0 to 1, and
    ``confidence`` how far that is above what another picture could reach by chance, 0 to 1.
    """

    matrix: tuple[tuple[float, float, float], tuple[float, float, float]]
    rotation_deg: float
    scale: float
    shift_mm: tuple[float, float]
    shear: float
    residual_mm: float
    score: float
    confidence: float

    @property
    def px_per_mm(self) -> float:
        """Pixels of the scan to a millimetre of the plate."""
        (a, b, _), (d, e, _) = self.matrix
        return float(np.sqrt(abs(a * e - b * d)))

    def to_scan(self, x_mm: ArrayLike, y_mm: ArrayLike) -> tuple[FloatArray, FloatArray]:
        """Pixels of the scan of points of the plate, millimetres from its top left."""
        x, y = np.asarray(x_mm, dtype=np.float64), np.asarray(y_mm, dtype=np.float64)
        (a, b, c), (d, e, f) = self.matrix
        return np.asarray(a * x + b * y + c), np.asarray(d * x + e * y + f)


@dataclass(frozen=True, slots=True)
class ToneReading:
    """How one tone printed.

    Lightness is CIE L*: ``planned_lightness`` as the order has it, ``printed_lightness`` the
    median; ``low`` and ``high`` hold two places of the tone out of three. ``spread`` is the
    standard deviation of the reading, its own places and the device together. ``cells`` of the
    plate's grid were read. ``note`` is a sentence or empty.
    """

    tone: int
    planned_lightness: float
    printed_lightness: float
    spread: float
    cells: int
    low: float
    high: float
    note: str = ""

    @property
    def difference(self) -> float:
        """Printed less planned lightness; positive printed too light."""
        return self.printed_lightness - self.planned_lightness


@dataclass(frozen=True, slots=True)
class Place:
    """A place that printed otherwise than the rest of its tone.

    ``x_mm`` and ``y_mm`` are its middle, from the plate's top left; ``difference`` is CIE L*
    against the rest of the tone, positive is lighter.
    """

    tone: int
    x_mm: float
    y_mm: float
    area_mm2: float
    difference: float


@dataclass(frozen=True, slots=True, eq=False)
class DifferenceMap:
    """Printed less planned lightness, CIE L*, over the plate, (rows, columns), NaN where unread.

    Cells are ``pitch_mm`` wide and high from the plate's top left.
    """

    differences: Raster = field(repr=False)
    pitch_mm: float


@dataclass(frozen=True, slots=True, eq=False)
class ProofReading:
    """Everything that a scan of a proof told.

    ``unread`` are tones of the plan that could not be read; ``notes`` are sentences.
    """

    registration: Registration
    tones: tuple[ToneReading, ...]
    unread: tuple[int, ...]
    places: tuple[Place, ...]
    map: DifferenceMap
    notes: tuple[str, ...] = ()
