"""Metal for the tests, and layouts and cut lists that cut it, made by hand."""

import os
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from hollowright.handbook.metals import metal
from hollowright.plan.bars import Bar, BarBatch, BarRules, CutList, SawnBar, SawnPiece
from hollowright.plan.laid import LaidSheet, Layout, Rules, Sheet, Task
from hollowright.plan.orders import Batch
from hollowright.shapes.nesting.problem import Spot
from hollowright.shapes.outline import Outline, rectangle
from hollowright.store import NewItem
from hollowright.store.store import Store

ROOT = Path(__file__).resolve().parents[2]
BRASS = "C26000"
RULES = BarRules(kerf=0.3, truing=0.3, end_trim=1.0, offcut_least=20.0)


def sheet(**told: Any) -> NewItem:
    """A brass sheet, 300 x 150 x 0.71 unless told otherwise."""
    size = {"form": "sheet", "metal": BRASS, "thickness": 0.71, "length": 300.0, "width": 150.0}
    return NewItem(**(size | told))


def tube(**told: Any) -> NewItem:
    """A brass tube, 38.05 x 1.01, 600 long unless told otherwise."""
    size = {"form": "tube", "metal": BRASS, "outside_diameter": 38.05, "wall": 1.01}
    return NewItem(**(size | {"length": 600.0, "square_ends": 2} | told))


def layout(*cuts: tuple[Sheet, Sequence[Outline]]) -> Layout:
    """A layout of one blank on each sheet, with what it leaves as offcuts."""
    batch = Batch(metal(BRASS), 0.71, "", ())
    task = Task(batch, tuple(each for each, _ in cuts), Rules(0.3, 2.0, 15.0))
    laid = tuple(_laid(each, tuple(left)) for each, left in cuts)
    return Layout(task, laid)


def _laid(each: Sheet, left: tuple[Outline, ...]) -> LaidSheet:
    area, kept = each.outline.area, sum(outline.area for outline in left)
    spot = Spot("box.cap", each.id, 1.0, 1.0, 0.0, False)
    return LaidSheet(each.id, each, (spot,), left, area, 0.9 * (area - kept), kept)


def strip_off(each: Sheet, width: float) -> tuple[Sheet, tuple[Outline, ...]]:
    """A cut of a whole end of a rectangular sheet: what is left is shorter by `width` [mm]."""
    length = each.outline.width - width
    rest = rectangle(length, each.outline.height).moved(width, 0) if length > 0 else None
    return each, (rest,) if rest else ()


def sawn(bar: Bar, long: float) -> CutList:
    """A cut list of one piece so long [mm] from a bar's first end."""
    rest = bar.length - long - RULES.kerf
    piece = SawnPiece("box.body", 0, 0.0, long, low_square=bar.square_ends > 0)
    square = int(bar.square_ends > 1)
    made = SawnBar(
        bar.id, bar, (piece,), RULES.kerf, rest, rest >= 20, long + RULES.kerf, rest_square=square
    )
    return CutList(BarBatch(bar.form, metal(bar.metal), bar.sizes, bar.temper, ()), RULES, (made,))


def to_buy(each: Sheet, cost: float | None = 20.0) -> Sheet:
    """The same sheet as a supplier sells it."""
    return replace(each, id="buy-300x150", label="300 x 150", origin="to buy", cost=cost)


def faults_of_the_books(store: Store) -> list[str]:
    """What doesn't add up: items gone without their cutting, areas that came from nowhere."""
    found = []
    items = {item.number: item for item in store.all_items(gone=None)}
    cuttings = {each.number: each for each in store.cuttings(1_000_000) if not each.undone}
    for item in items.values():
        by = [number for number, each in cuttings.items() if item.number in each.out]
        if item.gone_how == "cut" and by != [item.gone_by]:
            found.append(f"{item.number} is gone by {by}, not {item.gone_by}")
        if item.there and by:
            found.append(f"{item.number} is there, yet cut by {by}")
        if item.there and item.came_by is not None and item.came_by not in cuttings:
            found.append(f"{item.number} came by a cutting that doesn't stand")
    for number, each in cuttings.items():
        out = sum(items[item].area for item in each.out)
        left = sum(items[item].area for item in each.came_in)
        if abs(out - left - each.data["area"]) > 1e-6:
            found.append(f"cutting {number}: {out} out, {left} left, {each.data} cut")
    return found


def cutting_process(url: str, *more: str) -> Any:
    """Start a process that cuts (see cutter.py); talk to it by its pipes."""
    return subprocess.Popen(
        [sys.executable, "-m", "tests.store.cutter", url, *more],
        cwd=ROOT,
        env=os.environ | {"PYTHONPATH": str(ROOT)},
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
