"""A search for pieces laid on a lattice without overlap in a strip of so many columns.

Guided local search: each pair of pieces has a weight; a piece that overlaps goes where its weighted
overlap is least among all places and turns; then the pairs that still overlap weigh more. The
method: S. Umetani, M. Yagiura, S. Imahori, T. Imamichi, K. Nonobe, T. Ibaraki, "Solving the
irregular strip packing problem via guided local search for overlap minimization", International
Transactions in Operational Research 16 (2009), here with every place looked at.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Numbers = npt.NDArray[np.float32]
Place = tuple[int, int, int]
"""A form, its column and its row."""

SPENT = 1000
"""A try ends after so many rounds without less overlap."""

OUT = float(2**22)
"""What lying over the strip's end counts for: more than any overlap; sums stay exact."""

LIGHTEST = 10.0
"""What each pair weighs at first."""

HEAVIER = 2.0
"""What the pair with most overlap weighs more after a round, others by their share of it."""

HEAVIEST = 2000.0
"""A pair weighs no more; beyond, all weights begin anew."""


@dataclass(frozen=True)
class Pieces:
    """Pieces to lay, by numbers of their forms (a kind of flat in one of its turns).

    sizes: columns and rows that each form takes, (forms, 2). forms: for each piece, those that it
    may take. tables: how much two forms overlap, whole numbers, (form laid, form moved, columns,
    rows), by how far the moved one lies from the laid one, less `least`. height: rows of the strip.
    """

    sizes: npt.NDArray[np.int64]
    forms: Sequence[Sequence[int]]
    tables: Numbers
    least: tuple[int, int]
    height: int


@dataclass(frozen=True)
class Laid:
    """Where each piece lies: its form, column and row."""

    places: tuple[Place, ...]

    def length(self, pieces: Pieces) -> int:
        """How many columns are taken."""
        return max(x + int(pieces.sizes[form][0]) for form, x, _ in self.places)


class Search:
    """Pieces on a strip of so many columns, and how much they overlap."""

    def __init__(self, pieces: Pieces, laid: Laid, length: int, rng: np.random.Generator) -> None:
        self.pieces, self._rng = pieces, rng
        self.places = list(laid.places)
        count, forms = len(self.places), len(pieces.sizes)
        self._grid = (length + 1, pieces.height + 1)
        self._weights = np.full((count, count + 1), LIGHTEST, np.float32)
        self._maps = np.zeros((forms, count + 1, *self._grid), np.float32)
        for form, (width, height) in enumerate(pieces.sizes):
            over = self._maps[form, count]
            over[max(0, length - width + 1) :] = OUT
            over[:, max(0, pieces.height - height + 1) :] = OUT
        self._flat = self._maps.reshape(forms, count + 1, -1)
        self.overlap = np.zeros((count, count), np.float32)
        self.least = float(np.inf)
        for piece in range(count):
            self._print(piece)
        for piece in range(count):
            self._measure(piece)

    def solve(self, going: Callable[[], bool], spent: int = SPENT) -> bool:
        """Whether all overlap is gone; else the places with least overlap are kept."""
        self.least, since, best = np.inf, 0, list(self.places)
        while going():
            overlap = float(self.overlap.sum())
            if overlap == 0.0:
                return True
            since += 1
            if overlap < self.least:
                self.least, since, best = overlap, 0, list(self.places)
            if since > spent:
                break
            self._round()
        self.places = best
        return False

    def _round(self) -> None:
        """Overlapping pairs weigh more, then each of their pieces moves."""
        self._weigh()
        moving = np.flatnonzero(self.overlap.any(axis=0))
        self._rng.shuffle(moving)
        for piece in moving.tolist():
            if self.overlap[piece].any():
                self._move(piece)

    def _weigh(self) -> None:
        heavier = np.ceil(self.overlap * (HEAVIER / float(self.overlap.max())))
        self._weights[:, :-1] += heavier
        if float(self._weights.max()) > HEAVIEST:
            self._weights[:] = LIGHTEST

    def _move(self, piece: int) -> None:
        """A piece goes to one of the places where its weighted overlap is least."""
        forms = self.pieces.forms[piece]
        weights = self._weights[piece]
        weights[piece] = 0.0
        found = [weights @ self._flat[form] for form in forms]
        lows = [float(each.min()) for each in found]
        low = min(lows)
        there = [np.flatnonzero(each == low) for each in found]
        pick = int(self._rng.integers(sum(map(len, there))))
        for form, spots in zip(forms, there, strict=True):
            if pick < len(spots):
                place = (form, *divmod(int(spots[pick]), self._grid[1]))
                break
            pick -= len(spots)
        if place != self.places[piece]:
            self._print(piece, 0.0)
            self.places[piece] = place
            self._print(piece)
            self._measure(piece)

    def _print(self, piece: int, times: float = 1.0) -> None:
        """A piece's overlap with every form at every place is written; or wiped, times 0."""
        form, x, y = self.places[piece]
        table = self.pieces.tables[form]
        _, wide, high = table.shape
        left, low = x + self.pieces.least[0], y + self.pieces.least[1]
        xa, xb = max(0, left), min(self._grid[0], left + wide)
        ya, yb = max(0, low), min(self._grid[1], low + high)
        target = self._maps[:, piece, xa:xb, ya:yb]
        if times:
            target[:] = table[:, xa - left : xb - left, ya - low : yb - low]
        else:
            target[:] = 0.0

    def _measure(self, piece: int) -> None:
        form, x, y = self.places[piece]
        row = self._flat[form, :-1, x * self._grid[1] + y].copy()
        row[piece] = 0.0
        self.overlap[piece] = row
        self.overlap[:, piece] = row
