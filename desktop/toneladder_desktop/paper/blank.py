"""What the paper is without a print: the mark of the plate, and an outline to drop a picture in."""

from PySide6.QtCore import QRect, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from toneladder.wording import say
from toneladder_desktop.drawing.style import ON_SURROUND, Type, font

_BEVEL_MM = 1.0


def paint_mark(painter: QPainter, plate: QRect, paper: QColor, px_per_mm: float) -> None:
    """The mark that the plate leaves in the paper: shade at its upper left, shine below."""
    bevel = max(2, round(_BEVEL_MM * px_per_mm))
    outside = plate.adjusted(-bevel, -bevel, bevel, bevel)
    shade, shine = paper.darker(118), paper.lighter(106)
    painter.fillRect(outside, paper.darker(108))
    painter.fillRect(outside.left(), outside.top(), outside.width(), bevel, shade)
    painter.fillRect(outside.left(), outside.top(), bevel, outside.height(), shade)
    painter.fillRect(plate.left(), plate.bottom() + 1, plate.width() + bevel, bevel, shine)
    painter.fillRect(plate.right() + 1, plate.top(), bevel, plate.height() + bevel, shine)


def paint_empty(painter: QPainter, view: QRectF) -> None:
    """The outline of a plate that is not there yet, and what to do about it."""
    outline = QRectF(0.0, 0.0, 320.0, 240.0)
    outline.moveCenter(view.center())
    painter.setPen(QPen(QColor(ON_SURROUND), 1.5, Qt.PenStyle.DashLine))
    painter.drawRect(outline)
    painter.setFont(font(Type.HEAD))
    painter.drawText(
        outline, Qt.AlignmentFlag.AlignCenter, say("Drop a picture here,\nor open one.")
    )
