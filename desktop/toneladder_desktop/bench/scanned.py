"""A scan, opened beside the window: its light, and a copy as small as a screen needs it."""

from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from toneladder.wording import say
from toneladder_desktop.bench.background import Tell

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from toneladder.picture.light import Light

_COPY_PX = 1400


@dataclass(frozen=True, slots=True, eq=False)
class Scan:
    """A scan as small as a screen needs it, grey, and its true sides in pixels."""

    image: "NDArray[np.uint8]" = field(repr=False)
    width: int
    height: int


def opened(path: Path, tell: Tell) -> "tuple[Light, Scan]":
    """The light of a scan, and what is shown of it.

    Raises
    ------
    PictureError
        It cannot be read.
    """
    from toneladder.picture.opening import open_picture
    from toneladder.picture.small_copy import small_copy

    tell(say("Reading {name} …", name=path.name))
    light = open_picture(path, name=path.name).light
    return light, Scan(small_copy(light, _COPY_PX), light.shape[1], light.shape[0])
