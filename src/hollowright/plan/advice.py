"""Which reading, taken again or taken directly, would raise the odds of a fit most."""

from __future__ import annotations

import math
from collections.abc import Iterator

from hollowright.formulas import fit as law
from hollowright.piece import Fit
from hollowright.plan.plan import Advice
from hollowright.quantity import Quantity
from hollowright.quantity.evaluate import ancestry
from hollowright.quantity.readings import Instrument, from_readings
from hollowright.quantity.reconcile import combined, direct_share
from hollowright.quantity.budget import covariance
from hollowright.shop import Shop


def advise(fit: Fit, clearance: Quantity, shop: Shop) -> tuple[Advice, ...]:
    """Every reading worth taking for a fit, best first.

    clearance: as cut, with its roots [mm]. Each entry tells the odds that the fit would have, its
    guard shrinking with its doubt.
    """
    found = [
        _entry(fit, shop, id, text, variance)
        for id, text, variance in _possible(fit, clearance, shop)
        if variance < clearance.uncertainty**2 * (1 - 1e-9)
    ]
    return tuple(sorted(found, key=lambda each: (-each.odds, each.id)))


def _entry(fit: Fit, shop: Shop, id: str, text: str, variance: float) -> Advice:
    doubt = math.sqrt(max(variance, 0.0))
    if fit.made is None:
        middle = fit.target.value - law.guard_factor(shop.value("guard_risk")) * doubt
    else:
        middle = fit.bore.value - fit.made.value
    low, high = fit.window
    odds = law.odds_between(middle, doubt, low, high)
    return Advice(id, text, odds, law.odds_below(middle, doubt, high), doubt)


def _possible(fit: Fit, clearance: Quantity, shop: Shop) -> Iterator[tuple[str, str, float]]:
    """Each thing that could be read, in words, and the variance it would leave [mm2]."""
    whole = clearance.uncertainty**2
    calliper = shop.calliper
    labels = {node.id: node.label for node in ancestry([clearance]) if node.kind == "reading"}
    for node, slope in clearance.slopes.items():
        part = (slope * node.doubt.standard) ** 2
        if node.id.endswith("_scatter"):
            count = _count(node, calliper)
            text = f"read {labels.get(node.of, node.of)} once more"
            yield node.of, text, whole - part / (count + 1)
        elif node.kind == "handbook":
            single = _reading_variance(calliper)
            text = f"read {node.label} with the {calliper.name} instead of by its gauge"
            yield node.id, text, whole - part + slope**2 * single
    if not fit.bore_read:
        text = f"read {fit.bore.label} directly with the inside jaws"
        yield fit.bore.id, text, _with_direct_bore(fit, clearance, shop)


def _count(scatter: Quantity, calliper: Instrument) -> int:
    """How many readings a scatter root stands for."""
    if scatter.doubt.kind == "student":
        return int(scatter.doubt.dof) + 1
    return max(1, round((calliper.repeatability / scatter.doubt.standard) ** 2))


def _reading_variance(calliper: Instrument) -> float:
    """Variance of one reading with an instrument [mm2]."""
    zero = calliper.zero_error()
    return from_readings("", "", [1.0], calliper, zero).quantity.uncertainty ** 2


def _with_direct_bore(fit: Fit, clearance: Quantity, shop: Shop) -> float:
    """Variance of the clearance if the bore were read directly as well [mm2]."""
    calliper = shop.calliper
    zero = (
        next((node for node in clearance.slopes if node.id == f"{calliper.id}_zero"), None)
        or calliper.zero_error()
    )
    direct = from_readings("direct", "", [fit.bore.value], calliper, zero, inside=True).quantity
    share = direct_share(
        fit.bore.uncertainty**2, direct.uncertainty**2, covariance(fit.bore, direct)
    )
    better = combined(fit.bore, direct, share, 0.0)
    change = better - fit.bore
    return (clearance + change).uncertainty ** 2
