"""Brings plan and look onto the paper: at once in flat tones, then finer when it is drawn."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer

from toneladder.quantities import write_percent
from toneladder.wording import say
from toneladder_desktop.bench.asked import Pull, Pulled
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.bench.look import Look, View
from toneladder_desktop.bench.workings import Tones, Workings
from toneladder_desktop.paper.caption import Caption
from toneladder_desktop.paper.paper import Paper
from toneladder_desktop.window.loupe_desk import LoupeDesk

if TYPE_CHECKING:
    from toneladder_desktop.paper.hatching import Hatch

REST_MS = 120
"""What is looked at must have stood so long before it is drawn finely."""

FINEST_CELLS = 8_000_000


class Showing(QObject):
    """Keeps one paper and its caption as the bench, the workings and the look have it."""

    def __init__(
        self,
        bench: Bench,
        workings: Workings,
        look: Look,
        paper: Paper,
        caption: Caption,
    ) -> None:
        super().__init__(paper)
        self._bench, self._workings, self._look = bench, workings, look
        self._paper, self._caption = paper, caption
        self._screen_px_per_mm = 0.0
        caption.hide()
        self._tone: int | None = None
        self._shown = look.view
        self._rest = QTimer(self, singleShot=True, interval=REST_MS)
        self._rest.timeout.connect(self._draw_finely)
        bench.plate_changed.connect(self._lay)
        workings.worked.connect(self.show)
        workings.glimpsed.connect(paper.show_glimpse)
        workings.pulled.connect(self._pulled)
        look.changed.connect(self.show)
        look.mirror.connect(self._mirror)
        paper.rested.connect(self._rest.start)
        paper.scaled.connect(self.caption)
        self.loupe = LoupeDesk(bench, workings, look, paper)

    def measure_screen(self, px_per_mm: float) -> None:
        """The screen's own pixels to a millimetre, measured with a ruler; 0: as it says itself."""
        self._screen_px_per_mm = px_per_mm
        self.caption()

    def true_size(self) -> None:
        """A millimetre of the print as a millimetre on the screen."""
        self._paper.scale_to(self._true_px_per_mm())

    def ring(self, tone: int | None) -> None:
        """Ring a tone on the paper, or none."""
        self._tone = tone
        self._ring()

    def show(self) -> None:
        """Everything as it is now, in flat tones; what is finer follows."""
        plate, chosen, prepared = self._bench.plate, self._workings.chosen, self._workings.prepared
        if plate is None or prepared is None:
            return
        from toneladder_desktop.drawing import colour_table

        if self._look.view is not self._shown:
            self._shown = self._look.view
            self._paper.forget_fine()
        tones = self._workings.tones()
        if self._look.view is View.PICTURE:
            self._paper.show_cells(prepared.asked)
            self._paper.colour(colour_table.of_picture(prepared.lattice))
        elif chosen is not None and tones is not None:
            self._look.count_steps(chosen.count)
            table = colour_table.of_tones(chosen, plate.printing, self._look.step)
            self._paper.show_cells(tones.cells)
            self._paper.colour(table[list(tones.numbers)], self._hatch(tones, chosen.count))
        self._ring()
        self._rest.start()
        self.caption()

    def caption(self) -> None:
        """The caption's words, and its place at the foot of the paper."""
        share = self._paper.px_per_mm / self._true_px_per_mm()
        view, stop, side = self._look.words()
        scale = say("{share} of true size", share=write_percent(share))
        short_scale = write_percent(share)
        if abs(share - 1.0) < 0.005:
            scale = short_scale = say("true size")
        short = (*self._look.short_words(), short_scale)
        seen = self._paper.sheet().intersected(self._paper.rect())
        self._caption.tell((view, stop, side, scale), short, seen.width())
        told = ", ".join(filter(None, (view, stop, side, scale)))
        self._paper.setAccessibleDescription(told)
        self._place_caption()

    def _lay(self) -> None:
        plate = self._bench.plate
        if plate is not None:
            self._paper.lay(plate.size, plate.printing)
        self._caption.setVisible(plate is not None)
        self.caption()

    def _place_caption(self) -> None:
        sheet = self._paper.sheet()
        seen = sheet.intersected(self._paper.rect())
        size = self._caption.sizeHint()
        left = seen.center().x() - size.width() // 2
        bottom = min(sheet.bottom() - 8, self._paper.height() - 12)
        left = max(0, min(left, self._paper.width() - size.width()))
        self._caption.setGeometry(left, bottom - size.height(), size.width(), size.height())
        self._caption.lie_on(
            self._paper.paper_colour(), seen.left() - left, seen.left() + seen.width() - left
        )

    def _mirror(self, mirrored: bool) -> None:
        self._paper.mirror(mirrored)
        self._ring()
        self.caption()

    def _ring(self) -> None:
        chosen, look = self._workings.chosen, self._look
        if self._tone is None or chosen is None or look.view is View.PICTURE:
            self._paper.outline(None)
            return
        import numpy as np

        tones = self._workings.tones()
        if tones is not None:
            mask = np.zeros(256, dtype=np.uint8)
            mask[: len(tones.numbers)] = np.array(tones.numbers) == self._tone
            self._paper.outline(mask)

    def _hatch(self, tones: Tones, count: int) -> "Hatch | None":
        """What hatches the tones as they are after the step that is looked at."""
        if self._look.view is not View.HATCHED:
            return None
        from toneladder_desktop.paper.hatching import Hatch

        return Hatch(tuple(self._look.as_stopped(tone) for tone in tones.numbers), count)

    def _draw_finely(self) -> None:
        plan, plate = self._workings.plan, self._bench.plate
        hatched = self._look.view is View.HATCHED
        if plan is None or plate is None or self._paper.fine or hatched:
            return
        size = plate.size
        finest = (FINEST_CELLS / (size.width_mm * size.height_mm)) ** 0.5
        scale = min(self._paper.device_px_per_mm, plan.prepared.grid.px_per_mm, finest)
        self._workings.pull(self._look.view, self._look.step, scale)

    def _pulled(self, request: Pull, answer: Pulled) -> None:
        if request.plan is self._workings.plan and self._asked_for(request):
            self._paper.show_fine(answer.image)

    def _asked_for(self, request: Pull) -> bool:
        return (request.view, request.step) == (self._look.view, self._look.step)

    def _true_px_per_mm(self) -> float:
        """The window's pixels to a millimetre on this screen."""
        if self._screen_px_per_mm:
            return self._screen_px_per_mm / self._paper.devicePixelRatioF()
        return self._paper.screen().physicalDotsPerInch() / 25.4
