"""Weights of likely curves against plain normal densities, case by case."""

import numpy as np
import pytest
from scipy.stats import multivariate_normal

from toneladder.bite.fitting.weighing import BAD_SPREAD, weigh

BAD_SHARE = 0.1
RNG = np.random.default_rng(3)
CURVES, READINGS = 7, 5
RESIDUALS = RNG.normal(0.0, 3.0, (CURVES, READINGS))
MIXING = RNG.normal(0.0, 1.0, (READINGS, READINGS))
COVARIANCE = MIXING @ MIXING.T + np.eye(READINGS)
LOG_LIKELY = RNG.normal(0.0, 1.0, CURVES)
NONE = np.zeros(READINGS, dtype=bool)


def cases(covariance: np.ndarray) -> np.ndarray:
    """Probability of every curve with no bad reading, then with each one bad, from densities."""
    odds = BAD_SHARE / (1.0 - BAD_SHARE)
    columns = [multivariate_normal(cov=covariance).pdf(RESIDUALS)]
    for reading in range(READINGS):
        wider = covariance.copy()
        wider[reading, reading] += BAD_SPREAD**2
        columns.append(odds * multivariate_normal(cov=wider).pdf(RESIDUALS))
    joint = np.exp(LOG_LIKELY)[:, None] * np.array(columns).T
    return np.asarray(joint / joint.sum())


def test_one_matrix_product_weighs_all_cases_as_their_densities_do() -> None:
    found = weigh(RESIDUALS, COVARIANCE, LOG_LIKELY, NONE)
    wanted = cases(COVARIANCE)
    assert found.weight == pytest.approx(wanted.sum(axis=1))
    assert found.weight * found.good == pytest.approx(wanted[:, 0])
    assert found.weight[:, None] * found.bad == pytest.approx(wanted[:, 1:])
    assert found.doubtful == pytest.approx(wanted[:, 1:].sum(axis=0))


def test_the_precision_without_a_reading_is_the_inverse_with_its_noise_widened() -> None:
    found = weigh(RESIDUALS, COVARIANCE, LOG_LIKELY, NONE)
    wider = COVARIANCE.copy()
    wider[2, 2] += BAD_SPREAD**2
    assert found.precision_without(2) == pytest.approx(np.linalg.inv(wider))


def test_a_known_bad_reading_is_not_suspected_again() -> None:
    known = np.arange(READINGS) == 1
    found = weigh(RESIDUALS, COVARIANCE, LOG_LIKELY, known)
    assert found.doubtful[1] == 0.0


def test_readings_hopelessly_far_off_still_weigh_something() -> None:
    found = weigh(RESIDUALS * 1e4, COVARIANCE, LOG_LIKELY, NONE)
    assert found.weight.sum() == pytest.approx(1.0)
    assert np.all(np.isfinite(found.bad))
