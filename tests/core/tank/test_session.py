"""The session: its states and sentences, and the laws that no slip may break."""

from dataclasses import replace
from datetime import timedelta, timezone
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.core.tank.hands import NOON, PLANNED_C, Hands, facts, order_of

from toneladder.quantities import write_bite
from toneladder.tank.acts import press, taken_back
from toneladder.tank.session import active, elsewhere, session
from toneladder.tank.values import Act, Event, Figure, Kind, Standing, State


def shows(standing: Standing, state: State, sentence: str) -> None:
    assert (standing.state, standing.sentence.replace("\N{NO-BREAK SPACE}", " ")) == (
        state,
        sentence,
    )


def plain(text: str) -> str:
    return text.replace("\N{NO-BREAK SPACE}", " ")


def labels(standing: Standing) -> tuple[str, str]:
    """What stands on the two bars."""
    main, second = standing.main, standing.second
    assert main is not None
    assert second is not None
    return plain(main.label), plain(second.label)


def test_a_bite_from_the_check_to_the_brush() -> None:
    hands = Hands()
    shows(hands.standing, State.CHECK, "Back and edges protected, plate clean? Then press.")
    shows(
        hands.press(),
        State.READY,
        "Step 1. Tone 0 stopped out and dry? Press, then walk to the tank.",
    )
    assert hands.press().state is State.COUNT_IN
    shows(hands.wait(3.0), State.COUNT_IN, "Into the bath on the long signal.")
    shows(hands.wait(7.0), State.BITING, "Leave it in. Tones 1 to 5 are biting.")
    assert [event.kind for event in hands.events] == [Kind.CHECKED, Kind.COUNTING, Kind.STARTED]
    length = hands.standing.length_s
    assert length == hands.order.steps[0].bite_s
    shows(hands.wait(length / 2.0), State.BITING, "Half way. Stay by the tank.")
    shows(
        hands.wait(length / 2.0 - 9.0),
        State.LAST_TEN,
        "Get ready. Lift on the short signals, rinse on the long one.",
    )
    shows(hands.wait(9.0), State.LIFT, "Lift now, straight under the rinse.")
    shows(hands.press(), State.OUT, "Noted: out after 25 s, on the signal. Rinse well, blow dry.")
    shows(hands.press(), State.STOP_OUT, "Stop out tone 1: 69 places, about 46 min.")
    shows(hands.press(after=1800.0), State.DRYING, "Let it dry until about 12:40.")
    shows(hands.wait(600.0), State.DRYING, "It should be dry. Touch the thickest place.")
    shows(
        hands.press(),
        State.READY,
        "Step 2. Tones 0 and 1 stopped out and dry? Press, then walk to the tank.",
    )


def test_a_plate_without_white_has_nothing_to_stop_out_first() -> None:
    whole = order_of(6)
    bare = replace(whole.steps[0], painting=replace(whole.steps[0].painting, area_cm2=0.0))
    hands = Hands(order=replace(whole, steps=(bare, *whole.steps[1:])))
    shows(
        hands.press(),
        State.READY,
        "Step 1. Nothing to stop out. Press, then walk to the tank.",
    )


def test_not_yet_calls_the_count_in_off() -> None:
    hands = Hands()
    hands.press()
    hands.press()
    assert hands.press(after=5.0).state is State.READY
    assert hands.wait(600.0).state is State.READY


def test_a_press_too_soon_is_asked_about_and_forgotten() -> None:
    hands = Hands()
    hands.begin_bite()
    asked = hands.press()
    shows(asked, State.ASKED, "Still biting. Is the plate out already?")
    assert asked.bitten_s == pytest.approx(2.0)
    assert hands.press().state is State.BITING
    hands.press()
    assert hands.wait(14.9).state is State.LAST_TEN
    assert hands.standing.bitten_s == pytest.approx(20.9)


