"""The print on its paper, as it is seen: a grid through a colour table, or a finer picture."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QRect, QRectF, Qt
from PySide6.QtGui import (
    QColor,
    QImage,
    QPainter,
    QPaintEvent,
    QPen,
)
from PySide6.QtWidgets import QWidget

from toneladder.picture.values import PlateSize
from toneladder.preview.values import InkAndPaper
from toneladder.wording import say
from toneladder_desktop.drawing.style import ON_SURROUND, SURROUND
from toneladder_desktop.paper.aim import Aim
from toneladder_desktop.paper.blank import paint_empty, paint_mark
from toneladder_desktop.paper.framing import snapped
from toneladder_desktop.paper.laid import LaidPaper
from toneladder_desktop.paper.sampling import Sample, Sampling, indexed

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from toneladder_desktop.drawing.colour_table import ColourTable
    from toneladder_desktop.paper.hatching import Hatch

    Cells = NDArray[np.uint8]


@dataclass(frozen=True, slots=True, eq=False)
class Flat:
    """Cells of the plate in their colours, and where they and the plate lie, in millimetres."""

    image: QImage
    place: QRectF
    plate: QRectF


class PaperBody(LaidPaper):
    """Shows a plate's grid through a table of 256 colours, or a finer picture of the same.

    A new table is painted in the same frame.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(say("The print"))
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self._cells: Cells | None = None
        self._colours: list[int] = []
        self._fine: QImage | None = None
        self._sampling = Sampling()
        self._hatch: Hatch | None = None
        self._hatched: tuple[object, QImage] | None = None
        self._mask: Cells | None = None
        self._outline: tuple[object, QImage] | None = None
        self._ringed = self._target = False

    # what is shown

    def lay(self, size: PlateSize | None, printing: InkAndPaper) -> None:
        """The plate's size and what it is printed with; without a size there is only ground."""
        if size != self._size:
            self._cells = self._fine = None
            self._sampling.forget()
        super().lay(size, printing)

    def show_cells(self, cells: "Cells") -> None:
        """The plate's grid, (height, width) of uint8, as printed."""
        if cells is not self._cells:
            self._cells, self._fine = cells, None
            self._sampling.forget()
        self.update()

    def colour(self, table: "ColourTable", hatch: "Hatch | None" = None) -> None:
        """Another colour for each value of the grid: (n, 3) sRGB bytes; or black hatch instead."""
        from toneladder_desktop.drawing.colour_table import packed

        colours = packed(table)
        if colours != self._colours or hatch != self._hatch:
            self._colours, self._hatch = colours, hatch
            self._fine = self._hatched = None
            self.update()
            self.rested.emit()

    def show_fine(self, image: "Cells") -> None:
        """A finer picture of what is shown now, (height, width, 3) sRGB bytes, as printed."""
        height, width = image.shape[:2]
        self._fine = QImage(
            image.tobytes(), width, height, 3 * width, QImage.Format.Format_RGB888
        ).convertToFormat(QImage.Format.Format_RGB32)
        self.update()

    def show_glimpse(self, image: QImage) -> None:
        """A first look at a picture, on a sheet of its proportions, until its plate is laid."""
        longest = max(image.width(), image.height())
        size = PlateSize(200.0 * image.width() / longest, 200.0 * image.height() / longest)
        self.lay(size, self._printing)
        self._fine = image
        self.update()

    def forget_fine(self) -> None:
        """Only the plain cells again, until another finer picture is drawn."""
        self._fine = None
        self.update()

    def outline(self, mask: "Cells | None") -> None:
        """Ring the cells whose value the (256,) mask holds; None rings nothing."""
        self._mask, self._outline = mask, None
        self.update()

    @property
    def fine(self) -> bool:
        """Whether the finer picture is what is seen now."""
        return self._fine is not None

    def mark_target(self, *, target: bool) -> None:
        """A frame, while something hovers that could come down here."""
        self._target = target
        self.update()

    # how it is looked at

    def mirror(self, mirrored: bool) -> None:
        """As on the plate, or as printed."""
        self._outline = None
        self._sampling.forget()
        super().mirror(mirrored)

    def flat(self, aim: Aim) -> Flat | None:
        """The plain cells under a loupe as they print, if there are any yet."""
        if self._size is None or self._cells is None or not self._colours:
            return None
        px_per_mm = self._cells.shape[1] / self._size.width_mm
        height, width = self._cells.shape
        piece = aim.under(px_per_mm, (height, width))
        image = indexed(self._cells[piece.top : piece.bottom, piece.left : piece.right])
        image.setColorTable(self._colours)
        left, top = piece.left / px_per_mm, piece.top / px_per_mm
        right, bottom = piece.right / px_per_mm, piece.bottom / px_per_mm
        place = QRectF(left, top, right - left, bottom - top)
        return Flat(image, place, QRectF(0.0, 0.0, self._size.width_mm, self._size.height_mm))

    # painting

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw it."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(SURROUND))
        if self._framing is not None and self._size is not None:
            painter.fillRect(self.sheet(), self.paper_colour())
            ratio = self.devicePixelRatioF()
            left, top, width, height = snapped(self._framing.plate(self._view(), self._size), ratio)
            painter.scale(1.0 / ratio, 1.0 / ratio)
            plate = QRect(left, top, width, height)
            paint_mark(painter, plate, self.paper_colour(), self.device_px_per_mm)
            self._paint_plate(painter, plate)
        else:
            paint_empty(painter, self.rect().toRectF())
        if self._ringed or self._target:
            painter.resetTransform()
            painter.setPen(QPen(QColor(ON_SURROUND), 2))
            painter.drawRect(self.rect().adjusted(1, 1, -1, -1))

    def _paint_plate(self, painter: QPainter, plate: QRect) -> None:
        if self._fine is not None:
            fine = self._fine.flipped(Qt.Orientation.Horizontal) if self._mirrored else self._fine
            near = abs(fine.width() - plate.width()) <= 1 >= abs(fine.height() - plate.height())
            painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform, not near)
            painter.drawImage(plate, fine)
        elif self._cells is not None and self._colours:
            sample = self._sampled(plate, self._cells)
            painter.drawImage(sample.seen.topLeft(), self._inked(sample))
        else:
            painter.fillRect(plate, self.paper_colour().darker(112))
        if self._mask is not None and self._cells is not None:
            self._paint_outline(painter, plate, self._cells, self._mask)

    def _paint_outline(
        self, painter: QPainter, plate: QRect, cells: "Cells", mask: "Cells"
    ) -> None:
        from toneladder_desktop.paper.outline import ring

        sample = self._sampled(plate, cells)
        if self._outline is None or self._outline[0] is not sample:
            width = max(1, round(self.devicePixelRatioF()))
            self._outline = sample, ring(sample.image, mask, width)
        painter.drawImage(sample.seen.topLeft(), self._outline[1])

    def _inked(self, sample: Sample) -> QImage:
        """The sample in its colours, or hatched."""
        if self._hatch is None:
            sample.image.setColorTable(self._colours)
            return sample.image
        if self._hatched is None or self._hatched[0] is not sample:
            from toneladder_desktop.paper.hatching import hatched

            line = max(3, round(2.0 * self.devicePixelRatioF()))
            self._hatched = sample, hatched(sample.image, sample.at, self._hatch, line)
        image = self._hatched[1]
        image.setColorTable([self.paper_colour().rgb(), self.ink_on_paper().rgb()])
        return image

    def _sampled(self, plate: QRect, cells: "Cells") -> Sample:
        ratio = self.devicePixelRatioF()
        view = QRect(0, 0, round(self.width() * ratio), round(self.height() * ratio))
        return self._sampling.take(cells, plate, view, mirrored=self._mirrored)
