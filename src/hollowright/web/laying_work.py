"""What came of an ask: layouts found before or found at once, and the search that betters them."""

from __future__ import annotations

import hashlib
import threading
from collections import OrderedDict
from collections.abc import Sequence
from dataclasses import dataclass, field

from hollowright.errors import HollowrightError, InputError
from hollowright.plan.laid import Layout, Task
from hollowright.plan.layout import first_layout, layout_of
from hollowright.shapes.nesting.problem import Spot
from hollowright.shop import Shop, default_shop
from hollowright.web.laying_ask import Ask
from hollowright.web.laying_jobs import Searches
from hollowright.web.laying_source import tasks

MOST_REMEMBERED = 200
"""So many layouts are remembered while the server runs."""


class Remembered:
    """Layouts found while the server runs, by their task; the oldest are forgotten."""

    def __init__(self) -> None:
        self.lock = threading.Lock()
        self.spots: OrderedDict[str, tuple[Spot, ...]] = OrderedDict()

    def keep(self, layout: Layout) -> None:
        """Remember where everything lies."""
        key = task_key(layout.task)
        with self.lock:
            self.spots[key] = layout.spots
            self.spots.move_to_end(key)
            while len(self.spots) > MOST_REMEMBERED:
                self.spots.popitem(last=False)

    def found(self, task: Task) -> Layout | None:
        """What was found for this task before; None when nothing was."""
        with self.lock:
            spots = self.spots.get(task_key(task))
        return None if spots is None else layout_of(task, spots, "kept")


@dataclass
class Bench:
    """What the layout page keeps between two requests: searches, and what they found."""

    shop: Shop | None = None
    drawer: str | None = None
    searches: Searches = field(default_factory=Searches)
    remembered: Remembered = field(default_factory=Remembered)

    def keep(self, layout: Layout) -> None:
        """Keep what a search found."""
        self.remembered.keep(layout)


@dataclass(frozen=True)
class Laid:
    """An ask with its layouts, one a batch; fault: why there are none, or why a pin was refused.

    search: whether a search could better them.
    """

    ask: Ask
    layouts: tuple[Layout, ...] = ()
    fault: HollowrightError | None = None
    search: bool = False


def task_key(task: Task) -> str:
    """The same for tasks that ask the same: what is stored is found again by it."""
    flats = [(f.id, f.outline, f.count, f.grain) for f in task.batch.flats]
    told = repr((task.batch.id, flats, task.sheets, task.rules, task.pins))
    return hashlib.sha256(told.encode()).hexdigest()


def laid_out(ask: Ask, bench: Bench) -> Laid:
    """Layouts for an ask: those found before, or a quick answer."""
    if not ask.whole:
        return Laid(ask)
    try:
        wanted = tasks(ask, bench.shop or default_shop())
        layouts = tuple(_one(task, ask, bench) for task in wanted)
    except HollowrightError as fault:
        return Laid(ask, fault=fault)
    return Laid(ask, layouts, search=any(each.found != "kept" for each in layouts))


def _one(task: Task, ask: Ask, bench: Bench) -> Layout:
    found = None if ask.anew else bench.remembered.found(task)
    return found or first_layout(task)


def as_shown(ask: Ask, bench: Bench) -> tuple[Layout, ...]:
    """The layouts that the page shows, by the spots that it sent; HollowrightError if unsound."""
    return tuple(
        layout_of(task, _spots_of(task, ask.spots), "kept")
        for task in tasks(ask, bench.shop or default_shop())
    )


def _spots_of(task: Task, spots: Sequence[Spot]) -> tuple[Spot, ...]:
    ids = {flat.id for flat in task.batch.flats}
    found = tuple(spot for spot in spots if spot.item in ids)
    if not found:
        raise InputError("spots", "the page sent no layout.", "Lay out, then try again.")
    return found
