"""What the window tells of its plate: on the card and the ladder, in the title, in the menus."""

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from toneladder.wording import say
from toneladder_desktop.card.decision import Facts
from toneladder_desktop.fittings.explaining import explain_anew

if TYPE_CHECKING:
    from toneladder_desktop.window.bench_window import BenchWindow


class Telling(QObject):
    """Follows bench, workings, files and preferences of one window."""

    def __init__(self, window: "BenchWindow") -> None:
        super().__init__(window)
        self._window = window
        window.bench.state_changed.connect(self.show_state)
        window.bench.undo.undoTextChanged.connect(window.show_undo)
        window.bench.undo.redoTextChanged.connect(window.show_undo)
        window.workings.worked.connect(self._show_facts)
        window.softening.found.connect(self._show_facts)
        window.workings.failed.connect(self._failed)
        window.recovery.told.connect(self.show_state)
        window.menus.undo.triggered.connect(lambda: window.announce(say("Taken back.")))
        window.menus.redo.triggered.connect(lambda: window.announce(say("Done again.")))
        window.preferences.changed.connect(self._show_facts)
        window.preferences.changed.connect(self._use_preferences)
        window.filing.saved.connect(self._saved)
        window.filing.opened.connect(self._opened)
        window.top.header.renamed.connect(self._rename)
        self._manner = window.preferences.now.manner
        self._use_preferences()
        self.show_state()

    def show_state(self) -> None:
        """The plate's name and file, and what can be done with it."""
        window = self._window
        lying = window.bench.lying
        sample = lying is not None and lying.sample
        note = say("sample plate: try anything") if sample else ""
        if lying is not None and not sample:
            note = say("not saved yet") if lying.path is None else lying.path.name
            if lying.path is not None and window.bench.unsaved:
                note = say("{file}, changed since", file=note)
        if window.recovery.broken:
            note = say("autosave is off: nothing can be written to the state folder")
        title = "" if lying is None else lying.plate.title
        window.top.header.show_plate(title, note, sample=lying is None or sample)
        window.setWindowTitle(say("{name}[*] – Tone Ladder", name=window.bench.name()))
        window.setWindowModified(window.bench.unsaved)
        window.menus.enable(plate=lying is not None)
        window.top.enable(plate=lying is not None)
        self.show_undo()

    def show_undo(self) -> None:
        """What can be taken back, and done again."""
        undo, menus = self._window.bench.undo, self._window.menus
        for action, text, words in (
            (menus.undo, undo.undoText(), (say("&Undo"), say("&Undo: {act}"))),
            (menus.redo, undo.redoText(), (say("&Redo"), say("&Redo: {act}"))),
        ):
            action.setEnabled(bool(text))
            action.setText(words[1].format(act=text) if text else words[0])
        self._window.top.tell_last_act(undo.undoText())

    def _show_facts(self) -> None:
        window = self._window
        lying, workings = window.bench.lying, window.workings
        if lying is not None:
            plate = lying.plate
            if not lying.sample:
                window.preferences.change(conditions=plate.conditions)
            manner = window.preferences.now.manner
            window.top.show_facts(
                Facts(plate, workings.chosen, workings.plan, workings.curve, manner)
            )

    def _failed(self, _request: object, sentence: str) -> None:
        self._window.say_error(sentence)

    def _opened(self) -> None:
        """A new plate begins with its size; one that has a file is as it was left."""
        lying, top = self._window.bench.lying, self._window.top
        if lying is not None and lying.path is None and not lying.sample:
            top.card.open(top.plate)
        else:
            top.card.close_all()
            top.paper.setFocus()

    def _saved(self, path: Path) -> None:
        self._window.announce(say("Saved as {name}.", name=path.name))
        self._window.top.notice.put_away()
        self.show_state()

    def _use_preferences(self) -> None:
        now = self._window.preferences.now
        self._window.showing.measure_screen(now.screen_px_per_mm)
        self._window.top.ladder.show_key(shown=now.ladder_key)
        self._window.menus.key.setChecked(now.ladder_key)
        if now.manner != self._manner:
            self._manner = now.manner
            explain_anew(self._window)
            self._window.workings.word_anew()

    def _rename(self, title: str) -> None:
        bench = self._window.bench
        if bench.plate is not None:
            bench.change(say("Call it “{title}”", title=title), replace(bench.plate, title=title))
