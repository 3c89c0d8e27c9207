"""The one hand that draws sheets: on the screen, into a PDF and on a printer alike."""

from functools import cache

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import (
    QColor,
    QFont,
    QFontDatabase,
    QFontMetricsF,
    QImage,
    QPainter,
    QPainterPath,
    QPen,
    QPolygonF,
)

from toneladder.boxes import Box
from toneladder.lettering import Face, font_path
from toneladder.sheets.marks import Anchor, Ink, Path, Picture, Sheet, Text

_GRAIN = 100.0  # units to the millimetre, so that letters have whole-numbered sizes
_COLOURS = {Ink.BLACK: QColor(0, 0, 0), Ink.WHITE: QColor(255, 255, 255)}
_SHIFTS = {Anchor.LEFT: 0.0, Anchor.MIDDLE: 0.5, Anchor.RIGHT: 1.0}


def paint(sheet: Sheet, painter: QPainter, px_per_mm: float) -> None:
    """Draw all marks of ``sheet``, its top left corner at the painter's origin.

    Parameters
    ----------
    sheet : Sheet
        The page.
    painter : QPainter
        An active painter; its state is the same afterwards.
    px_per_mm : float, > 0
        Units of the painter to the millimetre of paper.
    """
    painter.save()
    painter.setRenderHints(
        QPainter.RenderHint.Antialiasing
        | QPainter.RenderHint.TextAntialiasing
        | QPainter.RenderHint.SmoothPixmapTransform
        | QPainter.RenderHint.LosslessImageRendering
    )
    painter.scale(px_per_mm / _GRAIN, px_per_mm / _GRAIN)
    for mark in sheet.marks:
        if isinstance(mark, Path) and mark.within is not None:
            painter.save()
            painter.setClipRect(_rectangle(mark.within), Qt.ClipOperation.IntersectClip)
            _paint_path(mark, painter)
            painter.restore()
        elif isinstance(mark, Path):
            _paint_path(mark, painter)
        elif isinstance(mark, Text):
            _paint_text(mark, painter)
        else:
            _paint_picture(mark, painter)
    painter.restore()


@cache
def letters(face: Face) -> QFont:
    """The bundled ``face``, loaded once; sizes are the caller's.

    Raises
    ------
    FileNotFoundError
        The face's file is missing or cannot be read.
    """
    number = QFontDatabase.addApplicationFont(str(font_path(face)))
    if number < 0:
        raise FileNotFoundError(font_path(face))
    font = QFont(QFontDatabase.applicationFontFamilies(number)[0])
    font.setBold(face.bold)
    font.setItalic(face.italic)
    font.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
    return font


def _paint_path(path: Path, painter: QPainter) -> None:
    outline = QPainterPath()
    outline.setFillRule(Qt.FillRule.WindingFill)
    for points in path.lines:
        outline.addPolygon(QPolygonF([_point(x, y) for x, y in points]))
        if path.closed:
            outline.closeSubpath()
    if path.fill is not None:
        painter.fillPath(outline, _COLOURS[path.fill])
    if path.stroke_mm > 0.0:
        painter.strokePath(outline, _pen(path))


def _pen(path: Path) -> QPen:
    pen = QPen(_COLOURS[path.ink], path.stroke_mm * _GRAIN)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    if path.dash_mm is not None:
        pen.setDashPattern([length / path.stroke_mm for length in path.dash_mm])
    return pen


def _paint_text(text: Text, painter: QPainter) -> None:
    font = QFont(letters(text.face))
    font.setPixelSize(round(text.size_mm * _GRAIN))
    painter.setFont(font)
    painter.setPen(_COLOURS[text.ink])
    width = QFontMetricsF(font).horizontalAdvance(text.text)
    start = _point(text.x, text.y) - QPointF(_SHIFTS[text.anchor] * width, 0.0)
    painter.drawText(start, text.text)


def _paint_picture(picture: Picture, painter: QPainter) -> None:
    stride = (picture.columns + 7) // 8
    dots = QImage(picture.packed, picture.columns, picture.rows, stride, QImage.Format.Format_Mono)
    # with 0 for black a PDF keeps the dots one bit deep; otherwise it would take 24
    image = dots.copy()
    image.invertPixels()
    image.setColorTable([QColor(0, 0, 0).rgb(), QColor(255, 255, 255).rgb()])
    painter.drawImage(_rectangle(picture.box), image)


def _rectangle(box: Box) -> QRectF:
    return QRectF(_point(box.x, box.y), _point(box.right, box.bottom))


def _point(x: float, y: float) -> QPointF:
    return QPointF(x * _GRAIN, y * _GRAIN)
