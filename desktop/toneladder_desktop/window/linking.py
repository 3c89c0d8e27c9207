"""What is chosen or pointed at in one place is shown in all: ladder, paper, day, caption."""

from PySide6.QtCore import QObject

from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.bench.look import Look
from toneladder_desktop.bench.workings import Workings
from toneladder_desktop.window.showing import Showing
from toneladder_desktop.window.top import BenchTop


class Linking(QObject):
    """Choosing tone n marks step n, whose bite ends it; choosing step n shows it and tone n."""

    def __init__(
        self, bench: Bench, workings: Workings, look: Look, showing: Showing, top: BenchTop
    ) -> None:
        super().__init__(top)
        self._bench, self._workings = bench, workings
        self._look, self._showing, self._top = look, showing, top
        self._tone: int | None = None
        top.ladder.tone_chosen.connect(self._choose)
        top.ladder.tone_pointed.connect(self._point)
        top.table.picked.connect(self._choose)
        top.day.step_chosen.connect(self._choose_step)
        top.paper.pointed.connect(self._point_on_paper)
        top.paper.left.connect(lambda: top.ladder.point_at(None))
        look.changed.connect(self._follow_look)
        bench.laid.connect(self._forget)

    def _choose(self, tone: int) -> None:
        self._tone = tone if tone >= 0 else None
        self._showing.ring(self._tone)
        self._top.day.choose_step(tone if tone > 0 else None)

    def _point(self, tone: int) -> None:
        """A pointer rings what it is on; without one the chosen tone stays ringed."""
        self._showing.ring(tone if tone >= 0 else self._tone)

    def _choose_step(self, step: int) -> None:
        self._look.show_step(step)
        self._top.ladder.choose_tone(step)

    def _follow_look(self) -> None:
        self._top.day.choose_step(self._look.step or None)

    def _point_on_paper(self, x: float, y: float) -> None:
        """A mark on the ladder's left rail: how dark the picture is under the pointer."""
        ready, plate = self._workings.prepared, self._bench.plate
        curve = self._workings.curve
        inside = 0.0 <= x < 1.0 and 0.0 <= y < 1.0
        if not inside or ready is None or plate is None or curve is None:
            self._top.ladder.point_at(None)
            return
        from toneladder.plan.choosing import targets_of

        height, width = ready.asked.shape
        step = int(ready.asked[int(y * height), int(x * width)])
        self._top.ladder.point_at(float(targets_of(ready, plate, curve)[step]))

    def _forget(self) -> None:
        self._tone = None
        self._showing.ring(None)
