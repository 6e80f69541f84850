"""JCGM 100:2008 (GUM), annex H.1: calibration of an end gauge.

Inputs as the annex gives them (H.1.3, Table H.1); the printed results are from memory of H.1.6 and
H.1.7 and agree with open copies of Table H.1. Lengths in nm, temperatures in degrees C.
"""

import math
from typing import Any

import pytest

from hollowright.quantity import Doubt, Quantity, formula, normal, rectangular, root
from hollowright.quantity.budget import budget, effective_dof
from hollowright.quantity.montecarlo import simulate
from hollowright.quantity.statistics import student_quantile


@formula("gauge", "nm")
def gauge(
    standard: Any, d: Any, random: Any, systematic: Any, da: Any, theta: Any, a: Any, dt: Any
) -> Any:
    """Length of the gauge.

    gauge = standard + d + random + systematic - standard x (da x theta + a x dt)
    """
    return standard + d + random + systematic - standard * (da * theta + a * dt)


def within(half: float, dof: float) -> Doubt:
    """A rectangular doubt whose half width is itself in doubt (G.4.2)."""
    return Doubt("rectangular", half / math.sqrt(3), dof)


def end_gauge() -> Quantity:
    return gauge(
        root("standard", "standard's length", "nm", 50_000_623.0, normal(75 / 3, 18)),
        root("d", "difference, 5 repeats", "nm", 215.0, normal(13 / math.sqrt(5), 24)),
        root("random", "comparator, random", "nm", 0.0, normal(10 / 2.57, 5)),
        root("systematic", "comparator, systematic", "nm", 0.0, normal(20 / 3, 8)),
        root("da", "expansion apart", "1/K", 0.0, within(1e-6, 50)),
        root("theta", "table off 20 C", "K", -0.1, normal(math.hypot(0.2, 0.5 / math.sqrt(2)))),
        root("a", "standard's expansion", "1/K", 11.5e-6, rectangular(2e-6)),
        root("dt", "warmth apart", "K", 0.0, within(0.05, 2)),
    )


def test_length_and_doubt() -> None:
    made = end_gauge()
    # H.1.7 prints 50.000838 mm: half of its last digit (1 nm).
    assert made.value == pytest.approx(50_000_838, abs=0.5)
    # H.1.4 prints 32 nm: half of the last digit; unrounded it is 31.66.
    assert made.uncertainty == pytest.approx(32, abs=0.5)


def test_budget() -> None:
    effects = {share.id: share.effect for share in budget(end_gauge())}
    # H.1.4: 25, 5.8, 3.9, 6.7, 2.9, 16.6 nm, half of the last printed digit each.
    assert effects["standard"] == pytest.approx(25, abs=0.5)
    assert effects["d"] == pytest.approx(5.8, abs=0.05)
    assert effects["random"] == pytest.approx(3.9, abs=0.05)
    assert effects["systematic"] == pytest.approx(6.7, abs=0.05)
    assert effects["da"] == pytest.approx(2.9, abs=0.05)
    assert effects["dt"] == pytest.approx(16.6, abs=0.05)
    # theta and the standard's expansion have no slope at these estimates: first order 0.
    assert "a" not in effects
    assert "theta" not in effects


def test_degrees_of_freedom() -> None:
    made = end_gauge()
    dof = effective_dof(made)
    # H.1.6 prints 16, the whole number below 16.7. The rounded 32 would give 17.5: a trap.
    assert math.floor(dof) == pytest.approx(16, abs=0)
    assert dof == pytest.approx(16.7, abs=0.05)
    assert dof * (32 / made.uncertainty) ** 4 == pytest.approx(17.5, abs=0.05)
    # t99(16) = 2.92 and U99 = 93 nm: the annex multiplies the rounded 32 (93.4), we 31.66 (92.5).
    assert student_quantile(0.995, 16) == pytest.approx(2.92, abs=0.005)
    assert student_quantile(0.995, 16) * made.uncertainty == pytest.approx(93, abs=1)


def test_difference_has_25_6_degrees() -> None:
    # H.1.6: u(d) = 9.7 nm with 25.6 degrees of freedom from 24, 5 and 8.
    parts = [
        root("r", "", "nm", 0.0, normal(13 / math.sqrt(5), 24)),
        root("c", "", "nm", 0.0, normal(10 / 2.57, 5)),
        root("s", "", "nm", 0.0, normal(20 / 3, 8)),
    ]
    d = parts[0] + parts[1] + parts[2]
    assert d.uncertainty == pytest.approx(9.7, abs=0.05)
    assert effective_dof(d) == pytest.approx(25.6, abs=0.1)


def test_second_order_by_monte_carlo() -> None:
    # H.1.7: with second-order terms u = 34. Monte Carlo sees them; 100,000 draws: 0.3 % of 34, and
    # half of the last digit.
    made = end_gauge()
    drawn = simulate([made], 100_000)[made]
    assert float(drawn.std()) == pytest.approx(34, abs=0.6)