def test_asked_is_over_by_itself_after_fifteen_seconds() -> None:
    hands = Hands()
    hands.bite()
    hands.begin_bite()
    hands.press()
    assert hands.wait(14.0).state is State.ASKED
    assert hands.wait(1.1).state is State.BITING


def test_out_early_gives_the_rest_in_another_dip_or_ends_here() -> None:
    hands = Hands()
    hands.bite()
    hands.begin_bite()
    hands.press(after=4.0)
    early = hands.press(Act.SECOND)
    shows(early, State.OUT_EARLY, "Out with 44 s to go. Rinse and look; press to put it back.")
    hands.press(after=120.0)
    again = hands.wait(10.0)
    assert again.state is State.BITING
    assert again.length_s == pytest.approx(44.0)
    hands.wait(44.0)
    shows(hands.press(), State.OUT, "Noted: out after 50 s, on the signal. Rinse well, blow dry.")

    hands.begin_bite()
    hands.press(after=5.0)
    hands.press(Act.SECOND)
    ended = hands.press(Act.SECOND)
    assert ended.state is State.WORKED_OUT
    shows(
        replace(ended, sentence=ended.sentence.split(" Tone")[0]),
        State.WORKED_OUT,
        "Ended 2 min 8 s short.",
    )


def test_a_late_press_asks_when_and_arrows_answer() -> None:
    hands = Hands()
    length = hands.begin_bite().length_s
    hands.wait(length)
    asked = hands.press(after=14.0)
    shows(asked, State.WHEN, "When was it under the rinse?")
    assert asked.figure is not None
    assert asked.figure.seconds == pytest.approx(14.0)
    assert asked.figure.words == "over"
    hands.press(Act.EARLIER)
    moved = hands.press(Act.EARLIER).figure
    assert moved is not None
    assert moved.seconds == pytest.approx(4.0)
    hands.press(after=20.0)
    assert hands.standing.dips[-1].bitten_s == pytest.approx(length + 4.0)
    assert hands.standing.said[0] == f"{write_bite(4.0)} over."


@pytest.mark.parametrize(
    ("arrows", "main", "second", "noted"),
    [
        ((), "On the signal", "Hold: just now", 0.0),
        ((Act.EARLIER,), "9 s over: note it", "Hold: on the signal", 9.0),
        ((Act.EARLIER,) * 3, "1 s early: note it", "Hold: on the signal", -1.0),
        ((Act.EARLIER, Act.LATER), "14 s over: note it", "Hold: on the signal", 14.0),
    ],
)
def test_a_figure_that_arrows_set_is_what_the_wide_bar_notes(
    arrows: tuple[Act, ...], main: str, second: str, noted: float
) -> None:
    hands = Hands()
    length = hands.begin_bite().length_s
    hands.wait(length)
    asked = hands.press(after=14.0)
    for arrow in arrows:
        asked = hands.press(arrow, after=0.2)
    assert labels(asked) == (main, second)
    by_itself = hands.copy()
    assert by_itself.wait(61.0).dips[-1].bitten_s == pytest.approx(
        length + (noted if arrows else 14.0)
    )
    hands.press(after=3.0)
    assert hands.standing.dips[-1].bitten_s == pytest.approx(length + noted)


def test_a_figure_set_before_the_signal_is_noted_too() -> None:
    hands = Hands()
    length = hands.begin_bite().length_s
    hands.wait(length - 3.0)
    assert labels(hands.press(after=0.0)) == ("Just now", "Hold: it is still in")
    moved = hands.press(Act.EARLIER, after=0.2)
    assert labels(moved) == ("8 s early: note it", "Hold: it is still in")
    hands.press(after=20.0)
    assert hands.standing.dips[-1].bitten_s == pytest.approx(length - 8.0)


