"""The bench swaps frozen plates, each swap one undo step with a sentence."""

from dataclasses import replace
from pathlib import Path

from pytestqt.qtbot import QtBot

from toneladder.plate.values import Plate
from toneladder_desktop.bench.bench import REST_MS, Bench, Lying


def with_tones(plate: Plate, count: int) -> Plate:
    return replace(plate, tones=replace(plate.tones, count=count))


def test_a_change_is_told_and_undo_gives_back_the_identical_plate(
    bench: Bench, lying: Lying, qtbot: QtBot
) -> None:
    bench.lay(lying)
    seven = with_tones(lying.plate, 7)
    with qtbot.waitSignal(bench.plate_changed) as told:
        bench.change("Make it 7 tones", seven)
    assert told.args == [seven]
    assert bench.undo.undoText() == "Make it 7 tones"
    bench.undo.undo()
    assert bench.plate is lying.plate
    bench.undo.redo()
    assert bench.plate is seven


def test_an_equal_plate_is_no_change(bench: Bench, lying: Lying) -> None:
    bench.lay(lying)
    bench.change("Nothing", replace(lying.plate))
    assert bench.undo.count() == 0


def test_a_movement_is_one_step_and_the_next_movement_another(bench: Bench, lying: Lying) -> None:
    bench.lay(lying)
    for count in (6, 7, 8):
        bench.change(f"{count} tones", with_tones(lying.plate, count), "dragging")
    bench.rest()
    for count in (9, 10):
        bench.change(f"{count} tones", with_tones(lying.plate, count), "dragging")
    assert [bench.undo.text(k) for k in range(bench.undo.count())] == ["8 tones", "10 tones"]
    bench.undo.undo()
    assert bench.plate == with_tones(lying.plate, 8)


def test_a_hand_that_rests_begins_a_new_step_unless_it_holds_something(
    bench: Bench, lying: Lying, qtbot: QtBot
) -> None:
    bench.lay(lying)
    bench.change("6 tones", with_tones(lying.plate, 6), "keys")
    with qtbot.waitSignal(bench._rest.timeout, timeout=5 * REST_MS):
        pass
    bench.change("7 tones", with_tones(lying.plate, 7), "keys")
    assert bench.undo.count() == 2
    bench.hold(True)
    bench.change("8 tones", with_tones(lying.plate, 8), "keys")
    assert not bench._rest.isActive()


def test_a_movement_that_ends_where_it_began_leaves_no_step(bench: Bench, lying: Lying) -> None:
    bench.lay(lying)
    bench.change("there", with_tones(lying.plate, 9), "dragging")
    bench.change("and back", lying.plate, "dragging")
    assert bench.undo.count() == 0
    assert not bench.unsaved


def test_saved_is_clean_until_the_next_change_and_again_after_its_undo(
    bench: Bench, lying: Lying
) -> None:
    bench.lay(lying)
    bench.change("6 tones", with_tones(lying.plate, 6))
    assert bench.unsaved
    bench.now_saved(Path("here.plate"), with_tones(lying.plate, 6))
    states = [bench.unsaved]
    for move in (bench.undo.undo, bench.undo.redo):
        move()
        states.append(bench.unsaved)
    assert states == [False, True, False]


def test_what_changed_while_it_was_saved_stays_unsaved(bench: Bench, lying: Lying) -> None:
    bench.lay(lying)
    bench.change("6 tones", with_tones(lying.plate, 6))
    bench.now_saved(Path("here.plate"), lying.plate)
    assert bench.unsaved


def test_the_sample_never_asks_to_be_saved_until_it_is_somebodys_plate(
    bench: Bench, lying: Lying
) -> None:
    bench.lay(replace(lying, sample=True))
    bench.change("6 tones", with_tones(lying.plate, 6))
    assert not bench.unsaved
    assert bench.plate is not None
    bench.now_saved(Path("mine.plate"), bench.plate)
    bench.change("7 tones", with_tones(lying.plate, 7))
    assert bench.unsaved


def test_another_picture_is_a_step_whose_undo_brings_the_old_ones_bytes_back(
    bench: Bench, lying: Lying
) -> None:
    bench.lay(lying)
    other = replace(lying.plate, picture=replace(lying.plate.picture, sha256="0" * 64))
    bench.change_picture("Take another", other, b"other")
    assert bench.lying is not None
    assert bench.lying.picture == b"other"
    bench.undo.undo()
    assert bench.lying.picture == lying.picture
