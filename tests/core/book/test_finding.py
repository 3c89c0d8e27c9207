"""Words are found with or without capitals, whatever the script."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.book.finding import folded, sought


@pytest.mark.parametrize(
    ("kept", "asked"),
    [
        ("Étang au matin", "ÉTANG"),
        ("GROẞE Wanne", "große"),
        ("ΟΔΟΣ", "οδος"),
        ("ЦИНК", "цинк"),
        ("E\u0301tang", "étang"),  # a letter and its accent apart
        ("ﬁne grain", "FINE"),
    ],
)
def test_capitals_do_not_matter_in_any_script(kept: str, asked: str) -> None:
    assert all(word in folded(kept) for word in sought(asked))


@given(st.text())
def test_folding_twice_is_folding_once(text: str) -> None:
    assert folded(folded(text)) == folded(text)


def test_a_search_for_nothing_seeks_no_words() -> None:
    assert sought(" \t\n ") == ()
