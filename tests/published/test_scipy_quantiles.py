"""SciPy's statistics (scipy.stats): quantiles of the normal, Student's t and chi-square.

An independent implementation behind another interface; tolerance 1e-9 relative, the accuracy both
libraries claim and more than any reading needs.
"""

import pytest

from hollowright.quantity.statistics import (
    chi_square_quantile,
    normal_cdf,
    normal_quantile,
    student_quantile,
)

stats = pytest.importorskip("scipy.stats")

CHANCES = (0.001, 0.025, 0.05, 0.4, 0.6, 0.95, 0.975, 0.9999)


@pytest.mark.parametrize("p", CHANCES)
def test_normal(p: float) -> None:
    assert normal_quantile(p) == pytest.approx(stats.norm.ppf(p), rel=1e-9)
    assert normal_cdf(normal_quantile(p)) == pytest.approx(p, rel=1e-9)
    assert normal_cdf(3 * p - 1) == pytest.approx(stats.norm.cdf(3 * p - 1), rel=1e-9)


@pytest.mark.parametrize("dof", [1, 2, 3, 7, 16.7, 400])
@pytest.mark.parametrize("p", CHANCES)
def test_student(p: float, dof: float) -> None:
    assert student_quantile(p, dof) == pytest.approx(stats.t.ppf(p, dof), rel=1e-9)


@pytest.mark.parametrize("dof", [1, 2, 5, 49])
@pytest.mark.parametrize("p", CHANCES)
def test_chi_square(p: float, dof: float) -> None:
    assert chi_square_quantile(p, dof) == pytest.approx(stats.chi2.ppf(p, dof), rel=1e-9)
