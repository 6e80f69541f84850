"""Column generation: the least cost of cutting by patterns, cut-up bars allowed, and its patterns.

The linear programme over all patterns (Gilmore and Gomory) is solved without listing them: each
round the solver prices the sizes and the pattern worth most at these prices joins in, until none
pays. Its least cost is a bound that no cutting can be under.
"""

from __future__ import annotations

import time
from collections.abc import Sequence
from dataclasses import dataclass

from hollowright.plan.highs import INFINITE, Answer, Column, solve
from hollowright.plan.patterns import Pattern, best_pattern

PAYS = 1e-7
"""A pattern joins in when it is worth so much more than it costs."""


@dataclass(frozen=True)
class Offer:
    """Bars that are alike, as the programme sees them: capacity, supply, cost of opening one."""

    capacity: int
    supply: int | None
    cost: float


@dataclass(frozen=True)
class Generated:
    """Patterns found, each with its offer; the bound; prices of the sizes and of each offer's bars.

    times: how often the programme cuts each pattern. short: how much can't be cut.
    reached: whether the bound was reached before the time was up.
    """

    patterns: tuple[tuple[int, Pattern], ...]
    times: tuple[float, ...]
    bound: float
    prices: tuple[float, ...]
    scarce: tuple[float, ...]
    reached: bool
    short: float


def generated(
    sizes: Sequence[int], counts: Sequence[int], offers: Sequence[Offer], seconds: float
) -> Generated:
    """The bound and the patterns that it rests on, for wants that all can be met."""
    until = time.monotonic() + seconds
    found = {pair: column(*pair, offers) for pair in _first(sizes, counts, offers)}
    while True:
        answer = _priced(tuple(found.values()), counts, offers)
        prices = tuple(max(0.0, price) for price in answer.prices[: len(sizes)])
        scarce = tuple(min(0.0, price) for price in answer.prices[len(sizes) :])
        better, share = _that_pay(sizes, counts, offers, prices, scarce)
        fresh = [pair for pair in better if pair not in found]
        if not fresh or time.monotonic() > until:
            times = answer.values[: len(found)]
            bound = answer.cost if not fresh else answer.cost * share
            short = sum(answer.values[len(found) :])
            return Generated(tuple(found), times, bound, prices, scarce, not fresh, short)
        found |= {pair: column(*pair, offers) for pair in fresh}


def _first(
    sizes: Sequence[int], counts: Sequence[int], offers: Sequence[Offer]
) -> list[tuple[int, Pattern]]:
    """To begin with: each offer full of one size; and each offer filled with the longest first."""
    found: list[tuple[int, Pattern]] = []
    for place, offer in enumerate(offers):
        for one, size in enumerate(sizes):
            count = min(counts[one], offer.capacity // size)
            if count:
                found.append((place, tuple(count * (i == one) for i in range(len(sizes)))))
        found += [(place, each) for each in _by_hand(sizes, counts, offer)]
    return found


def _by_hand(sizes: Sequence[int], counts: Sequence[int], offer: Offer) -> list[Pattern]:
    """Patterns as one cuts by hand: the longest first, then what still goes in."""
    left = list(counts)
    found: list[Pattern] = []
    order = sorted(range(len(sizes)), key=lambda i: -sizes[i])
    while True:
        room, pattern = offer.capacity, [0] * len(sizes)
        for one in order:
            pattern[one] = min(left[one], room // sizes[one])
            room -= pattern[one] * sizes[one]
            left[one] -= pattern[one]
        if not any(pattern):
            return found
        found.append(tuple(pattern))


def _priced(known: Sequence[Column], counts: Sequence[int], offers: Sequence[Offer]) -> Answer:
    """The linear programme over the patterns so far; what can't be cut costs dear."""
    dear = 10.0 * (1.0 + max(offer.cost for offer in offers)) * sum(counts)
    columns = [*known, *(Column(dear, (one,), (1.0,)) for one in range(len(counts)))]
    low, high = rows(counts, offers)
    return solve(columns, low, high, whole=False)


def column(place: int, pattern: Pattern, offers: Sequence[Offer]) -> Column:
    """A pattern of a offer as an unknown: how many bars are cut by it."""
    own = [(row, float(count)) for row, count in enumerate(pattern) if count]
    own.append((len(pattern) + place, 1.0))
    return Column(offers[place].cost, tuple(r for r, _ in own), tuple(v for _, v in own))


def rows(counts: Sequence[int], offers: Sequence[Offer]) -> tuple[list[float], list[float]]:
    """At least what is wanted of each size, at most what there is of each offer."""
    supplies = [INFINITE if offer.supply is None else float(offer.supply) for offer in offers]
    low = [*map(float, counts), *([-INFINITE] * len(offers))]
    return low, [*([INFINITE] * len(counts)), *supplies]


def _that_pay(
    sizes: Sequence[int],
    counts: Sequence[int],
    offers: Sequence[Offer],
    prices: Sequence[float],
    scarce: Sequence[float],
) -> tuple[list[tuple[int, Pattern]], float]:
    """Patterns worth more than they cost; and by what share of all prices none would be.

    The programme's cost times that share is a bound in any case (Farley).
    """
    found: list[tuple[int, Pattern]] = []
    share = 1.0
    for place, offer in enumerate(offers):
        least = offer.cost + PAYS * (1 + offer.cost) - scarce[place]
        worth, pattern = best_pattern(sizes, counts, offer.capacity, prices)
        if worth > least:
            found.append((place, pattern))
            share = min(share, offer.cost / (worth + scarce[place]))
    return found, share