def test_a_lift_taken_back_asks_instead_of_counting_as_in_time() -> None:
    hands = Hands()
    length = hands.begin_bite().length_s
    hands.wait(length)
    out = hands.press(after=1.0)
    assert labels(out) == ("Stop out tone 1", "Hold: it was later")
    again = hands.press(Act.SECOND, after=1.6)
    shows(again, State.LIFT, "Lift now. If it is out already, press.")
    hands.press(after=1.6)
    hands.press(Act.EARLIER)
    hands.press(Act.LATER)
    noted = hands.press()
    assert noted.dips[-1].bitten_s == pytest.approx(length + 4.2)
    assert labels(noted)[1] == "Hold: another time"


def test_without_sound_words_speak_of_the_figure() -> None:
    hands = Hands()
    hands.enter(Kind.NO_SOUND)
    assert hands.press().state is State.CHECK
    assert hands.standing.silent
    hands.press()
    hands.press()
    count = hands.wait(3.0)
    shows(count, State.COUNT_IN, "Into the bath at 0.")
    assert count.then == "Watch the figure: it counts down to 0."
    length = hands.wait(7.0).length_s
    near = hands.wait(length - 5.0)
    shows(near, State.LAST_TEN, "Get ready. Lift at 3 s, under the rinse at 0.")
    late = hands.copy()
    late.wait(5.0)
    assert labels(late.press(after=14.0))[0] == "On time"
    assert labels(late.press(Act.LATER))[1] == "Hold: on time"
    hands.wait(5.0)
    shows(hands.press(), State.OUT, "Noted: out after 25 s, on time. Rinse well, blow dry.")


def test_arrows_before_a_bite_set_the_bath_at_once() -> None:
    hands = Hands()
    hands.press()
    assert "Arrows: bath cooler, warmer." in hands.standing.then
    for _ in range(3):
        hands.press(Act.LATER, after=0.2)
    assert hands.press(Act.EARLIER, after=0.2).bath_c == PLANNED_C + 1.0
    assert hands.press(after=0.8).state is State.COUNT_IN


def test_nothing_left_to_wait_for_is_said_in_words() -> None:
    hands = Hands()
    hands.bite()
    stopping = hands.press()
    assert stopping.figure is not None
    assert stopping.figure.words == "left, about"
    for up in (hands.wait(5000.0), hands.press(after=0.0) and hands.wait(3600.0)):
        assert up.figure == Figure(0.0, "time is up", still=True)


def test_on_the_signal_is_the_main_answer() -> None:
    hands = Hands()
    length = hands.begin_bite().length_s
    hands.wait(length)
    hands.press(after=14.0)
    hands.press(after=20.0)
    assert hands.standing.dips[-1].bitten_s == pytest.approx(length)


def test_no_answer_assumes_the_time_of_the_press() -> None:
    hands = Hands()
    length = hands.begin_bite().length_s
    hands.wait(length)
    hands.press(after=14.0)
    assumed = hands.wait(61.0)
    assert assumed.dips[-1].assumed
    assert assumed.dips[-1].bitten_s == pytest.approx(length + 14.0)


def test_in_the_last_ten_one_act_proposes_and_can_be_taken_back() -> None:
    hands = Hands()
    length = hands.begin_bite().length_s
    hands.wait(length - 8.0)
    assert hands.press().state is State.WHEN
    assert hands.press().state is State.OUT_EARLY
    again = hands.press(Act.SECOND, after=30.0)
    assert again.state is State.LIFT
    assert again.bitten_s == pytest.approx(length + 26.0)


def test_a_lift_can_be_taken_back_for_a_minute_only() -> None:
    hands = Hands()
    hands.bite()
    assert hands.wait(59.0).second is not None
    gone = hands.wait(2.0)
    assert gone.state is State.OUT
    assert gone.second is None


