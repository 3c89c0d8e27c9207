"""What is heard, when, and how often."""

from itertools import pairwise

import numpy as np
import pytest
from tests.core.tank.hands import NOON, Hands

from toneladder.tank.sounds import TONES, Sound, heard, sounds_between
from toneladder.tank.values import Kind


def heard_in(hands: Hands, seconds: float, seed: int = 3) -> list[tuple[float, Sound]]:
    """Every sound of the next ``seconds`` and when it came, looked for at random moments."""
    start = hands.now
    rng = np.random.default_rng(seed)
    looks = np.sort(rng.uniform(0.0, seconds, int(seconds * 2)))
    came: list[tuple[float, Sound]] = []
    for then, now in pairwise([0.0, *looks.tolist(), seconds]):
        hands.now = start.later(now)
        found = heard(hands.standing, start.later(then), hands.now)
        came.extend((then + after, sound) for after, sound in found)
    return came


def test_the_count_in_is_three_short_and_one_long() -> None:
    hands = Hands()
    hands.press()
    hands.press()
    came = heard_in(hands, 10.5)
    assert [sound for _, sound in came] == [Sound.IN_SHORT] * 3 + [Sound.IN_LONG]
    assert [at for at, _ in came] == pytest.approx([7.0, 8.0, 9.0, 10.0], abs=0.01)


@pytest.mark.parametrize(("step", "warned"), [(1, [12.5]), (4, [60.0, 30.0])])
def test_a_bite_is_warned_of_and_the_lift_mirrors_the_entry(step: int, warned: list[float]) -> None:
    hands = Hands()
    for done in hands.order.steps[: step - 1]:
        hands.enter(Kind.GIVEN, seconds=done.bite_s)
    length = hands.begin_bite().length_s
    came = heard_in(hands, length + 1.0)
    expected = [Sound.WARNING] * len(warned) + [Sound.LIFT_SHORT] * 3 + [Sound.LIFT_LONG]
    assert [sound for _, sound in came] == expected
    before = [*warned, 3.0, 2.0, 1.0, 0.0]
    assert [length - at for at, _ in came] == pytest.approx(before, abs=0.01)


def test_a_late_lift_is_called_every_two_seconds_louder_after_ten_until_acknowledged() -> None:
    hands = Hands()
    length = hands.begin_bite().length_s
    hands.wait(length + 0.01)
    called = [sound for _, sound in heard_in(hands, 20.5)]
    assert called == [Sound.CALL] * 5 + [Sound.LOUD_CALL] * 5
    hands.press()
    assert heard_in(hands, 30.0) == []


def test_no_tone_lies_above_what_old_ears_hear_and_the_entry_is_told_from_the_lift() -> None:
    assert all(tone.hertz <= 1500.0 for tones in TONES.values() for tone in tones)
    assert set(TONES) == set(Sound)
    assert TONES[Sound.LIFT_LONG] != TONES[Sound.IN_LONG]


def test_nothing_is_heard_where_nothing_is_timed() -> None:
    hands = Hands()
    assert sounds_between(hands.standing, NOON, NOON.later(3600.0)) == ()
    hands.bite()
    assert sounds_between(hands.standing, hands.now, hands.now.later(3600.0)) == ()
    hands.enter(Kind.PAINTED)
    assert sounds_between(hands.standing, hands.now, hands.now.later(3600.0)) == (Sound.DRY,)
