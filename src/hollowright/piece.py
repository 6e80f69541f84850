"""What a design makes of a brief: stock, parts, blanks, joints, fits, templates, work, all net.

A Piece holds no kerf and no allowance; `plan/cut` alone turns net into cut size. A blank has its
outline in floats and its named dimensions as quantities; a test asserts that the two agree.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from hollowright.errors import Caution
from hollowright.handbook.metals import Metal
from hollowright.quantity import Quantity
from hollowright.quantity.choices import Choice
from hollowright.shapes.bodies import Body
from hollowright.shapes.curves import Curve
from hollowright.shapes.outline import Outline
from hollowright.shapes.space import Vector

Window = tuple[float, float]
"""Least and greatest diametral clearance of a feel [mm]."""


BARS = ("tube", "rod")
"""Forms of stock, and of blanks, that are sawn to length instead of cut from sheet."""

ANNEALED = "annealed"
TEMPERS = (ANNEALED, "quarter-hard", "half-hard", "hard", "spring")
"""How hard metal is sold, softest first."""


@dataclass(frozen=True)
class Stock:
    """Metal that parts are made from.

    form: 'tube', 'rod' or 'sheet'. sizes: outside_diameter and wall, diameter, or thickness [mm].
    length, width: of the metal in hand [mm], None when not said. factory_ends: how many of a bar's
    ends are square as bought. cuts: how many times the saw goes through it. how: how it is sawn, in
    words. sawn_once: as-built readings that tell it is sawn already. keys: its table in the piece
    file, where that isn't stock.ID. temper: how hard it lies there, one of TEMPERS; '' when not
    said.
    """

    id: str
    label: str
    form: str
    metal: Metal
    sizes: Mapping[str, Quantity]
    length: Quantity | None = None
    width: Quantity | None = None
    factory_ends: int = 0
    cuts: int = 0
    how: str = ""
    sawn_once: tuple[str, ...] = ()
    keys: str = ""
    temper: str = ""

    @property
    def path(self) -> str:
        """Its table in the piece file."""
        return self.keys or f"stock.{self.id}"

    @property
    def bar(self) -> bool:
        """Whether it is sawn to length."""
        return self.form in BARS

    @property
    def metal_words(self) -> str:
        """Its metal's name, and how hard it is where that is said: 'cartridge brass, half-hard'."""
        return f"{self.metal.name}, {self.temper}" if self.temper else self.metal.name

    @property
    def thickness(self) -> Quantity:
        """What the saw goes through [mm]: the sheet, a tube's wall, a rod's diameter."""
        names = ("thickness", "wall", "diameter")
        return next(self.sizes[name] for name in names if name in self.sizes)


@dataclass(frozen=True)
class Scribe:
    """A line to scribe or fold on a blank, in the net outline's own millimetres, and its use."""

    curve: Curve
    text: str
    role: Literal["mark", "fold"] = "mark"


@dataclass(frozen=True)
class Blank:
    """A flat (or a piece of bar, seen from the side) to cut, net.

    form: 'strip', 'disc', 'plate' (a flat of any outline), 'tube' or 'rod'. outline: true size
    [mm]. sizes: named dimensions ('length', 'width', 'diameter', a plate's others too). grows: by
    how many margins a plate's size grows when it is cut larger all round; length, width and
    diameter by 2, others by none unless said. marks: lines to scribe. closes: a strip whose ends
    meet in a seam. trimmed: a rim is left on and trimmed after soldering. sawn_ends: of a piece of
    bar, how many ends the saw leaves. planned: the sizes before as-built readings replaced them.
    rim: the shop's setting that says how much is left on to trim. parted: how many times a strip is
    sawn apart lengthwise once it is bent; each cut takes a kerf and two edges to true. grain: which
    way the metal's grain should run, in the outline's own axes [deg from x]; None where it doesn't
    matter. square_ends: of a piece of bar, how many ends had better be square as bought. meets: the
    part whose sawn end its own meets in the finished piece: the two are sawn side by side. shaped:
    it is bent, folded, domed or raised from what it is cut as.
    """

    form: str
    outline: Outline
    sizes: Mapping[str, Quantity]
    closes: bool = False
    trimmed: bool = False
    sawn_ends: int = 0
    planned: Mapping[str, Quantity] | None = None
    grows: Mapping[str, int] = field(default_factory=dict)
    marks: tuple[Scribe, ...] = ()
    rim: str = "cap_rim"
    parted: int = 0
    grain: float | None = None
    square_ends: int = 0
    meets: str = ""
    shaped: bool = False

    @property
    def to_cut(self) -> Mapping[str, Quantity]:
        """The sizes it is cut to: as planned, where what came out has been read since."""
        return self.planned or self.sizes

    @property
    def flat(self) -> bool:
        """Whether it is laid out on sheet."""
        return self.form not in BARS


@dataclass(frozen=True)
class Template:
    """A paper to wrap or lay on the metal and mark along: its outline [mm], named sizes, lines."""

    id: str
    label: str
    outline: Outline
    sizes: Mapping[str, Quantity]
    note: str
    marks: tuple[Scribe, ...] = ()


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
    """A part bent from strip that slides in another, or over it; cut before that is known.

    over: it goes over the other; then `bore` is the other's outside and `made` its own inside.
    bore, length, thickness: quantities [mm]; of forms that aren't round, bore is the length round
    over `turn`. line: the neutral line where it isn't mid-thickness; target: clearance aimed at;
    window: what still feels right; made: the part's diameter once read; bore_read: whether the bore
    itself was read; seat: the bore it sits still in; aim: the diameter it is planned to have;
    weaker: which of the two yields first; other_wall, other_metal: what it presses on. slider,
    mate, host: what the part, what it slides in and what it sits in are called. turn: what the
    length round changes for a change of the clearance: pi for smooth convex forms, more at sharp
    corners. lost: what its scored folds take off its length round; read_bore: how the bore is read
    directly, in words.
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
    over: bool = False
    slider: str = "ring"
    mate: str = "body"
    host: str = "lid"
    turn: float = math.pi
    lost: Quantity | None = None
    read_bore: str = ""


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
class Wall:
    """A round upright wall of a piece, where another design may be joined (a spout on a can).

    part: whose wall it is; diameter: its outside, thickness [mm]; from `low` to `high` along the
    upright axis through 0, 0 [mm], as far as nothing slides or sits inside or outside. seamed: it
    has a seam, which a hole must miss. temper: of the metal that it is made of; '' when not said.
    """

    part: str
    diameter: Quantity
    thickness: Quantity
    metal: Metal
    low: float
    high: float
    seamed: bool = False
    temper: str = ""


@dataclass(frozen=True)
class Opening:
    """What a joined piece cuts out of its host: the body taken away, and its weight [g].

    In the joined piece's own place: the host's axis along x through 0, 0, 0. margin: how far what
    is set on it reaches past the hole, along the host and round it [mm].
    """

    body: Body
    mass: Quantity
    margin: tuple[float, float] = (0.0, 0.0)


@dataclass(frozen=True)
class Piece:
    """The piece being made: everything net, every number a quantity with its working.

    inches: its readings were written in inches, so sizes are shown in inches as well. foot: outside
    diameter of a flat round foot by which it can stand on another [mm].
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
    templates: tuple[Template, ...] = ()
    walls: tuple[Wall, ...] = ()
    openings: tuple[Opening, ...] = ()
    foot: Quantity | None = None

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
