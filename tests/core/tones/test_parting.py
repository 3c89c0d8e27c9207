"""Tones by look-up table, and what is too small or too close to be one."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from toneladder.tones.choose import Levels
from toneladder.tones.parting import part

TARGETS = np.linspace(18.0, 92.0, 256)


def even(count: int) -> Levels:
    levels = np.linspace(92.0, 18.0, count)
    return Levels(tuple(levels), tuple((levels[1:] + levels[:-1]) / 2), 0.0)


@given(st.integers(2, 12), st.lists(st.integers(0, 500), min_size=256, max_size=256))
def test_every_step_has_one_tone_and_no_tone_is_lost(count: int, cells: list[int]) -> None:
    counts = np.array(cells)
    parted = part(even(count), TARGETS, counts, 100)
    table = np.array(parted.table)
    assert np.all(np.diff(table) <= 0)
    assert sum(parted.cells) == counts.sum()
    assert len(parted.levels) == len(parted.cells) == len(parted.partings) + 1 >= 2
    assert len(parted.joined) + len(parted.levels) == count
    assert all(n >= 100 for n in parted.cells[1:]) or len(parted.levels) == 2


def test_an_all_white_plate_keeps_white_and_deepest() -> None:
    counts = np.zeros(256, dtype=np.int64)
    counts[255] = 1000
    parted = part(even(6), TARGETS, counts, 20)
    assert parted.cells == (1000, 0)
    assert parted.levels[0] == 92.0


def test_tones_nobody_can_tell_apart_become_one() -> None:
    levels = Levels((92.0, 60.0, 58.5, 18.0), (76.0, 59.25, 38.0), 0.0)
    parted = part(levels, TARGETS, np.full(256, 1000), 20)
    assert parted.levels in {(92.0, 60.0, 18.0), (92.0, 58.5, 18.0)}
    assert len(parted.joined) == 1


def test_a_tone_that_only_a_note_asks_for_is_not_too_small() -> None:
    counts = np.zeros(256, dtype=np.int64)
    counts[150:] = 1000
    assert part(even(6), TARGETS, counts, 20).joined == (3, 4, 5)
    assert part(even(6), TARGETS, counts, 20, wished=[(0.0, 40)]).joined == (3, 4)
    assert part(even(6), TARGETS, counts, 20, wished=[(0.0, 4)]).joined == (3, 4, 5)
    assert part(even(6), TARGETS, counts, 20, wished=[(33.0, 40)]).joined == (3, 5)
