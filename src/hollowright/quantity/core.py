"""A quantity: a number that remembers its formula, its inputs and its standard uncertainty.

Sensitivities go down to the root readings, so roots that are shared stay correlated and `x - x`
has uncertainty exactly 0. Law of propagation: JCGM 100:2008 5.1 (first order).
"""

from __future__ import annotations

import dataclasses
import functools
import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, overload

from hollowright.quantity import maths
from hollowright.quantity.doubt import EXACT, Doubt
from hollowright.quantity.wording import Wording, read_wording

Slip = Callable[..., Any]


@dataclass(frozen=True, eq=False, slots=True)
class Quantity:
    """A value [unit] with where it came from; make one with a formula, `root` or `exact`.

    kind: 'reading' (measured), 'asked' (chosen by the person), 'shop' (an allowance of this
    shop), 'doubt' (an error term round 0), 'handbook', 'constant' or 'formula'.
    of: for an error term, the id of the reading it belongs to. told: the working in words where
    there is no formula line. readings: the single readings behind a mean.
    """

    id: str
    label: str
    unit: str
    value: float
    kind: str
    formula: Formula | None = None
    inputs: tuple[Quantity, ...] = ()
    slopes: Mapping[Quantity, float] = field(default_factory=dict)
    doubt: Doubt = EXACT
    source: str = ""
    told: str = ""
    of: str = ""
    readings: tuple[float, ...] = ()

    @property
    def uncertainty(self) -> float:
        """Standard uncertainty [unit] by the law of propagation over the root readings."""
        return math.sqrt(
            math.fsum((slope * r.doubt.standard) ** 2 for r, slope in self.slopes.items())
        )

    def named(self, id: str, label: str = "", source: str = "") -> Quantity:
        """The same node under another name (for a formula that is used twice)."""
        label = label or id.replace("_", " ")
        renamed = dataclasses.replace(self, id=id, label=label, source=source or self.source)
        if self in self.slopes:  # a root stands for itself
            object.__setattr__(renamed, "slopes", {renamed: 1.0})
        return renamed

    def decided(self, id: str, label: str, told: str = "") -> Quantity:
        """The value frozen as a decision: what is marked is marked, whatever was true."""
        told = told or f"{label} = {self.label}, as decided"
        return Quantity(id, label, self.unit, self.value, "formula", source=self.source, told=told)

    def __add__(self, other: Quantity | float) -> Quantity:
        return _sum(self, lift(other))

    def __sub__(self, other: Quantity | float) -> Quantity:
        return _difference(self, lift(other))

    def __mul__(self, other: Quantity | float) -> Quantity:
        return _product(self, lift(other))

    def __truediv__(self, other: Quantity | float) -> Quantity:
        return _ratio(self, lift(other))


def lift(given: Quantity | float) -> Quantity:
    """A bare number as a constant; a Quantity as it is."""
    if isinstance(given, Quantity):
        return given
    return Quantity("", f"{given:g}", "", float(given), "constant")


def exact(
    id: str,
    label: str,
    unit: str,
    value: float,
    kind: str = "asked",
    source: str = "",
    told: str = "",
) -> Quantity:
    """A number without doubt: something asked for, or a shop's allowance."""
    return Quantity(id, label, unit, float(value), kind, source=source, told=told)


def root(
    id: str,
    label: str,
    unit: str,
    value: float,
    doubt: Doubt,
    kind: str = "reading",
    source: str = "",
    told: str = "",
    of: str = "",
) -> Quantity:
    """A root reading or error term: its value [unit] and its doubt."""
    made = Quantity(
        id, label, unit, float(value), kind, doubt=doubt, source=source, told=told, of=of
    )
    object.__setattr__(made, "slopes", {made: 1.0})
    return made


