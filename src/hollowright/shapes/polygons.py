"""The door to the polygon library: where outlines cross, and which lies inside which."""

from __future__ import annotations

import re
from collections.abc import Sequence

import shapely

from hollowright.shapes.curves import Point
from hollowright.shapes.outline import Outline

FINE = 0.002  # how far the polygons that are compared may lie off the curves [mm]


def as_polygon(outline: Outline, tolerance: float = FINE) -> shapely.Polygon:
    """An outline with its holes as a polygon on the curves, within a tolerance [mm]."""
    holes = [hole.points(tolerance) for hole in outline.holes]
    return shapely.Polygon(outline.points(tolerance), holes)


def crossing(outline: Outline, tolerance: float = FINE) -> Point | None:
    """A place [mm] where the outer edge crosses or touches itself; None when it doesn't."""
    corners = outline.points(tolerance)
    if len(set(corners)) < 3:
        return corners[0]
    reason = shapely.is_valid_reason(shapely.Polygon(corners))
    found = re.search(r"\[(\S+) (\S+)\]", str(reason))
    return (float(found[1]), float(found[2])) if found else None


def meeting(a: Outline, b: Outline, tolerance: float = FINE) -> Point | None:
    """A place [mm] where the outer edges of two outlines meet; None when they are apart."""
    rings = [shapely.LinearRing(outline.points(tolerance)) for outline in (a, b)]
    shared = shapely.intersection(*rings)
    if shared.is_empty:
        return None
    point = shared.representative_point()
    return (point.x, point.y)


def inside(inner: Outline, outer: Outline, tolerance: float = FINE) -> bool:
    """Whether an outline lies within the outer edge of another."""
    around = shapely.Polygon(outer.points(tolerance))
    return bool(around.contains(shapely.Polygon(inner.points(tolerance))))


def with_holes(solids: Sequence[Outline], hollows: Sequence[Outline]) -> tuple[Outline, ...]:
    """Each solid with the hollows that lie in it.

    ValueError for a hollow that runs over a solid's edge or into another hollow.
    """
    _apart(solids, hollows)
    found = []
    for solid in solids:
        holes = tuple(hole for hole in hollows if inside(hole, solid))
        found.append(Outline(solid.segments, holes))
    return tuple(found)


def _apart(solids: Sequence[Outline], hollows: Sequence[Outline]) -> None:
    for i, hole in enumerate(hollows):
        for other in (*solids, *hollows[i + 1 :]):
            place = meeting(hole, other)
            if place:
                x, y = place
                raise ValueError(f"a hole runs into another edge at x {x:.2f}, y {y:.2f}")


def thinned(points: Sequence[Point], tolerance: float) -> tuple[Point, ...]:
    """A line by fewer of its points, none left out that lies further off than this [mm]."""
    return tuple(shapely.LineString(points).simplify(tolerance, preserve_topology=False).coords)


def triangles(rings: Sequence[Sequence[Point]]) -> list[tuple[int, int, int]]:
    """A polygon with holes cut into triangles that are as stout as can be (constrained Delaunay).

    rings: the corners of the outer edge [mm], then those of each hole, either way round. Triangles
    are anticlockwise, of corner numbers counted through all rings in turn. ValueError when the
    rings cross or touch.
    """
    corners = [point for ring in rings for point in ring]
    shape = shapely.Polygon(rings[0], rings[1:])
    if not shape.is_valid:
        raise ValueError(f"edges cross or touch: {shapely.is_valid_reason(shape)}")
    numbers = {(float(x), float(y)): i for i, (x, y) in enumerate(corners)}
    found = []
    for part in shapely.get_parts(shapely.constrained_delaunay_triangles(shape)):
        a, b, c = (numbers[x, y] for x, y in part.exterior.coords[:3])
        found.append((a, b, c) if _left(corners[a], corners[b], corners[c]) else (a, c, b))
    return found


def _left(a: Point, b: Point, c: Point) -> bool:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]) > 0


def holding(
    outline: Outline,
    boxes: Sequence[Sequence[Point]],
    lines: Sequence[Sequence[Point]] = (),
    tolerance: float = 0.05,
) -> list[bool]:
    """Which of these boxes (four corners each) lie within an outline, clear of its holes and lines.

    tolerance: how far the polygon that is compared with may lie off the curves [mm].
    """
    if not boxes:
        return []
    free = as_polygon(outline, tolerance)
    shapely.prepare(free)
    shapes = shapely.polygons([list(box) for box in boxes])
    held = shapely.contains(free, shapes)
    if lines:
        drawn = shapely.MultiLineString([list(line) for line in lines])
        shapely.prepare(drawn)
        held = held & ~shapely.intersects(drawn, shapes)
    return [bool(each) for each in held]


def deepest(outline: Outline, tolerance: float = 0.1) -> Point:
    """The point that lies furthest from an outline's edges, holes included [mm]."""
    widest = shapely.maximum_inscribed_circle(as_polygon(outline, tolerance), tolerance)
    x, y = widest.coords[0]
    return (float(x), float(y))
