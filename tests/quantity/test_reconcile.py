"""A bore reckoned and a bore read: best weights, shared errors, the misreading found."""

from __future__ import annotations

import math

import numpy as np
import pytest

from hollowright.formulas import tube
from hollowright.quantity import Quantity, normal, root
from hollowright.quantity.budget import covariance
from hollowright.quantity.montecarlo import simulate
from hollowright.quantity.readings import Instrument, from_readings
from hollowright.quantity.reconcile import direct_share, reconcile

CALLIPER = Instrument("calliper", "calliper", 0.02, 0.01, 0.01, zero=0.03, inside_mpe=0.02)
ONCE = {"outside": (0.01, 1), "wall": (0.01, 1), "direct": (0.01, 1)}
"""Last-digit step [mm] and number of the readings behind each."""


def two_ways(
    outside: list[float], wall: list[float], bore: list[float]
) -> tuple[Quantity, Quantity]:
    zero = CALLIPER.zero_error()
    made = [
        from_readings(id, label, values, CALLIPER, zero, inside=id == "direct").quantity
        for id, label, values in (
            ("outside", "outside diameter", outside),
            ("wall", "wall", wall),
            ("direct", "bore, read directly", bore),
        )
    ]
    return tube.bore(made[0], made[1]), made[2]


def test_weights_are_the_best() -> None:
    # Slow reference: the least variance over a fine grid of weights.
    va, vb, cov = 0.031**2, 0.026**2, -0.0002
    grid = np.linspace(0, 1, 100_001)
    variance = (1 - grid) ** 2 * va + grid**2 * vb + 2 * grid * (1 - grid) * cov
    assert direct_share(va, vb, cov) == pytest.approx(float(grid[variance.argmin()]), abs=2e-5)


def test_shares_stay_within_nought_and_one() -> None:
    assert direct_share(1.0, 4.0, 1.5) == 0.0
    assert direct_share(4.0, 1.0, 1.5) == 1.0
    assert direct_share(1.0, 1.0, 1.0) == 0.5


def test_zero_error_shifts_the_two_ways_apart() -> None:
    reckoned, direct = two_ways([38.05], [1.01], [36.03])
    # e shifts outside - 2 x wall by -e and the direct bore by +e: covariance - u(e)^2.
    assert covariance(reckoned, direct) == pytest.approx(-(0.03**2) / 3)


def test_combined_is_surer_than_either() -> None:
    reckoned, direct = two_ways([38.05], [1.01], [36.03])
    joined, cautions = reconcile(reckoned, direct, ONCE)
    assert cautions == ()
    assert joined.uncertainty < min(reckoned.uncertainty, direct.uncertainty)
    # By Monte Carlo of the same graph: 200,000 draws, 0.5 %.
    drawn = simulate([joined], 200_000)[joined]
    assert float(drawn.std()) == pytest.approx(joined.uncertainty, rel=0.006)


def test_combined_lies_between() -> None:
    reckoned, direct = two_ways([38.05], [1.01], [36.07])
    joined, _ = reconcile(reckoned, direct, ONCE)
    assert 36.03 < joined.value < 36.07
    assert joined.id == "bore"


def test_independent_ways_by_inverse_variance() -> None:
    a = root("a", "a", "mm", 36.00, normal(0.03))
    b = root("b", "b", "mm", 36.04, normal(0.01))
    joined, _ = reconcile(a, b, {})
    assert joined.value == pytest.approx((36.00 / 9 + 36.04) / (1 / 9 + 1), abs=1e-6)
    assert joined.uncertainty == pytest.approx(1 / math.sqrt(1 / 0.03**2 + 1 / 0.01**2), rel=1e-6)


@pytest.mark.parametrize(
    ("outside", "wall", "bore", "named", "right"),
    [
        ([38.05], [1.01], [36.30], "bore, read directly", "36.03"),  # digits swapped
        ([38.05], [2.02], [36.03], "wall", "1.01"),  # read double
        ([19.025], [1.01], [36.03], "outside diameter", "38.05"),  # radius
        ([38.05], [10.1], [36.03], "wall", "1.01"),  # the point slipped
    ],
)
def test_the_suspect(
    outside: list[float], wall: list[float], bore: list[float], named: str, right: str
) -> None:
    reckoned, direct = two_ways(outside, wall, bore)
    joined, cautions = reconcile(reckoned, direct, ONCE)
    assert len(cautions) == 1
    assert f"Suspect: {named}" in cautions[0].text
    assert f"at {right}" in cautions[0].text
    # Nothing is dropped, and what can't be decided becomes doubt: both stay within two of it.
    for way in (reckoned, direct):
        assert abs(joined.value - way.value) <= 2.2 * joined.uncertainty


def test_a_lone_reading_is_suspected_before_three_that_agree() -> None:
    reckoned, direct = two_ways([34.92, 34.95, 34.93], [0.92, 0.91], [32.50])
    _, cautions = reconcile(reckoned, direct, ONCE | {"outside": (0.01, 3), "wall": (0.01, 2)})
    assert "Suspect: bore" in cautions[0].text


def test_good_pairs_are_seldom_blamed() -> None:
    # 500 pairs drawn from the very doubts: 1 in 100 lies beyond the limit; 2.5 % at most.
    reckoned, direct = two_ways([38.05], [1.01], [36.03])
    drawn = simulate([reckoned, direct], 20_000)
    gap = drawn[reckoned] - drawn[direct]
    allowed = 2.576 * (reckoned - direct).uncertainty
    assert float((np.abs(gap) > allowed).mean()) < 0.012
