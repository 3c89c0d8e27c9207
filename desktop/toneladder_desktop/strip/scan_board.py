"""A scan with the strip that was found on it: its patches outlined, its corners to be dragged."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from toneladder.wording import say
from toneladder_desktop.drawing.style import ON_SURROUND, Type, font
from toneladder_desktop.fittings.corner_board import CornerBoard, Corners

if TYPE_CHECKING:
    from toneladder.scans.values import FoundStrip


class ScanBoard(CornerBoard):
    """The scan with its strip; moving a corner cuts the strip anew into even patches."""

    def __init__(self, parent: QWidget | None = None) -> None:
        self._found: FoundStrip | None = None
        super().__init__(
            say("The scan, with the patches found on it"),
            say("Drop a scan or a photograph of the strip here, or open one."),
            parent,
        )

    @property
    def found(self) -> "FoundStrip | None":
        """The strip that is shown."""
        return self._found

    def show_corners(self, corners: Corners) -> None:
        """Corners, or none and no strip."""
        if not corners:
            self._found = None
        super().show_corners(corners)

    def show_found(self, found: "FoundStrip") -> None:
        """The strip and its patches."""
        self._found = found
        self.setAccessibleDescription(say("{n} patches found", n=len(found.patches)))
        self.show_corners(found.corners)

    def lay_by_hand(self, patches: int) -> None:
        """No strip was found: begin with one in the middle, for its corners to be dragged."""
        width, height = self.sides
        x, y, w, h = 0.1 * width, 0.4 * height, 0.8 * width, 0.2 * height
        self._cut(((x, y), (x + w, y), (x + w, y + h), (x, y + h)), patches)

    def put(self, corners: Corners) -> None:
        """A hand has moved a corner: the patches follow."""
        if self._found is not None:
            self._cut(corners, len(self._found.patches))

    def paint_over(self, painter: QPainter) -> None:
        """Patches and steps outlined, patches numbered."""
        found = self._found
        if found is None:
            return
        for colour, width in (("white", 3.0), (ON_SURROUND, 1.2)):
            painter.setPen(QPen(QColor(colour), width))
            for quad in (*found.patches, *found.steps):
                painter.drawPolygon(QPolygonF([self.px(corner) for corner in quad]))
        painter.setFont(font(Type.STRONG))
        painter.setPen(QColor(ON_SURROUND))
        for number, quad in enumerate(found.patches, start=1):
            middle = QPolygonF([self.px(corner) for corner in quad]).boundingRect().center()
            box = QRectF(middle.x() - 10.0, middle.y() - 9.0, 20.0, 18.0)
            painter.fillRect(box, QColor("white"))
            painter.drawText(box, Qt.AlignmentFlag.AlignCenter, str(number))

    def _cut(self, corners: Corners, patches: int) -> None:
        from toneladder.scans.finding import strip_between

        a, b, c, d = corners
        self.show_found(strip_between((a, b, c, d), patches))
