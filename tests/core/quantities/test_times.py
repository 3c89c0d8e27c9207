"""Bites and times of day as people write them."""

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.errors import QuantityError
from toneladder.quantities import (
    Manner,
    read_bite,
    read_time_of_day,
    write_bite,
    write_least,
    write_range,
    write_time_of_day,
)


def sentence_of(read: Callable[[str], object], text: str) -> str:
    try:
        read(text)
    except QuantityError as error:
        return str(error)
    return ""


@pytest.mark.parametrize(
    ("text", "seconds"),
    [
        ("25 s", 25),
        ("75s", 75),
        ("75 sec.", 75),
        ("1:15", 75),
        ("0:05", 5),
        ("1024:00", 61_440),
        ("1:10:00", 4200),
        ("1 min 15 s", 75),
        ("1min15s", 75),
        ("1 m 15 s", 75),
        ("1 minute 15 seconds", 75),
        ("1,5 min", 90),
        ("1.5 min", 90),
        ("½ min", 30),
        ("2¼ min", 135),
        ("2 1/4 min", 135),
        ("2 min", 120),
        ("1 h 10 min", 4200),
        ("1 h 10 min 5 s", 4205),
        ("1 Hour", 3600),
        ("0", 0),
        ("0 s", 0),
        ("10\u00a0min\u00a030\u00a0s", 630),
    ],
)
def test_a_bite_is_read_as_it_is_meant(text: str, seconds: float) -> None:
    assert read_bite(text) == seconds


@pytest.mark.parametrize("text", ["5", "1.5", "10,5", "90"])
def test_a_number_alone_is_asked_about_near_a_tank(text: str) -> None:
    with pytest.raises(QuantityError, match="can be read as minutes or as seconds") as caught:
        read_bite(text)
    value = text.replace(",", ".")
    assert f"Write {value}\u00a0min or {value}\u00a0s." in str(caught.value)


@pytest.mark.parametrize(
    "text",
    ["", "now", "1:5", "1:75", "1:60", "1:60:00", ":30", "1:2:3:4", "-5 s", "nan s", "inf min",
     "1e3 s", "15 s 1 min", "1 min 75 s", "1.5 min 10 s", "1 min 1 min", "1,234 s", "5 mm", "5 m s",
     "1 day", "4\x00 s", "1 s " * 1000],
)  # fmt: skip
def test_what_is_no_bite_is_refused_with_a_sentence(text: str) -> None:
    with pytest.raises(QuantityError) as caught:
        read_bite(text)
    assert str(caught.value).replace("\xa0", " ").isprintable()
    assert len(str(caught.value)) < 160


def test_a_bite_outside_its_bounds_is_refused() -> None:
    with pytest.raises(QuantityError, match="“200 h” is outside"):
        read_bite("200 h")
    with pytest.raises(QuantityError, match="is outside 1\xa0min to 2\xa0min"):
        read_bite("59 s", least_s=60, most_s=120)


@pytest.mark.parametrize(
    ("seconds", "written"),
    [
        (0, "0 s"),
        (25, "25 s"),
        (59.6, "1 min"),
        (75, "1 min 15 s"),
        (630, "10 min 30 s"),
        (3600, "1 h"),
        (4200, "1 h 10 min"),
        (4205, "1 h 10 min 5 s"),
        (90_000, "25 h"),
    ],
)
def test_a_bite_is_written_with_units(seconds: float, written: str) -> None:
    assert write_bite(seconds) == written.replace(" ", "\xa0")


@given(st.integers(0, 360_000))
def test_a_written_bite_is_read_back(seconds: int) -> None:
    assert read_bite(write_bite(seconds)) == seconds


@pytest.mark.parametrize(
    ("low", "high", "written"),
    [
        (75, 95, "75 – 95 s"),
        (76.2, 93.1, "75 – 95 s"),
        (4.2, 8.7, "4 – 9 s"),
        (135, 165, "2¼ – 2¾ min"),
        (136, 163, "2¼ – 2¾ min"),
        (44, 130, "40 s – 2¼ min"),
        (5, 200, "5 s – 3½ min"),
        (560, 590, "9¼ – 10 min"),
        (640, 760, "10 – 13 min"),
        (4000, 5000, "66 – 84 min"),
        (60, 60, "60 s"),
        (0, 0, "0 s"),
    ],
)
def test_a_range_is_rounded_outwards_with_as_few_units_as_will_do(
    low: float, high: float, written: str
) -> None:
    assert write_range(low, high) == written.replace(" ", "\xa0")


@pytest.mark.parametrize(
    ("text", "time"),
    [
        ("09:30", "09:30"),
        ("9:30", "09:30"),
        ("9.30", "09:30"),
        ("14h05", "14:05"),
        ("0:00", "00:00"),
    ],
)
def test_a_time_of_day_is_read(text: str, time: str) -> None:
    assert read_time_of_day(text) == time


@pytest.mark.parametrize("text", ["", "9", "24:00", "12:60", "9:3", "9:30 pm", "-9:30", "99:99"])
def test_what_is_no_time_of_day_is_refused(text: str) -> None:
    with pytest.raises(QuantityError, match=r"Write it like 09:30\."):
        read_time_of_day(text)


@given(st.integers(0, 24 * 60 - 1), st.integers(0, 3))
def test_a_clock_goes_on_past_midnight(minutes: int, days: int) -> None:
    time = write_time_of_day(minutes + days * 24 * 60)
    assert read_time_of_day(time) == time
    assert int(time[:2]) * 60 + int(time[3:]) == minutes


@given(st.text(max_size=80))
def test_any_text_is_a_time_or_a_sentence(text: str) -> None:
    for read in (read_bite, read_time_of_day):
        assert sentence_of(read, text).replace("\xa0", " ").isprintable()


@given(st.floats(1.0, 10_000.0))
def test_a_least_bite_is_the_lower_end_of_every_long_range(seconds: float) -> None:
    number = write_least(seconds).split("\xa0")[0]
    assert write_range(seconds, seconds + 600.0).split("\xa0")[0] == number


def test_a_least_bite_has_the_forms_of_a_range() -> None:
    forms = {44.0: "40 s", 59.0: "55 s", 98.0: "1½ min", 700.0: "11 min"}
    assert {s: write_least(s).replace("\xa0", " ") for s in forms} == forms
    assert write_least(98.0, Manner(strokes=True)) == "1′30″"
