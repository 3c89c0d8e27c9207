"""Lines and a second grain at the tank: stays of their own, under the same laws."""

import json
from dataclasses import replace
from functools import cache

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.core.tank.hands import NOON, Hands, facts, order_of
from tests.core.tank.test_session import HAPPENINGS, log, shows
from tests.core.tank.totals import STEPS, Happened, require_totals_met

from toneladder.bite.values import Conditions
from toneladder.lines.values import Lines
from toneladder.order.line_steps import LONGEST_LINE_DIP_S, with_lines
from toneladder.order.second_grain import with_second_grain
from toneladder.order.values import Order, Rates, SecondGrain
from toneladder.quantities import write_bite
from toneladder.tank.begun import Begun, begun_from, begun_text
from toneladder.tank.naming import bitten_before
from toneladder.tank.session import session
from toneladder.tank.staged import stage_order, stages_of
from toneladder.tank.values import Act, Facts, Kind, Remedy, Stage, State

GRAINED = (300.0, 600.0)


@cache
def whole(depths: int = 3, bites_s: tuple[float, ...] = GRAINED) -> Order:
    """A plate of six tones, with lines before them and a second grain after them."""
    lines = Lines(depths=depths)
    lengths = tuple(90.0 * (k + 1) for k in range(depths))
    lined = with_lines(order_of(6), lines, lengths, Conditions(), Rates())
    return with_second_grain(lined, SecondGrain(len(bites_s), bites_s), Conditions(), Rates())


@cache
def staged(stage: Stage, depths: int = 3, bites_s: tuple[float, ...] = GRAINED) -> Order:
    return stage_order(whole(depths, bites_s), stage, Rates())


def facts_for(stage: Stage) -> Facts:
    longest = LONGEST_LINE_DIP_S if stage is Stage.LINES else 300.0
    return Facts(None, 1.0, 20.0, stage=stage, longest_dip_s=longest)


def hands_at(stage: Stage, **order: object) -> Hands:
    return Hands(order=staged(stage, **order), facts=facts_for(stage))


def test_a_plate_has_its_stages_in_the_order_of_their_days() -> None:
    assert stages_of(whole()) == (Stage.LINES, Stage.TONES, Stage.SECOND)
    assert stages_of(order_of(6)) == (Stage.TONES,)


def test_the_tones_own_order_is_as_it_was() -> None:
    assert staged(Stage.TONES) == whole()


@pytest.mark.parametrize("stage", [Stage.LINES, Stage.SECOND])
def test_a_stage_as_an_order_has_the_bites_of_the_sheet_and_adds_up(stage: Stage) -> None:
    order = staged(stage)
    sheet = whole().line_steps if stage is Stage.LINES else whole().second_grain.steps  # type: ignore[union-attr] # it has one
    assert [(s.bite_s, s.total_bite_s, s.stop_out, s.dips_s) for s in order.steps] == [
        (one.bite_s, one.total_bite_s, one.stop_out, one.dips_s) for one in sheet
    ]
    for step in order.steps:
        assert order.tones[step.step].total_bite_s == step.total_bite_s
    assert {one.step for one in order.day} == {s.step for s in order.steps}


@settings(max_examples=2000, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.integers(1, 4), STEPS)
def test_totals_of_lines_are_met_whatever_happens(depths: int, steps: Happened) -> None:
    require_totals_met(staged(Stage.LINES, depths), facts_for(Stage.LINES), steps)


@settings(max_examples=2000, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.sampled_from([(300.0, 600.0), (420.0, 420.0), (900.0,), (45.0, 250.0)]), STEPS)
def test_totals_of_a_second_grain_are_met_whatever_happens(
    bites_s: tuple[float, ...], steps: Happened
) -> None:
    require_totals_met(staged(Stage.SECOND, 3, bites_s), facts_for(Stage.SECOND), steps)


