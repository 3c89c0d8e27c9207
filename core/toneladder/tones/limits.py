"""What notes on a print may be: their bounds, said in sentences."""

from collections.abc import Iterator, Sequence

from toneladder.records import bounds
from toneladder.tones.values import MOST_TONES, Note
from toneladder.wording import say

MOST_NOTES = 200
MOST_POINTS = 4000
"""Corners that one note's outlines have at most."""

MOST_POINTS_IN_ALL = 10 * MOST_POINTS
WIDER_MM = (-50.0, 50.0)

_FEWEST_CORNERS = 3
_FAR = 100_000.0


def note_faults(notes: Sequence[Note]) -> Iterator[str]:
    """Every note that is out of bounds, a sentence for each of its faults."""
    if len(notes) > MOST_NOTES:
        yield say("There are more than {most} notes on the print.", most=MOST_NOTES)
    if sum(len(ring) for note in notes for ring in note.rings) > MOST_POINTS_IN_ALL:
        yield say(
            "The outlines of the notes have more than {most} corners.", most=MOST_POINTS_IN_ALL
        )
    for number, note in enumerate(notes, start=1):
        yield from _faults(number, note)


def _faults(number: int, note: Note) -> Iterator[str]:
    if not note.rings or any(len(ring) < _FEWEST_CORNERS for ring in note.rings):
        yield say("Note {n} goes round no place.", n=number)
    if any(abs(side) > _FAR for ring in note.rings for point in ring for side in point):
        yield say("Note {n} lies far beside the picture.", n=number)
    name = say("What note {n} changes", n=number)
    yield from bounds(name, note.rungs, 1 - MOST_TONES, MOST_TONES - 1)
    yield from bounds(say("The lightness of note {n}", n=number), note.lightness, 0.0, 100.0)
    wider = say("What note {n} is made wider by", n=number)
    yield from bounds(wider, note.wider_mm, *WIDER_MM, unit=" mm")
