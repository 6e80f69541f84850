"""A layout from spots: judged sound, with its areas, offcuts, what is missing, what to mind."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hollowright.errors import Caution, HollowrightError, InputError, Problems
from hollowright.plan.laid import LaidSheet, Layout, Task, is_hard, turning_of
from hollowright.plan.least import least_text, least_to_buy
from hollowright.plan.offcuts import offcuts
from hollowright.plan.turned import begun, price, problem_of, sheet_of, to_problem
from hollowright.plan.unplaced import not_laid
from hollowright.shapes.nesting.judge import Fault, faults
from hollowright.shapes.nesting.problem import Packing, Spot
from hollowright.shapes.nesting.quick import quick

Worth = tuple[int, float, int, float, float, float, int]


def worth(layout: Layout) -> Worth:
    """What makes one layout better than another; less is better, from the first figure on.

    Blanks without a place; money (or area [mm2]) to buy; how many sheets that is; metal taken of
    what is bought, less what is kept [mm2], so that the drawer comes first; what is begun of the
    metal there is (see `begun`); metal taken of all [mm2]; sheets cut.
    """
    missing = sum(each.count for each in layout.missing)
    bought = sum(price(layout.task, each.sheet) for each in layout.bought)
    new = sum(each.area - each.kept for each in layout.bought)
    owned = sum(
        begun(layout.task, each.sheet) for each in layout.sheets if each.sheet.origin != "to buy"
    )
    taken = (round(new, 1), round(owned, 1), round(layout.taken, 1))
    return (missing, round(bought, 4), len(layout.bought), *taken, len(layout.sheets))


def layout_of(task: Task, spots: Sequence[Spot], found: str, seconds: float = 0.0) -> Layout:
    """The layout that spots make, with its areas and offcuts, once they are judged sound.

    Problems says of each spot that can't be what is wrong: which blank, where, by how much.
    """
    problem = problem_of(task)
    known = {flat.id for flat in task.batch.flats}
    wrong: list[HollowrightError] = [
        InputError("layout", f"there is no blank '{id[:60]}' here any more.", "Lay out anew.")
        for id in dict.fromkeys(spot.item for spot in spots if spot.item not in known)
    ]
    if wrong:
        raise Problems(wrong)
    packing = Packing(tuple(to_problem(task, spot) for spot in spots))
    wrong = [_told(fault) for fault in faults(problem, packing)]
    if wrong:
        raise Problems(wrong)
    by_sheet = Packing(tuple(spots))
    laid = tuple(_laid(task, name, by_sheet.within(name)) for name in by_sheet.bins)
    missing = not_laid(task, problem, packing.left_over(problem), quick)
    least = least_to_buy(task, problem)
    cautions = tuple(_cautions(task, laid))
    text = least_text(task, least)
    return Layout(task, laid, missing, found, seconds, cautions, least, text)


def _told(fault: Fault) -> InputError:
    """A fault as the user reads it."""
    text = fault.text
    if fault.kind == "bin":
        text = f"there is no sheet '{fault.spots[0].bin[:60]}', or not so many of it."
    return InputError("layout", text, "Lay out anew, or move it.")


def _cautions(task: Task, laid: Sequence[LaidSheet]) -> Iterator[Caution]:
    """What to mind on these sheets."""
    bound = {flat.id for flat in task.batch.flats if turning_of(task, flat.id) == "grain"}
    for each in laid:
        if each.sheet.grain is None and any(spot.item in bound for spot in each.spots):
            text = (
                f"{each.sheet.label}: which way it was rolled isn't known; the grain is taken to "
                "run along its length. Look for the rolling marks before you saw."
            )
            yield Caution("grain_unknown", text, "metal", each.id)
    yield from _hard(task, laid)
    yield from _begun(task)
    unsaid = [each for each in laid if task.batch.temper and not each.sheet.temper]
    for each in unsaid:
        text = f"{each.sheet.label}: its temper isn't said; {task.batch.temper} is wanted."
        yield Caution("temper_unsaid", text, "metal", each.id)


def _hard(task: Task, laid: Sequence[LaidSheet]) -> Iterator[Caution]:
    """Metal that is harder than annealed, from which blanks come that are bent or domed."""
    for each in laid:
        flats = [task.batch.flat(id) for id in dict.fromkeys(spot.item for spot in each.spots)]
        shaped = [flat.name for flat in flats if flat.part.blank.shaped]
        if shaped and is_hard(each.sheet):
            text = (
                f"{each.sheet.label} is {each.sheet.temper}: anneal it before you shape what comes "
                f"out of it: {', '.join(dict.fromkeys(shaped))}. Metal that isn't soft springs "
                "back, and cracks at a bend."
            )
            yield Caution("temper_hard", text, "metal", each.id)


def _begun(task: Task) -> Iterator[Caution]:
    """Pieces of which one is made in part, as its readings tell; which blanks, nobody said."""
    orders = {flat.order.key: flat.order for flat in task.batch.flats}
    for order in orders.values():
        if order.plan.piece.changes:
            text = (
                f"{order.plan.piece.title}: what was read as built tells that one is begun; all "
                "its blanks are laid out here all the same. Leave out those you have cut."
            )
            yield Caution("begun", text, "choice", order.key)


def _laid(task: Task, name: str, spots: tuple[Spot, ...]) -> LaidSheet:
    sheet = sheet_of(task, name)
    blanks = [spot.place(task.batch.flat(spot.item).outline) for spot in spots]
    rest = offcuts(sheet.outline, blanks, task.rules.between, task.rules.offcut_least)
    used, kept = (sum(each.area for each in group) for group in (blanks, rest))
    return LaidSheet(name, sheet, spots, rest, sheet.outline.area, used, kept)
