"""One bar or two and no more: every way weighed, since the one tells what the other must give."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hollowright.plan.bar_task import Aim, Task, Use, aims
from hollowright.plan.patterns import Pattern

DIGITS = 6
"""Figures that differ by less than so many decimals are the same [mm, pieces, hundredths]."""

Few = tuple[Use, ...]


def best_single(task: Task) -> Use | None:
    """The best bar that holds everything, by the aims in their order; None where none does."""
    whole = sum(n * size for n, size in zip(task.counts, task.sizes, strict=True))
    order = aims(task)
    return min(
        (Use(place, task.counts) for place, lot in enumerate(task.lots) if lot.capacity >= whole),
        key=lambda use: tuple(round(aim.of(use), DIGITS) for aim in order),
        default=None,
    )


def surely_least(task: Task, single: Use) -> bool:
    """Whether it is plain that no cutting is better than by the best single bar.

    So where it needs no buying; and where all bars must be bought and no price is known, so that
    one bar bought is the least.
    """
    if not task.lots[single.lot].bought:
        return True
    unpriced = any(lot.bar.cost is None for lot in task.lots)
    return unpriced and all(lot.bought for lot in task.lots)


def best_few(task: Task, uses: Sequence[Use], order: Sequence[Aim], count: int) -> Few | None:
    """The best one or two uses that together cut each run just as often as it is wanted.

    By the aims in their order; None where none do. uses: every use there is.
    """
    ways = _pairs(task, uses) if count == 2 else (
        (use,) for use in uses if use.pattern == task.counts)  # fmt: skip

    def figures(few: Few) -> tuple[float, ...]:
        return tuple(round(sum(map(aim.of, few)), DIGITS) for aim in order)

    return min(ways, key=figures, default=None)


def _pairs(task: Task, uses: Sequence[Use]) -> Iterator[Few]:
    """Every two uses that cut all there is to cut, from bars of which there are enough."""
    by_pattern: dict[Pattern, list[Use]] = {}
    for use in uses:
        by_pattern.setdefault(use.pattern, []).append(use)
    for use in uses:
        rest = tuple(n - own for n, own in zip(task.counts, use.pattern, strict=True))
        for other in by_pattern.get(rest, ()):
            if use.lot != other.lot or task.lots[use.lot].supply != 1:
                yield use, other
