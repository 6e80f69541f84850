"""Cut lists: which pieces from which bars, by least bought, least bars, then least metal.

`cut_list` is the one door: what fits no bar is told and left out, the rest is solved and laid
along each bar.
"""

from __future__ import annotations

import math
import time
from collections.abc import Iterator, Sequence
from dataclasses import replace

from hollowright.errors import Caution
from hollowright.plan.bar_strips import WIDER
from hollowright.plan.bar_task import Lot, Task, by_hand, task_of
from hollowright.plan.bars import Bar, BarBatch, BarRules, CutList, Length, Run, SawnBar
from hollowright.plan.laid import NotLaid
from hollowright.plan.purchases import best_cutting
from hollowright.plan.sawing import SLACK, arranged, fits, need, room, sawn
from hollowright.plan.solve_bars import Solved
from hollowright.shop import Shop
from hollowright.units import format_number

UNSURE = " Square ends and waste are the best found in the time, not proven."
"""Said where the bars are settled but not how they are best shared out."""

SECONDS = 5.0
"""So long the solver may look for a better cut list and for its proof [s]."""


def bar_rules(shop: Shop, form: str) -> BarRules:
    """What sawing takes in a shop; a strip's blanks have their dressing and aren't trued."""
    truing = 0.0 if form == "strip" else shop.value("truing")
    return BarRules(
        shop.value("kerf"), truing, shop.value("end_trim"), shop.value("bar_offcut_least")
    )


def cut_list(
    batch: BarBatch, bars: Sequence[Bar], rules: BarRules, seconds: float = SECONDS
) -> CutList:
    """The best cut list of a batch from bars of its section (`bar_runs.suits` tells which)."""
    begun = time.monotonic()
    runs, missing, cautions = _that_fit(batch, bars, rules)
    blank = CutList(batch, rules, (), missing, square_asked=batch.asked, cautions=cautions)
    if not runs:
        return replace(blank, proven=True, proven_waste=True)
    task = task_of(runs, bars, rules)
    found = _counted_through(task, best_cutting(task, begun + seconds))
    laid = tuple(_laid(task, found))
    left = tuple(_left_out(task, found, on_sheet(batch)))
    return replace(
        blank,
        bars=laid,
        missing=(*missing, *left),
        proven=found.proven,
        proven_waste=found.proven_waste,
        bound=found.bars_bound,
        bought_bound=found.bought_bound,
        bound_text=_bound_text(task, found) + ("" if found.proven_waste else UNSURE),
        square_given=_given(batch, laid),
        seconds=time.monotonic() - begun,
    )


def _counted_through(task: Task, found: Solved) -> Solved:
    """The cutting, if every run is there as often as wanted; else, its time was up, by hand."""
    sums = [sum(use.pattern[one] for use in found.uses) for one in range(len(task.runs))]
    if [a + b for a, b in zip(sums, found.left_out, strict=True)] == list(task.counts):
        return found
    uses, left_out = by_hand(task)
    return replace(
        found, uses=tuple(uses), left_out=tuple(left_out), proven=False, proven_waste=False
    )


def _that_fit(
    batch: BarBatch, bars: Sequence[Bar], rules: BarRules
) -> tuple[tuple[Run, ...], tuple[NotLaid, ...], tuple[Caution, ...]]:
    """The runs that some bar holds; lengths that none does; what had to be taken apart."""
    whole: dict[str, Run] = {}
    missing: list[NotLaid] = []
    cautions: list[Caution] = []
    for run in batch.runs:
        if any(fits(bar, (run,), rules) for bar in bars):
            singles: tuple[Run, ...] = (run,)
        else:
            singles = tuple(Run((each,), run.count) for each in run.lengths)
            if len(singles) > 1:
                cautions.append(_apart(run))
        for one in singles:
            if not any(fits(bar, (one,), rules) for bar in bars):
                missing.append(_too_long(batch, one, bars, rules))
                continue
            old = whole.get(one.id)
            whole[one.id] = replace(one, count=one.count + (old.count if old else 0))
    return tuple(whole.values()), tuple(missing), tuple(cautions)


def _apart(run: Run) -> Caution:
    names = " and ".join(each.part.name for each in run.lengths)
    return Caution(
        "sawn_apart",
        f"No bar holds {names} side by side, so they are sawn apart: their ends may not match, "
        "and the saw may take another bar for each.",
        "fit",
        run.lengths[0].id,
    )


def _too_long(batch: BarBatch, run: Run, bars: Sequence[Bar], rules: BarRules) -> NotLaid:
    """Why a length comes out of no bar, and what would do."""
    wanted = run.lengths[0]
    least = least_bar(run, rules)
    would = f"A {batch.form} of {section_words(batch)} from {_up(least)} mm on would do"
    cut = format_number(wanted.net.value + 2 * rules.truing)
    if not bars:
        why = f"there is no {batch.form} of {section_words(batch)} in the drawer, in hand or sold."
        told = f"It is sawn {cut} mm long, and {why}"
        return NotLaid(wanted.id, run.count, told, f"{would}.{on_sheet(batch)}")
    longest = max(bars, key=lambda bar: room(bar, rules))
    why = (
        f"It is sawn {cut} mm long, and the longest bar is {format_number(longest.length)} mm"
        f"{_ends(longest, rules)}."
    )
    return NotLaid(
        wanted.id, run.count, why, f"{would}; or make the piece smaller.{on_sheet(batch)}"
    )


