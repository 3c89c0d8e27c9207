"""Temperature against the Arrhenius law and published rates."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.bite.today import USUAL_Q, arrhenius, rate_today, temperature_notes

WARMTH = st.floats(5.0, 40.0)

# exp(Ea/R (1/T1 - 1/T2)) with R 8.314462618 (CODATA 2018), computed apart from this program:
# kJ/mol, then 20 to 30, 20 to 25, 18 to 22 and 20 to 40 degrees
FACTORS = [
    (16.3, 1.24682, 1.11868, 1.09555, 1.53282),
    (20, 1.31085, 1.14752, 1.11848, 1.68888),
    (25, 1.40262, 1.18769, 1.15023, 1.92529),
    (30, 1.50082, 1.22926, 1.18288, 2.19481),
    (40, 1.71833, 1.31681, 1.25099, 2.85230),
    (50, 1.96735, 1.41060, 1.32303, 3.70676),
]


@pytest.mark.parametrize(("energy", "to_30", "to_25", "to_22", "to_40"), FACTORS)
def test_rates_rise_with_temperature_as_published(
    energy: float, to_30: float, to_25: float, to_22: float, to_40: float
) -> None:
    assert arrhenius(energy, 20, 30) == pytest.approx(to_30, abs=6e-6)
    assert arrhenius(energy, 20, 25) == pytest.approx(to_25, abs=6e-6)
    assert arrhenius(energy, 18, 22) == pytest.approx(to_22, abs=6e-6)
    assert arrhenius(energy, 20, 40) == pytest.approx(to_40, abs=6e-6)


@pytest.mark.parametrize(("energy", "from_c", "to_c"), [(51.216, 20, 30), (52.949, 25, 35)])
def test_a_doubling_over_ten_degrees_has_its_energy(
    energy: float, from_c: float, to_c: float
) -> None:
    # computed with the same constants
    assert arrhenius(energy, from_c, to_c) == pytest.approx(2.0, abs=5e-5)


def test_ten_minutes_shorten_as_published() -> None:
    # Ea 30 kJ/mol: 10 min at 20 degrees are 6.663 min at 30
    assert 10.0 / arrhenius(30.0, 20.0, 30.0) == pytest.approx(6.663, abs=6e-4)


def test_the_usual_rule_lies_within_the_published_rates_of_copper() -> None:
    # Bryce and Berk, Ind. Eng. Chem. Res. 34, 1412 (1995), stirred copper in ferric chloride,
    # mg kg / (cm2 s mol): 0.2039 at 30, 0.3083 at 40, 0.3362 at 50 degrees
    assert 0.3362 / 0.3083 <= USUAL_Q <= 0.3083 / 0.2039


@pytest.mark.parametrize(
    ("bath_c", "q", "time"),
    # q to the power of (20 - bath) / 10, worked out apart from this program; q 1.5 and 2 bound
    # what the trade says of a still and of an industrial bath
    [
        (15, 2.0, 1.41),
        (15, 1.5, 1.22),
        (18, 2.0, 1.15),
        (18, 1.5, 1.08),
        (22, 2.0, 0.87),
        (22, 1.5, 0.92),
        (25, 2.0, 0.71),
        (25, 1.5, 0.82),
    ],
)
def test_bites_lengthen_in_a_cool_bath(bath_c: float, q: float, time: float) -> None:
    assert 1.0 / rate_today(bath_c, 20.0, q=q) == pytest.approx(time, abs=6e-3)


@given(WARMTH, WARMTH, WARMTH)
def test_there_and_back_is_no_change(one: float, other: float, third: float) -> None:
    assert rate_today(one, other) * rate_today(other, one) == pytest.approx(1.0, rel=1e-12)
    assert arrhenius(30, one, other) * arrhenius(30, other, one) == pytest.approx(1.0, rel=1e-12)
    assert rate_today(one, other) * rate_today(other, third) == pytest.approx(
        rate_today(one, third), rel=1e-12
    )


def test_the_curves_own_temperature_changes_nothing() -> None:
    assert rate_today(23.0, 23.0) == 1.0
    assert temperature_notes(20.9, 20.0) == ()


def test_the_further_off_the_bath_the_more_is_asked() -> None:
    assert len(temperature_notes(21.5, 20.0)) == 1
    assert "check patch" in temperature_notes(17.5, 20.0)[-1]
    assert "new strip" in temperature_notes(24.0, 20.0)[-1]


def test_a_warm_bath_is_said_to_bite_faster() -> None:
    assert "faster" in temperature_notes(23.0, 20.0)[0]
    assert "slower" in temperature_notes(17.0, 20.0)[0]
