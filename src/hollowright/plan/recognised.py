"""Pass: what the readings probably are by the handbook: a gauge, a standard tube."""

from __future__ import annotations

from dataclasses import replace

from hollowright.handbook.recognise import describe_thickness, describe_tube
from hollowright.piece import Stock
from hollowright.plan.plan import Plan


def recognised(plan: Plan) -> Plan:
    """The plan with a note for each stock of what it probably is."""
    notes = tuple(f"{stock.label}: {_temper(stock)}{_of(stock)}" for stock in plan.piece.stocks)
    return replace(plan, notes=plan.notes + notes)


def _temper(stock: Stock) -> str:
    return f"{stock.temper}, " if stock.temper else ""


def _of(stock: Stock) -> str:
    sizes = stock.sizes
    if stock.form == "tube":
        return describe_tube(
            sizes["outside_diameter"].value, sizes["wall"].value, metal=stock.metal
        )
    thickness = stock.thickness
    if stock.form == "rod":
        return f"{thickness.value:.2f} mm across"
    return f"{thickness.value:.2f} mm: {describe_thickness(thickness.value, thickness.uncertainty)}"
