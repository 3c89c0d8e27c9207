"""What is painted at each step, as it lies on the plate, for the screen beside the tank."""

from typing import TYPE_CHECKING

import numpy as np
from PySide6.QtGui import QImage

from toneladder.tank.values import Stage

if TYPE_CHECKING:
    from collections.abc import Sequence

    from toneladder.lines.weighing import DepthArray
    from toneladder.order.stages import LineStep
    from toneladder.plan.planning import Plan
    from toneladder.sheets.marks import BoolArray
    from toneladder.tones.parting import ToneArray

LONGEST_PX = 900
_LINE_PX = 3  # a line that is to be painted must be seen
_HATCH = 7
_PAPER, _INK = 255, 0


def stage_maps(plan: "Plan", stage: Stage) -> dict[int, QImage]:
    """The maps of what is painted at each step of a stage, by the step's number."""
    order, layer = plan.order, plan.prepared.lines
    if stage is Stage.LINES:
        return {} if layer is None else line_maps(layer.depth, order.line_steps)
    if stage is Stage.SECOND and order.second_grain is not None:
        small, lined = _small(plan.tones)
        return {one.makes: _picture(small, one.stop_out, lined) for one in order.second_grain.steps}
    return step_maps(plan.tones, len(order.steps))


def line_maps(depth: "DepthArray", steps: "Sequence[LineStep]") -> dict[int, QImage]:
    """A picture for every line bite before which lines are stopped out: those, in black.

    Mirrored, as the plate lies in the hand.
    """
    from scipy import ndimage

    stride = _stride(depth.shape)
    maps = {}
    for step in steps:
        if not step.stop_out:
            continue
        found = np.isin(depth, step.stop_out)
        thick = ndimage.maximum_filter(found.view(np.uint8), max(stride, 1) * _LINE_PX)
        small = np.ascontiguousarray(thick[::stride, ::stride][:, ::-1])
        grey = np.where(small > 0, np.uint8(_INK), np.uint8(_PAPER))
        maps[step.step] = _image(grey)
    return maps


def step_maps(tones: "ToneArray", steps: int) -> dict[int, QImage]:
    """A picture for every step: black to paint now, lined where covered, white where it bites.

    Mirrored, as the plate lies in the hand.
    """
    small, lined = _small(tones)
    return {step: _picture(small, (step - 1,), lined) for step in range(1, steps + 1)}


def _stride(shape: tuple[int, ...]) -> int:
    return max(1, -(-max(shape) // LONGEST_PX))


def _small(tones: "ToneArray") -> tuple["ToneArray", "BoolArray"]:
    """The tones as they lie in the hand, small enough for a screen, and lines to hatch with."""
    stride = _stride(tones.shape)
    small: ToneArray = np.ascontiguousarray(tones[::stride, ::stride][:, ::-1])
    height, width = small.shape
    lined: BoolArray = np.add.outer(np.arange(height), np.arange(width)) % _HATCH == 0
    return small, lined


def _picture(tones: "ToneArray", stop_out: tuple[int, ...], lined: "BoolArray") -> QImage:
    grey: ToneArray = np.full(tones.shape, _PAPER, np.uint8)
    grey[(tones < min(stop_out)) & lined] = _INK
    grey[np.isin(tones, stop_out)] = _INK
    return _image(grey)


def _image(grey: "ToneArray") -> QImage:
    height, width = grey.shape
    return QImage(grey.tobytes(), width, height, width, QImage.Format.Format_Grayscale8).copy()
