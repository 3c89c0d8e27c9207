"""The curve from strips and proofs: laws, published strips, and what it says aloud."""

import math
from contextlib import suppress
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from toneladder.bite.curve import band_at, lightness_at
from toneladder.bite.fitting import FOLLOW_NEWEST, Fit, Patch, Scatter, Session, fit
from toneladder.bite.fitting.readings import LEAST_SPREAD, MOST_READINGS
from toneladder.bite.print_model import printed_lightness
from toneladder.bite.starting_points import starting_point
from toneladder.bite.today import rate_today
from toneladder.bite.values import Conditions, Metal, Mordant, Standing
from toneladder.errors import RefusedPairError, StripError

COPPER = Conditions()
ALUMINIUM = Conditions(metal=Metal.ALUMINIUM, mordant=Mordant.COPPER_SULPHATE_SALT)
LADDER = np.array([0.0, 15.0, 30.0, 60.0, 120.0, 240.0, 480.0, 960.0])


def session(
    bites: np.ndarray, tones: np.ndarray, temperature_c: float = 20.0, *, proof: bool = False
) -> Session:
    pairs = zip(bites.tolist(), np.asarray(tones).tolist(), strict=True)
    return Session(tuple(Patch(bite, tone) for bite, tone in pairs), temperature_c, proof=proof)


def likely(rate: float = 1.0, **changes: float) -> np.ndarray:
    """What a bath prints that is as the model thinks, but for ``changes``."""
    model = replace(starting_point(COPPER).model, **changes)
    return printed_lightness(LADDER * rate, model)


def line(found: Fit, bites: np.ndarray) -> np.ndarray:
    return lightness_at(found.curve, bites)


FALLING = st.lists(st.floats(2.0, 18.0), min_size=1, max_size=9).map(
    lambda falls: 92.0 - np.cumsum([0.0, *falls])
)


@settings(max_examples=40)
@given(FALLING, st.floats(4.0, 40.0), st.floats(1.4, 3.0))
def test_any_falling_strip_gives_a_curve_that_keeps_every_law(
    tones: np.ndarray, first_s: float, ratio: float
) -> None:
    bites = np.array([0.0, *(first_s * ratio**k for k in range(len(tones) - 1))])
    curve = fit([session(bites, np.maximum(tones, 5.0))], COPPER).curve
    times, middle, low, high = map(
        np.array, (curve.bites_s, curve.lightness, curve.low, curve.high)
    )
    assert times[0] == 0.0
    assert times[-1] == curve.longest_tested_s == pytest.approx(bites.max())
    assert len(times) >= 200
    assert np.all(np.diff(times) > 0)
    assert np.all(np.diff(middle) <= 0)
    assert np.all((low <= middle) & (middle <= high))
    assert np.all((low >= 0) & (high <= 100))
    assert 0 < curve.deepest_useful_s <= curve.longest_tested_s
    assert curve.standing is Standing.STRIP


def test_a_bath_that_is_as_the_model_thinks_is_found_again() -> None:
    for changes in ({}, {"coverage": 0.42}, {"diameter_um": 110.0}, {"ink_strength": 0.3}):
        found = fit([session(LADDER, likely(**changes))], COPPER)
        model = replace(starting_point(COPPER).model, **changes)
        between = np.array([5.0, 20.0, 45.0, 90.0, 180.0, 360.0, 700.0])
        assert np.abs(line(found, between) - printed_lightness(between, model)).max() < 0.6


def test_a_bath_five_times_as_fast_or_as_slow_is_found_too() -> None:
    for rate, kept in ((0.2, LADDER), (5.0, LADDER[:6])):
        tones = likely(rate)[: len(kept)]
        found = fit([session(kept, tones)], COPPER)
        assert np.abs(line(found, kept) - tones).max() < 0.8


def test_the_same_patches_always_give_the_same_curve_in_any_order() -> None:
    strip = session(LADDER, likely())
    turned = replace(strip, patches=strip.patches[::-1])
    first, again, other = (fit([one], COPPER) for one in (strip, strip, turned))
    assert first == again
    assert other.curve.lightness == pytest.approx(first.curve.lightness, abs=1e-6)


