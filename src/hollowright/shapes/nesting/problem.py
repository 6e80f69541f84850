"""What is to be laid out, where, how far apart, and an answer: items, bins, spots, a packing."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field

from hollowright.shapes.outline import Outline
from hollowright.shapes.placing import placed

Turns = tuple[float, ...] | None
"""The turns that are allowed [deg, anticlockwise]; None: any."""

FREE: Turns = None
QUARTERS: Turns = (0.0, 90.0, 180.0, 270.0)
HALVES: Turns = (0.0, 180.0)


@dataclass(frozen=True)
class Item:
    """One kind of flat: its outline (with holes, in which others may lie), how many, how turned.

    mirrored: it may be turned over as well.
    """

    id: str
    outline: Outline
    count: int
    turns: Turns = FREE
    mirrored: bool = False


@dataclass(frozen=True)
class Bin:
    """A place to lay flats in: any outline, with holes that must stay free.

    cost: what using it costs, in any one unit; bins are filled cheapest metal first. supply: how
    many there are of it; None: as many as are wanted. Those of a supply are called ID, ID#2 ...
    """

    id: str
    outline: Outline
    cost: float = 0.0
    supply: int | None = 1


@dataclass(frozen=True)
class Spot:
    """Where one flat lies: turned over if `mirrored`, turned [deg], then shifted by x, y [mm].

    bin: the bin's id (with its #number from the second of a supply on). pinned: a person put it
    there, and it stays.
    """

    item: str
    bin: str
    x: float
    y: float
    turn: float = 0.0
    mirrored: bool = False
    pinned: bool = False

    def place(self, outline: Outline) -> Outline:
        """An outline as it lies here."""
        return placed(outline, self.x, self.y, self.turn, self.mirrored)


@dataclass(frozen=True)
class Problem:
    """Items to lay out in bins: `between` two of them, and `edge` from every edge of a bin [mm].

    pins: spots that a person chose; they count among their items.
    """

    items: tuple[Item, ...]
    bins: tuple[Bin, ...]
    between: float = 0.0
    edge: float = 0.0
    pins: tuple[Spot, ...] = ()

    def item(self, id: str) -> Item:
        """The item with this id; KeyError if there is none."""
        return {each.id: each for each in self.items}[id]

    def bin(self, id: str) -> Bin:
        """The bin that a spot lies in, by its id with or without a number; KeyError if none."""
        return {each.id: each for each in self.bins}[id.partition("#")[0]]


@dataclass(frozen=True)
class Packing:
    """An answer: every spot, in no order that matters."""

    spots: tuple[Spot, ...] = field(default=())

    @property
    def bins(self) -> tuple[str, ...]:
        """The bins that are used, in the order of their first spot."""
        return tuple(dict.fromkeys(spot.bin for spot in self.spots))

    def within(self, bin: str) -> tuple[Spot, ...]:
        """The spots in one bin."""
        return tuple(spot for spot in self.spots if spot.bin == bin)

    def left_over(self, problem: Problem) -> Mapping[str, int]:
        """How many of each item found no place; only those above none."""
        laid = Counter(spot.item for spot in self.spots)
        left = {item.id: item.count - laid[item.id] for item in problem.items}
        return {id: count for id, count in left.items() if count > 0}
