"""What was done to a scan before it was read is noticed."""

import pytest
from tests.core.scans.drawing import Look, Page, draw, even_row

from toneladder.picture.opening import open_picture
from toneladder.scans.doubts import doubts
from toneladder.scans.finding import find_strip

TONES = (90.0, 83.0, 75.0, 65.0, 52.0, 40.0, 30.0, 24.0)
PAGE = Page(200, 60, rows=(even_row(20, 18, 20, 24, TONES),))


def said(look: Look) -> str:
    light = open_picture(draw(PAGE, look, 5).data, name="scan").light
    return " ".join(doubts(light, find_strip(light, patches=8)))


@pytest.mark.parametrize("jpeg", [None, 60, 85])
@pytest.mark.parametrize("dpi", [150.0, 300.0])
def test_a_plain_scan_is_not_doubted(dpi: float, jpeg: int | None) -> None:
    assert said(Look(dpi=dpi, turn=4.0, jpeg=jpeg)) == ""


@pytest.mark.parametrize("bits", [8, 16])
def test_a_soft_or_deep_scan_is_not_doubted(bits: int) -> None:
    assert said(Look(dpi=200, turn=-7.0, blur=2.0, bits=bits)) == ""


@pytest.mark.parametrize("turn", [0.0, 6.0])
def test_a_sharpened_scan_is_said(turn: float) -> None:
    assert "sharpened" in said(Look(dpi=200, turn=turn, sharpen=1.0))


def test_paper_that_is_blown_out_is_said() -> None:
    assert "pure white" in said(Look(dpi=150, stretch=(0.0, 0.9)))


def test_ink_that_is_clipped_to_black_is_said() -> None:
    assert "pure black" in said(Look(dpi=150, stretch=(0.25, 1.0)))


def test_stretched_tones_are_said() -> None:
    assert "stretched" in said(Look(dpi=150, noise=0.001, stretch=(0.12, 0.95)))
