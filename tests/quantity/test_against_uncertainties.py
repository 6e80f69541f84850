"""Random graphs against the library uncertainties: value, uncertainty, covariance."""

from __future__ import annotations

import math
from typing import Any

import pytest
import uncertainties
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from uncertainties import umath

from hollowright.quantity import Formula, Quantity, formula, maths, normal, root
from hollowright.quantity.budget import budget, covariance


@formula("sum", "")
def add(a: Any, b: Any) -> Any:
    return a + b


@formula("difference", "")
def subtract(a: Any, b: Any) -> Any:
    return a - b


@formula("product", "")
def multiply(a: Any, b: Any) -> Any:
    return a * b


@formula("ratio", "")
def divide(a: Any, b: Any) -> Any:
    return a / (b * b + 1.0)


@formula("square_root", "")
def root_of(a: Any) -> Any:
    return maths.sqrt(a * a + 1.0)


@formula("wave", "")
def wave(a: Any) -> Any:
    return maths.sin(a) + maths.cos(2.0 * a)


@formula("turn", "")
def turn(a: Any) -> Any:
    return maths.atan(a) - maths.exp(-a * a)


@formula("cube", "")
def cube(a: Any) -> Any:
    return 2.0 - (a / 10.0) ** 3


TWO = {
    add: lambda a, b: a + b,
    subtract: lambda a, b: a - b,
    multiply: lambda a, b: a * b,
    divide: lambda a, b: a / (b * b + 1.0),
}
ONE_INPUT = {
    root_of: lambda a: umath.sqrt(a * a + 1.0),
    wave: lambda a: umath.sin(a) + umath.cos(2.0 * a),
    turn: lambda a: umath.atan(a) - umath.exp(-a * a),
    cube: lambda a: 2.0 - (a / 10.0) ** 3,
}
Pair = tuple[Quantity, Any]

values = st.floats(-4.0, 4.0, allow_nan=False).map(lambda x: round(x, 3))
doubts = st.floats(0.001, 0.2).map(lambda x: round(x, 4))


@st.composite
def graphs(draw: Any) -> tuple[Pair, Pair]:
    """Two targets of one graph whose nodes share roots."""
    nodes: list[Pair] = []
    for k in range(draw(st.integers(2, 5))):
        value, doubt = draw(values), draw(doubts)
        nodes.append(
            (root(f"r{k}", "", "", value, normal(doubt)), uncertainties.ufloat(value, doubt))
        )
    for _ in range(draw(st.integers(1, 9))):
        if draw(st.booleans()):
            law: Formula = draw(st.sampled_from(list(TWO)))
            a, b = draw(st.sampled_from(nodes)), draw(st.sampled_from(nodes))
            nodes.append((law(a[0], b[0]), TWO[law](a[1], b[1])))
        else:
            law = draw(st.sampled_from(list(ONE_INPUT)))
            a = draw(st.sampled_from(nodes))
            nodes.append((law(a[0]), ONE_INPUT[law](a[1])))
        if abs(nodes[-1][0].value) > 1e4:
            nodes.pop()
    return nodes[-1], nodes[-2]


@settings(max_examples=400)
@given(graphs())
def test_value_doubt_and_covariance(pair: tuple[Pair, Pair]) -> None:
    (ours, theirs), (other, other_theirs) = pair
    assume(not isinstance(theirs, float))
    assert ours.value == pytest.approx(theirs.nominal_value, rel=1e-12, abs=1e-12)
    assert ours.uncertainty == pytest.approx(theirs.std_dev, rel=1e-9, abs=1e-12)
    matrix = uncertainties.covariance_matrix([theirs, other_theirs])
    assert covariance(ours, other) == pytest.approx(matrix[0][1], rel=1e-7, abs=1e-12)


@settings(max_examples=100)
@given(graphs())
def test_a_number_less_itself_is_nothing(pair: tuple[Pair, Pair]) -> None:
    node = pair[0][0]
    nothing = node - node
    assert nothing.value == 0.0
    assert nothing.uncertainty == 0.0


@settings(max_examples=100)
@given(graphs())
def test_shares_add_up(pair: tuple[Pair, Pair]) -> None:
    node = pair[0][0]
    shares = budget(node)
    if shares:
        assert math.fsum(share.part for share in shares) == pytest.approx(1.0)
        assert [s.part for s in shares] == sorted((s.part for s in shares), reverse=True)
        total = math.fsum(share.effect**2 for share in shares)
        assert math.sqrt(total) == pytest.approx(node.uncertainty, rel=1e-9, abs=1e-15)


def test_the_same_root_by_two_roads() -> None:
    x = root("x", "", "", 3.0, normal(0.1))
    doubled = x + x
    assert doubled.uncertainty == pytest.approx(0.2)  # not 0.14
    assert (doubled - x).uncertainty == pytest.approx(0.1)
    assert (doubled / x).uncertainty == pytest.approx(0.0, abs=1e-15)