def test_a_long_bite_is_split_into_dips_with_a_look_between() -> None:
    hands = Hands()
    for _ in range(4):
        hands.bite()
    last = hands.order.steps[-1]
    assert len(last.dips_s) == 2
    assert hands.begin_bite().length_s == last.dips_s[0]
    assert hands.standing.then == "Then: rinse and look, and in again."
    shows(hands.wait(last.dips_s[0] - 31.0), State.BITING, "One more minute.")
    hands.wait(31.0)
    look = hands.press()
    shows(look, State.OUT_EARLY, "Out with 3 min to go. Rinse and look; press to put it back.")
    hands.press(after=100.0)
    hands.wait(10.0 + last.dips_s[1])
    assert hands.press().state is State.OUT
    shows(
        hands.press(),
        State.END,
        "Last lift done. Take off varnish and grain, then pull a proof.",
    )
    assert hands.press().state is State.CLOSED


@cache
def at_the_last_step() -> Hands:
    """The plate goes in for a bite of two dips."""
    hands = Hands()
    for done in hands.order.steps[:-1]:
        hands.enter(Kind.GIVEN, seconds=done.bite_s)
    hands.begin_bite()
    return hands


@settings(max_examples=100, deadline=None)
@given(st.floats(-80.0, 500.0), st.floats(-20.0, 60.0))
def test_words_speak_of_the_step_whatever_its_dips_were(first: float, second: float) -> None:
    hands = at_the_last_step().copy()
    bite_s = hands.order.steps[-1].bite_s
    hands.wait(hands.standing.length_s + first)
    said = hands.enter(Kind.LIFTED)
    if said.state is State.OUT_EARLY:
        assert not any("over" in text or "short" in text for text in said.said)
        hands.enter(Kind.COUNTING)
        hands.wait(hands.facts.count_in_s)
        hands.wait(max(hands.standing.length_s + second, 1.0))
        said = hands.enter(Kind.LIFTED)
    if said.state is State.OUT_EARLY:
        return
    had = sum(dip.bitten_s for dip in said.dips if dip.step == 5)
    spoken = " ".join(said.said).replace("\N{NO-BREAK SPACE}", " ")
    if abs(had - bite_s) < 1.0:
        assert "over" not in spoken
        assert "short" not in spoken
    else:
        by = write_bite(abs(had - bite_s)).replace("\N{NO-BREAK SPACE}", " ")
        assert spoken.startswith(f"{by} {'over' if had > bite_s else 'short'}.")
    assert said.figure is not None
    assert said.figure.seconds == pytest.approx(had)


def test_a_step_of_two_dips_says_how_long_it_bites_in_all() -> None:
    hands = Hands()
    for done in hands.order.steps[:-1]:
        hands.enter(Kind.GIVEN, seconds=done.bite_s)
    ready = hands.enter(Kind.DRY)
    assert ready.state is State.READY
    bite = write_bite(hands.order.steps[-1].bite_s)
    assert ready.then == f"Then: a bite of {bite} in 2 dips. Arrows: bath cooler, warmer."


def test_an_overrun_says_what_is_darker_and_what_was_put_right() -> None:
    hands = Hands()
    for _ in range(2):
        hands.bite()
    said = hands.bite(over=20.0)
    shows(
        said,
        State.WORKED_OUT,
        "20 s over. Tone 3 prints 5.0, not 4.9. Step 4 now bites 4 min 15 s.",
    )
    assert len(said.orders) == 2
    assert said.orders[0] == hands.order
    assert hands.press().state is State.OUT


def test_lost_tones_are_named_and_wait_for_a_choice() -> None:
    hands = Hands()
    hands.bite()
    hands.bite()
    length = hands.begin_bite().length_s
    hands.wait(length + 270.0)
    lost = hands.enter(Kind.LIFTED)
    shows(lost, State.LOST_TONE, "Tones 3 and 4 will print alike. Choose what to do.")
    assert hands.wait(3600.0).state is State.LOST_TONE
    assert lost.then == "Or: make one, space anew, set another time."
    assert hands.standing.then == "Or: make one, space anew."
    offered = []
    for _ in range(3):
        standing = hands.standing
        assert standing.main is not None
        offered.append(standing.main.label)
        hands.press(Act.SECOND)
    assert offered == ["Leave it", "Make one", "Space anew"]
    hands.press(Act.LATER)
    one = hands.press()
    assert one.state is not State.LOST_TONE
    assert one.order is not None
    assert [s.step for s in one.order.steps] == [1, 2, 3, 5]
    assert one.order.steps[-1].stop_out == (3, 4)


