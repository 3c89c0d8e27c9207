"""The strip's own patches as a list: those that are ticked become tones."""

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QWidget

from toneladder.plate.values import Plate
from toneladder.quantities import write_bite, write_tone
from toneladder.strip.values import Patch
from toneladder.wording import say
from toneladder_desktop.card.decision import Facts

_ROWS_SEEN = 6
_SAME_BITE_S = 0.6  # what is copied into another bath is rounded to the second
_BITE = Qt.ItemDataRole.UserRole


class PatchList(QListWidget):
    """``ticked(bites)`` has the bites of the ticked patches, seconds, rising."""

    ticked = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(say("Patches of the strip that become tones"))
        self._shown: tuple[tuple[str, float, bool], ...] = ()
        self.itemChanged.connect(self._changed)

    def show_facts(self, facts: Facts) -> None:
        """The patches of the plate's newest strip, and which of them are tones now."""
        used = _used(facts)
        shown = []
        for patch in _bitten(facts.plate):
            dark = write_tone(patch.lightness, facts.manner)
            text = say("{bite}: {dark}", bite=write_bite(patch.total_bite_s), dark=dark)
            shown.append((text, patch.total_bite_s, patch.total_bite_s in used))
        if facts.chosen is not None or facts.plate.tones.patches_s:
            self._shown = tuple(shown)
            self.take_back()

    def take_back(self) -> None:
        """Ticks as the plate has them."""
        with QSignalBlocker(self):
            at = max(self.currentRow(), 0)
            while self.count() > len(self._shown):
                self.takeItem(self.count() - 1)
            for row, (text, bite_s, on) in enumerate(self._shown):
                item = self.item(row) if row < self.count() else QListWidgetItem(self)
                item.setText(text)
                item.setData(_BITE, bite_s)
                item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
                item.setCheckState(Qt.CheckState.Checked if on else Qt.CheckState.Unchecked)
            self.setCurrentRow(min(at, self.count() - 1))
        if self.count():
            self.setFixedHeight(self.sizeHintForRow(0) * min(self.count(), _ROWS_SEEN) + 4)

    def _changed(self, _item: QListWidgetItem) -> None:
        items = (self.item(row) for row in range(self.count()))
        on = [item.data(_BITE) for item in items if item.checkState() is Qt.CheckState.Checked]
        self.ticked.emit(tuple(on))


def _bitten(plate: Plate) -> list[Patch]:
    """One patch for every bite of the newest strip, the unbitten one left out: it is white."""
    patches = plate.evidence.strips[-1].patches
    first = {patch.total_bite_s: patch for patch in reversed(patches)}
    return [first[bite] for bite in sorted(first) if bite > 0.0]


def _used(facts: Facts) -> frozenset[float]:
    """The bites of the patches that are tones: those that were ticked, or the best of them."""
    plate, chosen, curve = facts.plate, facts.chosen, facts.curve
    if plate.tones.patches_s or chosen is None or curve is None:
        return frozenset(plate.tones.patches_s)
    from toneladder.plan.patches import pointed_at

    pointed = pointed_at(plate, curve)
    if pointed is None:
        return frozenset()
    scale = pointed.warmer / chosen.rate
    bites = [tone.total_bite_s for tone in chosen.ladder.tones[1:]]
    return frozenset(
        patch.total_bite_s
        for patch in pointed.patches
        if any(abs(patch.total_bite_s * scale - bite) <= _SAME_BITE_S for bite in bites)
    )
