"""Layouts made by hand, for the writers to show: every number here can be checked with a rule."""

from collections.abc import Callable
from typing import Any

import pytest

from hollowright.errors import Caution
from hollowright.job.job import plan_tables
from hollowright.plan.laid import LaidSheet, Layout, NotLaid, Rules, Sheet, Task
from hollowright.plan.orders import batches, orders
from hollowright.shapes.nesting.problem import Spot
from hollowright.shapes.outline import Outline, polygon, rectangle

ELL = polygon([(-10, 5), (210, 5), (210, 65), (90, 65), (90, 125), (-10, 125)])
"""An offcut like an L: 220 by 120, its lower left corner at -10, 5."""


@pytest.fixture
def laid_by_hand(tables: Callable[..., dict[str, Any]]) -> Callable[..., tuple[Layout, ...]]:
    """Give the box's layouts: caps on an L from the drawer, rings on a sheet to buy at 12.50.

    Cap 1 lies at 20, 30 (from the L's corner), cap 2 is pinned at 70, 90 and face down, a ring lies
    level, one is turned by a quarter. title, cost, copies change that; missing leaves a cap out.
    """

    def made(
        title: str = "Tea caddy", cost: float | None = 12.5, missing: bool = False, **changes: Any
    ) -> tuple[Layout, ...]:
        plan = plan_tables(tables(title=title, **changes))
        ring, cap = (
            next(b for b in batches(orders([plan], 2), 0.03) if b.flats[0].part.id == part)
            for part in ("ring", "cap")
        )
        rules = Rules(0.3, 2.0, 15.0)
        ell = Sheet("drawer-17", "17, tin 3", "drawer", cap.metal.id, cap.thickness, ELL)
        key = cap.flats[0].id
        spots = [
            Spot(key, ell.id, 10, 35),
            Spot(key, ell.id, 60, 95, mirrored=True, pinned=True),
            Spot(key, ell.id, 60, 35),
            Spot(key, ell.id, 150, 35),
        ]
        spots, lost = (spots[:3], spots[3:]) if missing else (spots, [])
        caps = _layout(
            Task(cap, (ell,), rules), ell, spots, (rectangle(30, 40).moved(175, 10),), "kept",
            tuple(NotLaid(key, 1, "The offcut is full.", "Add a sheet.") for _ in lost),
        )  # fmt: skip
        sheet = Sheet(
            "buy-300x150", "sheet 300 x 150 mm", "to buy", ring.metal.id, ring.thickness,
            rectangle(300, 150), cost=cost, supply=None,
        )  # fmt: skip
        long = ring.flats[0].outline.width
        rings = [Spot(ring.flats[0].id, sheet.id, 2, 2),
                 Spot(ring.flats[0].id, sheet.id, 30 + 20, 30, 90.0)]  # fmt: skip
        assert long < 120
        return (caps, _layout(Task(ring, (sheet,), rules), sheet, rings, (), "searched"))

    return made


def _layout(
    task: Task, sheet: Sheet, spots: list[Spot], offcuts: tuple[Outline, ...], found: str,
    missing: tuple[NotLaid, ...] = (),
) -> Layout:  # fmt: skip
    used = sum(task.batch.flat(spot.item).outline.area for spot in spots)
    kept = sum(offcut.area for offcut in offcuts)
    laid = LaidSheet(sheet.id, sheet, tuple(spots), offcuts, sheet.outline.area, used, kept)
    cautions = (Caution("grain", "Mind the grain of the tray.", "metal"),)
    return Layout(
        task, (laid,), missing, found, 10.0 if found == "searched" else 0.0, cautions,
        bound=45000.0, bound_text="At least one sheet must be bought.",
    )  # fmt: skip
