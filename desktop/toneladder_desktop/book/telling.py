"""Gathers a plate's record: what the book knows, and what its file adds if it is to be had."""

from dataclasses import dataclass, field, replace
from pathlib import Path

from PySide6.QtGui import QImage

from toneladder.book.opening import Book
from toneladder.errors import ToneLadderError
from toneladder.order.values import Order
from toneladder.plate.values import Plate
from toneladder.sheets.record_sheet import Told
from toneladder.wording import say
from toneladder_desktop.book import asked
from toneladder_desktop.book.pictures import from_png, grey_of


@dataclass(frozen=True, slots=True, eq=False)
class RecordRead:
    """A plate's record, its picture, and a sentence on what could not be had, if anything."""

    told: Told = field(repr=False)
    picture: QImage = field(repr=False)
    lacking: str = ""


def read_record(book: Book, request: asked.ReadRecord) -> RecordRead:
    """The record of a plate.

    Raises
    ------
    BookError
        If the book does not know it, or cannot be read.
    """
    from toneladder.book.plates import thumbnail_of
    from toneladder.book.record import record_of
    from toneladder_desktop.bench.glimpse import glimpse

    record = record_of(book, request.identity)
    path = Path(record.kept.plate.path)
    picture = glimpse(path) if path.is_file() else QImage()
    if picture.isNull():
        picture = from_png(thumbnail_of(book, request.identity))
    told = Told(record, request.plate, request.order, grey_of(picture))
    if told.plate is not None and told.order is not None:
        return RecordRead(told, picture)
    try:
        plate, order = _from_file(path)
    except ToneLadderError as fault:
        lacking = say("{why} What the studio book knows of it stands here.", why=fault)
        return RecordRead(told, picture, lacking)
    return RecordRead(replace(told, plate=plate, order=order), picture)


def _from_file(path: Path) -> tuple[Plate, Order]:
    """A kept plate, worked out as it was when it was saved."""
    from toneladder.picture.opening import open_picture
    from toneladder.plan.planning import plan
    from toneladder.plate.file import read_plate

    file = read_plate(path)
    picture = open_picture(file.picture, name=file.plate.picture.name)
    return file.plate, plan(picture, file.plate, file.curve).order
