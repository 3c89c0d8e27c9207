"""What is known of a picture, and how the plate lies on it."""

from dataclasses import dataclass

MARK_CELLS = 3
PX_PER_MM = 8.0
MOST_CELLS = 40_000_000


@dataclass(frozen=True, slots=True)
class PictureRef:
    """A picture by what it is, not by its bytes.

    ``sha256`` is that of the file's bytes; ``width`` and ``height`` are pixels as the file
    is meant to be seen (orientation tag applied); ``depth`` is bits per channel.
    """

    sha256: str
    name: str
    width: int
    height: int
    depth: int


@dataclass(frozen=True, slots=True)
class Crop:
    """A piece of the picture, in shares (0..1) of its width and height, from its top left."""

    x: float = 0.0
    y: float = 0.0
    width: float = 1.0
    height: float = 1.0


@dataclass(frozen=True, slots=True)
class Laying:
    """How the picture lies under the plate.

    The picture is turned by ``turn_deg`` (clockwise, degrees) about the middle of ``crop``,
    mirrored left to right if asked, and the plate takes the largest centred piece of ``crop``
    that has its own proportions.
    """

    crop: Crop = Crop()
    turn_deg: float = 0.0
    mirrored: bool = False


@dataclass(frozen=True, slots=True)
class PlateSize:
    """Width and height of the metal, in millimetres, as the print is seen."""

    width_mm: float
    height_mm: float

    @property
    def area_cm2(self) -> float:
        """Area of the metal, square centimetres."""
        return self.width_mm * self.height_mm / 100.0


@dataclass(frozen=True, slots=True)
class Grid:
    """The plate's working raster: ``width`` by ``height`` cells, ``px_per_mm`` to the millimetre.

    The origin is the plate's top left corner as the print is seen; the pitch is exactly
    ``1 / px_per_mm``.
    """

    width: int
    height: int
    px_per_mm: float

    @property
    def cell_cm2(self) -> float:
        """Area of one cell, square centimetres."""
        return 1.0 / (self.px_per_mm**2 * 100.0)
