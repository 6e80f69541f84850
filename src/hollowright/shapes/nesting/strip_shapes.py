"""Items made ready for the strip engine: grown polygons, and the turns in which each fits."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from hollowright.shapes.curves import Arc, Line, Point
from hollowright.shapes.nesting.problem import Item, Turns
from hollowright.shapes.outline import Outline
from hollowright.shapes.placing import cosine_and_sine, placed
from hollowright.shapes.polygons import crossing, grown_corners

FINENESS = 1e-6
"""The engine reckons in single precision: what may be lost by it, relative to the greatest size."""

QUARTERS = (0.0, 90.0, 180.0, 270.0)
LONGEST = 4
"""So many straight edges of a flat are laid level or upright."""

STEP = 7.5
"""A flat that fits a strip in some turns only is tried at turns so far apart [deg]."""


@dataclass(frozen=True)
class Shape:
    """One kind of flat as the engine takes it: corners [mm], turns [deg]; None: any.

    outline: as it lies before it is turned (turned over already, if `mirrored`).
    """

    item: str
    outline: Outline
    corners: tuple[Point, ...]
    count: int
    turns: Turns
    mirrored: bool = False

    def allowed(self, turn: float) -> float:
        """The turn that is meant by one in single precision [deg]."""
        if self.turns is None:
            return turn % 360.0
        return min(self.turns, key=lambda each: abs(math.remainder(each - turn, 360.0))) % 360.0


def checked(items: Sequence[Item], height: float, between: float, seconds: float) -> None:
    """ValueError, naming the fault, for what the engine can't be asked."""
    if not (math.isfinite(height) and height > 0):
        raise ValueError(f"height must be more than 0 mm, not {height}")
    if not (math.isfinite(between) and between >= 0):
        raise ValueError(f"between must be 0 mm or more, not {between}")
    if not (math.isfinite(seconds) and seconds > 0):
        raise ValueError(f"seconds must be more than 0, not {seconds}")
    for item in items:
        if item.count < 0:
            raise ValueError(f"{item.id}: count must be 0 or more, not {item.count}")
        if not _sized(item.outline):
            raise ValueError(f"{item.id}: its outline has a size that isn't a number")
        place = crossing(item.outline)
        if place:
            x, y = place
            raise ValueError(f"{item.id}: its edge crosses or touches itself at x {x:g}, y {y:g}")


def _sized(outline: Outline) -> bool:
    corners = [number for segment in outline.segments for number in segment.start]
    return all(math.isfinite(each) for each in (*corners, *outline.bounds))


def fineness(items: Iterable[Item], height: float) -> float:
    """What to keep free beyond the gap for the engine's rounding [mm]."""
    area = sum(item.outline.area * item.count for item in items)
    return FINENESS * max(height, 2 * area / height)


def shapes(
    items: Sequence[Item], height: float, by: float, spare: float, over: bool = False
) -> list[Shape]:
    """Every kind of flat, grown by `by` [mm], with the turns in which it fits the height.

    spare: what the strip is higher for the engine than `height`, less twice `by` [mm]. over: half
    of the copies that may be turned over are. ValueError for a flat that fits in no turn.
    """
    room = height + 2 * by + spare
    found = []
    for item in items:
        down = item.count // 2 if over and item.mirrored else 0
        for mirrored, count in ((False, item.count - down), (True, down)):
            if count:
                outline = placed(item.outline, 0.0, 0.0, 0.0, mirrored)
                corners = grown_corners(outline, by)
                turns = fitting_turns(item, outline, corners, room)
                found.append(Shape(item.id, outline, corners, count, turns, mirrored))
    return found


def fitting_turns(item: Item, outline: Outline, corners: Sequence[Point], room: float) -> Turns:
    """Those of an item's turns in which its polygon fits a height [mm]; None: in any.

    Of a flat that may lie any way and has straight edges these are the turns that lay its longest
    ones level or upright: measured on blanks of every design, strips came out 2 to 3 % shorter so
    than with every turn. ValueError when there is none.
    """
    allowed = item.turns
    if allowed is None and _round(outline):
        allowed = (0.0,)
    elif allowed is None:
        squared = tuple(turn for turn in _squared(outline) if extent(corners, turn) <= room)
        if squared:
            return squared
        if _greatest(corners) <= room:
            return None
        allowed = (*_along_edges(corners), *(STEP * i for i in range(round(360 / STEP))))
    heights = {turn: extent(corners, turn) for turn in allowed}
    fitting = tuple(turn for turn in allowed if heights[turn] <= room)
    if not fitting:
        least = min(heights.values()) - room
        raise ValueError(
            f"{item.id}: too high for the strip by {least:.3g} mm in every turn that it may take"
        )
    return fitting


def extent(corners: Iterable[Point], turn: float) -> float:
    """How high a polygon stands when it is turned [mm]."""
    c, s = cosine_and_sine(turn)
    heights = [x * s + y * c for x, y in corners]
    return max(heights) - min(heights)


def _round(outline: Outline) -> bool:
    """Whether it looks the same in any turn: a disc."""
    first = outline.segments[0]
    return isinstance(first, Arc) and all(
        isinstance(each, Arc) and math.dist(each.centre, first.centre) <= 1e-9 * first.radius
        for each in outline.segments
    )


def _squared(outline: Outline) -> tuple[float, ...]:
    """Turns [deg] that lay one of the longest straight edges level or upright; () without any."""
    straight = [each for each in outline.segments if isinstance(each, Line)]
    longest = sorted(straight, key=lambda edge: -edge.length())[:LONGEST]
    level = [_level(edge.start, edge.end) for edge in longest]
    turns = {round(turn + quarter, 9) % 360.0 for turn in level for quarter in QUARTERS}
    return tuple(sorted(turns))


def _level(start: Point, end: Point) -> float:
    """The turn that lays an edge level [deg]."""
    return -math.degrees(math.atan2(end[1] - start[1], end[0] - start[0]))


def _greatest(corners: Sequence[Point]) -> float:
    """No less than the greatest extent in any turn [mm], and 0.2 % more at most."""
    return max(extent(corners, 5.0 * i) for i in range(36)) / math.cos(math.radians(2.5))


def _along_edges(corners: Sequence[Point]) -> tuple[float, ...]:
    """Turns that lay an edge level, of the 60 longest: the least height is mostly there [deg]."""
    following = [*corners[1:], corners[0]]
    edges = sorted(zip(corners, following, strict=True), key=lambda edge: -math.dist(*edge))
    level = [_level(*edge) for edge in edges[:60]]
    return tuple(turn % 360.0 for each in level for turn in (each, each + 180.0))
