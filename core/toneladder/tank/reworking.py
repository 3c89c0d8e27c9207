"""The course after the rest of its bites was worked out again."""

from dataclasses import replace

from toneladder.order.values import Order
from toneladder.tank.course import IN_BATH, Course, Phase
from toneladder.tank.remarks import changed_bites
from toneladder.tank.values import Remedy
from toneladder.tank.working_out import Given, alike, effective, spaced_anew, without, work_out


def reworked(course: Course, said: tuple[str, ...] = ()) -> Course:
    """The rest worked out again after what happened, with ``said`` and what there is to add."""
    given = Given(
        dips=course.dips,
        step=course.step,
        finished=course.finished,
        kept_s=dict(course.kept_s),
        rate=course.rate,
        shown_s={s.step: s.bite_s for s in course.order.steps},
    )
    order = work_out(course.base, course.aims_s, given, course.facts)
    new = changed_bites(course.facts, course.planned, course.order, order, _done(course))
    lost = tuple(
        lighter
        for lighter in _alike(order, course)
        if lighter >= course.step - (not course.finished) and lighter not in course.settled
    )
    orders = course.orders if _same_bites(order, course.orders[-1]) else (*course.orders, order)
    return _at_a_step(
        replace(
            course,
            order=order,
            orders=orders,
            lost=lost,
            said=(*(() if course.seen else course.said), *said, *new),
            seen=course.seen and not (said or new),
        )
    )


def chosen(course: Course, remedy: Remedy) -> Course:
    """What is to become of tones that will print alike is decided; they are not asked for again."""
    base, aims = course.base, course.aims_s
    if remedy is Remedy.ONE:
        for lighter in course.lost:
            base = without(base, lighter + 1)
    elif remedy is Remedy.ANEW:
        aims = aims_anew(course) or aims
    made = reworked(replace(course, base=base, aims_s=aims, pointed=0, said=(), seen=True))
    still = _alike(made.order, made)
    return replace(made, lost=(), settled=(*course.settled, *course.lost, *still))


def aims_anew(course: Course) -> tuple[float, ...] | None:
    """Total bites that tell the tones left apart again; None if there is no room for them."""
    reached = sum(dip.effective_s for dip in course.dips)
    last = _done(course)
    return spaced_anew(course.base, course.aims_s, last, reached, course.facts)


def settled(course: Course) -> Course:
    """No question about lost tones is left open: unanswered, they are left as they are."""
    return chosen(course, Remedy.LEAVE) if course.lost else course


def onward(course: Course) -> Course:
    """The next step is at hand, if the last one is finished and there is one."""
    coming = course.next_step
    if not course.finished or coming is None:
        return course
    return replace(course, step=coming.step, phase=Phase.READY, said=(), seen=True)


def effective_totals(course: Course) -> tuple[float, ...]:
    """Seconds on the curve that every tone has had so far."""
    return effective(course.dips, len(course.base.tones), dict(course.kept_s))


def _done(course: Course) -> int:
    """The last step whose bite is over."""
    return course.step if course.finished else course.step - 1


def _alike(order: Order, course: Course) -> tuple[int, ...]:
    return alike(order, course.planned, by_bite=course.facts.curve is None)


def _at_a_step(course: Course) -> Course:
    """A step of which no bite is left is not waited for."""
    if course.finished or course.phase in IN_BATH:
        return course
    if any(s.step == course.step for s in course.order.steps):
        return course
    coming = course.next_step
    if coming is None:
        return replace(course, phase=Phase.END)
    return replace(course, step=coming.step)


def _same_bites(one: Order, other: Order) -> bool:
    return [(s.step, s.bite_s) for s in one.steps] == [(s.step, s.bite_s) for s in other.steps]
