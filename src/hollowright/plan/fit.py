"""Pass: how each fit will come out, how it is guarded, which reading would make it surer."""

from __future__ import annotations

import math
from dataclasses import replace

from hollowright.errors import Caution
from hollowright.formulas import fit as law
from hollowright.formulas import wall
from hollowright.piece import Fit
from hollowright.plan.advice import advise, odds_mended
from hollowright.plan.plan import Advice, FitResult, Plan
from hollowright.quantity import Quantity, exact, normal, root
from hollowright.quantity.budget import budget, by_reading
from hollowright.shop import Shop
from hollowright.units import format_number

USUAL = 1.645
"""Nine rings in ten come out within this many standard uncertainties."""

LEAST_MORE = 1e-6
"""A body that wants this much more than the lid [mm] wants the same."""

MOST_STRETCH = 1.0
"""A closed ring is stretched by this much at most [%] (common practice, no source)."""


def fit(plan: Plan) -> Plan:
    """The plan with its fits worked out, guards and clearances among its quantities."""
    results = tuple(work_out(each, plan.shop) for each in plan.piece.fits)
    quantities = dict(plan.quantities)
    cautions: list[Caution] = list(plan.cautions)
    for result in results:
        as_cut = result.as_cut.id if len(results) == 1 else f"{result.fit.part}_{result.as_cut.id}"
        quantities[result.guard.id] = result.guard
        if result.extra:
            quantities[result.extra.id] = result.extra
        quantities[as_cut] = result.as_cut.named(as_cut, result.as_cut.label)
        cautions += _cautions(result)
    return replace(plan, quantities=quantities, fits=results, cautions=tuple(cautions))


def work_out(fit: Fit, shop: Shop) -> FitResult:
    """One fit: the ring as it will be cut (or as it was read), its odds and its guard."""
    unguarded = clearance_as_cut(fit, shop, 0.0)
    guard = _guard(fit, unguarded, shop)
    extra = _extra(fit, unguarded)
    if fit.made is not None:
        found = _as_read(fit, fit.made, guard, shop)
    else:
        left = guard.value + (extra.value if extra else 0.0)
        as_cut = clearance_as_cut(fit, shop, left)
        reach = USUAL * fit.turn * as_cut.uncertainty
        filing = (max(0.0, guard.value - reach), guard.value, guard.value + reach)
        found = _result(fit, as_cut, guard, filing, advise(fit, unguarded, shop))
    return replace(found, extra=extra)


def _result(
    fit: Fit,
    as_cut: Quantity,
    guard: Quantity,
    filing: tuple[float, float, float],
    advice: tuple[Advice, ...],
) -> FitResult:
    """A fit's odds in its window, for the clearance as cut or as read [mm]."""
    low, high = fit.window
    doubt = as_cut.uncertainty
    return FitResult(
        fit=fit,
        as_cut=as_cut,
        doubt=doubt,
        odds=law.odds_between(as_cut.value, doubt, low, high),
        odds_filed=odds_mended(fit, as_cut.value, doubt),
        guard=guard,
        filing=filing,
        advice=advice,
        shares=budget(as_cut, by_reading),
    )


def _guard(fit: Fit, unguarded: Quantity, shop: Shop) -> Quantity:
    """What is left on the strip's length, by the larger doubt of the ring's two bores [mm]."""
    doubt = _worse_doubt(fit, unguarded)
    name, source = "doubt of the clearance", "law of propagation"
    spread = exact("clearance_doubt", name, "mm", doubt, "shop", source)
    factor = _guard_factor(shop)
    if fit.turn == math.pi:
        guard = law.guard(factor, spread)
    else:
        guard = law.guard_round(_turn(fit), factor, spread)
    return guard.named(f"{fit.part}_guard", f"{fit.part} guard")


def _extra(fit: Fit, unguarded: Quantity) -> Quantity | None:
    """What the strip is left longer by because the body wants a larger ring than the lid [mm].

    The ring is then fitted to the body, and the part that sits in the lid is filed. None where
    the lid's ring is large enough.
    """
    more = unguarded.value - fit.target.value
    if fit.over or more <= LEAST_MORE:
        return None
    label = f"what the {fit.mate} wants more than the {fit.host}"
    wanted = exact("wanted_more", label, "mm", more, "shop", "clearance unguarded less target")
    longer = law.length_for(wanted) if fit.turn == math.pi else _turn(fit) * wanted
    return longer.named(f"{fit.part}_{fit.mate}_extra", f"length that the {fit.mate} wants more")


def _guard_factor(shop: Shop) -> Quantity:
    risk = shop.value("guard_risk")
    source = f"standard normal quantile of a risk of {100 * risk:g} %"
    return exact("guard_factor", "guard factor", "", law.guard_factor(risk), "shop", source)


