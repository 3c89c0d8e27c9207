"""What the paper shows, drawn as finely as the screen is: for the background."""

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from toneladder.optics import linear_from_srgb, luminance
from toneladder.plan.previewing import loupe_grain_of, printed_after, texture_of
from toneladder.preview.colour import bytes_of, linear_colour_of
from toneladder.preview.loupe import loupe
from toneladder.preview.preview import preview
from toneladder.preview.values import Texture
from toneladder_desktop.bench.look import View

if TYPE_CHECKING:
    from toneladder.plan.planning import Plan
    from toneladder.plan.preparing import Prepared
    from toneladder_desktop.bench.asked import Magnify

SMOOTH = Texture(coverage=0.5, correlation_area_um2=1e-6)
"""A ground so fine that nobody sees a grain."""

SEED = 0
"""Of every plate's grain."""


def seen(plan: "Plan", view: View, step: int | None, px_per_mm: float) -> NDArray[np.uint8]:
    """The whole plate, without margins, as printed.

    Parameters
    ----------
    plan : Plan
    view : View
        The preview with its grain, the flat tones, or the picture as it was opened.
    step : int, optional
        After which the plate is stopped; None is the finished plate.
    px_per_mm : float, > 0

    Returns
    -------
    (height, width, 3) array of uint8, sRGB.
    """
    if view is View.PICTURE:
        return _picture(plan.prepared, px_per_mm)
    printed, lines = view is View.PREVIEW, plan.prepared.lines
    stopped = len(plan.order.steps) if step is None else min(step, len(plan.order.steps))
    lightness = printed_after(plan.order, None if printed and step is None else stopped)
    return preview(
        plan.tones,
        lightness,
        plan.plate.printing,
        texture_of(plan.plate.conditions) if printed else SMOOTH,
        px_per_mm=plan.prepared.grid.px_per_mm,
        out_px_per_mm=px_per_mm,
        margins=False,
        seed=SEED,
        lines=lines.ink if printed and lines is not None else None,
    )


def magnified(request: "Magnify") -> NDArray[np.uint8]:
    """A few millimetres of the print grain by grain, (height, width, 3) sRGB bytes."""
    grey = loupe(
        np.frombuffer(request.tones, dtype=np.uint8).reshape(-1, request.across),
        request.lightness,
        loupe_grain_of(request.conditions, request.bitten_s),
        px_per_mm=request.px_per_mm,
        um_per_px=request.um_per_px,
        seed=SEED,
        origin_mm=request.origin_mm,
    )
    light = linear_from_srgb(np.arange(256) / 255.0)
    ink, paper = request.printing.ink, request.printing.paper
    coloured: NDArray[np.uint8] = bytes_of(linear_colour_of(light, ink, paper))[grey]
    return coloured


def _picture(prepared: "Prepared", px_per_mm: float) -> NDArray[np.uint8]:
    """The picture's own greys, averaged in linear light."""
    light = luminance(prepared.lattice.lightness()).astype(np.float32)[prepared.asked]
    scale = px_per_mm / prepared.grid.px_per_mm
    height, width = (max(1, round(side * scale)) for side in light.shape)
    smaller = Image.fromarray(light).resize((width, height), Image.Resampling.HAMMING)
    return np.repeat(bytes_of(np.asarray(smaller))[:, :, None], 3, axis=2)
