"""Takes the open plate to the tank, and back to a bite that a crash has cut short."""

from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QWidget

from toneladder.bite.values import Standing as Footing
from toneladder.plate.identity import identity_of
from toneladder.tank.values import Kind, Stage, State
from toneladder.wording import say
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.bench.workings import Workings
from toneladder_desktop.fittings.notice import Notice

if TYPE_CHECKING:
    from toneladder.plan.planning import Plan
    from toneladder.plate.values import Plate
    from toneladder_desktop.tank.notebook import Bitten, Notebook, Opened
    from toneladder_desktop.tank.window import TankWindow


class TankDesk(QObject):
    """One tank window for one bench.

    ``told(str)`` is what the bench shows of a bite that is under way, or empty; ``bitten(str)``
    says when the tones of the plate on it were bitten, or nothing.
    """

    told = Signal(str)
    bitten = Signal(str)

    def __init__(
        self,
        window: QWidget,
        bench: Bench,
        workings: Workings,
        notice: Notice,
        book: Path,
        *,
        print_card: Callable[[], object],
        steady: Callable[[], bool] = bool,
        take_back: Callable[[str], object] = str,
    ) -> None:
        super().__init__(window)
        self._window, self._bench, self._workings = window, bench, workings
        self._notice, self._book, self._print_card = notice, book, print_card
        self._steady, self._take_back = steady, take_back
        self._tank: TankWindow | None = None
        self._notebook: Notebook | None = None
        self._ended: tuple[str, dict[Stage, float | None]] = ("", {})
        bench.laid.connect(self._look)

    @property
    def order_now(self) -> "Plan | None":
        """The plan with its order as the tank has worked it out by now; None without one."""
        plan = self._workings.plan
        if self._tank is None or plan is None or self._tank.standing.order is None:
            return None
        from toneladder.tank.staged import with_stage

        return replace(plan, order=with_stage(plan, self._tank.stage, self._tank.standing.order))

    def open(self) -> None:
        """To the tank; where lines or a second grain have days of their own, it is asked which."""
        if self._tank is not None:
            self._show(self._tank)
            return
        plan = self._workings.plan
        if plan is None:
            self._notice.tell(say("The order is still being worked out; try again in a moment."))
            return
        from toneladder.tank.naming import stage_name
        from toneladder.tank.staged import stages_of

        stages = stages_of(plan.order)
        if len(stages) == 1:
            self._open(*stages)
            return
        acts = [(stage_name(stage), partial(self._open, stage)) for stage in stages]
        self._notice.tell(
            say("What is bitten today? Each has a day of its own."), acts, put_away=say("Not now")
        )

    def _open(self, stage: Stage) -> None:
        """To the tank with one stage; one that was bitten before is asked about first."""
        day = self._bitten_on(stage)
        if day is None:
            self._open_asked(stage)
            return
        from toneladder.tank.naming import bitten_before

        self._notice.tell(
            bitten_before(stage, day),
            ((say("Bite it again"), partial(self._open_asked, stage)),),
            put_away=say("Leave it as it is"),
            safe=True,
        )

    def _bitten_on(self, stage: Stage) -> str | None:
        """The day when a stage of the plate was bitten, empty if unknown; None if it was not."""
        plate = self._bench.plate
        if plate is None:
            return None
        whose, ended = self._ended
        if whose == identity_of(plate) and stage in ended:
            at = ended[stage]
            return None if at is None else _day_of(at)
        given = {
            Stage.LINES: plate.lines_given_s,
            Stage.TONES: plate.given_s,
            Stage.SECOND: plate.second_given_s,
        }[stage]
        return "" if given else None

    def _open_asked(self, stage: Stage) -> None:
        """To the tank with one stage; tones without a strip are asked about once."""
        plan = self._workings.plan
        if plan is None:
            self._notice.tell(say("The order is still being worked out; try again in a moment."))
        elif stage is Stage.TONES and plan.curve.standing is Footing.UNTESTED:
            self._notice.tell(
                say("No strip of this bath was read: the times are starting points, untested."),
                (
                    (say("Print a strip card"), self._print_card),
                    (say("Go on untested"), self._begin),
                ),
                put_away=say("Not now"),
            )
        else:
            self._begin(stage=stage)

    def enter(self) -> None:
        """Enter what happened, with dry hands."""
        if self._tank is None:
            self._notice.tell(say("The plate is not at the tank. Take it there first."))
        elif self._tank.in_bath:
            self._notice.tell(say("The plate is in the bath. Enter it after the lift."))
        else:
            self._tank.enter()

    def stop(self) -> None:
        """The bench's window closes."""
        if self._tank is not None:
            self._tank.stop()
            self._tank.close()
        elif self._notebook is not None:
            self._notebook.close("")
        self._tank = self._notebook = None

    @property
    def in_bath(self) -> bool:
        """Whether the plate of this bench is in the bath."""
        return self._tank is not None and self._tank.in_bath

    def _look(self) -> None:
        """A plate lies on the bench: ask whether a stay of it at the tank is still open."""
        plate = self._bench.plate
        self.bitten.emit("")
        if plate is not None and self._tank is None and self._book.exists():
            self._notes().look(identity_of(plate))
            self._notes().past(identity_of(plate))

    def _past(self, answer: "Bitten") -> None:
        """When the stages of a plate were bitten before."""
        plate = self._bench.plate
        if plate is not None and answer.plate == identity_of(plate):
            self._keep_ended(answer.plate, dict(answer.ended_utc_s))

    def _keep_ended(self, plate: str, ended: dict[Stage, float | None]) -> None:
        self._ended = (plate, ended)
        tones = ended.get(Stage.TONES)
        self.bitten.emit("" if tones is None else say("bitten {day}", day=_day_of(tones)))

    def _unfinished(self, opened: "Opened") -> None:
        if self._tank is not None:
            return
        from toneladder.tank.session import session
        from toneladder_desktop.tank.clock import read_clocks

        now = read_clocks()
        standing = session(opened.begun.order, opened.begun.facts, opened.events, now)
        if standing.in_bath:
            self._begin(opened)
            return
        sentence = (
            say("This plate is at the tank: everything is bitten, but its stay is still open.")
            if standing.state is State.END
            else say("This plate is at the tank: {step} is not done yet.", step=standing.bite_name)
        )
        self._notice.tell(sentence, ((say("Back to the tank"), lambda: self._begin(opened)),))

    def _begin(self, opened: "Opened | None" = None, stage: Stage = Stage.TONES) -> None:
        plan, plate = self._workings.plan, self._bench.plate
        if plate is None or (plan is None and opened is None):
            return
        from toneladder.tank.facts import begun_of
        from toneladder_desktop.tank.maps import stage_maps
        from toneladder_desktop.tank.window import Maps, TankWindow

        if opened is not None:
            begun = opened.begun
        elif plan is not None:
            begun = begun_of(plan, stage)
        maps = None if plan is None else Maps(stage_maps(plan, begun.facts.stage))
        tank = self._tank = TankWindow(
            identity_of(plate),
            begun,
            self._notes(),
            title=self._bench.name(),
            maps=maps,
            steady=self._steady,
            parent=self._window,
        )
        tank.told.connect(self._tell)
        tank.gone.connect(self._gone)
        tank.ended.connect(self._done)
        self._show(tank)

    def _show(self, tank: "TankWindow") -> None:
        tank.show()
        tank.raise_()
        tank.activateWindow()
        tank.setFocus()

    def _tell(self, words: str) -> None:
        self.told.emit(words)

    def _done(self, given_s: tuple[float, ...]) -> None:
        """The plate has had its bites: they are kept with it."""
        plate, tank = self._bench.plate, self._tank
        if plate is None or tank is None:
            return
        given = tuple(round(total_s, 1) for total_s in given_s)
        bitten = {
            Stage.LINES: replace(plate, lines_given_s=given),
            Stage.TONES: replace(plate, given_s=given),
            Stage.SECOND: replace(plate, second_given_s=given),
        }
        self._bench.change(say("Bitten at the tank"), bitten[tank.stage])
        self._stay_over(plate, tank.stage, datetime.now(UTC).timestamp())
        kept = say("The bites that were really given are kept with the plate.")
        if tank.forwarded is None:
            self._notice.tell(kept)
            return
        from toneladder.book.stay_use import forwarded_words

        self._notice.tell(
            f"{kept} {forwarded_words(tank.forwarded)}",
            ((say("Take the use back"), partial(self._take_back, tank.forwarded.stay)),),
        )

    def _stay_over(self, plate: "Plate", stage: Stage, at_utc_s: float | None) -> None:
        """A stay ended, or its window closed before that."""
        whose, before = self._ended
        known = before if whose == identity_of(plate) else {}
        self._keep_ended(identity_of(plate), {**known, stage: at_utc_s})

    def _gone(self) -> None:
        """The tank's window has closed, and let the book go."""
        plate, tank = self._bench.plate, self._tank
        if tank is not None:
            if plate is not None and tank.events and tank.events[-1].kind is not Kind.CLOSED:
                self._stay_over(plate, tank.stage, None)
            tank.deleteLater()
        self._tank = self._notebook = None
        self.told.emit("")

    def _notes(self) -> "Notebook":
        if self._notebook is None:
            from toneladder_desktop.tank.notebook import Notebook

            self._notebook = Notebook(self._book, self)
            self._notebook.unfinished.connect(self._unfinished)
            self._notebook.bitten.connect(self._past)
            self._notebook.failed.connect(self._notice.tell)
        return self._notebook


def _day_of(utc_s: float) -> str:
    from toneladder.sheets.order_words import written_date

    return written_date(datetime.fromtimestamp(utc_s, UTC).astimezone().date())
