"""Pen lines and washes parted, on drawings made by script that know both."""

from functools import cache

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import ndimage
from tests.core.lines.drawings import PX_PER_MM, Drawing, drawing, lightness, luminance
from tests.core.lines.trial import HARDER, Outcome, middles, on, trial

from toneladder.lines.separating import separate
from toneladder.lines.values import Lines

SEEDS = range(3)


@cache
def outcomes(name: str) -> tuple[Outcome, ...]:
    return tuple(trial(seed, **{"size_mm": (40.0, 30.0), **HARDER[name]}) for seed in SEEDS)


@cache
def plain() -> Drawing:
    return drawing(7, size_mm=(40.0, 30.0))


@pytest.mark.parametrize("name", HARDER)
def test_lines_are_found_and_nothing_else_is(name: str) -> None:
    # the goals: 95 % of the length found, 5 % of what is found wrong
    for outcome in outcomes(name):
        assert outcome.found >= 0.95
        assert outcome.false <= 0.05


@pytest.mark.parametrize("name", ["as it comes", "fine lines, 0.2 to 0.25 mm"])
def test_washes_beside_lines_are_what_they_were(name: str) -> None:
    for outcome in outcomes(name):
        assert outcome.near >= 0.85
    assert np.mean([outcome.near for outcome in outcomes(name)]) >= 0.9
    assert np.mean([outcome.off for outcome in outcomes(name)]) <= 1.0


def test_where_there_is_no_line_nothing_changes() -> None:
    bare = drawing(3, size_mm=(40.0, 30.0), specks=60)
    done = separate(bare.washes, PX_PER_MM, Lines())
    # splashes are round, edges of washes are no ridges: both stay, but for two that touch
    assert done.lines.mask.mean() < 0.005
    assert np.array_equal(done.washes[~near(done.lines.mask)], bare.washes[~near(done.lines.mask)])


def near(mask: np.ndarray) -> np.ndarray:
    return np.asarray(ndimage.binary_dilation(mask, iterations=8))


def test_white_paper_has_no_lines() -> None:
    paper = np.full((80, 120), luminance(np.array(93.0)), dtype=np.float32)
    done = separate(paper, PX_PER_MM, Lines(depths=3))
    assert not done.lines.mask.any()
    assert done.lines.lengths_cm == (0.0, 0.0, 0.0)
    assert np.array_equal(done.washes, paper)


def bars(*widths_cells: int, lightness_of_ink: float = 15.0) -> np.ndarray:
    """Upright bars on white paper, 30 cells apart."""
    light = np.full((200, 30 * len(widths_cells) + 30), luminance(np.array(93.0)), np.float32)
    for k, width in enumerate(widths_cells, start=1):
        light[20:180, 30 * k : 30 * k + width] = luminance(np.array(lightness_of_ink))
    return light


def test_what_is_wider_than_a_line_is_a_tone() -> None:
    light = bars(4, 8, 20)
    done = separate(light, PX_PER_MM, Lines(widest_mm=1.0))
    assert [bool(done.lines.mask[100, 30 * k + 1]) for k in (1, 2, 3)] == [True, True, False]
    assert np.array_equal(done.washes[30:170, 90:110], light[30:170, 90:110])


def test_what_is_hardly_darker_than_the_paper_is_no_line() -> None:
    for ink, found in ((75.0, True), (86.0, False)):
        done = separate(bars(4, lightness_of_ink=ink), PX_PER_MM, Lines(contrast=12.0))
        assert bool(done.lines.mask.any()) is found


def test_a_line_at_the_edge_of_a_wash_is_a_line_and_the_edge_stays() -> None:
    light = np.full((200, 200), luminance(np.array(93.0)), np.float32)
    light[:, 100:] = luminance(np.array(60.0))
    light[20:180, 98:102] = luminance(np.array(12.0))
    done = separate(light, PX_PER_MM, Lines())
    assert done.lines.mask[25:175, 98:102].all()
    row = lightness(done.washes[100])
    assert row[:96] == pytest.approx(93.0, abs=0.2)
    assert row[104:] == pytest.approx(60.0, abs=0.2)


def test_fine_and_heavy_lines_get_their_depths() -> None:
    drawn = drawing(5, size_mm=(40.0, 30.0), widths_mm=(0.2, 0.8))
    done = separate(drawn.light, PX_PER_MM, Lines(depths=3))
    assert done.lines.depth.max() == 3
    # the mean depth of a stroke rises with its width
    strokes = [
        (stroke.width_mm, float(done.lines.depth[at[:, 0], at[:, 1]].mean()))
        for stroke, at in zip(drawn.strokes, middles(drawn), strict=True)
        if len(at)
    ]
    widths, depths = np.array(strokes).T
    assert np.corrcoef(np.log(widths), depths)[0, 1] > 0.8


