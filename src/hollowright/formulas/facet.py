"""Angles between plane faces: dihedrals, bevels, grooves and mitres of prisms, pyramids, solids."""

from __future__ import annotations

from typing import Any

from hollowright.quantity import formula
from hollowright.quantity.maths import acos, asin, atan, cos, degree, pi, sin, sqrt, tan


@formula(
    "dihedral_base",
    "deg",
    "dihedral at the base",
    slips={
        "the whole difference across flats taken for one side's": (
            lambda base, top, height: (
                acos((base - top) / sqrt((base - top) * (base - top) + height * height)) / degree
            )
        ),
        "the slope from upright taken instead of from flat": (
            lambda base, top, height: (
                90
                - acos((base - top) / sqrt((base - top) * (base - top) + 4 * height * height))
                / degree
            )
        ),
        "the other end's angle taken": (
            lambda base, top, height: (
                180
                - acos((base - top) / sqrt((base - top) * (base - top) + 4 * height * height))
                / degree
            )
        ),
    },
)
def base_dihedral(base: Any, top: Any, height: Any) -> Any:
    """Angle inside between the base and a wall [deg]: the wall's slope from flat.

    dihedral = acos((base - top) / sqrt((base - top)^2 + 4 x height^2)) / degree

    base, top: across the flats, 0 for a pyramid's top [mm]; height: upright [mm], over 0.
    Source: plane geometry.

    >>> round(base_dihedral(100.0, 0.0, 50.0), 6), round(base_dihedral(62.0, 41.0, 33.0), 3)
    (45.0, 72.35)
    """
    run = base - top
    return acos(run / sqrt(run * run + 4 * height * height)) / degree


@formula(
    "dihedral_top",
    "deg",
    "dihedral at the top",
    slips={
        "the base's angle taken": lambda slope: slope,
        "the slope from upright added to square once more": lambda slope: 90 + slope,
    },
)
def top_dihedral(slope: Any) -> Any:
    """Angle inside between a wall and a flat top [deg].

    dihedral = 180 - slope

    slope: dihedral at the base [deg].
    Source: plane geometry: base and top are parallel.

    >>> round(top_dihedral(72.35), 2)
    107.65
    """
    return 180 - slope


@formula(
    "dihedral",
    "deg",
    "dihedral of the walls",
    slips={
        "the base's corner taken, as if the walls stood upright": (
            lambda sides, slope: 180 - 360 / sides
        ),
        "the slope of the corner's edge taken instead of the wall's": (
            lambda sides, slope: (
                180
                - 2
                * asin(sin(pi / sides) * sin(atan(tan(slope * degree) * cos(pi / sides))))
                / degree
            )
        ),
        "the groove's angle taken": (
            lambda sides, slope: 2 * asin(sin(pi / sides) * sin(slope * degree)) / degree
        ),
        "the slope's cosine taken instead of its sine": (
            lambda sides, slope: 180 - 2 * asin(sin(pi / sides) * cos(slope * degree)) / degree
        ),
        "one bevel taken off instead of two": (
            lambda sides, slope: 180 - asin(sin(pi / sides) * sin(slope * degree)) / degree
        ),
    },
)
def wall_dihedral(sides: Any, slope: Any) -> Any:
    """Angle inside between two neighbouring walls on a regular base [deg].

    dihedral = 180 - 2 x asin(sin(pi / sides) x sin(slope x degree)) / degree

    sides: how many [1]; slope: of the walls from flat [deg], 90 for upright ones.
    Source: the angle between the walls' normals; common compound-mitre rule.

    >>> round(wall_dihedral(7.0, 61.3), 3), round(wall_dihedral(4.0, 45.0), 6)
    (135.261, 120.0)
    """
    return 180 - 2 * asin(sin(pi / sides) * sin(slope * degree)) / degree


