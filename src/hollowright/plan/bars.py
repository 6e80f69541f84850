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

    id: 'order.part'. net: its finished length [mm]; sizes: as the blank's. square_ends: how many of
    its two ends had better be square as bought; every other end is sawn and trued.
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

    low_square, high_square: whether that end is the bar's own, square as bought.
    """

    length: str
    run: int
    start: float
    long: float
    low_square: bool = False
    high_square: bool = False


@dataclass(frozen=True)
class SawnBar:
    """One bar and the pieces sawn from it, from its first end on; what is left, lost, kept [mm].

    id: the bar's, with #2, #3 ... for more of its kind. lost: kerf and trim. rest: what is left
    over; kept: whether that is long enough to keep.
    """

    id: str
    bar: Bar
    pieces: tuple[SawnPiece, ...]
    lost: float
    rest: float
    kept: bool
    rest_at: float


@dataclass(frozen=True)
class CutList:
    """A bar batch sawn: proven best in this order, or how far from proven.

    First least bought (money where every bar has a price, else bars, then their length), then
    least bars, then most square ends given, then least length of bar taken. proven: whether the
    solver proved it. bound: the least that any list needs of what comes first, as `bound_text`
    tells it.
    """

    batch: BarBatch
    rules: BarRules
    bars: tuple[SawnBar, ...]
    missing: tuple[NotLaid, ...] = ()
    proven: bool = False
    bound: float = 0.0
    bound_text: str = ""
    square_asked: int = 0
    square_given: int = 0
    cautions: tuple[Caution, ...] = ()

    @property
    def bought(self) -> tuple[SawnBar, ...]:
        """The bars that must be bought."""
        return tuple(each for each in self.bars if each.bar.origin == "to buy")

    @property
    def waste(self) -> float:
        """What is neither piece nor kept [mm]."""
        pieces = sum(piece.long for bar in self.bars for piece in bar.pieces)
        kept = sum(bar.rest for bar in self.bars if bar.kept)
        return sum(bar.bar.length for bar in self.bars) - pieces - kept
