"""Pass: what the finished piece weighs."""

from __future__ import annotations

from dataclasses import replace

from hollowright.plan.plan import Plan
from hollowright.quantity import total


def weigh(plan: Plan) -> Plan:
    """The plan with each part's mass and their sum among its quantities [g].

    Solder adds and filing takes off some tenths of a gram: neither is counted here.
    """
    quantities = dict(plan.quantities)
    each = []
    for part in plan.parts:
        quantities[part.mass.id] = part.mass
        each += [part.mass] * part.count
    quantities["mass"] = total("mass", "weight of the finished piece", each)
    return replace(plan, quantities=quantities)