def test_two_pens_that_cross_each_other_keep_their_depths() -> None:
    right = together = cells = 0
    for seed in range(3):
        drawn = drawing(seed, size_mm=(45.0, 34.0), pens_mm=(0.22, 0.5))
        depth = separate(drawn.light, PX_PER_MM, Lines(depths=2)).lines.depth
        for stroke, at in zip(drawn.strokes, middles(drawn), strict=True):
            found = depth[at[:, 0], at[:, 1]]
            fine, heavy = int((found == 1).sum()), int((found == 2).sum())
            right += fine if stroke.width_mm < 0.3 else heavy
            together += max(fine, heavy)
            cells += fine + heavy
    # what two strokes share is the heavier one's, so that no share can be whole
    assert right / cells > 0.9
    assert together / cells > 0.9


def test_two_pens_are_told_apart_and_a_grey_wide_line_is_like_a_fine_black_one() -> None:
    light = bars(2, 2, 6, 6, 6)
    grey = (
        luminance(np.array(12.0)) + (luminance(np.array(93.0)) - luminance(np.array(12.0))) * 0.66
    )
    light[20:180, 150:156] = grey
    depth = separate(light, PX_PER_MM, Lines(depths=2)).lines.depth
    assert [int(np.median(depth[30:170, 30 * k + 1])) for k in range(1, 6)] == [1, 1, 2, 2, 1]


def test_lengths_are_measured_whatever_the_direction() -> None:
    # Kulpa's factor is right on average and 5 % off at worst; half a width is lost at each end
    from PIL import Image, ImageDraw

    for angle in np.linspace(0.0, np.pi, 13):
        page = Image.new("L", (1200, 1200), 230)
        way = 400.0 * np.array([np.cos(angle), np.sin(angle)])
        ends = [tuple(600.0 + side * way) for side in (-1.0, 1.0)]
        ImageDraw.Draw(page).line(ends, fill=20, width=12)
        grey = np.asarray(page.resize((400, 400), Image.Resampling.BOX)) / 255.0
        done = separate(grey.astype(np.float32), PX_PER_MM, Lines())
        assert done.lines.lengths_cm[0] == pytest.approx(800.0 / 3.0 / 80.0, rel=0.08)


def test_more_depths_than_kinds_of_lines_leave_the_deeper_ones_empty() -> None:
    done = separate(bars(4, 4, 4), PX_PER_MM, Lines(depths=4))
    assert done.lines.mask.any()
    assert sum(length > 0.0 for length in done.lines.lengths_cm) == 1


def test_every_line_cell_has_a_depth_and_the_layer_cannot_be_changed() -> None:
    one = separate(plain().light, PX_PER_MM, Lines())
    three = separate(plain().light, PX_PER_MM, Lines(depths=3))
    assert np.array_equal(one.lines.mask, three.lines.mask)
    assert set(np.unique(three.lines.depth)) == {0, 1, 2, 3}
    with pytest.raises(ValueError, match="read-only"):
        three.lines.depth[0, 0] = 1


def test_the_middle_of_every_stroke_is_touched() -> None:
    mask = separate(plain().light, PX_PER_MM, Lines()).lines.mask
    assert np.mean([on(at, mask).mean() for at in middles(plain()) if len(at)]) > 0.97


@given(
    st.integers(0, 2**32 - 1),
    st.integers(1, 40),
    st.integers(1, 40),
    st.floats(0.1, 3.0),
    st.integers(1, 4),
)
@settings(max_examples=60)
def test_any_picture_however_small_is_parted_without_inventing_light(
    seed: int, height: int, width: int, widest_mm: float, depths: int
) -> None:
    chance = np.random.default_rng(seed)
    levels = chance.random(chance.integers(1, 6)).astype(np.float32)
    light = chance.choice(levels, (height, width))
    done = separate(light, PX_PER_MM, Lines(widest_mm=widest_mm, depths=depths))
    assert done.washes.shape == done.lines.depth.shape == done.lines.ink.shape == light.shape
    assert done.lines.depth.max(initial=0) <= depths
    assert len(done.lines.lengths_cm) == depths
    assert np.isfinite(done.washes).all()
    assert light.min() - 1e-5 <= done.washes.min() <= done.washes.max() <= light.max() + 1e-5