class Formula:
    """A plain function with its unit, label and usual slips; given Quantities it returns one."""

    def __init__(
        self,
        function: Callable[..., Any],
        id: str,
        unit: str,
        label: str,
        slips: Mapping[str, Slip],
        plain: bool = False,
    ) -> None:
        self.function = _on_arrays(function) if plain else function
        self.plain = plain
        self.id = id
        self.unit = unit
        self.label = label
        self.slips = dict(slips)
        self.__doc__ = function.__doc__
        self.__name__ = function.__name__
        self.__wrapped__ = function
        self.__module__ = function.__module__

    @property
    def wording(self) -> Wording:
        """The formula in words, from the docstring's formula line."""
        return read_wording(self.function)

    @overload
    def __call__(self, first: float, /, *rest: float) -> float: ...
    @overload
    def __call__(self, first: Quantity, /, *rest: Quantity | float) -> Quantity: ...
    def __call__(self, first: Quantity | float, /, *rest: Quantity | float) -> Quantity | float:
        """A number of numbers, a Quantity as soon as one input is one."""
        given = (first, *rest)
        if not any(isinstance(each, Quantity) for each in given):
            plain: float = self.function(*given)
            return plain
        return self.node(tuple(lift(each) for each in given))

    def node(self, inputs: tuple[Quantity, ...]) -> Quantity:
        """The quantity that this formula makes of its inputs, with slopes to their roots."""
        values = [q.value for q in inputs]
        if self.plain:
            wanted = [bool(q.slopes) for q in inputs]
            value, slopes = numeric_slopes(self.function, values, wanted)
        else:
            value, slopes = differentiate(self.function, values)
        to_roots: dict[Quantity, float] = {}
        for quantity, slope in zip(inputs, slopes, strict=True):
            if slope:
                for reading, inner in quantity.slopes.items():
                    to_roots[reading] = to_roots.get(reading, 0.0) + slope * inner
        return Quantity(
            self.id, self.label, self.unit, value, "formula", self, inputs, to_roots,
            source=self.wording.source,
        )  # fmt: skip


def differentiate(
    function: Callable[..., Any], values: list[float]
) -> tuple[float, tuple[float, ...]]:
    """A function's value and its slope to each input, by forward differentiation."""
    count = len(values)
    seeds = [
        maths.Dual(value, tuple(1.0 if i == j else 0.0 for j in range(count)))
        for i, value in enumerate(values)
    ]
    result = function(*seeds)
    if isinstance(result, maths.Dual):
        return result.value, result.slopes
    return float(result), (0.0,) * count


def _on_arrays(function: Callable[..., Any]) -> Callable[..., Any]:
    """A function of floats that takes arrays as well, one element after the other."""

    @functools.wraps(function)
    def either(*given: Any) -> Any:
        if all(isinstance(each, (float, int)) for each in given):
            return function(*given)
        import numpy

        return numpy.vectorize(function, otypes=[float])(*given)

    return either


STEP = 1e-4
"""Step of a numeric slope, in parts of the input or, near 0, of 1."""


def numeric_slopes(
    function: Callable[..., Any], values: list[float], wanted: Sequence[bool] | None = None
) -> tuple[float, tuple[float, ...]]:
    """A function's value and its slope to each input by central differences, of fourth order.

    Where a step leaves what the function can take, the slope is one-sided. wanted: to which inputs;
    the others, which rest on no reading, get 0.
    """
    value = float(function(*values))
    asked = wanted or [True] * len(values)
    return value, tuple(
        _slope(function, values, i, value) if ask else 0.0 for i, ask in enumerate(asked)
    )


def _slope(function: Callable[..., Any], values: list[float], place: int, value: float) -> float:
    step = STEP * max(abs(values[place]), 1.0)

    def at(steps: float) -> float:
        moved = list(values)
        moved[place] += steps * step
        return float(function(*moved))

    try:
        near, far = at(1) - at(-1), at(2) - at(-2)
        return (8 * near - far) / (12 * step)
    except (ValueError, ArithmeticError):
        pass
    for side in (1, -1):
        try:
            return side * (4 * at(side) - at(2 * side) - 3 * value) / (2 * step)
        except (ValueError, ArithmeticError):
            continue
    return 0.0


def formula(
    id: str,
    unit: str,
    label: str = "",
    slips: Mapping[str, Slip] | None = None,
    plain: bool = False,
) -> Callable[[Callable[..., Any]], Formula]:
    """Make a plain function of floats a formula: its quantity's id, its unit, its usual slips.

    plain: it takes floats only (a length by quadrature, say): its slopes are central differences.
    """

    def make(function: Callable[..., Any]) -> Formula:
        return Formula(function, id, unit, label or id.replace("_", " "), slips or {}, plain)

    return make


@formula("", "", "sum")
def _sum(a: Any, b: Any) -> Any:
    """Sum.

    sum = a + b
    """
    return a + b


@formula("", "", "difference")
def _difference(a: Any, b: Any) -> Any:
    """Difference.

    difference = a - b
    """
    return a - b


@formula("", "", "product")
def _product(a: Any, b: Any) -> Any:
    """Product.

    product = a x b
    """
    return a * b


@formula("", "", "ratio")
def _ratio(a: Any, b: Any) -> Any:
    """Ratio.

    ratio = a / b
    """
    return a / b


@formula("", "", "total")
def _total(*parts: Any) -> Any:
    """Sum of any number of quantities of one unit."""
    return sum(parts)


def total(id: str, label: str, parts: Sequence[Quantity]) -> Quantity:
    """The sum of quantities of one unit, as one quantity."""
    made = _total(*parts)
    return dataclasses.replace(made, id=id, label=label, unit=parts[0].unit, source="addition")
