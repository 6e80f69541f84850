"""Cut lists against plain enumeration: every way to cut small batches, every order along a bar."""

import itertools
import random
from collections.abc import Sequence

import pytest

from hollowright.plan.bars import Bar, BarRules, CutList, Run
from hollowright.plan.cutlist import cut_list
from tests.plan.bar_cases import bar, batch, length, run

Figures = tuple[float, ...]


def along(the_bar: Bar, runs: Sequence[Run], rules: BarRules) -> tuple[int, float] | None:
    """One order of runs along a bar: square ends given and waste [mm]; None if it doesn't fit.

    Written apart from the program: ends are looked at one by one.
    """
    pieces = [each for one in runs for each in one.lengths]
    square = the_bar.square_ends
    wanted = sum(1 for one in runs if any(one.wants))
    for far in (False, True):
        own = [square >= 1, far and square == 2]
        if far and square < 2:
            return None
        longs = [each.net.value + 2 * rules.truing for each in pieces]
        longs[0] -= rules.truing if own[0] else 0.0
        longs[-1] -= rules.truing if own[1] else 0.0
        begin = 0.0 if square >= 1 else rules.end_trim
        stop = the_bar.length - (rules.end_trim if square < 2 else 0.0)
        reach = begin + sum(longs) + rules.kerf * (len(pieces) - 1)
        if reach > stop + 1e-6:
            continue
        if not far and square == 2 and wanted > 1 and len(runs) > 1:
            continue  # the second square end is wanted: it is used
        rest = max(0.0, the_bar.length - reach - rules.kerf)
        if far and len(runs) == 1:  # filed down to its length
            longs[-1], rest = longs[-1] + the_bar.length - reach, 0.0
        kept = rest if rest >= rules.offcut_least and rest > 1e-6 else 0.0
        ends = [0] * len(pieces)
        ends[0] += own[0]
        ends[-1] += own[1]
        given = sum(min(n, each.square_ends) for n, each in zip(ends, pieces, strict=True))
        return given, the_bar.length - sum(longs) - kept
    return None


