"""Lays the loupe on the paper: it follows the pointer or the keys, and its grain is drawn."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt, QTimer
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent

from toneladder.quantities import write_length
from toneladder.wording import say
from toneladder_desktop.bench.asked import Magnified, Magnify
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.bench.look import Look, View
from toneladder_desktop.bench.workings import Workings
from toneladder_desktop.paper.aim import Aim
from toneladder_desktop.paper.glass import Glass
from toneladder_desktop.paper.paper import Paper

if TYPE_CHECKING:
    from toneladder.plate.values import Plate
    from toneladder_desktop.bench.workings import Tones

SLIVER = 0.01
"""A tone with a smaller share of the glass is not named."""

REST_MS = 40
"""What lies under the loupe must have stood so long before its grain is drawn."""

_SAID_MS = 500
_NEAR_PX = 24
_STEPS = 10.0


class LoupeDesk(QObject):
    """Keeps the loupe over its place; what it shows is flat at once, and grain when it is drawn."""

    def __init__(self, bench: Bench, workings: Workings, look: Look, paper: Paper) -> None:
        super().__init__(paper)
        self._bench, self._workings, self._look, self._paper = bench, workings, look, paper
        self.glass = Glass(paper)
        self._share = (0.5, 0.5)
        self._asked: Magnify | None = None
        self._scene: tuple[object, ...] = ()
        self._rest = QTimer(self, singleShot=True, interval=REST_MS)
        self._rest.timeout.connect(lambda: workings.magnify(self._asked))
        self._moved = QTimer(self, singleShot=True, interval=_SAID_MS)
        self._moved.timeout.connect(self._announce)
        look.loupe_changed.connect(self._turn)
        for changed in (look.changed, look.mirror, workings.worked, paper.scaled):
            changed.connect(self.show)
        bench.plate_changed.connect(self.show)
        workings.magnified.connect(self._magnified)
        paper.pointed.connect(self._follow)
        paper.nudged.connect(self._nudge)
        paper.put_away.connect(lambda: look.loupe.setChecked(False))

    def show(self) -> None:
        """The loupe where it lies, with what is there now; or no loupe."""
        plate = self._bench.plate
        lies = self._look.loupe.isChecked() and plate is not None
        if lies != self.glass.isVisibleTo(self._paper):
            self.glass.setVisible(lies)
            self.glass.raise_()
            self._paper.lie_under(loupe=lies)
        if plate is None or not lies:
            self._ask(None)
            return
        x_mm, y_mm = self._share[0] * plate.size.width_mm, self._share[1] * plate.size.height_mm
        aim = Aim(x_mm, y_mm, self._look.loupe_mm, self.glass.pixels)
        picture = self._look.view is View.PICTURE
        tones = None if picture else self._workings.tones()
        self._ask(None if tones is None else self._request(plate, tones, aim))
        what = say("the picture") if picture else say("…")
        if tones is not None:
            what = self._named(plate, tones, aim)
        words = say("{width} wide · {what}", width=write_length(aim.width_mm), what=what)
        self.glass.look_at(aim, words)

    def _request(self, plate: "Plate", tones: "Tones", aim: Aim) -> Magnify | None:
        """The grain about the loupe; what it shows of another plate, step or ink is no more."""
        chosen, step = self._workings.chosen, self._look.step
        if chosen is None:
            return None
        ladder = [chosen.ladder.tones[self._look.as_stopped(k)] for k in range(chosen.count)]
        lightness = tuple(tone.lightness for tone in ladder)
        bitten_s = tuple(tone.total_bite_s * chosen.rate for tone in ladder)
        scene = (id(tones.cells), tones.numbers, lightness, bitten_s, plate.printing, step)
        if scene != self._scene:
            self._scene = scene
            self.glass.forget_grain()
        px_per_mm = tones.cells.shape[1] / plate.size.width_mm
        piece = aim.about(px_per_mm, (tones.cells.shape[0], tones.cells.shape[1]))
        cells = tones.cells[piece.top : piece.bottom, piece.left : piece.right]
        return Magnify(
            tones=bytes(tones.numbers[value] for value in cells.ravel().tolist()),
            across=cells.shape[1],
            px_per_mm=px_per_mm,
            origin_mm=(piece.left / px_per_mm, piece.top / px_per_mm),
            um_per_px=aim.um_per_px,
            lightness=lightness,
            bitten_s=bitten_s,
            conditions=plate.conditions,
            printing=plate.printing,
        )

    def _ask(self, request: Magnify | None) -> None:
        if request is None:
            self._scene = ()
            self.glass.forget_grain()
        if request != self._asked:
            self._asked = request
            self._workings.magnify(None)
            self._rest.start()

    def _magnified(self, request: Magnify, answer: Magnified) -> None:
        aim = self.glass.aim
        if request == self._asked and aim is not None:
            left, top = request.origin_mm
            self.glass.show_grain(answer.image, aim.pixel(left), aim.pixel(top))

    def _named(self, plate: "Plate", tones: "Tones", aim: Aim) -> str:
        """What lies under the glass, in words."""
        px_per_mm = tones.cells.shape[1] / plate.size.width_mm
        piece = aim.under(px_per_mm, (tones.cells.shape[0], tones.cells.shape[1]))
        values = tones.cells[piece.top : piece.bottom, piece.left : piece.right].ravel().tolist()
        seen = [self._look.as_stopped(tones.numbers[value]) for value in values]
        least = SLIVER * len(seen)
        named = [tone for tone in sorted(set(seen)) if seen.count(tone) >= least]
        half = aim.width_mm / 2.0
        inside = (
            half <= aim.x_mm <= plate.size.width_mm - half
            and half <= aim.y_mm <= plate.size.height_mm - half
        )
        words = _tones_in_words(named)
        return words if inside else say("{tones}, plate’s edge", tones=words)

    def _turn(self) -> None:
        """It was laid down or put away, or is wider now; the keys go where it lies."""
        if self._look.loupe.isChecked():
            self._paper.setFocus(Qt.FocusReason.OtherFocusReason)
        self.show()

    def _follow(self, x: float, y: float) -> None:
        self._share = min(max(x, 0.0), 1.0), min(max(y, 0.0), 1.0)
        if self._look.loupe.isChecked():
            self.show()

    def _nudge(self, across: float, down: float) -> None:
        """A tenth of the glass to a step; the paper follows if it would leave the view."""
        plate, aim = self._bench.plate, self.glass.aim
        if plate is None or aim is None:
            return
        step_mm = aim.width_mm / _STEPS
        x_mm = aim.x_mm + step_mm * (-across if self._paper.mirrored else across)
        y_mm = aim.y_mm + step_mm * down
        x_mm = min(max(x_mm, 0.0), plate.size.width_mm)
        y_mm = min(max(y_mm, 0.0), plate.size.height_mm)
        self._follow(x_mm / plate.size.width_mm, y_mm / plate.size.height_mm)
        spot = self._paper.spot_of(x_mm, y_mm)
        view = self._paper.rect().adjusted(_NEAR_PX, _NEAR_PX, -_NEAR_PX, -_NEAR_PX)
        dx = min(max(spot.x(), view.left()), view.right()) - spot.x()
        dy = min(max(spot.y(), view.top()), view.bottom()) - spot.y()
        if dx or dy:
            self._paper.move_by(dx, dy)
        self._moved.start()

    def _announce(self) -> None:
        said = self.glass.accessibleDescription()
        QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self.glass, said))


def _tones_in_words(tones: list[int]) -> str:
    match tones:
        case [one]:
            return say("tone {one}", one=one)
        case [one, other]:
            return say("tone {one} meets {other}", one=one, other=other)
    first, last = ", ".join(map(str, tones[:-1])), tones[-1]
    return say("tones {first} and {last}", first=first, last=last)
