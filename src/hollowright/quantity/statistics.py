"""The statistics that readings need: quantiles from a library, Grubbs, the pooled spread.

scipy.special is imported only where Student's t or chi-square is really asked for: a cold command
doesn't pay for it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

SIGNIFICANCE = 0.05
"""Risk of calling a good reading a stranger, or a round tube oval."""


def normal_cdf(z: float) -> float:
    """Probability that a standard normal variable is below z."""
    return 0.5 * math.erfc(-z / math.sqrt(2.0))


def normal_quantile(p: float) -> float:
    """The z below which a standard normal variable falls with probability p (0 < p < 1)."""
    from statistics import NormalDist

    return NormalDist().inv_cdf(p)


def student_quantile(p: float, dof: float) -> float:
    """The t below which Student's t with `dof` degrees of freedom falls with probability p."""
    from scipy.special import stdtrit

    return float(stdtrit(dof, p))


def chi_square_quantile(p: float, dof: float) -> float:
    """The value below which chi-square with `dof` degrees of freedom falls with probability p."""
    from scipy.special import gammaincinv

    return float(2.0 * gammaincinv(dof / 2.0, p))


def mean_and_spread(values: Sequence[float]) -> tuple[float, float]:
    """Mean and experimental standard deviation (JCGM 100 4.2.1, 4.2.2); 0 for a single value."""
    mean = math.fsum(values) / len(values)
    if len(values) < 2:
        return mean, 0.0
    return mean, math.sqrt(math.fsum((v - mean) ** 2 for v in values) / (len(values) - 1))


def grubbs_critical(count: int, significance: float = SIGNIFICANCE) -> float:
    """Grubbs's two-sided critical value for one stranger among `count` readings (3 or more).

    G = (n - 1) / sqrt(n) x sqrt(t^2 / (n - 2 + t^2)), t the quantile of Student's t with n - 2
    degrees of freedom at 1 - significance / (2 n).
    Source: Grubbs, Technometrics 11 (1969); NIST/SEMATECH e-Handbook 1.3.5.17.1.
    """
    if count < 3:
        raise ValueError("Grubbs's test needs three readings or more")
    t = student_quantile(1.0 - significance / (2.0 * count), count - 2)
    return (count - 1) / math.sqrt(count) * math.sqrt(t * t / (count - 2 + t * t))


def stranger(values: Sequence[float], explained: float) -> int | None:
    """Index of the reading that doesn't belong, or None.

    explained: how far [unit] the instrument itself may put a reading off; a reading nearer than
    that to the others' mean is never called a stranger, however alike the others are.
    """
    if len(values) < 3:
        return None
    mean, spread = mean_and_spread(values)
    worst = max(range(len(values)), key=lambda i: abs(values[i] - mean))
    others = [v for i, v in enumerate(values) if i != worst]
    if abs(values[worst] - math.fsum(others) / len(others)) <= explained or not spread:
        return None
    ratio = abs(values[worst] - mean) / spread
    return worst if ratio > grubbs_critical(len(values)) else None


def spread_beyond(values: Sequence[float], standard: float) -> bool:
    """Whether the readings differ more than an instrument with this standard doubt explains.

    Chi-square test of the variance at the usual significance (NIST/SEMATECH e-Handbook 1.3.5.8).
    """
    if len(values) < 2:
        return False
    _, spread = mean_and_spread(values)
    statistic = (len(values) - 1) * (spread / standard) ** 2
    if statistic <= len(values) - 1:  # below its own mean it is below any upper quantile
        return False
    return statistic > chi_square_quantile(1.0 - SIGNIFICANCE, len(values) - 1)
