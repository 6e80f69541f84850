"""The drawing: paths with a role, labels and dimensions in mm, which every writer starts from.

The origin is the lower left corner, x to the right, y upwards, angles in radians anticlockwise.
Line types follow ISO 128-2 and ISO 128-3 (numbers in brackets below), sizes of lettering ISO 3098,
dimensions ISO 129-1.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal

from hollowright.shapes.curves import Bounds, Curve, Point, shift, union

Role = Literal[
    "visible",
    "seam",
    "hidden",
    "centre",
    "cut",
    "mark",
    "fold",
    "offcut",
    "dimension",
    "leader",
    "hatching",
    "bar",
    "frame",
]
LabelRole = Literal["title", "name", "value", "note", "dimension"]
Anchor = Literal["start", "middle", "end"]
Direction = Literal["aligned", "horizontal", "vertical"]

CAP_HEIGHT = 0.65  # of the type size: height of a capital, by which lettering is measured


@dataclass(frozen=True, slots=True)
class LineStyle:
    """How a role is drawn: the wide or the narrow line, dashes in line widths, its layer."""

    wide: bool
    dashes: tuple[float, ...]
    layer: str


CONTINUOUS: tuple[float, ...] = ()
DASHED = (12.0, 3.0)
CHAIN = (24.0, 3.0, 0.5, 3.0)
DOUBLE_CHAIN = (24.0, 3.0, 0.5, 3.0, 0.5, 3.0)

LINES: dict[Role, LineStyle] = {
    "visible": LineStyle(True, CONTINUOUS, "visible"),  # 01.2, visible outlines
    "seam": LineStyle(False, CONTINUOUS, "visible"),  # 01.1, where the ends of a strip meet
    "hidden": LineStyle(False, DASHED, "hidden"),  # 02.1, hidden outlines
    "centre": LineStyle(False, CHAIN, "centre"),  # 04.1, axes
    "cut": LineStyle(True, CONTINUOUS, "cut"),  # 01.2, the outline to saw
    "mark": LineStyle(False, DOUBLE_CHAIN, "mark"),  # 05.1, the finished part within a blank
    "fold": LineStyle(False, CONTINUOUS, "mark"),  # 01.1, bending lines on blanks
    "offcut": LineStyle(False, DASHED, "offcut"),  # 02.1, where a sheet's rest may be parted
    "dimension": LineStyle(False, CONTINUOUS, "dimension"),  # 01.1
    "leader": LineStyle(False, CONTINUOUS, "leader"),  # 01.1
    "hatching": LineStyle(False, CONTINUOUS, "hatching"),  # 01.1
    "bar": LineStyle(True, CONTINUOUS, "bar"),
    "frame": LineStyle(True, CONTINUOUS, "frame"),  # 01.2
}


THINNEST = 0.1
"""A narrow line has at least this width, so that every printer shows it [mm]."""


@dataclass(frozen=True, slots=True)
class Path:
    """Curves of one role, chained where one begins at the end of the one before."""

    role: Role
    curves: tuple[Curve, ...]
    filled: bool = False

    def bounds(self) -> Bounds:
        """Bounds of the bare curves [mm], without the line's width."""
        return union(curve.bounds() for curve in self.curves)

    def moved(self, dx: float, dy: float) -> Path:
        """The same path shifted by dx and dy [mm]."""
        return replace(self, curves=tuple(curve.moved(dx, dy) for curve in self.curves))


@dataclass(frozen=True, slots=True)
class Label:
    """A line of text: `height` is that of its capitals [mm], `at` the point on its baseline."""

    text: str
    at: Point
    height: float = 2.5
    role: LabelRole = "note"
    anchor: Anchor = "start"
    angle: float = 0.0

    def moved(self, dx: float, dy: float) -> Label:
        """The same label shifted by dx and dy [mm]."""
        return replace(self, at=shift(self.at, dx, dy))


@dataclass(frozen=True, slots=True)
class LinearDimension:
    """A length between two points, measured straight across, level or upright.

    The dimension line runs `offset` [mm] to the left of the way from `start` to `end`.
    """

    start: Point
    end: Point
    offset: float
    text: str
    direction: Direction = "aligned"
    height: float = 2.5

    def moved(self, dx: float, dy: float) -> LinearDimension:
        """The same dimension shifted by dx and dy [mm]."""
        return replace(self, start=shift(self.start, dx, dy), end=shift(self.end, dx, dy))


@dataclass(frozen=True, slots=True)
class DiameterDimension:
    """A diameter written on a line through the centre, at an angle [rad]."""

    centre: Point
    diameter: float
    text: str
    angle: float = 0.0
    height: float = 2.5

    def moved(self, dx: float, dy: float) -> DiameterDimension:
        """The same dimension shifted by dx and dy [mm]."""
        return replace(self, centre=shift(self.centre, dx, dy))


Dimension = LinearDimension | DiameterDimension
Item = Path | Label | Dimension


@dataclass(frozen=True, slots=True)
class Drawing:
    """A drawing of a stated size [mm]; `wide_line` is the weight of its outlines, 0.5 or less.

    Narrow lines are half as wide (ISO 128-2). `title` and `description` say in words what is seen.
    """

    width: float
    height: float
    items: tuple[Item, ...]
    title: str = ""
    description: str = ""
    wide_line: float = 0.5

    def weight(self, role: Role) -> float:
        """Width of the line of a role [mm]; none is too thin to be printed."""
        return self.wide_line if LINES[role].wide else max(self.wide_line / 2, THINNEST)

    def dashes(self, role: Role) -> tuple[float, ...]:
        """Dash and gap lengths of a role [mm]; empty for a continuous line."""
        return tuple(self.weight(role) * part for part in LINES[role].dashes)


def moved(items: Iterable[Item], dx: float, dy: float) -> tuple[Item, ...]:
    """Items shifted by dx and dy [mm]."""
    return tuple(item.moved(dx, dy) for item in items)


_NARROW = frozenset("iljtfrI.,:;'|!()[] -1/")
_BROAD = frozenset("mwMW@%&—⌀")


def text_width(text: str, height: float) -> float:
    """About how wide a line of text comes out in a broad serif face [mm].

    >>> 15 < text_width("body cap", 2.5) < 19
    True
    """
    ems = sum(
        0.4 if c in _NARROW else 0.95 if c in _BROAD else 0.78 if c.isupper() else 0.6 for c in text
    )
    return ems * height / CAP_HEIGHT
