"""Hollows and weights of forms with plane faces."""

from __future__ import annotations

from typing import Any

from hollowright.quantity import formula
from hollowright.quantity.maths import cos, degree, pi, sin, tan


@formula(
    "volume",
    "mm3",
    slips={
        "the mean of both areas taken": (
            lambda n, a, b, h: n * tan(pi / n) / 8 * h * (a * a + b * b)
        ),
        "the mean across flats taken": (
            lambda n, a, b, h: n * tan(pi / n) / 16 * h * (a + b) * (a + b)
        ),
    },
)
def frustum_volume(sides: Any, base: Any, top: Any, height: Any) -> Any:
    """Volume between two regular polygons of the same number of sides [mm3].

    volume = sides x tan(pi / sides) / 12 x height x (base^2 + base x top + top^2)

    sides: how many [1]; base, top: across the flats, 0 at a point [mm]; height [mm].
    Source: volume of a frustum.

    >>> round(frustum_volume(5.0, 41.0, 27.5, 33.0), 1)
    35611.7
    """
    return sides * tan(pi / sides) / 12 * height * (base * base + base * top + top * top)


@formula(
    "inside_across",
    "mm",
    "across the flats inside",
    slips={
        "the thickness taken off once": (
            lambda outside, thickness, up, slope: (
                outside - (thickness + 2 * up * cos(slope * degree)) / sin(slope * degree)
            )
        ),
        "the thickness taken level, not square to the wall": (
            lambda outside, thickness, up, slope: (
                outside - 2 * thickness - 2 * up * cos(slope * degree) / sin(slope * degree)
            )
        ),
    },
)
def inside_across(outside: Any, thickness: Any, up: Any, slope: Any) -> Any:
    """Across the flats inside, so far in from an end [mm].

    inside = outside - 2 x (thickness + up x cos(slope x degree)) / sin(slope x degree)

    outside: across the flats at the end [mm]; thickness: of the walls [mm]; up: from the end
    inwards [mm]; slope: dihedral at that end [deg].
    Source: plane geometry: the walls moved in square to themselves.

    >>> round(inside_across(62.0, 0.8, 1.3, 72.35), 3)
    59.494
    """
    return outside - 2 * (thickness + up * cos(slope * degree)) / sin(slope * degree)


@formula(
    "inside_height",
    "mm",
    slips={
        "one thickness taken off": lambda height, thickness, ends: height - thickness + 0 * ends,
        "no thickness taken off": lambda height, thickness, ends: height + 0 * thickness * ends,
    },
)
def inside_height(height: Any, thickness: Any, ends: Any) -> Any:
    """Height inside between base and top [mm].

    height inside = height - ends x thickness

    height: outside [mm]; thickness: of the sheet [mm]; ends: how many of both are closed [1].
    Source: plane geometry.

    >>> round(inside_height(33.0, 0.81, 2.0), 2)
    31.38
    """
    return height - ends * thickness


@formula(
    "inside_height",
    "mm",
    slips={
        "the outside less one thickness taken": lambda across, slope: (
            across / 2 * sin(slope * degree)
        ),
        "across the flats taken for half of it": lambda across, slope: across * tan(slope * degree),
    },
)
def point_height(across: Any, slope: Any) -> Any:
    """Height of the hollow of a pyramid up to its point [mm].

    height inside = across / 2 x tan(slope x degree)

    across: the flats inside, at its floor [mm]; slope: of the walls [deg].
    Source: plane geometry.

    >>> round(point_height(59.81, 63.2), 3)
    59.202
    """
    return across / 2 * tan(slope * degree)


@formula(
    "volume",
    "mm3",
    slips={
        "the third forgotten": lambda faces, corners, edge, inradius: (
            faces * corners * edge * edge / 4 / tan(pi / corners) * inradius
        ),
    },
)
def regular_volume(faces: Any, corners: Any, edge: Any, inradius: Any) -> Any:
    """Volume of a regular solid [mm3].

    volume = faces x corners x edge^2 / 12 / tan(pi / corners) x inradius

    faces: how many; corners: of one face [1]; edge; inradius: from the middle to a face [mm].
    Source: pyramids from the middle to the faces.

    >>> round(regular_volume(8.0, 3.0, 23.7, 9.676), 1)
    6275.7
    """
    return faces * corners * edge * edge / 12 / tan(pi / corners) * inradius


