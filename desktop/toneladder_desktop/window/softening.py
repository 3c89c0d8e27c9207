"""Soft passages: looked for once the plan stands, listed on the card, dotted on the print."""

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Signal

from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.bench.workings import Workings
from toneladder_desktop.card.soft import SoftDecision
from toneladder_desktop.paper.leaders import Pencil

if TYPE_CHECKING:
    from toneladder.borders.remedies import Passage
    from toneladder.plan.planning import Plan

REST_MS = 400
"""The preview is drawn first; only a plan that has stood so long is looked through."""


class Softening(QObject):
    """Joins the soft passages of the card with the workings and the paper."""

    found = Signal()

    def __init__(
        self, bench: Bench, workings: Workings, pencil: Pencil, decision: SoftDecision
    ) -> None:
        super().__init__(pencil)
        self._bench, self._workings = bench, workings
        self._pencil, self._decision = pencil, decision
        self._looked_through: Plan | None = None
        self._rest = QTimer(self, singleShot=True, interval=REST_MS)
        self._rest.timeout.connect(self._look)
        workings.worked.connect(self._follow)
        workings.softened.connect(self._take)
        decision.picked.connect(self._show)
        decision.seen.connect(self._show)
        bench.laid.connect(self._forget)

    def _follow(self) -> None:
        plan = self._workings.plan
        if plan is None:
            self._workings.background.give_up("soft")
            self._rest.stop()
            if not self._only_remedies():
                self._pencil.show_passages(())
        elif self._looked_through is None or plan.order is not self._looked_through.order:
            self._rest.start()

    def _only_remedies(self) -> bool:
        """Whether nothing but remedies is otherwise than when the passages were found."""
        plate, looked = self._bench.plate, self._looked_through
        if plate is None or looked is None:
            return False
        soft = replace(looked.plate.soft, remedies=plate.soft.remedies)
        return replace(looked.plate, soft=soft) == plate

    def _look(self) -> None:
        self._looked_through = self._workings.plan
        self._workings.soften()

    def _take(self, passages: "tuple[Passage, ...]") -> None:
        self._decision.show_passages(passages)
        self._show()
        self.found.emit()

    def _forget(self) -> None:
        self._rest.stop()
        self._looked_through = None
        self._decision.show_passages(None)
        self._pencil.show_passages(())

    def _show(self) -> None:
        passages = self._decision.passages or ()
        if not self._decision.isVisible() or self._workings.plan is None:
            self._pencil.show_passages(())
            return
        picked = self._decision.passage
        number = None if picked is None else picked.number
        self._pencil.show_passages(
            tuple(
                (tuple((x, y) for x, y in passage.points.tolist()), passage.number == number)
                for passage in passages
            )
        )
