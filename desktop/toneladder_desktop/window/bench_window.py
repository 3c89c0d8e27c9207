"""The bench as a window: paper, ladder, day and card round one plate."""

import sys
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QCloseEvent,
    QDragEnterEvent,
    QDragLeaveEvent,
    QDropEvent,
    QGuiApplication,
)
from PySide6.QtWidgets import QApplication, QMainWindow, QStackedWidget

from toneladder.errors import ToneLadderError
from toneladder.wording import say
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.bench.look import Look
from toneladder_desktop.bench.recent import Recent
from toneladder_desktop.bench.recovery import Left, Recovery, take_back, throw_away
from toneladder_desktop.bench.settings import Preferences, config_folder, state_folder
from toneladder_desktop.bench.workings import Workings
from toneladder_desktop.card.decision import Facts
from toneladder_desktop.paper.caption import Caption
from toneladder_desktop.window.filing import Filing
from toneladder_desktop.window.holding import Holding
from toneladder_desktop.window.how_many_desk import HowManyDesk
from toneladder_desktop.window.linking import Linking
from toneladder_desktop.window.sheets_desk import SheetsDesk
from toneladder_desktop.window.showing import Showing
from toneladder_desktop.window.top import BenchTop
from toneladder_desktop.window.wardrobe import Wardrobe
from toneladder_desktop.window.window_menus import caption_menus, fill_menus

SWITCH_S = 0.0005
"""How long the background may keep the interpreter from the window: a tenth of the usual."""