def _worse_doubt(fit: Fit, unguarded: Quantity) -> float:
    """The larger doubt of the ring's two bores: too short is judged in both [mm]."""
    if fit.seat is None:
        return unguarded.uncertainty
    return max(unguarded.uncertainty, (unguarded + (fit.seat - fit.bore)).uncertainty)


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
    strip = (marked, marking, sawing, fit.thickness)
    if fit.over:
        inside = wall.mean_inside(*strip, _turn(fit), fit.line, fit.lost)
        return law.clearance(inside, fit.bore).named(*AS_CUT)
    if fit.turn != math.pi or fit.lost is not None:
        made = wall.mean_outside(*strip, _turn(fit), fit.line, fit.lost)
    elif fit.line is None:
        made = law.made_diameter(*strip)
    else:
        made = law.made_diameter_on_line(*strip, fit.line)
    return law.clearance(fit.bore, made).named(*AS_CUT)


AS_CUT = ("clearance_as_cut", "clearance as first cut")


def _turn(fit: Fit) -> Quantity:
    """What the length round changes for a change across [1]."""
    return exact("turn", "turn", "", fit.turn, "constant")


def _as_read(fit: Fit, made: Quantity, guard: Quantity, shop: Shop) -> FitResult:
    """The fit of a part that is made and was read: its length is filed only if it must be."""
    clearance = law.clearance(made, fit.bore) if fit.over else law.clearance(fit.bore, made)
    as_read = clearance.named("clearance_as_cut", "clearance as read")
    long = fit.turn * _too_much(fit, made, as_read)
    return _result(fit, as_read, guard, (long, long, long), advise(fit, as_read, shop))


def _too_much(fit: Fit, made: Quantity, as_read: Quantity) -> float:
    """How much too big the part came out [mm]: for its seat, or over what it goes over."""
    if fit.over:
        loose = as_read.value > fit.window[1]
        return as_read.value - fit.target.value if loose else 0.0
    return _over_seat(fit, made)


def _over_seat(fit: Fit, made: Quantity) -> float:
    """How much too big a ring is for the bore it sits still in [mm]; 0 when it goes in."""
    if fit.seat is None or fit.aim is None or made.value <= fit.seat.value:
        return 0.0
    return made.value - fit.aim.value


def _cautions(result: FitResult) -> tuple[Caution, ...]:
    """What to say when the part, as read, is too small for its window or too big for its seat."""
    fit = result.fit
    if fit.made is None:
        return ()
    over = _too_much(fit, fit.made, result.as_cut)
    if over > 0:
        where = f"loose over the {fit.mate}" if fit.over else "too big for its gap"
        or_file = "" if fit.over else ", or file it"
        text = (
            f"The {fit.slider} as read is {format_number(over, 3)} mm {where}: cut "
            f"{format_number(fit.turn * over)} mm out of its length and solder again{or_file}."
        )
        return (Caution(f"{fit.id}_too_big", text, "fit", fit.id),)
    short = result.as_cut.value - fit.target.value
    if fit.over:
        return _tight_over(fit, result.as_cut, fit.made)
    if result.as_cut.value > fit.window[1]:
        return (Caution(f"{fit.id}_too_small", _too_small(fit, fit.made, short), "fit", fit.id),)
    if result.as_cut.value < fit.window[0]:
        text = (
            f"The {fit.slider} as read leaves {format_number(result.as_cut.value, 3)} mm in the "
            f"{fit.mate}: file the stand, {format_number(-short / 2, 3)} mm off each side."
        )
        return (Caution(f"{fit.id}_to_file", text, "fit", fit.id),)
    return ()


def _tight_over(fit: Fit, clearance: Quantity, made: Quantity) -> tuple[Caution, ...]:
    """What to say of a part that goes over another and came out tighter than its window."""
    if clearance.value >= fit.window[0]:
        return ()
    short = fit.target.value - clearance.value
    stretch = 100 * short / made.value
    way = f"stretch it on the mandrel by {format_number(stretch)} %, or " * (
        stretch <= MOST_STRETCH and fit.turn == math.pi
    )
    text = (
        f"The {fit.slider} as read is {format_number(short, 3)} mm too small for {fit.feel}: {way}"
        f"make another, {format_number(fit.turn * short)} mm longer."
    )
    return (Caution(f"{fit.id}_too_small", text, "fit", fit.id),)


def _too_small(fit: Fit, made: Quantity, short: float) -> str:
    stretch = 100 * short / made.value
    longer = f"make another, {format_number(fit.turn * short)} mm longer"
    head = f"The {fit.slider} as read is {format_number(short, 3)} mm too small for {fit.feel}"
    if stretch > MOST_STRETCH:
        return f"{head}, {format_number(stretch)} %: more than a {fit.slider} stretches; {longer}."
    after = ""
    if fit.seat and fit.aim and made.value + short > fit.seat.value:
        aim = format_number(fit.aim.value)
        after = f" Then file the part that sits in the {fit.host} to {aim} mm."
    return f"{head}: stretch it on the mandrel by {format_number(stretch)} %, or {longer}.{after}"
