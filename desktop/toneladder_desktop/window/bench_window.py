"""The bench as a window: paper, ladder, day and card round one plate."""

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QMainWindow

from toneladder.wording import say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from PySide6.QtGui import (
        QCloseEvent,
        QDragEnterEvent,
        QDragLeaveEvent,
        QDropEvent,
        QImage,
    )
    from PySide6.QtWidgets import QStackedWidget

    from toneladder_desktop.bench.bench import Bench
    from toneladder_desktop.bench.beside import Beside
    from toneladder_desktop.bench.look import Look
    from toneladder_desktop.bench.recent import Recent
    from toneladder_desktop.bench.recovery import Recovery, Writer
    from toneladder_desktop.bench.settings import Preferences
    from toneladder_desktop.bench.workings import Workings
    from toneladder_desktop.drawing.style import Colours
    from toneladder_desktop.paper.caption import Caption
    from toneladder_desktop.window.book_desk import BookDesk
    from toneladder_desktop.window.book_keeping import BookKeeping
    from toneladder_desktop.window.filing import Filing
    from toneladder_desktop.window.first_sight import FirstSight
    from toneladder_desktop.window.handbook_desk import HandbookDesk
    from toneladder_desktop.window.holding import Holding
    from toneladder_desktop.window.how_many_desk import HowManyDesk
    from toneladder_desktop.window.laying_desk import LayingDesk
    from toneladder_desktop.window.linking import Linking
    from toneladder_desktop.window.menus import Menus
    from toneladder_desktop.window.noting import Noting
    from toneladder_desktop.window.proof_desk import ProofDesk
    from toneladder_desktop.window.sheets_desk import SheetsDesk
    from toneladder_desktop.window.showing import Showing
    from toneladder_desktop.window.softening import Softening
    from toneladder_desktop.window.strip_desk import StripDesk
    from toneladder_desktop.window.taking_back import TakingBack
    from toneladder_desktop.window.tank_desk import TankDesk
    from toneladder_desktop.window.telling import Telling
    from toneladder_desktop.window.top import BenchTop
    from toneladder_desktop.window.watching import Watching