def test_lines_from_the_ground_to_the_last_lift() -> None:
    hands = hands_at(Stage.LINES)
    shows(
        hands.standing,
        State.CHECK,
        "Ground whole, lines drawn to the metal, back covered? Then press.",
    )
    shows(
        hands.press(),
        State.READY,
        "Line bite 1. All lines open. Press, then walk to the tank.",
    )
    hands.press()
    shows(hands.wait(10.0), State.BITING, "Leave it in. All lines are biting.")
    length = hands.standing.length_s
    assert length == 900.0
    hands.wait(length)
    shows(hands.press(), State.OUT, "Noted: out after 15 min, on the signal. Rinse well, blow dry.")
    shows(hands.press(), State.STOP_OUT, "Stop out the finest lines: about 15 min.")
    hands.press(after=1800.0)
    assert hands.standing.then == f"Then: line bite 2, a bite of {write_bite(900.0)}."
    shows(
        hands.press(),
        State.READY,
        "Line bite 2. The finest lines: stopped out and dry? Press, then walk to the tank.",
    )
    hands.press()
    shows(hands.wait(10.0), State.BITING, "Leave it in. The lines still open are biting.")
    hands.wait(900.0)
    hands.press()
    hands.enter(Kind.DRY)
    while hands.bite().state is State.OUT_EARLY:
        pass
    assert hands.standing.effective_s == (0.0, 900.0, 1800.0, 3600.0)
    shows(
        hands.press(),
        State.END,
        "Last lift done. Take the ground off, then pull a proof of the lines.",
    )


def test_a_second_grain_begins_with_stopping_out_the_lights() -> None:
    hands = hands_at(Stage.SECOND)
    shows(
        hands.standing,
        State.CHECK,
        "Old grain off, fresh grain laid, back and edges covered? Then press.",
    )
    painting = hands.press()
    assert painting.state is State.STOP_OUT
    assert painting.sentence.startswith("Stop out tones 0 to 3:")
    hands.press(after=1800.0)
    shows(
        hands.press(after=600.0),
        State.READY,
        "Bite 1 in the second grain. Tones 0 to 3 stopped out and dry? Press, then walk to "
        "the tank.",
    )
    hands.press()
    shows(hands.wait(10.0), State.BITING, "Leave it in. Tones 4 and 5 are biting.")
    hands.wait(300.0)
    hands.press()
    hands.enter(Kind.DRY)
    assert hands.standing.bite_name == "bite 2 in the second grain"
    assert hands.bite().effective_s == (0.0, 0.0, 0.0, 0.0, 300.0, 600.0)


@pytest.mark.parametrize(
    ("stage", "remark"),
    [
        (
            Stage.LINES,
            "3 min over. The finest lines: 18 min, not 15 min. Line bite 2 now bites 12 min.",
        ),
        (
            Stage.SECOND,
            "3 min over. Tone 4: 8 min, not 5 min. Bite 2 in the second grain now bites 2 min.",
        ),
    ],
)
def test_an_overrun_speaks_of_what_was_bitten(stage: Stage, remark: str) -> None:
    hands = hands_at(stage)
    over = hands.bite(over=180.0)
    shows(replace(over, sentence=" ".join(over.said)), State.WORKED_OUT, remark)


def test_line_depths_between_which_no_bite_is_left_are_asked_about() -> None:
    hands = hands_at(Stage.LINES)
    lost = hands.bite(over=900.0)
    shows(lost, State.LOST_TONE, "Lines of depth 1 and 2 will be bitten alike. Choose what to do.")
    assert lost.main is not None
    offered = {lost.main.label}
    for _ in range(3):
        pressed = hands.press(Act.SECOND).main
        assert pressed is not None
        offered.add(pressed.label)
    assert "Space anew" not in offered
    one = hands.enter(Kind.CHOSE, text=Remedy.ONE.value)
    assert one.order is not None
    assert [s.step for s in one.order.steps] == [1, 3]
    assert one.order.steps[-1].stop_out == (1, 2)


