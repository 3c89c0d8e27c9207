"""A stay at the tank is reckoned into its bath's use: once, by what each tone has had."""

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.core.tank.hands import Hands

from toneladder.bite.values import Conditions, Metal, Mordant
from toneladder.book.baths import begin_bath, change_bath, kept_bath, use_of
from toneladder.book.opening import Book
from toneladder.book.stay_use import bring_forward, forwarded_words, take_back
from toneladder.book.values import Bath, BathUse
from toneladder.errors import RefusedPairError
from toneladder.tank.begun import Begun
from toneladder.tank.facts import metal_given_g
from toneladder.tank.values import Event, Kind

DAY = "2027-01-15"
BARE_CM2 = (20.0, 12.0, 30.0, 8.0, 5.0, 25.0)


def begun_of(hands: Hands, bath: str = "tall TANK") -> Begun:
    facts = replace(hands.facts, bare_cm2=BARE_CM2, um_per_min=4.5)
    return Begun(hands.order, facts, bath, Conditions())


def bitten(steps: int = 2) -> tuple[Begun, tuple[Event, ...]]:
    hands = Hands()
    for _ in range(steps):
        hands.bite()
    return begun_of(hands), tuple(hands.events)


def test_a_worked_example() -> None:
    # 12 cm² of copper at 4.5 µm a minute for 10 minutes: 0.0045 cm deep, 0.054 cm³, and 8.96 g a
    # cm³ (density from CRC, 51st edition) are 0.48384 g. The tone beside it had nothing.
    hands = Hands()
    facts = replace(hands.facts, bare_cm2=(50.0, 12.0), um_per_min=4.5)
    begun = Begun(hands.order, facts, "", Conditions())
    assert metal_given_g(begun, (0.0, 600.0)) == pytest.approx(0.48384)
    twice_as_fast = replace(begun, facts=replace(facts, rate=2.0))
    assert metal_given_g(twice_as_fast, (0.0, 1200.0)) == pytest.approx(0.48384)


def test_nothing_is_reckoned_where_nothing_is_known(book: Book, bath_id: int) -> None:
    begun, events = bitten()
    other = replace(Conditions(), metal=Metal.OTHER)
    for unknown in (
        Begun(begun.order, Hands().facts, "Tall tank"),
        replace(begun, conditions=other),
        replace(begun, bath="", conditions=Conditions()),
        replace(begun, bath="Another tank"),
    ):
        assert bring_forward(book, "stay", unknown, events, DAY) is None
    assert bring_forward(book, "stay", begun, (), DAY) is None
    assert use_of(book, bath_id) == BathUse(0, 0, 0.0)


def test_the_use_is_brought_forward_once_and_told(book: Book, bath_id: int) -> None:
    begun, events = bitten()
    bring_forward(book, "stay", begun, events, DAY)
    told = bring_forward(book, "stay", begun, events, DAY)
    assert told is not None
    # tone 1 had 25 s, the darker ones 25 and 50 s: 4.5 µm a minute in 12 and in 68 cm²
    exact = 8.96 * 4.5e-4 * (12.0 * 25.0 + 68.0 * 75.0) / 60.0
    assert told.metal_g == pytest.approx(exact)
    assert use_of(book, bath_id).metal_g == pytest.approx(exact, abs=5e-4)
    assert use_of(book, bath_id).plates == 0
    assert forwarded_words(told) == (
        "The use of the bath “Tall tank” is brought forward by about 0.4\u00a0g of copper."
    )


def test_where_the_bath_is_known_its_share_is_told(book: Book, bath_id: int) -> None:
    with book.reading() as connection:
        bath = kept_bath(connection, bath_id).bath
    change_bath(book, bath_id, replace(bath, litres=2.0, salt_g=100.0))
    told = bring_forward(book, "stay", *bitten(), DAY)
    assert told is not None
    # 5.105 g of ferric chloride for a gram of copper, published stoichiometry
    assert told.share == pytest.approx(told.metal_g * 5.105 / 100.0, rel=1e-3)
    assert forwarded_words(told).endswith("to about 2\u00a0% of what it can take.")


def test_once_taken_back_it_never_counts_again(book: Book, bath_id: int) -> None:
    begun, events = bitten()
    bring_forward(book, "stay", begun, events, DAY)
    bring_forward(book, "other", begun, events, DAY)
    both = use_of(book, bath_id).metal_g
    take_back(book, "stay")
    assert use_of(book, bath_id).metal_g == pytest.approx(both / 2.0)
    assert bring_forward(book, "stay", begun, events, DAY) is None
    assert use_of(book, bath_id).metal_g == pytest.approx(both / 2.0)


def test_a_bath_for_another_metal_is_refused(book: Book) -> None:
    begin_bath(book, Bath("Zinc tray", Metal.ZINC, Mordant.COPPER_SULPHATE_SALT))
    begun, events = bitten()
    with pytest.raises(RefusedPairError):
        bring_forward(book, "stay", replace(begun, bath="Zinc tray"), events, DAY)


ACTS = st.lists(
    st.tuples(st.sampled_from(["one", "two", "three"]), st.booleans(), st.integers(1, 5)),
    max_size=12,
)


@settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(ACTS)
def test_the_use_is_the_sum_of_the_stays_that_count(
    book: Book, acts: list[tuple[str, bool, int]]
) -> None:
    number = len(_names(book))
    bath = begin_bath(book, Bath(f"Tank {number}", Metal.COPPER, Mordant.FERRIC_CHLORIDE))
    counts: dict[str, float] = {}
    gone: set[str] = set()
    for name, back, steps in acts:
        stay = f"{name} {number}"
        if back:
            take_back(book, stay)
            gone |= {stay} & counts.keys()
            counts.pop(stay, None)
            continue
        begun, events = _stay(steps)
        told = bring_forward(book, stay, replace(begun, bath=f"Tank {number}"), events, DAY)
        assert (told is None) == (stay in gone)
        if told is not None:
            counts[stay] = told.metal_g
    assert use_of(book, bath).metal_g == pytest.approx(sum(counts.values()), abs=1e-3 * 3)


def _names(book: Book) -> list[str]:
    from toneladder.book.baths import list_baths

    return [kept.bath.name for kept in list_baths(book)]


def _stay(steps: int) -> tuple[Begun, tuple[Event, ...]]:
    hands = Hands()
    hands.press()
    for done in hands.order.steps[:steps]:
        hands.enter(Kind.GIVEN, seconds=done.bite_s)
    return begun_of(hands), tuple(hands.events)
