"""The plan as text for a terminal: at most two screens; workings and steps on request."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from hollowright.output.sizes import size_text
from hollowright.plan.plan import FitResult, Plan
from hollowright.plan.safety import DEFERS
from hollowright.plan.slips import Checked
from hollowright.quantity import Quantity
from hollowright.quantity.working import number_text, value_text, working
from hollowright.units import format_inch, format_number

WIDTH = 78
SAID = ("mm", "deg", "ml", "mm2")
"""Units of the numbers that are listed; weights and forces stand where they matter."""

WORTH = 0.01
"""A gain of odds that is worth another reading."""

ALWAYS = (
    "Nothing closed goes to the heat: every hollow has an opening or a vent first. Air the room; "
    "no cadmium solder; acid into water."
)
UNCUT = "An uncut tube with both ends capped is a sealed bomb: saw before you cap."
"""Said where there is tube to cap."""


def plan_text(plan: Plan, with_working: bool = False, with_steps: bool = False) -> str:
    """The whole plan: what to cut, how it will fit, the numbers, the steps, the cautions."""
    lines = [_title(plan), "=" * WIDTH]
    if plan.shop.name != "the defaults":
        lines.append(f"with the shop's numbers of {plan.shop.name}")
    for caution in plan.to_settle:
        lines += ["SETTLE FIRST", *_wrapped(caution.text, "  ", "  "), ""]
    lines += _cuts(plan)
    lines += [
        "",
        "READ AS",
        *(line for note in plan.notes for line in _wrapped(note, "  ", "    ")),
    ]
    for fit in plan.fits:
        lines += ["", *_fit(fit, plan)]
    if plan.piece.changes:
        lines += ["", "AS BUILT", *_changes(plan)]
    if with_working:
        lines += ["", "WORKINGS", *_workings(plan)]
    else:
        lines += [
            "",
            "NUMBERS (mm unless said, with their standard doubt; --working shows how)",
            *_numbers(plan),
        ]
    lines += [
        "",
        "STEPS" if with_steps else "STEPS (--steps tells each in full)",
        *_steps(plan, with_steps),
    ]
    lines += ["", "MIND", *_cautions(plan)]
    return "\n".join(lines) + "\n"


def _title(plan: Plan) -> str:
    mass = value_text(plan.mass)
    return f"{plan.piece.title}".ljust(WIDTH - len(mass)) + mass


def _cuts(plan: Plan) -> Iterator[str]:
    names = [f"{p.count} {p.name}" if p.count > 1 else p.name for p in plan.parts]
    wide = max(12, *(len(name) + 1 for name in names))
    first = ("metal".ljust(9), "thick".rjust(6), "net".rjust(18), "cut to".rjust(18))
    yield f"TO CUT{' ' * (wide - 4)}{''.join(first)}{'each'.rjust(12)}"
    for name, part in zip(names, plan.parts, strict=True):
        stock = plan.piece.stock(part.stock)
        net, cut = part.blank, plan.cuts[part.id]
        sizes = [size_text(net.form, table, "x") for table in (net.to_cut, cut.sizes)]
        yield (
            f"  {name.ljust(wide)}{stock.metal.id.ljust(9)}{number_text(stock.thickness).rjust(6)}"
            f" {sizes[0].rjust(17)} {sizes[1].rjust(17)}{value_text(part.mass).rjust(12)}"
        )
    for stock in plan.piece.stocks:
        if stock.bar:
            have = f" of {value_text(stock.length)}" if stock.length else ""
            need = plan.quantities[f"{stock.id}_needed"]
            how = f", {stock.how}" if stock.how else ""
            yield f"  {stock.label}: {value_text(need)}{have} needed{how}."
    for paper in plan.piece.templates:
        yield f"  paper: {paper.label}, {size_text('template', paper.sizes, 'x')}"


def _fit(result: FitResult, plan: Plan) -> Iterator[str]:
    fit = result.fit
    low, high = (format_number(edge, 3) for edge in fit.window)
    yield f"FIT  {fit.label}: {fit.feel}, {low} to {high} mm of clearance"
    state = "as read" if fit.made else f"cut {format_number(result.guard.value)} long on purpose"
    bare, filed = percent(result.odds), percent(result.odds_filed)
    yield f"  odds: {bare} without filing ({state}), {filed} with filing"
    if result.filing[1] > 0:
        least, likely, most = (format_number(length) for length in result.filing)
        yield f"  expect to file {likely} mm off the length ({least} to {most});"
        yield f"  {tenth_text(result)}"
    yield from _wrapped(advice_text(result), "  ", "    ")
    if limit := plan.quantities.get("force_limit"):
        soft = f"of interference the soft {fit.weaker} yields"
        yield f"  file, don't force: past {value_text(limit)} {soft}"


def tenth_text(result: FitResult) -> str:
    """What a tenth of a millimetre of length does."""
    less = format_number(result.per_tenth, 3)
    return f"0.1 mm off the length makes it {less} mm less across"


def advice_text(result: FitResult) -> str:
    """Which reading would raise the odds, and to what; what carries the doubt when none would."""
    best = result.advice[0] if result.advice else None
    if best and (best.odds - result.odds >= WORTH or best.odds_filed - result.odds_filed >= WORTH):
        return f"surest gain: {best.text}: {percent(best.odds)} and {percent(best.odds_filed)}"
    most = " and ".join(f"{share.label} ({100 * share.part:.0f} %)" for share in result.shares[:2])
    least = f"; at best {best.text}" if best else ""
    return f"little to gain by reading again{least}; the doubt is mostly {most}"


def percent(odds: float) -> str:
    """Odds as people say them: 'under 1 %', '29 %', 'over 99 %'."""
    if odds < 0.01:
        return "under 1 %"
    return "over 99 %" if odds > 0.99 else f"{100 * odds:.0f} %"


def _changes(plan: Plan) -> Iterator[str]:
    for change in plan.piece.changes:
        yield (
            f"  {change.label}: {format_number(change.built)} read, "
            f"{format_number(change.planned)} was planned"
        )


LONGEST_ID = 21
"""Longer names than this don't go two on a line."""


