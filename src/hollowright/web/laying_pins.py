"""Pins on the layout page: set by hand or by numbers, taken off, refused where they can't be."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from hollowright.errors import HollowrightError, InputError, UnknownName
from hollowright.output.layout_view import PlacedBlank
from hollowright.plan.laid import Sheet, Task, may_turn_over, turns_of
from hollowright.plan.layout import problem_of
from hollowright.shapes.nesting.judge import TURN_TOLERANCE, faults, supplied
from hollowright.shapes.nesting.problem import Packing, Spot
from hollowright.shapes.placing import placed
from hollowright.units import read_angle, read_length
from hollowright.web.laying_ask import FARTHEST, Ask
from hollowright.web.laying_work import Bench

One = Callable[[str], str]
"""The sent text of a box, by its name."""


def with_doing(ask: Ask, doing: str, one: One, bench: Bench) -> tuple[Ask, HollowrightError | None]:
    """The ask once a button about pins was pressed; and why not, where it can't be done."""
    if doing == "unpin-all":
        return replace(ask, pins=()), None
    if doing.startswith("unpin:") and doing[6:].isdigit():
        pins = [pin for number, pin in enumerate(ask.pins) if number != int(doing[6:])]
        return replace(ask, pins=tuple(pins)), None
    if doing != "pin":
        return ask, None
    try:
        return replace(ask, pins=(*ask.pins, _typed(ask, one, bench))), None
    except HollowrightError as fault:
        return ask, fault


def _typed(ask: Ask, one: One, bench: Bench) -> Spot:
    """The pin that was typed in numbers, measured as the page shows them."""
    item, bin = one("pin_blank"), one("pin_sheet")
    task = _task_of(ask, item, bench)
    outline = task.batch.flat(item).outline
    sheet = sheet_of(task, bin).outline
    x, y = (_length(one(name), name) for name in ("pin_x", "pin_y"))
    turn = read_angle(one("pin_turn") or "0", "pin_turn", "90", -360.0, 360.0)
    over = bool(one("pin_over"))
    cut = placed(outline, 0.0, 0.0, turn, over)
    from_x, from_y = PlacedBlank(
        0, "", "", task.batch.flat(item), Spot(item, bin, 0, 0), cut, None, ()
    ).at
    low_x, low_y, _, _ = sheet.bounds
    return Spot(item, bin, x - from_x + low_x, y - from_y + low_y, turn, over, True)


def _length(text: str, name: str) -> float:
    """A distance from a sheet's corner [mm]."""
    length = read_length(text, name, "12.5")
    if length.mm > FARTHEST:
        raise InputError(name, f"{text} is off every sheet.", "Write 12.5.")
    return length.mm


def _task_of(ask: Ask, item: str, bench: Bench) -> Task:
    wanted = bench.tasks(ask)
    for task in wanted:
        if any(flat.id == item for flat in task.batch.flats):
            return task
    known = tuple(flat.id for task in wanted for flat in task.batch.flats)
    raise UnknownName("pin_blank", item, known)


def checked_pins(ask: Ask, bench: Bench) -> HollowrightError | None:
    """Why the pins can't all stand where they are, in words; None when they can."""
    if not ask.pins or not ask.whole:
        return None
    try:
        wanted = bench.tasks(ask)
        for task in wanted:
            _check(task)
        known = {flat.id for task in wanted for flat in task.batch.flats}
        for pin in ask.pins:
            if pin.item not in known:
                raise UnknownName("pin_blank", pin.item, tuple(known))
    except HollowrightError as fault:
        return fault
    return None


def _check(task: Task) -> None:
    """InputError for the first thing that is wrong with a task's pins, the newest pin first."""
    if not task.pins:
        return
    for pin in task.pins:
        _check_turn(task, pin)
    found = faults(problem_of(task), Packing(task.pins))
    for fault in (each for each in found if each.kind in WORDS):
        names = [task.batch.flat(spot.item).name for spot in fault.spots]
        said = WORDS[fault.kind].format(
            names[-1], names[0], edge=task.rules.edge, between=task.rules.between
        )
        raise InputError("pins", said, REMEDIES[fault.kind])


WORDS = {
    "count": "every {0} is pinned already.",
    "outside": "{0} would stand out over the sheet's edge.",
    "edge": "{0} would lie nearer than {edge:g} mm to the sheet's edge, the margin to hold it by.",
    "between": "{0} and {1}, both pinned, would lie nearer than the kerf of {between:g} mm.",
}
REMEDIES = {
    "count": "Unpin one first.",
    "outside": "Pin it farther in.",
    "edge": "Pin it farther in.",
    "between": "Move one of them, or unpin it.",
}


def _check_turn(task: Task, pin: Spot) -> None:
    name = task.batch.flat(pin.item).name
    sheet = sheet_of(task, pin.bin)
    turns = turns_of(task, pin.item, sheet)
    if turns is not None and not any(_same(pin.turn, turn) for turn in turns):
        allowed = " or ".join(f"{turn:g}" for turn in turns)
        raise InputError(
            "pin_turn",
            f"{name} may not be turned by {pin.turn:g} degrees.",
            f"Take {allowed}, or let it be turned any way.",
        )
    if pin.mirrored and not may_turn_over(task, pin.item):
        raise InputError(
            "pin_over", f"{name} may not be turned over.", "Tick that it may, or leave it."
        )


def _same(turn: float, other: float) -> bool:
    return abs((turn - other + 180.0) % 360.0 - 180.0) <= TURN_TOLERANCE


def sheet_of(task: Task, bin: str) -> Sheet:
    """The sheet that a bin's name means; InputError when there is none of it."""
    sheet = next((each for each in task.sheets if each.id == bin.partition("#")[0]), None)
    if sheet is None or not supplied(problem_of(task), bin):
        raise InputError("pin_sheet", "that sheet isn't there for this metal.", "Take another.")
    return sheet
