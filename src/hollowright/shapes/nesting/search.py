"""A better answer by waiting: whole fillings in other orders, then parts taken out and put back.

What is tried follows from the problem and a count alone; the clock only decides when it ends.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from random import Random

from hollowright.shapes.nesting.changes import Change, refilling, taking_out
from hollowright.shapes.nesting.fill import Bench, Halted, bench_of, fill
from hollowright.shapes.nesting.judge import faults
from hollowright.shapes.nesting.problem import Packing, Problem
from hollowright.shapes.nesting.quick import quick
from hollowright.shapes.nesting.rating import Rating, rating

REFILLINGS = 12
"""So many whole fillings are tried before parts are changed; later one in REFILL_EVERY."""

REFILL_EVERY = 25
WORSE = 0.01
"""An answer that takes by this share more metal may be gone on from."""

PATIENCE = 40
"""After so many changes that better nothing it goes on from the best again."""


def search(
    problem: Problem,
    start: Packing,
    seconds: float,
    report: Callable[[Packing], None] = lambda _: None,
    stop: Callable[[], bool] = lambda: False,
    changes: int | None = None,
) -> Packing:
    """The best answer found in about so many seconds, sound and never worse than a sound start.

    report: told each better one, judged sound, as it is found. stop: asked some hundred times a
    second whether to end early. changes: end after so many, whatever the clock says: the same
    answer everywhere.
    """
    end = time.monotonic() + seconds

    def halt() -> bool:
        return stop() or time.monotonic() >= end

    if faults(problem, start):
        start = quick(problem)
    if not problem.items or not problem.bins or halt():
        return start
    trail = _Trail(problem, start, report)
    try:
        bench = bench_of(problem)
        number = 0
        while changes is None or number < changes:
            if halt():
                break
            trail.step(bench, number, halt)
            number += 1
    except Halted:
        pass
    return trail.best


class _Trail:
    """Where the search stands: the best answer, and the one that it goes on from."""

    def __init__(self, problem: Problem, start: Packing, report: Callable[[Packing], None]) -> None:
        self.problem, self.report = problem, report
        self.best, self.best_rating = start, rating(problem, start)
        self.here, self.here_rating = start, self.best_rating
        self.since = 0

    def step(self, bench: Bench, number: int, halt: Callable[[], bool]) -> None:
        """One change tried: taken if it is better, or hardly worse."""
        rng = Random(number)  # noqa: S311
        if number < REFILLINGS or number % REFILL_EVERY == 0:
            change = refilling(self.problem, rng, number)
        else:
            change = taking_out(self.problem, self.here, rng)
        found = _made(bench, change, halt)
        rated = rating(self.problem, found)
        self.since += 1
        if rated < self.best_rating and not faults(self.problem, found):
            told = rated[:3] < self.best_rating[:3]
            self.best, self.best_rating, self.since = found, rated, 0
            self.here, self.here_rating = found, rated
            if told:
                self.report(found)
        elif _hardly_worse(rated, self.here_rating, self.best_rating):
            self.here, self.here_rating = found, rated
        if self.since > PATIENCE:
            self.here, self.here_rating, self.since = self.best, self.best_rating, 0


def _made(bench: Bench, change: Change, halt: Callable[[], bool]) -> Packing:
    return Packing(fill(bench, change.kept, change.items, change.bins, change.ways, halt))


def _hardly_worse(rated: Rating, here: Rating, best: Rating) -> bool:
    if rated[:2] > best[:2]:
        return False
    return rated <= here or rated[2] <= best[2] * (1 + WORSE)
