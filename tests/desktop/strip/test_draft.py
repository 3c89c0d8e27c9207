"""A strip on its way from typed rows to a strip: nothing typed is lost, nothing wrong gets in."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.bite.values import Conditions
from toneladder.strip.values import Means, Patch
from toneladder_desktop.strip.draft import Draft, Row, blank, draft_of, open_rows

DRAFT = blank(Conditions(), (0.0, 15.0, 60.0))


def test_planned_bites_wait_for_their_readings() -> None:
    assert [row.reading for row in DRAFT.rows] == ["", "", ""]
    assert list(open_rows(DRAFT)) == [0, 1, 2]
    assert DRAFT.strip() is None
    assert DRAFT.bites_s() == (0.0, 15.0, 60.0)


def test_a_pasted_column_fills_from_the_cell_downwards() -> None:
    strip = DRAFT.pasted("92\r\n84,5\r\n66\r\n", 0, 1).strip()
    assert strip is not None
    assert strip.patches == (Patch(0.0, 92.0), Patch(15.0, 84.5), Patch(60.0, 66.0))


def test_a_pasted_table_brings_bites_and_readings_and_new_rows() -> None:
    draft = DRAFT.pasted("0\t92\n30 s\t76\n2 min\t52\n4:00\t37", 0, 0)
    strip = draft.strip()
    assert strip is not None
    assert [patch.total_bite_s for patch in strip.patches] == [0.0, 30.0, 120.0, 240.0]


def test_a_row_that_cannot_be_read_stays_as_typed_and_says_why() -> None:
    draft = DRAFT.pasted("92\nseven\n66", 0, 1)
    assert draft.rows[1].reading == "seven"
    assert "seven" in draft.told()[1].fault
    assert draft.strip() is None


def test_a_reading_without_a_bite_is_no_patch() -> None:
    draft = replace(DRAFT, rows=(Row("", "55"),))
    assert "no bite" in draft.told()[0].fault


def test_densities_and_steps_become_lightness() -> None:
    """Density 0.05 is 89.1 % reflectance, L* 95.6 [ISO5-3], [CIE15]."""
    dense = replace(DRAFT, unit="density").with_cell(0, 1, "0.05").told()[0].patch
    step = replace(DRAFT, unit="step").with_cell(0, 1, "1").told()[0].patch
    assert dense is not None
    assert step is not None
    assert dense.lightness == pytest.approx(95.6, abs=0.1)
    assert step.lightness == pytest.approx(dense.lightness, abs=1e-9)
    assert step.spread > dense.spread


def test_readings_of_a_scan_keep_their_spread_until_somebody_types_over_them() -> None:
    draft = DRAFT.with_patches((Patch(0.0, 92.04, 0.5), Patch(15.0, 84.0, 2.0)), Means.SCAN)
    strip = draft.strip()
    assert strip is not None
    assert [patch.spread for patch in strip.patches] == [0.5, 2.0]
    typed = draft.with_cell(1, 1, "83").told()[1].patch
    assert typed is not None
    assert typed.spread == 0.6


def test_a_kept_strip_comes_back_as_it_was() -> None:
    strip = DRAFT.pasted("92\n84\n66", 0, 1).strip()
    assert strip is not None
    noted = replace(strip, ink="black", bitten_on="2026-03-15")
    assert draft_of(noted).strip() == noted


@given(st.lists(st.text(max_size=12), max_size=8), st.integers(0, 5), st.integers(0, 1))
def test_anything_may_be_pasted(cells: list[str], row: int, column: int) -> None:
    draft: Draft = DRAFT.pasted("\n".join(cells), row, column)
    assert len(draft.told()) == len(draft.rows)
