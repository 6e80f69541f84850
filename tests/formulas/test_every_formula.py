"""Every formula that is found: its docstring, its slopes, its slips, arrays against floats.

The inputs are those of the formula's own doctest; a sceptic's copy of the formula is its docstring
line, read as arithmetic.
"""

import ast
import importlib
import inspect
import math
import pkgutil
import re
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from scipy.special import ellipe

import hollowright.formulas
from hollowright.quantity import Formula, normal, root
from hollowright.quantity.core import differentiate, numeric_slopes

WORDS = {"pi": math.pi, "degree": math.pi / 180}
WORDS |= {name: getattr(math, name) for name in ("sqrt", "log10", "sin", "cos", "tan")}
WORDS |= {name: getattr(math, name) for name in ("asin", "acos", "atan")}
WORDS |= {"elliptic_e": lambda m: float(ellipe(m))}


def _modules() -> list[Any]:
    package = hollowright.formulas
    names = [each.name for each in pkgutil.iter_modules(package.__path__)]
    return [importlib.import_module(f"{package.__name__}.{name}") for name in names]


MODULES = _modules()
FORMULAS = {
    f"{module.__name__.rpartition('.')[2]}.{name}": found
    for module in MODULES
    for name, found in vars(module).items()
    if isinstance(found, Formula) and found.__module__ == module.__name__
}
PLAIN = {
    f"{module.__name__.rpartition('.')[2]}.{name}": found
    for module in MODULES
    for name, found in vars(module).items()
    if inspect.isfunction(found) and found.__module__ == module.__name__ and name[0] != "_"
}


def example_inputs(found: Formula) -> list[float]:
    """The inputs of a formula's doctest."""
    lines = re.findall(r"^\s*>>> (.+)$", found.__doc__ or "", re.MULTILINE)
    for line in lines:
        for node in ast.walk(ast.parse(line)):
            named = isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
            if named and node.func.id == found.__name__:
                return [float(eval(ast.unparse(each), {})) for each in node.args]
    raise AssertionError(f"{found.__name__} has no doctest that calls it")


def generic_inputs(found: Formula) -> list[float]:
    """The example's inputs, none 0, none a round multiple of another."""
    return [
        (value or 0.0137) * (1 + 0.0131 * math.sqrt(k + 2))
        for k, value in enumerate(example_inputs(found))
    ]


def said(found: Formula, values: list[float]) -> float:
    """What the docstring's formula line gives, read as arithmetic."""
    text = re.sub(r"(?<=[\s)])x(?=[\s(])", "*", found.wording.expression).replace("^", "**")
    names = dict(zip(found.wording.parameters, values, strict=True))
    return float(eval(text, {"__builtins__": {}}, WORDS | names))


every = pytest.mark.parametrize("found", FORMULAS.values(), ids=FORMULAS)
CLOSED = {name: found for name, found in FORMULAS.items() if not found.plain}
"""Those whose line is arithmetic; what is searched or summed says so in words instead."""


def slopes_of(found: Formula, values: list[float]) -> tuple[float, tuple[float, ...]]:
    """A formula's value and slopes by the law that it goes by."""
    return (numeric_slopes if found.plain else differentiate)(found.function, values)


def test_formulas_are_found() -> None:
    assert len(FORMULAS) >= 25
    assert {"tube.bore", "ring.length", "fit.clearance"} <= set(FORMULAS)


@pytest.mark.parametrize("found", CLOSED.values(), ids=CLOSED)
def test_docstring_says_what_the_code_does(found: Formula) -> None:
    for values in (example_inputs(found), generic_inputs(found)):
        assert said(found, values) == pytest.approx(found(*values), rel=1e-12, abs=1e-12)


@pytest.mark.parametrize("found", (FORMULAS | PLAIN).values(), ids=(FORMULAS | PLAIN))
def test_docstring_has_units_source_and_example(found: Callable[..., Any]) -> None:
    doc = inspect.cleandoc(found.__doc__ or "")
    assert re.search(r"\[[^\]]+\]", doc), "no unit in square brackets"
    assert re.search(r"^Source: \S", doc, re.MULTILINE), "no Source line"
    assert ">>>" in doc, "no doctest"


@every
def test_every_parameter_is_told(found: Formula) -> None:
    below = re.sub(r"^.*? = .*$", "", found.__doc__ or "", count=1, flags=re.MULTILINE)
    told = below.partition(">>>")[0]
    for name in found.wording.parameters:
        assert re.search(rf"\b{name}\b", told), f"{name} isn't told of"


@every
def test_example_has_unequal_inputs(found: Formula) -> None:
    values = [value for value in example_inputs(found) if value]
    assert len(set(values)) == len(values), "equal inputs prove nothing"


@every
def test_slopes_against_central_differences(found: Formula) -> None:
    values = generic_inputs(found)
    value, slopes = slopes_of(found, values)
    assert value == pytest.approx(found(*values), rel=1e-14)
    for k, slope in enumerate(slopes):
        step = 1e-5 * abs(values[k])
        up, down = list(values), list(values)
        up[k] += step
        down[k] -= step
        central = (found(*up) - found(*down)) / (2 * step)
        # Rounding of the difference is about 1e-16 / 1e-5, truncation 1e-10.
        assert slope == pytest.approx(central, rel=1e-6, abs=1e-8), found.wording.parameters[k]


@every
def test_slopes_reach_the_roots(found: Formula) -> None:
    values = generic_inputs(found)
    roots = [root(f"x{k}", "", "", value, normal(0.001)) for k, value in enumerate(values)]
    made = found(*roots)
    _, slopes = slopes_of(found, values)
    assert made.value == pytest.approx(found(*values), rel=1e-14)
    assert [made.slopes.get(each, 0.0) for each in roots] == pytest.approx(list(slopes))
    assert made.unit == found.unit
    assert made.source


@every
def test_arrays_give_what_floats_give(found: Formula) -> None:
    values = generic_inputs(found)
    spread = 1 + 0.01 * np.linspace(-1, 1, 7)
    together = np.broadcast_to(found.function(*[value * spread for value in values]), (7,))
    alone = [found(*[value * each for value in values]) for each in spread]
    assert together == pytest.approx(np.array(alone), rel=1e-14)


SLIPS = [
    pytest.param(found, slip, id=f"{name}: {text}")
    for name, found in FORMULAS.items()
    for text, slip in found.slips.items()
]


@pytest.mark.parametrize(("found", "slip"), SLIPS)
def test_a_slip_gives_another_number(found: Formula, slip: Callable[..., Any]) -> None:
    for values in (example_inputs(found), generic_inputs(found)):
        right, wrong = found(*values), float(slip(*values))
        assert math.isfinite(wrong)
        assert abs(wrong - right) > 1e-4 * abs(right) or not all(values)


@every
def test_no_two_slips_of_a_formula_are_one(found: Formula) -> None:
    values = generic_inputs(found)
    gives = [round(float(slip(*values)), 9) for slip in found.slips.values()]
    assert len(set(gives)) == len(gives), dict(zip(found.slips, gives, strict=True))
