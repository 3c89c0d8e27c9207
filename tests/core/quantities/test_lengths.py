"""Lengths and sizes as people write them."""

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.errors import QuantityError
from toneladder.quantities import (
    Manner,
    read_length,
    read_size,
    write_as,
    write_length,
    write_size,
    write_span,
    written,
)

MANNERS = st.builds(Manner, decimal=st.sampled_from(".,"), imperial=st.booleans())


def sentence_of(read: Callable[[str], object], text: str) -> str:
    try:
        read(text)
    except QuantityError as error:
        return str(error)
    return ""


@pytest.mark.parametrize(
    ("text", "mm"),
    # an inch is 25.4 mm exactly (international yard and pound agreement, 1959)
    [
        ("1,5 mm", 1.5),
        ("1.5mm", 1.5),
        ("1.5", 1.5),
        (".5", 0.5),
        ("0,375", 0.375),
        ("200", 200.0),
        ("8in", 203.2),
        ("8 IN", 203.2),
        ("8 1/2 in", 215.9),
        ("8½ in", 215.9),
        ("8 ½″", 215.9),
        ('5 7/8"', 149.225),
        ("5 7⁄8 inches", 149.225),
        ("1/2 in", 12.7),
        ("1.125 in", 28.575),
        ("1.5 cm", 15.0),
        ("  1.5\u00a0mm ", 1.5),
        ("1.5\u202fmm", 1.5),
        ("\uff12\uff10\uff10\uff4d\uff4d", 200.0),
    ],
)
def test_a_length_is_read_as_it_is_meant(text: str, mm: float) -> None:
    assert read_length(text) == pytest.approx(mm, abs=1e-9)


@pytest.mark.parametrize(
    ("text", "size"),
    [
        ("200x150mm", (200.0, 150.0)),
        ("200 × 150", (200.0, 150.0)),
        ("200 X 150 mm", (200.0, 150.0)),
        ("200*150", (200.0, 150.0)),
        ("200 by 150 mm", (200.0, 150.0)),
        ("8x6in", (203.2, 152.4)),
        ('8" x 6"', (203.2, 152.4)),
        ("8in x 6", (203.2, 152.4)),
        ("8 × 5 7/8 in", (203.2, 149.225)),
        ("20x15 cm", (200.0, 150.0)),
        ("19,5x15,25 cm", (195.0, 152.5)),
        ("200 mm x 8 in", (200.0, 203.2)),
    ],
)
def test_a_size_is_read_as_it_is_meant(text: str, size: tuple[float, float]) -> None:
    assert read_size(text) == pytest.approx(size, abs=1e-9)


@pytest.mark.parametrize(
    "text",
    ["", "   ", "abc", "-3 mm", "−3", "nan", "inf", "1e5", "0x10", "1..5", "1.2.3", "1.234,5",
     "1,234.5", "1/0 in", "3 km", "3 mm mm", "1 2 mm", "1 mm 2", "1_000", "mm", "½½ in", "3/4/5",
     "٣ mm x", "3\x00mm", "3\nmm\x1b[0m", "x" * 4000, "9" * 4000, "1.5 " * 1000],
)  # fmt: skip
def test_what_is_no_length_is_refused_with_a_sentence(text: str) -> None:
    with pytest.raises(QuantityError) as caught:
        read_length(text)
    sentence = str(caught.value)
    assert sentence.endswith("1.5\N{NO-BREAK SPACE}mm.")
    assert len(sentence) < 160
    assert sentence.replace("\xa0", " ").isprintable()


@pytest.mark.parametrize("text", ["200", "200x", "x150", "200x150x3", "200 150", "axb", "1,234x5"])
def test_what_is_no_size_is_refused(text: str) -> None:
    with pytest.raises(QuantityError):
        read_size(text)


def test_a_comma_that_could_part_thousands_is_asked_about() -> None:
    with pytest.raises(QuantityError, match=r"“1,234” can be read as 1\.234 or as 1234"):
        read_length("1,234 mm")


@pytest.mark.parametrize("text", ["0", "0 mm", "4.9", "3001", "1e", "99999999"])
def test_a_length_outside_its_bounds_is_refused(text: str) -> None:
    with pytest.raises(QuantityError):
        read_length(text, least_mm=5.0, most_mm=3000.0)
    with pytest.raises(QuantityError):
        read_size(f"200x{text}", least_mm=5.0, most_mm=3000.0)


