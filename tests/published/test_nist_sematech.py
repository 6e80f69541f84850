"""NIST/SEMATECH e-Handbook of Statistical Methods: outliers (1.3.5.17.1) and tables (1.3.6.7).

Grubbs's critical values after Grubbs, Technometrics 11 (1969), and the chi-square table, from
memory; the handbook's uranium example with its statistic and its one-sided critical value, from
memory.
"""

import pytest

from hollowright.quantity.statistics import (
    chi_square_quantile,
    grubbs_critical,
    mean_and_spread,
    stranger,
)

URANIUM = [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57]


@pytest.mark.parametrize(
    ("count", "critical"),
    [(3, 1.155), (4, 1.481), (5, 1.715), (6, 1.887), (7, 2.020), (8, 2.126), (9, 2.215),
     (10, 2.290), (15, 2.549), (20, 2.709)],
)  # fmt: skip
def test_two_sided_five_percent(count: int, critical: float) -> None:
    # Three decimals are printed: a unit of the last one.
    assert grubbs_critical(count, 0.05) == pytest.approx(critical, abs=0.001)


def test_uranium_example() -> None:
    mean, spread = mean_and_spread(URANIUM)
    # 2.46876 is printed 2.4687, cut: a unit of the last digit.
    assert (max(URANIUM) - mean) / spread == pytest.approx(2.4687, abs=0.0001)
    # Printed 2.032 is the one-sided 5 % value: two-sided at 10 %.
    assert grubbs_critical(8, 0.10) == pytest.approx(2.032, abs=0.0005)
    assert stranger(URANIUM, explained=0.0) == 7


@pytest.mark.parametrize(
    ("dof", "value"), [(1, 3.841), (2, 5.991), (3, 7.815), (5, 11.070), (10, 18.307)]
)
def test_chi_square(dof: int, value: float) -> None:
    assert chi_square_quantile(0.95, dof) == pytest.approx(value, abs=0.0005)
