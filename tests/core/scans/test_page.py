"""A scan becomes a page: smaller by means of light, and evened by its paper."""

import numpy as np
import pytest

from toneladder.scans.page import evened, lamp, page_of


def test_a_large_scan_is_made_smaller_by_means_of_light() -> None:
    light = np.zeros((3000, 1000), np.uint16)
    light[:, ::2] = 65535
    page = page_of(light)
    assert max(page.light.shape) == 1400
    assert page.scale == pytest.approx(3000 / 1400)
    assert page.light[:, 5:-5].mean() == pytest.approx(0.5, abs=1e-3)


def test_a_small_scan_stays_as_it_is() -> None:
    light = np.arange(600, dtype=np.uint16).reshape(20, 30) * 100
    page = page_of(light)
    assert page.scale == 1.0
    assert page.light * 65535 == pytest.approx(light, abs=0.01)


def test_the_lamp_is_seen_on_the_paper_and_not_on_the_ink() -> None:
    rows, columns = np.mgrid[-1:1:200j, -1:1:300j]
    truth = 0.85 * (1.0 - 0.08 * columns - 0.05 * rows**2)
    light = truth.copy()
    light[60:140, 40:260] *= 0.2
    found = lamp(light.astype(np.float32))
    assert found == pytest.approx(truth, rel=0.01)
    paper = evened(light.astype(np.float32), found, 94.0)[:40]
    assert paper == pytest.approx(0.8527, abs=0.008)  # CIE 15: luminance of L* 94
