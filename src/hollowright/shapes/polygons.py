"""The door to the polygon library: where outlines cross, and which lies inside which."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from functools import reduce
from typing import Any

import numpy as np
import numpy.typing as npt
import shapely

from hollowright.shapes.curves import Line, Point
from hollowright.shapes.outline import Outline

Numbers = npt.NDArray[np.float64]

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


def reaching(outline: Outline, boxes: Sequence[Sequence[Point]]) -> list[bool]:
    """Which of these boxes (four corners each) an outline's metal reaches into, holes left out."""
    metal = as_polygon(outline, 0.05)
    shapely.prepare(metal)
    shapes = shapely.polygons([list(box) for box in boxes]) if boxes else []
    return [bool(each) for each in shapely.intersects(metal, shapes)]


def grown_corners(outline: Outline, distance: float, slack: float = 0.02) -> tuple[Point, ...]:
    """A polygon of few corners [mm] round all that lies within a distance of an outline's inside.

    Holes are left out. It lies outside the true curves everywhere, by `slack` at most where the
    edge is straight or hollow, and a little more beyond sharp corners, which are mitred; only
    straight edges are grown by `distance` alone.
    """
    straight = all(isinstance(segment, Line) for segment in outline.segments)
    off = 0.0 if straight else slack
    shape = shapely.Polygon(outline.points(off / 2 or FINE))
    if not straight:
        shape = shape.simplify(off / 2)
    around = shape.buffer(distance + off, join_style="mitre", mitre_limit=2.0)
    low_x, low_y, high_x, high_y = outline.bounds
    box = shapely.box(low_x - distance, low_y - distance, high_x + distance, high_y + distance)
    clipped = shapely.get_parts(shapely.Polygon(around.exterior).intersection(box))
    within = max(clipped, key=shapely.area)
    return tuple((float(x), float(y)) for x, y in within.exterior.coords[:-1])


def grown_area(outline: Outline, by: float) -> float:
    """The area within a distance [mm] of an outline's face [mm2], never reckoned too large."""
    return float(as_polygon(outline).buffer(by).area)


def rests(
    sheet: Outline, taken: Sequence[Outline], gap: float, least: float
) -> list[list[list[Point]]]:
    """What is left of a sheet when outlines with a gap [mm] round each are taken out of it.

    Places narrower than `least` [mm] are left out. Each rest: the corners of its outer edge,
    anticlockwise, then of its holes, clockwise. All of it is clear of what is taken by the gap,
    and by a little more where that spares corners; and it lies inside the sheet.
    """
    slack = max(0.1, least / 50)
    coarse = slack / 4
    grown_each = [as_polygon(one, coarse).buffer(gap + 2 * slack, quad_segs=4) for one in taken]
    round_each = [one.simplify(coarse) for one in grown_each]
    if all(isinstance(s, Line) for ring in (sheet, *sheet.holes) for s in ring.segments):
        whole = as_polygon(sheet)
    else:
        whole = as_polygon(sheet).buffer(-2 * coarse).simplify(coarse)
    free = whole.difference(shapely.union_all(round_each))
    eroded = free.buffer(-least / 2, quad_segs=3).simplify(slack)
    opened = eroded.buffer(least / 2, join_style="mitre", mitre_limit=2.0)
    thin = free.intersection(opened).simplify(coarse).intersection(whole)
    parts = [part for part in shapely.get_parts(thin) if isinstance(part, shapely.Polygon)]
    wide = [part for part in parts if part.area and not part.buffer(-0.499 * least).is_empty]
    return [_corners_of(shapely.orient_polygons(part)) for part in wide]


def _corners_of(shape: shapely.Polygon) -> list[list[Point]]:
    rings = (shape.exterior, *shape.interiors)
    return [[(float(x), float(y)) for x, y in ring.coords[:-1]] for ring in rings]


# ---- Areas: polygons that are kept as such while flats are laid out -----------------------------

Area = Any
"""A polygon, or several, or none, of the polygon library; only this file looks inside."""

GRID = 1e-7
"""To what corners are rounded where the library can't tell sides apart [mm]."""

MITRE = 1.5  # a corner of a grown area sticks out by no more than this times the growth


def area_of(outline: Outline, tolerance: float = FINE, filled: bool = False) -> Area:
    """An outline as an area on its curves, within a tolerance [mm]; holes closed if `filled`."""
    whole = Outline(outline.segments) if filled else outline
    found = as_polygon(whole, tolerance)
    return found if found.is_valid else shapely.make_valid(found)


def box_of(low_x: float, low_y: float, high_x: float, high_y: float) -> Area:
    """A rectangle as an area [mm]."""
    return shapely.box(low_x, low_y, high_x, high_y)


def grown(area: Area, by: float) -> Area:
    """An area grown all round by at least this [mm], a little more at its corners; less: shrunk."""
    return shapely.buffer(area, by, join_style="mitre", mitre_limit=MITRE) if by else area


def shrunk(area: Area, by: float) -> Area:
    """What is left of an area when at least this [mm] is taken off all round."""
    around = shapely.box(*_wider(area.bounds, 1.0 + 4 * by)) if not area.is_empty else area
    return (
        area if by == 0 else shapely.difference(area, grown(shapely.difference(around, area), by))
    )


def _wider(bounds: Sequence[float], by: float) -> tuple[float, float, float, float]:
    low_x, low_y, high_x, high_y = bounds
    return (low_x - by, low_y - by, high_x + by, high_y + by)


def shifted(area: Area, dx: float, dy: float) -> Area:
    """An area shifted [mm]."""
    way = np.array((dx, dy))
    return shapely.transform(area, lambda points: points + way)


