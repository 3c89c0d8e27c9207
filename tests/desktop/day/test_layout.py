"""The day to scale: every bite is seen, no two words touch, the order of things is kept."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.order.day import Work, day, lifts
from toneladder.order.values import Doing, Order, Rates, Step
from toneladder.quantities import write_minutes
from toneladder.tones.values import Painting
from toneladder_desktop.day.layout import BETWEEN, LEAST_BITE, DayLayout, Texts, lay_out_day
from toneladder_desktop.day.words import clock, start_minutes
from toneladder_desktop.drawing.ruling import width_of
from toneladder_desktop.drawing.style import Type

works = st.lists(
    st.builds(
        Work,
        paint_min=st.floats(0.5, 180.0),
        dry_min=st.floats(5.0, 40.0),
        dips_s=st.lists(st.floats(15.0, 300.0), min_size=1, max_size=4).map(tuple),
    ),
    min_size=1,
    max_size=11,
)
starts = st.one_of(st.none(), st.integers(0, 1439).map(lambda m: f"{m // 60:02}:{m % 60:02}"))
widths = st.floats(300.0, 1200.0)


def order_of(work: list[Work]) -> Order:
    stretches = day(work, Rates())
    steps = tuple(
        Step(
            step=k,
            stop_out=(k - 1,),
            bite_s=sum(load.dips_s),
            total_bite_s=100.0 * k,
            painting=Painting(10.0, 5, 20.0),
            paint_min=load.paint_min,
            dry_min=load.dry_min,
            dips_s=load.dips_s,
            lift_after_s=lift,
        )
        for k, (load, lift) in enumerate(zip(work, lifts(stretches), strict=True), start=1)
    )
    return Order(len(work) + 1, (), steps, (), (), (), (), (), stretches)


def laid(work: list[Work], start: str | None, width: float, chosen: int | None) -> DayLayout:
    order = order_of(work)
    start_min = start_minutes(start)
    texts = Texts(
        lifts=tuple(clock(start_min, step.lift_after_s / 60.0) for step in order.steps),
        bites=tuple(
            f"{step.bite_s // 60:.0f} min {step.bite_s % 60:.0f} s" for step in order.steps
        ),
        start_min=start_min,
        mark=lambda m: write_minutes(m) if start_min is None else clock(start_min, m),
        mark_width=lambda text: width_of(text, Type.SMALL),
        lift_width=lambda text: width_of(text, Type.STRONG),
        bite_width=lambda text: width_of(text, Type.SMALL),
        number_width=lambda text: width_of(text, Type.STRONG),
    )
    return lay_out_day(order, texts, width, chosen)


@given(works, starts, widths)
def test_no_two_words_under_the_line_touch(
    work: list[Work], start: str | None, width: float
) -> None:
    layout = laid(work, start, width, None)
    for words in (layout.lifts, layout.bites):
        assert all(a.right + BETWEEN <= b.left + 0.02 for a, b in pairwise(words))
        assert all(word.left >= -0.01 and word.right <= width + 0.01 for word in words)


@given(works, starts, widths, st.integers(1, 11))
def test_the_last_lift_and_the_chosen_one_are_always_told(
    work: list[Work], start: str | None, width: float, chosen: int
) -> None:
    chosen = min(chosen, len(work))
    layout = laid(work, start, width, chosen)
    assert chosen in {word.step for word in layout.lifts}
    assert chosen in {word.step for word in layout.bites}
    assert len(work) in {word.step for word in laid(work, start, width, None).lifts}


@given(works, starts, widths)
def test_every_bite_is_seen_and_ends_where_it_ends(
    work: list[Work], start: str | None, width: float
) -> None:
    layout = laid(work, start, width, None)
    bites = [block.box for block in layout.blocks if block.doing is Doing.BITE]
    assert len(bites) == sum(len(load.dips_s) for load in work)
    assert all(box.width >= LEAST_BITE - 1e-9 for box in bites)
    assert bites[-1].right == pytest.approx(layout.bath.right)
    assert all(a.right < b.right for a, b in pairwise(bites))


@given(works, starts, widths)
def test_bites_lie_in_the_bath_and_all_else_on_the_bench(
    work: list[Work], start: str | None, width: float
) -> None:
    layout = laid(work, start, width, None)
    for block in layout.blocks:
        below = block.doing is Doing.BITE
        room = layout.bath if below else layout.bench
        assert room.y <= block.box.y and block.box.bottom <= room.bottom  # noqa: PT018 - one room


@given(works, starts, widths)
def test_a_click_finds_the_step_it_falls_on(
    work: list[Work], start: str | None, width: float
) -> None:
    layout = laid(work, start, width, None)
    for step, (left, right) in enumerate(layout.spans, start=1):
        assert layout.step_at((left + right) / 2.0) == step
    assert layout.step_at(-5.0) is None


@given(works, starts, widths)
def test_marks_of_the_clock_do_not_touch(work: list[Work], start: str | None, width: float) -> None:
    marks = laid(work, start, width, None).marks
    for a, b in pairwise(marks):
        room = (width_of(a.text, Type.SMALL) + width_of(b.text, Type.SMALL)) / 2.0
        assert b.x - a.x >= room or b.x - a.x > 250.0


def test_midnight_is_a_mark_of_its_own() -> None:
    work = [Work(120.0, 20.0, (60.0,)), Work(120.0, 20.0, (60.0,))]
    marks = laid(work, "22:30", 800.0, None).marks
    assert [mark.text for mark in marks if mark.midnight] == ["00:00"]
    assert not any(mark.midnight for mark in laid(work, None, 800.0, None).marks)


def test_time_runs_to_scale() -> None:
    layout = laid([Work(60.0, 30.0, (300.0,))], "09:00", 800.0, None)
    paint, dry = (
        next(b.box for b in layout.blocks if b.doing is doing) for doing in (Doing.PAINT, Doing.DRY)
    )
    assert paint.width == pytest.approx(2.0 * dry.width)
