"""What lies in the drawer: items, pages of them, and the cuttings that changed it. All mm."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from hollowright.shapes.outline import Outline, rectangle
from hollowright.units import format_number

FLAT_FORMS = ("sheet", "strip")
"""Forms that blanks are laid out on."""

FORMS = (*FLAT_FORMS, "tube", "rod")
"""What metal comes as."""

WIRE = "wire"
"""Another word for thin rod; it lies in the drawer as rod."""

FORM_WORDS = (*FORMS, WIRE)
"""Every word that a form may be told by."""

SECTIONS: Mapping[str, tuple[str, ...]] = {
    "sheet": ("thickness",),
    "strip": ("thickness", "width"),
    "tube": ("outside_diameter", "wall"),
    "rod": ("diameter",),
}
"""The sizes that make two of a form the same metal to saw from, whatever their length."""

MEASURES = ("thickness", "outside_diameter", "wall", "diameter", "width", "length")
"""Every size that an item can have [mm]."""

MOST_NUMBER = 9_999_999
"""No number of an item is larger: it is written by hand."""

PREFIX = "drawer-"
"""What an item's number stands after, where sheets and bars of every origin have an id."""


@dataclass(frozen=True, kw_only=True)
class NewItem:
    """A piece of metal to put into the drawer.

    metal: its id in the handbook. temper: '' when not said. Sizes [mm]: sheet and strip have
    thickness, length (along x) and width (along y); tube outside_diameter, wall, length; rod
    diameter, length. outline: of a sheet that isn't a plain rectangle; its length and width are
    then its bounds. grain: which way it was rolled, in the outline's axes [deg from x]; None: not
    known. square_ends: how many of a bar's ends are square as bought. readings: texts as taken, by
    size. cost: of this item, in the shop's money. cut_from: the item it was cut from.
    """

    form: str
    metal: str
    temper: str = ""
    thickness: float | None = None
    outside_diameter: float | None = None
    wall: float | None = None
    diameter: float | None = None
    width: float | None = None
    length: float | None = None
    outline: Outline | None = None
    grain: float | None = None
    square_ends: int = 0
    readings: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    place: str = ""
    cost: float | None = None
    note: str = ""
    cut_from: int | None = None

    @property
    def flat(self) -> bool:
        """Whether blanks can be laid out on it."""
        return self.form in FLAT_FORMS

    @property
    def sizes(self) -> Mapping[str, float]:
        """The sizes of its section [mm], in the order they are spoken."""
        found = {name: getattr(self, name) for name in SECTIONS[self.form]}
        return {name: value for name, value in found.items() if value is not None}

    @property
    def shape(self) -> Outline:
        """Its outline seen from above [mm]; a plain rectangle where it has none of its own."""
        if self.outline is not None:
            return self.outline
        across = self.width or self.outside_diameter or self.diameter or 0.0
        return rectangle(self.length or 0.0, across)

    @property
    def area(self) -> float:
        """Area seen from above [mm2]."""
        return self.shape.area

    @property
    def size_text(self) -> str:
        """Its size as it is spoken: '300 × 150 × 0.71', '38.05 × 1.01, 300 long' [mm]."""
        if self.flat:
            across = " × ".join(_short(size, 2) for size in (self.length, self.width))
            return f"{across} × {_short(self.thickness)}"
        return " × ".join(map(_short, self.sizes.values())) + f", {_short(self.length, 2)} long"


@dataclass(frozen=True, kw_only=True)
class Item(NewItem):
    """A piece of metal in the drawer, or one that lay there.

    number: what is written on the metal with a marker; never given twice. added, gone: when (UTC);
    gone is None while it lies there. gone_how: 'cut', 'taken' or 'undone'; gone_why: in words.
    came_by, gone_by: the cutting that put it in, that took it out.
    """

    number: int
    added: datetime
    gone: datetime | None = None
    gone_how: str = ""
    gone_why: str = ""
    came_by: int | None = None
    gone_by: int | None = None

    @property
    def id(self) -> str:
        """Its id among sheets and bars of every origin: 'drawer-17'."""
        return f"{PREFIX}{self.number}"

    @property
    def label(self) -> str:
        """What to look for at the bench: '17, tin 3'."""
        return label_of(self.number, self.place)

    @property
    def there(self) -> bool:
        """Whether it lies in the drawer."""
        return self.gone is None


@dataclass(frozen=True)
class Page:
    """Some of the items: page `page` (from 1) of `pages`, `total` items in all."""

    items: tuple[Item, ...]
    page: int
    size: int
    total: int

    @property
    def pages(self) -> int:
        """How many pages there are; 1 when there is nothing."""
        return max(1, -(-self.total // self.size))


@dataclass(frozen=True)
class Cutting:
    """What was cut, for what: items out, offcuts in; data: the layout or cut list as an input.

    kind: 'sheet' or 'bar'. undone: when it was taken back; None while it stands.
    """

    number: int
    at: datetime
    made_for: str
    kind: str
    out: tuple[int, ...]
    came_in: tuple[int, ...]
    data: Mapping[str, Any] = field(default_factory=dict)
    undone: datetime | None = None


@dataclass(frozen=True)
class Change:
    """One line of the drawer's record: what happened to an item, old and new by field."""

    at: datetime
    number: int
    what: str
    told: Mapping[str, Any]


@dataclass(frozen=True)
class Placement:
    """A layout that a solver found: kept as an input, never solved again to be redrawn.

    program, handbook: the versions it was found with. seconds: how long it was looked for.
    """

    key: str
    data: Any
    program: str
    handbook: str
    seconds: float
    at: datetime


def label_of(number: int, place: str) -> str:
    """What to look for at the bench: '17, tin 3'."""
    return f"{number}, {place}" if place else str(number)


def _short(size: float | None, decimals: int = 3) -> str:
    """A size without needless noughts: '0.71', '300'; '?' when not known."""
    return "?" if size is None else format_number(size, decimals).rstrip("0").rstrip(".")
