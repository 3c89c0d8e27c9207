"""Three notes for the first minutes, in the margin of the sample; each goes for good when done."""

from collections.abc import Mapping

from PySide6.QtCore import QObject

from toneladder.wording import say
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.bench.settings import Preferences
from toneladder_desktop.paper.margin_notes import Margin, MarginNotes
from toneladder_desktop.paper.paper import Paper

OWN, PEG, SHEETS = "own picture", "peg", "sheets"
_PLACES: Mapping[str, Margin] = {
    OWN: Margin.TOP_LEFT,
    PEG: Margin.TOP_RIGHT,
    SHEETS: Margin.RIGHT,
}


class FirstNotes(QObject):
    """Knows which of the notes are done; they stand on the sample plate alone."""

    def __init__(self, bench: Bench, preferences: Preferences, paper: Paper) -> None:
        super().__init__(paper)
        self._bench, self._preferences = bench, preferences
        self.notes = MarginNotes(paper)
        bench.laid.connect(self._laid)
        bench.state_changed.connect(self._show)
        preferences.changed.connect(self._show)

    def done(self, note: str) -> None:
        """What the note asks for was done: it is not shown again."""
        known = self._preferences.now.notes_done
        if note not in known:
            self._preferences.change(notes_done=tuple(sorted({*known, note})))

    def _laid(self) -> None:
        lying = self._bench.lying
        if lying is not None and not lying.sample:
            self.done(OWN)
        self._show()

    def _show(self) -> None:
        lying = self._bench.lying
        on_sample = lying is not None and lying.sample
        left = [note for note in _PLACES if note not in self._preferences.now.notes_done]
        words = {
            OWN: say("Drop your own picture here"),
            PEG: say("Drag a peg: it holds"),
            SHEETS: say("Print the sheets when it looks right"),
        }
        self.notes.show_notes({_PLACES[note]: words[note] for note in left} if on_sample else {})
