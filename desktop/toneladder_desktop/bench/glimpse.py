"""A first look at a file, before what works it out is even loaded."""

from pathlib import Path

from PySide6.QtCore import QBuffer, QByteArray, QFile, QIODevice, QRect, QSize
from PySide6.QtGui import QImage, QImageReader

from toneladder.book.network import seems_on_a_network

SAMPLE_LOOK = Path(__file__).parent / "sample_look.png"
"""The sample plate as it prints, as small as a window shows it."""

LONGEST_PX = 1200
AT_ONCE_MEGAPIXELS = 4.0
"""Of so many a window may take a first look before it is there; of JPEG, of many times more."""

_SMALL = 20_000_000
_ZIP = b"PK\x03\x04"


def glimpse(source: Path | bytes) -> QImage:
    """The picture, or the preview in a plate's file, quickly and not large; null if none."""
    if isinstance(source, bytes):
        return _grey(_read(_buffer(source)))
    if not is_file(source):
        return QImage()
    if _is_zip(source):
        return _preview_in(source)
    return _grey(_read(QFile(str(source))))


def glimpse_of_sample() -> QImage:
    """The sample plate as it prints."""
    return _read(QFile(str(SAMPLE_LOOK)))


def glimpse_at_once(path: Path) -> QImage:
    """The same, of what is read in a moment; null if the file may take longer, or is far away."""
    if seems_on_a_network(path):
        return QImage()
    if is_file(path) and not _is_zip(path):
        reader = QImageReader(str(path))
        size = reader.size()
        megapixels = size.width() * size.height() / 1e6
        scaled_while_read = bytes(reader.format().data()) == b"jpeg"
        if megapixels > AT_ONCE_MEGAPIXELS * (8.0 if scaled_while_read else 1.0):
            return QImage()
    return glimpse(path)


def is_file(path: Path) -> bool:
    """Whether a file lies there, not a pipe that would be waited for, and not out of reach."""
    try:
        return path.is_file()
    except OSError:
        return False


def _is_zip(path: Path) -> bool:
    try:
        with path.open("rb") as file:
            return file.read(len(_ZIP)) == _ZIP
    except OSError:
        return False


def _preview_in(path: Path) -> QImage:
    """The print in a plate's file, without the paper's margins."""
    import zipfile

    try:
        with zipfile.ZipFile(path) as archive:
            if archive.getinfo("preview.png").file_size > _SMALL:
                return QImage()
            sheet = _read(_buffer(archive.read("preview.png")))
            if archive.getinfo("plate.json").file_size > _SMALL:
                return QImage()
            return _without_margins(sheet, archive.read("plate.json"))
    except (OSError, KeyError, ValueError, zipfile.BadZipFile, NotImplementedError, RuntimeError):
        return QImage()


def _without_margins(sheet: QImage, record: bytes) -> QImage:
    import json

    try:
        plate = json.loads(record)["plate"]
        margin = float(plate["printing"]["margin_mm"])
        width, height = (float(plate["size"][side]) for side in ("width_mm", "height_mm"))
        px_per_mm = sheet.width() / (width + 2.0 * margin)
        box = (px_per_mm * length for length in (margin, margin, width, height))
        return sheet.copy(QRect(*(round(length) for length in box)))
    except (ValueError, KeyError, TypeError, ArithmeticError):
        return QImage()


def _buffer(data: bytes) -> QBuffer:
    device = QBuffer()
    device.setData(QByteArray(data))
    return device


def _grey(image: QImage) -> QImage:
    return image.convertToFormat(QImage.Format.Format_Grayscale8)


def _read(device: QIODevice) -> QImage:
    reader = QImageReader(device)
    reader.setAutoTransform(True)
    size = reader.size()
    if not size.isValid():
        return QImage()
    share = LONGEST_PX / max(size.width(), size.height())
    if share < 1.0:
        reader.setScaledSize(
            QSize(max(1, round(share * size.width())), max(1, round(share * size.height())))
        )
    return reader.read().convertToFormat(QImage.Format.Format_RGB32)
