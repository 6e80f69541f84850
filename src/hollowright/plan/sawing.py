"""Sawing a bar: which pieces fit in it, where each lies, which ends are square, what is left.

A bar of length L has two ends; `square_ends` of them are square as bought, the first of the two
before the second. A piece of net length N has two ends as well. An end that is the bar's own square
one is left as it is; every other end is sawn and has the truing t left on. Between neighbours the
saw takes its kerf k, so n pieces take n - 1 cuts, and one more where something is left beyond the
last. An end of the bar that isn't square is trimmed: its first e [mm] belong to no piece, and the
cut that takes them off falls within them (not of a bar in hand: there e is 0, see
`Bar.trimmed_ends`).

Runs (pieces that are sawn side by side, in their order) follow each other from the first end on.
The piece there begins at the bar's own end if that is square, else at e. If the second end is
square, too, the last run may be sawn from it, and what is left then lies in the middle, with a cut
on each side of it. A lone run whose last piece ends within one truing of a square second end is
filed down to its length instead of sawn. So pieces 1 to n fit a bar with s square ends exactly when

    sum of (N + 2 t + k)  <=  L + k + s t - (2 - s) e.

What is left over is kept from a shortest length on; then it isn't waste.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from hollowright.plan.bars import Bar, BarRules, Run, SawnBar, SawnPiece

SLACK = 1e-6
"""So much too long still fits: a nanometre, for the sake of rounding [mm]."""


def need(run: Run, rules: BarRules) -> float:
    """What a run takes of a bar's room [mm]: its lengths, two truings and a kerf each."""
    return run.net + len(run.lengths) * (2 * rules.truing + rules.kerf)


def room(bar: Bar, rules: BarRules) -> float:
    """The room that a bar has for its runs [mm]: its length, corrected for its ends."""
    square = min(2, bar.square_ends)
    trimmed = bar.trimmed_ends * rules.end_trim
    return bar.length + rules.kerf + square * rules.truing - trimmed


def fits(bar: Bar, runs: Sequence[Run], rules: BarRules) -> bool:
    """Whether these runs come out of one bar.

    >>> rules = BarRules(0.3, 0.4, 1.0, 20)
    >>> fits(Bar("a", "", "drawer", "tube", "C26000", {}, 100.0), (), rules)
    True
    """
    return sum(need(run, rules) for run in runs) <= room(bar, rules) + SLACK


@dataclass(frozen=True)
class Outcome:
    """What a bar gives: how many wanted square ends, what is left, whether kept, waste [mm].

    far: whether the last run is sawn from the second end.
    """

    given: int
    far: bool
    rest: float
    kept: bool
    waste: float


def outcome(bar: Bar, runs: Sequence[tuple[Run, int]], rules: BarRules) -> Outcome:
    """What comes of so many of each run in a bar, without laying each piece; they must fit."""
    pieces = sum(count * len(run.lengths) for run, count in runs)
    several = sum(count for _, count in runs) > 1
    wanting = sum(count for run, count in runs if any(run.wants))
    net = sum(count * run.net for run, count in runs)
    first, both = bar.square_ends >= 1, bar.square_ends >= 2
    cuts = (pieces - 1) * rules.kerf
    beyond = bar.length - cuts - net - (2 * pieces - first) * rules.truing
    far = both and (beyond < -SLACK or (several and wanting > 1))
    longs = net + (2 * pieces - first - far) * rules.truing
    if far and not several:
        ends = sum(next(run for run, count in runs if count).wants)
        return Outcome(ends, True, 0.0, False, cuts)
    rest = bar.length - cuts - longs - rules.kerf - bar.first_trim(rules)
    rest = 0.0 if rest < SLACK else rest
    kept = rest >= rules.offcut_least
    waste = bar.length - longs - (rest if kept else 0.0)
    return Outcome(min(first + far, wanting), far, rest, kept, waste)


def arranged(runs: Sequence[Run], bar: Bar) -> tuple[Run, ...]:
    """Runs in the order they are sawn: those that want a square end outside, like beside like."""
    square = min(2, bar.square_ends)
    order = sorted(runs, key=lambda run: (-run.net, run.id))
    if not order or not square:
        return tuple(order)
    wanting = [run for run in order if any(run.wants)]
    first = wanting[0] if wanting else order[0]
    order.remove(first)
    last = next((run for run in reversed(order) if any(run.wants)), None) if square == 2 else None
    if last is not None:
        order.remove(last)
    ends = () if last is None else (last if last.wants[1] else last.turned,)
    return (first if first.wants[0] or not any(first.wants) else first.turned, *order, *ends)


def sawn(bar: Bar, runs: Sequence[Run], rules: BarRules, id: str = "") -> SawnBar:
    """The bar with these runs laid along it in this order; ValueError when they don't fit."""
    if not runs or not fits(bar, runs, rules):
        raise ValueError(f"these runs don't come out of {bar.id}")
    last = len(runs) - 1
    far = outcome(bar, [(run, 1) for run in runs], rules).far
    low = runs[:last] if far and last else runs
    pieces, reached = _laid(low, 0, bar.first_trim(rules), bool(bar.square_ends), rules)
    if far and last:
        beyond = _from_the_end(runs[last], last, bar.length, rules)
        rest, at = beyond[0].start - reached - 2 * rules.kerf, reached + rules.kerf
        pieces += beyond
    elif far:
        pieces[-1] = _filed_down(pieces[-1], bar.length)
        rest, at = 0.0, bar.length
    else:
        rest, at = bar.length - reached - rules.kerf, reached + rules.kerf
    rest = 0.0 if rest < SLACK else rest
    lost = bar.length - rest - sum(piece.long for piece in pieces)
    square = int(bar.square_ends >= 2 and not far and rest > 0)
    kept = rest >= rules.offcut_least
    return SawnBar(id or bar.id, bar, tuple(pieces), max(0.0, lost), rest, kept, at, square)


def _laid(
    runs: Sequence[Run], first: int, start: float, square: bool, rules: BarRules
) -> tuple[list[SawnPiece], float]:
    """Pieces from a place on upwards, the first at a square end or not; where the last ends."""
    pieces: list[SawnPiece] = []
    at = start
    for number, run in enumerate(runs, first):
        for each in run.lengths:
            if pieces:
                at += rules.kerf
            own = square and not pieces
            long = each.net.value + (1 if own else 2) * rules.truing
            pieces.append(SawnPiece(each.id, number, at, long, low_square=own))
            at += long
    return pieces, at


def _from_the_end(run: Run, number: int, end: float, rules: BarRules) -> list[SawnPiece]:
    """A run sawn from a bar's square second end, given from below upwards."""
    pieces: list[SawnPiece] = []
    at = end
    for each in reversed(run.lengths):
        own = not pieces
        long = each.net.value + (1 if own else 2) * rules.truing
        pieces.append(SawnPiece(each.id, number, at - long, long, high_square=own))
        at -= long + rules.kerf
    return pieces[::-1]


def _filed_down(piece: SawnPiece, end: float) -> SawnPiece:
    """A last piece that reaches to the bar's own end, too little longer to be sawn."""
    return SawnPiece(
        piece.length, piece.run, piece.start, end - piece.start, piece.low_square, True
    )
