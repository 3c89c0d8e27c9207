"""After one proof the next plate of the bath, with another number of tones, is as planned.

``python -m tests.studios.figures`` prints more.
"""

import numpy as np
from tests.studios.loop import closed, read_from_a_scan


def test_one_proof_closes_the_loop() -> None:
    loop = closed(seeds=2)
    assert np.median(loop.first) > 1.5
    assert np.median(loop.after) <= 0.5
    assert np.percentile(loop.after, 90.0) <= 1.0


def test_a_scanned_proof_closes_it_as_well() -> None:
    loop = closed(seeds=1, read=read_from_a_scan, shops=5)
    assert np.median(loop.after) <= 0.6
    assert max(loop.after) < 0.7 * np.median(loop.first)
