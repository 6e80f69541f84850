"""What came of an ask: layouts found before or found at once, and the search that betters them."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass, replace

from hollowright.errors import HollowrightError, InputError
from hollowright.job.kept import keep_better, kept_layout
from hollowright.job.layout_json import task_key
from hollowright.plan.judged import worth
from hollowright.plan.laid import Layout, Task
from hollowright.plan.layout import first_layout, gain_left, layout_of
from hollowright.shapes.nesting.problem import Spot
from hollowright.shop import Shop, default_shop
from hollowright.store.items import PREFIX
from hollowright.web.booked import Booked
from hollowright.web.drawer_door import Door
from hollowright.web.laying_ask import Ask, read_spots, written_spots
from hollowright.web.laying_jobs import Searches
from hollowright.web.laying_source import tasks

CUT_LISTS_AT_ONCE = 2
"""So many cut lists are worked out at the same time; the next ones wait."""

MOST_REMEMBERED = 200
"""So many layouts are remembered while the server runs."""


class Remembered:
    """Layouts found before, by their task: in the drawer's store, else while the server runs."""

    def __init__(self, door: Door) -> None:
        self.door = door
        self.lock = threading.Lock()
        self.rows: OrderedDict[str, str] = OrderedDict()

    def keep(self, layout: Layout) -> None:
        """Remember where everything lies, unless a layout that is as good is remembered."""
        before = self.found(layout.task)
        if before is not None and worth(before) <= worth(layout):
            return
        key, rows = task_key(layout.task), written_spots(layout.spots)
        with self.lock:
            self.rows[key] = rows
            self.rows.move_to_end(key)
            while len(self.rows) > MOST_REMEMBERED:
                self.rows.popitem(last=False)
        with suppress(HollowrightError):
            keep_better(self.door.opened(), layout)

    def found(self, task: Task) -> Layout | None:
        """What was found for this task before; None when nothing was, or it doesn't hold now."""
        key = task_key(task)
        with self.lock:
            rows = self.rows.get(key)
        if rows is None:
            with suppress(HollowrightError):
                return kept_layout(self.door.opened(), task)
            return None
        try:
            return layout_of(task, read_spots(rows, "spots", {}), "kept")
        except HollowrightError:
            return None


class Bench:
    """What the layout page keeps between two requests: the drawer, searches, what they found."""

    def __init__(self, shop: Shop | None = None, drawer: str | None = None) -> None:
        self.shop = shop or default_shop()
        self.door = Door(drawer)
        self.searches = Searches()
        self.sawing = threading.Semaphore(CUT_LISTS_AT_ONCE)
        self.booked = Booked()
        self.remembered = Remembered(self.door)

    def tasks(self, ask: Ask) -> tuple[Task, ...]:
        """What an ask wants laid out."""
        return tasks(ask, self.shop, self.door)

    def keep(self, layout: Layout) -> None:
        """Keep what a search found."""
        self.remembered.keep(layout)

    def booked_before(self, mark: str) -> int:
        """The standing cutting that was booked for what is shown alike; 0 when there is none."""
        number = self.booked.before(mark)
        with suppress(HollowrightError):
            if number and self.door.opened().cutting(number).undone is None:
                return number
        return 0

    def close(self) -> None:
        """Stop every search and close the drawer."""
        self.searches.close()
        self.door.close()

    def drawer_fault(self) -> HollowrightError | None:
        """Why the drawer can't be used; None when it can."""
        try:
            self.door.opened()
        except HollowrightError as fault:
            return fault
        return None


@dataclass(frozen=True)
class Laid:
    """An ask with its layouts, one a batch; fault: why there are none, or why a pin was refused.

    drawer_fault: why the drawer wasn't used.     search: whether a search could better them.
    searched: what came of a search that the page waited for.
    """

    ask: Ask
    layouts: tuple[Layout, ...] = ()
    fault: HollowrightError | None = None
    drawer_fault: HollowrightError | None = None
    search: bool = False
    searched: str = ""


def laid_out(ask: Ask, bench: Bench) -> Laid:
    """Layouts for an ask: those found before, or a quick answer."""
    if not ask.whole:
        return Laid(ask)
    try:
        wanted = bench.tasks(ask)
        layouts = tuple(_one(task, bench) for task in wanted)
    except HollowrightError as fault:
        return Laid(ask, fault=fault)
    closed = bench.drawer_fault() if ask.drawer else None
    return Laid(
        ask,
        layouts,
        drawer_fault=closed,
        search=_worth_it(ask, layouts),
    )


def _one(task: Task, bench: Bench) -> Layout:
    return bench.remembered.found(task) or first_layout(task)


def _worth_it(ask: Ask, layouts: Sequence[Layout]) -> bool:
    """Whether a search may better them: those found before are left as they are, unless asked."""
    return any(gain_left(each) and (ask.anew or each.found != "kept") for each in layouts)


def as_shown(ask: Ask, bench: Bench) -> tuple[Layout, ...]:
    """The layouts that the page shows, by the spots that it sent; HollowrightError if unsound."""
    if not ask.spots:
        raise InputError("layout", "the page sent none.", "Lay out, then try again.")
    wanted = bench.tasks(ask)
    there = {sheet.id for task in wanted for sheet in task.sheets}
    for spot in ask.spots:
        if (id := spot.bin.partition("#")[0]) not in there:
            raise InputError("layout", f"{_called(id)} isn't there any more.", "Lay out anew.")
    return tuple(layout_of(task, _spots_of(task, ask.spots), "kept") for task in wanted)


def _called(id: str) -> str:
    """A sheet that isn't there any more, as it was called at the bench."""
    if id.startswith(PREFIX):
        return f"the drawer's number {id.removeprefix(PREFIX)}"[:60]
    return "a sheet of it"


def shown_again(ask: Ask, bench: Bench) -> Laid:
    """The layouts as the page that sent this showed them; laid out anew where they don't hold."""
    try:
        layouts = as_shown(ask, bench)
    except HollowrightError:
        return laid_out(ask, bench)
    if not ask.whole or any(each.missing for each in layouts):
        return laid_out(ask, bench)
    unsearched = any(gain_left(each) and not bench.remembered.found(each.task) for each in layouts)
    closed = bench.drawer_fault() if ask.drawer else None
    return Laid(ask, layouts, drawer_fault=closed, search=unsearched)


def to_better(ask: Ask, bench: Bench) -> Laid:
    """Where a search begins: the best of what the page shows and what is found without it."""
    laid = laid_out(ask, bench)
    with suppress(HollowrightError):
        shown = as_shown(ask, bench)
        pairs = zip(laid.layouts, shown, strict=True)
        return replace(laid, layouts=tuple(min(pair, key=worth) for pair in pairs))
    return laid


def _spots_of(task: Task, spots: Sequence[Spot]) -> tuple[Spot, ...]:
    ids = {flat.id for flat in task.batch.flats}
    return tuple(spot for spot in spots if spot.item in ids)
