"""Dual numbers: every operation and function against central differences and numpy."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from hollowright.quantity import maths
from hollowright.quantity.core import differentiate

FUNCTIONS = ("sqrt", "sin", "cos", "tan", "exp", "log", "log10", "atan", "asin", "acos")
EXPRESSIONS: dict[str, Callable[[Any, Any], Any]] = {
    "add": lambda a, b: a + b + 2.0,
    "radd": lambda a, b: 2.0 + a + b,
    "subtract": lambda a, b: a - b - 1.5,
    "rsubtract": lambda a, b: 1.5 - a - b,
    "multiply": lambda a, b: 3.0 * a * b * 0.5,
    "divide": lambda a, b: a / b / 4.0,
    "rdivide": lambda a, b: 4.0 / (a * b),
    "power": lambda a, b: a**3 + b**-0.5,
    "negate": lambda a, b: -(a - b) * -b,
    "abs": lambda a, b: abs(a - b) + abs(b),
    "clip inside": lambda a, b: maths.clip(a, 0.0, 1.0) * b,
    "clip outside": lambda a, b: maths.clip(a, 0.5, 1.0) * b,
}


@pytest.mark.parametrize("law", EXPRESSIONS.values(), ids=EXPRESSIONS)
def test_operations(law: Callable[[Any, Any], Any]) -> None:
    at = [0.37, 1.83]
    value, slopes = differentiate(law, at)
    assert value == pytest.approx(law(*at), rel=1e-15)
    for k in range(2):
        up, down = list(at), list(at)
        up[k] += 1e-6
        down[k] -= 1e-6
        assert slopes[k] == pytest.approx((law(*up) - law(*down)) / 2e-6, rel=1e-7, abs=1e-9)


@pytest.mark.parametrize("name", FUNCTIONS)
@pytest.mark.parametrize("x", [0.11, 0.63, 0.97])
def test_functions(name: str, x: float) -> None:
    law = getattr(maths, name)
    value, (slope,) = differentiate(law, [x])
    assert value == pytest.approx(getattr(math, name)(x), rel=1e-15)
    assert slope == pytest.approx((law(x + 1e-6) - law(x - 1e-6)) / 2e-6, rel=1e-6)
    assert law(np.array([x, x / 2])) == pytest.approx(np.array([law(x), law(x / 2)]), rel=1e-14)


def test_a_constant_has_no_slope() -> None:
    assert differentiate(lambda a, b: 7.0, [1.0, 2.0]) == (7.0, (0.0, 0.0))
