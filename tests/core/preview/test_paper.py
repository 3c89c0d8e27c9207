"""The sheet round the plate."""

import numpy as np
import pytest

from toneladder.preview.paper import BEVEL_MM, on_paper
from toneladder.preview.values import InkAndPaper

PRINTING = InkAndPaper(margin_mm=10.0)
PLATE = np.full((80, 120, 3), 60, dtype=np.uint8)


def test_the_plate_lies_unchanged_in_the_middle_of_its_sheet() -> None:
    sheet = on_paper(PLATE, PRINTING, 4.0, seed=1)
    assert sheet.shape == (160, 200, 3)
    assert (sheet[40:120, 40:160] == PLATE).all()


def test_the_margin_is_the_papers_own_colour() -> None:
    margin = on_paper(PLATE, PRINTING, 4.0, seed=1)[:30]
    assert margin.mean(axis=(0, 1)) == pytest.approx([0xF4, 0xEF, 0xE3], abs=0.5)
    assert margin.std(axis=(0, 1)).max() < 1.5


def test_the_plate_mark_is_in_shade_above_and_in_light_below() -> None:
    sheet = on_paper(PLATE, PRINTING, 8.0, seed=1).astype(float).mean(axis=2)
    margin = sheet[:40].mean()
    assert sheet[79, 100:180].mean() < margin - 8
    assert sheet[160, 100:180].mean() > margin + 2
    beyond = round(80 - BEVEL_MM * 8) - 2
    assert sheet[beyond, 100:180].mean() == pytest.approx(margin, abs=1.0)


@pytest.mark.parametrize("margin_mm", [0.0, 0.3])
def test_a_sheet_may_have_hardly_any_margin(margin_mm: float) -> None:
    sheet = on_paper(PLATE, InkAndPaper(margin_mm=margin_mm), 4.0, seed=1)
    margin = round(4 * margin_mm)
    assert sheet.shape == (80 + 2 * margin, 120 + 2 * margin, 3)
