"""The formulas inside `quantity` say in their docstrings what they do."""

from __future__ import annotations

import importlib
import pkgutil

import pytest

import hollowright.quantity
from hollowright.quantity import Formula

FOUND = {
    f"{name}.{key}": value
    for name in (each.name for each in pkgutil.iter_modules(hollowright.quantity.__path__))
    for key, value in vars(importlib.import_module(f"hollowright.quantity.{name}")).items()
    if isinstance(value, Formula) and value.__module__.endswith(f".{name}")
}


def test_they_are_found() -> None:
    assert {"core._sum", "reconcile.combined", "readings._as_corrected"} <= set(FOUND)


@pytest.mark.parametrize("found", FOUND.values(), ids=FOUND)
def test_line_against_code(found: Formula) -> None:
    names = found.wording.parameters
    if not names:  # a sum of any number of parts has no line of its own
        return
    values = [1.37 + 0.61 * k for k in range(len(names))]
    line = found.wording.expression.replace(" x ", " * ")
    said = float(eval(line, {"__builtins__": {}}, dict(zip(names, values, strict=True))))
    left_out = set(names) - set(
        found.wording.expression.replace("(", " ").replace(")", " ").split()
    )
    quiet = [0.0 if name in left_out else value for name, value in zip(names, values, strict=True)]
    assert said == pytest.approx(found(*quiet), rel=1e-12)
