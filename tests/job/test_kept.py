"""Layouts kept by what was asked for: a better one replaces them, a worse one doesn't."""

from dataclasses import replace
from pathlib import Path

import pytest

from hollowright.designs import design
from hollowright.job.job import plan_tables, read_tables
from hollowright.job.kept import keep_better, kept_layout, start_from
from hollowright.job.laying import tasks
from hollowright.job.layout_json import task_key
from hollowright.plan.judged import worth
from hollowright.plan.laid import Layout, Task
from hollowright.plan.layout import first_layout, layout_by_eye, layout_of
from hollowright.plan.orders import orders
from hollowright.shapes.nesting.problem import Spot
from hollowright.shop import default_shop
from hollowright.store.store import Store, open_store


@pytest.fixture
def task() -> Task:
    plan = plan_tables(read_tables(design("tube-box").examples[0].text))
    return tasks(orders([plan], 3), default_shop())[0]


@pytest.fixture
def store(tmp_path: Path) -> Store:
    return open_store(str(tmp_path / "drawer"))


def wasteful(task: Task) -> Layout:
    """Each blank on a sheet of its own."""
    best = first_layout(task)
    spots: list[Spot] = []
    for spot in best.spots:
        base = spot.bin.partition("#")[0]
        number = sum(each.bin.partition("#")[0] == base for each in spots)
        spots.append(replace(spot, bin=f"{base}#{number + 1}" if number else base))
    made = layout_of(task, spots, "searched", 3.0)
    assert worth(made) > worth(best)
    return made


def test_a_better_layout_replaces_and_a_worse_one_does_not(task: Task, store: Store) -> None:
    worse, better = wasteful(task), first_layout(task)
    for made, stays in ((worse, worse), (better, better), (worse, better), (better, better)):
        keep_better(store, made)
        kept = kept_layout(store, task)
        assert kept is not None
        assert (kept.found, worth(kept)) == ("kept", worth(stays))


def test_what_can_not_be_read_is_replaced(task: Task, store: Store) -> None:
    store.keep_placement(task_key(task), {"spots": "of old"})
    keep_better(store, first_layout(task))
    assert kept_layout(store, task) is not None


def test_a_search_starts_from_the_better_of_both(task: Task) -> None:
    assert start_from(task, None) is None
    start = start_from(task, wasteful(task))
    assert start is not None
    assert worth(start) == worth(first_layout(task))
    by_eye = layout_by_eye(task)
    assert min(worth(by_eye), worth(first_layout(task))) == worth(start_from(task, by_eye) or start)
