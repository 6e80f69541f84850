"""Pass: how each fit will come out, how it is guarded, which reading would make it surer."""

from __future__ import annotations

import math
from dataclasses import replace

from hollowright.errors import Caution
from hollowright.formulas import fit as law
from hollowright.piece import Fit
from hollowright.plan.advice import advise
from hollowright.plan.plan import FitResult, Plan
from hollowright.quantity import Quantity, exact, normal, root
from hollowright.shop import Shop
from hollowright.units import format_number

USUAL = 1.645
"""Nine rings in ten come out within this many standard uncertainties."""


def fit(plan: Plan) -> Plan:
    """The plan with its fits worked out, guards and clearances among its quantities."""
    results = tuple(work_out(each, plan.shop) for each in plan.piece.fits)
    quantities = dict(plan.quantities)
    cautions: list[Caution] = list(plan.cautions)
    for result in results:
        quantities[result.guard.id] = result.guard
        quantities[result.as_cut.id] = result.as_cut
        cautions += _cautions(result)
    return replace(plan, quantities=quantities, fits=results, cautions=tuple(cautions))


def work_out(fit: Fit, shop: Shop) -> FitResult:
    """One fit: the ring as it will be cut (or as it was read), its odds and its guard."""
    if fit.made is not None:
        return _as_read(fit, shop)
    doubt = clearance_as_cut(fit, shop, 0.0).uncertainty
    k = exact("guard_factor", "guard factor", "", law.guard_factor(shop.value("guard_risk")), "shop",
              f"standard normal quantile of a risk of {shop.value('guard_risk'):.0%}")  # fmt: skip
    spread = exact(
        "clearance_doubt", "doubt of the clearance", "mm", doubt, "shop", "law of propagation"
    )
    guard = law.guard(k, spread).named(f"{fit.part}_guard", f"{fit.part} guard")
    as_cut = clearance_as_cut(fit, shop, guard.value)
    low, high = fit.window
    reach = USUAL * math.pi * doubt
    return FitResult(
        fit=fit,
        as_cut=as_cut,
        doubt=doubt,
        odds=law.odds_between(as_cut.value, doubt, low, high),
        odds_filed=law.odds_below(as_cut.value, doubt, high),
        guard=guard,
        filing=(max(0.0, guard.value - reach), guard.value, guard.value + reach),
        advice=advise(fit, as_cut, shop),
    )


def clearance_as_cut(fit: Fit, shop: Shop, guard: float) -> Quantity:
    """The clearance of the ring that comes of the strip really cut [mm].

    The length is a decision: what is marked is marked, so the errors of the readings stay in the
    bore and the thickness and don't cancel against the strip that was reckoned from them.
    """
    marked = (fit.length + guard).decided(
        f"{fit.part}_marked_length",
        "strip as marked",
        f"strip as marked = {fit.length.label} + guard",
    )
    marking = root(
        "marking_out", "marking out", "mm", 0.0, normal(shop.value("marking_out")), "doubt"
    )
    sawing = root("sawing", "sawing and dressing", "mm", 0.0, normal(shop.value("sawing")), "doubt")
    made = (
        law.made_diameter(marked, marking, sawing, fit.thickness)
        if fit.line is None
        else law.made_diameter_on_line(marked, marking, sawing, fit.thickness, fit.line)
    )
    return law.clearance(fit.bore, made).named("clearance_as_cut", "clearance as first cut")


def _as_read(fit: Fit, shop: Shop) -> FitResult:
    assert fit.made is not None
    as_read = law.clearance(fit.bore, fit.made).named("clearance_as_cut", "clearance as read")
    guard = exact(f"{fit.part}_guard", f"{fit.part} guard", "mm", 0.0, "shop", "the ring is made")
    low, high = fit.window
    doubt = as_read.uncertainty
    long = max(0.0, math.pi * (fit.target.value - as_read.value))
    return FitResult(
        fit,
        as_read,
        doubt,
        law.odds_between(as_read.value, doubt, low, high),
        law.odds_below(as_read.value, doubt, high),
        guard,
        (long, long, long),
        advise(fit, as_read, shop),
    )


def _cautions(result: FitResult) -> tuple[Caution, ...]:
    """What to say when the ring, as read, is too small or far too big for its window."""
    fit, c = result.fit, result.as_cut.value
    if fit.made is None:
        return ()
    if c > fit.window[1]:
        short = math.pi * (c - fit.target.value)
        text = (
            f"The ring as read leaves {format_number(c, 3)} mm, more than {fit.feel} allows. Stretch "
            f"it on the mandrel by {format_number(c - fit.target.value, 3)} mm of diameter "
            f"({format_number(100 * (c - fit.target.value) / fit.made.value)} %; up to 1 % is safe "
            f"practice), or make another {format_number(short)} mm longer."
        )
        return (Caution(f"{fit.id}_too_small", text, "fit", fit.id),)
    if c < fit.window[0]:
        long = math.pi * (fit.target.value - c)
        text = (
            f"The ring as read is {format_number(fit.target.value - c, 3)} mm too big: cut "
            f"{format_number(long)} mm out of its length and solder again, or file it round."
        )
        return (Caution(f"{fit.id}_too_big", text, "fit", fit.id),)
    return ()
