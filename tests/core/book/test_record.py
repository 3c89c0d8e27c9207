"""The record of a plate: planned bites beside those the tank's own events give."""

import pytest
from tests.core.tank.hands import PLANNED_C, Hands, facts, order_of
from tests.core.tank.test_stages import hands_at

from toneladder.bite.values import Metal
from toneladder.book.opening import Book
from toneladder.book.plates import keep_plate
from toneladder.book.prints import choose_best, keep_proof, keep_pull
from toneladder.book.record import planned_bites, record_of
from toneladder.book.tank_log import append_event, begin_session
from toneladder.book.values import Logged, PlateEntry, ProofReading, Pull, PullKind, TankSession
from toneladder.errors import BookError
from toneladder.tank.begun import Begun, begun_text
from toneladder.tank.record import event_row
from toneladder.tank.values import Kind, Stage

PLATE = PlateEntry("pier", "Pier", "/plates/pier.plate", 1_800_000_000.0, Metal.COPPER, 6)


def log(book: Book, hands: Hands, session: str = "one") -> None:
    """Keep what the hands did, as the tank's window does."""
    begun = Begun(hands.order, hands.facts)
    begin_session(book, TankSession(session, "pier", hands.now.utc_s, begun_text(begun)))
    for event in hands.events:
        row = event_row(event)
        logged = Logged(row.number, row.kind, row.boottime_s, row.utc_s, "first", row.detail)
        append_event(book, session, logged)


def test_the_bites_given_are_those_that_the_clock_says(book: Book) -> None:
    keep_plate(book, PLATE)
    hands = Hands()
    hands.bite(over=12.0)
    log(book, hands)
    (stay,) = record_of(book, "pier").stays
    first, *others = stay.bites
    assert first.planned_s == order_of(6).steps[0].bite_s
    assert first.given_s == pytest.approx(first.planned_s + 12.0, abs=0.5)
    assert not first.assumed
    assert [bite.given_s for bite in others] == [None] * 4


def test_a_bite_in_a_warmer_bath_is_worth_more_than_the_clock_says(book: Book) -> None:
    """By the rule of the plan itself: q times as fast for 10 °C more."""
    keep_plate(book, PLATE)
    hands = Hands()
    hands.press()
    hands.enter(Kind.TEMPERATURE, reading=PLANNED_C + 5.0)
    hands.bite(over=12.0)
    log(book, hands)
    (stay,) = record_of(book, "pier").stays
    first = stay.bites[0]
    assert stay.planned_c == PLANNED_C
    assert first.given_s is not None
    assert first.worth_s == pytest.approx(first.given_s * hands.facts.q**0.5)
    assert first.worth_s == pytest.approx(hands.standing.effective_s[1] / hands.facts.rate)


def test_a_lift_that_nobody_named_is_marked_as_assumed(book: Book) -> None:
    keep_plate(book, PLATE)
    hands = Hands()
    standing = hands.begin_bite()
    hands.wait(standing.length_s)
    hands.enter(Kind.PROPOSED)
    hands.wait(90.0)
    log(book, hands)
    (stay,) = record_of(book, "pier").stays
    assert stay.bites[0].assumed


def test_every_stay_at_the_tank_has_its_own_bites(book: Book) -> None:
    keep_plate(book, PLATE)
    for name in ("one", "two"):
        hands = Hands()
        hands.bite()
        log(book, hands, name)
    first, second = record_of(book, "pier").stays
    assert first.bites == second.bites


def test_lines_and_a_second_grain_are_stays_of_their_own(book: Book) -> None:
    keep_plate(book, PLATE)
    for stage in (Stage.LINES, Stage.SECOND):
        hands = hands_at(stage)
        hands.bite(over=7.0)
        log(book, hands, stage.value)
    stays = {stay.stage: stay for stay in record_of(book, "pier").stays}
    lines, second = stays[Stage.LINES], stays[Stage.SECOND]
    assert [bite.step for bite in lines.bites] == [1, 2, 3]
    assert [bite.step for bite in second.bites] == [1, 2]
    assert lines.bites[0].given_s == pytest.approx(907.0)
    assert second.bites[0].given_s == pytest.approx(307.0)


def test_a_stay_that_cannot_be_read_says_so_and_hides_no_other(book: Book) -> None:
    keep_plate(book, PLATE)
    begin_session(book, TankSession("torn", "pier", 1.0, "{}"))
    log(book, Hands())
    torn, whole = record_of(book, "pier").stays
    assert "cannot be read" in torn.unreadable
    assert not torn.bites
    assert len(whole.bites) == 5


def test_a_plate_that_only_came_to_the_tank_has_planned_bites_alone(book: Book) -> None:
    keep_plate(book, PLATE)
    log(book, Hands(order_of(4), facts()))
    (stay,) = record_of(book, "pier").stays
    assert stay.bites == planned_bites(order_of(4))


def test_proofs_and_prints_stand_in_the_record(book: Book) -> None:
    keep_plate(book, PLATE)
    choose_best(book, keep_proof(book, "pier", ProofReading("2026-03-16", 2, 4.2, "{}")))
    keep_pull(book, "pier", Pull("2026-03-17", PullKind.EDITION, 1, 20))
    record = record_of(book, "pier")
    assert record.kept.best_miss == 4.2
    assert [proof.best for proof in record.proofs] == [True]
    assert [kept.pull.number for kept in record.pulls] == [1]


def test_an_unknown_plate_is_said_in_a_sentence(book: Book) -> None:
    with pytest.raises(BookError, match="does not know this plate yet"):
        record_of(book, "nobody")
