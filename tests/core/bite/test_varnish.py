"""Facts of the varnishes, from memory, and what takes grain off, as studios publish it."""

import pytest

from toneladder.bite.values import GrainKind, Varnish
from toneladder.bite.varnish import grain_removal, harm_to_grain, varnish_facts


@pytest.mark.parametrize(
    ("varnish", "minutes", "solvent"),
    # common practice, from memory: spirit 5 to 10 min, acrylic 10 to 20, asphaltum 20 to 40
    [
        (Varnish.SPIRIT, 10.0, "alcohol"),
        (Varnish.ACRYLIC, 20.0, "washing-soda"),
        (Varnish.ASPHALTUM, 40.0, "white spirit"),
    ],
)
def test_a_varnish_dries_and_comes_off_in_its_own_way(
    varnish: Varnish, minutes: float, solvent: str
) -> None:
    facts = varnish_facts(varnish)
    assert facts.drying_min == minutes
    assert solvent in facts.solvent
    assert facts.creep_mm == 0.3


def test_alcohol_in_the_varnish_is_said_to_harm_the_grain() -> None:
    assert "rosin" in str(harm_to_grain(Varnish.SPIRIT, GrainKind.ROSIN))
    assert "enamel" in str(harm_to_grain(Varnish.SPIRIT, GrainKind.SPRAY))


@pytest.mark.parametrize("grain", GrainKind)
@pytest.mark.parametrize("varnish", [Varnish.ACRYLIC, Varnish.ASPHALTUM])
def test_other_varnishes_leave_the_grain_alone(varnish: Varnish, grain: GrainKind) -> None:
    assert harm_to_grain(varnish, grain) is None


def test_grain_comes_off_as_studios_publish() -> None:
    # published by studios and schools: rosin and enamel by alcohol, acrylic by washing soda
    assert "alcohol" in grain_removal(GrainKind.ROSIN)
    assert "alcohol" in grain_removal(GrainKind.SPRAY)
    assert "washing-soda" in grain_removal(GrainKind.SPRAY)
