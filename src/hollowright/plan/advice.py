"""Which reading, taken again or taken directly, would raise the odds of a fit most."""

from __future__ import annotations

import math
from collections.abc import Iterator

from hollowright.formulas import fit as law
from hollowright.piece import Fit
from hollowright.plan.plan import Advice
from hollowright.quantity import Quantity
from hollowright.quantity.budget import covariance
from hollowright.quantity.doubt import Doubt
from hollowright.quantity.readings import Instrument, from_readings
from hollowright.quantity.reconcile import combined, direct_share
from hollowright.shop import Shop


def advise(fit: Fit, unguarded: Quantity, shop: Shop) -> tuple[Advice, ...]:
    """Every reading that would raise a fit's odds, best first.

    unguarded: the clearance of the ring without its guard (or as read), with its roots [mm]. Each
    entry tells the odds that the fit would have, its guard shrinking with its doubt.
    """
    now = _entry(fit, unguarded, shop, "", "", unguarded.uncertainty**2)
    found = [
        _entry(fit, unguarded, shop, id, text, variance)
        for id, text, variance in _possible(fit, unguarded, shop)
    ]
    better = [
        each
        for each in found
        if each.odds > now.odds + LEAST_GAIN
        and each.odds_filed > now.odds_filed - MOST_LOSS
        and each.doubt < now.doubt
    ]
    return tuple(sorted(better, key=lambda each: (-each.odds, each.id)))


LEAST_GAIN = 1e-6
"""A reading that raises the odds by less isn't worth a line."""

MOST_LOSS = 0.002
"""Nor is one that lowers the odds after filing by more than this."""


def _entry(
    fit: Fit, unguarded: Quantity, shop: Shop, id: str, text: str, variance: float
) -> Advice:
    doubt = math.sqrt(max(variance, 0.0))
    k = law.guard_factor(shop.value("guard_risk")) if fit.made is None else 0.0
    middle = unguarded.value + (k if fit.over else -k) * doubt
    if fit.made is None and not fit.over:
        middle -= max(0.0, unguarded.value - fit.target.value)
    low, high = fit.window
    odds = law.odds_between(middle, doubt, low, high)
    return Advice(id, text, odds, odds_mended(fit, middle, doubt), doubt)


def odds_mended(fit: Fit, middle: float, doubt: float) -> float:
    """Odds that the part can be filed to its window: it isn't too small in its bore, or over it."""
    low, high = fit.window
    if fit.over:
        return law.odds_above(middle, doubt, low)
    return law.odds_below(middle, doubt, high)


def _possible(fit: Fit, clearance: Quantity, shop: Shop) -> Iterator[tuple[str, str, float]]:
    """Each thing that could be read, in words, and the variance it would leave [mm2]."""
    whole = clearance.uncertainty**2
    calliper = shop.calliper
    for node, slope in clearance.slopes.items():
        part = (slope * node.doubt.standard) ** 2
        if node.id.endswith("_apart"):
            yield (
                node.of,
                f"measure {node.label.partition(':')[0]} both ways again, for they differ",
                whole - part,
            )
        elif node.id.endswith("_scatter"):
            left = slope**2 * _once_more(node.doubt, calliper)
            yield node.of, f"read {node.label.partition(':')[0]} once more", whole - part + left
        elif node.kind == "handbook":
            left = slope**2 * _reading_variance(calliper)
            text = f"read {node.label} with the {calliper.name} instead of by its gauge"
            yield node.id, text, whole - part + left
    if not (fit.bore_read or fit.over):
        text = fit.read_bore or f"read {fit.bore.label} directly with the inside jaws"
        yield fit.bore.id, text, _with_direct_bore(fit, clearance, shop)


def _once_more(scatter: Doubt, calliper: Instrument) -> float:
    """Variance of the mean with one reading more [mm2], by the rule that will then hold.

    From four readings on their own scatter counts (Student's t), below the shop's pooled one.
    """
    if not scatter.standard:  # four readings or more, all alike
        return 0.0
    if scatter.kind == "student":
        count, spread = int(scatter.dof) + 1, scatter.scale**2 * (scatter.dof + 1)
    else:
        count = max(1, round((calliper.repeatability / scatter.standard) ** 2))
        spread = calliper.repeatability**2
        if scatter.standard > calliper.repeatability:  # they contradict each other
            return (scatter.standard / 2) ** 2
    more = count + 1
    if more < 4:
        return spread / more
    return spread / more * (more - 1) / (more - 3)


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
