"""The order of a session as text, and back."""

import math

import pytest
from tests.core.tank.hands import facts, order_of

from toneladder.errors import TankError
from toneladder.tank.begun import Begun, begun_from, begun_text


@pytest.mark.parametrize("tones", [2, 6, 12])
def test_the_order_of_a_session_comes_back_as_it_was(tones: int) -> None:
    begun = Begun(order_of(tones), facts())
    assert any(math.isinf(tone.longest_s) for tone in begun.order.tones)
    assert begun_from(begun_text(begun)) == begun


@pytest.mark.parametrize("text", ["", "{}", "[1]", '{"order": 3, "facts": 4}', "no JSON"])
def test_a_text_that_is_no_order_is_refused_in_a_sentence(text: str) -> None:
    with pytest.raises(TankError, match="The order of this session cannot be read"):
        begun_from(text)
