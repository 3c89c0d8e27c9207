"""Small plates with every kind of meeting of tones, and a large one with lines like a picture's."""

import numpy as np
import pytest
from scipy import ndimage

from toneladder.tones.parting import ToneArray


@pytest.fixture(scope="session")
def hills() -> ToneArray:
    """Five tones of 400 x 560 cells, as of something seen out of focus."""
    noise = np.random.default_rng(7).normal(size=(400, 560))
    height = ndimage.gaussian_filter(noise, 12.0)
    steps = np.quantile(height, [0.2, 0.4, 0.6, 0.8])
    tones: ToneArray = np.digitize(height, steps).astype(np.uint8)
    return tones
