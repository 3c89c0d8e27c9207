"""Looking words up in the handbook."""

from toneladder.handbook.chapters import Chapter, chapters
from toneladder.handbook.search import search, unmarked, words_of

BOOK = (
    Chapter("baths", "Baths", "# Baths\n\nOf degrees Baumé.\n\n## Stale\n\nA strip, a strip.\n"),
    Chapter("strips", "Strips", "# Strips\n\nBite one.\n\n## When a strip is stale\n\nWet.\n"),
)


def found(words: str) -> list[tuple[str, str]]:
    return [(hit.chapter.name, hit.heading) for hit in search(BOOK, words)]


def test_a_section_must_hold_every_word_and_a_heading_counts_most() -> None:
    assert found("strip stale") == [("strips", "When a strip is stale"), ("baths", "Stale")]


def test_words_side_by_side_count_more_than_words_apart() -> None:
    apart = Chapter("a", "A", "# A\n\nA bite, a bite, a foul one.\n")
    together = Chapter("b", "B", "# B\n\nA *foul* bite.\n")
    hits = search((apart, together), "foul bite")
    assert [hit.chapter.name for hit in hits] == ["b", "a"]
    assert hits[0].excerpt == "A foul bite."


def test_capitals_and_accents_do_not_matter() -> None:
    assert found("BAUME") == found("baumé") == [("baths", "Baths")]


def test_a_word_is_looked_for_from_its_beginning() -> None:
    assert found("bit") == [("strips", "Strips")]
    assert found("aume") == []


def test_nothing_typed_and_nothing_there_find_nothing() -> None:
    assert search(BOOK, "  ") == search(BOOK, "…") == search(BOOK, "lithograph") == ()


def test_signs_of_a_pattern_are_only_letters() -> None:
    assert search(BOOK, "(.*") == ()


def test_the_excerpt_holds_the_first_word_that_was_found() -> None:
    hit = search(chapters(), "asthma")[0]
    assert hit.chapter.name == "cautions"
    assert "asthma" in hit.excerpt
    assert len(hit.excerpt) < 200


def test_what_people_ask_first_leads_where_it_is_told() -> None:
    for words, name in (
        ("foul bite", "what-goes-wrong"),
        ("stale", "test-strips"),
        ("rosin", "cautions"),
        ("plate tone", "words"),
        ("count-in", "at-the-tank"),
    ):
        assert name in [hit.chapter.name for hit in search(chapters(), words)[:3]], words


def test_marks_are_taken_off() -> None:
    assert unmarked("- **dry**, *later*: [Strips](strips)\n1. bite") == "dry, later: Strips bite"


def test_words_are_found_as_they_are_typed() -> None:
    assert words_of("Count-in, COUNT") == ("count", "in")
