"""Sizes and areas of forms with plane faces."""

from __future__ import annotations

from typing import Any

from hollowright.quantity import formula
from hollowright.quantity.maths import cos, degree, pi, sin, sqrt, tan


@formula(
    "side",
    "mm",
    slips={
        "across corners taken for across flats": lambda sides, across: across * sin(pi / sides),
        "the whole taken for half of it": lambda sides, across: 2 * across * tan(pi / sides),
        "as if it were a hexagon": lambda sides, across: across * 0.577,
    },
)
def side(sides: Any, across: Any) -> Any:
    """Side of a regular polygon [mm].

    side = across x tan(pi / sides)

    sides: how many [1]; across: the flats, twice from the middle to a side [mm].
    Source: plane geometry.

    >>> round(side(5.0, 41.0), 3)
    29.788
    """
    return across * tan(pi / sides)


@formula(
    "across_corners",
    "mm",
    slips={
        "multiplied instead of divided": lambda sides, across: across * cos(pi / sides),
        "as if it were a square": lambda sides, across: across * 1.414,
    },
)
def across_corners(sides: Any, across: Any) -> Any:
    """Diameter of the circle round a regular polygon [mm].

    across corners = across / cos(pi / sides)

    sides: how many [1]; across: the flats [mm].
    Source: plane geometry.

    >>> round(across_corners(5.0, 41.0), 3)
    50.679
    """
    return across / cos(pi / sides)


@formula(
    "across_flats",
    "mm",
    "across the flats",
    slips={"divided instead of multiplied": lambda corners, edge: edge * tan(pi / corners)},
)
def across_flats(corners: Any, edge: Any) -> Any:
    """Twice the distance from the middle of a regular polygon to a side [mm].

    across = edge / tan(pi / corners)

    corners: how many [1]; edge: one side [mm].
    Source: plane geometry.

    >>> round(across_flats(5.0, 29.788), 3)
    41.0
    """
    return edge / tan(pi / corners)


@formula(
    "odd_height",
    "mm",
    slips={
        "across the flats taken": lambda sides, across: across,
        "across the corners taken": lambda sides, across: across / cos(pi / sides),
    },
)
def odd_height(sides: Any, across: Any) -> Any:
    """Height of a regular polygon with an odd number of sides, from a side to the corner [mm].

    height = across / 2 x (1 + 1 / cos(pi / sides))

    sides: odd [1]; across: the flats [mm].
    Source: plane geometry.

    >>> round(odd_height(5.0, 41.0), 3)
    45.839
    """
    return across / 2 * (1 + 1 / cos(pi / sides))


@formula(
    "odd_width",
    "mm",
    slips={"across the corners taken": lambda sides, across: across / cos(pi / sides)},
)
def odd_width(sides: Any, across: Any) -> Any:
    """Width of a regular polygon with an odd number of sides, standing on a side [mm].

    width = across x cos(pi / 2 / sides) / cos(pi / sides)

    sides: odd [1]; across: the flats [mm].
    Source: plane geometry.

    >>> round(odd_width(5.0, 41.0), 3)
    48.198
    """
    return across * cos(pi / 2 / sides) / cos(pi / sides)


@formula(
    "slant_height",
    "mm",
    slips={
        "the upright height taken": lambda base, top, height: height,
        "the whole difference across flats taken for one side's": (
            lambda base, top, height: sqrt((base - top) * (base - top) + height * height)
        ),
        "height and lean added": lambda base, top, height: height + (base - top) / 2,
    },
)
def slant_height(base: Any, top: Any, height: Any) -> Any:
    """Height of a wall along its middle [mm].

    slant = sqrt((base - top)^2 / 4 + height^2)

    base, top: across the flats, 0 for a pyramid's top [mm]; height: upright [mm].
    Source: Pythagoras.

    >>> round(slant_height(62.0, 41.0, 33.0), 3)
    34.63
    """
    return sqrt((base - top) * (base - top) / 4 + height * height)


@formula(
    "lateral_edge",
    "mm",
    slips={
        "the wall's middle taken": lambda slant, base, top: slant,
        "the sides' whole difference taken": (
            lambda slant, base, top: sqrt(slant * slant + (base - top) * (base - top))
        ),
    },
)
def lateral_edge(slant: Any, base: Any, top: Any) -> Any:
    """Length of the edge between two walls [mm].

    edge = sqrt(slant^2 + (base - top)^2 / 4)

    slant: height of a wall along its middle [mm]; base, top: its sides [mm], top 0 at a point.
    Source: Pythagoras.

    >>> round(lateral_edge(34.63, 45.05, 29.79), 3)
    35.461
    """
    return sqrt(slant * slant + (base - top) * (base - top) / 4)


