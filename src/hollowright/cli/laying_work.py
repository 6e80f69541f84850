"""What `hollowright layout` does: pieces and metal gathered, laid out or found again, cut."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from hollowright.cli.metal import may_cut, opened_drawer
from hollowright.cli.progress import Progress
from hollowright.errors import HollowrightError, InputError, PlanRefused, shown
from hollowright.job.job import read_text, shop_of
from hollowright.job.laying import lay_out, sold_of, tasks
from hollowright.job.layout_json import layout_data, pins_in, placements, task_key
from hollowright.job.ordering import orders_of_files
from hollowright.output.layout_view import pieces_text
from hollowright.output.layout_words import missing_words
from hollowright.plan.laid import Layout, Sheet, Task
from hollowright.plan.orders import Order, batches
from hollowright.shop import Shop
from hollowright.store.items import Cutting
from hollowright.store.store import Store


@dataclass(frozen=True)
class Asked:
    """All that the command was asked for, as it was typed."""

    files: tuple[str, ...]
    copies: int = 1
    seconds: float = 10.0
    turning: tuple[str, ...] = ()
    over: tuple[str, ...] = ()
    sold: str | None = None
    drawer: str = ""
    no_drawer: bool = False
    shop: str | None = None
    placed: str | None = None
    anew: bool = False
    cut: bool = False


@dataclass(frozen=True)
class Laid:
    """What came of it: the layouts, what each is kept by, what to mind, what was cut."""

    orders: tuple[Order, ...]
    layouts: tuple[Layout, ...]
    keys: tuple[str, ...]
    notes: tuple[str, ...] = ()
    cutting: Cutting | None = None
    kept: dict[str, Any] = field(default_factory=dict)

    @property
    def missing(self) -> int:
        """How many blanks found no place."""
        return sum(lost.count for layout in self.layouts for lost in layout.missing)


def laid_out(asked: Asked) -> Laid:
    """Do it all but show it; every error says what was wrong and what would do."""
    may_cut(asked.cut, asked.no_drawer)
    wanted = orders_of_files(asked.files, asked.copies, asked.shop)
    folder = str(Path(asked.files[0]).parent)
    shop = shop_of(asked.shop, folder)
    notes: list[str] = []
    with opened_drawer(asked.drawer, asked.no_drawer, asked.cut, notes) as store:
        kept = None if asked.placed is None else _read(asked.placed)
        todo = tasks(
            wanted, shop, _metal(store, wanted, shop), sold_of(asked.sold, folder), asked.turning,
            asked.over, () if kept is None else pins_in(kept),
        )  # fmt: skip
        if not todo:
            raise PlanRefused(
                "layout", "there is no flat blank in it.", "Tube and rod: `hollowright cutlist`."
            )
        keys = tuple(task_key(task) for task in todo)
        if kept is None:
            layouts = _found(asked, todo, keys, store, notes)
        else:
            layouts = tuple(_redrawn(kept, todo))
        data = layout_data(layouts)
        cutting = _cut(store, wanted, layouts, data) if asked.cut else None
    return Laid(wanted, layouts, keys, tuple(notes), cutting, data)


def _metal(store: Store | None, wanted: Sequence[Order], shop: Shop) -> tuple[Sheet, ...]:
    """The sheets in the drawer that some blank could come out of, each once."""
    if store is None:
        return ()
    tolerance = shop.value("sheet_tolerance")
    found: dict[str, Sheet] = {}
    for batch in batches(wanted, tolerance):
        sheets = store.sheets_for(batch.metal.id, batch.thickness, batch.temper, tolerance)
        found |= {sheet.id: sheet for sheet in sheets}
    return tuple(found.values())


def _read(path: str) -> Any:
    """A layout file's data, to be judged when it is known what is wanted."""
    try:
        return json.loads(read_text(path, "placed"))
    except (ValueError, RecursionError):
        raise InputError("placed", f"{shown(path)} isn't JSON.", "Give a layout.json.") from None


def _redrawn(kept: object, todo: Sequence[Task]) -> Iterator[Layout]:
    """The layouts that a file keeps; InputError where one can't be used any more."""
    for found in placements(kept, todo):
        if found.layout is None:
            raise InputError("placed", found.changed, "")
        yield found.layout


def _found(
    asked: Asked, todo: Sequence[Task], keys: Sequence[str], store: Store | None, notes: list[str]
) -> tuple[Layout, ...]:
    """Layouts kept from before, and the rest laid out now and kept."""
    known = {} if asked.anew else _remembered(store, todo, keys, notes)
    rest = [place for place in range(len(todo)) if place not in known]
    with Progress(asked.seconds) as progress:
        made = lay_out(
            [todo[place] for place in rest],
            asked.seconds,
            lambda layouts: progress.better(_so_far(layouts)),
            progress.stop,
        )
    if asked.seconds > 0:
        _remember(store, made, [keys[place] for place in rest], notes)
    if progress.stopped and asked.cut:
        raise PlanRefused("cut", "you stopped it: nothing was cut.", "What was found is kept.")
    new = dict(zip(rest, made, strict=True))
    return tuple(known.get(place) or new[place] for place in range(len(todo)))


def _so_far(layouts: Sequence[Layout]) -> str:
    """How much metal is taken so far."""
    taken = sum(layout.grams(layout.taken) for layout in layouts)
    return f"{taken:.1f} g of metal taken"


def _remembered(
    store: Store | None, todo: Sequence[Task], keys: Sequence[str], notes: list[str]
) -> dict[int, Layout]:
    """What was found before for the same, by its place; what can't be read is laid out anew."""
    found: dict[int, Layout] = {}
    for place, (task, key) in enumerate(zip(todo, keys, strict=True)):
        try:
            stored = store.placement(key) if store else None
            layout = placements(stored.data, [task])[0].layout if stored else None
        except HollowrightError as fault:
            notes.append(f"What was kept can't be used: {fault.problem}")
            continue
        if layout is not None:
            found[place] = layout
    return found


def _remember(
    store: Store | None, made: Sequence[Layout], keys: Sequence[str], notes: list[str]
) -> None:
    """Keep what was found, so that the same is never solved again."""
    if store is None:
        return
    try:
        for layout, key in zip(made, keys, strict=True):
            if layout.spots:
                store.keep_placement(key, layout_data([layout]), layout.seconds)
    except HollowrightError as fault:
        notes.append(f"What was found isn't kept for the next time: {fault.problem}")


def _cut(
    store: Store | None, wanted: Sequence[Order], layouts: Sequence[Layout], data: dict[str, Any]
) -> Cutting | None:
    """The metal out of the drawer and the offcuts in; PlanRefused when blanks are missing."""
    lost = [missing_words(each, lost) for each in layouts for lost in each.missing]
    if lost:
        raise PlanRefused("cut", f"nothing was cut: {lost[0]}", "Cut when all have a place.")
    if store is None:
        return None
    pieces = pieces_text({order.key: order for order in wanted})
    return store.cut_layouts(layouts, pieces, data)


def cut_words(cutting: Cutting) -> list[str]:
    """What a cutting did, in words."""
    out = ", ".join(map(str, cutting.out)) or "nothing"
    came = ", ".join(map(str, cutting.came_in)) or "nothing"
    return [
        f"Cut (number {cutting.number}): out of the drawer: {out}; offcuts put in: {came}.",
        f"Write the numbers on the offcuts. `hollowright drawer undo {cutting.number}` undoes it.",
    ]
