"""JCGM 100:2008 (GUM), annex H.2: simultaneous resistance and reactance.

Five sets of voltage, current and phase (Table H.2, seen); the correlated means are made from
independent roots by their Cholesky factor. Printed results of Tables H.3 and H.4 from memory.
"""

import math
from typing import Any

import numpy as np
import pytest

from hollowright.quantity import Quantity, formula, normal, root, total
from hollowright.quantity.budget import covariance
from hollowright.quantity.maths import cos, sin

VOLTS = [5.007, 4.994, 5.005, 4.990, 4.999]
AMPS = [19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3]
PHASE = [1.0456, 1.0438, 1.0468, 1.0428, 1.0433]


@formula("resistance", "ohm")
def resistance(v: Any, i: Any, phi: Any) -> Any:
    """R = (V / I) cos phi."""
    return v / i * cos(phi)


@formula("reactance", "ohm")
def reactance(v: Any, i: Any, phi: Any) -> Any:
    """X = (V / I) sin phi."""
    return v / i * sin(phi)


@formula("impedance", "ohm")
def impedance(v: Any, i: Any) -> Any:
    """Z = V / I."""
    return v / i


def measured() -> list[Quantity]:
    data = np.array([VOLTS, AMPS, PHASE])
    factor = np.linalg.cholesky(np.cov(data) / data.shape[1])
    unit = [root(f"z{k}", "", "", 0.0, normal(1.0)) for k in range(3)]
    means = [root(f"m{k}", "", "", float(data[k].mean()), normal(0.0)) for k in range(3)]
    return [
        total("", "", [means[k], *(unit[j] * float(factor[k, j]) for j in range(3))])
        for k in range(3)
    ]


def correlation(a: Quantity, b: Quantity) -> float:
    return covariance(a, b) / (a.uncertainty * b.uncertainty)


def test_means_and_correlations() -> None:
    v, i, phi = measured()
    # Table H.2, half of each last digit.
    assert v.uncertainty == pytest.approx(0.0032, abs=5e-5)
    assert i.uncertainty * 1000 == pytest.approx(0.0095, abs=5e-5)
    assert phi.uncertainty == pytest.approx(0.00075, abs=5e-6)
    assert correlation(v, i) == pytest.approx(-0.36, abs=0.005)
    assert correlation(v, phi) == pytest.approx(0.86, abs=0.005)
    assert correlation(i, phi) == pytest.approx(-0.65, abs=0.005)


def test_resistance_reactance_impedance() -> None:
    v, i, phi = measured()
    r, x, z = resistance(v, i, phi), reactance(v, i, phi), impedance(v, i)
    # Table H.4, half of each last digit; u(X) is 0.2956 and printed 0.295 (cut, not rounded).
    assert r.value == pytest.approx(127.732, abs=0.0005)
    assert r.uncertainty == pytest.approx(0.071, abs=0.0005)
    assert x.value == pytest.approx(219.847, abs=0.0005)
    assert x.uncertainty == pytest.approx(0.295, abs=0.001)
    assert z.value == pytest.approx(254.260, abs=0.0005)
    assert z.uncertainty == pytest.approx(0.236, abs=0.0005)
    assert correlation(r, x) == pytest.approx(-0.588, abs=0.0005)
    assert correlation(r, z) == pytest.approx(-0.485, abs=0.0005)
    assert correlation(x, z) == pytest.approx(0.993, abs=0.0005)


def test_both_roads_to_the_impedance_agree() -> None:
    v, i, phi = measured()
    r, x = resistance(v, i, phi), reactance(v, i, phi)
    by_parts = math.hypot(r.value, x.value)
    assert by_parts == pytest.approx(impedance(v, i).value, rel=1e-12)
    # V - V is exactly 0 with no doubt at all, however V came about.
    assert (v - v).uncertainty == 0.0
