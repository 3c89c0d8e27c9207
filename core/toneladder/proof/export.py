"""A proof's reading as other programs read it, and as the studio book keeps it."""

from collections.abc import Sequence
from math import isfinite
from typing import Any

from toneladder.proof.values import Place, ProofReading, ToneReading


def reading_tree(reading: ProofReading, bites_s: Sequence[float] = ()) -> dict[str, Any]:
    """The reading as plain values for JSON: CIE L*, millimetres, degrees, seconds."""
    laid = reading.registration
    return {
        "tones": [_tone(tone, bites_s) for tone in reading.tones],
        "unread": list(reading.unread),
        "registration": {
            "rotation_deg": round(laid.rotation_deg, 4),
            "scale": round(laid.scale, 5),
            "shift_mm": [round(part, 3) for part in laid.shift_mm],
            "shear": round(laid.shear, 5),
            "residual_mm": round(laid.residual_mm, 4),
            "px_per_mm": round(laid.px_per_mm, 4),
            "confidence": round(laid.confidence, 3),
            "matrix": [[round(value, 6) for value in row] for row in laid.matrix],
        },
        "places": [_place(place) for place in reading.places],
        "map": {
            "pitch_mm": reading.map.pitch_mm,
            "differences": [
                [round(value, 1) if isfinite(value) else None for value in row]
                for row in reading.map.differences.tolist()
            ],
        },
        "notes": list(reading.notes),
    }


def _tone(tone: ToneReading, bites_s: Sequence[float]) -> dict[str, Any]:
    row: dict[str, Any] = {
        "tone": tone.tone,
        "planned_lightness": round(tone.planned_lightness, 2),
        "printed_lightness": tone.printed_lightness,
        "spread": tone.spread,
        "cells": tone.cells,
        "low": tone.low,
        "high": tone.high,
    }
    if tone.tone < len(bites_s):
        row["total_bite_s"] = float(bites_s[tone.tone])
    if tone.note:
        row["note"] = tone.note
    return row


def _place(place: Place) -> dict[str, Any]:
    return {
        "tone": place.tone,
        "x_mm": place.x_mm,
        "y_mm": place.y_mm,
        "area_mm2": place.area_mm2,
        "difference": place.difference,
    }
