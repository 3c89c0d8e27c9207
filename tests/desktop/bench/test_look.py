"""What is looked at: views, steps and sides, the same in the menu and in the caption."""

import pytest
from pytestqt.qtbot import QtBot

from toneladder_desktop.bench.look import Look, View

pytestmark = pytest.mark.usefixtures("qapp")


def ticked(look: Look) -> list[object]:
    groups = (look.views, look.stops, look.sides)
    return [group.checkedAction().data() for group in groups]


def test_at_first_it_is_the_preview_of_the_finished_print() -> None:
    look = Look()
    look.count_steps(6)
    assert ticked(look) == [View.PREVIEW, None, False]
    assert look.words() == ("Preview", "after the last bite", "as printed")


def test_every_step_can_be_chosen_down_to_the_bare_plate() -> None:
    look = Look()
    look.count_steps(4)
    assert [action.data() for action in look.stops.actions()] == [None, 3, 2, 1, 0]
    look.stops.actions()[-1].trigger()
    assert look.step == 0
    assert look.words()[1] == "before the first bite"


def test_a_chosen_step_is_shown_and_ticked(qtbot: QtBot) -> None:
    look = Look()
    look.count_steps(6)
    with qtbot.waitSignal(look.changed):
        look.show_step(3)
    assert ticked(look)[1] == 3
    assert look.words()[1] == "stopped after step 3"


def test_a_step_that_is_gone_leaves_the_finished_plate() -> None:
    look = Look()
    look.count_steps(6)
    look.show_step(5)
    look.count_steps(4)
    assert look.step is None
    assert ticked(look)[1] is None


def test_a_step_chosen_over_the_picture_brings_the_preview() -> None:
    look = Look()
    look.count_steps(5)
    look.show_view(View.PICTURE)
    look.show_step(2)
    assert ticked(look) == [View.PREVIEW, 2, False]


def test_turned_over_it_says_so(qtbot: QtBot) -> None:
    look = Look()
    with qtbot.waitSignal(look.mirror) as told:
        look.sides.actions()[1].trigger()
    assert told.args == [True]
    assert look.words()[2] == "as on the plate"


def test_a_width_lays_the_loupe_down_and_the_key_puts_it_away(qtbot: QtBot) -> None:
    look = Look()
    assert (look.loupe.isChecked(), look.widths.checkedAction().data()) == (False, 2.0)
    with qtbot.waitSignal(look.loupe_changed):
        look.widths.actions()[2].trigger()
    assert (look.loupe.isChecked(), look.loupe_mm) == (True, 4.0)
    with qtbot.waitSignal(look.loupe_changed):
        look.loupe.trigger()
    assert (look.loupe.isChecked(), look.loupe_mm) == (False, 4.0)