def test_varnish_on_one_of_two_tones_that_share_a_bite_leaves_the_other_its_bite() -> None:
    hands = hands_at(Stage.SECOND, bites_s=(420.0, 420.0))
    hands.press()
    hands.enter(Kind.WRONG_TONE, of=4)
    hands.enter(Kind.DRY)
    while (bitten := hands.bite()).state is State.OUT_EARLY:
        pass
    assert bitten.effective_s[4:] == (0.0, 420.0)
    assert hands.enter(Kind.WRONG_TONE, of=2).effective_s == bitten.effective_s


def test_a_light_that_was_forgotten_has_been_bitten_in_the_second_grain_too() -> None:
    hands = hands_at(Stage.SECOND)
    hands.bite()
    late = hands.enter(Kind.TOO_LATE, of=2)
    assert late.effective_s == (0.0, 0.0, 300.0, 0.0, 300.0, 300.0)
    assert any(text.startswith("Tone 2: stopped out late") for text in late.said)


@pytest.mark.parametrize("stage", [Stage.LINES, Stage.SECOND])
def test_a_check_patch_is_noted_but_changes_nothing(stage: Stage) -> None:
    hands = hands_at(stage)
    before = hands.press().order
    read = hands.enter(Kind.CHECK_PATCH, seconds=60.0, reading=50.0)
    assert read.order == before
    assert "noted, not counted" in " ".join(read.said)


def test_the_only_bite_there_is_cannot_be_skipped() -> None:
    hands = hands_at(Stage.LINES, depths=1)
    assert hands.press().second is None
    more = hands_at(Stage.LINES)
    more.press()
    asked = more.press(Act.SECOND)
    shows(asked, State.SKIP, "Skip line bite 1? The finest lines: not bitten at all.")


@pytest.mark.parametrize("stage", list(Stage))
def test_a_stage_comes_back_from_the_book_as_it_was(stage: Stage) -> None:
    of = facts() if stage is Stage.TONES else facts_for(stage)
    known = replace(of, bare_cm2=(1.5, 0.0, 7.25), um_per_min=4.5)
    begun = Begun(staged(stage), known, "Tall tank", Conditions())
    assert begun_from(begun_text(begun)) == begun


def test_a_stay_from_before_there_were_stages_is_one_of_tones() -> None:
    begun = Begun(order_of(6), facts())
    tree = json.loads(begun_text(begun))
    for name in ("stage", "longest_dip_s", "bare_cm2", "um_per_min"):
        del tree["facts"][name]
    del tree["bath"], tree["conditions"]
    assert begun_from(json.dumps(tree)) == begun


@settings(max_examples=150, deadline=None)
@given(st.sampled_from([Stage.LINES, Stage.SECOND]), HAPPENINGS, st.floats(0.0, 500.0))
def test_whatever_the_book_holds_of_a_stage_there_is_something_to_say(
    stage: Stage, happenings: list[tuple[Kind, float, float, int]], later: float
) -> None:
    events = log(happenings)
    now = events[-1].at.later(later) if events else NOON
    order, of = staged(stage), facts_for(stage)
    standing = session(order, of, events, now)
    assert standing.sentence
    assert standing.bite_name
    logged = session(order, of, [*events, *standing.due], now)
    assert (logged.state, logged.sentence, logged.dips) == (
        standing.state,
        standing.sentence,
        standing.dips,
    )
    if stage is Stage.LINES:
        assert standing.effective_s[0] == 0.0 or any(
            event.kind is Kind.TOO_LATE for event in events
        )


@pytest.mark.parametrize(
    ("stage", "began"),
    [
        (Stage.LINES, "The lines of this plate were bitten"),
        (Stage.TONES, "This plate was bitten"),
        (Stage.SECOND, "The second grain of this plate was bitten"),
    ],
)
def test_what_was_bitten_before_is_named(stage: Stage, began: str) -> None:
    assert bitten_before(stage).startswith(f"{began} already. Bite it again")
    assert bitten_before(stage, "3 May 2026").startswith(f"{began} on 3 May 2026. Bite it again")
