"""Measure the drawer with 10,000 items: a page, stock for a piece, a cutting, each under 50 ms.

On SQLite; on PostgreSQL too where HOLLOWRIGHT_BENCH_DRAWER names an empty database of its own.
"""

from __future__ import annotations

import os
import random
import statistics
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from hollowright.handbook.metals import metal, metals
from hollowright.plan.laid import LaidSheet, Layout, Rules, Sheet, Task
from hollowright.plan.orders import Batch
from hollowright.shapes.nesting.problem import Spot
from hollowright.shapes.outline import Outline, polygon
from hollowright.store import NewItem
from hollowright.store.rows import outline_of
from hollowright.store.store import Store, open_store

ITEMS = 10_000
LIMIT = 50.0
"""Each of the promised three stays under this, median [ms]."""

THICKNESSES = (0.5, 0.64, 0.71, 0.81, 1.02)
COMMON = "C26000"


def items(count: int) -> list[NewItem]:
    """A drawer such as a school's might be, seeded: half of it brass, half of it odd shapes."""
    dice = random.Random(4)
    ids = [each.id for each in metals()]
    return [_item(dice, COMMON if dice.random() < 0.5 else dice.choice(ids)) for _ in range(count)]


def _item(dice: random.Random, id: str) -> NewItem:
    place = f"tin {dice.randrange(60)}"
    if dice.random() < 0.2:
        outside, long = dice.choice((12.7, 25.4, 38.05)), dice.uniform(50, 900)
        return NewItem(
            form="tube", metal=id, outside_diameter=outside, wall=1.01, length=long, place=place
        )
    wide, high = dice.uniform(40, 300), dice.uniform(30, 150)
    shape: Outline | None = None
    if dice.random() < 0.5:
        half = wide / 2
        corners = [(0, 0), (wide, 0), (wide, high / 2), (half, high / 2), (half, high), (0, high)]
        shape = polygon([(x + dice.random(), y + dice.random()) for x, y in corners])
    return NewItem(
        form="sheet", metal=id, thickness=dice.choice(THICKNESSES), length=wide, width=high,
        outline=shape, place=place, cost=round(wide * high / 2000, 2),
    )  # fmt: skip


def cut_of(sheet: Sheet) -> Layout:
    """A layout of one blank on a sheet, that leaves its left half."""
    low_x, low_y, high_x, high_y = sheet.outline.bounds
    middle = (low_x + high_x) / 2
    left = polygon([(low_x, low_y), (middle, low_y), (middle, high_y / 3), (low_x, high_y / 3)])
    area = sheet.outline.area
    spot = Spot("box.cap", sheet.id, middle, low_y)
    laid = LaidSheet(sheet.id, sheet, (spot,), (left,), area, area / 4, left.area)
    task = Task(Batch(metal(sheet.metal), sheet.thickness, "", ()), (sheet,), Rules(0.3, 2, 15))
    return Layout(task, (laid,))


def tasks(store: Store, dice: random.Random) -> dict[str, Callable[[], object]]:
    """The promised three, and a search by words."""

    def cutting() -> object:
        found = store.sheets_for(COMMON, dice.choice(THICKNESSES), "", 0.02)
        return store.cut_layouts([cut_of(dice.choice(found))], "box", {"spots": [[1, 2, 3]] * 20})

    def sheets() -> object:
        return store.sheets_for(COMMON, dice.choice(THICKNESSES), "", 0.02)

    def forgetful() -> object:
        outline_of.cache_clear()
        return sheets()

    return {
        "a page of 50": lambda: store.items(dice.randrange(1, 150)),
        "the last page": lambda: store.items(ITEMS // 50 - 2),
        "a search by words": lambda: store.items(text=f"brass tin {dice.randrange(60)}"),
        "sheets for a piece": sheets,
        "sheets for a piece, nothing remembered": forgetful,
        "bars for a piece": lambda: store.bars_for(
            "tube", COMMON, {"outside_diameter": 38.05, "wall": 1.01}, "", 0.05
        ),
        "finding and cutting": cutting,
    }


def medians(url: str, rounds: int) -> dict[str, float]:
    """Median times [ms] in a drawer of 10,000 items made at an address."""
    with open_store(url) as store:
        store.add_all(items(ITEMS))
        found = tasks(store, random.Random(5))
        return {name: statistics.median(timed(task, rounds)) for name, task in found.items()}


def timed(task: Callable[[], object], rounds: int) -> list[float]:
    """Wall times of a task [ms]; the first, which reads every outline once, counts as well."""
    taken = []
    for _ in range(rounds):
        begun = time.perf_counter()
        task()
        taken.append(1000 * (time.perf_counter() - begun))
    return taken


def report(rounds: int = 15) -> list[str]:
    """Print the table; what is over its limit."""
    with tempfile.TemporaryDirectory() as folder:
        urls = {"SQLite": str(Path(folder) / "drawer.sqlite3")}
        if named := os.environ.get("HOLLOWRIGHT_BENCH_DRAWER"):
            urls["PostgreSQL"] = named
        over = []
        for name, url in urls.items():
            print(f"\nthe drawer with {ITEMS} items on {name}, medians of {rounds}")
            for what, median in medians(url, rounds).items():
                print(f"{what:<40}{median:9.1f} ms   limit {LIMIT:7.1f}")
                over += [f"{what} ({name})"] if median > LIMIT else []
    return over


if __name__ == "__main__":
    raise SystemExit(", ".join(report()))
