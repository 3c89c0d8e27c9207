"""What is opened and where it goes: the sample, a new plate from a picture, the file dialogs."""

from pathlib import Path

from PySide6.QtWidgets import QFileDialog, QWidget

from toneladder.bite.values import Conditions
from toneladder.picture.values import Laying, PictureRef
from toneladder.plate.values import Plate
from toneladder.wording import say

SAMPLE = "breakwater.png"
PLATE_SUFFIX = ".plate"
PICTURES = ("*.jpg", "*.jpeg", "*.png", "*.tif", "*.tiff", "*.webp", "*.bmp", "*.gif")
_LONGEST_MM = 200.0


def sample_picture() -> Path | None:
    """The picture of the sample plate, in the checkout or beside the installed program."""
    here = Path(__file__).parent
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
    )


def title_of(name: str) -> str:
    """A title from a file's name.

    >>> title_of("old_harbour-wall.jpg")
    'Old harbour wall'
    """
    words = " ".join(Path(name).stem.replace("_", " ").replace("-", " ").split())
    return words[:1].upper() + words[1:]


def ask_for_file(window: QWidget, folder: Path) -> Path | None:
    """Let the etcher choose a plate or a picture; None if they thought better of it."""
    kinds = (
        say("Plates and pictures ({kinds})", kinds=" ".join((f"*{PLATE_SUFFIX}", *PICTURES))),
        say("Everything (*)"),
    )
    name, _ = QFileDialog.getOpenFileName(
        window, say("Open a plate or a picture"), str(folder), ";;".join(kinds)
    )
    return Path(name) if name else None


def ask_where_to_save(window: QWidget, suggestion: Path) -> Path | None:
    """Let the etcher choose the plate's file; None if they thought better of it."""
    return _ask_where(
        window, say("Save the plate"), suggestion, say("Plate (*{end})", end=PLATE_SUFFIX)
    )


def ask_where_to_put_pdf(window: QWidget, suggestion: Path) -> Path | None:
    """Let the etcher choose where the sheets go as a PDF; None if they thought better of it."""
    return _ask_where(window, say("Save the sheets as a PDF"), suggestion, say("PDF (*.pdf)"))


def file_name(title: str, end: str) -> str:
    """A file's name for a plate of that title.

    >>> file_name("Pier: 3/4 view", ".plate")
    'Pier 3 4 view.plate'
    """
    plain = "".join(letter if letter.isalnum() or letter in " -_.," else " " for letter in title)
    return (" ".join(plain.split())[:80].strip(". ") or say("Plate")) + end


def _ask_where(window: QWidget, caption: str, suggestion: Path, kind: str) -> Path | None:
    dialog = QFileDialog(window, caption, str(suggestion.parent), kind)
    dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
    dialog.setDefaultSuffix(suggestion.suffix.removeprefix("."))
    dialog.selectFile(suggestion.name)
    chosen = dialog.exec()
    dialog.deleteLater()
    return Path(dialog.selectedFiles()[0]) if chosen else None
