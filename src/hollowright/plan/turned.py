"""A task in plain outlines: each sheet turned so that its grain lies along x, and spots back."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import lru_cache

from hollowright.errors import InputError
from hollowright.plan.laid import Sheet, Task, is_hard, may_turn_over, turning_of, turns_of
from hollowright.shapes.nesting.problem import Bin, Item, Problem, Spot
from hollowright.shapes.nesting.rows import is_rectangle
from hollowright.shapes.outline import Outline
from hollowright.shapes.placing import placed, placed_point

OWNED, BOUGHT = 100.0, 1000.0
"""What all owned metal costs together, and the least sheet to buy: so the drawer comes first."""


EACH = 1000.0
"""What a sheet begun counts for beside its area [mm2]."""

CUT, HARD = 0.8, 1.25
"""By what a cut shape's area counts for less, and a hard sheet's for more."""


def problem_of(task: Task) -> Problem:
    """The task in plain outlines.

    Where the grain matters every sheet is turned so that its grain lies along x: an item's turns
    are then the same in all. Bins in the drawer and in hand cost what `begun` says, so that the
    smallest that serve are cut; what is bought costs far more, by its price, or by its area where
    not every size has a price. Owned bins stand first, the smallest first; then those to buy, by
    their cost.
    """
    grained = [replace(each, grain=0.0) for each in task.sheets[:1]]
    items = tuple(
        Item(
            flat.id, flat.outline, flat.count,
            turns_of(task, flat.id, grained[0]) if grained else None,
            may_turn_over(task, flat.id),
        )
        for flat in task.batch.flats
    )  # fmt: skip
    bins = tuple(
        Bin(each.id, _with_grain_along_x(task, each), cost, each.supply)
        for cost, each in sorted(_costs(task), key=lambda pair: (pair[0], pair[1].id))
    )
    pins = tuple(to_problem(task, pin) for pin in task.pins)
    return Problem(items, bins, task.rules.between, task.rules.edge, pins)


def _with_grain_along_x(task: Task, sheet: Sheet) -> Outline:
    turn = lie(task, sheet)
    return placed(sheet.outline, 0.0, 0.0, -turn) if turn else sheet.outline


def _costs(task: Task) -> Iterable[tuple[float, Sheet]]:
    """Each sheet and what its bin costs."""
    owned = sum(begun(task, each) * (each.supply or 1) for each in task.sheets if _owned(each))
    prices = [price(task, each) for each in task.sheets if not _owned(each)]
    for each in task.sheets:
        if _owned(each):
            yield OWNED * begun(task, each) / owned, each
        else:
            yield BOUGHT * price(task, each) / min(prices), each


def begun(task: Task, sheet: Sheet) -> float:
    """What beginning a sheet that is there counts for [mm2]: the least is begun.

    The rule for which metal there is is taken: small pieces first, so that large ones stay whole;
    of pieces of a size those of cut shapes, which serve for less; metal that need not be annealed
    first; and one piece rather than several that aren't smaller by EACH together.
    """
    area, whole = _area(sheet.outline)
    share = 1.0 if whole else CUT
    hard = is_hard(sheet) and sheet.temper != task.batch.temper
    return EACH + area * share * (HARD if hard else 1.0)


@lru_cache(maxsize=4096)
def _area(outline: Outline) -> tuple[float, bool]:
    """Its area [mm2], and whether it is a plain rectangle."""
    return outline.area, is_rectangle(outline)


def _owned(sheet: Sheet) -> bool:
    return sheet.origin != "to buy"


def price(task: Task, sheet: Sheet) -> float:
    """What a sheet to buy counts for: its price, or its area [mm2] where not all have one."""
    return sheet.cost if task.priced and sheet.cost is not None else sheet.outline.area


def lie(task: Task, sheet: Sheet) -> float:
    """By how much a sheet's grain is turned from x [deg], where any blank minds it; else 0."""
    bound = any(turning_of(task, flat.id) != "free" for flat in task.batch.flats)
    return (sheet.grain or 0.0) % 360.0 if bound else 0.0


def to_problem(task: Task, spot: Spot) -> Spot:
    """A spot on a sheet as it lies in the problem's bin; InputError for an unknown sheet."""
    turn = lie(task, sheet_of(task, spot.bin))
    return _turned(spot, -turn) if turn else spot


def to_sheets(task: Task, spots: Iterable[Spot]) -> tuple[Spot, ...]:
    """Spots of the problem as they lie on the sheets; pins come back exactly as they were."""
    pins = {_place(to_problem(task, pin)): pin for pin in task.pins}
    found = []
    for spot in spots:
        turn = lie(task, sheet_of(task, spot.bin))
        back = _turned(spot, turn) if turn else spot
        pin = pins.get(_place(spot))
        found.append(replace(pin, pinned=True) if pin else back)
    return tuple(found)


def sheet_of(task: Task, name: str) -> Sheet:
    """The sheet that a spot names, with or without a number; InputError when there is none."""
    id = name.partition("#")[0]
    for sheet in task.sheets:
        if sheet.id == id:
            return sheet
    raise InputError("layout", f"there is no sheet '{name[:60]}' here any more.", "Lay out anew.")


def _turned(spot: Spot, by: float) -> Spot:
    x, y = placed_point((spot.x, spot.y), 0.0, 0.0, by)
    return replace(spot, x=x, y=y, turn=(spot.turn + by) % 360.0)


def _place(spot: Spot) -> tuple[str, str, float, float, float, bool]:
    return (spot.item, spot.bin, spot.x, spot.y, spot.turn, spot.mirrored)
