"""How well each likely curve agrees with the readings, if one of them may be a bad one."""

import math
from dataclasses import dataclass

import numpy as np

from toneladder.bite.fitting.values import BoolArray
from toneladder.optics import FloatArray

BAD_SPREAD = 8.0
"""Standard deviation of a bad reading, CIE L*: an assumption."""

BAD_SHARE = 0.1
"""Of all readings, those that are bad: an assumption."""

_ODDS = math.log(BAD_SHARE / (1.0 - BAD_SHARE))


@dataclass(frozen=True, slots=True, eq=False)
class Weighed:
    """Weights (k,) of ``k`` curves, summing to 1, and what each thinks of every reading.

    ``good`` (k,) is how likely it is that all readings are good ones; ``bad`` (k, n) that just
    this one is bad. ``precision`` (n, n) is the inverse covariance of good readings, ``eased``
    (n,) what is taken off it where a reading is bad.
    """

    weight: FloatArray
    good: FloatArray
    bad: FloatArray
    precision: FloatArray
    eased: FloatArray

    @property
    def doubtful(self) -> FloatArray:
        """How likely it is, all in all, that each reading is the bad one, shape (n,)."""
        return np.asarray(self.weight @ self.bad)

    def precision_without(self, reading: int) -> FloatArray:
        """Inverse covariance if that reading is a bad one."""
        column = self.precision[reading]
        return np.asarray(self.precision - self.eased[reading] * np.outer(column, column))


def weigh(
    residuals: FloatArray, covariance: FloatArray, log_likely: FloatArray, known: BoolArray
) -> Weighed:
    """Weigh likely curves against readings of which at most one more is bad.

    Parameters
    ----------
    residuals : (k, n) array, CIE L*
        Readings less each curve.
    covariance : (n, n) array
        Of good readings about the true curve.
    log_likely : (k,) array
        Logarithm of how likely each curve was before.
    known : (n,) array of bool
        Readings already known for bad ones, whose ``covariance`` says so.

    References
    ----------
    [BoxTiao1968] for the bad readings: a second, wider normal law. With one bad reading the
    inverse covariance changes by one column, so all cases cost one matrix product.
    """
    precision = np.asarray(np.linalg.inv(covariance), dtype=np.float64)
    pulled = residuals @ precision
    log_good = log_likely - 0.5 * np.einsum("kn,kn->k", residuals, pulled)
    gain = BAD_SPREAD**2 * np.diag(precision)
    eased = BAD_SPREAD**2 / (1.0 + gain)
    log_bad = 0.5 * eased * pulled**2 + (_ODDS - 0.5 * np.log1p(gain))
    log_bad[:, known] = -np.inf
    most = np.maximum(log_bad.max(axis=1), 0.0)
    good = np.exp(-most)
    bad = np.exp(log_bad - most[:, None])
    total = good + bad.sum(axis=1)
    log_weight = log_good + most + np.log(total)
    weight = np.exp(log_weight - log_weight.max())
    return Weighed(
        weight=weight / weight.sum(),
        good=good / total,
        bad=bad / total[:, None],
        precision=precision,
        eased=eased,
    )
