"""Notes out of bounds are said, each with its number."""

from dataclasses import replace

import pytest

from toneladder.tones.limits import MOST_NOTES, MOST_POINTS_IN_ALL, note_faults
from toneladder.tones.values import Note, Wish

TRIANGLE = ((0.1, 0.1), (0.4, 0.1), (0.1, 0.5))
NOTE = Note((TRIANGLE,), Wish.RUNGS, rungs=-1, wider_mm=1.5)


def test_an_ordinary_note_has_no_fault() -> None:
    assert list(note_faults([NOTE] * MOST_NOTES)) == []


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"rings": ()}, "Note 2 goes round no place."),
        ({"rings": (TRIANGLE, TRIANGLE[:2])}, "Note 2 goes round no place."),
        ({"rings": (((0.0, 0.0), (1e9, 0.0), (1.0, 1.0)),)}, "Note 2 lies far beside the picture."),
        ({"rungs": 12}, "What note 2 changes is 12; it must lie between -11 and 11."),
        ({"lightness": 101.0}, "The lightness of note 2 is 101; it must lie between 0 and 100."),
        ({"wider_mm": 80.0}, "What note 2 is made wider by is 80 mm"),
    ],
)
def test_every_fault_is_a_sentence(wrong: dict[str, object], said: str) -> None:
    note = replace(NOTE, **wrong)  # type: ignore[arg-type]  # any decision
    (found,) = note_faults([NOTE, note])
    assert found.startswith(said)


def test_too_many_notes_or_corners_are_said() -> None:
    assert "more than 200 notes" in " ".join(note_faults([NOTE] * (MOST_NOTES + 1)))
    fine = replace(NOTE, rings=(TRIANGLE * (MOST_POINTS_IN_ALL // 3 + 1),))
    assert "corners" in " ".join(note_faults([fine]))
