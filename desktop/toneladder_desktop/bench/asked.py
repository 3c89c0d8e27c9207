"""What is asked of the bench's background, and what it answers: frozen values, one a stage."""

from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtGui import QImage

from toneladder.bite.values import BiteCurve, Conditions
from toneladder.plate.values import Plate
from toneladder.preview.values import InkAndPaper
from toneladder_desktop.bench.bench import Lying
from toneladder_desktop.bench.look import View

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from toneladder.bite.fitting import Fit
    from toneladder.borders.remedies import Passage
    from toneladder.picture.opening import Picture
    from toneladder.plan.planning import Plan
    from toneladder.plan.preparing import Prepared
    from toneladder.plan.standing import Footing
    from toneladder.plate.file import PlateFile
    from toneladder.sheets.documents import Document
    from toneladder.tones.pointing import Rings


@dataclass(frozen=True, slots=True, eq=False)
class OpenFile:
    """A file, or what is in it, to be opened as a plate or as a picture.

    ``with_glimpse`` wants a first look at it before it is read.
    """

    source: Path | bytes = field(repr=False)
    name: str
    limit_megapixels: float
    with_glimpse: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class WorkOut:
    """The open plate, to be worked out."""

    lying: Lying


@dataclass(frozen=True, slots=True, eq=False)
class Pull:
    """A view of a plan, as large as the screen shows it; ``step`` None is the finished plate."""

    plan: "Plan"
    view: View
    step: int | None
    px_per_mm: float


@dataclass(frozen=True, slots=True)
class Magnify:
    """A few millimetres of the print, grain by grain, as the loupe shows them.

    ``tones`` are the tone numbers of the plate's cells, row by row, ``across`` in a row, and
    ``px_per_mm`` of them to a millimetre; ``origin_mm`` is where their upper left corner lies
    on the plate. ``lightness`` is what each tone prints, ``bitten_s`` its total bite at the bite
    curve's temperature.
    """

    tones: bytes = field(repr=False)
    across: int
    px_per_mm: float
    origin_mm: tuple[float, float]
    um_per_px: float
    lightness: tuple[float, ...]
    bitten_s: tuple[float, ...]
    conditions: Conditions
    printing: InkAndPaper


@dataclass(frozen=True, slots=True, eq=False)
class LayOut:
    """Some kinds of sheets of a plan, to be laid out on an office paper (``a4`` or ``letter``)."""

    plan: "Plan"
    paper: str
    made_on: date
    kinds: tuple[str, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Copy:
    """A copy of the open plate's picture, as small as a screen needs it."""

    lying: Lying


@dataclass(frozen=True, slots=True, eq=False)
class Point:
    """The place of one tone under a point of the plate (mm, as it prints)."""

    plan: "Plan"
    x_mm: float
    y_mm: float


@dataclass(frozen=True, slots=True, eq=False)
class Soften:
    """The soft passages of a plan."""

    plan: "Plan"


@dataclass(frozen=True, slots=True, eq=False)
class Save:
    """The open plate, to be written to its file."""

    path: Path
    lying: Lying
    plan: "Plan | None"


@dataclass(frozen=True, slots=True, eq=False)
class Glimpsed:
    """A first look at what is being opened."""

    image: QImage


@dataclass(frozen=True, slots=True, eq=False)
class OpenedPlate:
    """A plate's file was read."""

    file: "PlateFile"


@dataclass(frozen=True, slots=True, eq=False)
class OpenedPicture:
    """A picture's file was read; ``data`` is its bytes."""

    picture: "Picture"
    data: bytes = field(repr=False)


@dataclass(frozen=True, slots=True, eq=False)
class Readied:
    """Everything of a plate that does not depend on the number of tones, and its curve.

    A first one may be coarser, to be seen sooner.
    ``fit`` is what the strips say one by one, if the curve stands on any.
    """

    prepared: "Prepared"
    sha256: str
    curve: BiteCurve = field(repr=False)
    footing: "Footing"
    fit: "Fit | None" = field(default=None, repr=False)

    def fits(self, plate: Plate) -> bool:
        """Whether it holds for ``plate`` too, so that its tones can be chosen at once."""
        from toneladder.plan.preparing import seen_of
        from toneladder.plan.standing import footing_of

        return (
            plate.picture.sha256 == self.sha256
            and seen_of(plate) == self.prepared.seen
            and footing_of(plate) == self.footing
        )


@dataclass(frozen=True, slots=True, eq=False)
class Planned:
    """The whole plan."""

    plan: "Plan"


@dataclass(frozen=True, slots=True, eq=False)
class Pulled:
    """The view that was asked for, (height, width, 3) sRGB bytes."""

    image: "NDArray[np.uint8]" = field(repr=False)


@dataclass(frozen=True, slots=True, eq=False)
class Magnified:
    """The grain that was asked for, (height, width, 3) sRGB bytes."""

    image: "NDArray[np.uint8]" = field(repr=False)


@dataclass(frozen=True, slots=True, eq=False)
class Copied:
    """The copy that was asked for, grey, (height, width) bytes, and its picture's hash."""

    image: "NDArray[np.uint8]" = field(repr=False)
    sha256: str


@dataclass(frozen=True, slots=True, eq=False)
class Pointed:
    """The outlines of the place that was pointed at, in shares of the whole picture."""

    rings: "Rings" = field(repr=False)


@dataclass(frozen=True, slots=True, eq=False)
class Softened:
    """The soft passages that were asked for."""

    passages: "tuple[Passage, ...]"


@dataclass(frozen=True, slots=True, eq=False)
class LaidOut:
    """The sheets that were asked for, kind by kind."""

    documents: "tuple[Document, ...]"
