"""What the book keeps of a plate when it is saved, and of a proof when it was read."""

import json
from math import sqrt
from pathlib import Path
from typing import TYPE_CHECKING

from toneladder.book.values import PlateEntry, ProofReading
from toneladder.plate.identity import identity_of
from toneladder.plate.values import Plate
from toneladder.wording import say
from toneladder_desktop.card.printing import inks, papers

if TYPE_CHECKING:
    from toneladder.proof.values import ProofReading as Reading

LONGEST = 400

USUAL_PULL = 2
"""Of the first three pulls the one that is mostly read: common practice, no source."""


def entry_of(plate: Plate, tones: int, path: Path, utc_s: float) -> PlateEntry:
    """The entry of a plate that was saved to ``path`` at that time, with so many tones."""
    conditions, printing = plate.conditions, plate.printing
    found_by = (
        say(conditions.mordant.value),
        conditions.strength,
        say(conditions.grain.value),
        plate.grained_on,
        plate.picture.name,
    )
    return PlateEntry(
        identity=identity_of(plate),
        title=" ".join(plate.title.split())[:LONGEST],
        path=str(path.absolute()),
        saved_utc_s=utc_s,
        metal=conditions.metal,
        tones=tones,
        bath=plate.bath[:LONGEST],
        paper=dict(papers()).get(printing.paper, ""),
        ink=dict(inks()).get(printing.ink, ""),
        record=" ".join(words for words in found_by if words),
    )


def proof_of(reading: "Reading", day: str, scan: Path) -> ProofReading:
    """What was read from a proof, with how far its tones missed their plan (root mean square)."""
    missed = [tone.difference for tone in reading.tones]
    tones = [
        {
            "tone": tone.tone,
            "planned_lightness": round(tone.planned_lightness, 3),
            "printed_lightness": round(tone.printed_lightness, 3),
            "spread": round(tone.spread, 3),
            "cells": tone.cells,
        }
        for tone in reading.tones
    ]
    return ProofReading(
        pulled_on=day,
        pull=USUAL_PULL,
        miss=sqrt(sum(one * one for one in missed) / max(len(missed), 1)),
        reading=json.dumps({"tones": tones}),
        scan=str(scan.absolute()),
    )
