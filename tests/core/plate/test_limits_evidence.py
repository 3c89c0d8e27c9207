"""What a plate stands on has its bounds, and a fault in it is a sentence."""

from dataclasses import replace

import pytest
from tests.core.plan.test_standing import BARE, PLATE, STRIP

from toneladder.bite.fitting import Patch, Session
from toneladder.plan.standing import curve_of
from toneladder.plate.limits import MOST_STRIPS, faults
from toneladder.plate.record import read_record, write_record
from toneladder.strip.values import CheckPatch, Edge, Evidence, MarginStrip
from toneladder.tones.values import MOST_TONES, Choice, ToneChoice

PROOFED = replace(STRIP, proofs=(Session((Patch(60.0, 65.0),), proof=True, name="first proof"),))


def test_everything_a_plate_stands_on_is_kept_in_its_file() -> None:
    plate = replace(
        PLATE,
        evidence=Evidence((PROOFED,), CheckPatch(60.0, 66.0, 0.8, 18.0), 1.7),
        margin_strip=MarginStrip(Edge.LEFT, 12.0),
        tones=ToneChoice(3, Choice.STRIP, patches_s=(15.0, 60.0)),
        bath="tank by the window",
    )
    assert faults(plate) == ()
    curve = curve_of(plate)
    record = read_record(write_record(plate, curve))
    assert record.plate == plate
    assert record.curve == curve
    assert curve_of(record.plate) == curve


@pytest.mark.parametrize(
    ("change", "word"),
    [
        ({"evidence": Evidence((STRIP,) * (MOST_STRIPS + 1))}, "number of strips"),
        ({"evidence": Evidence((replace(STRIP, patches=()),))}, "number of patches"),
        ({"evidence": Evidence((replace(STRIP, patches=(Patch(60.0, 130.0),)),))}, "lightness"),
        (
            {"evidence": Evidence((replace(STRIP, proofs=(Session((Patch(-1.0, 50.0),)),)),))},
            "bite of patch 1",
        ),
        ({"evidence": Evidence(q=0.2)}, "rate gained"),
        ({"evidence": Evidence(check=CheckPatch(0.0, 60.0))}, "bite of the check patch"),
        ({"evidence": Evidence(check=CheckPatch(60.0, 160.0))}, "lightness of the check patch"),
        ({"margin_strip": MarginStrip(Edge.TOP, 500.0)}, "margin strip's width"),
        ({"tones": ToneChoice(patches_s=(1.0,) * MOST_TONES)}, "number of patches"),
        ({"grained_on": "last Monday"}, "day of graining"),
    ],
    ids=lambda one: one if isinstance(one, str) else "",
)
def test_what_is_out_of_bounds_is_named(change: dict[str, object], word: str) -> None:
    found = faults(replace(BARE, **change))  # type: ignore[arg-type]  # any decision
    assert any(word in fault for fault in found), found
