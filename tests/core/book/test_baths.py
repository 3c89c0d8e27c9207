"""Baths: one metal, one name, and what they have bitten."""

from dataclasses import replace

import pytest

from toneladder.bite.values import Conditions, Metal, Mordant, Movement
from toneladder.book.baths import (
    bath_called,
    begin_bath,
    change_bath,
    list_baths,
    note_use,
    remove_bath,
    require_belongs,
    retire_bath,
    share_of_capacity,
    use_of,
)
from toneladder.book.opening import Book
from toneladder.book.strips import keep_strip
from toneladder.book.values import Bath, BathUse, Bitten, Use
from toneladder.errors import BookError, RefusedPairError
from toneladder.strip.values import Patch, Strip, Vessel

COPPER = Bath(
    "Große Wanne",
    Metal.COPPER,
    Mordant.FERRIC_CHLORIDE,
    strength="38 °Bé",
    movement=Movement.MOVING,
    vessel=Vessel.TRAY,
    made_on="2026-03-15",
    litres=12.5,
    salt_g=5000.0,
    q=1.6,
    note="by the window",
)
ZINC = Bath("Blue", Metal.ZINC, Mordant.COPPER_SULPHATE_SALT)
STRIP = Strip(Conditions(), (Patch(0.0, 91.0), Patch(60.0, 60.0)))


def test_a_bath_comes_back_as_it_was_kept(book: Book) -> None:
    number = begin_bath(book, COPPER)
    begin_bath(book, ZINC)
    (blue, large) = list_baths(book)
    assert (large.id, large.bath, blue.bath) == (number, COPPER, ZINC)
    assert bath_called(book, " GROSSE  wanne") == large
    assert bath_called(book, "none") is None


def test_two_baths_of_one_name_are_refused(book: Book) -> None:
    begin_bath(book, COPPER)
    with pytest.raises(BookError, match="another name"):
        begin_bath(book, replace(ZINC, name="GROẞE WANNE"))
    number = begin_bath(book, ZINC)
    with pytest.raises(BookError, match="another name"):
        change_bath(book, number, replace(ZINC, name="große wanne"))
    change_bath(book, number, replace(ZINC, name="BLUE"))
    assert {kept.bath.name for kept in list_baths(book)} == {"Große Wanne", "BLUE"}


def test_a_used_bath_keeps_its_metal_and_mordant(book: Book, bath_id: int) -> None:
    bath = list_baths(book)[0].bath
    other = replace(bath, mordant=Mordant.NITRIC_ACID)
    change_bath(book, bath_id, other)
    change_bath(book, bath_id, bath)
    keep_strip(book, bath_id, STRIP)
    with pytest.raises(RefusedPairError, match=r"for copper in ferric chloride.*Nothing was"):
        change_bath(book, bath_id, other)
    assert list_baths(book)[0].bath == bath


def test_a_bath_refuses_another_metal_and_another_mordant(book: Book, bath_id: int) -> None:
    for conditions in (
        Conditions(Metal.ZINC, Mordant.FERRIC_CHLORIDE),
        Conditions(Metal.COPPER, Mordant.NITRIC_ACID),
    ):
        with pytest.raises(RefusedPairError, match="does not belong"):
            require_belongs(list_baths(book)[0].bath, conditions)
        with pytest.raises(RefusedPairError, match="does not belong"):
            note_use(book, bath_id, conditions, Use(Bitten.PLATE, "a"))
    assert use_of(book, bath_id) == BathUse(0, 0, 0.0)


def test_zinc_in_ferric_chloride_is_refused_from_the_start(book: Book) -> None:
    with pytest.raises(BookError, match="Zinc must not"):
        begin_bath(book, Bath("no", Metal.ZINC, Mordant.FERRIC_CHLORIDE))
    assert list_baths(book) == ()


def test_use_adds_up_and_counts_once(book: Book, bath_id: int) -> None:
    for use in (
        Use(Bitten.STRIP, "s1", "2026-01-01", 0.5),
        Use(Bitten.PLATE, "p1", "2026-01-02", 2.0),
        Use(Bitten.PLATE, "p2", "2026-01-03", None),
        Use(Bitten.PLATE, "p3", "", 1.0),
        Use(Bitten.PLATE, "p1", "2026-01-02", 2.5),
    ):
        note_use(book, bath_id, Conditions(), use)
    assert use_of(book, bath_id) == BathUse(3, 1, 4.0)
    assert use_of(book, bath_id, since="2026-01-01") == BathUse(2, 0, 2.5)


def test_share_of_capacity_follows_from_the_salt() -> None:
    # 5.105 g of ferric chloride to the gram of copper, from the atomic weights of IUPAC
    share = share_of_capacity(COPPER, 100.0)
    assert share is not None
    assert share == pytest.approx(100.0 * 5.105 / 5000.0, rel=1e-3)
    assert share_of_capacity(replace(COPPER, salt_g=None), 100.0) is None
    assert share_of_capacity(replace(COPPER, mordant=Mordant.NITRIC_ACID), 1.0) is None


def test_a_bath_is_retired_and_goes_only_if_it_was_never_used(book: Book, bath_id: int) -> None:
    unused = begin_bath(book, replace(ZINC, name="A typing slip"))
    retire_bath(book, unused, "2026-06-01")
    assert [kept.bath.retired_on for kept in list_baths(book)] == ["", "2026-06-01"]
    remove_bath(book, unused)
    note_use(book, bath_id, Conditions(), Use(Bitten.PLATE, "p"))
    with pytest.raises(BookError, match="Retire it"):
        remove_bath(book, bath_id)
    assert [kept.id for kept in list_baths(book)] == [bath_id]
    gone = "not in the studio book any more"
    with pytest.raises(BookError, match=gone):
        remove_bath(book, unused)
    with pytest.raises(BookError, match=gone):
        change_bath(book, unused, ZINC)
    with pytest.raises(BookError, match=gone):
        note_use(book, unused, Conditions(), Use(Bitten.PLATE, "p"))


@pytest.mark.parametrize(
    ("bath", "words"),
    [
        (replace(COPPER, name="  "), "no name"),
        (replace(COPPER, name="x" * 401), "longer than"),
        (replace(COPPER, made_on="yesterday"), "no date"),
        (replace(COPPER, litres=float("nan")), "holds is nan"),
        (replace(COPPER, salt_g=-1.0), "salt in it is -1"),
        (replace(COPPER, q=0.0), "gained over 10"),
        (replace(COPPER, note="\ud800"), "cannot be written"),
    ],
)
def test_a_bath_out_of_bounds_is_refused_with_a_sentence(
    book: Book, bath: Bath, words: str
) -> None:
    with pytest.raises(BookError, match=words):
        begin_bath(book, bath)
    assert list_baths(book) == ()
