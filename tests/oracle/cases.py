"""What every design's comparison with the CAD kernel shares: cases, bodies side by side, masses."""

from __future__ import annotations

import copy
import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

import pytest

from hollowright.designs import design
from hollowright.job.job import plan_tables, read_tables
from hollowright.plan.plan import Plan
from tests.oracle import kernel

CLOSE = 1e-6
"""Relative; both sides are closed forms, the kernel's own tolerance is 1e-7 mm on tens of mm."""


@dataclass
class Case:
    """One piece: its file's tables, its plan, the kernel's bodies (made once, when asked for)."""

    name: str
    tables: Mapping[str, Any]
    measured: dict[str, tuple[float, float]] = field(default_factory=dict)

    @cached_property
    def plan(self) -> Plan:
        return plan_tables(self.tables)

    @cached_property
    def q(self) -> dict[str, float]:
        return kernel.values(self.plan)

    @cached_property
    def theirs(self) -> kernel.Bodies:
        return kernel.kernel_bodies(self.plan, self.tables)

    @cached_property
    def ours(self) -> dict[str, Any]:
        return {s.body.id: s.body for part in self.plan.parts for s in part.solids}


def cases(id: str, **variants: Mapping[str, Any]) -> list[Case]:
    """A design's examples, and variants of the first: path__in__file -> value, None takes away."""
    found = [
        Case(f"example {number}", read_tables(example.text))
        for number, example in enumerate(design(id).examples, 1)
    ]
    for name, changes in variants.items():
        tables = copy.deepcopy(dict(found[0].tables))
        for path, value in changes.items():
            *above, last = path.split("__")
            table = tables
            for step in above:
                table = table.setdefault(step, {})
            table.pop(last, None) if value is None else table.__setitem__(last, value)
        found.append(Case(name, tables))
    return found


def same_bodies(
    case: Case, volumes: float = CLOSE, surfaces: float = CLOSE, masses: float = CLOSE
) -> None:
    """Volume and surface of every body, and the weight of every part, against the kernel's."""
    assert set(case.ours) == set(case.theirs)
    for id, body in case.ours.items():
        theirs = case.theirs[id]
        assert body.volume == pytest.approx(kernel.volume(theirs), rel=volumes), id
        assert body.surface == pytest.approx(kernel.area(theirs), rel=surfaces), id
    stocks = {stock.id: stock.metal.density.value for stock in case.plan.piece.stocks}
    for part in case.plan.parts:
        bodies = [case.theirs[solid.body.id] for solid in part.solids]
        weight = math.fsum(map(kernel.volume, bodies)) * stocks[part.stock] / 1000
        # a part's weight is of one piece; a wall parted after bending weighs by its one strip
        shared = part.mass.value * (max(1, part.count))
        assert shared == pytest.approx(weight, rel=masses), part.id
