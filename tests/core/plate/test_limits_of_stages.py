"""Bounds of lines and second grain in a plate."""

from dataclasses import replace

import pytest

from toneladder.lines.values import Lines
from toneladder.order.values import SecondGrain
from toneladder.picture.values import PictureRef, PlateSize
from toneladder.plate.limits import faults
from toneladder.plate.values import Plate

PLATE = Plate("Net", PictureRef("0" * 64, "net.png", 60, 45, 8), PlateSize(60.0, 45.0))


@pytest.mark.parametrize(
    ("lines", "words"),
    [
        (Lines(widest_mm=0.0), "widest line"),
        (Lines(widest_mm=9.0), "widest line"),
        (Lines(contrast=0.0), "contrast of a line"),
        (Lines(depths=0), "line depths"),
        (Lines(depths=5), "line depths"),
        (Lines(bites_s=(1.0,)), "line bite"),
        (Lines(depths=2, bites_s=(60.0,)), "give one for each"),
        (Lines(depths=2, bites_s=(60.0, 60.0)), "must rise"),
    ],
)
def test_lines_out_of_bounds_are_told(lines: Lines, words: str) -> None:
    assert words in " ".join(faults(replace(PLATE, lines=lines)))


@pytest.mark.parametrize(
    ("second", "words"),
    [
        (SecondGrain(darkest=0), "number of tones in the second grain"),
        (SecondGrain(darkest=12), "number of tones in the second grain"),
        (SecondGrain(bites_s=(1.0,)), "bite in the second grain"),
        (SecondGrain(bites_s=(60.0, 90.0)), "give one for each"),
        (SecondGrain(darkest=2, bites_s=(60.0, 50.0)), "must not fall"),
    ],
)
def test_a_second_grain_out_of_bounds_is_told(second: SecondGrain, words: str) -> None:
    assert words in " ".join(faults(replace(PLATE, second_grain=second)))


def test_what_is_within_bounds_is_not_spoken_of() -> None:
    lines = Lines(depths=3, bites_s=(300.0, 600.0, 1200.0), stopped_out=True)
    second = SecondGrain(darkest=2, bites_s=(60.0, 60.0))
    assert faults(replace(PLATE, lines=lines, second_grain=second)) == ()
