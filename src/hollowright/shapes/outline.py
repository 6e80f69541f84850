"""Closed outlines of flat things: area, perimeter, size and polygon, with arcs kept as arcs."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from hollowright.shapes.curves import TURN, Arc, Bounds, Curve, Line, Point, union

MEETING = 1e-9  # relative to the outline's own size: how near is the same point


@dataclass(frozen=True, slots=True)
class Outline:
    """A closed chain of curves [mm], with holes that are outlines themselves.

    Every curve begins where the one before ends and the last ends where the first begins;
    otherwise ValueError says where the gap is.
    """

    segments: tuple[Curve, ...]
    holes: tuple[Outline, ...] = ()

    def __post_init__(self) -> None:
        """Refuse an outline that is empty or has a gap."""
        if not self.segments:
            raise ValueError("an outline needs at least one curve")
        low_x, low_y, high_x, high_y = self.bounds
        near = MEETING * max(1.0, high_x - low_x, high_y - low_y, abs(low_x), abs(low_y))
        for before, after in zip(self.segments, self.segments[1:] + self.segments[:1], strict=True):
            if math.dist(before.end, after.start) > near:
                raise ValueError(f"the outline has a gap between {before.end} and {after.start}")

    @property
    def bounds(self) -> Bounds:
        """Least x, least y, greatest x, greatest y [mm]."""
        return union(segment.bounds() for segment in self.segments)

    @property
    def width(self) -> float:
        """Size along x [mm]."""
        low, _, high, _ = self.bounds
        return high - low

    @property
    def height(self) -> float:
        """Size along y [mm]."""
        _, low, _, high = self.bounds
        return high - low

    @property
    def area(self) -> float:
        """Area enclosed, without the holes [mm2]."""
        whole = abs(sum(segment.moment() for segment in self.segments))
        return whole - sum(hole.area for hole in self.holes)

    @property
    def perimeter(self) -> float:
        """Length of the outer edge [mm]; the holes' edges are their own outlines' perimeters."""
        return sum(segment.length() for segment in self.segments)

    def points(self, tolerance: float = 0.01) -> tuple[Point, ...]:
        """The outer edge as a polygon [mm] on the curve, no chord further off than `tolerance`.

        The first point isn't repeated at the end.
        """
        found: list[Point] = []
        for segment in self.segments:
            found += segment.points(tolerance)[:-1]
        return tuple(found)

    def moved(self, dx: float, dy: float) -> Outline:
        """The same outline shifted by dx and dy [mm]."""
        return Outline(
            tuple(segment.moved(dx, dy) for segment in self.segments),
            tuple(hole.moved(dx, dy) for hole in self.holes),
        )


def rectangle(width: float, height: float, corner_radius: float = 0.0) -> Outline:
    """A rectangle with its lower left corner at 0, 0 [mm], its corners sharp or rounded.

    >>> box = rectangle(50, 30, corner_radius=5)
    >>> round(box.area, 6), round(box.perimeter, 6)
    (1478.539816, 151.415927)
    """
    _positive(width=width, height=height)
    r = corner_radius
    if not 0 <= r <= min(width, height) / 2:
        raise ValueError(f"corner_radius must lie between 0 and half the lesser side, not {r}")
    if r == 0:
        return polygon([(0, 0), (width, 0), (width, height), (0, height)])
    quarter = math.pi / 2
    corners = [(width - r, r), (width - r, height - r), (r, height - r), (r, r)]
    arcs = [Arc(centre, r, (i - 1) * quarter, quarter) for i, centre in enumerate(corners)]
    chain: list[Curve] = []
    for before, arc in zip(arcs[-1:] + arcs[:-1], arcs, strict=True):
        side = Line(before.end, arc.start)
        chain += [side, arc] if side.length() > MEETING * max(width, height) else [arc]
    return Outline(tuple(chain))


def disc(diameter: float) -> Outline:
    """A disc round 0, 0 [mm]."""
    _positive(diameter=diameter)
    return Outline((Arc((0.0, 0.0), diameter / 2, 0.0, TURN),))


def annulus(outside_diameter: float, inside_diameter: float) -> Outline:
    """A flat ring round 0, 0 [mm].

    >>> round(annulus(38.05, 36.01).area, 4)
    118.6598
    """
    _positive(inside_diameter=inside_diameter)
    if outside_diameter <= inside_diameter:
        raise ValueError("outside_diameter must be more than inside_diameter")
    return Outline(disc(outside_diameter).segments, (disc(inside_diameter),))


def polygon(points: Sequence[Point]) -> Outline:
    """A polygon through its corners in order [mm]; the first isn't repeated."""
    if len(points) < 3:
        raise ValueError(f"a polygon needs three corners at least, not {len(points)}")
    following = [*points[1:], points[0]]
    sides = zip(points, following, strict=True)
    return Outline(
        tuple(Line((float(a[0]), float(a[1])), (float(b[0]), float(b[1]))) for a, b in sides)
    )


def _positive(**sizes: float) -> None:
    for name, size in sizes.items():
        if not (math.isfinite(size) and size > 0):
            raise ValueError(f"{name} must be more than 0 mm, not {size}")
