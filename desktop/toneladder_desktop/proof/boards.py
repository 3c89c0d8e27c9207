"""The scan of a proof with the plate's corners on it, and the map of what strayed."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QImage, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from toneladder.wording import say
from toneladder_desktop.drawing.style import ON_SURROUND, SURROUND, Type, font
from toneladder_desktop.fittings.corner_board import CornerBoard, say_in

if TYPE_CHECKING:
    from toneladder.proof.values import DifferenceMap, Place

_MOST = 12.0  # L* at which the map is full black or white


class ProofBoard(CornerBoard):
    """The scan of a proof with the plate's corners, from its top left clockwise."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(
            say("The scan of the proof, with the plate's corners"),
            say("Drop a scan of the proof here, or open one."),
            parent,
        )

    def mark_by_hand(self) -> None:
        """Begin with corners near those of the scan, to be dragged."""
        width, height = self.sides
        x, y = 0.12 * width, 0.12 * height
        self.show_corners(((x, y), (width - x, y), (width - x, height - y), (x, height - y)))


class StrayedMap(QWidget):
    """Where the print is lighter or darker than planned: light and dark about the neutral grey."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(say("Map of the differences"))
        self.setMinimumSize(220, 140)
        self._image = QImage()
        self._size_mm = (1.0, 1.0)
        self._places: tuple[Place, ...] = ()

    def show_map(self, found: "DifferenceMap | None", places: "tuple[Place, ...]") -> None:
        """The map of a proof, and its places that strayed, numbered; or nothing."""
        self._places = places
        self._image = QImage() if found is None else _grey(found)
        if found is not None:
            rows, columns = found.differences.shape
            self._size_mm = (columns * found.pitch_mm, rows * found.pitch_mm)
        self.setAccessibleDescription(say("{n} places strayed", n=len(places)))
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw it."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), QColor(SURROUND))
        if self._image.isNull():
            words = say("Where the print is darker than planned this map will be dark.")
            say_in(self, painter, words)
            return
        across, down = self._size_mm
        scale = min((self.width() - 20) / across, (self.height() - 20) / down)
        width, height = across * scale, down * scale
        left, top = (self.width() - width) / 2.0, (self.height() - height) / 2.0
        painter.drawImage(QRectF(left, top, width, height), self._image)
        painter.setPen(QPen(QColor(ON_SURROUND), 1.0))
        painter.drawRect(QRectF(left, top, width, height))
        painter.setFont(font(Type.STRONG))
        for number, place in enumerate(self._places, start=1):
            at = QPointF(left + place.x_mm * scale, top + place.y_mm * scale)
            box = QRectF(at.x() - 9.0, at.y() - 9.0, 18.0, 18.0)
            painter.fillRect(box, QColor("white"))
            painter.drawRect(box)
            painter.drawText(box, Qt.AlignmentFlag.AlignCenter, str(number))


def _grey(found: "DifferenceMap") -> QImage:
    """Differences as greys about the surround: as planned is the surround itself."""
    import numpy as np

    share = np.clip(np.nan_to_num(found.differences) / _MOST, -1.0, 1.0)
    middle = int(SURROUND[1:3], 16)
    grey = np.where(share > 0.0, middle + share * (255 - middle), middle * (1.0 + share))
    codes = np.ascontiguousarray(np.rint(grey).astype(np.uint8))
    height, width = codes.shape
    return QImage(codes.tobytes(), width, height, width, QImage.Format.Format_Grayscale8).copy()
