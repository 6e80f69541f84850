"""Layouts as JSON and back: where every blank lies, kept as an input and never solved again.

What is read back is judged. Where the pieces, rules or sheets have changed since, it says what.
"""

from __future__ import annotations

import dataclasses
import hashlib
import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from hollowright import __version__
from hollowright.errors import HollowrightError, InputError, shown
from hollowright.plan.laid import Layout, Sheet, Task, may_turn_over, turning_of
from hollowright.plan.layout import layout_of
from hollowright.plan.orders import Flat
from hollowright.shapes.nesting.problem import Spot

FORMAT = "hollowright-layout-1"
DECIMALS = 6
"""Outlines and gaps that agree to so many decimals [mm] are the same."""

MOST_SPOTS = 20_000
FARTHEST = 1e5
"""No spot lies farther from its sheet's corner [mm]."""


@dataclass(frozen=True)
class Kept:
    """What a file keeps of a task: its layout, or why that can't be used any more."""

    task: Task
    layout: Layout | None
    changed: str = ""


def task_key(task: Task) -> str:
    """The same for tasks that ask the same, whatever anything costs or is called."""
    told = {**_asked(task), "sheets": {each.id: _sheet_key(each) for each in task.sheets}}
    return _hash(told)


def layout_data(layouts: Sequence[Layout]) -> dict[str, Any]:
    """Layouts as plain dictionaries, lists, texts and numbers, to be kept with the pieces."""
    return {"format": FORMAT, "version": __version__, "batches": [_batch(one) for one in layouts]}


def _batch(layout: Layout) -> dict[str, Any]:
    task = layout.task
    used = {laid.sheet.id: _sheet_key(laid.sheet) for laid in layout.sheets}
    return {
        "id": task.batch.id,
        "key": task_key(task),
        "found": layout.found,
        "seconds": round(layout.seconds, 3),
        **_asked(task),
        "sheets": used,
        "spots": [_spot_data(spot) for spot in layout.spots],
    }


def _spot_data(spot: Spot) -> dict[str, Any]:
    return {
        "blank": spot.item, "sheet": spot.bin, "x": spot.x, "y": spot.y, "turn": spot.turn,
        "over": spot.mirrored, "pinned": spot.pinned,
    }  # fmt: skip


def _asked(task: Task) -> dict[str, Any]:
    """What was asked for, apart from the sheets: each blank, the gaps, the pins."""
    rules = task.rules
    return {
        "blanks": {flat.id: _flat_key(task, flat) for flat in task.batch.flats},
        "gaps": [_plain(each) for each in (rules.between, rules.edge)],
        "pins": _hash(sorted(map(_plain, task.pins), key=str)),
    }


def _flat_key(task: Task, flat: Flat) -> str:
    turning = (turning_of(task, flat.id), may_turn_over(task, flat.id))
    return f"{flat.count} x {_hash(_plain((flat.outline, flat.grain, turning)))[:16]}"


def _sheet_key(sheet: Sheet) -> str:
    told = (sheet.metal, sheet.thickness, sheet.temper, sheet.grain, sheet.supply, sheet.outline)
    return _hash(_plain(told))[:16]


def _hash(plain: Any) -> str:
    text = json.dumps(plain, sort_keys=True, separators=(",", ":"), allow_nan=False)
    return hashlib.sha256(text.encode()).hexdigest()


def _plain(thing: Any) -> Any:
    """Numbers as rounded texts, the rest as lists: the same text for what is the same."""
    if isinstance(thing, float):
        return f"{round(thing, DECIMALS) + 0.0:.{DECIMALS}f}"
    if dataclasses.is_dataclass(thing):
        names = [each.name for each in dataclasses.fields(thing)]
        return [type(thing).__name__, *(_plain(getattr(thing, name)) for name in names)]
    if isinstance(thing, (tuple, list)):
        return [_plain(each) for each in thing]
    return thing


def read_layouts(text: str, wanted: Sequence[Task]) -> tuple[Kept, ...]:
    """What a layout file's text keeps of these tasks; InputError where it can't be read."""
    try:
        data = json.loads(text)
    except (ValueError, RecursionError) as fault:
        where = f" at line {fault.lineno}" if isinstance(fault, json.JSONDecodeError) else ""
        raise InputError("layout", f"it isn't JSON{where}.", "Lay out anew.") from None
    return placements(data, wanted)


