"""JCGM 106:2012, The role of measurement uncertainty in conformity assessment, clause 8.3.

A one-sided guard band w = k u: the multiplier for a 5 % risk is 1.64 (1.645), for 2.5 % 1.96, for
2.3 % 2.0 (the w = U rule). From memory.
"""

import math

import pytest

from hollowright.formulas.fit import guard, guard_factor, odds_below
from hollowright.quantity.statistics import normal_cdf


def test_factors() -> None:
    # Half of each last digit.
    assert guard_factor(0.05) == pytest.approx(1.645, abs=0.0005)
    assert guard_factor(0.025) == pytest.approx(1.96, abs=0.005)
    assert guard_factor(1 - normal_cdf(2.0)) == pytest.approx(2.0, abs=1e-9)


@pytest.mark.parametrize("risk", [0.01, 0.05, 0.16])
def test_the_risk_left_behind_the_guard_is_the_risk_asked(risk: float) -> None:
    # The guard stands on the length; the diameter it leaves is guard / pi: the odds that the ring
    # is still too small (clearance over the aim) are the risk.
    doubt = 0.041
    over = guard(guard_factor(risk), doubt) / math.pi
    assert 1 - odds_below(-over, doubt, 0.0) == pytest.approx(risk, rel=1e-9)
