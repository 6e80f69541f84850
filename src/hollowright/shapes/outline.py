"""Closed outlines of flat things: area, perimeter, size and polygon, with arcs kept as arcs."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from hollowright.shapes import along
from hollowright.shapes.curves import TURN, Arc, Bounds, Curve, Line, Point, around, union
from hollowright.shapes.moments import moments

MEETING = 1e-9  # relative to the size of the outline's corners: how near is the same point


@dataclass(frozen=True, slots=True)
class Tightest:
    """The least radius of curvature [mm] and its place [mm]."""

    radius: float
    at: Point


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
        starts = [segment.start for segment in self.segments]
        low_x, low_y, high_x, high_y = around(starts)
        near = MEETING * max(1.0, high_x - low_x, high_y - low_y, abs(low_x), abs(low_y))
        for before, after in zip(self.segments, starts[1:] + starts[:1], strict=True):
            end = before.end
            if math.dist(end, after) > near:
                raise ValueError(f"the outline has a gap between {end} and {after}")

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
        return sum(along.length(segment) for segment in self.segments)

    @property
    def anticlockwise(self) -> bool:
        """Whether the outer edge runs anticlockwise."""
        return sum(segment.moment() for segment in self.segments) > 0

    @property
    def centroid(self) -> Point:
        """Centre of the area, holes left out [mm], exact."""
        area, x, y = moments(self.segments)
        for hole in self.holes:
            less, hole_x, hole_y = moments(hole.segments)
            area, x, y = area - less, x - hole_x, y - hole_y
        return (x / area, y / area)

    @property
    def turns(self) -> tuple[float, ...]:
        """Turn at the start of each curve, from the one before it [rad]; left positive."""
        segments = self.segments
        if len(segments) == 1:
            return (_turn(segments[0], segments[0]),)
        return tuple(_turn(segments[i - 1], segments[i]) for i in range(len(segments)))

    @property
    def convex(self) -> bool:
        """Whether the outer edge bears one way only, corners included."""
        side = 1 if self.anticlockwise else -1
        if any(side * turn < -1e-9 for turn in self.turns):
            return False
        return all(along.sharpest(s, -side)[0] <= 1e-9 / self.size for s in self.segments)

    @property
    def size(self) -> float:
        """The greater of width and height [mm]."""
        return max(self.width, self.height)

    def tightest(self, hollow: bool = False) -> Tightest:
        """Where the outer edge is bent tightest: outwards (convex), or inwards when `hollow`.

        Sharp corners are not bends; without any bend that way the radius is infinite.
        """
        side = 1 if self.anticlockwise != hollow else -1
        found = [(*along.sharpest(s, side), s) for s in self.segments]
        bend, u, segment = max(found, key=lambda entry: entry[0])
        radius = 1 / bend if bend > 0 else math.inf
        return Tightest(radius, along.place(segment, u))

    def point_at(self, distance: float) -> Point:
        """The point at a distance [mm] along the outer edge from its start, round and round."""
        segment, u = self.at_length(distance)
        return along.place(segment, u)

    def at_length(self, distance: float) -> tuple[Curve, float]:
        """The curve and its u (0 to 1) at a distance [mm] along the outer edge."""
        lengths = [along.length(segment) for segment in self.segments]
        rest = distance % sum(lengths)
        for segment, piece in zip(self.segments, lengths, strict=True):
            if rest <= piece:
                return segment, along.at_length(segment, rest)
            rest -= piece
        return self.segments[-1], 1.0

    def reversed(self) -> Outline:
        """The same outline run the other way round, from the same point; holes are left alone."""
        return Outline(tuple(along.reverse(s) for s in reversed(self.segments)), self.holes)

    def run_anticlockwise(self) -> Outline:
        """The same outline with its outer edge anticlockwise."""
        return self if self.anticlockwise else self.reversed()

    def started_at(self, distance: float) -> Outline:
        """The same outline begun at a distance [mm] along its edge: where a strip's seam sits."""
        segment, u = self.at_length(distance)
        number = next(i for i, s in enumerate(self.segments) if s is segment)
        before, after = self.segments[:number], self.segments[number + 1 :]
        if len(self.segments) == 1:
            return Outline((along.rolled(segment, u),), self.holes)
        if u * along.length(segment) < MEETING * self.size:
            return Outline((segment, *after, *before), self.holes)
        if (1 - u) * along.length(segment) < MEETING * self.size:
            return Outline((*after, *before, segment), self.holes)
        first, last = along.part(segment, u, 1.0), along.part(segment, 0.0, u)
        return Outline((first, *after, *before, last), self.holes)

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
    positive(width=width, height=height)
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
    positive(diameter=diameter)
    return Outline((Arc((0.0, 0.0), diameter / 2, 0.0, TURN),))


def annulus(outside_diameter: float, inside_diameter: float) -> Outline:
    """A flat ring round 0, 0 [mm].

    >>> round(annulus(38.05, 36.01).area, 4)
    118.6598
    """
    positive(inside_diameter=inside_diameter)
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


def positive(**sizes: float) -> None:
    """ValueError for a size [mm] that isn't a number above 0, named by its keyword."""
    for name, size in sizes.items():
        if not (math.isfinite(size) and size > 0):
            raise ValueError(f"{name} must be more than 0 mm, not {size}")


def _turn(before: Curve, after: Curve) -> float:
    """Turn from the end of one curve to the start of the next [rad], -pi to pi."""
    turn = math.remainder(along.heading(after, 0.0) - along.heading(before, 1.0), TURN)
    return 0.0 if abs(turn) < 1e-9 else turn
