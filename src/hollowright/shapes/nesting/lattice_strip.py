"""Strips on a lattice made shorter, one column after another."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
import numpy.typing as npt

from hollowright.shapes.nesting.lattice_search import Laid, Pieces, Place, Search

NEAREST = 0.25
"""A new try starts from one of those with least overlap: how far down their list, mostly."""


def shortest(
    pieces: Pieces,
    least: int,
    rng: np.random.Generator,
    going: Callable[[], bool],
    report: Callable[[Laid], None],
) -> Laid:
    """The shortest strip found while `going()`; told each; it ends at `least` columns."""
    best = laid_in_turn(pieces)
    report(best)
    while best.length(pieces) > least and going():
        found = one_shorter(pieces, best, rng, going)
        if found is None:
            break
        best = found
        report(best)
    return best


def one_shorter(
    pieces: Pieces, best: Laid, rng: np.random.Generator, going: Callable[[], bool]
) -> Laid | None:
    """A strip shorter by a column at least; None when it isn't found while `going()`."""
    length = best.length(pieces) - 1
    laid = _cut(pieces, best, rng)
    failed: list[tuple[float, Laid]] = []
    while going():
        search = Search(pieces, laid, length, rng)
        if search.solve(going):
            return Laid(tuple(search.places))
        failed.append((search.least, Laid(tuple(search.places))))
        failed.sort(key=lambda each: each[0])
        near = min(len(failed) - 1, int(abs(rng.normal(0.0, NEAREST)) * len(failed)))
        laid = _swapped(pieces, failed[near][1], length, rng)
    return None


def laid_in_turn(pieces: Pieces) -> Laid:
    """Piece after piece, the biggest first, where its right end lies furthest left, then lowest."""
    boxes = pieces.sizes.prod(axis=1)
    order = sorted(range(len(pieces.forms)), key=lambda i: -boxes[pieces.forms[i][0]])
    area = sum(int(boxes[forms[0]]) for forms in pieces.forms)
    columns = 2 * (area // pieces.height + int(pieces.sizes.max()))
    while True:
        laid = _laid(pieces, order, columns)
        if laid:
            return laid
        columns *= 2


def _laid(pieces: Pieces, order: Sequence[int], columns: int) -> Laid | None:
    """Pieces laid in this order in so many columns; None where they don't all find room."""
    covered = np.zeros((len(pieces.sizes), columns, pieces.height + 1), bool)
    places: dict[int, Place] = {}
    for piece in order:
        ends = []
        for form in pieces.forms[piece]:
            wide, high = (int(size) for size in pieces.sizes[form])
            free = ~covered[form, : columns - wide + 1, : pieces.height - high + 1]
            if free.any():
                x, y = divmod(int(free.argmax()), free.shape[1])
                ends.append((x + wide, y, x, form))
        if not ends:
            return None
        _, y, x, form = min(ends)
        places[piece] = (form, x, y)
        _cover(pieces, covered, places[piece])
    return Laid(tuple(places[piece] for piece in range(len(pieces.forms))))


def _cover(pieces: Pieces, covered: npt.NDArray[np.bool_], place: Place) -> None:
    """Places where a form would overlap the one laid are no longer free."""
    form, x, y = place
    left, low = x + pieces.least[0], y + pieces.least[1]
    table = pieces.tables[form] > 0
    _, wide, high = table.shape
    xa, xb = max(0, left), min(covered.shape[1], left + wide)
    ya, yb = max(0, low), min(covered.shape[2], low + high)
    covered[:, xa:xb, ya:yb] |= table[:, xa - left : xb - left, ya - low : yb - low]


def _cut(pieces: Pieces, laid: Laid, rng: np.random.Generator) -> Laid:
    """What lies right of somewhere moves one column to the left."""
    length = laid.length(pieces)
    cut = rng.uniform(0.0, length)
    places = []
    for form, x, y in laid.places:
        wide = int(pieces.sizes[form][0])
        moved = x - 1 if x + wide / 2 > cut else x
        places.append((form, min(max(0, moved), length - 1 - wide), y))
    return Laid(tuple(places))


def _swapped(pieces: Pieces, laid: Laid, length: int, rng: np.random.Generator) -> Laid:
    """Two of the bigger pieces of different kinds in each other's place."""
    places = list(laid.places)
    boxes = pieces.sizes.prod(axis=1)
    big = sorted(range(len(places)), key=lambda i: -boxes[places[i][0]])
    big = big[: max(2, 3 * len(big) // 4)]
    for _ in range(20):
        one, other = (int(i) for i in rng.choice(big, 2, replace=False)) if len(big) > 1 else (0, 0)
        if pieces.forms[one] != pieces.forms[other]:
            break
    for piece, (_, x, y) in ((one, places[other]), (other, places[one])):
        form = places[piece][0]
        wide, high = (int(size) for size in pieces.sizes[form])
        places[piece] = (form, min(x, length - wide), min(y, pieces.height - high))
    return Laid(tuple(places))
