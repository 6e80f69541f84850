"""A tube box of awkward sizes, and plans of it with some fields changed."""

from __future__ import annotations

import copy
from collections.abc import Callable
from typing import Any

import pytest

from hollowright.job.job import plan_tables
from hollowright.plan.plan import Plan
from hollowright.shop import read_shop

BOX: dict[str, Any] = {
    "title": "Tea caddy",
    "design": "tube-box",
    "stock": {
        "tube": {
            "metal": "C26000",
            "outside_diameter": ["38.05", "38.06", "38.04"],
            "wall": ["1.02", "1.00"],
            "length": "300 mm",
        },
        "ring_sheet": {"metal": "C26000", "thickness": ["0.64", "0.65"]},
        "cap_sheet": {"metal": "C26000", "thickness": ["0.71", "0.70"]},
    },
    "sizes": {"height": "45 mm", "lid_share": "0.3", "ring_stand": "2 mm", "fit": "snug"},
}


@pytest.fixture
def tables() -> Callable[..., dict[str, Any]]:
    """Give the box's tables, changed: stock__tube__wall="1.01" sets, None takes away."""

    def changed(**changes: Any) -> dict[str, Any]:
        made = copy.deepcopy(BOX)
        for path, value in changes.items():
            *above, last = path.split("__")
            table = made
            for name in above:
                table = table.setdefault(name, {})
            if value is None:
                table.pop(last, None)
            else:
                table[last] = value
        return made

    return changed


@pytest.fixture
def plan_of(tables: Callable[..., dict[str, Any]]) -> Callable[..., Plan]:
    """Give the plan of the box with changes; `shop` is a shop file's tables."""

    def planned(shop: dict[str, Any] | None = None, **changes: Any) -> Plan:
        return plan_tables(tables(**changes), read_shop(shop) if shop else None)

    return planned
