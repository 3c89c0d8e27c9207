"""Strips on random scans and photographs are found and read; the module figures tries more."""

import numpy as np
import pytest
from tests.core.scans.trial import photographed, scaled, scanned


@pytest.mark.parametrize("seed", range(100, 106))
def test_a_strip_is_found_on_a_scan_and_read(seed: int) -> None:
    tried = scanned(seed)
    assert not tried.fault
    assert np.median(np.abs(tried.errors)) < 0.7
    assert max(np.abs(tried.errors)) < 1.5


@pytest.mark.parametrize("gamma", [1.5, 2.0, 2.6])
def test_a_grey_scale_straightens_a_scanner(gamma: float) -> None:
    tried = scaled(round(100 * gamma), gamma=gamma)
    assert not tried.fault
    assert max(np.abs(tried.errors)) < 1.0


@pytest.mark.parametrize("seed", range(200, 203))
def test_a_photograph_with_a_grey_scale_is_read_with_a_wider_spread(seed: int) -> None:
    tried = photographed(seed)
    assert not tried.fault
    assert max(np.abs(tried.errors)) < 1.5
    assert min(tried.spreads) > 1.0