def test_more_patches_leave_less_doubt() -> None:
    tones = likely()
    widths = []
    for kept in ([0, 5], [0, 3, 5, 7], list(range(8))):
        curve = fit([session(LADDER[kept], tones[kept])], COPPER).curve
        low, high = band_at(curve, np.array([20.0, 45.0, 90.0, 180.0]))
        widths.append(float(np.mean(high - low)))
    assert widths[0] > widths[1] > widths[2]


def test_one_patch_alone_gives_a_curve_with_a_wide_band_and_says_so() -> None:
    found = fit([Session((Patch(60.0, 70.0),))], COPPER)
    low, high = band_at(found.curve, 20.0)
    assert high - low > 5.0
    assert any("One bitten patch only" in remark for remark in found.remarks)
    assert any("No unbitten patch" in remark for remark in found.remarks)
    assert found.curve.longest_tested_s == 60.0


def test_the_band_of_one_strip_is_as_wide_as_the_assumed_scatter_at_least() -> None:
    found = fit([session(LADDER, likely())], COPPER)
    low, high = band_at(found.curve, 60.0)
    assert found.scatter.time == pytest.approx(0.20)
    assert found.scatter.lightness == pytest.approx(3.0)
    assert found.scatter.learnt_from == 0
    slope = float(line(found, np.array([55.0]))[0] - line(found, np.array([66.0]))[0])
    share = math.log(1.2) / math.log(66.0 / 55.0)
    assert high - low >= 2.0 * math.hypot(3.0, slope * share) * 0.98


def test_a_bad_patch_is_named_and_moves_the_curve_little() -> None:
    tones = likely()
    clean = fit([session(LADDER, tones)], COPPER)
    bad = tones.copy()
    bad[3] += 9.0
    found = fit([session(LADDER, bad)], COPPER)
    assert np.abs(line(found, LADDER) - line(clean, LADDER)).max() < 1.5
    assert [residual.doubtful > 0.5 for residual in found.residuals] == [k == 3 for k in range(8)]
    assert found.residuals[3].difference == pytest.approx(9.0, abs=1.5)
    assert any("patch of 1\N{NO-BREAK SPACE}min reads" in text for text in found.remarks)
    assert len(found.residuals) == len(LADDER)


# Two published test logs of aluminium in copper sulphate with salt; their pages give words
# and times, the lightness that goes with a word is ours.
# 73 °F, Zea Mays Printmaking, copper sulfate etch for aluminum, test 16: a tone at 5 s, darker
# middle tones at 2 to 3 min, dark black at 8 min.
TEST_16_S = np.array([0.0, 5, 10, 15, 30, 60, 120, 180, 300, 480, 720, 900])
TEST_16_TONES = np.array([91.0, 84, 79, 75, 67, 58, 48, 42, 31, 20, 20, 20])
# 68 °F, the same series, test 5: 3 min darker than 4 min, 5 to 17 min about equally black.
TEST_5_S = np.array([3.0, 10, 15, 30, 60, 90, 120, 180, 240, 300, 420, 480, 720, 1020])
TEST_5_TONES = np.array([86.0, 79, 75, 66, 56, 50, 45, 33, 37, 21, 20, 21, 20, 20])


def test_the_published_aluminium_strip_gives_a_curve_of_its_shape() -> None:
    found = fit([session(TEST_16_S, TEST_16_TONES, temperature_c=22.8)], ALUMINIUM)
    white, first, middle, late, black, level = line(found, np.array([0.0, 5, 120, 180, 480, 900]))
    assert white - first > 4.0
    assert 35.0 < late < middle < 55.0
    assert black < 24.0
    assert black - level < 2.0
    assert 300.0 <= found.curve.deepest_useful_s <= 720.0
    assert found.curve.temperature_c == 22.8
    assert not any("reversed" in remark for remark in found.remarks)


