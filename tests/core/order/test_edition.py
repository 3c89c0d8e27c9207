"""What an edition needs: sums that anybody can do by hand, and bounds."""

from dataclasses import replace
from math import ceil

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.errors import PlanError
from toneladder.order.edition import Edition, edition_needs
from toneladder.picture.values import PlateSize

SIZE = PlateSize(200.0, 150.0)


def test_paper_is_the_plate_and_its_margins_with_a_larger_foot() -> None:
    needs = edition_needs(SIZE, Edition(margin_mm=60.0, foot_mm=80.0))
    assert (needs.width_mm, needs.height_mm) == (320.0, 290.0)  # 60+200+60, 60+150+80
    assert edition_needs(SIZE, Edition(margin_mm=60.0)).height_mm == 270.0


def test_sheets_are_counted_with_proofs_and_what_is_spoilt() -> None:
    # 20 + 2 + 5 = 27 good prints; nine in ten are good, so 27 / 0.9 = 30 sheets
    needs = edition_needs(SIZE, Edition(20, 2, 5, spoilt_share=0.1))
    assert (needs.sheets, needs.spare) == (30, 3)


def test_a_day_of_six_hours_prints_a_sheet_every_quarter_of_an_hour() -> None:
    needs = edition_needs(SIZE, Edition(20, 2, 5, spoilt_share=0.1))
    assert (needs.prints_a_day, needs.days) == (24, 2)
    assert "soak 24 sheets" in needs.reminders[0]


@given(
    prints=st.integers(1, 300),
    proofs=st.integers(0, 50),
    spoilt=st.floats(0.0, 0.49),
    pull_min=st.floats(0.5, 600.0),
)
def test_there_are_always_enough_sheets_and_days(
    prints: int, proofs: int, spoilt: float, pull_min: float
) -> None:
    needs = edition_needs(SIZE, Edition(prints, 1, proofs, spoilt, pull_min=pull_min))
    good = needs.sheets * (1.0 - spoilt)
    assert good >= prints + 1 + proofs - 1e-5
    assert (needs.sheets - 1) * (1.0 - spoilt) < prints + 1 + proofs
    assert needs.days == ceil(needs.sheets / needs.prints_a_day)


@pytest.mark.parametrize(
    "wrong",
    [
        {"prints": 0},
        {"proofs": -1},
        {"prints": 1001},
        {"margin_mm": 0.0},
        {"foot_mm": -3.0},
        {"pull_min": 0.0},
        {"day_hours": float("nan")},
        {"spoilt_share": 0.5},
    ],
    ids=str,
)
def test_what_makes_no_sense_is_refused_in_a_sentence(wrong: dict[str, float]) -> None:
    with pytest.raises(PlanError, match=r"Nothing was reckoned\."):
        edition_needs(SIZE, replace(Edition(), **wrong))  # type: ignore[arg-type] # its fields
