"""What a design makes of a brief: stock, parts, blanks, joints, fits and the work, all net.

A Piece holds no kerf and no allowance; `plan/cut` alone turns net into cut size. A blank has its
outline in floats and its named dimensions as quantities; a test asserts that the two agree.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from hollowright.errors import Caution
from hollowright.handbook.metals import Metal
from hollowright.quantity import Quantity
from hollowright.quantity.choices import Choice
from hollowright.shapes.bodies import Body
from hollowright.shapes.outline import Outline
from hollowright.shapes.space import Vector

Window = tuple[float, float]
"""Least and greatest diametral clearance of a feel [mm]."""


@dataclass(frozen=True)
class Stock:
    """Metal in the drawer that parts are made from.

    form: 'tube' or 'sheet'. sizes: outside_diameter and wall, or thickness [mm]. length: of the
    tube in hand [mm], None when not said. factory_ends: how many of its ends are square as bought.
    cuts: how many times the saw goes through it.
    """

    id: str
    label: str
    form: str
    metal: Metal
    sizes: Mapping[str, Quantity]
    length: Quantity | None = None
    factory_ends: int = 0
    cuts: int = 0


@dataclass(frozen=True)
class Blank:
    """A flat (or a piece of tube, seen from the side) to cut, net.

    form: 'strip', 'disc' or 'tube'. outline: true size [mm]. sizes: named dimensions ('length',
    'width', 'diameter'). closes: a strip whose ends meet in a seam. trimmed: a rim is left on and
    trimmed after soldering. sawn_ends: of a tube piece, how many ends the saw leaves. planned: the
    sizes before as-built readings replaced them.
    """

    form: str
    outline: Outline
    sizes: Mapping[str, Quantity]
    closes: bool = False
    trimmed: bool = False
    sawn_ends: int = 0
    planned: Mapping[str, Quantity] | None = None

    @property
    def to_cut(self) -> Mapping[str, Quantity]:
        """The sizes it is cut to: as planned, where what came out has been read since."""
        return self.planned or self.sizes


@dataclass(frozen=True)
class Solid:
    """A part's body in its assembled place, with its name and how it is drawn apart.

    show_hidden: its hidden outlines are dashed in the assembled picture. pull: how far and which
    way it is drawn apart [mm]; None: along the upright axis, in the order of the bodies' middles.
    rides: the id of a body whose own shift is added to the pull.
    """

    label: str
    body: Body
    show_hidden: bool = False
    pull: Vector | None = None
    rides: str = ""


@dataclass(frozen=True)
class Part:
    """One kind of part: from which stock, how many, its blank, its mass each, its solids."""

    id: str
    name: str
    stock: str
    blank: Blank
    mass: Quantity
    count: int = 1
    solids: tuple[Solid, ...] = ()


@dataclass(frozen=True)
class Joint:
    """A seam to solder: what it joins, its length [mm], its lap [mm], what comes before it."""

    id: str
    label: str
    parts: tuple[str, ...]
    length: Quantity
    lap: Quantity | None = None
    gap: Quantity | None = None
    after: tuple[str, ...] = ()
    shows: bool = False


@dataclass(frozen=True)
class Fit:
    """A ring that slides in a bore, made from a strip cut to length before the bore is known.

    bore, length, thickness: quantities [mm]; line: the neutral line where it isn't mid-thickness;
    target: clearance aimed at; window: what still feels right; made: the ring's diameter once
    read; bore_read: whether the bore itself was read; seat: the bore it sits still in; aim: the
    outside diameter it is planned to have; weaker: which of the two yields first; other_wall,
    other_metal: what it presses on.
    """

    id: str
    label: str
    part: str
    bore: Quantity
    length: Quantity
    thickness: Quantity
    target: Quantity
    window: Window
    feel: str
    metal: Metal
    other_wall: Quantity
    other_metal: Metal
    line: Quantity | None = None
    made: Quantity | None = None
    bore_read: bool = False
    seat: Quantity | None = None
    aim: Quantity | None = None
    weaker: str = "ring"


@dataclass(frozen=True)
class Work:
    """One thing to do, as the design knows it: words with {quantity} places, marks, readings.

    kind: 'measure', 'saw', 'solder', 'true', 'cut', 'bend', 'fit', 'file', 'clean' ...: tells the
    plan which cautions belong to it. after: what must be done before. reads: the as-built
    readings that are taken here.
    """

    id: str
    kind: str
    title: str
    text: str
    marks: tuple[str, ...] = ()
    reads: tuple[str, ...] = ()
    after: tuple[str, ...] = ()
    about: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True)
class Change:
    """A planned number that a reading replaced: what was planned, what was read [mm]."""

    id: str
    label: str
    planned: float
    built: float


@dataclass(frozen=True)
class Piece:
    """The piece being made: everything net, every number a quantity with its working.

    inches: its readings were written in inches, so sizes are shown in inches as well.
    """

    title: str
    design: str
    quantities: Mapping[str, Quantity]
    stocks: tuple[Stock, ...]
    parts: tuple[Part, ...]
    joints: tuple[Joint, ...]
    fits: tuple[Fit, ...]
    work: tuple[Work, ...]
    cautions: tuple[Caution, ...] = ()
    choices: tuple[Choice, ...] = ()
    changes: tuple[Change, ...] = ()
    inches: bool = False

    def stock(self, id: str) -> Stock:
        """The stock with this id; KeyError if there is none."""
        return {each.id: each for each in self.stocks}[id]


def by_id(*quantities: Quantity) -> dict[str, Quantity]:
    """Quantities by their ids, in order; ValueError when two share one."""
    table: dict[str, Quantity] = {}
    for quantity in quantities:
        if quantity.id in table:
            raise ValueError(f"two quantities are called {quantity.id}")
        table[quantity.id] = quantity
    return table
