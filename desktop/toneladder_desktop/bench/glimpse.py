"""A first look at a file, before what works it out is even loaded."""

import zipfile
from pathlib import Path

from PySide6.QtCore import QBuffer, QByteArray, QFile, QIODevice, QSize, Qt
from PySide6.QtGui import QImage, QImageReader

LONGEST_PX = 1200
_SMALL = 20_000_000


def glimpse(source: Path | bytes) -> QImage:
    """The picture, or the preview in a plate's file, quickly and not large; null if none."""
    if isinstance(source, bytes):
        return _read(_buffer(source))
    if zipfile.is_zipfile(source):
        return _preview_in(source)
    return _read(QFile(str(source)))


def _preview_in(path: Path) -> QImage:
    try:
        with zipfile.ZipFile(path) as archive:
            if archive.getinfo("preview.png").file_size > _SMALL:
                return QImage()
            return _read(_buffer(archive.read("preview.png")))
    except (OSError, KeyError, ValueError, zipfile.BadZipFile, NotImplementedError, RuntimeError):
        return QImage()


def _buffer(data: bytes) -> QBuffer:
    device = QBuffer()
    device.setData(QByteArray(data))
    return device


def _read(device: QIODevice) -> QImage:
    reader = QImageReader(device)
    reader.setAutoTransform(True)
    size = reader.size()
    if not size.isValid():
        return QImage()
    if max(size.width(), size.height()) > LONGEST_PX:
        longest = QSize(LONGEST_PX, LONGEST_PX)
        reader.setScaledSize(size.scaled(longest, Qt.AspectRatioMode.KeepAspectRatio))
    return reader.read().convertToFormat(QImage.Format.Format_Grayscale8)
