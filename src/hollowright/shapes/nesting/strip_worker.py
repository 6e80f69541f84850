"""The strip engine's own process: one task read from standard input, answers as lines of JSON.

The solver (spyrrow) can't be stopped and may panic, so it runs in a process of its own, which its
caller may end at any time. It ends itself when the caller is gone or its time is well over.

Task, the first line: height [mm], items [{corners, count, turns}], exploring and compressing
[whole seconds], workers, seed, early (whether it may end before its time). Answers: {"width": mm,
"spots": [[item's number, x, y, turn], ...]} for each better strip, then {"done": true}, or
{"failed": "why"}.
"""

from __future__ import annotations

import json
import os
import sys
import threading
import time
from collections.abc import Mapping
from typing import Any

PAUSE = 0.05
"""How often the solver is asked for what it has found [s]."""

GRACE = 5.0
"""How long after its time it ends itself [s]."""


def main() -> None:
    """Solve the task on standard input."""
    task = json.loads(sys.stdin.readline())
    end_with_the_caller(task["exploring"] + task["compressing"] + GRACE)
    try:  # a panic of the solver is no Exception
        _solve(task)
    except BaseException as fault:  # noqa: BLE001
        say({"failed": f"{type(fault).__name__}: {fault}"})
        os._exit(1)
    say({"done": True})
    os._exit(0)


def end_with_the_caller(seconds: float) -> None:
    """End this process once standard input is closed, or when its time is over."""

    def caller_gone() -> None:
        while sys.stdin.readline():
            pass
        os._exit(2)

    def over() -> None:
        time.sleep(seconds)
        os._exit(3)

    for watch in (caller_gone, over):
        threading.Thread(target=watch, daemon=True).start()


def _solve(task: Mapping[str, Any]) -> None:
    """Say each better strip as it is found; raise what the solver raises."""
    import spyrrow

    queue = spyrrow.ProgressQueue()
    sound = (spyrrow.ReportType.ExplFeas, spyrrow.ReportType.CmprFeas, spyrrow.ReportType.Final)
    ended = _started(task, queue)
    least = float("inf")
    while True:
        last = bool(ended)
        found = [answer for kind, answer in queue.drain() if kind in sound]
        best = min(found, key=lambda answer: answer.width, default=None)
        if best is not None and best.width < least:
            least = best.width
            say({"width": best.width, "spots": [_spot(each) for each in best.placed_items]})
        if last:
            break
        time.sleep(PAUSE)
    if ended[0] is not None:
        raise ended[0]


def _started(task: Mapping[str, Any], queue: Any) -> list[BaseException | None]:
    """The solver at work in a thread; the list is filled, by what it raised or None, at its end."""
    import spyrrow

    items = [
        spyrrow.Item(
            str(number), [(x, y) for x, y in each["corners"]], each["count"], each["turns"]
        )
        for number, each in enumerate(task["items"])
    ]
    instance = spyrrow.StripPackingInstance("", task["height"], items)
    config = spyrrow.StripPackingConfig(
        early_termination=task.get("early", True),
        quadtree_depth=3,  # measured: the least time to the same strip, by a few per cent
        total_computation_time=None,
        exploration_time=task["exploring"],
        compression_time=task["compressing"],
        num_workers=task["workers"],
        seed=task["seed"],
    )
    ended: list[BaseException | None] = []

    def run() -> None:
        try:
            instance.solve(config, queue)
        except BaseException as fault:  # noqa: BLE001
            ended.append(fault)
        else:
            ended.append(None)

    threading.Thread(target=run, daemon=True).start()
    return ended


def _spot(placed: Any) -> list[float]:
    return [int(placed.id), *placed.translation, placed.rotation]


def say(answer: Mapping[str, Any]) -> None:
    """One answer, as a line on standard output."""
    sys.stdout.write(json.dumps(answer) + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    main()