def test_the_reversal_of_the_other_published_test_is_named_and_not_followed() -> None:
    found = fit([session(TEST_5_S, TEST_5_TONES)], ALUMINIUM)
    named = [remark for remark in found.remarks if "reversed" in remark]
    assert len(named) == 1
    assert "3\N{NO-BREAK SPACE}min reads darker than 4\N{NO-BREAK SPACE}min, by 0.4:" in named[0]
    at_3, at_4, at_5, at_17 = line(found, np.array([180.0, 240.0, 300.0, 1020.0]))
    assert at_3 >= at_4 >= at_5 >= at_17
    assert at_5 - at_17 < 6.0
    assert len(found.residuals) == len(TEST_5_S)


def test_no_fall_is_drawn_after_black_unless_two_patches_show_it() -> None:
    bites = np.array([0.0, 15, 30, 60, 120, 240, 480, 720, 960])
    tones = np.array([91.0, 82, 74, 62, 48, 33, 20, 20, 24])
    once = fit([session(bites, tones)], COPPER)
    assert once.line == once.curve.lightness
    twice = fit([session(bites, np.array([91.0, 82, 74, 62, 48, 33, 20, 24, 29]))], COPPER)
    assert any("lighter again" in remark for remark in twice.remarks)
    assert twice.line[-1] > min(twice.line) + 2.0
    assert np.all(np.diff(twice.curve.lightness) <= 0)
    assert twice.curve.deepest_useful_s <= 480.0
    assert all(residual.doubtful < 0.5 for residual in twice.residuals)


def test_the_end_of_a_strip_that_is_not_black_yet_is_said() -> None:
    found = fit([session(LADDER[:5], likely()[:5])], COPPER)
    assert any("longer bites are not tested" in remark for remark in found.remarks)
    assert found.curve.longest_tested_s == 120.0


def test_every_session_has_its_own_rate_and_a_warmer_one_is_known_to_be_faster() -> None:
    strip = session(LADDER, likely(), temperature_c=20.0)
    warm = rate_today(24.0, 20.0)
    proof = session(LADDER[:6], likely(1.25 * warm)[:6], temperature_c=24.0, proof=True)
    found = fit([strip, proof], COPPER)
    assert found.rates[1] / found.rates[0] == pytest.approx(1.25, rel=0.06)
    assert found.curve.temperature_c == 24.0
    cool = fit([strip], COPPER)
    ahead = line(found, np.array([60.0])) - line(cool, np.array([60.0 * warm]))
    assert -6.0 < float(ahead[0]) < 0.0


def test_a_bath_known_to_have_changed_is_followed_to_its_newest_session() -> None:
    strip, proof = session(LADDER, likely()), session(LADDER[:7], likely(1.4)[:7], proof=True)
    changed = likely(1.4)[3]

    def miss(scatter: Scatter) -> float:
        found = float(line(fit([strip, proof], COPPER, scatter=scatter), LADDER[3:4])[0])
        return float(abs(found - changed))

    assert miss(Scatter(wandering=FOLLOW_NEWEST)) < 0.6
    assert miss(Scatter()) > 1.5  # else both luck and change are thought possible


def test_plates_that_keep_together_narrow_the_band_and_plates_that_stray_widen_it() -> None:
    rng = np.random.default_rng(5)

    def after(time: float, tone: float) -> Fit:
        sessions = [session(LADDER, likely())]
        for _ in range(5):
            strayed = likely(math.exp(rng.normal(0.0, time))) + rng.normal(0.0, tone)
            sessions.append(session(LADDER[:7], strayed[:7], proof=True))
        return fit(sessions, COPPER)

    calm, wild = after(0.02, 0.3), after(0.30, 4.0)
    assert calm.scatter.learnt_from == wild.scatter.learnt_from == 6
    assert calm.scatter.time < 0.20 < wild.scatter.time
    assert calm.scatter.lightness < 3.0 < wild.scatter.lightness
    assert any("After 6 sessions" in remark for remark in calm.remarks)
    widths = [
        float(np.mean(np.subtract(found.curve.high, found.curve.low))) for found in (calm, wild)
    ]
    assert widths[0] < widths[1]


def test_a_smaller_scatter_may_be_assumed() -> None:
    strip = session(LADDER, likely())
    wide, narrow = fit([strip], COPPER), fit([strip], COPPER, scatter=Scatter(0.05, 1.0))
    assert np.all(np.subtract(narrow.curve.high, wide.curve.high) <= 0)


