"""What `hollowright layout` does: pieces and metal gathered, laid out or found again, cut."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from hollowright.cli.metal import check_all_there, folder_notes, may_cut, opened_drawer
from hollowright.cli.progress import Progress
from hollowright.errors import HollowrightError, InputError, PlanRefused, shown
from hollowright.job.job import read_text, shop_of
from hollowright.job.kept import keep_better, kept_layout, start_from
from hollowright.job.laying import lay_out, sold_of, tasks
from hollowright.job.layout_json import layout_data, pins_in, placements, task_key
from hollowright.job.ordering import orders_of_files
from hollowright.output.hand_words import hand_words
from hollowright.output.layout_view import pieces_text
from hollowright.output.layout_words import missing_words
from hollowright.plan.bar_strips import strip_ids
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
    strips: tuple[str, ...] = ()


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


def laid_out(asked: Asked, write: Callable[[Laid], None] = lambda _: None) -> Laid:
    """Do it all but show it; every error says what was wrong and what would do.

    write: writes the files; called when all is found, before anything is cut.
    """
    may_cut(asked.cut, asked.no_drawer)
    wanted = orders_of_files(asked.files, asked.copies, asked.shop)
    folder = str(Path(asked.files[0]).parent)
    shop = shop_of(asked.shop, folder)
    notes = list(folder_notes(asked.files, asked.shop, asked.sold))
    with opened_drawer(asked.drawer, asked.no_drawer, asked.cut, notes) as store:
        kept = None if asked.placed is None else _read(asked.placed)
        strips = strip_ids(wanted, asked.strips)
        notes += [f"{id}: sawn from strip, see the cut list." for id in strips]
        todo = tasks(
            wanted, shop, _metal(store, wanted, shop), sold_of(asked.sold, folder), asked.turning,
            asked.over, () if kept is None else pins_in(kept), strips,
        )  # fmt: skip
        if not todo:
            raise _nothing(strips)
        keys = tuple(task_key(task) for task in todo)
        layouts = _found(asked, todo, store, notes) if kept is None else tuple(_redrawn(kept, todo))
        laid = Laid(wanted, layouts, keys, tuple(notes), None, layout_data(layouts))
        if asked.cut:
            check_all_there(
                [missing_words(each, lost) for each in layouts for lost in each.missing]
            )
        write(laid)
        return _cut(store, laid) if store and asked.cut else laid


def _nothing(strips: Sequence[str]) -> PlanRefused:
    """Why there is nothing to lay out."""
    if strips:
        why = f"nothing is left for it: all is sawn from strip ({', '.join(strips)})."
        return PlanRefused("layout", why, "`hollowright cutlist` with the same --strip has them.")
    return PlanRefused(
        "layout", "there is no flat blank in it.", "Tube and rod: `hollowright cutlist`."
    )


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
    asked: Asked, todo: Sequence[Task], store: Store | None, notes: list[str]
) -> tuple[Layout, ...]:
    """Layouts kept from before, and the rest laid out now and kept."""
    quick = asked.anew and asked.seconds == 0
    known = {} if quick else _remembered(store, todo, notes)
    rest = [place for place in range(len(todo)) if asked.anew or place not in known]
    with Progress(asked.seconds) as progress:
        made = lay_out(
            [todo[place] for place in rest],
            asked.seconds,
            lambda layouts: progress.better(_so_far(layouts)),
            progress.stop,
            [start_from(todo[place], known.get(place)) for place in rest],
        )
    if asked.seconds > 0:
        _remember(store, made, notes)
    if progress.stopped and asked.cut:
        raise PlanRefused("cut", "you stopped it: nothing was cut.", "What was found is kept.")
    found = known | dict(zip(rest, made, strict=True))
    return tuple(found[place] for place in range(len(todo)))


def _so_far(layouts: Sequence[Layout]) -> str:
    """How much metal is taken so far."""
    taken = sum(layout.grams(layout.taken) for layout in layouts)
    return f"{taken:.1f} g of metal taken"


def _remembered(store: Store | None, todo: Sequence[Task], notes: list[str]) -> dict[int, Layout]:
    """What was found before for the same, by its place; what can't be read is laid out anew."""
    found: dict[int, Layout] = {}
    for place, task in enumerate(todo):
        try:
            layout = kept_layout(store, task) if store else None
        except HollowrightError as fault:
            notes.append(f"What was kept can't be used: {fault.problem}")
            continue
        if layout is not None:
            found[place] = layout
    return found


def _remember(store: Store | None, made: Sequence[Layout], notes: list[str]) -> None:
    """Keep what was found, so that the same is never solved again."""
    if store is None:
        return
    try:
        for layout in made:
            keep_better(store, layout)
    except HollowrightError as fault:
        notes.append(f"What was found isn't kept for the next time: {fault.problem}")


def _cut(store: Store, laid: Laid) -> Laid:
    """The metal out of the drawer and the offcuts in."""
    pieces = pieces_text({order.key: order for order in laid.orders})
    cutting = store.cut_layouts(laid.layouts, pieces, laid.kept)
    used = {sheet.sheet.id for layout in laid.layouts for sheet in layout.sheets}
    notes = (*laid.notes, *hand_words(laid.orders, used))
    return replace(laid, cutting=cutting, notes=notes)
