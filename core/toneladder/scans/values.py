"""What was found on a scan: a strip and its patches, a grey scale and its steps."""

from dataclasses import dataclass

from toneladder.bite.fitting.values import Patch

Point = tuple[float, float]
"""Pixels of the scan from its left and from its top; a pixel's middle lies at a half."""

Corners = tuple[Point, Point, Point, Point]
"""Of a patch or strip: along one long side and back along the other, the light end first."""


@dataclass(frozen=True, slots=True)
class GreyScale:
    """A printed scale of known greys that lies beside the strip, its lightest step first.

    ``densities`` are reflection densities. ``absolute`` is False where only the differences
    between the steps are known, so that the paper tells how light the first one is.
    """

    densities: tuple[float, ...]
    absolute: bool = True


@dataclass(frozen=True, slots=True)
class FoundStrip:
    """A strip on a scan; windows may show it and let somebody drag its corners.

    ``patches`` come from the light end to the dark end. ``confidence`` (0..1) falls with
    everything that fits badly; ``notes`` are sentences. ``steps`` are those of the grey scale
    beside it, lightest first, or empty.
    """

    corners: Corners
    patches: tuple[Corners, ...]
    confidence: float = 1.0
    notes: tuple[str, ...] = ()
    steps: tuple[Corners, ...] = ()


@dataclass(frozen=True, slots=True)
class Reading:
    """What the patches of a strip printed, and what there is to say about the scan."""

    patches: tuple[Patch, ...]
    remarks: tuple[str, ...] = ()
