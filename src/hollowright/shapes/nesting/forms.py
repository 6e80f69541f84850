"""Items as the search handles them: coarse polygons that never lie inside the true curves' gap."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from hollowright.shapes.convex import convex_pieces
from hollowright.shapes.curves import Bounds, Line
from hollowright.shapes.nesting.problem import Item, Problem
from hollowright.shapes.outline import Outline
from hollowright.shapes.placing import cosine_and_sine
from hollowright.shapes.polygons import (
    FINE,
    Area,
    Numbers,
    area_of,
    corners_of,
    grown,
    hull_of,
    less,
    parts_of,
    together,
    turned,
)

SLACK = 0.002
"""By how much the search lets a gap fall short [mm], so that what just fits does fit."""

SHARE = 1 / 1600
"""How far the search's polygons may lie off the curves, as a share of the outline's size."""


STEPS = (0.1, 0.05, 0.025, 0.012, 0.006, 0.004)
"""How far they may lie off [mm]: the first of these that is no more than the share."""


@dataclass(frozen=True, eq=False)
class Form:
    """One item, or its other side: its outline as a polygon within `doubt` [mm] of its curves.

    hulled: its hull stands for its outer edge, which is quicker and never less.
    """

    item: Item
    mirrored: bool
    doubt: float
    hulled: bool = False
    _grown: dict[tuple[float, bool], list[Numbers]] = field(default_factory=dict, repr=False)

    @cached_property
    def area(self) -> Area:
        """As a polygon with its holes, not turned."""
        return self._area(filled=False)

    @cached_property
    def filled(self) -> Area:
        """As a polygon without its holes, not turned."""
        return self._area(filled=True)

    @cached_property
    def pieces(self) -> list[Numbers]:
        """Convex pieces of the filled polygon."""
        return convex_pieces(self.filled)

    @cached_property
    def hull(self) -> Numbers:
        """Corners of its hull; (n, 2)."""
        return corners_of(hull_of(self.filled))[:-1]

    @cached_property
    def holes(self) -> tuple[float, ...]:
        """The area of each hole [mm2]."""
        return tuple(hole.area for hole in self.item.outline.holes)

    @cached_property
    def points(self) -> Numbers:
        """Points on the true outer edge [mm], close enough to tell how far it reaches."""
        points = np.array(self.item.outline.points(FINE))
        return points * (-1.0, 1.0) if self.mirrored else points

    def grown_pieces(self, by: float, filled: bool) -> list[Numbers]:
        """Convex pieces of the polygon grown by this [mm]; its holes closed if `filled`."""
        key = (by, filled)
        if key not in self._grown:
            whole = grown(self.filled if filled else self.area, by)
            self._grown[key] = [each for part in parts_of(whole) for each in convex_pieces(part)]
        return self._grown[key]

    def bounds(self, turn: float) -> Bounds:
        """How far it reaches when turned [mm], from its own 0, 0."""
        low, high = self._reach(turn)
        return (float(low[0]), float(low[1]), float(high[0]), float(high[1]))

    def _reach(self, turn: float) -> tuple[Numbers, Numbers]:
        points = rotated(self.points, turn)
        return points.min(axis=0), points.max(axis=0)

    def _area(self, filled: bool) -> Area:
        found = area_of(self.item.outline, max(self.doubt, FINE), filled)
        if self.hulled:
            holes = [area_of(hole, max(self.doubt, FINE)) for hole in self.item.outline.holes]
            found = less(hull_of(found), together([] if filled else holes))
        return turned(found, 1.0, 0.0, mirrored=True) if self.mirrored else found


def forms_of(
    problem: Problem, share: float = SHARE, hulled: bool = False
) -> dict[tuple[str, bool], Form]:
    """Every item's form, and its other side where it may be turned over or is pinned so."""
    pinned = {(pin.item, pin.mirrored) for pin in problem.pins}
    found = {}
    for item in problem.items:
        for side in (False, True):
            if not side or item.mirrored or (item.id, side) in pinned:
                found[item.id, side] = Form(item, side, doubt_of(item.outline, share), hulled)
    return found


def doubt_of(outline: Outline, share: float) -> float:
    """How far a polygon may lie off an outline's curves [mm]; 0 where all is straight.

    One of few lengths, so that areas grown by it can be kept.
    """
    if all(isinstance(s, Line) for each in (outline, *outline.holes) for s in each.segments):
        return 0.0
    return next(step for step in STEPS if step <= share * outline.size or step == STEPS[-1])


def rotated(points: Numbers, turn: float) -> Numbers:
    """Points turned round 0, 0 [deg]; (..., 2)."""
    c, s = cosine_and_sine(turn)
    found: Numbers = points @ np.array(((c, s), (-s, c)))
    return found
