"""The value guide: greys of black dots that stand for the tones' lightness."""

from itertools import pairwise

import numpy as np
import pytest
from tests.core.sheets.conftest import MADE_ON, planned
from tests.core.sheets.reading import dots, drawn
from tests.core.sheets.test_order_sheet import outside, overlapping, words_of

from toneladder.optics import lightness, luminance, yule_nielsen
from toneladder.picture.values import PlateSize
from toneladder.sheets.guide_sheet import TONER_LIGHTNESS, coverages, guide_sheets, screen
from toneladder.sheets.marks import A4, LETTER, Paper


@pytest.mark.parametrize("period", [12, 14, 16])
@pytest.mark.parametrize("coverage", [0.0, 0.1, 0.25, 0.5, 0.8, 1.0])
def test_a_screen_covers_what_it_says(period: int, coverage: float) -> None:
    assert screen(coverage, period).mean() == pytest.approx(coverage, abs=0.51 / period**2)


def test_a_darker_screen_holds_the_lighter_one() -> None:
    steps = [screen(share, 14) for share in np.linspace(0.0, 1.0, 12)]
    for light, dark in pairwise(steps):
        assert not (light & ~dark).any()


def test_covered_paper_reflects_what_the_tone_prints() -> None:
    wanted = np.array([92.0, 75.0, 60.0, 40.0, 20.0])
    share = coverages(wanted.tolist())
    seen = yule_nielsen(share, luminance(TONER_LIGHTNESS), luminance(92.0), 2.0)
    assert lightness(seen) == pytest.approx(wanted, abs=1e-6)


def test_the_lightest_tone_is_bare_and_what_is_darker_than_toner_is_solid() -> None:
    share = coverages([90.0, 50.0, TONER_LIGHTNESS - 5.0])
    assert share[0] == 0.0
    assert share[-1] == 1.0


@pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
def test_every_tone_lies_mirrored_at_its_own_share_of_black(paper: Paper) -> None:
    made = planned(5, PlateSize(60.0, 45.0))
    (sheet,) = guide_sheets(
        made.plate, made.order, made.tones, made.prepared.grid, made_on=MADE_ON, paper=paper
    )
    black = dots(drawn(sheet))
    seen = np.kron(made.tones[:, ::-1], np.ones((3, 3), dtype=np.uint8))
    shares = coverages([tone.lightness for tone in made.order.tones])
    assert [black[seen == tone].mean() for tone in range(5)] == pytest.approx(shares, abs=0.02)
    assert outside(sheet) == []
    assert overlapping(sheet) == []
    words = words_of(sheet)
    assert "Value guide" in words
    assert "tone 0 tone 1 tone 2 tone 3 tone 4" in words


def test_etched_lines_are_black() -> None:
    made = planned(5, PlateSize(60.0, 45.0))
    lines = np.zeros(made.tones.shape, dtype=bool)
    lines[100:104, 10:200] = True
    (sheet,) = guide_sheets(
        made.plate, made.order, made.tones, made.prepared.grid, made_on=MADE_ON, lines=lines
    )
    assert dots(drawn(sheet))[np.kron(lines[:, ::-1], np.ones((3, 3))) > 0].all()


def test_the_key_of_twelve_tones_keeps_to_the_paper() -> None:
    made = planned(12, PlateSize(60.0, 45.0))
    for sheet in guide_sheets(
        made.plate, made.order, made.tones, made.prepared.grid, made_on=MADE_ON
    ):
        assert outside(sheet) == []
        assert overlapping(sheet) == []
