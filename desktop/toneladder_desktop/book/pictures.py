"""Small pictures of plates: as the book keeps them, and as numbers for a sheet."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, Qt
from PySide6.QtGui import QImage, QImageWriter

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

PICTURE_PX = 320
"""The longest side of a picture that the book keeps: sharp in a row, also on fine screens."""


def small(image: QImage, longest_px: int) -> QImage:
    """``image`` no larger than that; a null image stays one."""
    if image.isNull() or max(image.width(), image.height()) <= longest_px:
        return image
    return image.scaled(
        longest_px,
        longest_px,
        Qt.AspectRatioMode.KeepAspectRatio,
        Qt.TransformationMode.SmoothTransformation,
    )


def as_png(image: QImage) -> bytes:
    """The image as PNG; nothing of a null one."""
    if image.isNull():
        return b""
    device = QBuffer()
    device.open(QIODevice.OpenModeFlag.WriteOnly)
    QImageWriter(device, QByteArray(b"png")).write(image)
    return bytes(device.data().data())


def from_png(data: bytes) -> QImage:
    """The image in ``data``; null if there is none."""
    return QImage.fromData(QByteArray(data)) if data else QImage()


def grey_of(image: QImage) -> "NDArray[np.uint8] | None":
    """The image as (rows, columns) of uint8, 0 for black; None of a null one."""
    if image.isNull():
        return None
    import numpy as np

    grey = image.convertToFormat(QImage.Format.Format_Grayscale8)
    rows = np.frombuffer(grey.constBits(), dtype=np.uint8).reshape(-1, grey.bytesPerLine())
    return rows[:, : grey.width()].copy()
