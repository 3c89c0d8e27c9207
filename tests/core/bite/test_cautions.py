"""Cautions for what was chosen, and for nothing else."""

from itertools import product

import pytest

from toneladder.bite.cautions import cautions
from toneladder.bite.values import Conditions, GrainKind, Metal, Mordant, Varnish

ALL = [
    Conditions(metal=metal, mordant=mordant, grain=grain, varnish=varnish)
    for metal, mordant, grain, varnish in product(Metal, Mordant, GrainKind, Varnish)
]

LAST = (
    "Follow the safety data sheets, your studio's rules and your local law; ask your waste"
    " authority before disposing of a bath or its rinse water."
)


def _said(conditions: Conditions) -> str:
    return " ".join(cautions(conditions)).lower()


@pytest.mark.parametrize("conditions", ALL, ids=str)
def test_every_choice_has_short_cautions_that_end_alike(conditions: Conditions) -> None:
    said = cautions(conditions)
    assert said[-1] == LAST
    assert len(set(said)) == len(said)
    assert max(len(caution) for caution in said[:-1]) <= 130
    assert "Goggles and gloves at every lift" in said[0]


@pytest.mark.parametrize("conditions", ALL, ids=str)
def test_no_caution_tells_how_to_get_rid_of_a_bath(conditions: Conditions) -> None:
    said = " ".join(cautions(conditions)).lower()
    assert not any(word in said for word in ("neutralise", "pour off", "dilute", "settle"))


def test_nitric_acid_alone_asks_for_acid_into_water() -> None:
    nitric = _said(Conditions(metal=Metal.ZINC, mordant=Mordant.NITRIC_ACID))
    assert "acid into water" in nitric
    assert "never alone" in nitric
    assert "extraction" in nitric
    assert "nitric" not in _said(Conditions())


def test_hydrogen_is_named_for_zinc_and_aluminium_only() -> None:
    for metal in Metal:
        said = _said(Conditions(metal=metal, mordant=Mordant.COPPER_SULPHATE_SALT))
        assert ("hydrogen" in said) == (metal in {Metal.ZINC, Metal.ALUMINIUM})


def test_copper_sulphate_is_named_as_harm_to_water() -> None:
    assert "water life" in _said(Conditions(metal=Metal.ZINC, mordant=Mordant.COPPER_SULPHATE_SALT))
    assert "water life" not in _said(Conditions())


def test_rosin_explodes_and_spray_does_not() -> None:
    assert "explodes" in _said(Conditions(grain=GrainKind.ROSIN))
    assert "asthma" in _said(Conditions(grain=GrainKind.ROSIN))
    assert "rosin" not in _said(Conditions(grain=GrainKind.SPRAY, varnish=Varnish.ACRYLIC))
    assert "respirator" in _said(Conditions(grain=GrainKind.SPRAY))


def test_solvents_are_named_where_there_are_any() -> None:
    assert "no flame, no hot dryer" in _said(Conditions(varnish=Varnish.SPIRIT))
    assert "no flame, no hot dryer" in _said(Conditions(varnish=Varnish.ASPHALTUM))
    assert "hot dryer" not in _said(Conditions(varnish=Varnish.ACRYLIC))


def test_washing_soda_foams_only_where_it_is_used() -> None:
    assert "foams with ferric chloride" in _said(Conditions(varnish=Varnish.ACRYLIC))
    assert "foams with vinegar" in _said(
        Conditions(metal=Metal.ZINC, mordant=Mordant.NITRIC_ACID, varnish=Varnish.ACRYLIC)
    )
    assert "foams" not in _said(Conditions(varnish=Varnish.SPIRIT))


def test_an_unknown_bath_sends_to_its_data_sheets() -> None:
    assert "before they meet" in _said(Conditions(metal=Metal.STEEL, mordant=Mordant.OTHER))
    assert "before they meet" in _said(Conditions(metal=Metal.OTHER))
    assert "before they meet" not in _said(Conditions())
