"""The least that must be bought, by area alone: a bound that no layout can go below."""

from __future__ import annotations

from collections.abc import Sequence

from hollowright.plan.filling import may_hold
from hollowright.plan.laid import Task
from hollowright.plan.turned import price
from hollowright.shapes.nesting.problem import Item, Problem
from hollowright.shapes.outline import Outline
from hollowright.shapes.polygons import grown_area
from hollowright.units import format_number

NEAR = 1 + 1e-4
"""The polygons lie within the curves by less than this share of their area."""

MOST_TRIES = 3000
"""After so many mixes the bound is reckoned by parts of sheets, which is a little lower."""


def least_to_buy(task: Task, problem: Problem) -> float:
    """What must be bought at least, in money where every size has a price, else area [mm2].

    Each blank takes its face and half a kerf round it; of each sheet there is what lies within its
    edges. What owned metal can't hold by area must be bought in whole sheets, of sizes that are
    wide enough: the blanks that only some sizes may hold are reckoned by themselves as well.
    """
    half = problem.between / 2
    inset = half - problem.edge
    prices = {each.id: price(task, each) for each in task.sheets if each.origin == "to buy"}
    sold = [(bin, _within(bin.outline, inset)) for bin in problem.bins if bin.supply is None]
    wants = [(_holders(problem, item), _taken(item, half)) for item in problem.items]
    least = 0.0
    for may in dict.fromkeys(holders for holders, _ in wants):
        wanted = sum(area for holders, area in wants if holders <= may)
        lacks = _lacking(problem, wanted, may, inset)
        sizes = [(room, prices[bin.id]) for bin, room in sold if bin.id in may and room > 0]
        if lacks > 0 and sizes:
            least = max(least, cover(lacks, sizes))
    return least


def _lacking(problem: Problem, wanted: float, may: frozenset[str], inset: float) -> float:
    """What owned bins can't hold by area [mm2]; 0 as soon as they can."""
    for bin in reversed(problem.bins):
        if bin.supply and bin.id in may and wanted > 0:
            wanted -= _within(bin.outline, inset) * bin.supply
    return max(0.0, wanted)


def _within(outline: Outline, inset: float) -> float:
    """The area in which flats may lie with half a kerf round each, never too small [mm2]."""
    return grown_area(outline, inset) * NEAR


def _holders(problem: Problem, item: Item) -> frozenset[str]:
    """The bins that may hold an item."""
    return frozenset(bin.id for bin in problem.bins if may_hold(problem, item, bin))


def _taken(item: Item, half: float) -> float:
    """What all of an item take with half a kerf round each [mm2]."""
    return grown_area(item.outline, half) * item.count


def cover(area: float, sizes: Sequence[tuple[float, float]]) -> float:
    """The least cost of whole sheets, each (area, cost), that cover an area.

    >>> cover(25.0, [(10.0, 4.0), (20.0, 7.0)])
    11.0
    """
    ordered = sorted(sizes, key=lambda pair: (pair[1] / pair[0], pair[1]))
    rates = [cost / each for each, cost in ordered]
    best, tries = min(cost * -(-area // each) for each, cost in sizes), 0

    def go(rest: float, paid: float, first: int) -> None:
        nonlocal best, tries
        tries += 1
        if rest <= 0:
            best = min(best, paid)
        elif first < len(ordered) and tries < MOST_TRIES and paid + rest * rates[first] < best:
            each, cost = ordered[first]
            for count in range(int(-(-rest // each)), -1, -1):
                go(rest - count * each, paid + count * cost, first + 1)

    go(area, 0.0, 0)
    return best if tries < MOST_TRIES else area * rates[0]


def least_text(task: Task, least: float) -> str:
    """The bound in words."""
    sold = [each for each in task.sheets if each.origin == "to buy"]
    if not sold:
        return "No size of it is on the sold list."
    if least <= 0:
        return "By area alone nothing need be bought; shapes may want more."
    if task.priced:
        money = format_number(least, 2)
        return f"By area alone at least {money} must be spent on sheet; shapes may want more."
    grams = least * task.batch.thickness * task.batch.metal.density.value / 1000
    what = f"{format_number(least, 0)} mm2, {format_number(grams, 1)} g, of sheet"
    text = f"By area alone at least {what} must be bought; shapes may want more."
    if any(each.cost is not None for each in sold):
        text += " The least weight is bought, since not every size has a price."
    return text
