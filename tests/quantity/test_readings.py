"""Readings become quantities: mean, type A, type B, strangers, ovality, the shared zero."""

from __future__ import annotations

import math

import numpy as np
import pytest

from hollowright.quantity import Quantity
from hollowright.quantity.budget import budget, covariance
from hollowright.quantity.readings import Instrument, Reading, from_readings, type_a
from hollowright.quantity.statistics import spread_beyond, stranger

CALLIPER = Instrument("calliper", "calliper", 0.02, 0.01, 0.01, zero=0.01, inside_mpe=0.02)


def read(values: list[float], zero: Quantity | None = None, **how: bool) -> Reading:
    return from_readings("size", "size", values, CALLIPER, zero or CALLIPER.zero_error(), **how)


@pytest.mark.parametrize("values", [[38.05], [38.05, 38.08], [1.02, 1.01, 1.03, 1.02]])
def test_mean(values: list[float]) -> None:
    assert read(values).quantity.value == pytest.approx(float(np.mean(values)), rel=1e-14)


@pytest.mark.parametrize("count", [1, 2, 3])
def test_below_four_the_pooled_repeatability(count: int) -> None:
    doubt = type_a([1.0 + 0.003 * k for k in range(count)], 0.012)
    assert doubt.kind == "normal"
    assert doubt.standard == pytest.approx(0.012 / math.sqrt(count))


@pytest.mark.parametrize("count", [4, 5, 12])
def test_from_four_on_students_t(count: int) -> None:
    values = [1.0 + 0.01 * math.sin(3.0 * k) for k in range(count)]
    doubt = type_a(values, 9.0)
    own = float(np.std(values, ddof=1)) / math.sqrt(count)
    assert doubt.kind == "student"
    assert doubt.dof == count - 1
    assert doubt.standard == pytest.approx(own * math.sqrt((count - 1) / (count - 3)))


def test_type_b_by_hand() -> None:
    # One reading: repeatability 0.01, mpe 0.02, half a digit 0.005, zero 0.01, all rectangular but
    # the first.
    by_hand = math.sqrt(0.01**2 + (0.02**2 + 0.005**2 + 0.01**2) / 3)
    assert read([38.05]).quantity.uncertainty == pytest.approx(by_hand, rel=1e-12)
    inside = math.sqrt(0.01**2 + (0.04**2 + 0.005**2 + 0.01**2) / 3)
    assert read([36.02], inside=True).quantity.uncertainty == pytest.approx(inside, rel=1e-12)


def test_more_readings_help_the_scatter_only() -> None:
    one, three = read([5.0]).quantity, read([5.0, 5.0, 5.0]).quantity
    least = math.sqrt((0.02**2 + 0.005**2 + 0.01**2) / 3)
    assert one.uncertainty > three.uncertainty > least


def test_zero_is_shared() -> None:
    zero = CALLIPER.zero_error()
    a = from_readings("a", "a", [38.05], CALLIPER, zero).quantity
    b = from_readings("b", "b", [1.02], CALLIPER, zero).quantity
    assert covariance(a, b) == pytest.approx(0.01**2 / 3)
    apart = math.hypot(a.uncertainty, b.uncertainty)
    assert (a - b).uncertainty == pytest.approx(math.sqrt(apart**2 - 2 * 0.01**2 / 3))


def test_a_stranger_is_told_and_kept() -> None:
    values = [1.02, 1.01, 1.02, 1.01, 1.02, 1.32]
    found = read(values)
    assert found.quantity.value == pytest.approx(float(np.mean(values)))
    assert [c.id for c in found.cautions] == ["size_stranger"]
    assert "1.32" in found.cautions[0].text
    assert found.cautions[0].kind == "reading"


def test_a_stranger_within_the_instrument_is_none() -> None:
    # 1.03 among four of 1.01 fails Grubbs, but the calliper alone may do that.
    assert read([1.01, 1.01, 1.01, 1.01, 1.03]).cautions == ()
    assert stranger([1.01, 1.01, 1.01, 1.01, 1.03], explained=0.0) == 4


def test_two_readings_have_no_stranger() -> None:
    assert stranger([1.0, 2.0], explained=0.0) is None


@pytest.mark.parametrize(
    ("values", "oval"), [([38.05, 38.12, 37.98], 0.14), ([38.00, 38.20], 0.20)]
)
def test_out_of_round(values: list[float], oval: float) -> None:
    found = read(values, around=True)
    assert found.ovality == pytest.approx(oval)
    assert f"{oval:.2f}" in found.cautions[0].text
    # The spread is shape, not doubt of the mean.
    assert found.quantity.uncertainty == pytest.approx(
        read([38.0] * len(values)).quantity.uncertainty
    )


def test_round_enough_says_nothing() -> None:
    found = read([38.05, 38.06, 38.04], around=True)
    assert found.cautions == ()
    assert found.ovality == 0.0


def test_many_readings_of_an_oval_tube() -> None:
    # Six evenly round: scatter of the shape must not come in as Student's t.
    values = [38.05 + 0.1 * math.cos(2 * math.pi * k / 6 * 2) for k in range(6)]
    found = read(values, around=True)
    assert found.ovality > 0.1
    assert found.quantity.uncertainty < 0.016


def test_readings_apart_raise_the_doubt() -> None:
    # 0.92 and 1.32 of one wall: whichever is right, the mean may be 0.2 off.
    found = read([0.92, 1.32])
    assert [c.id for c in found.cautions] == ["size_apart"]
    assert found.quantity.uncertainty > 0.1


def test_spread_beyond_the_instrument() -> None:
    # chi-square(1) at 95 % is 3.84: two readings differ beyond at 2.77 standard doubts.
    assert not spread_beyond([0.0, 2.76], 1.0)
    assert spread_beyond([0.0, 2.78], 1.0)
    assert not spread_beyond([5.0], 0.001)


def test_false_alarms_are_as_rare_as_said() -> None:
    # 2,000 good triples: the chi-square test calls 5 % apart, 1.5 % is three standard deviations.
    draws = np.random.default_rng(3).normal(0.0, 0.01, (2000, 3))
    called = sum(spread_beyond(list(each), 0.01) for each in draws)
    assert called / 2000 == pytest.approx(0.05, abs=0.015)


def test_budget_names_the_parts() -> None:
    names = {share.id for share in budget(read([38.05]).quantity)}
    assert names == {"size_scatter", "size_scale", "size_rounding", "calliper_zero"}
