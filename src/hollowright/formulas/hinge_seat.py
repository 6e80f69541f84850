"""The seats that are filed into a hinge's leaves for its knuckles."""

from __future__ import annotations

from typing import Any

from hollowright.quantity import formula
from hollowright.quantity.maths import asin, degree, sqrt


@formula(
    "seat_lip",
    "mm",
    "from the pin's middle to the leaf",
    slips={
        "half the tube taken": lambda tube, thickness: tube / 2,
        "the whole thickness taken for half of it": (
            lambda tube, thickness: sqrt(tube * tube - 4 * thickness * thickness) / 2
        ),
    },
)
def lip(tube: Any, thickness: Any) -> Any:
    """How near the leaf's edge comes to the pin's middle, the leaf's middle level with it [mm].

    lip = sqrt(tube^2 - thickness^2) / 2

    tube: outside diameter of the knuckles; thickness: of the leaf, under it [mm].
    Source: Pythagoras.

    >>> round(lip(3.02, 0.81), 4)
    1.4547
    """
    return sqrt(tube * tube - thickness * thickness) / 2


@formula(
    "seat_lip",
    "mm",
    "from the pin's middle to the leaf",
    slips={
        "half the tube taken": lambda tube, thickness: tube / 2,
        "as if the leaf's middle were level with the pin": (
            lambda tube, thickness: sqrt(tube * tube - thickness * thickness) / 2
        ),
    },
)
def face_lip(tube: Any, thickness: Any) -> Any:
    """How near the leaf's edge comes to the pin's middle, the leaf's face level with it [mm].

    lip = sqrt(tube^2 / 4 - thickness^2)

    tube: outside diameter of the knuckles; thickness: of the leaf, under half of it [mm].
    Source: Pythagoras.

    >>> round(face_lip(3.02, 0.81), 4)
    1.2744
    """
    return sqrt(tube * tube / 4 - thickness * thickness)


@formula(
    "seat_depth",
    "mm",
    slips={"half the tube taken": lambda tube, lip: tube / 2},
)
def seat_depth(tube: Any, lip: Any) -> Any:
    """How deep the seat for the knuckles is filed into the leaf's edge [mm].

    depth = tube / 2 - lip

    tube: outside diameter of the knuckles; lip: from the pin's middle to the leaf [mm].
    Source: plane geometry.

    >>> round(seat_depth(3.02, 1.4547), 4)
    0.0553
    """
    return tube / 2 - lip


@formula(
    "leaf_width",
    "mm",
    slips={
        "the seat forgotten": lambda depth, lip: depth,
        "the lip taken off twice": lambda depth, lip: depth - 2 * lip,
    },
)
def leaf_width(depth: Any, lip: Any) -> Any:
    """Width of a leaf's plate [mm].

    width = depth - lip

    depth: from the pin's middle to the leaf's far edge; lip: from there to its near edge [mm].
    Source: plane geometry.

    >>> round(leaf_width(14.3, 1.4547), 4)
    12.8453
    """
    return depth - lip


@formula(
    "seat_width",
    "mm",
    "width of the seat",
    slips={"the leaf's thickness taken": lambda tube, thickness: thickness},
)
def seat_width(tube: Any, thickness: Any) -> Any:
    """Length of the arc along which a knuckle lies in its seat, the leaf's middle level [mm].

    width = tube x asin(thickness / tube)

    tube: outside diameter of the knuckles; thickness: of the leaf, under it [mm].
    Source: arc of a circle.

    >>> round(seat_width(3.02, 0.81), 4)
    0.82
    """
    return tube * asin(thickness / tube)


