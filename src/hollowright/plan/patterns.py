"""Patterns: how many of each size go together into one length; all of them, or the best one.

A pattern is a tuple of counts, one for each size. Sizes and capacities are whole numbers, each size
with its saw cut in it and the capacity one cut longer, so that a pattern fits exactly when its
sizes add up to no more than the capacity.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from hollowright.plan.highs import INFINITE, Column, solve

Pattern = tuple[int, ...]

BRANCHES = 20_000
"""So many branches are looked at before the solver is asked."""

TABLE = 60_000
"""So many steps of length are tried in a table; more are left to the solver."""


def all_patterns(
    sizes: Sequence[int], counts: Sequence[int], capacity: int, most: int
) -> list[Pattern] | None:
    """Every pattern with something in it that fits; None when there are more than `most`.

    >>> all_patterns([3, 2], [1, 5], 6, 99)
    [(1, 1), (1, 0), (0, 3), (0, 2), (0, 1)]
    """
    found: list[Pattern] = []
    for pattern in _fitting(tuple(sizes), tuple(counts), capacity):
        if any(pattern):
            found.append(pattern)
            if len(found) > most:
                return None
    return found


def _fitting(sizes: tuple[int, ...], counts: tuple[int, ...], room: int) -> Iterator[Pattern]:
    """Every pattern that fits, the fullest of the first size first."""
    if not sizes:
        yield ()
        return
    for count in range(min(counts[0], room // sizes[0]), -1, -1):
        for rest in _fitting(sizes[1:], counts[1:], room - count * sizes[0]):
            yield (count, *rest)


def worthy_patterns(
    sizes: Sequence[int],
    counts: Sequence[int],
    capacity: int,
    worth: Sequence[float],
    least: float,
    most: int,
) -> list[Pattern] | None:
    """Every pattern that fits and is worth at least `least`; None when more than `most` are.

    A branch is left as soon as even cut-up sizes couldn't make it worth enough.
    """
    order = sorted(range(len(sizes)), key=lambda i: -worth[i] / sizes[i])
    found: list[Pattern] = []
    counted = [0] * len(sizes)

    def grow(place: int, room: int, missing: float) -> bool:
        if place == len(order):
            if missing <= 1e-9:
                found.append(tuple(counted))
            return len(found) <= most
        if _hoped(order[place:], sizes, counts, worth, room) < missing - 1e-9:
            return True
        one = order[place]
        for count in range(min(counts[one], room // sizes[one]), -1, -1):
            counted[one] = count
            if not grow(place + 1, room - count * sizes[one], missing - count * worth[one]):
                return False
        return True

    return found if grow(0, capacity, least) else None


def _hoped(
    order: Sequence[int],
    sizes: Sequence[int],
    counts: Sequence[int],
    worth: Sequence[float],
    room: int,
) -> float:
    """What could be gained at best if the last size might be cut up."""
    gained = 0.0
    for one in order:
        if worth[one] <= 0 or room <= 0:
            break
        taken = min(counts[one], room / sizes[one])
        gained += taken * worth[one]
        room -= math.ceil(taken * sizes[one])
    return gained


def best_pattern(
    sizes: Sequence[int], counts: Sequence[int], capacity: int, worth: Sequence[float]
) -> tuple[float, Pattern]:
    """The pattern worth most that fits, and what it is worth.

    By a table where the steps of length are few, else branch by branch, else by the solver.

    >>> best_pattern([3, 2], [9, 9], 7, [1.4, 1.0])
    (3.4, (1, 2))
    """
    step = math.gcd(*sizes)
    if capacity // step <= TABLE:
        return _by_table([size // step for size in sizes], counts, capacity // step, worth)
    found = _by_branches(sizes, counts, capacity, worth)
    return found or _by_solver(sizes, counts, capacity, worth)


def _by_branches(
    sizes: Sequence[int], counts: Sequence[int], capacity: int, worth: Sequence[float]
) -> tuple[float, Pattern] | None:
    """The best of all, the densest worth first; None when that takes too many branches."""
    order = sorted((i for i, w in enumerate(worth) if w > 0), key=lambda i: -worth[i] / sizes[i])
    best, counted, looked = (0.0, (0,) * len(sizes)), [0] * len(sizes), 0

    def grow(place: int, room: int, gained: float) -> None:
        nonlocal best, looked
        looked += 1
        if looked > BRANCHES:
            return
        if gained > best[0] + 1e-12:
            best = (gained, tuple(counted))
        rest = order[place:]
        if not rest or gained + _hoped(rest, sizes, counts, worth, room) <= best[0] + 1e-12:
            return
        one = order[place]
        for count in range(min(counts[one], room // sizes[one]), -1, -1):
            counted[one] = count
            grow(place + 1, room - count * sizes[one], gained + count * worth[one])
        counted[one] = 0

    grow(0, capacity, 0.0)
    return best if looked <= BRANCHES else None


def _by_table(
    sizes: Sequence[int], counts: Sequence[int], room: int, worth: Sequence[float]
) -> tuple[float, Pattern]:
    """By the best worth for every length up to the room, one size after the other."""
    import numpy as np

    best = np.zeros(room + 1)
    taken = []
    for one, size in enumerate(sizes):
        left = min(counts[one], room // size) if worth[one] > 0 else 0
        lot = 1
        while left > 0:
            several = min(lot, left)
            shift = several * size
            with_it = np.full(room + 1, -1.0)
            with_it[shift:] = best[: room + 1 - shift] + several * worth[one]
            better = with_it > best + 1e-12
            best = np.where(better, with_it, best)
            taken.append((one, several, better))
            left, lot = left - several, 2 * lot
    pattern, place = [0] * len(sizes), room
    for one, several, better in reversed(taken):
        if better[place]:
            pattern[one] += several
            place -= several * sizes[one]
    return sum(n * w for n, w in zip(pattern, worth, strict=True)), tuple(pattern)


def _by_solver(
    sizes: Sequence[int], counts: Sequence[int], room: int, worth: Sequence[float]
) -> tuple[float, Pattern]:
    """By a whole-number programme of one row; what its tolerance lets stick out is taken off."""
    columns = [
        Column(-max(0.0, gain), (0,), (size / room,), min(count, room // size))
        for size, count, gain in zip(sizes, counts, worth, strict=True)
    ]
    found = solve(columns, [-INFINITE], [1.0], gap=1e-9)
    pattern = [round(value) for value in found.values] or [0] * len(sizes)
    while sum(n * s for n, s in zip(pattern, sizes, strict=True)) > room:
        cheapest = min((i for i, n in enumerate(pattern) if n), key=lambda i: worth[i])
        pattern[cheapest] -= 1
    return sum(n * w for n, w in zip(pattern, worth, strict=True)), tuple(pattern)