def turned(area: Area, cosine: float, sine: float, mirrored: bool = False) -> Area:
    """An area turned over (x becomes -x) if mirrored, then turned round 0, 0."""
    matrix = np.array(((cosine, sine), (-sine, cosine)))
    if mirrored:
        matrix[0] = -matrix[0]
    return shapely.transform(area, lambda points: points @ matrix)


def together(areas: Sequence[Area]) -> Area:
    """All areas as one; where the library can't tell, their hull: never less."""
    try:
        return _soundly(shapely.union_all, areas)
    except shapely.errors.GEOSException:
        return hull_of(shapely.GeometryCollection(list(areas)))


def less(area: Area, other: Area) -> Area:
    """An area without another; where the library can't tell, nothing: never more."""
    try:
        return _soundly(shapely.difference, area, other)
    except shapely.errors.GEOSException:
        return shapely.Polygon()


def common(area: Area, other: Area) -> Area:
    """What two areas share."""
    return _soundly(shapely.intersection, area, other)


def shared(areas: Sequence[Area]) -> Area:
    """What all areas share."""
    return reduce(common, areas)


def _soundly(work: Callable[..., Area], *areas: Any) -> Area:
    """What areas make; where sides fall together too finely to be told apart, on a grid of GRID.

    Areas that turning has made cross themselves by a hair are mended first, if it comes to that.
    """
    for grid in (None, GRID, 10 * GRID, 100 * GRID):
        try:
            found = work(*areas, grid_size=grid)
        except shapely.errors.GEOSException:
            areas = tuple(_mended(each) for each in areas)
            continue
        if shapely.is_valid(found):
            return found
    return _mended(work(*areas, grid_size=1000 * GRID))


def _mended(areas: Any) -> Any:
    return shapely.make_valid(areas, method="structure", keep_collapsed=False)


def corners_of(area: Area) -> Numbers:
    """Every corner of an area, holes included [mm]; (n, 2)."""
    return np.asarray(shapely.get_coordinates(area), dtype=float)


def parts_of(area: Area) -> list[Area]:
    """The polygons that an area is of."""
    parts = shapely.get_parts(area)
    return [each for each in parts if each.geom_type == "Polygon" and not each.is_empty]


def polygons_of(rings: Sequence[Numbers]) -> list[Area]:
    """Polygons of their corners [mm]; each (k, 2)."""
    sizes = [len(ring) for ring in rings]
    which = np.repeat(np.arange(len(rings)), sizes)
    closed = shapely.linearrings(np.concatenate(rings), indices=which)
    return list(shapely.polygons(closed))


def hull_of(area: Area) -> Area:
    """The convex hull of an area."""
    return shapely.convex_hull(area)


def nearer_than(areas: Sequence[Area], distance: float) -> list[tuple[int, int]]:
    """Pairs of areas (their numbers, the lesser first) nearer each other than this [mm]."""
    tree = shapely.STRtree(areas)
    found = tree.query(areas, predicate="dwithin", distance=distance).T
    return sorted((int(a), int(b)) for a, b in found if a < b)


def apart(a: Area, b: Area) -> float:
    """How far two areas are apart [mm]; 0 when they meet."""
    return float(shapely.distance(a, b))


def covers(around: Area, area: Area) -> bool:
    """Whether an area lies wholly in another, at most touching its edge."""
    return bool(shapely.covers(around, area))


def from_edge(area: Area, around: Area) -> float:
    """How far an area inside another stays from every edge of that one [mm]."""
    return float(shapely.distance(area, shapely.boundary(around)))


def rings_of(area: Area) -> list[Numbers]:
    """The corners of a polygon's outer edge, then of each hole [mm]; none is repeated."""
    rings = (area.exterior, *area.interiors)
    return [shapely.get_coordinates(ring)[:-1] for ring in rings]


def apart_area(a: Area, b: Area) -> float:
    """The area that only one of two covers [mm2]."""
    return float(shapely.symmetric_difference(a, b).area)


def overlapping(rings: Sequence[Sequence[Point]], area: float) -> bool:
    """Whether any two polygons, by their corners [mm], share more than an area [mm2]."""
    shapes = [shapely.Polygon(ring) for ring in rings]
    pairs = shapely.STRtree(shapes).query(shapes, predicate="intersects").T
    return any(
        first < second and shapes[first].intersection(shapes[second]).area > area
        for first, second in pairs
    )


def narrowest(outline: Outline, tolerance: float = 0.01) -> float:
    """The least distance of two parallel lines with an outline between [mm], never too large."""
    hull = as_polygon(outline, tolerance).convex_hull
    corners = np.array(hull.exterior.coords)
    sides = np.diff(corners, axis=0)
    normals = np.stack((-sides[:, 1], sides[:, 0]), axis=1)
    normals /= np.hypot(sides[:, 0], sides[:, 1])[:, None]
    across = corners @ normals.T
    return float((across.max(axis=0) - across.min(axis=0)).min())


def meeting_at(moved: Numbers, laid: Numbers, shifts: Numbers, area: float) -> list[bool]:
    """For each shift of one polygon whether it shares more than an area with another [mm2].

    moved, laid: their corners, (n, 2) [mm]; shifts: (k, 2).
    """
    shapes = shapely.polygons(moved[None] + shifts[:, None])
    under = shapely.Polygon(laid)
    shapely.prepare(under)
    near = np.flatnonzero(shapely.intersects(under, shapes))
    shared = np.zeros(len(shapes))
    shared[near] = shapely.area(shapely.intersection(shapes[near], under))
    return [bool(each) for each in shared > area]


def covering(corners: Numbers, x: Numbers, y: Numbers) -> npt.NDArray[np.bool_]:
    """Which points lie inside a polygon, not on its edge."""
    return np.asarray(shapely.contains_xy(shapely.Polygon(corners), x, y))