@formula(
    "seat_width",
    "mm",
    "width of the seat",
    slips={"the leaf's thickness taken": lambda tube, thickness: thickness},
)
def face_seat_width(tube: Any, thickness: Any) -> Any:
    """Length of the arc along which a knuckle lies in its seat, the leaf's face level [mm].

    width = tube / 2 x asin(2 x thickness / tube)

    tube: outside diameter of the knuckles; thickness: of the leaf, under half of it [mm].
    Source: arc of a circle.

    >>> round(face_seat_width(3.02, 0.81), 4)
    0.855
    """
    return tube / 2 * asin(2 * thickness / tube)


@formula("seat_section", "mm2", "section between pin and leaf")
def seat_section(lip: Any, tube: Any, thickness: Any) -> Any:
    """Area between pin's middle and seat, over the leaf's thickness, its middle level [mm2].

    section = lip x thickness / 2 + tube^2 / 4 x asin(thickness / tube)

    lip: from the pin's middle to the leaf; tube: outside diameter of the knuckles; thickness [mm].
    Source: a sector of a circle and two triangles.

    >>> round(seat_section(1.4547, 3.02, 0.81), 4)
    1.2083
    """
    return lip * thickness / 2 + tube * tube / 4 * asin(thickness / tube)


@formula("seat_section", "mm2", "section between pin and leaf")
def face_section(lip: Any, tube: Any, thickness: Any) -> Any:
    """Area between pin's middle and seat, over the leaf's thickness, its face level [mm2].

    section = lip x thickness / 2 + tube^2 / 8 x asin(2 x thickness / tube)

    lip: from the pin's middle to the leaf; tube: outside diameter of the knuckles; thickness [mm].
    Source: a sector of a circle and a triangle.

    >>> round(face_section(1.2743, 3.02, 0.81), 4)
    1.1616
    """
    return lip * thickness / 2 + tube * tube / 8 * asin(2 * thickness / tube)


@formula(
    "mass",
    "g",
    slips={
        "the seat forgotten": lambda n, depth, t, section, density: n * depth * t * density / 1000,
    },
)
def leaf_mass(length: Any, depth: Any, thickness: Any, section: Any, density: Any) -> Any:
    """Mass of a leaf with its seat filed [g].

    mass = length x (depth x thickness - section) x density / 1000

    length: along the hinge; depth: from the pin's middle to its far edge; thickness [mm]; section:
    between pin and leaf [mm2]; density [g/cm3].
    Source: section times length.

    >>> round(leaf_mass(31.6, 14.3, 0.81, 1.2083, 8.53), 4)
    2.7965
    """
    return length * (depth * thickness - section) * density / 1000


@formula(
    "least_angle",
    "deg",
    "leaves close to an angle of",
    slips={"half of it taken": lambda tube, thickness: asin(thickness / tube) / degree},
)
def least_angle(tube: Any, thickness: Any) -> Any:
    """Angle at which the leaves' edges meet, their middles level with the pin [deg].

    angle = 2 x asin(thickness / tube) / degree

    tube: outside diameter of the knuckles; thickness: of the leaves, under it [mm].
    Source: plane geometry.

    >>> round(least_angle(3.02, 0.81), 3)
    31.116
    """
    return 2 * asin(thickness / tube) / degree


@formula("seat_mass", "g", "weight filed out for a seat")
def seat_mass(section: Any, width: Any, density: Any) -> Any:
    """Mass of the metal filed out of an edge for its seat [g].

    mass = section x width / 1000 x density

    section: between pin and edge [mm2]; width: of the hinge [mm]; density [g/cm3].
    Source: section times length.

    >>> round(seat_mass(1.1616, 31.6, 8.53), 4)
    0.3131
    """
    return section * width / 1000 * density


@formula("mass", "g", slips={"one seat taken off": lambda whole, seat: whole - seat})
def less_seats(whole: Any, seat: Any) -> Any:
    """Mass of a wall of two halves, a seat filed into each [g].

    mass = whole - 2 x seat

    whole: without seats; seat: filed out for one [g].
    Source: addition.

    >>> round(less_seats(31.2, 0.3131), 4)
    30.5738
    """
    return whole - 2 * seat
