"""JCGM 101:2008 (GUM supplement 1): Monte Carlo.

9.2.2 and 9.2.3 (sum of four inputs, Tables 2 and 3; seen), 6.4.9 (scaled Student t; from memory).
Tolerances: printed digit and the statistical error of 400,000 draws.
"""

import math

import numpy as np
import pytest

from hollowright.quantity import Quantity, normal, rectangular, root, student, total
from hollowright.quantity.doubt import Doubt
from hollowright.quantity.montecarlo import simulate
from hollowright.quantity.readings import type_a
from hollowright.quantity.statistics import normal_quantile

DRAWS = 400_000


def sum_of_four(doubt: Doubt) -> tuple[Quantity, np.ndarray]:
    made = total("y", "sum", [root(f"x{k}", "", "", 0.0, doubt) for k in range(4)])
    return made, simulate([made], DRAWS)[made]


def test_four_normal() -> None:
    made, drawn = sum_of_four(normal(1.0))
    low, high = np.quantile(drawn, [0.025, 0.975])
    # Table 2: 2.0 and +-3.92.
    assert made.uncertainty == pytest.approx(2.0, abs=1e-12)
    assert float(drawn.std()) == pytest.approx(2.0, abs=0.01)
    assert float(high - low) / 2 == pytest.approx(3.92, abs=0.02)


def test_four_rectangular() -> None:
    made, drawn = sum_of_four(rectangular(math.sqrt(3.0)))
    low, high = np.quantile(drawn, [0.025, 0.975])
    # Table 3: u 2.0; 95 % by Monte Carlo +-3.88 where the normal law says 3.92.
    assert made.uncertainty == pytest.approx(2.0, abs=1e-12)
    assert float(drawn.std()) == pytest.approx(2.0, abs=0.01)
    assert float(high - low) / 2 == pytest.approx(3.88, abs=0.012)
    assert normal_quantile(0.975) * made.uncertainty == pytest.approx(3.92, abs=0.005)
    # A sum of rectangles has an end: nothing lies beyond 4 sqrt 3.
    assert float(np.abs(drawn).max()) < 4 * math.sqrt(3)


def test_student_has_the_standard_uncertainty_of_6_4_9() -> None:
    # 6.4.9.4: u = sqrt((n - 1) / (n - 3)) x s / sqrt n, for n = 4: sqrt 3 x s / 2.
    doubt = type_a([1.00, 1.02, 1.05, 1.01], repeatability=9.0)
    spread = float(np.std([1.00, 1.02, 1.05, 1.01], ddof=1))
    assert doubt.kind == "student"
    assert doubt.dof == pytest.approx(3, abs=0)
    assert doubt.standard == pytest.approx(math.sqrt(3) * spread / 2, rel=1e-12)


def test_student_samples() -> None:
    # 9 degrees of freedom: kurtosis is finite, so the sample's deviation settles: 1 %.
    doubt = student(1.0, 9)
    drawn = doubt.sample(DRAWS, np.random.default_rng(7))
    assert float(drawn.std()) == pytest.approx(math.sqrt(9 / 7), rel=0.01)
    # JCGM 100 Table G.2: t95(9) = 2.26.
    assert float(np.quantile(drawn, 0.975)) == pytest.approx(2.26, abs=0.02)


@pytest.mark.parametrize("dof", [1, 2])
def test_no_student_without_a_variance(dof: int) -> None:
    # 6.4.9.4: the variance needs n above 3; with 2 or 3 readings there is none.
    with pytest.raises(ValueError, match="variance"):
        student(1.0, dof)
