"""A title from the picture's name."""

from toneladder.plate.title import title_of


def test_a_title_is_what_a_person_would_write() -> None:
    assert title_of("old_harbour-wall.jpg") == "Old harbour wall"
    assert title_of(".png") == ".png"