class BenchWindow(QMainWindow):
    """One window, one bench, one plate."""

    def __init__(self, preferences: Preferences, state: Path) -> None:
        super().__init__()
        self.preferences = preferences
        self.recent = Recent(state / "recent.json")
        self.bench = Bench(self)
        self.workings = Workings(self.bench, self)
        self.look = Look(self)
        self.holding = Holding(self.bench, self.workings, lambda: preferences.now.manner)
        self.recovery = Recovery(
            self.bench,
            state / "recovery",
            lambda: self.workings.curve,
            self.workings.keep,
            self,
        )
        self.top = BenchTop(self.bench, self.workings, self)
        self.pages = QStackedWidget(self)
        self.pages.addWidget(self.top)
        self.setCentralWidget(self.pages)
        self.filing = Filing(
            self, self.bench, self.workings, self.top.notice, self.recent, preferences
        )
        self.sheets = SheetsDesk(self, self.bench, self.workings, preferences)
        self.how_many = HowManyDesk(
            self.pages,
            self.bench,
            self.workings,
            preferences,
            take=self.top.tones.take_number,
            say_error=self.say_error,
        )
        self.caption = Caption(self.top.paper)
        self.showing = Showing(self.bench, self.workings, self.look, self.top.paper, self.caption)
        self.linking = Linking(self.bench, self.workings, self.look, self.showing, self.top)
        self.caption.hang(caption_menus(self))
        self.top.order_tabs(self.caption.parts)
        self.menus = fill_menus(self)
        self.menuBar().setCornerWidget(self.top.last_act, Qt.Corner.TopRightCorner)
        self._connect()
        self.setAcceptDrops(True)
        self.setMinimumSize(960, 600)
        self.resize(1280, 720)
        self._use_preferences()
        self._show_state()
        self._show_undo()
        self.top.paper.setFocus()

    def say_error(self, sentence: str) -> None:
        """One sentence above the paper; it waits there until it is put away."""
        self.pages.setCurrentIndex(0)
        self.top.notice.tell(sentence)
        self.announce(sentence)

    def announce(self, words: str) -> None:
        """Have a screen reader say something that happened."""
        QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, words))

    def open(self, path: Path) -> None:
        """Open a plate or a picture."""
        self.filing.open(path)

    def paste(self) -> None:
        """Open the picture that was copied elsewhere."""
        mime = QGuiApplication.clipboard().mimeData()
        if self.filing.takes(mime):
            self.filing.open_from(mime)
        else:
            self.say_error(say("There is no picture to paste. Copy one, and paste again."))

    def add_tones(self, more: int) -> None:
        """So many tones more, or less."""
        if self.bench.plate is not None:
            self.top.tones.take_number(self.bench.plate.tones.count + more)

    def offer_what_was_lost(self) -> None:
        """If an earlier window ended in a crash, offer its plate."""
        left = self.recovery.left()
        if not left:
            return
        self.top.notice.tell(
            say(
                "“{title}” was open when the program stopped. It was kept at {time}.",
                title=left[0].title,
                time=f"{left[0].kept_at:%H:%M}",
            ),
            (
                (say("Take it back"), lambda: self._take_back(left[0])),
                (say("Throw it away"), lambda: self._throw_away(left[0])),
            ),
            put_away=say("Later"),
        )

    # the window's own

    def closeEvent(self, event: QCloseEvent) -> None:  # noqa: N802 - Qt's name
        """Ask about unsaved changes; what is being saved is waited for."""
        if self.filing.saving:
            self.filing.when_saved(self.close)
            event.ignore()
            return
        if self.bench.unsaved:
            event.ignore()
            self.filing.unless_unsaved(self._close_for_good)
            return
        self._put_out()
        event.accept()

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:  # noqa: N802 - Qt's name
        """Let a picture or a plate come down here."""
        if self.filing.takes(event.mimeData()):
            event.acceptProposedAction()
            self.top.paper.mark_target(target=True)

    def dragLeaveEvent(self, event: QDragLeaveEvent) -> None:  # noqa: N802 - Qt's name
        """It went elsewhere."""
        super().dragLeaveEvent(event)
        self.top.paper.mark_target(target=False)

    def dropEvent(self, event: QDropEvent) -> None:  # noqa: N802 - Qt's name
        """Open what came down."""
        self.top.paper.mark_target(target=False)
        self.filing.open_from(event.mimeData())
        event.acceptProposedAction()

    def _close_for_good(self) -> None:
        self.bench.give_up()
        self.close()

    def _put_out(self) -> None:
        self.hide()
        self.how_many.stop()
        self.workings.background.close()
        self.recovery.close()

    def _connect(self) -> None:
        top = self.top
        self.bench.state_changed.connect(self._show_state)
        self.bench.undo.undoTextChanged.connect(self._show_undo)
        self.bench.undo.redoTextChanged.connect(self._show_undo)
        self.workings.worked.connect(self._show_facts)
        self.bench.laid.connect(top.clear)
        self.workings.failed.connect(self._failed)
        self.recovery.told.connect(self._show_state)
        self.menus.undo.triggered.connect(lambda: self.announce(say("Taken back.")))
        self.menus.redo.triggered.connect(lambda: self.announce(say("Done again.")))
        self.preferences.changed.connect(self._show_facts)
        self.preferences.changed.connect(self._use_preferences)
        self.filing.saved.connect(self._saved)
        self.filing.opened.connect(self._opened)
        top.header.renamed.connect(self._rename)
        top.header.own_wanted.connect(self.filing.ask)
        top.picture.other_wanted.connect(self.filing.ask)
        top.tones.comparison_wanted.connect(self.how_many.open)
        top.ladder.count_wanted.connect(top.tones.take_number)
        top.ladder.parting_moved.connect(self.holding.part)
        top.ladder.bite_held.connect(self.holding.hold_bite)
        top.ladder.let_go.connect(self.holding.let_go)
        top.ladder.hand_on.connect(self.bench.hold)
        top.ladder.key_hidden.connect(lambda: self.preferences.change(ladder_key=False))
        top.day_bar.sheets_wanted.connect(self.sheets.open)

    def _show_facts(self) -> None:
        lying, workings = self.bench.lying, self.workings
        if lying is not None:
            plate = lying.plate
            if not lying.sample:
                self.preferences.change(conditions=plate.conditions)
            manner = self.preferences.now.manner
            self.top.show_facts(
                Facts(plate, workings.chosen, workings.plan, workings.curve, manner)
            )

    def _show_state(self) -> None:
        lying = self.bench.lying
        sample = lying is not None and lying.sample
        note = say("sample plate: try anything") if sample else ""
        if lying is not None and not sample:
            note = say("not saved yet") if lying.path is None else lying.path.name
        if self.recovery.broken:
            note = say("autosave is off: nothing can be written to the state folder")
        self.top.header.show_plate(
            "" if lying is None else lying.plate.title, note, sample=lying is None or sample
        )
        self.setWindowTitle(say("{name}[*] – Tone Ladder", name=self.bench.name()))
        self.setWindowModified(self.bench.unsaved)
        self.menus.enable(plate=lying is not None)
        self.top.enable(plate=lying is not None)
        self._show_undo()

    def _show_undo(self) -> None:
        undo = self.bench.undo
        for action, text, words in (
            (self.menus.undo, undo.undoText(), (say("&Undo"), say("&Undo: {act}"))),
            (self.menus.redo, undo.redoText(), (say("&Redo"), say("&Redo: {act}"))),
        ):
            action.setEnabled(bool(text))
            action.setText(words[1].format(act=text) if text else words[0])
        self.top.tell_last_act(undo.undoText())

    def _failed(self, _request: object, sentence: str) -> None:
        self.say_error(sentence)

    def _opened(self) -> None:
        """A new plate begins with its size; one that has a file is as it was left."""
        lying = self.bench.lying
        if lying is not None and lying.path is None and not lying.sample:
            self.top.card.open(self.top.plate)
        else:
            self.top.card.close_all()
            self.top.paper.setFocus()

    def _saved(self, path: Path) -> None:
        self.announce(say("Saved as {name}.", name=path.name))
        self._show_state()

    def _use_preferences(self) -> None:
        self.showing.measure_screen(self.preferences.now.screen_px_per_mm)
        self.top.ladder.show_key(shown=self.preferences.now.ladder_key)
        self.menus.key.setChecked(self.preferences.now.ladder_key)

    def _rename(self, title: str) -> None:
        if self.bench.plate is not None:
            plate = replace(self.bench.plate, title=title)
            self.bench.change(say("Call it “{title}”", title=title), plate)

    def _take_back(self, left: Left) -> None:
        try:
            lying = take_back(left)
        except (ToneLadderError, OSError, ValueError, KeyError):
            self.say_error(
                say("What was kept is damaged and cannot be taken back. It was left as it is.")
            )
            return
        self.filing.unless_unsaved(lambda: self.bench.lay(lying, unsaved=True))
        throw_away(left)

    def _throw_away(self, left: Left) -> None:
        throw_away(left)
        self.offer_what_was_lost()


def open_window(paths: Sequence[Path]) -> int:
    """Open the bench with a plate or picture for each path, or with the sample plate.

    Returns
    -------
    int
        The program's exit status, when the last window is closed.
    """
    app = QApplication.instance() or QApplication(sys.argv[:1])
    if not isinstance(app, QApplication):
        raise TypeError(app)
    sys.setswitchinterval(SWITCH_S)
    app.setApplicationName("Tone Ladder")
    app.setDesktopFileName("toneladder")
    preferences = Preferences(config_folder() / "preferences.ini")
    wardrobe = Wardrobe(app, preferences)
    windows = []
    for path in paths or (None,):
        window = BenchWindow(preferences, state_folder())
        window.show()
        if path is None:
            window.filing.open_sample()
        else:
            window.open(path)
        windows.append(window)
    QTimer.singleShot(0, windows[0].offer_what_was_lost)
    status = app.exec()
    del wardrobe
    return status
