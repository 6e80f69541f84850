"""The few functions of mathematics that work alike on floats, arrays and dual numbers.

Formulas import these instead of `math`, so that one plain function gives a number, its slopes
(forward differentiation by dual numbers, exact to rounding) and a hundred thousand samples.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

pi = math.pi
degree = math.pi / 180
"""One degree [rad]: `sin(angle * degree)`."""


class Dual:
    """A number with its slopes to the inputs of one formula; x - x has slope exactly 0."""

    __slots__ = ("slopes", "value")

    def __init__(self, value: float, slopes: tuple[float, ...]) -> None:
        self.value = value
        self.slopes = slopes

    def _with(self, value: float, slope: float) -> Dual:
        return Dual(value, tuple(slope * s for s in self.slopes))

    def _join(self, other: Dual, value: float, mine: float, theirs: float) -> Dual:
        pairs = zip(self.slopes, other.slopes, strict=True)
        return Dual(value, tuple(mine * a + theirs * b for a, b in pairs))

    def __neg__(self) -> Dual:
        return self._with(-self.value, -1.0)

    def __abs__(self) -> Dual:
        return -self if self.value < 0 else self

    def __add__(self, other: Any) -> Dual:
        if isinstance(other, Dual):
            return self._join(other, self.value + other.value, 1.0, 1.0)
        return self._with(self.value + other, 1.0)

    __radd__ = __add__

    def __sub__(self, other: Any) -> Dual:
        if isinstance(other, Dual):
            return self._join(other, self.value - other.value, 1.0, -1.0)
        return self._with(self.value - other, 1.0)

    def __rsub__(self, other: float) -> Dual:
        return self._with(other - self.value, -1.0)

    def __mul__(self, other: Any) -> Dual:
        if isinstance(other, Dual):
            return self._join(other, self.value * other.value, other.value, self.value)
        return self._with(self.value * other, other)

    __rmul__ = __mul__

    def __truediv__(self, other: Any) -> Dual:
        if isinstance(other, Dual):
            ratio = self.value / other.value
            return self._join(other, ratio, 1.0 / other.value, -ratio / other.value)
        return self._with(self.value / other, 1.0 / other)

    def __rtruediv__(self, other: float) -> Dual:
        ratio = other / self.value
        return self._with(ratio, -ratio / self.value)

    def __pow__(self, power: float) -> Dual:
        return self._with(self.value**power, power * self.value ** (power - 1.0))


def _spread(
    plain: Callable[[float], float], slope: Callable[[float], float], name: str
) -> Callable[[Any], Any]:
    def function(x: Any) -> Any:
        if isinstance(x, Dual):
            return x._with(plain(x.value), slope(x.value))
        if isinstance(x, (float, int)):
            return plain(x)
        import numpy

        return getattr(numpy, name)(x)

    function.__name__ = name
    function.__doc__ = f"{name} of a float [1 or rad], an array, or a number with slopes."
    return function


sqrt = _spread(math.sqrt, lambda x: 0.5 / math.sqrt(x) if x else 0.0, "sqrt")
sin = _spread(math.sin, math.cos, "sin")
cos = _spread(math.cos, lambda x: -math.sin(x), "cos")
tan = _spread(math.tan, lambda x: 1.0 + math.tan(x) ** 2, "tan")
exp = _spread(math.exp, math.exp, "exp")
log = _spread(math.log, lambda x: 1.0 / x, "log")
log10 = _spread(math.log10, lambda x: 1.0 / (x * math.log(10.0)), "log10")
atan = _spread(math.atan, lambda x: 1.0 / (1.0 + x * x), "arctan")
asin = _spread(math.asin, lambda x: 1.0 / math.sqrt(1.0 - x * x), "arcsin")
acos = _spread(math.acos, lambda x: -1.0 / math.sqrt(1.0 - x * x), "arccos")


def clip(x: Any, low: float, high: float) -> Any:
    """Keep x between low and high; the slope is 0 outside."""
    if isinstance(x, Dual):
        return (
            x
            if low <= x.value <= high
            else Dual(min(max(x.value, low), high), x._with(0, 0).slopes)
        )
    if isinstance(x, (float, int)):
        return min(max(x, low), high)
    import numpy

    return numpy.clip(x, low, high)
