"""make_plan: the passes in their order."""

from __future__ import annotations

from collections.abc import Callable

from hollowright.piece import Piece
from hollowright.plan.cut import cut
from hollowright.plan.fit import fit
from hollowright.plan.plan import Plan
from hollowright.plan.recognised import recognised
from hollowright.plan.steps import steps
from hollowright.plan.weigh import weigh
from hollowright.shop import Shop

PASSES: tuple[Callable[[Plan], Plan], ...] = (fit, cut, weigh, recognised, steps)


def make_plan(piece: Piece, shop: Shop) -> Plan:
    """The plan of a piece in a shop; PlanRefused when it can't be made as asked."""
    cautions = piece.cautions + tuple(c for choice in piece.choices for c in choice.cautions())
    plan = Plan(piece, shop, dict(piece.quantities), cautions=cautions)
    for each in PASSES:
        plan = each(plan)
    return plan
