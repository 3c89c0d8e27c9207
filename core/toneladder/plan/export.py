"""The order as other programs read it, and the tones as a picture."""

import json
from collections.abc import Mapping
from dataclasses import asdict
from io import BytesIO
from typing import Any

import numpy as np
from numpy.typing import NDArray

from toneladder.order.stages import GrainStep, LineStep
from toneladder.order.values import Order, Step, Tone
from toneladder.plan.planning import Plan
from toneladder.quantities import write_time_of_day

FORMAT = 1


def order_json(plan: Plan) -> str:
    """The text of ``order.json``; its keys are fixed.

    ``lightness`` is CIE L* of the rounded bites, its band that of the next plate; bites are
    clock seconds; ``lift_at`` is a time of day, or null if no start was given.
    """
    return json.dumps(_record(plan), ensure_ascii=False, indent=1) + "\n"


def _record(plan: Plan) -> Mapping[str, Any]:
    plate, grid, order = plan.plate, plan.prepared.grid, plan.order
    return {
        "format": FORMAT,
        "plate": {
            "width_mm": plate.size.width_mm,
            "height_mm": plate.size.height_mm,
            "px_per_mm": grid.px_per_mm,
            "grid": [grid.width, grid.height],
        },
        "conditions": {
            "metal": plate.conditions.metal,
            "mordant": plate.conditions.mordant,
            "grain": plate.conditions.grain,
            "temperature_c": plate.conditions.temperature_c,
            "rate": plan.chosen.rate,
            "standing": plan.curve.standing,
        },
        "asked_tones": order.asked_tones,
        "tones": [_tone(tone) for tone in order.tones],
        "steps": [_step(step, plate.start) for step in order.steps],
        **_stages(order),
        "cautions": list(order.cautions),
        "warnings": list(order.warnings),
    }


def _stages(order: Order) -> Mapping[str, Any]:
    """What is bitten apart from the tones; keys only where there is something."""
    found: dict[str, Any] = {}
    if order.line_steps:
        found["line_steps"] = [_line_step(step) for step in order.line_steps]
    if order.second_grain is not None:
        found["second_grain"] = {
            "tones": [asdict(tone) for tone in order.second_grain.tones],
            "steps": [_grain_step(step) for step in order.second_grain.steps],
        }
    return found


def _line_step(step: LineStep) -> Mapping[str, Any]:
    return {
        "step": step.step,
        "stop_out": list(step.stop_out),
        "length_cm": step.length_cm,
        "bite_s": step.bite_s,
        "total_bite_s": step.total_bite_s,
        "dips": len(step.dips_s),
        "paint_min": step.paint_min,
        "dry_min": step.dry_min,
    }


def _grain_step(step: GrainStep) -> Mapping[str, Any]:
    return {
        "step": step.step,
        "stop_out": list(step.stop_out),
        "bite_s": step.bite_s,
        "total_bite_s": step.total_bite_s,
        "dips": len(step.dips_s),
        "paint_min": step.paint_min,
        "dry_min": step.dry_min,
    }


def _tone(tone: Tone) -> Mapping[str, Any]:
    return {
        "tone": tone.tone,
        "target_lightness": tone.target_lightness,
        "lightness": tone.lightness,
        "lightness_low": tone.lightness_low,
        "lightness_high": tone.lightness_high,
        "total_bite_s": tone.total_bite_s,
        "share": tone.share,
    }


def _step(step: Step, start: str | None) -> Mapping[str, Any]:
    return {
        "step": step.step,
        "stop_out": list(step.stop_out),
        "bite_s": step.bite_s,
        "total_bite_s": step.total_bite_s,
        "stop_out_cm2": step.painting.area_cm2,
        "islands": step.painting.places,
        "border_cm": step.painting.border_cm,
        "paint_min": step.paint_min,
        "dry_min": step.dry_min,
        "dips": len(step.dips_s),
        "lift_after_s": step.lift_after_s,
        "lift_at": None if start is None else clock(start, step.lift_after_s),
    }


def clock(start: str, after_s: float) -> str:
    """The time of day "HH:MM", ``after_s`` seconds after ``start`` ("HH:MM")."""
    hours, minutes = start.split(":")
    return write_time_of_day(int(hours) * 60 + int(minutes) + round(after_s / 60.0))


def lift_times(order: Order, start: str) -> tuple[str, ...]:
    """The time of day of each step's last lift."""
    return tuple(clock(start, step.lift_after_s) for step in order.steps)


def tones_png(plan: Plan) -> bytes:
    """Tone numbers as an 8-bit grey PNG, one pixel a cell, its resolution stated in it.

    Lines are never in it.
    """
    return _png(plan.tones, plan.prepared.grid.px_per_mm)


def lines_png(plan: Plan) -> bytes | None:
    """Line depths as a PNG like that of the tones, 0 for no line; None without lines."""
    lines = plan.prepared.lines
    return None if lines is None else _png(lines.depth, plan.prepared.grid.px_per_mm)


def _png(cells: NDArray[np.uint8], px_per_mm: float) -> bytes:
    from PIL import Image

    dots = px_per_mm * 25.4
    file = BytesIO()
    Image.fromarray(cells).save(file, "PNG", dpi=(dots, dots))
    return file.getvalue()
