"""Which runs from which bar: least bought, then least bars, square ends, waste, each proven.

Every pattern of every lot of bars is listed where they are few; a whole-number programme over them
is solved once for each aim, and what was reached is held as a condition of the aims that follow.
Where patterns are too many, `purchases` takes over.
"""

from __future__ import annotations

import time
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from hollowright.plan.bar_task import Aim, Task, Use, aims, by_hand, trimmed
from hollowright.plan.highs import INFINITE, MANY, Answer, Column, solve
from hollowright.plan.patterns import Pattern, all_patterns
from hollowright.plan.solve_few import best_few

BRANCHES = 50
"""So many branches the proof of what comes after the bars may take: as many everywhere."""

LEADING = ("left out", "money", "bought", "length bought", "bars")
"""The aims whose proof may take all the time there is."""

MOST = 4000
"""So many patterns are listed at once."""

NEAR = 1e-4
"""What was reached may be missed by so much later on [mm, pieces, hundredths of the money]."""


@dataclass(frozen=True)
class Solved:
    """The uses that were chosen, how many of each run are left out, and what is proven.

    The bounds: of what is bought (money's hundredths, or bars), and of the bars opened. figures:
    what was reached from the bars on, in the order of the aims.
    """

    uses: tuple[Use, ...]
    left_out: tuple[int, ...]
    proven: bool
    proven_waste: bool
    bought_bound: float
    bars_bound: float
    figures: tuple[float, ...] = ()


@dataclass(frozen=True)
class Staged:
    """Aim after aim: how often each use, how many left out, what was reached, what is proven."""

    times: tuple[int, ...]
    left_out: tuple[int, ...]
    reached: Mapping[str, float]
    proven: frozenset[str]


@dataclass(frozen=True)
class Goal:
    """An aim as numbers: its name, what each unknown adds to it, the step that it goes by."""

    name: str
    costs: tuple[float, ...]
    step: float


def listed(task: Task, most: int = MOST) -> list[Use] | None:
    """Every use there is; None when there are more than `most`."""
    by_capacity: dict[int, list[Pattern]] = {}
    uses: list[Use] = []
    for place, lot in enumerate(task.lots):
        if lot.capacity not in by_capacity:
            found = all_patterns(task.sizes, task.counts, lot.capacity, most)
            if found is None:
                return None
            by_capacity[lot.capacity] = found
        uses += [Use(place, pattern) for pattern in by_capacity[lot.capacity]]
        if len(uses) > most:
            return None
    return uses


def solved(task: Task, uses: Sequence[Use], until: float, settled: bool = False) -> Solved:
    """The best choice among all uses there are; until: when to stop [s of the monotonic clock].

    settled: what is bought is settled, the lots hold no more.
    """
    order = aims(task)
    first, place = order[0], next(n for n, aim in enumerate(order) if aim.name == "bars")
    bars, wanted = order[place], order[place:] if settled else order
    fullest = [use for use in uses if _full(task, use)]
    lead = stages(task, fullest, wanted[: wanted.index(bars) + 1], until, exact=False)
    times = zip(fullest, lead.times, strict=True)
    chosen = trimmed(task, [use for use, n in times for _ in range(n)], lead.left_out)
    staged = _few(task, uses, wanted, lead) or stages(
        task, uses, wanted, until, True, (lead, chosen)
    )
    names = [aim.name for aim in wanted]
    cut = [n - gone for n, gone in zip(task.counts, staged.left_out, strict=True)]
    held = () if settled or first is bars else ((first, staged.reached[first.name]),)
    return Solved(
        tuple(use for use, n in zip(uses, staged.times, strict=True) for _ in range(n)),
        staged.left_out,
        {"left out", *names[: names.index("bars") + 1]} <= staged.proven,
        {"left out", *names} <= staged.proven,
        0.0 if settled else relaxed(task, uses, cut, first),
        relaxed(task, uses, cut, bars, held),
        tuple(staged.reached[aim.name] for aim in order[place:]),
    )


def _few(task: Task, uses: Sequence[Use], wanted: Sequence[Aim], lead: Staged) -> Staged | None:
    """All aims at once where one bar or two are proven to be the fewest; None elsewhere."""
    count = sum(lead.times)
    if count not in (1, 2) or any(lead.left_out) or set(lead.reached) - lead.proven:
        return None
    best = best_few(task, uses, wanted, count)
    if best is None:
        return None
    reached = {aim.name: sum(map(aim.of, best)) for aim in wanted}
    proven = frozenset({"left out", *reached})
    return Staged(tuple(best.count(use) for use in uses), lead.left_out, reached, proven)


def relaxed(
    task: Task,
    uses: Sequence[Use],
    counts: Sequence[int],
    aim: Aim,
    held: Sequence[tuple[Aim, float]] = (),
) -> float:
    """The least of an aim if bars could be cut up: a bound that no cutting can be under."""
    goals = [Goal(each.name, tuple(map(each.of, uses)), each.step) for each, _ in held]
    goal = Goal(aim.name, tuple(map(aim.of, uses)), aim.step)
    columns = _columns(task, uses, goal, goals, spare=False)
    low, high = _rows(task, counts, [value for _, value in held], exact=False)
    answer = solve(columns, low, high, whole=False)
    return max(0.0, answer.cost) if answer.values else 0.0