def test_a_step_is_skipped_only_when_asked_twice() -> None:
    hands = Hands()
    hands.bite()
    hands.enter(Kind.DRY)
    shows(hands.press(Act.SECOND), State.SKIP, "Skip step 2? Tone 2 will print like tone 1.")
    assert hands.press().state is State.READY
    hands.press(Act.SECOND)
    skipped = hands.press(Act.SECOND)
    assert skipped.order is not None
    assert [s.step for s in skipped.order.steps] == [1, 3, 4, 5]
    shows(skipped, State.STOP_OUT, "Stop out tones 1 and 2: 138 places, about 1 h 33 min.")


def test_varnish_on_the_wrong_tone_stays_and_the_rest_follows() -> None:
    hands = Hands()
    hands.bite()
    hands.enter(Kind.STOPPING_OUT)
    wrong = hands.enter(Kind.WRONG_TONE, of=3)
    assert wrong.order is not None
    assert [s.step for s in wrong.order.steps] == [1, 2, 4, 5]
    assert all(3 not in s.stop_out for s in wrong.order.steps)
    assert wrong.order.tones[3].lightness == wrong.order.tones[1].lightness
    assert "a later grain can darken it" in " ".join(wrong.said)
    for _ in range(3):
        wrong = hands.bite()
    aims = [tone.total_bite_s for tone in hands.order.tones]
    assert wrong.effective_s[3] == aims[1]
    assert wrong.effective_s[4] == pytest.approx(aims[4])


def test_varnish_too_late_leaves_the_tone_as_dark_as_the_plate() -> None:
    hands = Hands()
    hands.bite()
    hands.bite()
    late = hands.enter(Kind.TOO_LATE, of=1)
    assert late.effective_s[1] == late.effective_s[2]
    assert late.order is not None
    assert late.order.tones[1].lightness == late.order.tones[2].lightness


def test_a_bite_timed_by_a_watch_is_entered_after_the_fact() -> None:
    hands = Hands()
    hands.press()
    given_ = hands.enter(Kind.GIVEN, seconds=25.0)
    assert given_.state is State.OUT
    assert given_.effective_s[1] == 25.0
    hands.enter(Kind.STARTED, seconds=20.0)
    assert hands.standing.bitten_s == pytest.approx(20.0)
    out = hands.wait(60.0)
    assert out.state is State.LIFT
    assert hands.enter(Kind.LIFTED, seconds=30.0).dips[-1].bitten_s == pytest.approx(50.0)


def test_the_time_of_day_is_that_of_the_zone() -> None:
    hands = Hands()
    hands.bite()
    hands.enter(Kind.PAINTED)
    there = timezone(timedelta(hours=5, minutes=30))
    standing = session(hands.order, hands.facts, hands.events, hands.now, zone=there)
    assert standing.sentence == "Let it dry until about 17:40."


def test_no_sound_and_another_window_are_said() -> None:
    hands = Hands()
    shows(
        hands.enter(Kind.NO_SOUND),
        State.NO_SOUND,
        "No sound here. Watch the screen, or set an alarm beside you.",
    )
    assert hands.press().state is State.CHECK
    other = elsewhere(NOON)
    shows(other, State.ELSEWHERE, "This plate is at the tank in another window. Look only.")
    assert press(other, Act.MAIN, NOON) == ()


@cache
def bitten_before(step: int) -> Hands:
    """Hands that have just put the plate in for ``step``."""
    hands = Hands()
    for done in hands.order.steps[: step - 1]:
        hands.enter(Kind.GIVEN, seconds=done.bite_s)
    hands.begin_bite()
    return hands