def _numbers(plan: Plan) -> Iterator[str]:
    shown = [q for q in plan.quantities.values() if q.unit in SAID and q.kind != "shop"]
    if plan.piece.inches:
        marked = {id for step in plan.steps for id in step.marks}
        for quantity in (q for q in shown if q.id in marked):
            inch = format_inch(quantity.value).rjust(11) if quantity.unit == "mm" else ""
            number = _said(quantity).rjust(8)
            yield f"  {quantity.id.ljust(24)}{number} {_doubt(quantity).ljust(6)}{inch}".rstrip()
        return
    if any(len(q.id) > LONGEST_ID for q in shown):
        wide = max(len(q.id) for q in shown) + 2
        for quantity in shown:
            number = _said(quantity).rjust(8)
            yield f"  {quantity.id.ljust(wide)}{number} {_doubt(quantity)}".rstrip()
        return
    cells = [
        f"{id_[:21].ljust(22)}{_said(q).rjust(8)} {_doubt(q).ljust(6)}"
        for id_, q in ((q.id, q) for q in shown)
    ]
    half = (len(cells) + 1) // 2
    for row in range(half):
        yield "  " + "  ".join(cells[row::half]).rstrip()


def _said(quantity: Quantity) -> str:
    """A number as the list has it, with its unit where that isn't mm."""
    return number_text(quantity) if quantity.unit == "mm" else value_text(quantity)


def _doubt(quantity: Quantity) -> str:
    return f"±{quantity.uncertainty:.3f}"[:6] if quantity.uncertainty else ""


def _workings(plan: Plan) -> Iterator[str]:
    for quantity in plan.quantities.values():
        doubt = f" ±{format_number(quantity.uncertainty, 3)}" if quantity.uncertainty else ""
        yield from _wrapped(working(quantity) + doubt, "  ", "      ")


def _steps(plan: Plan, in_full: bool) -> Iterator[str]:
    for step in plan.steps:
        marks = ", ".join(value_text(plan.quantities[id]) for id in step.marks)
        head = f"{step.number:>3} {step.title}"
        if not in_full:
            yield head + (f": {marks}" if marks and step.kind != "measure" else "")
            continue
        yield head
        yield from _wrapped(step.text, "    ", "    ")
        if step.reads:
            named = (f"{id} (planned {value_text(plan.as_planned(id))})" for id in step.reads)
            yield from _wrapped(f"> read and write down: {', '.join(named)}", "    ", "      ")
        for caution in step.cautions:
            yield from _wrapped(f"! {caution.text}", "    ", "      ")


def _cautions(plan: Plan) -> Iterator[str]:
    for caution in plan.cautions:
        if caution not in plan.to_settle:
            yield from _wrapped(f"- {caution.text}", "  ", "    ")
    if any("uncut_tube" in (c.id for c in step.cautions) for step in plan.steps):
        yield from _wrapped(f"- {UNCUT}", "  ", "    ")
    yield from _wrapped(f"- {ALWAYS}", "  ", "    ")
    yield from _wrapped(f"- {DEFERS}", "  ", "    ")


def _wrapped(text: str, first: str, rest: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent=first, subsequent_indent=rest)


def check_text(checked: Checked) -> str:
    """The answer to 'check my number'."""
    unit = checked.quantity.unit
    planned = value_text(checked.quantity)
    given = f"{checked.given:g} {unit}".strip()
    if checked.agrees:
        return f"{checked.quantity.label} {given}: agrees (planned {planned}). {checked.note}\n"
    lines = [f"{checked.quantity.label} {given}: does not agree (planned {planned}).", checked.note]
    lines += [f"  {slip.text}: gives {format_number(slip.gives)} {unit}" for slip in checked.slips]
    lines.append(f"  working: {working(checked.quantity)}")
    return "\n".join(lines) + "\n"
