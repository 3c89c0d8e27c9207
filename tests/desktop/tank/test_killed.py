"""The program is killed at random moments of a stay at the tank: nothing that was noted is lost."""

from pathlib import Path

import numpy as np
from tests.desktop.tank.killed import kill_once


def test_a_killed_stay_loses_no_event_and_its_bite_runs_on(tmp_path: Path) -> None:
    chance = np.random.default_rng(20261125)
    found = [kill_once(tmp_path / f"{n}.sqlite", chance) for n in range(6)]
    assert sum(one.reported for one in found) > 6
    assert all(one.lost == 0 for one in found)
    assert all(one.off_s is None or one.off_s < 0.5 for one in found)
    assert any(one.off_s is not None for one in found)
