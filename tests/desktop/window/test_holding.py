"""What a hand on the ladder does to the plate."""

from math import nan

from toneladder.quantities import Manner
from toneladder_desktop.bench.bench import Bench, Lying
from toneladder_desktop.ladder.content import HeldBite, HeldParting
from toneladder_desktop.window.holding import Holding, with_bite, with_parting, without


def test_a_new_parting_is_held_beside_the_others_and_a_held_one_moves(lying: Lying) -> None:
    one = with_parting(lying.plate, nan, 60.0)
    two = with_parting(one, 75.0, 70.0)
    assert two.tones.held_partings == (70.0, 60.0)
    assert with_parting(two, 60.0, 55.0).tones.held_partings == (70.0, 55.0)


def test_a_bite_is_held_by_its_tone(lying: Lying) -> None:
    held = with_bite(with_bite(lying.plate, 3, 200.0), 1, 20.0)
    assert held.tones.held_bites == ((1, 20.0), (3, 200.0))
    assert with_bite(held, 1, 25.0).tones.held_bites == ((1, 25.0), (3, 200.0))


def test_one_is_let_go_or_all(lying: Lying) -> None:
    held = with_bite(with_parting(lying.plate, nan, 60.0), 2, 90.0)
    assert without(held, HeldParting(60.0)).tones.held_partings == ()
    assert without(held, HeldParting(60.0)).tones.held_bites == ((2, 90.0),)
    assert without(held, HeldBite(2)).tones.held_bites == ()
    assert without(held, None) == lying.plate


def test_a_dragged_peg_is_one_undo_step_with_its_last_value(bench: Bench, lying: Lying) -> None:
    bench.lay(lying)
    holding = Holding(bench, Manner)
    bench.hold(True)  # noqa: FBT003 - as the ladder's signal brings it
    holding.part(nan, 60.0)
    holding.part(60.0, 58.0)
    holding.part(58.0, 54.0)
    bench.hold(False)  # noqa: FBT003 - as the ladder's signal brings it
    assert bench.undo.count() == 1
    assert bench.undo.undoText() == "Part two tones at darkness 4.6"
    bench.undo.undo()
    assert bench.plate is lying.plate