def _full(task: Task, use: Use) -> bool:
    """Whether nothing more goes in: the least bars are found among such patterns."""
    lot = task.lots[use.lot]
    left = lot.capacity - sum(n * size for n, size in zip(use.pattern, task.sizes, strict=True))
    return not any(
        n < count and size <= left
        for n, count, size in zip(use.pattern, task.counts, task.sizes, strict=True)
    )


def stages(
    task: Task,
    uses: Sequence[Use],
    order: Sequence[Aim],
    until: float,
    exact: bool,
    before: tuple[Staged, Sequence[Use]] | None = None,
) -> Staged:
    """One aim after the other; exact: each run just as often as it is wanted, else at least.

    before: what was reached of the first aims already, and the uses by which.
    """
    spare = not task.plenty
    goals = _goals(task, uses, order, spare)
    held: list[Goal] = []
    reached: dict[str, float] = {}
    proven = {"left out"}
    known = before[0] if before else None
    values = _as_values(uses, before[1], before[0].left_out, spare) if before else ()
    for goal in goals:
        settled = not any(goal.costs) or any(_same(goal, other) for other in held)
        if known and goal.name in known.reached:
            settled = goal.name in known.proven
        elif not (settled and values):
            answer = _aimed(task, uses, goal, held, reached, until, spare, exact)
            values = answer.values or values or _hand_values(task, uses, spare)
            settled = answer.proven and bool(answer.values)
        reached[goal.name] = sum(c * round(x) for c, x in zip(goal.costs, values, strict=True))
        held.append(goal)
        proven = proven | {goal.name} if settled else proven - {goal.name}
    times = tuple(round(value) for value in values[: len(uses)])
    left_out = tuple(round(value) for value in values[len(uses) :]) or (0,) * len(task.runs)
    return Staged(times, left_out, reached, frozenset(proven))


def _goals(task: Task, uses: Sequence[Use], order: Sequence[Aim], spare: bool) -> list[Goal]:
    """The aims as numbers; what can't be cut at all comes first where something can run out."""
    none = (0.0,) * len(task.runs) if spare else ()
    goals = [Goal(aim.name, (*map(aim.of, uses), *none), aim.step) for aim in order]
    if spare:
        pieces = (float(len(run.lengths)) for run in task.runs)
        goals.insert(0, Goal("left out", (*(0.0 for _ in uses), *pieces), 1.0))
    return goals


def _same(goal: Goal, other: Goal) -> bool:
    """Whether one is so many times the other, so that it is settled with it."""
    first = next((place for place, cost in enumerate(other.costs) if cost), None)
    if first is None:
        return False
    times = goal.costs[first] / other.costs[first]
    return times > 0 and all(
        abs(a - times * b) <= 1e-9 for a, b in zip(goal.costs, other.costs, strict=True)
    )


def _aimed(
    task: Task,
    uses: Sequence[Use],
    goal: Goal,
    held: Sequence[Goal],
    reached: Mapping[str, float],
    until: float,
    spare: bool,
    exact: bool,
) -> Answer:
    """The least of one aim, nothing lost of those before."""
    columns = _columns(task, uses, goal, held, spare)
    low, high = _rows(task, task.counts, [reached[each.name] for each in held], exact)
    gap = 0.999 * goal.step if goal.step else NEAR
    branches = MANY if goal.name in LEADING else BRANCHES
    return solve(columns, low, high, True, until - time.monotonic(), gap, branches)


def _columns(
    task: Task, uses: Sequence[Use], goal: Goal, held: Sequence[Goal], spare: bool
) -> list[Column]:
    """Unknowns: how many bars are cut by each use; where needed, how many runs are left out."""
    first_held = len(task.runs) + len(task.lots)
    found = []
    for place, cost in enumerate(goal.costs[: None if spare else len(uses)]):
        if place < len(uses):
            use = uses[place]
            own = [(row, float(count)) for row, count in enumerate(use.pattern) if count]
            own.append((len(task.runs) + use.lot, 1.0))
        else:
            own = [(place - len(uses), 1.0)]
        own += [(first_held + row, each.costs[place]) for row, each in enumerate(held)
                if each.costs[place]]  # fmt: skip
        found.append(Column(cost, tuple(row for row, _ in own), tuple(part for _, part in own)))
    return found


def _rows(
    task: Task, counts: Sequence[int], held: Sequence[float], exact: bool
) -> tuple[list[float], list[float]]:
    """Each run as often as wanted, each lot as far as it goes, each earlier aim as reached."""
    supplies = [INFINITE if lot.supply is None else float(lot.supply) for lot in task.lots]
    none = [-INFINITE] * (len(supplies) + len(held))
    most = [float(count) if exact else INFINITE for count in counts]
    return [*map(float, counts), *none], [*most, *supplies, *(value + NEAR for value in held)]


def _hand_values(task: Task, uses: Sequence[Use], spare: bool) -> tuple[float, ...]:
    """A cutting as by hand, for the case that the solver found none in its time."""
    return _as_values(uses, *by_hand(task), spare)


def _as_values(
    uses: Sequence[Use], chosen: Sequence[Use], left_out: Sequence[int], spare: bool
) -> tuple[float, ...]:
    """A cutting as the unknowns have it."""
    times = {use: float(n) for use, n in Counter(chosen).items()}
    return (*(times.get(use, 0.0) for use in uses), *(map(float, left_out) if spare else ()))
