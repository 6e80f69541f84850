"""Measure layouts: what a class of twelve saves against rows as by eye; the first answer."""

from __future__ import annotations

import statistics
import sys
import time

from hollowright.designs import designs
from hollowright.job.job import plan_tables, read_tables
from hollowright.job.laying import tasks
from hollowright.plan.laid import Layout, Task
from hollowright.plan.layout import better_layout, first_layout, layout_by_eye
from hollowright.plan.orders import orders
from hollowright.shop import default_shop

CLASS = 12
SECONDS = 10.0
FIRST_LIMIT = 100.0
"""For the first answer of the demo's class [ms]."""

ROUNDS = 5
DEMO = "tube-box"


def class_of(id: str, copies: int = CLASS) -> tuple[Task, ...]:
    """What the first example of a design wants for a class, on the common sizes that are sold."""
    text = next(each for each in designs() if each.id == id).examples[0].text
    plan = plan_tables(read_tables(text))
    return tasks(orders([plan], copies), default_shop())


def first_milliseconds(task: Task) -> float:
    """Median time of the first answer [ms], after one that isn't counted."""
    taken = []
    for _ in range(ROUNDS + 1):
        begun = time.perf_counter()
        first_layout(task)
        taken.append(1000 * (time.perf_counter() - begun))
    return statistics.median(taken[1:])


def _saved(eye: float, found: float) -> str:
    return f"{100 * (1 - found / eye):6.1f} %" if eye else "     - "


def _bought(layout: Layout) -> float:
    return sum(each.area for each in layout.bought)


def report(seconds: float = SECONDS) -> list[str]:
    """Print what a class of twelve saves; the tasks over their limit, or worse than by eye."""
    over = []
    print(f"\nclass of {CLASS}, common sizes; metal [cm2] by eye, then found in {seconds:g} s")
    print(f"{'':<36}{'bought':>16}{'taken':>18}{'saved':>10}{'missing':>9}{'first [ms]':>12}")
    for id in (each.id for each in designs()):
        for task in class_of(id):
            eye, first = layout_by_eye(task), first_layout(task)
            found = better_layout(task, first, seconds)
            ms = first_milliseconds(task)
            name = f"{id} {task.batch.id}"
            missing = f"{_missing(eye)}/{_missing(found)}"
            print(
                f"{name:<36}{_bought(eye) / 100:8.1f}{_bought(found) / 100:8.1f}"
                f"{eye.taken / 100:9.1f}{found.taken / 100:9.1f}  "
                f"{_saved(eye.taken, found.taken)}{missing:>9}{ms:12.1f}"
            )
            if id == DEMO and ms > FIRST_LIMIT:
                over.append(f"first layout of {name}")
            if _missing(found) > _missing(eye):
                over.append(f"layout of {name}: more blanks missing than by eye")
    return over


def _missing(layout: Layout) -> int:
    return sum(each.count for each in layout.missing)


if __name__ == "__main__":
    if found_over := report(float(sys.argv[1]) if len(sys.argv) > 1 else SECONDS):
        sys.exit("Over the limit: " + ", ".join(found_over))
