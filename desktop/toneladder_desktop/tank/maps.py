"""What is painted at each step, as it lies on the plate, for the screen beside the tank."""

from typing import TYPE_CHECKING

import numpy as np
from PySide6.QtGui import QImage

if TYPE_CHECKING:
    from toneladder.sheets.marks import BoolArray
    from toneladder.tones.parting import ToneArray

LONGEST_PX = 900
_HATCH = 7
_PAPER, _INK = 255, 0


def step_maps(tones: "ToneArray", steps: int) -> dict[int, QImage]:
    """A picture for every step: black to paint now, lined where covered, white where it bites.

    Mirrored, as the plate lies in the hand.
    """
    stride = max(1, -(-max(tones.shape) // LONGEST_PX))
    small: ToneArray = np.ascontiguousarray(tones[::stride, ::stride][:, ::-1])
    height, width = small.shape
    lined: BoolArray = np.add.outer(np.arange(height), np.arange(width)) % _HATCH == 0
    return {step: _picture(small, step, lined) for step in range(1, steps + 1)}


def _picture(tones: "ToneArray", step: int, lined: "BoolArray") -> QImage:
    height, width = tones.shape
    grey: ToneArray = np.full((height, width), _PAPER, np.uint8)
    grey[(tones < step - 1) & lined] = _INK
    grey[tones == step - 1] = _INK
    return QImage(grey.tobytes(), width, height, width, QImage.Format.Format_Grayscale8).copy()
