"""JCGM 100:2008 (GUM), Table G.2: quantiles of Student's t.

From memory, two decimals, for coverage 95 %, 95.45 % and 99 %. Tolerance: half of the last digit.
"""

import pytest

from hollowright.quantity.statistics import student_quantile

TABLE = {
    1: (12.71, 13.97, 63.66), 2: (4.30, 4.53, 9.92), 3: (3.18, 3.31, 5.84), 4: (2.78, 2.87, 4.60),
    5: (2.57, 2.65, 4.03), 8: (2.31, 2.37, 3.36), 10: (2.23, 2.28, 3.17), 16: (2.12, 2.17, 2.92),
    20: (2.09, 2.13, 2.85), 50: (2.01, 2.05, 2.68),
}  # fmt: skip


@pytest.mark.parametrize("dof", TABLE)
def test_quantiles(dof: int) -> None:
    for printed, cover in zip(TABLE[dof], (0.95, 0.9545, 0.99), strict=True):
        assert student_quantile((1 + cover) / 2, dof) == pytest.approx(printed, abs=0.00501)
