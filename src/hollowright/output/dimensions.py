"""Dimensions drawn out: extension lines, arrows and figures as ISO 129-1 has them.

Arrows are filled, three times as long as wide. Figures stand above the line and are read from
below or from the right. Where arrows find no room inside they stand outside, and figures that find
none follow the line on.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from hollowright.output.drawing import (
    Anchor,
    DiameterDimension,
    Dimension,
    Item,
    Label,
    LinearDimension,
    Path,
    text_width,
)
from hollowright.shapes.curves import Line, Point

GAP = 1.0  # between an outline and its extension line [mm]
OVERSHOOT = 2.0  # of an extension line past the dimension line: eight narrow lines [mm]
LONGEST = 3.0  # arrow; it is as long as the figures are high, but no longer than this [mm]
SLIM = 3.0  # an arrow's length over its width


@dataclass(frozen=True, slots=True)
class _Way:
    """A straight dimension line from one arrow's tip to the other's."""

    start: Point
    end: Point

    @property
    def span(self) -> float:
        return math.dist(self.start, self.end)

    @property
    def along(self) -> Point:
        (x0, y0), (x1, y1) = self.start, self.end
        return ((x1 - x0) / self.span, (y1 - y0) / self.span)

    def readable(self) -> _Way:
        """The same line run so that its text is read from below or from the right."""
        x, y = self.along
        upright = abs(x) < 1e-9
        backwards = y < 0 if upright else x < 0
        return _Way(self.end, self.start) if backwards else self


def drawn(dimension: Dimension) -> tuple[Item, ...]:
    """A dimension as paths and a label; ValueError when it measures nothing."""
    if isinstance(dimension, LinearDimension):
        return _linear(dimension)
    return _diameter(dimension)


def _linear(dimension: LinearDimension) -> tuple[Item, ...]:
    along = _direction(dimension)
    across = (-along[1], along[0])
    (x0, y0), (x1, y1) = dimension.start, dimension.end
    span = (x1 - x0) * along[0] + (y1 - y0) * along[1]
    tip = _step(dimension.start, across, dimension.offset)
    way = _Way(tip, _step(tip, along, span))
    extensions = [
        line
        for point, foot in ((dimension.start, way.start), (dimension.end, way.end))
        for line in _extension(point, foot)
    ]
    items: list[Item] = [Path("dimension", tuple(extensions))] if extensions else []
    return (*items, *_line_and_text(way, dimension.text, dimension.height))


def _direction(dimension: LinearDimension) -> Point:
    """Unit vector that a linear dimension is measured along."""
    dx, dy = dimension.end[0] - dimension.start[0], dimension.end[1] - dimension.start[1]
    if dimension.direction == "horizontal":
        dy = 0.0
    elif dimension.direction == "vertical":
        dx = 0.0
    size = math.hypot(dx, dy)
    if size < 1e-9:
        raise ValueError(f"the dimension {dimension.text!r} has its two ends in one place")
    return (dx / size, dy / size)


def _extension(point: Point, foot: Point) -> list[Line]:
    """The line from beside a point to past its foot on the dimension line."""
    size = math.dist(point, foot)
    if size <= GAP:
        return []
    out = ((foot[0] - point[0]) / size, (foot[1] - point[1]) / size)
    return [Line(_step(point, out, GAP), _step(foot, out, OVERSHOOT))]


def _diameter(dimension: DiameterDimension) -> tuple[Item, ...]:
    if dimension.diameter <= 0:
        raise ValueError(f"the dimension {dimension.text!r} has no diameter")
    out = (math.cos(dimension.angle), math.sin(dimension.angle))
    radius = dimension.diameter / 2
    way = _Way(_step(dimension.centre, out, -radius), _step(dimension.centre, out, radius))
    return _line_and_text(way, dimension.text, dimension.height)


def _line_and_text(way: _Way, text: str, height: float) -> tuple[Item, ...]:
    """The dimension line with arrows and figures, inside or outside by the room there is."""
    way = way.readable()
    along = way.along
    width, arrow = text_width(text, height), min(height, LONGEST)
    fits = way.span >= width + 2 * arrow
    inside = fits or way.span >= 3 * arrow
    reach = 0.0 if inside else 2 * arrow
    beyond = reach if fits or way.span >= width else max(reach, arrow) + width
    line = Line(_step(way.start, along, -reach), _step(way.end, along, beyond))
    sign = 1 if inside else -1
    arrows = (
        _arrow(way.start, (sign * along[0], sign * along[1]), arrow),
        _arrow(way.end, (-sign * along[0], -sign * along[1]), arrow),
    )
    outside = beyond > reach
    at = line.end if outside else _step(way.start, along, way.span / 2)
    figures = _figures(at, along, text, height, "end" if outside else "middle")
    return (Path("dimension", (line,)), *arrows, figures)


def _figures(at: Point, along: Point, text: str, height: float, anchor: Anchor) -> Label:
    """Text a little above a line."""
    above = _step(at, (-along[1], along[0]), height * 0.4)
    return Label(text, above, height, "dimension", anchor, math.atan2(along[1], along[0]))


def _arrow(tip: Point, back: Point, length: float) -> Path:
    """A filled arrowhead whose tip is at a point and whose body lies in the direction `back`."""
    tail = _step(tip, back, length)
    side = (-back[1], back[0])
    half = length / SLIM / 2
    left, right = _step(tail, side, half), _step(tail, side, -half)
    return Path("dimension", (Line(tip, left), Line(left, right), Line(right, tip)), filled=True)


def _step(point: Point, way: Point, distance: float) -> Point:
    return (point[0] + way[0] * distance, point[1] + way[1] * distance)