def test_the_bounds_are_named() -> None:
    with pytest.raises(QuantityError, match="“4 mm” is outside 5\xa0mm to 3000\xa0mm"):
        read_length("4 mm", least_mm=5.0, most_mm=3000.0)
    assert read_length("5", least_mm=5.0, most_mm=5.0) == 5.0


def test_a_bare_number_may_be_of_another_unit() -> None:
    assert read_length("2", bare="in") == 50.8
    assert read_size("2x3", bare="cm") == (20.0, 30.0)


@pytest.mark.parametrize(
    ("mm", "metric", "imperial"),
    [
        (1.5, "1.5 mm", "1/16 in"),
        (0.8, "0.8 mm", "1/32 in"),
        (1.0, "1 mm", "0.04 in"),
        (0.3, "0.3 mm", "0.012 in"),
        (10.0, "10 mm", "0.39 in"),
        (50.0, "50 mm", "1.97 in"),
        (63.5, "63.5 mm", "2 1/2 in"),
        (200.0, "200 mm", "7 7/8 in"),
        (203.2, "203.2 mm", "8 in"),
        (149.225, "149.2 mm", "5 7/8 in"),
        (1.5875, "1.59 mm", "1/16 in"),
        (130.0, "130 mm", "5.12 in"),
    ],
)
def test_a_length_is_written_as_people_write_it(mm: float, metric: str, imperial: str) -> None:
    assert write_length(mm).replace("\xa0", " ") == metric
    assert write_length(mm, Manner(imperial=True)).replace("\xa0", " ") == imperial
    assert " " not in write_length(mm, Manner(imperial=True))


def test_a_size_is_written_with_its_unit_once() -> None:
    assert write_size(200, 150.5, Manner(decimal=",")).replace("\xa0", " ") == "200 × 150,5 mm"
    size = write_size(203.2, 149.225, Manner(imperial=True))
    assert size.replace("\xa0", " ") == "8 × 5 7/8 in"


def test_both_sides_of_a_size_in_inches_are_fractions_or_neither_is() -> None:
    # 200 mm is 7.874 in, a hair under 7 7/8; 150 mm is 5.906 in, near no sixteenth
    assert write_size(200, 150, Manner(imperial=True)).replace("\xa0", " ") == "7.87 × 5.91 in"
    assert write_size(200, 100, Manner(imperial=True)).replace("\xa0", " ") == "7 7/8 × 3 15/16 in"


@pytest.mark.parametrize("imperial", [False, True])
def test_a_size_that_cannot_be_read_is_answered_in_both_units(*, imperial: bool) -> None:
    before = written()
    write_as(Manner(imperial=imperial))
    try:
        said = sentence_of(read_size, "as large as a hand").replace("\xa0", " ")
    finally:
        write_as(before)
    sizes = ["200 × 150 mm", "8 × 6 in"]
    assert " or ".join(reversed(sizes) if imperial else sizes) in said


@pytest.mark.parametrize(
    ("mm", "inches"), [(330.2, "13 in"), (495.0, "19 1/2 in"), (12.7, "1/2 in"), (0.0, "0 in")]
)
def test_a_rough_length_in_inches_is_in_halves(mm: float, inches: str) -> None:
    assert write_span(mm, Manner(imperial=True)).replace("\xa0", " ") == inches


@given(st.floats(0.01, 3000.0), MANNERS)
def test_what_is_written_is_read_back(mm: float, manner: Manner) -> None:
    unit = 0.05 if mm >= 10 else 0.005
    if manner.imperial:
        # half a hundredth of an inch, or for what is small a share of it, or half a thousandth
        unit = min(0.127, max(0.06 * mm, 0.0127))
    unit += 1e-6
    assert read_length(write_length(mm, manner), least_mm=0.0) == pytest.approx(mm, abs=unit)
    found = read_size(write_size(mm, mm, manner), least_mm=0.0)
    assert found == pytest.approx((mm, mm), abs=unit)


@given(st.text(max_size=80))
def test_any_text_is_a_length_or_a_sentence(text: str) -> None:
    for read in (read_length, read_size):
        assert sentence_of(read, text).replace("\xa0", " ").isprintable()
