"""Cutting where patterns are too many to list: column generation, then a proof by its prices.

The bound comes from `columns`; a whole-number programme over the patterns found there gives a cut
list. Where the two leave a gap, a cut list that takes a step less could only be made of patterns
that lose no more than the gap at the bound's prices: these are listed, and the programme over them
decides. Square ends are given as far as that programme can; waste is as it comes.
"""

from __future__ import annotations

import math
import time
from collections.abc import Iterator, Sequence

from hollowright.plan.bar_task import Aim, Task, Use, aims, trimmed
from hollowright.plan.columns import Generated, Offer, generated
from hollowright.plan.patterns import worthy_patterns
from hollowright.plan.solve_bars import MOST, Solved, Staged, stages

NEARLY = 1e-6
MANY = 5 * MOST
"""So many patterns are listed to close a gap."""
DIVES = 12
"""So often the rest is asked for anew."""
SHARES = (1.0, 0.3, 0.1, 0.03, 0.01, 0.0)
"""How much of the gap a pattern may lose, where too many lose less than all of it."""


def by_columns(task: Task, until: float, buys_all: bool = False) -> Solved:
    """A cut list, the bound, and whether they meet; until: when to stop [s, monotonic clock].

    buys_all: what is bought is settled; the fewest bars are asked for.
    """
    order = aims(task)
    first, bars = order[0], next(aim for aim in order if aim.name == "bars")
    buying = any(lot.bought for lot in task.lots) and not buys_all
    leading = first if buying else bars
    found = generated_for(task, leading, task.counts, until)
    alike = _alike(task, leading, bars)
    also = found if alike else generated_for(task, bars, task.counts, until)
    wanted = [aim for aim in order if aim.name not in ("waste", "length")]
    uses, staged, proven = _whole(task, leading, (found, also), wanted, until)
    whole = not any(staged.left_out)
    lengths = {lot.bar.length for lot in task.lots if lot.bought}
    settled = buys_all or leading.name != "bought" or len(lengths) == 1
    fewest = alike or staged.reached["bars"] <= _least(also.bound, 1.0) + NEARLY
    times = zip(uses, staged.times, strict=True)
    return Solved(
        trimmed(task, [use for use, count in times for _ in range(count)], staged.left_out),
        staged.left_out,
        proven and whole and settled and fewest,
        False,
        found.bound if whole and leading is first else 0.0,
        also.bound if whole else 0.0,
        (staged.reached["bars"], staged.reached["square ends"]),
    )


def _whole(
    task: Task,
    leading: Aim,
    bounds: tuple[Generated, Generated],
    wanted: Sequence[Aim],
    until: float,
) -> tuple[list[Use], Staged, bool]:
    """Whole bars by the patterns found; by more of them, if these leave a gap."""
    found = bounds[0]
    uses = _uses(*bounds, *_dived(task, leading, found, until))
    least = _least(found.bound, leading.step) + NEARLY
    staged = stages(task, uses, wanted, until, exact=False)
    if staged.reached[leading.name] <= least:
        return uses, staged, "left out" in staged.proven
    if any(staged.left_out) or not found.reached or time.monotonic() > until:
        return uses, staged, False
    return _closed(task, leading, found, (uses, staged), wanted, until)


def _alike(task: Task, one: Aim, other: Aim) -> bool:
    """Whether two aims count every bar alike, so that the least of one is that of the other."""
    uses = [Use(place, (0,) * len(task.runs)) for place in range(len(task.lots))]
    times = {other.of(use) and one.of(use) / other.of(use) for use in uses}
    return len(times) == 1 and min(times) > 0


def generated_for(task: Task, aim: Aim, counts: Sequence[int], until: float) -> Generated:
    """Patterns and bound for one aim, within half of the time that is left."""
    none = (0,) * len(task.runs)
    offers = [
        Offer(lot.capacity, lot.supply, aim.of(Use(place, none)))
        for place, lot in enumerate(task.lots)
    ]
    return generated(task.sizes, counts, offers, (until - time.monotonic()) / 2)


def _dived(task: Task, aim: Aim, found: Generated, until: float) -> Iterator[Generated]:
    """More patterns: what the programme cuts in whole bars is put aside, the rest asked for anew.

    Where it cuts none in whole, the pattern that it cuts most of is.
    """
    counts = list(task.counts)
    for _ in range(DIVES):
        times = [math.floor(each + NEARLY) for each in found.times]
        if not any(times):
            times[found.times.index(max(found.times))] = 1
        for (_place, pattern), count in zip(found.patterns, times, strict=True):
            counts = [max(0, n - count * own) for n, own in zip(counts, pattern, strict=True)]
        if not any(counts) or time.monotonic() > until:
            return
        found = generated_for(task, aim, counts, until)
        yield found


def _uses(*found: Generated) -> list[Use]:
    pairs = dict.fromkeys(pair for each in found for pair in each.patterns)
    return [Use(place, pattern) for place, pattern in pairs if any(pattern)]


def _least(bound: float, step: float) -> float:
    """The least value that a bound allows, values going by steps of one."""
    return math.ceil(bound - NEARLY) if step else bound


def _closed(
    task: Task,
    aim: Aim,
    found: Generated,
    best: tuple[list[Use], Staged],
    wanted: Sequence[Aim],
    until: float,
) -> tuple[list[Use], Staged, bool]:
    """The gap closed by every pattern that a better cut list could be made of, if they are few.

    Where they are many, by those that lose least; that proves the bound if it is reached.
    """
    uses, staged = best
    gap = staged.reached[aim.name] - aim.step - found.bound
    for share in SHARES:
        more = _worthy(task, aim, found, gap * share, MANY if share == 1.0 else MOST)
        if more is None:
            continue
        every = list(dict.fromkeys([*uses, *more]))
        again = stages(task, every, wanted, until, exact=False)
        reached = again.reached[aim.name]
        settled = {aim.name, "left out"} <= again.proven and share == 1.0
        if reached < staged.reached[aim.name] - NEARLY or settled:
            return every, again, settled or reached <= _least(found.bound, aim.step) + NEARLY
        break
    return uses, staged, False


def _worthy(task: Task, aim: Aim, found: Generated, gap: float, most: int) -> list[Use] | None:
    """Every use that loses no more than the gap at the bound's prices; None when too many."""
    none = (0,) * len(task.runs)
    more: list[Use] = []
    for place, lot in enumerate(task.lots):
        least = aim.of(Use(place, none)) - found.scarce[place] - gap - NEARLY
        listed = worthy_patterns(
            task.sizes, task.counts, lot.capacity, found.prices, least, most - len(more)
        )
        if listed is None:
            return None
        more += [Use(place, pattern) for pattern in listed if any(pattern)]
    return more
