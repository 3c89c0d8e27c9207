"""A table of what happened becomes what would have been said, and when."""

import pytest
from tests.core.tank.hands import facts, order_of

from toneladder.errors import TankError
from toneladder.tank.rehearsal import rehearse, words
from toneladder.tank.script import are_times_of_day, read_script
from toneladder.tank.values import Kind, Standing, State


def run(text: str) -> tuple[list[str], Standing]:
    rows = read_script(text, tuple(words()))
    lines, standing, _ = rehearse(order_of(6), facts(), rows)
    said = [f"{line.at_s:g} {line.text}".replace("\N{NO-BREAK SPACE}", " ") for line in lines]
    return said, standing


def test_a_bite_is_told_from_the_key_to_the_rinse() -> None:
    said, standing = run("0:00:00,press\n0:00:05,press\n0:00:42,out\n0:01:00,painted\n")
    told = [
        "0 Back and edges protected, plate clean? Then press.",
        "0 Step 1. Tone 0 stopped out and dry? Press, then walk to the tank.",
        "5 Into the bath on the long signal.",
        "15 long: into the bath",
        "15 Leave it in. Tones 1 to 5 are biting.",
        "27.5 two short: a lift is coming",
        "27.5 Half way. Stay by the tank.",
        "30 Get ready. Lift on the short signals, rinse on the long one.",
        "40 long: under the rinse",
        "40 Lift now, straight under the rinse.",
        "42 falling pair: still in the bath",
        "42 2 s over. Tone 1 prints 2.3, not 2.2.",
        "60 Let it dry until about 00:11.",
        "660 soft: it should be dry",
        "660 It should be dry. Touch the thickest place.",
    ]
    assert said == told
    assert standing.state is State.DRYING


def test_after_the_fact_undone_and_noted() -> None:
    said, standing = run(
        "time,event,value\n"
        "0:00:00,in\n"
        '0:00:50,out,"25 s ago"\n'
        "0:01:00,note,a look\n"
        "0:20:00,temperature,23C\n"
        "0:21:00,undo\n"
        "0:30:00,in,5 s ago\n"
        "0:30:50,out,5 s ago\n"
    )
    assert [dip.bitten_s for dip in standing.dips] == [25.0, 50.0]
    assert standing.bath_c == 20.0
    assert any("The bath is at 23 °C." in line for line in said)


def test_times_of_day_pass_midnight() -> None:
    rows = read_script("23:59:50,in\n00:00:15,out\n", tuple(words()))
    assert are_times_of_day(rows)
    assert rows[1].at_s - rows[0].at_s == 25.0
    _, standing, _ = rehearse(order_of(6), facts(), rows)
    assert standing.dips[0].bitten_s == 25.0


def test_lost_tones_are_chosen_in_the_table() -> None:
    _, standing = run(
        "0:00,in\n0:00:25,out\n0:20,in\n0:23:20,out\n0:25,choose,space anew\n0:26,check,1:00 60\n"
    )
    assert standing.order is not None
    assert [s.step for s in standing.order.steps] == [1, 2, 3, 4, 5]
    assert standing.state is not State.LOST_TONE


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "There is nothing in this table."),
        ("soon,in", "Row 1: “soon” is not a time such as 0:01:25."),
        ("0:00:75,in", "Row 1: “0:00:75” is not a time"),
        ("0:00:01", "Row 1: it needs a time and an event"),
        ("0:00:00,in\n0:00:05,jump", "Row 2: “jump” is not known; it may be in, out"),
        ("0:00:00,in\n0:00:25,out\n0:00:20,painted", "Row 3: it is earlier than the row before."),
        ("0:00:00,out", "Row 1: the plate is not in the bath."),
        ("0:00:00,in\n0:00:05,in", "Row 2: the plate is in the bath already."),
        ("0:00:00,temperature,hot", "Row 1: “hot”"),
        ("0:00:00,in\n0:00:30,out,soon", "Row 2: “soon”"),
        ("0:00:00,check,60", "Row 1: “60” is not a bite and a lightness"),
        ("0:00:00,choose,paint it red", "Row 1: “paint it red” is no choice"),
        ("0:00:00,choose,make one", "Row 1: “choose” cannot have happened then."),
        ("0:00:00,wrong tone,three", "Row 1: “three” is not the number of a tone."),
        ("0:00:00,undo,7", "Row 1: there is no row 7 to undo."),
    ],
)
def test_a_bad_row_is_named(text: str, said: str) -> None:
    with pytest.raises(TankError) as refused:
        run(text)
    assert str(refused.value).startswith(said)


def test_everything_a_table_may_say_is_known() -> None:
    assert {"in", "out", "painted", "temperature", "check", "note", "undo"} <= set(words())
    assert Kind.STARTED.value not in set(words())


def test_a_first_row_of_names_in_any_language_is_a_head_and_an_event_is_not() -> None:
    told = "zeit,ereignis,wert\n0:00:00,in\n0:00:15,out\n"
    assert read_script(told, tuple(words())) == read_script(
        told.replace("zeit,ereignis,wert", "time,event,value"), tuple(words())
    )
    with pytest.raises(TankError, match="Row 1: “noon” is not a time"):
        read_script("noon,in\n0:00:15,out\n", tuple(words()))
