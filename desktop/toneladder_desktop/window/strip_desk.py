"""Opens the strip's page in the place of the bench's top; what is taken goes to the plate."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer, Signal

from toneladder.plate.limits import faults
from toneladder.plate.values import Plate
from toneladder.quantities import write_day
from toneladder.strip.values import Evidence, Means, Strip
from toneladder.wording import say
from toneladder_desktop.bench.background import Background, Work, later
from toneladder_desktop.bench.beside import Beside
from toneladder_desktop.bench.opening import (
    ask_for_scan,
    ask_for_strip,
    ask_where_to_save_strip,
    file_name,
)
from toneladder_desktop.bench.workings import grey_image
from toneladder_desktop.window.page_desk import PageDesk, Room

if TYPE_CHECKING:
    from toneladder.bite.fitting import Fit
    from toneladder_desktop.strip.draft import Draft
    from toneladder_desktop.strip.view import StripView

PAUSE_MS = 120
"""A hand that types or drags must have been still so long before the curve is fitted."""


class StripDesk(PageDesk["StripView"]):
    """One page for one bench; it is made when it is first wanted.

    ``taken(Strip)`` says that the plate stands on a strip that was read.
    """

    taken = Signal(object)

    def __init__(
        self, room: Room, beside: Beside, hold_bite: Callable[[int, float], object]
    ) -> None:
        super().__init__(room)
        self._hold_bite, self._beside = hold_bite, beside
        self._background = Background(later(_work), self)
        self._background.answered.connect(self._answered)
        self._background.failed.connect(self._failed)
        self._others: tuple[Strip, ...] = ()
        self._pause = QTimer(self, singleShot=True, interval=PAUSE_MS)
        self._pause.timeout.connect(self._fit)
        self._fitted: Fit | None = None
        self._unfitted = ""
        room.workings.worked.connect(self._show_rungs)

    def open(self) -> None:
        """A new strip of the open plate's bath, or the one its times stand on."""
        plate = self._bench.plate
        if plate is None:
            self._say_error(say("There is no plate yet. Open a picture first."))
            return
        from toneladder_desktop.strip.draft import draft_of

        strips = plate.evidence.strips
        if strips:
            self._begin(draft_of(strips[-1]), strips[:-1])
        else:
            self.open_new()

    def open_new(self) -> None:
        """A strip that is not read yet, beside those that the plate has."""
        from toneladder.strip.planning import doubling_strip
        from toneladder_desktop.strip.work import PlanCard

        plate, plan = self._bench.plate, self._workings.plan
        if plate is not None and plan is not None:
            self._background.ask("card", PlanCard(plan))
        elif plate is not None:
            self._begin_new(plate, doubling_strip(plate.conditions).bites_s)

    def close(self) -> None:
        """Back to the bench; the plate is as it was."""
        self._background.give_up("card")
        super().close()

    def stop(self) -> None:
        """The window closes."""
        self._background.close()

    def open_scan(self, path: Path) -> None:
        """Have the strip on a scan found and read."""
        view = self._view
        if view is None or view.draft is None:
            return
        bites = view.draft.bites_s()
        if not bites:
            view.notice.tell(say("Type the total bite of every patch first, then open the scan."))
            return
        from toneladder.scans.values import GreyScale
        from toneladder_desktop.strip.draft import GREY_SCALE
        from toneladder_desktop.strip.work import OpenScan

        view.notice.put_away()
        scale = GreyScale(GREY_SCALE, absolute=False) if view.conditions.with_scale else None
        photograph = view.draft.means is Means.PHOTOGRAPH
        self._background.ask("scan", OpenScan(path, bites, photograph, scale))

    def _begin(self, draft: "Draft", others: tuple[Strip, ...]) -> None:
        view = self._made()
        self._others, self._fitted = others, None
        view.notice.put_away()
        view.show_curve(None, ())
        view.show_draft(draft, self._preferences.now.manner)
        self._turn_to()
        self._pause.start()

    def _begin_new(self, plate: Plate, bites_s: tuple[float, ...]) -> None:
        """A strip to be read, with the bites that its card gave it."""
        from toneladder_desktop.strip.draft import blank

        draft = blank(plate.conditions, bites_s)
        draft = replace(draft, bath=plate.bath, grained_on=plate.grained_on)
        self._begin(draft, plate.evidence.strips)

    def _fit(self) -> None:
        view = self._view
        strip = None if view is None or view.draft is None else view.draft.strip()
        plate = self._bench.plate
        if strip is None or plate is None:
            return
        from toneladder_desktop.strip.work import FitDraft

        own = (strip.conditions.metal, strip.conditions.mordant, strip.dryness)
        others = tuple(
            one
            for one in self._others
            if (one.conditions.metal, one.conditions.mordant, one.dryness) == own
        )
        self._background.ask("fit", FitDraft(strip, others, plate.evidence.q))

    def _answered(self, _request: object, answer: object) -> None:
        from toneladder_desktop.bench.scanned import Scan
        from toneladder_desktop.strip.work import Fitted, Found, NotFound, Planned

        if isinstance(answer, Planned):
            if self._bench.plate is not None:
                self._begin_new(self._bench.plate, answer.bites_s)
            return
        view = self._view
        if view is None or view.draft is None:
            return
        match answer:
            case Scan():
                view.board.show_scan(grey_image(answer.image), answer.width, answer.height)
            case Found():
                view.board.show_found(answer.found)
                means = view.draft.means
                means = Means.PHOTOGRAPH if means is Means.PHOTOGRAPH else Means.SCAN
                draft = view.draft.with_patches(answer.reading.patches, means)
                view.show_draft(draft, self._preferences.now.manner)
                if answer.reading.remarks:
                    view.notice.tell(" ".join(answer.reading.remarks))
                self._pause.start()
            case NotFound():
                view.board.lay_by_hand(len(view.draft.rows))
                words = say("{why} Or drag the four corners onto the strip.", why=answer.sentence)
                view.notice.tell(words)
            case Fitted():
                if view.notice.sentence.text() == self._unfitted:
                    view.notice.put_away()
                self._fitted = answer.fit
                self._show_fit(answer.fit)

    def _show_fit(self, found: "Fit") -> None:
        from toneladder.bite.curve import lightness_at
        from toneladder.bite.today import rate_today
        from toneladder_desktop.curve.content import content_of

        plate, chosen = self._bench.plate, self._workings.chosen
        if self._view is None or plate is None:
            return
        curve = found.curve
        rate = rate_today(plate.conditions.temperature_c, curve.temperature_c, q=plate.evidence.q)
        tones = () if chosen is None else chosen.ladder.tones
        content = content_of(curve, found, tones, rate)
        rungs = tuple(
            replace(
                rung,
                lightness=float(lightness_at(curve, rung.bite_s)),
                low=_along(curve.bites_s, curve.low, rung.bite_s),
                high=_along(curve.bites_s, curve.high, rung.bite_s),
            )
            for rung in content.rungs
        )
        self._view.show_curve(replace(content, rungs=rungs), found.remarks)

    def _show_rungs(self) -> None:
        """A rung was moved on the curve: the plate's own bites are others now."""
        if self._is_open() and self._fitted is not None:
            self._show_fit(self._fitted)

    def _failed(self, request: object, sentence: str) -> None:
        from toneladder_desktop.strip.work import FitDraft, PlanCard

        if isinstance(request, FitDraft):
            self._unfitted, self._fitted = sentence, None
            if self._view is not None:
                self._view.show_unfitted()
        if isinstance(request, PlanCard) or self._view is None:
            self._say_error(sentence)
        else:
            self._view.notice.tell(sentence)

    def _reread(self, corners: object) -> None:
        from toneladder_desktop.strip.work import Reread

        draft = None if self._view is None else self._view.draft
        bites = None if draft is None else draft.bites_s()
        if draft is not None and bites:
            photograph = draft.means is Means.PHOTOGRAPH
            self._background.ask("scan", Reread(corners, bites, photograph))  # type: ignore[arg-type] # four corners

    def _take(self, strip: Strip) -> None:
        plate = self._bench.plate
        if plate is None:
            return
        evidence = replace(plate.evidence, strips=(*self._others, strip))
        wanted = replace(plate, evidence=evidence)
        wrong = faults(wanted)
        if wrong and self._view is not None:
            self._view.notice.tell(" ".join(wrong))
            return
        self._bench.change(_sentence(strip), wanted)
        self.taken.emit(strip)
        self.close()

    def _keep(self, strip: Strip) -> None:
        name = strip.bitten_on or self._bench.name()
        suggestion = Path.home() / file_name(say("Strip {name}", name=name), ".strip")
        ask_where_to_save_strip(self._pages, suggestion, lambda path: self._write(path, strip))

    def _write(self, path: Path, strip: Strip) -> None:
        from toneladder.strip.file import write_strip

        self._beside.do(
            lambda: write_strip(path, strip),
            lambda _: self._tell(say("The strip is kept in {name}.", name=path.name)),
            self._tell,
        )

    def _read(self, path: Path) -> None:
        from toneladder.strip.file import read_strip
        from toneladder_desktop.strip.draft import draft_of

        self._beside.do(
            lambda: read_strip(path),
            lambda strip: self._begin(draft_of(strip), self._others),
            self._tell,
        )

    def _tell(self, sentence: str) -> None:
        if self._view is not None:
            self._view.notice.tell(sentence)

    def _make(self) -> "StripView":
        from toneladder_desktop.strip.view import StripView

        view = StripView(self._pages)
        view.drafted.connect(lambda _draft: self._pause.start())
        view.scan_wanted.connect(lambda: ask_for_scan(self._pages, Path.home(), self.open_scan))
        view.scan_dropped.connect(self.open_scan)
        view.strip_wanted.connect(lambda: ask_for_strip(self._pages, Path.home(), self._read))
        view.reread.connect(self._reread)
        view.save_wanted.connect(self._keep)
        view.taken.connect(self._take)
        view.left.connect(self.close)
        view.curve.bite_wanted.connect(self._hold_bite)
        view.curve.hand_on.connect(self._bench.hold)
        return view


def _work() -> Work:
    from toneladder_desktop.strip.work import StripWork

    return StripWork().work


def without_strip(plate: Plate, number: int) -> Plate:
    """The plate without one of its strips."""
    strips = plate.evidence.strips
    left = (*strips[:number], *strips[number + 1 :])
    evidence: Evidence = replace(plate.evidence, strips=left)
    return replace(plate, evidence=evidence)


def _sentence(strip: Strip) -> str:
    if strip.bitten_on:
        return say("Plan by the strip of {day}", day=write_day(strip.bitten_on))
    return say("Plan by this strip")


def _along(bites: tuple[float, ...], levels: tuple[float, ...], bite: float) -> float:
    import numpy as np

    return float(np.interp(bite, bites, levels))
