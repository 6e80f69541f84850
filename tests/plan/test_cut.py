"""Net becomes cut size: kerfs counted, several of one part, refusal by the bar's length."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable

import pytest

from hollowright.plan.cut import bar_need, cut_of
from hollowright.plan.plan import Plan

PlanOf = Callable[..., Plan]


@pytest.mark.parametrize(("count", "cuts"), [(1, 1), (2, 3), (5, 4)])
def test_several_of_one_part(plan_of: PlanOf, count: int, cuts: int) -> None:
    plan = plan_of()
    parts = tuple(
        dataclasses.replace(part, count=count if part.id == "lid" else part.count)
        for part in plan.parts
    )
    stock = dataclasses.replace(plan.piece.stock("tube"), cuts=cuts)
    need = bar_need(stock, parts, plan.cuts, plan.shop)
    lid, body = (plan.quantities[f"{id}_cut_length"].value for id in ("lid", "body"))
    assert need.value == pytest.approx(count * lid + body + cuts * 0.3)


def test_shop_allowances_reach_the_cut(plan_of: PlanOf) -> None:
    mine = {
        "kerf": 0.45,
        "truing": 0.35,
        "cap_rim": 1.25,
        "seam_dressing": 0.2,
        "edge_dressing": 0.6,
    }
    plan = plan_of(shop={"settings": mine})
    q = {id: quantity.value for id, quantity in plan.quantities.items()}
    assert q["lid_cut_length"] == pytest.approx(q["lid_length"] + 0.35)
    assert q["cap_cut_diameter"] == pytest.approx(q["cap_diameter"] + 2.5)
    assert q["ring_cut_width"] == pytest.approx(q["ring_width"] + 0.6)
    assert q["ring_cut_length"] == pytest.approx(q["ring_length"] + 0.2 + q["ring_guard"])
    assert q["tube_needed"] == pytest.approx(q["lid_cut_length"] + q["body_cut_length"] + 0.45)


def test_neighbours_take_a_kerf_and_a_truing_more(plan_of: PlanOf) -> None:
    apart, neighbours = plan_of(), plan_of(stock__tube__factory_ends=1)
    none = plan_of(stock__tube__factory_ends=0)
    need = [plan.quantities["tube_needed"].value for plan in (apart, neighbours, none)]
    assert need[1] - need[0] == pytest.approx(0.3 + 0.3)
    assert need[2] - need[1] == pytest.approx(0.3)


def test_a_strip_that_does_not_close_has_no_guard(plan_of: PlanOf) -> None:
    plan = plan_of()
    ring = next(part for part in plan.parts if part.id == "ring")
    open_strip = dataclasses.replace(ring, blank=dataclasses.replace(ring.blank, closes=False))
    made = cut_of(open_strip, plan.shop, {})
    assert made.sizes["length"].value == pytest.approx(ring.blank.sizes["length"].value + 0.3)
