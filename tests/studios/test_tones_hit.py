"""What plans made from strips really print, beside three ways that need no program.

``python -m tests.studios.figures`` prints more: also strips whose patches lie farther apart,
and what one bad patch in eight costs.
"""

import pytest
from tests.studios.trial import Table, tones_hit

OTHER_WAYS = ("nearest patch", "straight lines", "monotone curve")


def assert_better_tail(table: Table) -> None:
    for way in OTHER_WAYS:
        assert table.tail() < table.tail(way), way


def test_eight_patches_hit_the_tones_and_better_than_every_other_way() -> None:
    table = tones_hit()
    assert table.middle() <= 0.55
    assert table.tail() <= 1.0
    assert_better_tail(table)


def test_with_one_bad_patch_in_eight_no_other_way_comes_near() -> None:
    table = tones_hit(one_bad=True)
    assert_better_tail(table)
    assert table.middle() < 0.5 * min(table.middle(way) for way in OTHER_WAYS)


def test_eight_patches_chosen_for_the_bath_bear_a_bad_one() -> None:
    table = tones_hit(seeds=8, telling=8, one_bad=True)
    assert table.middle() <= 0.55
    assert table.tail() <= 1.0
    assert_better_tail(table)


def test_bad_patches_are_named_and_good_ones_hardly_ever() -> None:
    table = tones_hit(one_bad=True)
    strips = len(table.misses["fit"])
    assert table.named >= 0.8 * strips
    assert table.wrongly_named <= 0.01 * 7 * strips


@pytest.mark.parametrize(
    ("patches", "middle", "tail"),
    [
        ((0, 1, 3, 5), 0.7, 1.3),  # none, 15 s, 1 and 4 min on copper
        ((0, 2, 4, 6), 0.7, 1.3),  # none, 30 s, 2 and 8 min
        ((1, 3), 0.7, 1.6),  # 15 s and 1 min
    ],
)
def test_a_few_patches_hit_the_tones_down_to_the_darkest_of_them(
    patches: tuple[int, ...], middle: float, tail: float
) -> None:
    table = tones_hit(patches, seeds=5)
    assert table.middle() <= middle
    assert table.tail() <= tail


def test_patches_chosen_for_the_bath_hit_better_than_as_many_doublings() -> None:
    """Four of each, from none to the same longest one."""
    chosen, doubled = tones_hit(seeds=5, telling=4), tones_hit((0, 3, 5, 7), seeds=5)
    assert chosen.middle() < doubled.middle()
    assert chosen.tail() < doubled.tail()