class BenchWindow(QMainWindow):
    """One window, one bench, one plate.

    Without preferences it is bare: it can show a first sight of a picture, and everything else
    is there when it has been furnished.
    """

    preferences: "Preferences"
    recent: "Recent"
    bench: "Bench"
    workings: "Workings"
    beside: "Beside"
    aside: "Beside"
    """Looks at files that may lie far away; nothing waits for it, and nothing is written by it."""
    look: "Look"
    holding: "Holding"
    writer: "Writer"
    recovery: "Recovery"
    top: "BenchTop"
    pages: "QStackedWidget"
    keeping: "BookKeeping"
    book: "BookDesk"
    filing: "Filing"
    sheets: "SheetsDesk"
    handbook: "HandbookDesk"
    how_many: "HowManyDesk"
    laying: "LayingDesk"
    proofs: "ProofDesk"
    tank: "TankDesk"
    noting: "Noting"
    softening: "Softening"
    strips: "StripDesk"
    caption: "Caption"
    showing: "Showing"
    linking: "Linking"
    menus: "Menus"
    telling: "Telling"
    watching: "Watching"
    taking_back: "TakingBack"

    def __init__(self, preferences: "Preferences | None" = None, state: Path = Path()) -> None:
        super().__init__()
        self.furnished = False
        self.setMinimumSize(960, 600)
        self.resize(1280, 720)
        if preferences is not None:
            self.furnish(preferences, state)

    def show_first(self, colours: "Colours", picture: "QImage") -> "FirstSight":
        """Show the picture, where it will lie, before the window is furnished."""
        from toneladder_desktop.window.first_sight import FirstSight

        sight = FirstSight(picture, colours, self)
        self.setCentralWidget(sight)
        return sight

    def furnish(self, preferences: "Preferences", state: Path) -> None:
        """Put everything in its place; ``state`` is the folder of what is kept between days."""
        for _ in self.furnishing(preferences, state):
            pass

    def furnishing(self, preferences: "Preferences", state: Path) -> "Iterator[None]":
        """The same in small steps, between which the window may do something else."""
        from toneladder_desktop.window.furnishing import furnish

        yield from furnish(self, preferences, state)
        self.furnished = True
        self.setAcceptDrops(True)

    def say_error(self, sentence: str) -> None:
        """One sentence above the paper; it waits there until it is put away."""
        self.pages.setCurrentIndex(0)
        self.top.notice.tell(sentence)

    def announce(self, words: str) -> None:
        """Have a screen reader say something that happened."""
        from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent

        QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, words))

    def open(self, path: Path) -> None:
        """Open a plate or a picture."""
        self.filing.open(path)

    def paste(self) -> None:
        """Open the picture that was copied elsewhere."""
        from PySide6.QtGui import QGuiApplication

        mime = QGuiApplication.clipboard().mimeData()
        if self.filing.takes(mime):
            self.filing.open_from(mime)
        else:
            self.say_error(say("There is no picture to paste. Copy one, and paste again."))

    def add_tones(self, more: int) -> None:
        """So many tones more, or less."""
        if self.bench.plate is not None:
            self.top.tones.take_number(self.bench.plate.tones.count + more)

    def print_order_now(self) -> None:
        """The tank sheet with what remains to be done after what happened at the tank."""
        self.sheets.open("order", plan=self.tank.order_now)

    def show_undo(self) -> None:
        """The undo steps are others; a window that goes is not told any more."""
        self.telling.show_undo()

    def offer_what_was_lost(self) -> None:
        """If an earlier window ended in a crash, offer its plate."""
        self.taking_back.offer()

    def keep_unsaved(self) -> bool:
        """The program ends under an open window: its changes are kept. Whether there were any."""
        if not self.furnished or self.isHidden():
            return False
        unsaved = self.bench.unsaved
        if unsaved:
            self.recovery.keep()
        self._finish()
        return unsaved and not self.recovery.broken

    # the window's own

    def closeEvent(self, event: "QCloseEvent") -> None:
        """Ask about unsaved changes; what is being saved is waited for."""
        if not self.furnished:
            event.accept()
            return
        if self.filing.saving:
            self.filing.when_saved(self.close)
            event.ignore()
            return
        if self.tank.in_bath:
            event.ignore()
            self.say_error(say("The plate is in the bath. Lift it first; its clock runs on."))
            return
        if self.bench.unsaved:
            event.ignore()
            self.filing.unless_unsaved(self._close_for_good)
            return
        self._put_out()
        event.accept()

    def dragEnterEvent(self, event: "QDragEnterEvent") -> None:
        """Let a picture or a plate come down here."""
        if self.filing.takes(event.mimeData()):
            event.acceptProposedAction()
            self.top.paper.mark_target(target=True)

    def dragLeaveEvent(self, event: "QDragLeaveEvent") -> None:
        """It went elsewhere."""
        super().dragLeaveEvent(event)
        self.top.paper.mark_target(target=False)

    def dropEvent(self, event: "QDropEvent") -> None:
        """Open what came down."""
        self.top.paper.mark_target(target=False)
        self.filing.open_from(event.mimeData())
        event.acceptProposedAction()

    def _close_for_good(self) -> None:
        self.bench.give_up()
        self.close()

    def _put_out(self) -> None:
        self.hide()
        self._finish()
        self.recovery.close()

    def _finish(self) -> None:
        """Everything that is done beside the window comes to its end."""
        self.how_many.stop()
        self.strips.stop()
        self.tank.stop()
        self.proofs.stop()
        self.watching.close()
        self.keeping.stop()
        self.beside.stop()
        self.aside.leave()
        self.workings.background.close()
        self.writer.close()
