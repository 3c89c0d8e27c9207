"""Tables of readings: pasted or from a file, odd ones and bad ones."""

import csv
import io
from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.errors import StripError
from toneladder.strip.readings import Unit, lightness_of_density
from toneladder.strip.table import LONGEST_TABLE, read_table, safe_cell, write_table
from toneladder.strip.values import Patch

WANTED = (Patch(0.0, 91.0), Patch(15.0, 82.5), Patch(120.0, 51.0))


@pytest.mark.parametrize(
    "text",
    [
        "total_bite,lightness\n0,91\n0:15,82.5\n2 min,51\n",
        "0,91\r\n15 s,82.5\r\n2:00,51\r\n",
        "0;91\n15 s;82,5\n2 min;51",
        "0\t91\n15 s\t82,5\n1 min 60 s\t51".replace("1 min 60 s", "120 s"),
        "\ufefftotal_bite;lightness\n0;91\n15 s;82,5\n2 min;51\n",
        '"0","91"\n"15 s","82,5"\n"2 min","51"\n',
        "\n0,91\n\n  15 s , 82.5 \n2 min,51,\n\n",
        "Lightness,Total bite\n91,0\n82.5,15 s\n51,2 min\n",
        "total_bite,lightness,spread\n0,91,\n15 s,82.5,0.6\n2 min,51,0.6\n",
        "'0,'91\n'15 s,82.5\n2 min,51\n",
    ],
)
def test_tables_come_as_people_write_them(text: str) -> None:
    assert read_table(text).patches == WANTED
    assert read_table(text).bad == ()


def test_densities_are_told_by_the_first_row_or_asked_for() -> None:
    named = read_table("total_bite,density\n0,0.09\n1 min,0.9\n").patches
    asked = read_table("0,0.09\n1 min,0.9\n", Unit.DENSITY).patches
    assert named == asked
    assert named[1].lightness == pytest.approx(lightness_of_density(0.9))
    with pytest.raises(StripError, match="may be densities"):
        read_table("0,0.09\n1 min,0.9\n")


def test_steps_of_a_grey_scale_are_read() -> None:
    found = read_table("total_bite,step\n0,1\n1 min,3\n", grey_scale=(0.1, 0.5, 0.9))
    assert found.patches[1].lightness == pytest.approx(lightness_of_density(0.9))


def test_every_bad_row_is_named_by_its_number_and_the_good_ones_stay_where_they_are() -> None:
    text = (
        "total_bite;lightness\n"  # row 1
        "2 min;51\n"
        "15;82,5\n"  # seconds or minutes?
        "\n"
        "30 s;dark\n"
        "-1 min;40\n"
        "1 min;120\n"
        "4 min;\n"
        "0;91\n"
        "8 min;30;1;2\n"
    )
    found = read_table(text)
    assert found.patches == (Patch(120.0, 51.0), Patch(0.0, 91.0))
    assert [bad.row for bad in found.bad] == [3, 5, 6, 7, 8, 10]
    assert "minutes or as seconds" in found.bad[0].reason
    assert "no reading" in found.bad[4].reason
    assert "4 columns" in found.bad[5].reason
    assert found.sentence.startswith("Row 3: ")


def test_a_decimal_comma_between_commas_is_not_guessed_at() -> None:
    found = read_table("0,91\n15 s,82,5\n")
    assert found.patches == (Patch(0.0, 91.0),)
    assert "semicolons" in found.bad[0].reason


@pytest.mark.parametrize("text", ["", "\n\n", "\ufeff", "total_bite,lightness\n"])
def test_a_table_without_readings_is_refused(text: str) -> None:
    with pytest.raises(StripError, match="no readings"):
        read_table(text)


def test_a_table_far_too_long_for_a_strip_is_not_read() -> None:
    with pytest.raises(StripError, match="too long"):
        read_table("0,91\n" * LONGEST_TABLE)


@given(st.text(max_size=300))
def test_any_text_gives_patches_bad_rows_or_a_sentence(text: str) -> None:
    with suppress(StripError):
        found = read_table(text)
        assert found.patches or found.bad


PATCHES = st.lists(
    st.builds(
        Patch,
        st.integers(0, 40_000).map(float) | st.floats(0.5, 900.0).map(lambda s: round(s, 1)),
        st.floats(1.0, 100.0).map(lambda tone: round(tone, 2)),
        st.sampled_from([0.6, 0.3, 1.5]),
    ),
    min_size=1,
    max_size=20,
)


@given(PATCHES)
def test_what_is_written_is_read_again(patches: list[Patch]) -> None:
    for unit, within in ((Unit.LIGHTNESS, 0.006), (Unit.DENSITY, 0.02)):
        found = read_table(write_table(patches, unit), unit)
        assert found.bad == ()
        for patch, again in zip(patches, found.patches, strict=True):
            assert again.total_bite_s == pytest.approx(patch.total_bite_s, rel=1e-5)
            assert again.lightness == pytest.approx(patch.lightness, abs=within)
            assert again.spread == patch.spread


@given(PATCHES)
def test_no_written_cell_is_taken_for_a_formula(patches: list[Patch]) -> None:
    rows = csv.reader(io.StringIO(write_table(patches)))
    assert not any(cell.startswith(("=", "+", "-", "@")) for row in rows for cell in row)


def test_a_cell_like_a_formula_is_written_as_text() -> None:
    assert safe_cell("=SUM(A1)") == "'=SUM(A1)"
    assert safe_cell("82.5") == "82.5"


def test_steps_cannot_be_written() -> None:
    with pytest.raises(StripError, match="lightness or as density"):
        write_table(WANTED, Unit.STEP)


@pytest.mark.parametrize("head", ["total_bite,lightnes", "bite;L*", "Ätzzeit\tHelligkeit"])
def test_columns_of_other_names_are_told_and_not_taken_for_a_reading(head: str) -> None:
    mark = next(mark for mark in "\t;," if mark in head)
    with pytest.raises(StripError, match="columns of this table are not known") as told:
        read_table(f"{head}\n0{mark}92\n0:30{mark}80\n")
    assert head.split(mark)[1] in str(told.value)