@settings(max_examples=100, deadline=None)
@given(st.integers(1, 5), st.floats(0.0, 1.0), st.sampled_from(list(Act)), st.booleans())
def test_no_single_act_ends_or_alters_a_bite_before_the_last_ten_seconds(
    step: int, share: float, act: Act, repeat: bool
) -> None:
    hands = bitten_before(step).copy()
    begun = hands.standing
    before = hands.wait(share * (begun.length_s - 10.001))
    assert before.zero is not None
    for _ in range(4):  # the same act, over and over
        hands.events.extend(press(hands.standing, act, hands.now, repeat=repeat))
        now = hands.standing
        assert now.in_bath
        assert now.dips == before.dips
        assert now.zero is not None
        assert now.zero.boottime_s == pytest.approx(before.zero.boottime_s)
        if now.length_s - now.bitten_s <= 12.0:
            break
        hands.wait(1.6)


def test_nothing_is_undone_while_the_plate_is_in_the_bath() -> None:
    hands = Hands()
    biting = hands.begin_bite()
    assert all(taken_back(biting, n, hands.now) == () for n in range(len(hands.events)))


def test_drips_and_repeats_are_ignored() -> None:
    hands = Hands()
    hands.press()
    assert press(hands.standing, Act.MAIN, hands.now.later(1.4)) == ()
    assert press(hands.wait(5.0), Act.MAIN, hands.now, repeat=True) == ()
    assert len(press(hands.standing, Act.MAIN, hands.now)) == 1


KINDS = st.sampled_from([kind for kind in Kind if kind is not Kind.UNDONE])
HAPPENINGS = st.lists(
    st.tuples(KINDS, st.floats(0.1, 400.0), st.floats(0.0, 60.0), st.integers(0, 5)), max_size=25
)


def log(happenings: list[tuple[Kind, float, float, int]]) -> list[Event]:
    """Anything at all in any order: what a book might hold."""
    at, events = NOON, []
    for number, (kind, wait, value, of) in enumerate(happenings):
        at = at.later(wait)
        reading = 15.0 + value / 5.0 if kind is Kind.TEMPERATURE else 30.0 + value
        events.append(Event(number, kind, at, value, reading, of, "space anew"))
    return events


@settings(max_examples=150, deadline=None)
@given(HAPPENINGS, st.integers(0, 25), st.floats(0.0, 500.0))
def test_undoing_leaves_no_trace(
    happenings: list[tuple[Kind, float, float, int]], which: int, later: float
) -> None:
    events = log(happenings)
    if not events:
        return
    gone = events[which % len(events)].number
    now = events[-1].at.later(later)
    undone = Event(len(events), Kind.UNDONE, now, of=gone)
    redone = Event(len(events) + 1, Kind.UNDONE, now, of=undone.number)
    without = [event for event in events if event.number != gone]
    assert [e.number for e in active([*events, undone])] == [e.number for e in without]

    def seen(log: list[Event]) -> tuple[object, ...]:
        standing = session(order_of(6), facts(), log, now)
        return standing.state, standing.sentence, standing.dips, standing.order, standing.zero

    assert seen([*events, undone, redone]) == seen(events)
    if gone:  # the first event's clocks are where the session's time begins
        assert seen([*events, undone])[:1] == seen(without)[:1]


@settings(max_examples=150, deadline=None)
@given(HAPPENINGS, st.floats(0.0, 500.0))
def test_whatever_the_book_holds_there_is_something_to_say(
    happenings: list[tuple[Kind, float, float, int]], later: float
) -> None:
    events = log(happenings)
    now = events[-1].at.later(later) if events else NOON
    standing = session(order_of(6), facts(), events, now)
    assert standing.sentence
    assert standing == session(order_of(6), facts(), tuple(events), now)
    assert all(dip.bitten_s >= 0.0 for dip in standing.dips)
    logged = session(order_of(6), facts(), [*events, *standing.due], now)
    assert (logged.state, logged.sentence, logged.dips) == (
        standing.state,
        standing.sentence,
        standing.dips,
    )