class Case:
    """A random case, and the best there is by weighing every way to cut it."""

    def __init__(self, seed: int) -> None:
        dice = random.Random(seed)
        self.rules = BarRules(
            dice.choice([0.0, 0.3, 0.5]),
            dice.choice([0.0, 0.3, 0.7]),
            dice.choice([0.0, 1.0, 2.5]),
            dice.choice([1.0, 8.0, 20.0, 1e9]),
        )  # fmt: skip
        self.runs = self._runs(dice)
        priced = dice.random() < 0.5
        self.bars = [
            bar(dice.choice([30.0, 47.5, 60.0, 81.3]) + number, dice.randrange(3),
                dice.choice([1, 2]), None, False, f"drawer-{number}")
            for number in range(dice.randrange(3))
        ] + [
            bar(dice.choice([40.0, 65.0, 90.0]) + number, 2, None,
                dice.choice([3.1, 4.0, 6.45]) if priced else None, True, f"buy-{number}")
            for number in range(dice.randrange(3))
        ]  # fmt: skip
        self.known: dict[tuple[tuple[int, ...], int, int], Figures] = {}
        self.came: dict[tuple[str, tuple[int, ...]], tuple[int, float] | None] = {}
        self.priced = all(each.cost is not None for each in self.bars if each.origin == "to buy")

    @staticmethod
    def _runs(dice: random.Random) -> list[Run]:
        runs, left = [], 5
        for number in range(dice.randint(1, 3)):
            count = dice.randint(1, max(1, left // 2))
            left -= count
            lengths = [
                length(f"w{number}{end}", dice.choice([9.0, 12.4, 17.7, 21.0, 29.4]),
                       dice.choice([0, 1, 1, 2]))
                for end in range(dice.choice([1, 1, 2]))
            ]  # fmt: skip
            runs.append(run(count, *lengths))
        return runs

    def bar(self, id: str) -> Bar:
        return next(each for each in self.bars if each.id == id)

    def in_one(self, the_bar: Bar, pattern: tuple[int, ...]) -> tuple[int, float] | None:
        """The best order of a pattern's runs in a bar: most square ends, then least waste."""
        key = (the_bar.id, pattern)
        if key not in self.came:
            runs = [one for one, n in zip(self.runs, pattern, strict=True) for _ in range(n)]
            found = [
                came
                for order in itertools.permutations(runs)
                for turns in itertools.product((False, True), repeat=len(runs))
                if (came := along(the_bar, turned(order, turns), self.rules)) is not None
            ]
            best = max(found, key=lambda came: (came[0], -came[1])) if found else None
            self.came[key] = best
        return self.came[key]

    @property
    def all_fit(self) -> bool:
        """Whether some bar holds each run."""
        alone = [tuple(int(one is each) for one in self.runs) for each in self.runs]
        return all(any(self.in_one(b, pattern) for b in self.bars) for pattern in alone)

    def figures(self, the_bar: Bar, came: tuple[int, float]) -> Figures:
        """What one bar adds: left out, bought, bars, square ends (less is more), waste, length."""
        bought = the_bar.origin == "to buy"
        cost = round(100 * (the_bar.cost or 0.0)) if bought and self.priced else 0
        number, long = (bought, the_bar.length * bought) if not self.priced else (0, 0.0)
        return (0, cost, number, long, 1, -came[0], came[1], the_bar.length)

    def best(self) -> Figures:
        return self._best(tuple(one.count for one in self.runs), 0, 0)

    def _best(self, left: tuple[int, ...], place: int, opened: int) -> Figures:
        """The least figures for what is left, from this bar on."""
        gone = sum(n * len(one.lengths) for n, one in zip(left, self.runs, strict=True))
        if not any(left) or place == len(self.bars):
            return (gone, 0, 0, 0.0, 0, 0, 0.0, 0.0)
        key = (left, place, opened)
        if key not in self.known:
            self.known[key] = min(self._ways(left, place, opened), key=rounded)
        return self.known[key]

    def _ways(self, left: tuple[int, ...], place: int, opened: int) -> list[Figures]:
        the_bar = self.bars[place]
        ways = [self._best(left, place + 1, 0)]
        if the_bar.supply is not None and opened >= the_bar.supply:
            return ways
        for pattern in itertools.product(*(range(count + 1) for count in left)):
            came = self.in_one(the_bar, pattern) if any(pattern) else None
            if came is not None:
                rest = tuple(a - b for a, b in zip(left, pattern, strict=True))
                after = self._best(rest, place, opened + 1)
                own = self.figures(the_bar, came)
                ways.append(tuple(a + b for a, b in zip(own, after, strict=True)))
        return ways


def turned(order: Sequence[Run], turns: Sequence[bool]) -> list[Run]:
    return [one.turned if turn else one for one, turn in zip(order, turns, strict=True)]


def rounded(figures: Figures) -> Figures:
    return tuple(round(figure, 5) for figure in figures)


def reached(case: Case, found: CutList) -> Figures:
    """The figures of the program's cut list, counted from its bars."""
    sums = [0.0] * 8
    names = {each.id: each for one in case.runs for each in one.lengths}
    for each in found.bars:
        given = sum(min(names[p.length].square_ends, p.square_ends) for p in each.pieces)
        own = case.figures(each.bar, (given, each.waste))
        sums = [a + b for a, b in zip(sums, own, strict=True)]
    sums[0] = sum(each.count for each in found.missing)
    return tuple(sums)


@pytest.mark.parametrize("block", range(20))
def test_as_good_as_the_best_of_all_ways(block: int) -> None:
    judged = 0
    for seed in range(20 * block, 20 * block + 20):
        case = Case(seed)
        if not case.all_fit:
            continue  # test_cutlist.py has what is told then
        found = cut_list(batch(*case.runs), case.bars, case.rules)
        assert rounded(reached(case, found)) == pytest.approx(rounded(case.best()), abs=2e-4), seed
        assert (found.proven, found.proven_waste) == (True, True), seed
        judged += 1
    assert judged >= 10


@pytest.mark.parametrize("block", range(10))
def test_columns_buy_and_open_as_little(block: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Column generation in place of listed patterns reaches the same, where it says proven."""
    proven = 0
    for seed in range(20 * block, 20 * block + 20):
        case = Case(seed)
        if not case.all_fit:
            continue
        best = case.best()
        with monkeypatch.context() as patch:
            patch.setattr("hollowright.plan.purchases.listed", lambda task: None)
            found = cut_list(batch(*case.runs), case.bars, case.rules)
        ours = reached(case, found)
        assert ours[0] >= best[0], seed
        if found.proven:
            assert ours[:2] == pytest.approx(best[:2]), seed
            assert ours[4] == best[4], seed
            proven += 1
    assert proven >= 5
