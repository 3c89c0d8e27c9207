"""The print on its paper, as it is seen: a grid through a colour table, or a finer picture."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QImage,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from toneladder.picture.values import PlateSize
from toneladder.proof.values import InkAndPaper
from toneladder.wording import say
from toneladder_desktop.drawing.style import ON_SURROUND, SURROUND, Type, font
from toneladder_desktop.paper.framing import FOOT_PX, Framing, fitted, snapped

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from toneladder_desktop.drawing.colour_table import ColourTable

    Cells = NDArray[np.uint8]

_BEVEL_MM = 1.0


class PaperBody(QWidget):
    """Shows a plate's grid through a table of 256 colours, or a finer picture of the same.

    A new table is painted in the same frame. ``rested`` says that scale or content changed, so
    that a finer picture is wanted; ``scaled`` that the scale did.
    """

    rested = Signal()
    scaled = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(say("The print"))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumSize(240, 180)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self._size: PlateSize | None = None
        self._printing = InkAndPaper()
        self._framing: Framing | None = None
        self._follows: str = "print"
        self._mirrored = False
        self._cells: Cells | None = None
        self._colours: list[int] = []
        self._fine: QImage | None = None
        self._sample: tuple[object, QImage] | None = None
        self._mask: Cells | None = None
        self._outline: tuple[object, QImage] | None = None
        self._ringed = self._target = False

    # what is shown

    def lay(self, size: PlateSize | None, printing: InkAndPaper) -> None:
        """The plate's size and what it is printed with; without a size there is only ground."""
        if size != self._size:
            self._size, self._framing = size, None
            self._cells = self._fine = self._sample = None
            self._reframe()
        self._printing = printing
        self.update()

    def show_cells(self, cells: "Cells") -> None:
        """The plate's grid, (height, width) of uint8, as printed."""
        if cells is not self._cells:
            self._cells = cells
            self._sample = self._fine = None
        self.update()

    def colour(self, table: "ColourTable") -> None:
        """Another colour for each value of the grid: (n, 3) sRGB bytes."""
        from toneladder_desktop.drawing.colour_table import packed

        colours = packed(table)
        if colours != self._colours:
            self._colours = colours
            self._fine = None
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

    @property
    def px_per_mm(self) -> float:
        """The scale, in the window's pixels."""
        return 1.0 if self._framing is None else self._framing.px_per_mm

    @property
    def device_px_per_mm(self) -> float:
        """The scale, in the screen's own pixels."""
        return self.px_per_mm * self.devicePixelRatioF()

    @property
    def mirrored(self) -> bool:
        """Whether the picture is seen as it lies on the plate."""
        return self._mirrored

    def mirror(self, mirrored: bool) -> None:  # noqa: FBT001 - a signal brings it
        """As on the plate, or as printed."""
        self._mirrored = mirrored
        self._sample = self._outline = None
        self.update()

    def fit(self) -> None:
        """The whole print with a little of its paper."""
        self._follows = "print"
        self._reframe()

    def fit_sheet(self) -> None:
        """The whole sheet of paper, with its margins."""
        self._follows = "sheet"
        self._reframe()

    def scale_to(self, px_per_mm: float) -> None:
        """A given scale about the middle of the view, in the window's pixels."""
        self.zoom(px_per_mm / self.px_per_mm, QPointF(self.width() / 2.0, self.height() / 2.0))

    def zoom(self, factor: float, at: QPointF | None = None) -> None:
        """Nearer (factor above 1) or further, about a place of the view."""
        if self._framing is None:
            return
        at = at or QPointF(self.width() / 2.0, self.height() / 2.0)
        self._follows = ""
        self._frame(self._framing.zoomed(factor, self._view(), at.x(), at.y()))

    def move_by(self, dx: float, dy: float) -> None:
        """Push the paper by so many pixels."""
        if self._framing is not None and self._size is not None:
            self._follows = ""
            self._frame(self._framing.moved(dx, dy, self._size))

    def sheet(self) -> QRect:
        """The sheet of paper within the view, in the window's pixels."""
        if self._framing is None or self._size is None:
            return QRect()
        plate = self._framing.plate(self._view(), self._size)
        margin = self._framing.margin_mm * self._framing.px_per_mm
        foot = max(margin, FOOT_PX)
        return QRectF(
            plate.left - margin,
            plate.top - margin,
            plate.width + 2 * margin,
            plate.height + margin + foot,
        ).toRect()

    def paper_colour(self) -> QColor:
        """The paper the plate is printed on."""
        return QColor(self._printing.paper)

    def sizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """What room it would like."""
        return QSize(739, 519)

    # painting

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802 - Qt's name
        """Draw it."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(SURROUND))
        if self._framing is not None and self._size is not None:
            painter.fillRect(self.sheet(), self.paper_colour())
            ratio = self.devicePixelRatioF()
            left, top, width, height = snapped(self._framing.plate(self._view(), self._size), ratio)
            painter.scale(1.0 / ratio, 1.0 / ratio)
            plate = QRect(left, top, width, height)
            self._paint_mark(painter, plate)
            self._paint_plate(painter, plate)
        else:
            self._paint_empty(painter)
        if self._ringed or self._target:
            painter.resetTransform()
            painter.setPen(QPen(QColor(ON_SURROUND), 2))
            painter.drawRect(self.rect().adjusted(1, 1, -1, -1))

    def _paint_empty(self, painter: QPainter) -> None:
        """The outline of a plate that is not there yet, and what to do about it."""
        middle = self.rect().toRectF().center()
        outline = QRectF(0.0, 0.0, 320.0, 240.0)
        outline.moveCenter(middle)
        painter.setPen(QPen(QColor(ON_SURROUND), 1.5, Qt.PenStyle.DashLine))
        painter.drawRect(outline)
        painter.setFont(font(Type.HEAD))
        painter.drawText(
            outline, Qt.AlignmentFlag.AlignCenter, say("Drop a picture here,\nor open one.")
        )

    def _paint_mark(self, painter: QPainter, plate: QRect) -> None:
        """The mark that the plate leaves in the paper: shade at its upper left, shine below."""
        bevel = max(2, round(_BEVEL_MM * self.device_px_per_mm))
        outside = plate.adjusted(-bevel, -bevel, bevel, bevel)
        paper = self.paper_colour()
        shade, shine = paper.darker(118), paper.lighter(106)
        painter.fillRect(outside, paper.darker(108))
        painter.fillRect(outside.left(), outside.top(), outside.width(), bevel, shade)
        painter.fillRect(outside.left(), outside.top(), bevel, outside.height(), shade)
        painter.fillRect(plate.left(), plate.bottom() + 1, plate.width() + bevel, bevel, shine)
        painter.fillRect(plate.right() + 1, plate.top(), bevel, plate.height() + bevel, shine)

    def _paint_plate(self, painter: QPainter, plate: QRect) -> None:
        if self._fine is not None:
            fine = self._fine.flipped(Qt.Orientation.Horizontal) if self._mirrored else self._fine
            near = abs(fine.width() - plate.width()) <= 1 >= abs(fine.height() - plate.height())
            painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform, not near)
            painter.drawImage(plate, fine)
        elif self._cells is not None and self._colours:
            seen, image = self._sampled(plate, self._cells)
            image.setColorTable(self._colours)
            painter.drawImage(seen.topLeft(), image)
        else:
            painter.fillRect(plate, self.paper_colour().darker(112))
        if self._mask is not None and self._cells is not None:
            self._paint_outline(painter, plate, self._cells, self._mask)

    def _paint_outline(
        self, painter: QPainter, plate: QRect, cells: "Cells", mask: "Cells"
    ) -> None:
        from toneladder_desktop.paper.outline import ring

        seen, image = self._sampled(plate, cells)
        key = self._sample
        if self._outline is None or self._outline[0] is not key:
            self._outline = key, ring(image, mask, max(1, round(self.devicePixelRatioF())))
        painter.drawImage(seen.topLeft(), self._outline[1])

    def _sampled(self, plate: QRect, cells: "Cells") -> tuple[QRect, QImage]:
        """The part of the plate that is in view, one cell for each of the screen's pixels."""
        import numpy as np

        ratio = self.devicePixelRatioF()
        view = QRect(0, 0, round(self.width() * ratio), round(self.height() * ratio))
        seen = plate.intersected(view)
        key = (plate.getRect(), seen.getRect())
        if self._sample is not None and self._sample[0] == key:
            return seen, self._sample[1]
        rows = _cells_under(seen.top() - plate.top(), seen.height(), plate.height(), len(cells))
        columns = _cells_under(
            seen.left() - plate.left(), seen.width(), plate.width(), cells.shape[1]
        )
        if self._mirrored:
            columns = cells.shape[1] - 1 - columns
        taken = np.ascontiguousarray(cells.take(rows, axis=0).take(columns, axis=1))
        image = QImage(
            taken.tobytes(),
            taken.shape[1],
            len(taken),
            taken.shape[1],
            QImage.Format.Format_Indexed8,
        ).copy()
        image.setColorTable(self._colours)
        self._sample = key, image
        return seen, image

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """Fit again, unless a scale was chosen."""
        super().resizeEvent(event)
        self._reframe()

    def _reframe(self) -> None:
        """Fit again, unless the etcher has chosen a scale."""
        if self._size is None:
            self._framing = None
        elif self._follows == "sheet":
            self._frame(fitted(self._view(), self._size, self._printing.margin_mm))
        elif self._follows == "print" or self._framing is None:
            self._frame(fitted(self._view(), self._size))
        else:
            self._frame(self._framing)

    def _frame(self, framing: Framing) -> None:
        self._framing = framing
        self.update()
        self.scaled.emit()
        self.rested.emit()

    def _view(self) -> tuple[float, float]:
        return float(self.width()), float(self.height())


def _cells_under(start: int, count: int, pixels: int, cells: int) -> "NDArray[np.intp]":
    """The cell under the middle of each of ``count`` pixels, of ``pixels`` that cover them all."""
    import numpy as np

    at = (np.arange(start, start + count) + 0.5) * (cells / pixels)
    return np.clip(at.astype(np.intp), 0, cells - 1)
