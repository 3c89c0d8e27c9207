"""Killed in the midst of its owner's edits, the program offers them back, but for the last few."""

import sys

import pytest
from tests.kills.window import MOST_S, kill_often

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="kills are of Linux")


def test_a_killed_window_loses_at_most_the_last_seconds_and_offers_the_rest_with_its_time() -> None:
    killed = kill_often(4, seed=3)
    assert sum(one.edits for one in killed) > 3
    assert any(one.offered for one in killed)
    assert max(one.lost_s for one in killed) <= MOST_S
