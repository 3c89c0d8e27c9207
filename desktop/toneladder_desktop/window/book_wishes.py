"""What is wanted on the studio book's page; what cannot be brought back is asked about first."""

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from toneladder.sheets.record_sheet import Told, record_sheets
from toneladder.sheets.record_words import print_words
from toneladder.wording import say
from toneladder.writing import write_whole
from toneladder_desktop.bench.beside import Beside
from toneladder_desktop.bench.opening import (
    BATH_SUFFIX,
    ask_for_bath,
    ask_where_to_give_bath,
    ask_where_to_put_pdf,
    file_name,
)
from toneladder_desktop.bench.settings import Preferences
from toneladder_desktop.book import asked
from toneladder_desktop.book.question import ask_before
from toneladder_desktop.book.view import BookView
from toneladder_desktop.output.pdf import pdf_bytes
from toneladder_desktop.window.book_keeping import BookKeeping, today

if TYPE_CHECKING:
    from toneladder.book.values import KeptBath, KeptPull


class BookWishes(QObject):
    """Does what the page's buttons say."""

    def __init__(
        self, view: BookView, keeping: BookKeeping, preferences: Preferences, beside: Beside
    ) -> None:
        super().__init__(view)
        self._beside = beside
        self._view, self._keeping, self._preferences = view, keeping, preferences
        plates, baths, record = view.plates, view.baths, view.record
        plates.wanted.connect(lambda request: keeping.ask("plates", request))
        plates.forgotten.connect(self._forget)
        baths.strips_wanted.connect(lambda bath: keeping.ask("strips", asked.ListStrips(bath)))
        baths.strip_taken.connect(
            lambda bath, strip: keeping.ask("strip", asked.FetchStrip(bath, strip))
        )
        baths.kept.connect(keeping.do)
        baths.retired.connect(self._retire)
        baths.given.connect(self._give)
        baths.taking_in.connect(self._take_in)
        record.pull_kept.connect(keeping.do)
        record.pull_removed.connect(self._remove_pull)
        record.sheet_wanted.connect(self._put_on_paper)

    def write(self, path: Path, told: Told) -> None:
        """The record sheet as a PDF."""
        from toneladder_desktop.output.results import PAPERS

        now = self._preferences.now
        made_on, paper = date.fromisoformat(today()), PAPERS[now.paper]
        sheets = record_sheets(told, made_on=made_on, paper=paper, manner=now.manner)
        content = pdf_bytes(sheets)
        self._beside.do(
            lambda: write_whole(path, lambda file: file.write(content)),
            lambda _: self._view.notice.tell(say("The record is in {name}.", name=path.name)),
            self._view.notice.tell,
        )

    def _forget(self, line: asked.PlateLine) -> None:
        plate = line.kept.plate
        ask_before(
            self._view,
            say("Forget “{title}”?", title=plate.title or say("Untitled plate")),
            say(
                "It leaves the list with its proofs and prints, and they cannot be brought back."
                " Its own file stays as it is."
            ),
            say("Forget the plate"),
            lambda: self._keeping.do(asked.ForgetPlate(plate.identity)),
        )

    def _retire(self, kept: "KeptBath") -> None:
        ask_before(
            self._view,
            say("Retire “{name}”?", name=kept.bath.name),
            say("No plate is bitten in it any more. It stays in the book, with its strips."),
            say("Retire the bath"),
            lambda: self._keeping.do(asked.RetireBath(kept.id, today())),
        )

    def _remove_pull(self, kept: "KeptPull") -> None:
        ask_before(
            self._view,
            say("Remove the note of this print: {print}?", print=print_words(kept.pull)),
            say("It cannot be brought back."),
            say("Remove the note"),
            lambda: self._keeping.do(asked.RemovePull(kept.id)),
        )

    def _give(self, kept: "KeptBath") -> None:
        suggestion = Path.home() / file_name(kept.bath.name, BATH_SUFFIX)
        ask_where_to_give_bath(
            self._view, suggestion, lambda path: self._keeping.do(asked.GiveBath(kept.id, path))
        )

    def _take_in(self) -> None:
        ask_for_bath(self._view, Path.home(), lambda path: self._keeping.do(asked.TakeIn(path)))

    def _put_on_paper(self, told: Told) -> None:
        title = told.record.kept.plate.title or say("Untitled plate")
        suggestion = Path.home() / file_name(say("{title}, record", title=title), ".pdf")
        ask_where_to_put_pdf(self._view, suggestion, lambda path: self.write(path, told))
