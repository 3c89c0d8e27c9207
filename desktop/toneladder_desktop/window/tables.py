"""Tones and steps as plain tables, to be read aloud, copied, or seen where no drawing is."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtGui import QGuiApplication, QKeyEvent, QKeySequence
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QTableWidget,
    QTableWidgetItem,
    QWidget,
)

from toneladder.quantities import (
    Manner,
    write_bite,
    write_minutes,
    write_percent,
    write_tone,
    write_tones,
)
from toneladder.wording import begins, say

if TYPE_CHECKING:
    from toneladder.order.stages import GrainStep, LineStep
    from toneladder.order.values import Step
    from toneladder.plan.choosing import Chosen
    from toneladder.plan.planning import Plan


class PlainTable(QTableWidget):
    """A table that is read and copied, not written in."""

    picked = Signal(int)

    def __init__(self, name: str, heads: list[str], parent: QWidget | None = None) -> None:
        super().__init__(0, len(heads), parent)
        self._heads, self._rows = heads, list[list[str]]()
        self.setAccessibleName(name)
        self.setHorizontalHeaderLabels(heads)
        self.verticalHeader().hide()
        self.setShowGrid(False)
        self.horizontalHeader().setDefaultAlignment(
            Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        )
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setTabKeyNavigation(False)
        self.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        self.horizontalHeader().setStretchLastSection(True)
        self.currentCellChanged.connect(lambda row, *_: self.picked.emit(row))

    def fill(self, rows: list[list[str]]) -> None:
        """Other rows; the chosen one stays chosen."""
        self._rows = rows
        with QSignalBlocker(self):
            self.setRowCount(len(rows))
            for r, row in enumerate(rows):
                for c, text in enumerate(row):
                    self.setItem(r, c, QTableWidgetItem(text))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Copy takes the whole table, its heads too."""
        if event.matches(QKeySequence.StandardKey.Copy):
            QGuiApplication.clipboard().setText(self.as_text())
        else:
            super().keyPressEvent(event)

    def as_text(self) -> str:
        """The table with its heads, columns parted by tabs."""
        return "\n".join("\t".join(row) for row in (self._heads, *self._rows))


class TonesTable(PlainTable):
    """The ladder as a table."""

    def __init__(self, parent: QWidget | None = None) -> None:
        prints = begins(say("prints"))
        between = say("Next plate")
        heads = [say("Tone"), say("Total bite"), prints, between, say("Wanted"), say("Share")]
        super().__init__(say("Tones"), heads, parent)

    def show_plan(self, chosen: "Chosen", manner: Manner) -> None:
        """The tones as they are now."""
        held = chosen.ladder.tones
        self.fill(
            [
                [
                    str(tone.tone),
                    write_bite(tone.total_bite_s) if tone.tone else say("white"),
                    write_tone(tone.lightness, manner),
                    write_tones(tone.lightness_high, tone.lightness_low, manner),
                    write_tone(tone.target_lightness, manner),
                    write_percent(tone.share),
                ]
                for tone in held
            ]
        )


class StepsTable(PlainTable):
    """The stop-out order as a table."""

    step_chosen = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        heads = [
            say("Step"),
            say("Stop out"),
            say("Places"),
            say("Painting"),
            say("Bite"),
            say("Makes"),
        ]
        super().__init__(say("Steps"), heads, parent)
        self._steps: tuple[int | None, ...] = ()
        self.picked.connect(self._pick)

    def show_plan(
        self,
        _plate: object,
        _prepared: object,
        _chosen: object,
        plan: "Plan | None",
        _curve: object,
    ) -> None:
        """The steps as they are now; none while they are being worked out."""
        if plan is None:
            self._steps = ()
            self.fill([])
            return
        order = plan.order
        after = () if order.second_grain is None else order.second_grain.steps
        self._steps = (
            *(None for _ in order.line_steps),
            *(step.step for step in order.steps),
            *(None for _ in after),
        )
        self.fill(
            [
                *(_line_row(step, len(order.line_steps)) for step in order.line_steps),
                *(_row(step) for step in order.steps),
                *(_grain_row(step) for step in after),
            ]
        )

    def _pick(self, row: int) -> None:
        if 0 <= row < len(self._steps):
            step = self._steps[row]
            if step is not None:
                self.step_chosen.emit(step)


def _row(step: "Step") -> list[str]:
    return [
        str(step.step),
        say("tone {tone}", tone=", ".join(map(str, step.stop_out))),
        str(step.painting.places),
        write_minutes(step.paint_min),
        write_bite(step.bite_s),
        say("tone {tone}", tone=step.step),
    ]


def _line_row(step: "LineStep", depths: int) -> list[str]:
    from toneladder.order.line_steps import depth_words

    return [
        say("line bite {n}", n=step.step),
        ", ".join(depth_words(depth, depths) for depth in step.stop_out),
        "",
        write_minutes(step.paint_min),
        write_bite(step.bite_s),
        depth_words(step.step, depths),
    ]


def _grain_row(step: "GrainStep") -> list[str]:
    return [
        say("second grain, bite {n}", n=step.step),
        say("tone {tone}", tone=", ".join(map(str, step.stop_out))),
        "",
        write_minutes(step.paint_min),
        write_bite(step.bite_s),
        say("tone {tone}", tone=step.makes),
    ]
