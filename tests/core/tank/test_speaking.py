"""What is spoken while a bite runs."""

from itertools import pairwise

from tests.core.tank.hands import Hands

from toneladder.tank.speaking import spoken_between
from toneladder.tank.values import Kind


def test_the_time_to_go_the_lift_and_every_ten_seconds_over_are_spoken_once() -> None:
    hands = Hands()
    for done in hands.order.steps[:2]:
        hands.enter(Kind.GIVEN, seconds=done.bite_s)
    length = hands.begin_bite().length_s
    start = hands.now
    looks = [0.7 * k for k in range(int((length + 25.0) / 0.7) + 1)]
    spoken: list[str] = []
    for then, now in pairwise(looks):
        hands.now = start.later(now)
        spoken.extend(spoken_between(hands.standing, start.later(then), hands.now))
    assert [text.replace("\N{NO-BREAK SPACE}", " ") for text in spoken] == [
        "1 min to go.",
        "30 s to go.",
        "10 s to go.",
        "Lift now.",
        "10 s over.",
        "20 s over.",
    ]
    hands.press()
    assert spoken_between(hands.standing, hands.now, hands.now.later(60.0)) == ()