@formula(
    "wall_area",
    "mm2",
    "area of a wall",
    slips={"the base's side taken for both": lambda base, top, slant: base * slant},
)
def wall_area(base: Any, top: Any, slant: Any) -> Any:
    """Area of a wall's outside [mm2].

    area = (base + top) / 2 x slant

    base, top: its sides [mm], top 0 at a point; slant: its height [mm].
    Source: area of a trapezium.

    >>> round(wall_area(45.05, 29.79, 34.63), 2)
    1295.85
    """
    return (base + top) / 2 * slant


@formula(
    "polygon_area",
    "mm2",
    slips={
        "across corners taken for across flats": lambda n, a: n * sin(2 * pi / n) / 8 * a * a,
        "the square on it taken": lambda n, a: a * a + 0 * n,
    },
)
def polygon_area(sides: Any, across: Any) -> Any:
    """Area of a regular polygon [mm2].

    area = sides x tan(pi / sides) / 4 x across^2

    sides: how many [1]; across: the flats [mm].
    Source: plane geometry.

    >>> round(polygon_area(5.0, 41.0), 2)
    1526.65
    """
    return sides * tan(pi / sides) / 4 * across * across


@formula(
    "inradius",
    "mm",
    "from the middle to a face",
    slips={
        "the whole dihedral taken": lambda p, e, d: e / 2 * tan(d * degree) / tan(pi / p),
        "the edge taken for half of it": lambda p, e, d: e * tan(d * degree / 2) / tan(pi / p),
    },
)
def inradius(corners: Any, edge: Any, dihedral: Any) -> Any:
    """Distance from a regular solid's middle to a face [mm].

    inradius = edge / 2 x tan(dihedral x degree / 2) / tan(pi / corners)

    corners: of one face [1]; edge [mm]; dihedral [deg].
    Source: Coxeter, Regular Polytopes, 2.4.

    >>> round(inradius(3.0, 23.7, 109.471221), 3)
    9.675
    """
    return edge / 2 * tan(dihedral * degree / 2) / tan(pi / corners)


@formula(
    "edge",
    "mm",
    slips={
        "across the flats taken for half of it": (
            lambda p, w, d: 2 * w * tan(pi / p) / tan(d * degree / 2)
        ),
        "as if it were a cube": lambda p, w, d: w,
    },
)
def edge_of(corners: Any, across: Any, dihedral: Any) -> Any:
    """Edge of a regular solid from its width between opposite faces [mm].

    edge = across x tan(pi / corners) / tan(dihedral x degree / 2)

    corners: of one face [1]; across: between opposite faces [mm]; dihedral [deg].
    Source: Coxeter, Regular Polytopes, 2.4.

    >>> round(edge_of(3.0, 19.35, 109.471221), 3)
    23.699
    """
    return across * tan(pi / corners) / tan(dihedral * degree / 2)


@formula(
    "seam_length",
    "mm",
    slips={
        "one seam taken for all": lambda count, each: each,
    },
)
def seams_length(count: Any, each: Any) -> Any:
    """Length of several equal seams [mm].

    length = count x each

    count: how many [1]; each: length of one [mm].
    Source: addition.

    >>> round(seams_length(6.0, 41.3), 1)
    247.8
    """
    return count * each


@formula(
    "width_over_faces",
    "mm",
    "width between opposite faces",
    slips={"the distance from the middle taken": lambda inradius: inradius},
)
def between_faces(inradius: Any) -> Any:
    """Width of a regular solid between opposite faces [mm]; a tetrahedron has none.

    width = 2 x inradius

    inradius: from the middle to a face [mm].
    Source: plane geometry.

    >>> round(between_faces(9.675), 2)
    19.35
    """
    return 2 * inradius


@formula("area", "mm2", slips={"one face taken for all": lambda count, each: each})
def faces_area(count: Any, each: Any) -> Any:
    """Area of several equal faces [mm2].

    area = count x each

    count: how many [1]; each: area of one [mm2].
    Source: addition.

    >>> round(faces_area(6.0, 41.3), 1)
    247.8
    """
    return count * each
