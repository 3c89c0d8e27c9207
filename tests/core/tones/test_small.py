"""Places smaller than was asked for go; doing it again changes nothing."""

import numpy as np
from scipy import ndimage

from toneladder.tones.small import without_small


def test_no_place_is_smaller_than_asked_and_again_changes_nothing() -> None:
    rng = np.random.default_rng(3)
    noise = ndimage.gaussian_filter(rng.normal(size=(300, 400)), 4.0)
    tones = np.digitize(noise, np.quantile(noise, [0.2, 0.4, 0.6, 0.8])).astype(np.uint8)
    result = without_small(tones, 5, 200.0)
    for k in range(1, 5):
        for cells in (result < k, result >= k):
            pieces, number = ndimage.label(cells, structure=np.ones((3, 3)))
            sizes = np.bincount(pieces.ravel(), minlength=number + 1)[1:]
            assert sizes.min() >= 200
    assert np.array_equal(without_small(result, 5, 200.0), result)
    assert not np.array_equal(result, tones)
