"""What a press becomes."""

import pytest
from tests.core.tank.hands import Hands

from toneladder.tank.acts import entered, press, taken_back
from toneladder.tank.session import session
from toneladder.tank.values import Act, Kind, State


def test_what_came_by_itself_is_logged_before_the_press() -> None:
    hands = Hands()
    hands.press()
    hands.press()
    hands.now = hands.now.later(12.0)
    standing = session(hands.order, hands.facts, hands.events, hands.now)
    made = press(standing, Act.MAIN, hands.now)
    assert [event.kind for event in made] == [Kind.STARTED, Kind.ASKED]
    assert [event.number for event in made] == [2, 3]
    assert hands.now.boottime_s - made[0].at.boottime_s == pytest.approx(2.0)


def test_a_lift_is_dated_by_the_press_not_by_what_was_drawn() -> None:
    hands = Hands()
    length = hands.begin_bite().length_s
    drawn = hands.wait(length + 1.0)
    hands.events.extend(press(drawn, Act.MAIN, hands.now.later(0.4)))
    hands.wait(0.4)
    assert hands.standing.dips[-1].bitten_s == pytest.approx(length)


@pytest.mark.parametrize("state", [State.CHECK, State.END])
def test_an_act_that_is_not_offered_does_nothing(state: State) -> None:
    hands = Hands()
    if state is State.END:
        for _ in range(5):
            while hands.bite().state is State.OUT_EARLY:
                hands.wait(60.0)
        hands.wait(61.0)
        hands.press()
    assert hands.standing.state is state
    for act in (Act.SECOND, Act.EARLIER, Act.LATER):
        assert press(hands.wait(5.0), act, hands.now) == ()


def test_a_reading_entered_wrongly_is_undone() -> None:
    hands = Hands()
    hands.press()
    before = hands.standing
    wrong = hands.enter(Kind.TEMPERATURE, reading=40.0)
    assert wrong.order != before.order
    hands.events.extend(taken_back(wrong, hands.events[-1].number, hands.now))
    assert hands.standing.order == before.order
    assert [event.kind for event in hands.events][-2:] == [Kind.TEMPERATURE, Kind.UNDONE]
    assert taken_back(hands.standing, 99, hands.now) == ()


def test_a_note_is_kept_and_changes_nothing() -> None:
    hands = Hands()
    before = hands.begin_bite()
    made = entered(hands.standing, Kind.NOTE, hands.now, text="bubbles at the left edge")
    hands.events.extend(made)
    assert made[-1].text == "bubbles at the left edge"
    assert hands.standing.zero == before.zero
