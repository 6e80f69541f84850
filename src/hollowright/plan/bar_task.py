"""Bars and runs as whole numbers for the solver: alike bars in lots, and what to have least of."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from hollowright.plan.bars import Bar, BarRules, Run
from hollowright.plan.patterns import Pattern
from hollowright.plan.sawing import SLACK, Outcome, need, outcome, room

UNIT = 1e-9
"""Lengths are compared as whole numbers of these [mm]."""


@dataclass(frozen=True)
class Lot:
    """Bars that are alike in length, ends and price: which, and how many there are."""

    bars: tuple[Bar, ...]
    supply: int | None
    capacity: int

    @property
    def bar(self) -> Bar:
        """One of them."""
        return self.bars[0]

    @property
    def bought(self) -> bool:
        """Whether they must be bought."""
        return self.bar.origin == "to buy"


@dataclass(frozen=True)
class Use:
    """A pattern cut from a bar of a lot."""

    lot: int
    pattern: Pattern


@dataclass(frozen=True)
class Aim:
    """One thing to have least of: what each use adds to it, and the step that it goes by."""

    name: str
    of: Callable[[Use], float]
    step: float = 0.0


@dataclass(frozen=True)
class Task:
    """The runs wanted, the lots there are, the rules, and how long each size is."""

    runs: tuple[Run, ...]
    lots: tuple[Lot, ...]
    rules: BarRules
    sizes: tuple[int, ...]

    @property
    def counts(self) -> tuple[int, ...]:
        """How many of each run are wanted."""
        return tuple(run.count for run in self.runs)

    @property
    def plenty(self) -> bool:
        """Whether nothing can run out: each run fits bars that there are enough of."""
        total = sum(self.counts)
        enough = [lot.capacity for lot in self.lots if lot.supply is None or lot.supply >= total]
        return max(enough, default=0) >= max(self.sizes)


def task_of(runs: Sequence[Run], bars: Sequence[Bar], rules: BarRules) -> Task:
    """Runs and bars in whole numbers; bars that hold none of the runs are left out."""
    sizes = tuple(round(need(run, rules) / UNIT) for run in runs)
    lots: dict[tuple[object, ...], Lot] = {}
    for bar in sorted(bars, key=lambda bar: (bar.length, bar.id)):
        capacity = round((room(bar, rules) + SLACK) / UNIT)
        if capacity < min(sizes, default=0) or bar.supply == 0:
            continue
        bought = bar.origin == "to buy"
        ends = (min(2, bar.square_ends), bar.trimmed_ends)
        key = (bar.length, ends, bought, bar.cost if bought else None)
        old = lots.get(key, Lot((), 0, capacity))
        none = bar.supply is None or old.supply is None
        supply = None if none else (old.supply or 0) + (bar.supply or 0)
        lots[key] = Lot((*old.bars, bar), supply, capacity)
    return Task(tuple(runs), tuple(lots.values()), rules, sizes)


def aims(task: Task) -> list[Aim]:
    """What to have least of, in its order."""

    def bar(use: Use) -> Bar:
        return task.lots[use.lot].bar

    def bought(use: Use) -> bool:
        return task.lots[use.lot].bought

    priced = all(lot.bar.cost is not None for lot in task.lots if lot.bought)
    money = Aim("money", lambda use: round(100 * (bar(use).cost or 0.0)) * bought(use), 1.0)
    number = Aim("bought", lambda use: float(bought(use)), 1.0)
    long = Aim("length bought", lambda use: bar(use).length * bought(use))
    return [
        *([money] if priced else [number, long]),
        Aim("bars", lambda use: 1.0, 1.0),
        Aim("square ends", lambda use: -float(_came(task, use).given), 1.0),
        Aim("waste", lambda use: _came(task, use).waste),
        Aim("length", lambda use: bar(use).length),
    ]


def _came(task: Task, use: Use) -> Outcome:
    runs = list(zip(task.runs, use.pattern, strict=True))
    return outcome(task.lots[use.lot].bar, runs, task.rules)


def by_hand(task: Task) -> tuple[list[Use], list[int]]:
    """Cut as by hand: bars there are before bars to buy, longest piece first; what is left out."""
    left, uses = list(task.counts), []
    order = sorted(range(len(task.sizes)), key=lambda one: -task.sizes[one])
    for place in sorted(range(len(task.lots)), key=lambda place: _before(task.lots[place])):
        supply = task.lots[place].supply
        while supply is None or supply > 0:
            room, pattern = task.lots[place].capacity, [0] * len(left)
            for one in order:
                pattern[one] = min(left[one], room // task.sizes[one])
                room -= pattern[one] * task.sizes[one]
                left[one] -= pattern[one]
            if not any(pattern):
                break
            uses.append(Use(place, tuple(pattern)))
            supply = None if supply is None else supply - 1
    return uses, left


def _before(lot: Lot) -> tuple[bool, float]:
    """Bars to buy last, the cheapest by length first."""
    return lot.bought, (lot.bar.cost or 0.0) / lot.bar.length if lot.bought else lot.bar.length


def trimmed(task: Task, chosen: Sequence[Use], left_out: Sequence[int]) -> tuple[Use, ...]:
    """What is cut too often taken out again, each from the bar that is then left the longest."""
    kept = list(chosen)
    for one, count in enumerate(task.counts):
        over = sum(use.pattern[one] for use in kept) + left_out[one] - count
        for _ in range(over):
            places = [place for place, use in enumerate(kept) if use.pattern[one]]
            place = max(places, key=lambda place: _came(task, kept[place]).rest)
            pattern = list(kept[place].pattern)
            pattern[one] -= 1
            kept[place] = Use(kept[place].lot, tuple(pattern))
    return tuple(use for use in kept if any(use.pattern))