@formula(
    "dihedral",
    "deg",
    "dihedral of the edges",
    slips={
        "the groove's angle taken": (
            lambda corners, meeting: 180 - 2 * asin(cos(pi / meeting) / sin(pi / corners)) / degree
        ),
        "half of it taken": (
            lambda corners, meeting: asin(cos(pi / meeting) / sin(pi / corners)) / degree
        ),
        "the face's own corner taken": lambda corners, meeting: 180 - 360 / corners,
        "the solid's opposite taken": (
            lambda corners, meeting: 2 * asin(cos(pi / corners) / sin(pi / meeting)) / degree
        ),
    },
)
def regular_dihedral(corners: Any, meeting: Any) -> Any:
    """Angle inside between two faces of a regular solid [deg].

    dihedral = 2 x asin(cos(pi / meeting) / sin(pi / corners)) / degree

    corners: of one face [1]; meeting: how many faces meet at a corner of the solid [1].
    Source: Coxeter, Regular Polytopes, 2.4.

    >>> round(regular_dihedral(3.0, 4.0), 6), round(regular_dihedral(5.0, 3.0), 6)
    (109.471221, 116.565051)
    """
    return 2 * asin(cos(pi / meeting) / sin(pi / corners)) / degree


@formula(
    "bevel",
    "deg",
    slips={
        "half of the dihedral taken": lambda dihedral: dihedral / 2,
        "the whole groove taken": lambda dihedral: 180 - dihedral,
        "taken from square without halving": lambda dihedral: dihedral - 90,
    },
)
def bevel(dihedral: Any) -> Any:
    """Bevel of a mitred edge, from square [deg]: each of the two plates is filed so much.

    bevel = (180 - dihedral) / 2

    dihedral: angle inside between the faces [deg].
    Source: plane geometry: the mitre halves the dihedral.

    >>> bevel(109.5), bevel(70.5)
    (35.25, 54.75)
    """
    return (180 - dihedral) / 2


@formula(
    "bevel",
    "deg",
    "bevel of an open edge",
    slips={
        "bevelled as for a mitre": lambda dihedral: (180 - dihedral) / 2,
        "the dihedral taken": lambda dihedral: dihedral,
    },
)
def open_bevel(dihedral: Any) -> Any:
    """Bevel of an edge that stands on an open end, from square [deg]; under 0 it leans outwards.

    bevel = 90 - dihedral

    dihedral: angle inside between the wall and the end's plane [deg].
    Source: plane geometry: the edge is filed flush with the plane.

    >>> open_bevel(72.25)
    17.75
    """
    return 90 - dihedral


@formula(
    "wall_mitre",
    "deg",
    "mitre across a wall",
    slips={
        "the mitre of a flat frame taken": lambda sides, slope: 180 / sides,
        "the slope's sine taken instead of its cosine": (
            lambda sides, slope: atan(tan(pi / sides) * sin(slope * degree)) / degree
        ),
        "the bevel taken": (
            lambda sides, slope: asin(sin(pi / sides) * sin(slope * degree)) / degree
        ),
    },
)
def wall_mitre(sides: Any, slope: Any) -> Any:
    """How far a wall's end leans from square across its face [deg].

    mitre = atan(tan(pi / sides) x cos(slope x degree)) / degree

    sides: how many [1]; slope: of the walls from flat [deg], 90 for upright ones.
    Source: the compound-mitre rule of sloping sides.

    >>> round(wall_mitre(6.0, 60.0), 2), round(wall_mitre(5.0, 45.0), 2)
    (16.1, 27.19)
    """
    return atan(tan(pi / sides) * cos(slope * degree)) / degree


@formula(
    "mitre_width", "mm", slips={"the sheet's thickness taken": lambda thickness, bevel: thickness}
)
def mitre_width(thickness: Any, bevel: Any) -> Any:
    """Width of a bevelled edge, along which it is soldered [mm].

    width = thickness / cos(bevel x degree)

    thickness: of the sheet [mm]; bevel: from square [deg].
    Source: plane geometry.

    >>> round(mitre_width(0.81, 35.25), 3)
    0.992
    """
    return thickness / cos(bevel * degree)
