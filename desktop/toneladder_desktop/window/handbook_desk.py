"""Opens the handbook, at the chapter on whatever has the keys."""

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QApplication, QWidget

from toneladder.wording import say, spoken

if TYPE_CHECKING:
    from toneladder.handbook.chapters import Chapter
    from toneladder_desktop.handbook.view import HandbookWindow
    from toneladder_desktop.window.bench_window import BenchWindow

FIRST = "first-plate"

CHAPTER_OF: Mapping[str, str] = {
    "PictureDecision": "picture",
    "GreysDecision": "picture",
    "LinesDecision": "picture",
    "LayingView": "picture",
    "TonesDecision": "how-many-tones",
    "HowMany": "how-many-tones",
    "LadderView": "how-many-tones",
    "TonesTable": "how-many-tones",
    "NotesDecision": "notes-and-soft-passages",
    "SoftDecision": "notes-and-soft-passages",
    "PlateDecision": "first-plate",
    "BathDecision": "test-strips",
    "StripDecision": "test-strips",
    "StripView": "test-strips",
    "StepsDecision": "order-and-sheets",
    "PaceDecision": "order-and-sheets",
    "DayBar": "order-and-sheets",
    "SheetsWindow": "order-and-sheets",
    "SecondGrainDecision": "second-grain",
    "PrintingDecision": "proofs",
    "ProofView": "proofs",
    "TankWindow": "at-the-tank",
    "BookView": "studio-book",
    "Paper": "notes-and-soft-passages",
}
"""The chapter on each part of the window, by the name of its class: most are made when wanted."""


class HandbookDesk(QObject):
    """One handbook for one window; ``book`` is made when it is first wanted."""

    def __init__(self, window: "BenchWindow") -> None:
        super().__init__(window)
        self._window = window
        self.book: HandbookWindow | None = None

    def open(self, chapter: str = "") -> None:
        """Open the book, at a chapter if one is named; else where it was left."""
        if self.book is None:
            from toneladder_desktop.handbook.view import HandbookWindow

            self.book = HandbookWindow(self._chapters(), self._window)
            chapter = chapter or FIRST
        if chapter:
            self.book.read(chapter)
        self.book.show()
        self.book.raise_()
        self.book.activateWindow()

    def open_here(self) -> None:
        """Open it at the chapter on whatever has the keys."""
        self.open(chapter_of(QApplication.focusWidget()))

    def _chapters(self) -> "tuple[Chapter, ...]":
        """The chapters, with the menus' keys as they are in this window."""
        from toneladder.handbook.chapters import KEYS, chapters

        rows = "\n".join(f"- *{key}*: {words}" for words, key in self._window.menus.shortcuts())
        live = f"\n## {say('In the menus')}\n\n{rows}\n"
        return tuple(
            replace(one, text=one.text + live) if one.name == KEYS else one
            for one in chapters(spoken())
        )


def chapter_of(part: QWidget | None) -> str:
    """Name of the chapter on the part of the window that holds ``part``."""
    while part is not None:
        told = getattr(part, "decision", part)
        found = CHAPTER_OF.get(type(told).__name__)
        if found:
            return found
        part = part.parentWidget()
    return FIRST
