"""Baumé degrees, masses and capacity against published tables and plain chemistry."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.bite.use import (
    PRACTICAL_SHARE,
    baume,
    metal_bitten_g,
    reagent_per_metal,
    share_used,
    specific_gravity,
)
from toneladder.bite.values import Metal, Mordant
from toneladder.errors import QuantityError

# CRC Handbook, 51st edition, heavy scale of modulus 145; computed from that relation
BAUME = [
    (30, 1.26087),
    (32, 1.28319),
    (33, 1.29464),
    (34, 1.30631),
    (35, 1.31818),
    (36, 1.33028),
    (37, 1.34259),
    (38, 1.35514),
    (39, 1.36792),
    (40, 1.38095),
    (41, 1.39423),
    (42, 1.40777),
    (43, 1.42157),
    (44, 1.43564),
    (45, 1.45000),
]

# From IUPAC's abridged atomic weights, computed apart from this program
PER_GRAM = [
    (Metal.COPPER, Mordant.FERRIC_CHLORIDE, 5.104806),
    (Metal.COPPER, Mordant.FERRIC_CITRIC, 5.104806),
    (Metal.ZINC, Mordant.COPPER_SULPHATE_SALT, 3.818859),
]

# CRC Handbook densities, from memory: grams in 1 dm2 by 10 µm
DEPTHS = [(Metal.COPPER, 0.8960), (Metal.ZINC, 0.7140), (Metal.ALUMINIUM, 0.2700)]


@pytest.mark.parametrize(("degrees", "gravity"), BAUME)
def test_baume_degrees_are_the_gravity_of_the_published_table(
    degrees: float, gravity: float
) -> None:
    assert specific_gravity(degrees) == pytest.approx(gravity, abs=6e-6)
    assert baume(gravity) == pytest.approx(degrees, abs=1e-3)


def test_the_usual_ferric_chloride_is_as_heavy_as_its_data_sheet_says() -> None:
    # 42 degrees is SG 1.41 in a published data sheet; supplier's notes give 43 as 1.42 g/cm3
    assert specific_gravity(42) == pytest.approx(1.41, abs=5e-3)
    assert specific_gravity(43) == pytest.approx(1.42, abs=5e-3)


@given(st.floats(0.0, 70.0))
def test_baume_goes_there_and_back(degrees: float) -> None:
    assert baume(specific_gravity(degrees)) == pytest.approx(degrees, abs=1e-9)


@pytest.mark.parametrize(("metal", "mordant", "grams"), PER_GRAM)
def test_a_gram_of_metal_uses_up_what_chemistry_says(
    metal: Metal, mordant: Mordant, grams: float
) -> None:
    assert reagent_per_metal(metal, mordant) == pytest.approx(grams, abs=6e-7)


def test_copper_takes_the_published_mass_of_ferric_chloride() -> None:
    # a published recipe: 324 g of ferric chloride to 63.5 g of copper
    assert reagent_per_metal(Metal.COPPER, Mordant.FERRIC_CHLORIDE) == pytest.approx(
        324 / 63.5, rel=2e-3
    )


def test_aluminium_deposits_the_copper_that_chemistry_says() -> None:
    # 2 Al + 3 CuSO4: 3.532749 g of copper to the gram, computed apart from this program; blue
    # copper sulphate is 63.546 g of copper in 249.677
    copper = reagent_per_metal(Metal.ALUMINIUM, Mordant.COPPER_SULPHATE_SALT) * 63.546 / 249.677
    assert copper == pytest.approx(3.532749, abs=6e-6)


def test_a_hundred_grams_of_blue_vitriol_take_so_much_zinc() -> None:
    # 26.185832 g, computed apart from this program
    zinc = 100 / reagent_per_metal(Metal.ZINC, Mordant.COPPER_SULPHATE_SALT)
    assert zinc == pytest.approx(26.185832, abs=6e-6)


@pytest.mark.parametrize(("metal", "grams"), DEPTHS)
def test_depth_weighs_what_its_density_says(metal: Metal, grams: float) -> None:
    assert metal_bitten_g(metal, 100.0, 10.0) == pytest.approx(grams, abs=1e-12)


def test_a_worked_plate_uses_what_was_worked_out() -> None:
    # 20 x 30 cm of copper, 30 % open, 60 µm deep: 9.677 g Cu, 49.398 g FeCl3, computed apart
    grams = metal_bitten_g(Metal.COPPER, 0.3 * 600.0, 60.0)
    assert grams == pytest.approx(9.677, abs=6e-4)
    assert grams * reagent_per_metal(Metal.COPPER, Mordant.FERRIC_CHLORIDE) == pytest.approx(
        49.398, abs=2e-3
    )


def test_a_bath_is_thrown_away_at_half_its_capacity() -> None:
    # Sharpe and Garn, Ind. Eng. Chem. 51, 293 (1959): 3.75 M baths are discarded at 60 g Cu/L;
    # 162.195 g/mol of ferric chloride
    share = share_used(Metal.COPPER, Mordant.FERRIC_CHLORIDE, 60.0, 3.75 * 162.195)
    assert share == pytest.approx(0.504, abs=6e-4)
    assert share == pytest.approx(PRACTICAL_SHARE, abs=0.01)


@given(st.floats(0.0, 1e4), st.floats(1.0, 1e4))
def test_no_bath_gives_more_than_it_holds(metal_g: float, reagent_g: float) -> None:
    assert 0.0 <= share_used(Metal.ZINC, Mordant.COPPER_SULPHATE_SALT, metal_g, reagent_g) <= 1.0


def test_what_nobody_can_reckon_is_refused() -> None:
    with pytest.raises(QuantityError, match="nitric acid"):
        reagent_per_metal(Metal.ZINC, Mordant.NITRIC_ACID)
    with pytest.raises(QuantityError, match="other"):
        metal_bitten_g(Metal.OTHER, 1.0, 1.0)
