"""What is assumed and learnt about plates that stray from their strip."""

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.stats import t as student

from toneladder.bite.curve import NINETY_PERCENT
from toneladder.bite.fitting import Scatter, Session
from toneladder.bite.fitting.plate_scatter import first_law, learnt

STRIP, PROOF = Session(()), Session((), proof=True)


def test_before_anything_is_compared_the_assumption_is_what_is_said() -> None:
    for assumed in (Scatter(), Scatter(0.1, 1.5)):
        said = first_law([STRIP], 0, assumed).scatter
        assert said.time == pytest.approx(assumed.time)
        assert said.lightness == pytest.approx(assumed.lightness)
        assert said.learnt_from == 0


def test_the_band_of_an_estimated_scatter_is_that_of_student() -> None:
    for sessions in (1, 3, 6):  # ten degrees of freedom are held at first
        law = first_law([STRIP, *[PROOF] * (sessions - 1)], 0, Scatter())
        wanted = float(student(10 + sessions - 1).ppf(0.95))
        assert math.sqrt(law.widening) * NINETY_PERCENT == pytest.approx(wanted, rel=1e-3)


def test_sessions_are_measured_by_the_one_of_reference() -> None:
    law = first_law([STRIP, PROOF, PROOF], 0, Scatter())
    assert np.all(law.shape[0] == 0)
    assert np.linalg.eigvalsh(law.shape).min() > -1e-12
    assert law.shape == pytest.approx(law.shape.T)
    # differences of sessions do not depend on which one they are measured by
    other = first_law([STRIP, PROOF, PROOF], 2, Scatter())
    for one, two in ((0, 1), (1, 3), (2, 3)):
        apart = [
            table[one, one] + table[two, two] - 2.0 * table[one, two]
            for table in (law.shape, other.shape)
        ]
        assert apart[0] == pytest.approx(apart[1])


def test_luck_known_exactly_is_less_than_luck_unknown() -> None:
    alone = first_law([STRIP], 0, Scatter()).luck
    many = first_law([STRIP, *[PROOF] * 8], 0, Scatter()).luck
    assert 1.0 < many < alone


def test_scatter_is_learnt_in_the_long_run() -> None:
    rng = np.random.default_rng(1)
    sessions = [PROOF] * 200
    law = replace(first_law(sessions, 0, Scatter()), absolute=np.eye(201))
    found = np.append(rng.normal(0.0, 0.3, 200), 0.0)
    variance = learnt(law.time, law, found, np.zeros((201, 201)))
    assert math.sqrt(variance) == pytest.approx(0.3, rel=0.1)
