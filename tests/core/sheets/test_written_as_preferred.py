"""All that a plan says, on every sheet and aloud, is written in the manner that is preferred."""

import re
from collections.abc import Iterator
from dataclasses import replace

import pytest
from tests.core.sheets.conftest import MADE_ON, waves
from tests.core.sheets.test_order_sheet import words_of

from toneladder.bite.session import Patch
from toneladder.bite.values import Conditions
from toneladder.handbook.chapters import chapters
from toneladder.handbook.numbers import every_number
from toneladder.picture.values import PlateSize
from toneladder.plan.planning import Plan, plan
from toneladder.plan.standing import curve_of, doubts_of, fit_of
from toneladder.plate.values import Plate
from toneladder.quantities import Manner, Scale, write_as
from toneladder.sheets.documents import Wanted, documents
from toneladder.sheets.order_text import order_text
from toneladder.strip.values import Evidence, Strip
from toneladder.tones.values import ToneChoice

POINT = re.compile(r"\d\.\d")
ELSEWHERE = Manner(",", imperial=True, fahrenheit=True, strokes=True, scale=Scale.LIGHTNESS)
METRIC = re.compile(r"(?<!50)\s(?:mm|cm|°C)\b|\d\smin\s\d+\ss|darkness")
AS_ASKED = {"tones.enough", "soft.steepest", "pace.border_cm_per_min"}
"""Told in the unit that their own fields name: darkness as a distance, centimetres a minute."""

READ = ((0, 94.5), (15, 88), (30, 81.2), (60, 70), (120, 71.5), (240, 44), (480, 24))


def made() -> Plan:
    """A plate that has much to be told: a strip with a reversal, another bath, a coarse brush."""
    patches = tuple(Patch(float(bite), float(tone), 0.4) for bite, tone in READ)
    strip = Strip(Conditions(), patches)
    plate = Plate(
        "Waves",
        waves().ref,
        PlateSize(152.4, 114.3),
        conditions=Conditions(temperature_c=24.5),
        tones=ToneChoice(count=7, gap_lightness=0.0),
        evidence=Evidence((strip,)),
    )
    return plan(waves(), plate, curve_of(plate))


def told(made: Plan) -> Iterator[str]:
    for document in documents(made, Wanted(MADE_ON)):
        yield from (words_of(sheet) for sheet in document.sheets)
    yield order_text(
        made.plate,
        made.order,
        standing=made.curve.standing,
        source=made.curve.source,
        made_on=MADE_ON,
        bath_bites={24.5: tuple(step.bite_s for step in made.order.steps)},
    )
    yield from doubts_of(made.plate)
    yield from made.curve.remarks
    fit = fit_of(made.plate)
    yield from () if fit is None else fit.remarks
    yield from (number.text for name, number in every_number().items() if name not in AS_ASKED)


@pytest.mark.parametrize("manner", [Manner(","), ELSEWHERE], ids=["comma", "elsewhere"])
def test_no_point_stands_in_a_number_where_a_comma_is_preferred(manner: Manner) -> None:
    write_as(manner)
    said = list(told(made()))
    assert [text for text in said if POINT.search(text)] == []
    assert sum(bool(re.search(r"\d,\d", text)) for text in said) > 5


def test_no_other_unit_stands_anywhere_but_at_the_bar_to_be_measured() -> None:
    write_as(ELSEWHERE)
    found = [hit[0] for text in told(made()) for hit in METRIC.finditer(text)]
    assert found == []


def test_the_handbook_has_the_sign_too() -> None:
    write_as(Manner(","))
    texts = [page.text.partition("Published sources")[0] for page in chapters()]
    assert [text for text in texts if POINT.search(text)] == []
    write_as(Manner("."))
    plain = " ".join(page.text for page in chapters("de"))
    assert not re.search(r"\d,\d", plain)


def test_a_plan_is_the_same_whatever_is_preferred() -> None:
    before = made()
    write_as(ELSEWHERE)
    after = made()
    bare = replace(before.order, warnings=(), cautions=(), day=())
    assert replace(after.order, warnings=(), cautions=(), day=()).steps == bare.steps
