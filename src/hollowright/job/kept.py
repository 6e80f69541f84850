"""Layouts kept by what was asked for: found again, and replaced by better ones only."""

from __future__ import annotations

from contextlib import suppress
from typing import Any, Protocol

from hollowright.errors import HollowrightError
from hollowright.job.layout_json import layout_data, placements, task_key
from hollowright.plan.judged import worth
from hollowright.plan.laid import Layout, Task
from hollowright.plan.layout import first_layout


class Shelf(Protocol):
    """Where layouts are kept; a drawer's store is one."""

    def placement(self, key: str) -> Any:
        """What was kept under a key, with its `data`; None when nothing was."""

    def keep_placement(self, key: str, data: Any, seconds: float = 0.0) -> None:
        """Keep data under a key."""


def kept_layout(shelf: Shelf, task: Task) -> Layout | None:
    """The layout kept of a task, judged anew; None where none is.

    HollowrightError when it can't be read or isn't sound.
    """
    stored = shelf.placement(task_key(task))
    return placements(stored.data, [task])[0].layout if stored else None


def keep_better(shelf: Shelf, layout: Layout) -> None:
    """Keep a layout, unless one that is as good is kept already."""
    if not layout.spots:
        return
    with suppress(HollowrightError):  # what can't be read is replaced
        before = kept_layout(shelf, layout.task)
        if before is not None and worth(before) <= worth(layout):
            return
    shelf.keep_placement(task_key(layout.task), layout_data([layout]), layout.seconds)


def start_from(task: Task, kept: Layout | None) -> Layout | None:
    """What a search had better begin with: a kept layout, or the quick one if that is better now.

    None where nothing is kept. Prices may have changed since it was kept.
    """
    return None if kept is None else min(kept, first_layout(task), key=worth)
