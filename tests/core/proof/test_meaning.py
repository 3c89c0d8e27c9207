"""What a read proof means for the bath and for its plate."""

from dataclasses import replace

import pytest

from toneladder.bite.fitting import Patch
from toneladder.bite.values import Conditions
from toneladder.errors import ProofError
from toneladder.proof.meaning import advice, session_of_proof, strip_of_proof, with_proof
from toneladder.proof.values import ToneReading
from toneladder.strip.curve import fit_strips
from toneladder.strip.values import Dryness, Strip

# invented readings
STRIP = Strip(
    Conditions(temperature_c=20.0),
    (Patch(0.0, 90.0), Patch(30.0, 76.0), Patch(120.0, 55.0), Patch(480.0, 33.0)),
)
BITES = (0.0, 25.0, 90.0, 300.0)


def tone(number: int, planned: float, printed: float, spread: float = 0.6) -> ToneReading:
    return ToneReading(number, planned, printed, spread, 900, printed - 0.5, printed + 0.5)


TONES = (tone(0, 90.0, 89.5), tone(1, 78.0, 83.0), tone(2, 60.0, 60.4), tone(3, 40.0, 34.0))


def test_a_session_pairs_bites_really_given_with_what_they_printed() -> None:
    session = session_of_proof((TONES[0], TONES[2]), BITES, temperature_c=23.0, name="coins")
    assert session.proof
    assert session.temperature_c == 23.0
    assert session.patches == (Patch(0.0, 89.5, 0.6), Patch(90.0, 60.4, 0.6))


def test_a_tone_bitten_in_a_second_grain_tells_nothing_of_the_first_ones_curve() -> None:
    darkest = TONES[-1].tone
    whole = session_of_proof(TONES, BITES)
    session = session_of_proof(TONES, BITES, regrained={darkest})
    assert session.patches == whole.patches[:-1]


def test_a_proof_is_added_once_and_the_strip_stays_as_it_was_read() -> None:
    session = session_of_proof(TONES, BITES)
    grown = with_proof(with_proof(STRIP, session), session)
    assert grown.proofs == (session,)
    assert replace(grown, proofs=()) == STRIP


def test_a_proof_moves_the_curve_towards_what_it_printed() -> None:
    darker = tuple(
        tone(n, light, light - 6.0) for n, light in enumerate((90.0, 78.0, 60.0, 40.0)) if n
    )
    before = fit_strips([STRIP]).curve
    after = fit_strips([with_proof(STRIP, session_of_proof(darker, BITES))]).curve
    assert after.lightness[60] < before.lightness[60]


def test_at_another_temperature_the_plan_follows_the_newest_rate_alone() -> None:
    alone = fit_strips([strip_of_proof(session_of_proof(TONES, BITES), Conditions())])
    near, far = (
        fit_strips([with_proof(STRIP, session_of_proof(TONES, BITES, temperature_c=warm))])
        for warm in (20.0, 23.0)
    )
    assert alone.scatter.wandering == near.scatter.wandering < far.scatter.wandering
    assert far.rates[-1] == pytest.approx(1.0, abs=0.02)
    assert near.rates[-1] != pytest.approx(1.0, abs=0.02)


def test_a_bath_without_a_strip_gets_one_from_the_proof_the_white_included() -> None:
    session = session_of_proof(TONES, BITES, temperature_c=18.0)
    strip = strip_of_proof(session, Conditions(temperature_c=20.0))
    assert strip.patches == session.patches
    assert strip.patches[0].total_bite_s == 0.0
    assert strip.conditions.temperature_c == 18.0
    assert fit_strips([strip]).curve.longest_tested_s <= 300.0


def test_too_few_bites_are_refused() -> None:
    with pytest.raises(ProofError, match="4 tones and 2 bites"):
        session_of_proof(TONES, BITES[:2])


def test_a_negative_teaches_nothing() -> None:
    turned = [tone(n, 90.0 - 16.0 * n, 26.0 + 16.0 * n) for n in range(5)]
    with pytest.raises(ProofError, match="exchanged"):
        session_of_proof(turned, (0.0, 30.0, 90.0, 200.0, 700.0))
    faint = [tone(0, 90.0, 88.0), tone(1, 70.0, 88.5)]  # no darker than white, as far as is told
    assert len(session_of_proof(faint, (0.0, 30.0)).patches) == 2


def test_a_strip_that_was_read_wet_takes_no_proof() -> None:
    with pytest.raises(ProofError, match="read wet"):
        with_proof(replace(STRIP, dryness=Dryness.WET), session_of_proof(TONES, BITES))


def test_what_can_still_be_done_names_dark_and_light_tones_apart() -> None:
    said = list(advice(TONES))
    assert said[0].startswith("The grain is gone")
    assert "Too dark: tone 3. Burnish these first" in said[1]
    assert "Too light: tone 1" in said[2]
    assert "do not add to the old curve" in said[2]
    assert len(said) == 3


def test_the_white_was_never_bitten_and_is_only_wiped_otherwise() -> None:
    (cleaner,) = advice([tone(0, 90.0, 94.0)])
    assert "nothing to mend" in cleaner
    darker, *rest = advice([tone(0, 90.0, 84.0), tone(2, 60.0, 55.0)])
    assert "wipe it cleaner before you burnish" in darker
    assert "Too dark: tone 2" in rest[1]


def test_a_good_proof_asks_for_nothing() -> None:
    (said,) = advice((TONES[0], TONES[2]))
    assert "Nothing needs to be done" in said
