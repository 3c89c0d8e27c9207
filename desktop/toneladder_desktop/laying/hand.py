"""What keys and a hand do to how the picture lies: pure values and their sentences."""

from dataclasses import dataclass

from PySide6.QtCore import Qt

from toneladder.picture.placing import (
    filled,
    moved,
    scaled,
    straightened,
    turned,
    whole,
)
from toneladder.picture.values import Laying, PlateSize
from toneladder.wording import say

STEP_MM, LEAP_MM = 1.0, 10.0
GROW, LEAP_GROW = 1.01, 1.1
TURN_DEG, LEAP_TURN_DEG = 0.1, 1.0


@dataclass(frozen=True, slots=True)
class Lain:
    """A picture under a plate: how it lies, the plate's size, the picture's sides in pixels."""

    laying: Laying
    size: PlateSize
    picture: tuple[int, int]

    @property
    def middle(self) -> tuple[float, float]:
        """The plate's middle, mm."""
        return self.size.width_mm / 2.0, self.size.height_mm / 2.0

    def moved(self, dx_mm: float, dy_mm: float) -> Laying:
        """The picture moved right and down."""
        return moved(self.laying, self.size, self.picture, dx_mm, dy_mm)

    def grown(self, factor: float, about_mm: tuple[float, float] | None = None) -> Laying:
        """The picture grown about a place, or about the plate's middle."""
        return scaled(self.laying, self.size, self.picture, factor, about_mm or self.middle)

    def turned(self, degrees: float) -> Laying:
        """The picture turned clockwise about the plate's middle."""
        return turned(self.laying, self.size, self.picture, degrees)

    def straightened(self, p_mm: tuple[float, float], q_mm: tuple[float, float]) -> Laying:
        """The picture turned so that two places come to lie level or upright."""
        return straightened(self.laying, self.size, self.picture, p_mm, q_mm)

    def whole(self) -> Laying:
        """As much of the picture as the plate can take."""
        return whole(self.laying)

    def filled(self) -> Laying:
        """The largest piece of the picture that leaves no corner of the plate bare."""
        return filled(self.laying, self.size, self.picture)


@dataclass(frozen=True, slots=True)
class Act:
    """A change of the laying: its sentence, and the name of the movement it is part of."""

    sentence: str
    laying: Laying
    series: str = ""


def act_of(lain: Lain, key: Qt.Key, *, leap: bool, text: str = "") -> Act | None:
    """What a key does; ``leap`` is the Shift key, ``text`` what the key writes."""
    step = LEAP_MM if leap else STEP_MM
    ways = {
        Qt.Key.Key_Left: (-step, 0.0),
        Qt.Key.Key_Right: (step, 0.0),
        Qt.Key.Key_Up: (0.0, -step),
        Qt.Key.Key_Down: (0.0, step),
    }
    if key in ways:
        return Act(say("Move the picture"), lain.moved(*ways[key]), "move")
    if text in {"+", "-"}:
        factor = LEAP_GROW if leap and text == "-" else GROW
        sign = 1 if text == "+" else -1
        return grow(lain, factor**sign)
    if key in {Qt.Key.Key_PageUp, Qt.Key.Key_PageDown}:
        by = LEAP_TURN_DEG if leap else TURN_DEG
        return turn(lain, by if key == Qt.Key.Key_PageDown else -by)
    if key == Qt.Key.Key_Home:
        return Act(say("Lay as much of the picture as fits"), lain.whole())
    if key == Qt.Key.Key_End:
        return Act(say("Fill the plate"), lain.filled())
    return None


def grow(lain: Lain, factor: float, about_mm: tuple[float, float] | None = None) -> Act:
    """The picture larger, or smaller if ``factor`` is below 1."""
    sentence = say("Let the picture grow") if factor > 1.0 else say("Let the picture shrink")
    return Act(sentence, lain.grown(factor, about_mm), "grow")


def turn(lain: Lain, degrees: float) -> Act:
    """The picture turned."""
    return Act(say("Turn the picture"), lain.turned(degrees), "turn")