def placements(data: object, wanted: Sequence[Task]) -> tuple[Kept, ...]:
    """What kept data hold of these tasks, in their order: judged layouts, or what has changed.

    Nothing is solved. InputError names the field that can't be read.
    """
    table = _table(data, "layout")
    if table.get("format") != FORMAT:
        given = shown(table.get("format", ""))
        raise InputError("layout.format", f"{given} isn't known.", f"It must be {FORMAT}.")
    rows = _list(table.get("batches"), "layout.batches")
    found = {}
    for number, row in enumerate(rows):
        field = f"layout.batches[{number}]"
        batch = _table(row, field)
        found[_text(batch.get("id"), f"{field}.id")] = (field, batch)
    return tuple(_kept(task, found.get(task.batch.id)) for task in wanted)


def pins_in(data: object) -> tuple[Spot, ...]:
    """The spots that a person pinned in kept data, for tasks made anew."""
    found = []
    for number, row in enumerate(_list(_table(data, "layout").get("batches"), "layout.batches")):
        field = f"layout.batches[{number}]"
        spots = _list(_table(row, field).get("spots"), f"{field}.spots")
        found += [_spot(spot, f"{field}.spots[{n}]") for n, spot in enumerate(spots)]
    return tuple(spot for spot in found if spot.pinned)


def _kept(task: Task, found: tuple[str, Mapping[str, Any]] | None) -> Kept:
    if found is None:
        return Kept(task, None, f"{task.batch.id} isn't in the file: lay it out anew.")
    field, batch = found
    spots = tuple(
        _spot(row, f"{field}.spots[{n}]")
        for n, row in enumerate(_list(batch.get("spots"), f"{field}.spots"))
    )
    seconds = abs(_number(batch.get("seconds", 0.0), f"{field}.seconds"))
    changed = _changed(task, field, batch)
    if changed:
        return Kept(task, None, changed)
    try:
        return Kept(task, layout_of(task, spots, "kept", seconds))
    except HollowrightError as fault:
        raise InputError(f"{field}.spots", fault.problem, "Lay out anew.") from None


def _changed(task: Task, field: str, batch: Mapping[str, Any]) -> str:
    """What has changed since it was kept, in words; '' when nothing that matters."""
    anew, asked = "lay it out anew", _asked(task)
    before, now = _table(batch.get("blanks"), f"{field}.blanks"), asked["blanks"]
    for id in dict.fromkeys([*now, *before]):
        if before.get(id) != now.get(id):
            return f"{id} {_how(before.get(id), now.get(id))}: {anew}."
    if batch.get("gaps") != asked["gaps"]:
        return f"The kerf or the margin is another now: {anew}."
    if batch.get("pins") != asked["pins"]:
        return f"Other blanks are pinned now: {anew}."
    there = {each.id: _sheet_key(each) for each in task.sheets}
    for id, key in _table(batch.get("sheets"), f"{field}.sheets").items():
        if id not in there:
            return f"The sheet {id} isn't there any more: {anew}."
        if there[id] != key:
            return f"The sheet {id} is another now: {anew}."
    return ""


def _how(before: object, now: object) -> str:
    if before is None or now is None:
        return "is new" if before is None else "isn't wanted any more"
    counts = [str(each).partition(" ")[0] for each in (before, now)]
    if counts[0] != counts[1]:
        return f"is wanted {counts[1]} times now, not {shown(counts[0])}"
    return "has another outline or may lie otherwise now"


def _spot(row: object, field: str) -> Spot:
    table = _table(row, field)
    x, y, turn = (_number(table.get(name), f"{field}.{name}") for name in ("x", "y", "turn"))
    over, pinned = (_switch(table.get(name), f"{field}.{name}") for name in ("over", "pinned"))
    blank, sheet = (_text(table.get(name), f"{field}.{name}") for name in ("blank", "sheet"))
    return Spot(blank, sheet, x, y, turn, over, pinned)


def _table(given: object, field: str) -> Mapping[str, Any]:
    if not isinstance(given, dict):
        raise InputError(field, "it isn't a table of names.", "Lay out anew.")
    return given


def _list(given: object, field: str) -> list[Any]:
    if not isinstance(given, list) or len(given) > MOST_SPOTS:
        raise InputError(field, f"it isn't a list of at most {MOST_SPOTS}.", "Lay out anew.")
    return given


def _text(given: object, field: str) -> str:
    if not isinstance(given, str) or len(given) > 200:
        raise InputError(field, "it isn't a short text.", "Lay out anew.")
    return given


def _switch(given: object, field: str) -> bool:
    if not isinstance(given, bool):
        raise InputError(field, "it isn't true or false.", "Lay out anew.")
    return given


def _number(given: object, field: str) -> float:
    if isinstance(given, (int, float)) and not isinstance(given, bool) and abs(given) <= FARTHEST:
        return float(given)
    raise InputError(field, f"{shown(given)} isn't a usable number.", "Lay out anew.")
