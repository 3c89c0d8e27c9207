"""A sheet of paper with the print of a plate, and how it lies in the view."""

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Signal
from PySide6.QtGui import QColor, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from toneladder.picture.values import PlateSize
from toneladder.preview.values import InkAndPaper
from toneladder_desktop.drawing.style import LIGHT
from toneladder_desktop.paper.framing import FOOT_PX, Framing, fitted


class LaidPaper(QWidget):
    """Nearer or further, pushed about, fitted, as printed or mirrored; it paints nothing.

    ``rested`` says that scale or content changed, so that a finer picture is wanted; ``scaled``
    that the scale did.
    """

    rested = Signal()
    scaled = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumSize(240, 180)
        self._size: PlateSize | None = None
        self._printing = InkAndPaper()
        self._framing: Framing | None = None
        self._follows: str = "print"
        self._mirrored = False

    def lay(self, size: PlateSize | None, printing: InkAndPaper) -> None:
        """The plate's size and what it is printed with; without a size there is only ground."""
        if size != self._size:
            self._size, self._framing = size, None
            self._reframe()
        self._printing = printing
        self.update()

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

    def mirror(self, mirrored: bool) -> None:
        """As on the plate, or as printed."""
        self._mirrored = mirrored
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

    def plate(self) -> QRectF:
        """The plate within the view, in the window's pixels."""
        if self._framing is None or self._size is None:
            return QRectF()
        box = self._framing.plate(self._view(), self._size)
        return QRectF(box.left, box.top, box.width, box.height)

    def paper_colour(self) -> QColor:
        """The paper the plate is printed on."""
        return QColor(self._printing.paper)

    def ink_on_paper(self) -> QColor:
        """Black, or white if the paper is dark."""
        return QColor(LIGHT.ink if self.paper_colour().lightnessF() > 0.5 else "#FFFFFF")

    def place_at(self, at: QPointF) -> tuple[float, float]:
        """What lies under a pixel, millimetres from the plate's upper left corner as it prints."""
        if self._framing is None or self._size is None:
            return 0.0, 0.0
        x_mm, y_mm = self._framing.place(self._view(), at.x(), at.y())
        return self._size.width_mm - x_mm if self._mirrored else x_mm, y_mm

    def spot_of(self, x_mm: float, y_mm: float) -> QPointF:
        """Where a place of the plate, as it prints, is seen: the way back from ``place_at``."""
        if self._framing is None or self._size is None:
            return QPointF()
        plate = self._framing.plate(self._view(), self._size)
        across = (self._size.width_mm - x_mm if self._mirrored else x_mm) * self.px_per_mm
        return QPointF(plate.left + across, plate.top + y_mm * self.px_per_mm)

    def sizeHint(self) -> QSize:
        """What room it would like."""
        return QSize(739, 519)

    def resizeEvent(self, event: QResizeEvent) -> None:
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
