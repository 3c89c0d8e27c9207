"""Soft passages on pictures whose slope is known."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.borders.arcs import border_arcs, trace
from toneladder.borders.length import length_mm
from toneladder.borders.remedies import Passage, moment, suggested
from toneladder.borders.soft import soft_passages
from toneladder.borders.values import Remedied, Remedy, Soft
from toneladder.optics import FloatArray
from toneladder.tones.parting import ToneArray

PX = 4.0
HEIGHT, WIDTH = 160, 240  # 40 x 60 mm


def ramp(slope: float, at: float = 50.0) -> FloatArray:
    """Darker downwards by ``slope`` L* per mm, ``at`` L* in the middle of the plate."""
    y = (np.arange(HEIGHT) + 0.5) / PX - HEIGHT / PX / 2.0
    return np.repeat((at - slope * y)[:, None], WIDTH, axis=1)


def toned(lightness: FloatArray, *partings: float) -> ToneArray:
    return sum(((lightness < parting) for parting in partings), np.zeros(())).astype(np.uint8)


def found(lightness: FloatArray, soft: Soft, *partings: float) -> tuple[Passage, ...]:
    tones = toned(lightness, *partings)
    return soft_passages(trace(tones, PX), lightness, PX, soft, len(partings) + 1)


@given(st.floats(0.2, 8.0))
def test_the_slope_of_a_ramp_is_found(slope: float) -> None:
    passages = found(ramp(slope), Soft(steepest=3.0), 50.0)
    assert len(passages) == (slope < 3.0)
    for passage in passages:
        assert passage.slope == pytest.approx(slope, rel=0.01)
        assert passage.length_mm == pytest.approx(60.0, abs=1.0)
        assert passage.points[:, 1] == pytest.approx(20.0, abs=0.3)
        assert passage.share_xy == pytest.approx((0.5, 0.5), abs=0.02)


def test_a_hard_edge_is_no_passage() -> None:
    lightness = np.where(ramp(1.0) > 50.0, 80.0, 20.0)
    assert found(lightness, Soft(), 50.0) == ()


def test_only_the_soft_part_of_a_border_is_a_passage() -> None:
    hard = np.where(ramp(1.0) > 50.0, 80.0, 20.0)
    lightness = np.where(np.arange(WIDTH)[None, :] < 100, ramp(1.0), hard)
    (passage,) = found(lightness, Soft(), 50.0)
    assert passage.length_mm == pytest.approx(25.0, abs=1.5)
    assert passage.points[:, 0].max() == pytest.approx(25.0, abs=1.5)


def test_a_border_that_a_brush_moved_beside_its_edge_is_hard() -> None:
    hard = np.where(ramp(1.0) > 50.0, 80.0, 20.0)
    tones = np.roll(toned(hard, 50.0), 4, axis=0)  # one millimetre too low
    tones[:4] = 0
    assert soft_passages(trace(tones, PX), hard, PX, Soft(), 2) == ()


def test_a_short_hard_spot_does_not_part_a_passage() -> None:
    lightness = ramp(1.0)
    lightness[80:, 100:107] -= 30.0
    (passage,) = found(lightness, Soft(), 50.0)
    assert passage.length_mm > 55.0


@given(st.floats(1.0, 80.0))
def test_nothing_shorter_than_asked_is_listed(shortest: float) -> None:
    passages = found(ramp(1.0), Soft(shortest_mm=shortest), 55.0, 45.0)
    assert len(passages) == (2 if shortest < 59.0 else 0 if shortest > 60.0 else len(passages))
    assert all(passage.length_mm >= shortest for passage in passages)


def test_a_soft_ring_is_one_passage_all_round() -> None:
    y, x = np.mgrid[-80:80, -120:120] / PX
    lightness = 60.0 - np.hypot(x, y)
    tones = (lightness < 50.0).astype(np.uint8)
    arcs = trace(tones, PX)
    (passage,) = soft_passages(arcs, lightness, PX, Soft(), 2)
    assert passage.length_mm == pytest.approx(2.0 * np.pi * 10.0, rel=0.02)
    assert passage.length_mm == pytest.approx(
        sum(length_mm(arc) for arc in border_arcs(arcs, 1)), rel=0.02
    )


def test_passages_are_numbered_step_by_step_the_longest_first() -> None:
    noise = np.random.default_rng(3).normal(size=(HEIGHT, WIDTH))
    from scipy.ndimage import gaussian_filter

    lightness = 50.0 + 600.0 * gaussian_filter(noise, 14.0)
    passages = found(lightness, Soft(), 60.0, 50.0, 40.0)
    assert len(passages) > 3
    assert [passage.number for passage in passages] == list(range(1, len(passages) + 1))
    order = [(passage.step, -passage.length_mm) for passage in passages]
    assert order == sorted(order)


def test_the_nearest_passage_of_its_step_has_the_remedy_chosen_by_hand() -> None:
    chosen = (
        Remedied(0.5, 0.42, 1, Remedy.NONE),
        Remedied(0.5, 0.9, 2, Remedy.CRAYON),  # too far from any
    )
    first, second = found(ramp(1.0), Soft(remedies=chosen), 53.0, 47.0)
    assert first.remedy is Remedy.NONE
    assert second.remedy is second.suggested


def level(width: float, y: float) -> FloatArray:
    return np.array([[5.0, y], [5.0 + width, y + 1.0]])


@pytest.mark.parametrize(
    ("points", "lightness", "last", "remedy"),
    [  # common practice, no source
        (level(60.0, 20.0), 80.0, False, Remedy.CREEPING_BITE),
        (level(60.0, 80.0), 80.0, False, Remedy.SPIT_BITE),
        (level(20.0, 20.0), 80.0, False, Remedy.CRAYON),
        (level(20.0, 20.0)[:, ::-1], 80.0, False, Remedy.CRAYON),
        (level(60.0, 20.0)[:, ::-1], 80.0, False, Remedy.SPIT_BITE),
        (level(60.0, 20.0), 40.0, False, Remedy.SPIT_BITE),
        (level(20.0, 20.0), 80.0, True, Remedy.BURNISH),
    ],
)
def test_the_trade_has_a_remedy_for_each_passage(
    points: FloatArray, lightness: float, *, last: bool, remedy: Remedy
) -> None:
    assert suggested(points, lightness, (120.0, 100.0), last=last) is remedy


@pytest.mark.parametrize(
    ("remedy", "step", "word"),
    [
        (Remedy.SPIT_BITE, 2, "Before you stop out"),
        (Remedy.CRAYON, 2, "While you stop out"),
        (Remedy.CREEPING_BITE, 2, "this bite"),
        (Remedy.BURNISH, None, "After the proof"),
        (Remedy.NONE, 2, "hard border"),
    ],
)
def test_every_remedy_has_its_own_moment(remedy: Remedy, step: int | None, word: str) -> None:
    passage = found(ramp(1.0), Soft(), 53.0, 47.0)[1]
    when, sentence = moment(replace(passage, remedy=remedy))
    assert when == step
    assert word in sentence
    assert "passage 2" in sentence.lower()
    assert "{" not in sentence
