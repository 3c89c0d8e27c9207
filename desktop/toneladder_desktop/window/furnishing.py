"""Puts everything that a bench needs into its window, and joins it up."""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QStackedWidget

from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.bench.beside import Beside
from toneladder_desktop.bench.folders import data_folder
from toneladder_desktop.bench.look import Look
from toneladder_desktop.bench.recent import Recent
from toneladder_desktop.bench.recovery import CurveOf, Recovery, Writer
from toneladder_desktop.bench.settings import Preferences
from toneladder_desktop.bench.workings import Workings
from toneladder_desktop.paper.caption import Caption
from toneladder_desktop.window.book_desk import BookDesk
from toneladder_desktop.window.book_keeping import BookKeeping
from toneladder_desktop.window.explained import explain_card
from toneladder_desktop.window.filing import Filing
from toneladder_desktop.window.first_notes import PEG, SHEETS, FirstNotes
from toneladder_desktop.window.first_sight import FirstSight
from toneladder_desktop.window.handbook_desk import HandbookDesk
from toneladder_desktop.window.holding import Holding
from toneladder_desktop.window.how_many_desk import HowManyDesk
from toneladder_desktop.window.laying_desk import LayingDesk
from toneladder_desktop.window.linking import Linking
from toneladder_desktop.window.noting import Noting
from toneladder_desktop.window.page_desk import Room
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
from toneladder_desktop.window.window_menus import caption_menus, fill_menus

if TYPE_CHECKING:
    from toneladder_desktop.window.bench_window import BenchWindow


def furnish(window: "BenchWindow", preferences: Preferences, state: Path) -> Iterator[None]:
    """Fill a bare window; a first sight that it showed stays until the plate is laid.

    It is done in steps, between which the window may do something else; what can be seen of it
    comes with the last step.

    Parameters
    ----------
    window : BenchWindow
    preferences : Preferences
        Shared by all windows.
    state : Path
        The folder of what is kept between days.
    """
    first = window.centralWidget()
    _lay_out(window, preferences, state)
    yield
    window.pages = QStackedWidget(window)
    window.top = BenchTop(window.bench, window.workings, window.pages)
    for _ in window.top.fill():
        yield
    _put_up(window)
    yield
    window.menus = fill_menus(window)
    window.menuBar().setCornerWidget(window.top.last_act, Qt.Corner.TopRightCorner)
    _join(window)
    window.telling = Telling(window)
    window.taking_back = TakingBack(
        window.recovery, window.bench, window.filing, window.top.notice, window.say_error
    )
    window.watching = Watching(
        window.bench,
        window.top.notice,
        state,
        window.filing.open,
        window,
        look=window.aside.look,
        do=window.beside.do,
        saving=lambda: window.filing.saving,
    )
    window.filing.saved.connect(lambda _path: window.watching.follow())
    if isinstance(first, FirstSight):
        window.workings.seen_already(first.picture)
    window.setCentralWidget(window.pages)
    window.top.paper.setFocus()


def _lay_out(window: "BenchWindow", preferences: Preferences, state: Path) -> None:
    """What has no face: the bench, its workings, what is remembered."""
    window.preferences = preferences
    window.beside, window.aside = Beside(window), Beside(window)
    window.recent = Recent(state / "recent.json", window.beside.do)
    window.bench = Bench(window)
    window.workings = Workings(window.bench, window)
    window.look = Look(window)
    window.holding = Holding(window.bench, window.workings, lambda: preferences.now.manner)
    window.writer = Writer(window)
    window.recovery = Recovery(
        window.bench,
        state / "recovery",
        CurveOf(),
        window.writer.do,
        window,
    )


def _put_up(window: "BenchWindow") -> None:
    """What is seen, and what fills it."""
    bench, workings, preferences = window.bench, window.workings, window.preferences
    window.pages.addWidget(window.top)
    book = data_folder() / "studio-book.sqlite"
    # Before whoever may close the window once a plate is saved: it is entered in the book first.
    window.keeping = BookKeeping(bench, workings, book, window)
    window.filing = Filing(window, bench, workings, window.top.notice, window.recent, preferences)
    window.sheets = SheetsDesk(window, bench, workings, preferences, window.beside)
    window.handbook = HandbookDesk(window)
    room = Room(window.pages, bench, workings, preferences, window.say_error)
    window.how_many = HowManyDesk(room, window.top.tones.take_number)
    window.laying = LayingDesk(room)
    window.strips = StripDesk(room, window.beside, window.holding.hold_bite)
    window.proofs = ProofDesk(room)
    window.book = BookDesk(room, window.keeping, window.beside, window.filing.open)
    paper = window.top.paper
    window.noting = Noting(bench, workings, paper, window.top.notes, window.top.notice)
    window.tank = TankDesk(
        window,
        bench,
        workings,
        window.top.notice,
        book,
        print_card=lambda: window.sheets.open("strip-card"),
        steady=lambda: preferences.now.steady,
        take_back=window.keeping.take_back_use,
    )
    window.softening = Softening(bench, workings, window.noting.pencil, window.top.soft)
    window.caption = Caption(paper)
    window.showing = Showing(bench, workings, window.look, paper, window.caption)
    window.linking = Linking(bench, workings, window.look, window.showing, window.top)
    window.caption.hang(caption_menus(window))
    window.top.order_tabs(window.caption.parts)


def _join(window: "BenchWindow") -> None:
    """What is wanted on card, ladder and day is done by whoever can do it."""
    top, holding = window.top, window.holding
    window.bench.laid.connect(top.clear)
    top.header.own_wanted.connect(window.filing.ask)
    top.picture.other_wanted.connect(window.filing.ask)
    top.picture.laying_wanted.connect(window.laying.open)
    top.strip.wanted.connect(window.strips.open)
    top.strip.another.connect(window.strips.open_new)
    window.strips.taken.connect(window.keeping.keep_strip)
    window.proofs.accepted.connect(window.keeping.keep_proof)
    window.keeping.told.connect(top.notice.tell)
    window.keeping.baths_known.connect(top.bath.show_baths)
    top.bath.baths_wanted.connect(window.keeping.ask_for_baths)
    top.bath.keep_wanted.connect(window.book.begin_bath)
    top.day_bar.tank_wanted.connect(window.tank.open)
    window.tank.told.connect(top.day_bar.tell_bite)
    window.tank.bitten.connect(top.day.tell_bitten)
    top.pace.remembered.connect(lambda rates: window.preferences.change(rates=rates))
    top.tones.comparison_wanted.connect(window.how_many.open)
    top.ladder.count_wanted.connect(top.tones.take_number)
    top.ladder.parting_moved.connect(holding.part)
    top.ladder.bite_held.connect(holding.hold_bite)
    top.ladder.let_go.connect(holding.let_go)
    top.ladder.hand_on.connect(window.bench.hold)
    top.ladder.key_hidden.connect(lambda: window.preferences.change(ladder_key=False))
    explain_card(top)
    notes = FirstNotes(window.bench, window.preferences, top.paper)
    top.ladder.parting_moved.connect(lambda *_: notes.done(PEG))
    top.ladder.bite_held.connect(lambda *_: notes.done(PEG))
    window.sheets.opened.connect(lambda: notes.done(SHEETS))
    top.day_bar.sheets_wanted.connect(window.sheets.open)
    top.strip.card.connect(lambda: window.sheets.open("strip-card"))