def on_sheet(batch: BarBatch) -> str:
    """What else can be done with a blank that was to come from strip; '' for a piece of bar."""
    return (
        " It can be laid on sheet instead: leave its --strip (on the page, its tick) away."
        if batch.form == "strip"
        else ""
    )


def _ends(bar: Bar, rules: BarRules) -> str:
    """What the ends of a bar cost, where they aren't square."""
    rough = bar.trimmed_ends
    if not rough or not rules.end_trim:
        return ""
    ends = "both its ends" if rough == 2 else "one end"
    return f", of which {format_number(rules.end_trim)} mm are trimmed off {ends}"


def least_bar(run: Run, rules: BarRules) -> float:
    """The shortest bar without square ends that holds a run [mm]."""
    return need(run, rules) - rules.kerf + 2 * rules.end_trim


def _up(length: float) -> str:
    return format_number(math.ceil(10 * length - SLACK) / 10, 1)


def section_words(batch: BarBatch) -> str:
    """Metal, section and temper in words: 'yellow brass (C26000) 34.93 x 0.92 mm'."""
    section = " x ".join(format_number(size) for size in batch.sizes.values())
    temper = f", {batch.temper}" if batch.temper else ""
    if batch.form == "strip":
        low = batch.sizes["width"]
        wide = f"{format_number(low)} to {format_number(low + WIDER)} mm wide"
        thick = format_number(batch.sizes["thickness"])
        return f"{batch.metal.name}, {thick} mm thick, {wide}{temper}"
    return f"{batch.metal.name}, {section} mm{temper}"


def _laid(task: Task, found: Solved) -> Iterator[SawnBar]:
    """Every bar opened, those that are there first, alike ones side by side."""
    order = sorted(
        found.uses,
        key=lambda use: (
            task.lots[use.lot].bought, -task.lots[use.lot].bar.length, use.lot,
            tuple(-count for count in use.pattern),
        ),
    )  # fmt: skip
    supplies = {place: _one_by_one(lot) for place, lot in enumerate(task.lots)}
    for use in order:
        id, bar = next(supplies[use.lot])
        runs = [
            replace(run, count=1)
            for run, count in zip(task.runs, use.pattern, strict=True)
            for _ in range(count)
        ]
        yield sawn(bar, arranged(runs, bar), task.rules, id)


def _one_by_one(lot: Lot) -> Iterator[tuple[str, Bar]]:
    """The bars of a lot, each with its id: the second of a kind is #2."""
    for bar in lot.bars:
        number = 0
        while bar.supply is None or number < bar.supply:
            number += 1
            yield bar.id if number == 1 else f"{bar.id}#{number}", bar


def _left_out(task: Task, found: Solved, other: str) -> Iterator[NotLaid]:
    """Lengths that the bars ran out for. other: what else can be done with them."""
    for run, count in zip(task.runs, found.left_out, strict=True):
        for each in run.lengths if count else ():
            yield NotLaid(
                each.id,
                count,
                "The bars there are hold no more.",
                f"Another bar, or a sold list with one: from {_up(least_bar(run, task.rules))} mm "
                f"on would do for one more.{other}",
            )


def _given(batch: BarBatch, bars: Sequence[SawnBar]) -> int:
    """How many ends that had better be square are, each length counted up to what it asks."""
    asked: dict[str, Length] = {each.id: each for run in batch.runs for each in run.lengths}
    return sum(
        min(asked[piece.length].square_ends, piece.square_ends)
        for bar in bars
        for piece in bar.pieces
    )


MIXED = " The fewest bars, then the least length, are bought, since not every bar has a price."
"""Said where some bars for sale have a price and some haven't."""


def _bound_text(task: Task, found: Solved) -> str:
    """What is proven of bars bought and opened, in a sentence each."""
    bought = [task.lots[use.lot] for use in found.uses if task.lots[use.lot].bought]
    opened = len(found.uses)
    if not bought:
        return f"Nothing to buy. {_counted(opened, 'bar', found.bars_bound, found.proven)}"
    if all(lot.bar.cost is not None for lot in task.lots if lot.bought):
        cost = sum(lot.bar.cost or 0.0 for lot in bought)
        money = _money(cost, found.bought_bound / 100, found.proven)
        return f"{money} {_counted(opened, 'bar', found.bars_bound, found.proven)}"
    first = _counted(len(bought), "bar to buy", found.bought_bound, found.proven)
    if opened > len(bought):
        first += f" {_counted(opened, 'bar opened', found.bars_bound, found.proven)}"
    some = any(lot.bar.cost is not None for lot in task.lots if lot.bought)
    return first + (MIXED if some else "")


def _counted(count: int, what: str, bound: float, proven: bool) -> str:
    noun, _, rest = what.partition(" ")
    said = f"{count} {noun}{'' if count == 1 else 's'}{' ' if rest else ''}{rest}"
    least = math.ceil(bound - 1e-6)
    if least >= count:
        even = f": even pieces shared out in parts would take {format_number(bound)}"
        return f"{said}, the fewest there can be{even if 1 < bound < count - 0.005 else ''}."
    if proven:
        return (
            f"{said}, the fewest: pieces shared out in parts would take {format_number(bound)}, "
            "but every way of cutting was weighed and none takes fewer."
        )
    return f"{said}; no cutting takes under {max(least, 1)}. That fewer won't do isn't proven."


def _money(cost: float, bound: float, proven: bool) -> str:
    said = f"{cost:.2f} to buy"
    if proven:
        return (
            f"{said}, the least there is (were pieces shared out in parts it would be {bound:.2f})."
        )
    return f"{said}; it can't be under {bound:.2f}. That nothing is cheaper isn't proven."