def test_a_metal_without_published_times_can_be_fitted_from_its_strip() -> None:
    steel = Conditions(metal=Metal.STEEL, mordant=Mordant.FERRIC_CHLORIDE)
    found = fit([session(LADDER[:6], likely(4.0)[:6])], steel)
    assert np.abs(line(found, LADDER[:6]) - likely(4.0)[:6]).max() < 0.8


@pytest.mark.parametrize(
    ("patches", "words"),
    [
        ((), "No bitten patch"),
        ((Patch(0.0, 91.0),), "No bitten patch"),
        ((Patch(0.0, 90.0), Patch(60.0, 90.4), Patch(120.0, 89.9)), "read alike"),
        ((Patch(0.0, 30.0), Patch(60.0, 50.0), Patch(240.0, 90.0)), "wrong end"),
        ((Patch(-5.0, 60.0), Patch(60.0, 50.0)), "below nothing"),
        ((Patch(math.nan, 60.0), Patch(60.0, 50.0)), "below nothing"),
        ((Patch(30.0, 140.0), Patch(60.0, 50.0)), "between 0 and 100"),
        (tuple(Patch(60.0, 50.0) for _ in range(MOST_READINGS + 1)), "are enough"),
    ],
)
def test_patches_without_a_curve_in_them_are_refused_with_a_sentence(
    patches: tuple[Patch, ...], words: str
) -> None:
    with pytest.raises(StripError, match=words):
        fit([Session(patches)], COPPER)


def test_no_strip_at_all_and_a_forbidden_pair_are_refused() -> None:
    with pytest.raises(StripError, match="No strip"):
        fit([], COPPER)
    zinc = Conditions(metal=Metal.ZINC, mordant=Mordant.FERRIC_CHLORIDE)
    with pytest.raises(RefusedPairError, match="Zinc must not"):
        fit([session(LADDER, likely())], zinc)


ANY_PATCH = st.builds(
    Patch,
    st.sampled_from([0.0, 0.5, 15.0, 60.0]) | st.floats(0.0, 40_000.0),
    st.floats(0.0, 100.0),
    st.floats(0.0, 30.0),
)


@settings(max_examples=60)
@given(st.lists(st.lists(ANY_PATCH, min_size=1, max_size=8).map(tuple), min_size=1, max_size=3))
def test_any_patches_at_all_give_a_lawful_curve_or_a_sentence(
    strips: list[tuple[Patch, ...]],
) -> None:
    with suppress(StripError):
        found = fit([Session(patches, proof=k > 0) for k, patches in enumerate(strips)], COPPER)
        curve = found.curve
        assert np.all(np.diff(curve.bites_s) > 0)
        assert np.all(np.diff(curve.lightness) <= 0)
        assert np.all(np.less_equal(curve.low, curve.lightness))
        assert np.all(np.less_equal(curve.lightness, curve.high))
        assert min(curve.low) >= 0
        assert max(curve.high) <= 100
        assert 0 < curve.deepest_useful_s <= curve.longest_tested_s
        assert curve.longest_tested_s <= max(p.total_bite_s for one in strips for p in one) + 1e-9
        assert len(found.residuals) == sum(map(len, strips))


def test_repeated_and_unordered_patches_all_count() -> None:
    bites = np.array([60.0, 0.0, 60.0, 240.0, 15.0])
    tones = np.array([61.0, 91.0, 63.0, 33.0, 82.0])
    found = fit([session(bites, tones)], COPPER)
    assert [residual.patch.total_bite_s for residual in found.residuals] == bites.tolist()
    assert float(line(found, np.array([60.0]))[0]) == pytest.approx(62.0, abs=1.0)


def test_a_reading_is_never_trusted_beyond_what_a_print_can_tell() -> None:
    exact = tuple(Patch(b, t, 0.0) for b, t in zip(LADDER, likely(), strict=True))
    careful = tuple(replace(patch, spread=LEAST_SPREAD) for patch in exact)
    assert fit([Session(exact)], COPPER).curve == fit([Session(careful)], COPPER).curve
