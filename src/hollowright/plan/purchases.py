"""What to buy, where bars of several lengths are sold: purchases in their order, each tried.

A purchase is how many bars of each lot for sale are bought. From the bound on, they are tried in
the order of what is to be least (money, or bars and their length). One whose room isn't enough for
all lengths together can't do; one for which even cut-up bars fall short can't either. The first
that does is the least, proven if it was shown of each one before that it can't.
"""

from __future__ import annotations

import heapq
import math
import time
from collections.abc import Iterator, Sequence
from dataclasses import replace

from hollowright.plan.bar_task import Task, Use, aims
from hollowright.plan.solve_bars import Solved, listed, solved
from hollowright.plan.solve_few import best_single, surely_least
from hollowright.plan.solve_many import by_columns, generated_for

MOST_TRIED = 20_000
"""So many purchases are looked at."""

Purchase = tuple[int, ...]


def best_cutting(task: Task, until: float) -> Solved:
    """The cut list that buys least; until: when to stop [s of the monotonic clock]."""
    single = best_single(task)
    if single is None:
        return _best(task, until)
    if surely_least(task, single):
        bought = float(task.lots[single.lot].bought)
        return Solved((single,), (0,) * len(task.runs), True, True, bought, 1.0)
    found = _best(task, until)
    if found.proven and len(found.uses) == 1 and not any(found.left_out):
        return replace(found, uses=(single,), proven_waste=True)
    return found


def _best(task: Task, until: float) -> Solved:
    """Purchase after purchase in their order, where it is purchases that are to be least."""
    if not task.plenty or sum(lot.bought for lot in task.lots) < 2:
        return _directly(task, until)
    bound = generated_for(task, aims(task)[0], task.counts, until)
    least = math.ceil(bound.bound - 1e-6)
    sure, best, key = bound.reached, None, None
    for number, purchase in enumerate(_in_order(task)):
        own = _key(task, purchase)
        if key is not None and own != key:
            break
        if number > MOST_TRIED or time.monotonic() > until:
            sure = False
            break
        if own[0] < least:
            continue
        found, known = _tried(task, purchase, until)
        if found is not None and (best is None or found.figures < best.figures):
            best, key = found, own
        sure = sure and known
    if best is None:
        return _directly(task, until)
    proven = sure and best.proven
    return replace(
        best, proven=proven, proven_waste=proven and best.proven_waste, bought_bound=bound.bound
    )


def _directly(task: Task, until: float) -> Solved:
    """Without a purchase settled first: by all patterns, or by columns."""
    uses = listed(task)
    return by_columns(task, until) if uses is None else solved(task, uses, until)


def _tried(task: Task, purchase: Purchase, until: float) -> tuple[Solved | None, bool]:
    """The best cutting with a purchase; None where it won't do; and whether that is proven."""
    places = [place for place, lot in enumerate(task.lots) if purchase[place] or not lot.bought]
    limited = _limited(task, purchase, places)
    if not _room_enough(limited):
        return None, True
    uses = listed(limited)
    if uses is None:
        bars = next(aim for aim in aims(limited) if aim.name == "bars")
        bound = generated_for(limited, bars, limited.counts, until)
        if bound.short > 1e-6 and bound.reached:
            return None, True
        found = by_columns(limited, until, True)
    else:
        found = solved(limited, uses, until, True)
    if any(found.left_out):
        return None, uses is not None and found.proven
    chosen = tuple(Use(places[use.lot], use.pattern) for use in found.uses)
    return replace(found, uses=chosen), True


def _in_order(task: Task) -> Iterator[Purchase]:
    """Every purchase, the least first."""
    none = (0,) * len(task.lots)
    for_sale = [place for place, lot in enumerate(task.lots) if lot.bought]
    heap: list[tuple[tuple[float, ...], Purchase, int]] = [(_key(task, none), none, 0)]
    while heap:
        _, purchase, from_on = heapq.heappop(heap)
        yield purchase
        for number in range(from_on, len(for_sale)):
            place = for_sale[number]
            supply = task.lots[place].supply
            if supply is None or purchase[place] < supply:
                more = (*purchase[:place], purchase[place] + 1, *purchase[place + 1 :])
                heapq.heappush(heap, (_key(task, more), more, number))


def _key(task: Task, purchase: Purchase) -> tuple[float, ...]:
    """What is to be least of a purchase: money, or bars and then their length."""
    bought = [(lot.bar, n) for lot, n in zip(task.lots, purchase, strict=True) if lot.bought]
    if all(bar.cost is not None for bar, _ in bought):
        return (float(sum(round(100 * (bar.cost or 0.0)) * n for bar, n in bought)),)
    return float(sum(purchase)), sum(bar.length * n for bar, n in bought)


def _limited(task: Task, purchase: Purchase, places: Sequence[int]) -> Task:
    """The task with no more than these bars to buy; places: the lots that it has."""
    lots = (
        replace(task.lots[place], supply=purchase[place])
        if task.lots[place].bought
        else task.lots[place]
        for place in places
    )
    return replace(task, lots=tuple(lots))


def _room_enough(task: Task) -> bool:
    """Whether the bars' room is enough for all lengths together, and for the longest."""
    if not task.lots or max(lot.capacity for lot in task.lots) < max(task.sizes):
        return False
    rooms: Sequence[int | float] = [
        lot.capacity * (math.inf if lot.supply is None else lot.supply) for lot in task.lots
    ]
    return sum(rooms) >= sum(n * size for n, size in zip(task.counts, task.sizes, strict=True))
