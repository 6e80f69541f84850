"""The lattice engine's own process: one task from standard input, answers as lines of JSON.

Task, the first line: what `lattice.Lattice.task` gives, with seconds, seed and the least columns.
Answers: as those of `strip_worker`, with the spots of each shorter strip.
"""

from __future__ import annotations

import json
import os
import sys
import time
from collections.abc import Mapping
from typing import Any

from hollowright.shapes.nesting.strip_worker import GRACE, end_with_the_caller, say


def main() -> None:
    """Solve the task on standard input."""
    task = json.loads(sys.stdin.readline())
    end_with_the_caller(task["seconds"] + GRACE)
    try:
        _solve(task)
    except Exception as fault:  # noqa: BLE001
        say({"failed": f"{type(fault).__name__}: {fault}"})
        os._exit(1)
    say({"done": True})
    os._exit(0)


def _solve(task: Mapping[str, Any]) -> None:
    import numpy as np

    from hollowright.shapes.nesting.lattice_search import Laid, Pieces
    from hollowright.shapes.nesting.lattice_strip import shortest
    from hollowright.shapes.nesting.lattice_tables import tables

    ends = time.monotonic() + task["seconds"]
    corners = [np.array(form["corners"], float) for form in task["forms"]]
    found, least = tables(corners)
    numbers = range(len(corners))
    of_kind = [
        [i for i in numbers if task["forms"][i]["kind"] == kind]
        for kind in range(len(task["counts"]))
    ]
    forms = [of_kind[kind] for kind, count in enumerate(task["counts"]) for _ in range(count)]
    sizes = np.array([each.max(axis=0) for each in corners], int)
    pieces = Pieces(sizes, forms, found, least, task["rows"])

    def tell(laid: Laid) -> None:
        spots = [_spot(task, *place) for place in laid.places]
        say({"width": laid.length(pieces) * task["step"], "spots": spots})

    rng = np.random.default_rng(task["seed"])
    shortest(pieces, task["least"], rng, lambda: time.monotonic() < ends, tell)


def _spot(task: Mapping[str, Any], form: int, x: int, y: int) -> list[float]:
    """A place as the kind's number, x, y [mm] and turn."""
    given, step = task["forms"][form], task["step"]
    left, low = given["low"]
    return [given["kind"], x * step - left, y * step - low, given["turn"]]


if __name__ == "__main__":
    main()
