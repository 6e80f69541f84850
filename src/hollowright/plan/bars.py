"""Bars, the lengths wanted of them, and a cut list: what it is, whoever reckoned it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from hollowright.errors import Caution
from hollowright.handbook.metals import Metal
from hollowright.piece import Part, Stock
from hollowright.plan.laid import NotLaid, Origin
from hollowright.plan.orders import Order
from hollowright.quantity import Quantity


@dataclass(frozen=True)
class Length:
    """One kind of piece of bar that is wanted.

    id: 'order.part'. net: its length before any truing [mm]; of a strip, the length to cut, which
    has its dressing. square_ends: how many of its two ends had better be square as bought; every
    other end is sawn and trued.
    """

    id: str
    order: Order
    part: Part
    stock: Stock
    net: Quantity
    square_ends: int


@dataclass(frozen=True)
class Run:
    """Lengths that are sawn side by side, in this order, since their ends meet; how many such."""

    lengths: tuple[Length, ...]
    count: int

    @property
    def net(self) -> float:
        """Its lengths together, before any truing [mm]."""
        return sum(each.net.value for each in self.lengths)

    @property
    def wants(self) -> tuple[bool, bool]:
        """Whether its first and its last end had better be square as bought."""
        if len(self.lengths) == 1:
            ends = self.lengths[0].square_ends
            return ends >= 1, ends >= 2
        return self.lengths[0].square_ends >= 1, self.lengths[-1].square_ends >= 1

    @property
    def turned(self) -> Run:
        """The same the other way round."""
        return Run(self.lengths[::-1], self.count)

    @property
    def id(self) -> str:
        """The ids of its lengths, joined."""
        return "+".join(each.id for each in self.lengths)


@dataclass(frozen=True)
class BarBatch:
    """The runs that come out of one form, metal and section [mm]."""

    form: str
    metal: Metal
    sizes: Mapping[str, float]
    temper: str
    runs: tuple[Run, ...]

    @property
    def asked(self) -> int:
        """How many ends had better be square as bought."""
        return sum(run.count * each.square_ends for run in self.runs for each in run.lengths)

    def length(self, id: str) -> Length:
        """The length with this id; KeyError if there is none."""
        return {each.id: each for run in self.runs for each in run.lengths}[id]

    @property
    def id(self) -> str:
        """A name for it: 'tube-C26000-34.93x0.915'."""
        section = "x".join(f"{value:g}" for value in self.sizes.values())
        return f"{self.form}-{self.metal.id}-{section}"


@dataclass(frozen=True)
class Bar:
    """A bar in the drawer, in hand or for sale: its length [mm], how many of its ends are square.

    cost: in the shop's money, None when not known. supply: how many there are; None: any number.
    """

    id: str
    label: str
    origin: Origin
    form: str
    metal: str
    sizes: Mapping[str, float]
    length: float
    temper: str = ""
    square_ends: int = 0
    cost: float | None = None
    supply: int | None = 1

    @property
    def trimmed_ends(self) -> int:
        """How many of its ends are trimmed since they aren't square.

        None of a bar in hand: its piece's plan counts on all of it, and truing its ends serves.
        """
        return 0 if self.origin == "in hand" else 2 - min(2, self.square_ends)

    def first_trim(self, rules: BarRules) -> float:
        """What is trimmed off its first end [mm]."""
        return rules.end_trim if self.trimmed_ends and not self.square_ends else 0.0


@dataclass(frozen=True)
class BarRules:
    """What sawing takes [mm]: kerf, truing of each sawn end, trim of an end that isn't square.

    offcut_least: what is left is kept from this length on [mm].
    """

    kerf: float
    truing: float
    end_trim: float
    offcut_least: float


@dataclass(frozen=True)
class SawnPiece:
    """One piece in a bar: which length, where its lower end lies [mm], its sawn length, its ends.

    run: which of the bar's runs it belongs to, from 0. low_square, high_square: whether that end
    is the bar's own, square as bought.
    """

    length: str
    run: int
    start: float
    long: float
    low_square: bool = False
    high_square: bool = False

    @property
    def end(self) -> float:
        """Where its upper end lies [mm]."""
        return self.start + self.long

    @property
    def square_ends(self) -> int:
        """How many of its ends are square as bought."""
        return self.low_square + self.high_square


@dataclass(frozen=True)
class SawnBar:
    """One bar and the pieces sawn from it, from its first end on; what is left, lost, kept [mm].

    id: the bar's, with #2, #3 ... for more of its kind. lost: kerf and trim. rest: what is left
    over, from rest_at on; kept: whether that is long enough to keep; rest_square: how many of its
    ends are square as bought.
    """

    id: str
    bar: Bar
    pieces: tuple[SawnPiece, ...]
    lost: float
    rest: float
    kept: bool
    rest_at: float
    rest_square: int = 0

    @property
    def waste(self) -> float:
        """What is neither piece nor kept [mm]."""
        return self.lost + (0.0 if self.kept else self.rest)


@dataclass(frozen=True)
class CutList:
    """A bar batch sawn: proven best in this order, or how far from proven.

    First least bought (money where every bar for sale has a price, else bars, then their length),
    then least bars opened, then most square ends given, then least waste, then least length of bar
    opened. proven: whether no cut list buys less or opens fewer bars; proven_waste: whether the
    rest is the best, too. bought_bound: the least that any cut list buys; bound: the least number
    of bars that any opens, cut-up bars counted in parts; bound_text tells both in words.
    """

    batch: BarBatch
    rules: BarRules
    bars: tuple[SawnBar, ...]
    missing: tuple[NotLaid, ...] = ()
    proven: bool = False
    proven_waste: bool = False
    bound: float = 0.0
    bought_bound: float = 0.0
    bound_text: str = ""
    square_asked: int = 0
    square_given: int = 0
    cautions: tuple[Caution, ...] = ()
    seconds: float = 0.0

    @property
    def bought(self) -> tuple[SawnBar, ...]:
        """The bars that must be bought."""
        return tuple(each for each in self.bars if each.bar.origin == "to buy")

    @property
    def cost(self) -> float | None:
        """What the bars to buy cost, in the shop's money; None where a price isn't known."""
        prices = [each.bar.cost for each in self.bought]
        return None if None in prices else sum(price or 0.0 for price in prices)

    @property
    def waste(self) -> float:
        """What is neither piece nor kept [mm]."""
        return sum(each.waste for each in self.bars)

    @property
    def taken(self) -> float:
        """Length of all bars opened, less what is kept of them [mm]."""
        return sum(each.bar.length - each.rest * each.kept for each in self.bars)
