"""What is opened and where it goes: the sample, a new plate from a picture, the file dialogs."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from uuid import uuid4

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QWidget

from toneladder.bite.values import Conditions
from toneladder.picture.values import Laying, PictureRef
from toneladder.plate.title import title_of
from toneladder.plate.values import Plate
from toneladder.tones.values import Brush, Choice, ToneChoice
from toneladder.wording import say

SAMPLE = "breakwater.png"
PLATE_SUFFIX = ".plate"
STRIP_SUFFIX = ".strip"
BATH_SUFFIX = ".bath"
PICTURES = ("*.jpg", "*.jpeg", "*.png", "*.tif", "*.tiff", "*.webp", "*.bmp", "*.gif")
_LONGEST_MM = 200.0


def sample_picture() -> Path | None:
    """The picture of the sample plate, in the checkout or beside the installed program."""
    here = Path(__file__).parents[1]
    for folder in (here / "sample_images", *(up / "sample_images" for up in here.parents[:3])):
        if (folder / SAMPLE).is_file():
            return folder / SAMPLE
    return None


def new_plate(ref: PictureRef, conditions: Conditions, title: str = "") -> Plate:
    """A plate in the proportions of its picture, 200 mm long, everything else as usual."""
    from toneladder.picture.laying import plate_size_for

    return Plate(
        title=title or title_of(ref.name),
        picture=ref,
        size=plate_size_for(ref.width, ref.height, Laying(), _LONGEST_MM),
        conditions=conditions,
        identity=uuid4().hex,
    )


def sample_plate(ref: PictureRef) -> Plate:
    """The plate that is open at the first start: complete, and worth trying things on."""
    return replace(
        new_plate(ref, Conditions(), say("Breakwater at dusk")),
        tones=ToneChoice(count=6, choice=Choice.PICTURE),
        brush=Brush(mark_mm=0.9, gap_mm=1.2),
        start="09:30",
    )


def ask_for_file(window: QWidget, folder: Path, take: Callable[[Path], object]) -> None:
    """Let the etcher choose a plate or a picture; ``take`` gets it, if they do."""
    kinds = (
        say("Plates and pictures ({kinds})", kinds=" ".join((f"*{PLATE_SUFFIX}", *PICTURES))),
        say("Everything (*)"),
    )
    dialog = QFileDialog(window, say("Open a plate or a picture"), str(folder), ";;".join(kinds))
    dialog.setFileMode(QFileDialog.FileMode.ExistingFile)
    _ask(dialog, take)


def ask_where_to_save(window: QWidget, suggestion: Path, take: Callable[[Path], object]) -> None:
    """Let the etcher choose the plate's file."""
    kind = say("Plate (*{end})", end=PLATE_SUFFIX)
    _ask_where(QFileDialog(window, say("Save the plate"), "", kind), suggestion, take)


def ask_for_scan(window: QWidget, folder: Path, take: Callable[[Path], object]) -> None:
    """Let the etcher choose a scan or a photograph."""
    kinds = (
        say("Pictures ({kinds})", kinds=" ".join(PICTURES)),
        say("Everything (*)"),
    )
    dialog = QFileDialog(window, say("Open a scan or a photograph"), str(folder), ";;".join(kinds))
    dialog.setFileMode(QFileDialog.FileMode.ExistingFile)
    _ask(dialog, take)


def ask_for_strip(window: QWidget, folder: Path, take: Callable[[Path], object]) -> None:
    """Let the etcher choose a kept strip."""
    kind = say("Strip (*{end})", end=STRIP_SUFFIX)
    dialog = QFileDialog(window, say("Open a kept strip"), str(folder), kind)
    dialog.setFileMode(QFileDialog.FileMode.ExistingFile)
    _ask(dialog, take)


def ask_where_to_save_strip(
    window: QWidget, suggestion: Path, take: Callable[[Path], object]
) -> None:
    """Let the etcher choose the strip's file."""
    kind = say("Strip (*{end})", end=STRIP_SUFFIX)
    _ask_where(QFileDialog(window, say("Keep the strip"), "", kind), suggestion, take)


def ask_for_bath(window: QWidget, folder: Path, take: Callable[[Path], object]) -> None:
    """Let the etcher choose a bath that a colleague gave."""
    kind = say("Bath (*{end})", end=BATH_SUFFIX)
    dialog = QFileDialog(window, say("Take a bath in"), str(folder), kind)
    dialog.setFileMode(QFileDialog.FileMode.ExistingFile)
    _ask(dialog, take)


def ask_where_to_give_bath(
    window: QWidget, suggestion: Path, take: Callable[[Path], object]
) -> None:
    """Let the etcher choose the file in which a bath is given to a colleague."""
    kind = say("Bath (*{end})", end=BATH_SUFFIX)
    _ask_where(QFileDialog(window, say("Give the bath"), "", kind), suggestion, take)


def ask_where_to_put_pdf(window: QWidget, suggestion: Path, take: Callable[[Path], object]) -> None:
    """Let the etcher choose where the sheets go as a PDF."""
    dialog = QFileDialog(window, say("Save the sheets as a PDF"), "", say("PDF (*.pdf)"))
    _ask_where(dialog, suggestion, take)


def ask_where_to_put_svg(window: QWidget, suggestion: Path, take: Callable[[Path], object]) -> None:
    """Let the etcher choose where the tracing goes as lines."""
    dialog = QFileDialog(window, say("Save the tracing as SVG"), "", say("SVG (*.svg)"))
    _ask_where(dialog, suggestion, take)


def file_name(title: str, end: str) -> str:
    """A file's name for a plate of that title.

    >>> file_name("Pier: 3/4 view", ".plate")
    'Pier 3 4 view.plate'
    """
    plain = "".join(letter if letter.isalnum() or letter in " -_.," else " " for letter in title)
    return (" ".join(plain.split())[:80].strip(". ") or say("Plate")) + end


def _ask_where(dialog: QFileDialog, suggestion: Path, take: Callable[[Path], object]) -> None:
    dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
    dialog.setDirectory(str(suggestion.parent))
    dialog.setDefaultSuffix(suggestion.suffix.removeprefix("."))
    dialog.selectFile(suggestion.name)
    _ask(dialog, take)


def _ask(dialog: QFileDialog, take: Callable[[Path], object]) -> None:
    """Open the dialog and go on; its answer comes later, or never."""
    dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    dialog.fileSelected.connect(lambda name: take(Path(name)))
    dialog.open()