@formula(
    "inside_edge",
    "mm",
    slips={
        "two thicknesses taken off the edge": lambda e, r, t: e - 2 * t + 0 * r,
        "the thickness taken off twice": lambda e, r, t: e * (r - 2 * t) / r,
    },
)
def inside_edge(edge: Any, inradius: Any, thickness: Any) -> Any:
    """Edge of a regular solid's hollow [mm].

    inside edge = edge x (inradius - thickness) / inradius

    edge, inradius: outside [mm]; thickness: of the sheet [mm], under the inradius.
    Source: the hollow is the same solid, smaller.

    >>> round(inside_edge(23.7, 9.676, 0.81), 3)
    21.716
    """
    return edge * (inradius - thickness) / inradius


@formula(
    "opening_across",
    "mm",
    "across the flats of the opening",
    slips={
        "as if the walls stood upright": lambda inside, thickness, dihedral: inside + 0 * thickness,
    },
)
def opening_across(inside: Any, thickness: Any, dihedral: Any) -> Any:
    """Across the flats inside, where a face is left open [mm].

    across = inside + 2 x thickness x cos(dihedral x degree) / sin(dihedral x degree)

    inside: of the hollow's own face, one thickness further in [mm]; thickness [mm]; dihedral [deg].
    Source: plane geometry: the hollow's faces carried on through the opening.

    >>> round(opening_across(21.7, 0.81, 116.565), 3)
    20.89
    """
    return inside + 2 * thickness * cos(dihedral * degree) / sin(dihedral * degree)


@formula(
    "mass",
    "g",
    "weight",
    slips={
        "the hollow forgotten": lambda outside, inside, density: outside * density / 1000,
    },
)
def hollow_mass(outside: Any, inside: Any, density: Any) -> Any:
    """Mass of a hollow form with mitred edges [g].

    mass = (outside - inside) x density / 1000

    outside, inside: volumes [mm3]; density [g/cm3]. The vent's chip isn't taken off.
    Source: volume by difference.

    >>> round(hollow_mass(6276.9, 4828.7, 8.53), 3)
    12.353
    """
    return (outside - inside) * density / 1000


@formula(
    "mass",
    "g",
    "weight",
    slips={
        "the ends forgotten": lambda whole, ends, count: whole / count,
    },
)
def share_mass(whole: Any, ends: Any, count: Any) -> Any:
    """Mass of one of several equal plates [g].

    mass = (whole - ends) / count

    whole: the form's; ends: of the plates that are unlike [g]; count: of the equal ones [1].
    Source: equal plates weigh alike.

    >>> round(share_mass(87.3, 21.4, 6.0), 3)
    10.983
    """
    return (whole - ends) / count


@formula(
    "inside_volume",
    "ml",
    "what it holds inside",
    slips={
        "cubic millimetres taken for hundredths": lambda hollow: hollow / 100,
    },
)
def holds(hollow: Any) -> Any:
    """What a form holds inside [ml].

    volume = hollow / 1000

    hollow: [mm3].
    Source: 1 ml is 1000 mm3.

    >>> round(holds(4828.7), 3)
    4.829
    """
    return hollow / 1000


@formula("mass", "g", "weight")
def plate_mass(volume: Any, density: Any) -> Any:
    """Mass of a plate [g].

    mass = volume x density / 1000

    volume: [mm3]; density [g/cm3].
    Source: density.

    >>> round(plate_mass(812.4, 8.53), 3)
    6.93
    """
    return volume * density / 1000


@formula("mass", "g", "weight", slips={"one plate taken for all": lambda count, each: each})
def plates_mass(count: Any, each: Any) -> Any:
    """Mass of several equal plates [g].

    mass = count x each

    count: how many [1]; each: mass of one [g].
    Source: addition.

    >>> round(plates_mass(6.0, 10.983), 3)
    65.898
    """
    return count * each
