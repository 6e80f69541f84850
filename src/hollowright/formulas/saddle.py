"""A branch of tube on a main of tube: the closed forms of its edge and of the hole in the main."""

from __future__ import annotations

from typing import Any

from hollowright.quantity import formula
from hollowright.quantity.maths import asin, cos, degree, pi, sin, sqrt


@formula("seat_radius", "mm", "radius of the main where the branch sits", slips={
    "the diameter taken": lambda d: d,
})  # fmt: skip
def seat_outside(outside: Any) -> Any:
    """Radius of the main's surface that a set-on branch stands on [mm].

    seat radius = outside / 2

    outside: diameter of the main [mm].
    Source: plane geometry.

    >>> seat_outside(40.0)
    20.0
    """
    return outside / 2


@formula("seat_radius", "mm", "radius of the main where the branch sits", slips={
    "the wall not taken off": lambda d, t: d / 2,
    "the wall taken off the diameter once": lambda d, t: (d - t) / 2,
    "the diameter taken": lambda d, t: d - 2 * t,
})  # fmt: skip
def seat_inside(outside: Any, wall: Any) -> Any:
    """Radius of the main's bore, where the end of a let-in branch lies [mm].

    seat radius = outside / 2 - wall

    outside: diameter of the main; wall [mm].
    Source: plane geometry.

    >>> seat_inside(40.0, 1.2)
    18.8
    """
    return outside / 2 - wall


@formula("axis_length", "mm", "branch's length from the main's axis", slips={
    "the main's radius forgotten": lambda n, d, e, a: n,
    "the main's diameter taken": lambda n, d, e, a: n + d / sin(a * degree),
    "the slant forgotten": lambda n, d, e, a: n + d / 2,
})  # fmt: skip
def from_axis(length: Any, outside: Any, offset: Any, angle: Any) -> Any:
    """Length of a branch from the main's axis [mm], from its length above the main's outside.

    axis length = length + sqrt((outside / 2)^2 - offset^2) / sin(angle x degree)

    length: along the branch's axis, from where it leaves the main; outside: the main's diameter;
    offset of the axes [mm]; angle between them [deg].
    Source: plane geometry.

    >>> round(from_axis(47.0, 40.0, 3.0, 60.0), 3)
    69.833
    """
    return length + sqrt(outside * outside / 4 - offset * offset) / sin(angle * degree)


@formula("deepest", "mm", "saddle's deepest place", slips={
    "the radius of the branch taken off": lambda s, r: s - r,
    "the squares added": lambda s, r: sqrt(s * s + r * r),
    "half of the branch's radius taken": lambda s, r: sqrt(s * s - r * r / 4),
})  # fmt: skip
def deepest(seat: Any, followed: Any) -> Any:
    """Least distance of a branch's edge from the main's axis, at its sides, the axes meeting [mm].

    deepest = sqrt(seat^2 - followed^2)

    seat: radius of the main; followed: of the branch's line, no larger [mm]. The axes' angle
    doesn't matter while the line's lowest place lies between foot's and far side.
    Source: Pythagoras in the main's section.

    >>> round(deepest(20.0, 9.0), 3)
    17.861
    """
    return sqrt(seat * seat - followed * followed)


@formula("near_depth", "mm", "saddle's depth where the axes' angle is wide", slips={
    "the slant forgotten": lambda s, r, a: s,
    "sine and cosine swapped": lambda s, r, a: (s - r * sin(a * degree)) / cos(a * degree),
    "the other side taken": lambda s, r, a: (s + r * cos(a * degree)) / sin(a * degree),
})  # fmt: skip
def foot_depth(seat: Any, followed: Any, angle: Any) -> Any:
    """Distance of a branch's edge from the main's axis on the foot's side, the axes meeting [mm].

    depth = (seat - followed x cos(angle x degree)) / sin(angle x degree)

    seat: radius of the main; followed: of the branch's line [mm]; angle between the axes [deg].
    Source: plane geometry in the plane of the axes.

    >>> round(foot_depth(20.0, 9.0, 60.0), 3)
    17.898
    """
    return (seat - followed * cos(angle * degree)) / sin(angle * degree)


@formula("far_depth", "mm", "saddle's depth where the axes' angle is sharp", slips={
    "the slant forgotten": lambda s, r, a: s,
    "sine and cosine swapped": lambda s, r, a: (s + r * sin(a * degree)) / cos(a * degree),
    "the other side taken": lambda s, r, a: (s - r * cos(a * degree)) / sin(a * degree),
})  # fmt: skip
def far_depth(seat: Any, followed: Any, angle: Any) -> Any:
    """Distance of a branch's edge from the main's axis on the far side, the axes meeting [mm].

    depth = (seat + followed x cos(angle x degree)) / sin(angle x degree)

    seat: radius of the main; followed: of the branch's line [mm]; angle between the axes [deg].
    Source: plane geometry in the plane of the axes.

    >>> round(far_depth(20.0, 9.0, 60.0), 3)
    28.29
    """
    return (seat + followed * cos(angle * degree)) / sin(angle * degree)


@formula("template_height", "mm", "template's height", slips={
    "the margin forgotten": lambda h, d, m: h - d,
})  # fmt: skip
def template_height(highest: Any, deepest: Any, margin: Any) -> Any:
    """Height of a saddle's template, from its straight edge to its longest tongue [mm].

    template height = highest - deepest + margin

    highest, deepest: the edge's distances from the main's axis; margin: paper above it [mm].
    Source: addition.

    >>> round(template_height(28.645, 16.0, 15), 3)
    27.645
    """
    return highest - deepest + margin


@formula("ordinate", "mm")
def ordinate(margin: Any, highest: Any, depth: Any) -> Any:
    """Distance of the line from the template's straight edge, at a place round the branch [mm].

    ordinate = margin + highest - depth

    margin: of paper; highest, depth: distances from the main's axis of the edge's highest place,
    and of its place there [mm].
    Source: addition.

    >>> round(ordinate(15, 28.645, 21.7), 3)
    21.945
    """
    return margin + highest - depth


@formula("long_side", "mm", "branch's longest line")
def below(length: Any, depth: Any) -> Any:
    """Length of one line of a branch, from its square end to its saddled edge [mm].

    length of the line = length - depth

    length: of the branch, from the main's axis; depth: of the edge there [mm].
    Source: subtraction.

    >>> round(below(69.833, 16.0), 3)
    53.833
    """
    return length - depth


@formula("ride_up", "mm", "how far a template of the outside would let it ride up")
def ride_up(seat: Any, bore: Any, outside: Any) -> Any:
    """How much deeper the outside's line lies than the bore's, at the branch's sides [mm].

    ride up = sqrt(seat^2 - bore^2) - sqrt(seat^2 - outside^2)

    seat: radius of the main; bore, outside: radii of the branch [mm], the axes meeting. A branch
    cut square to the outside's line stands on its bore's edge and gapes by this much.
    Source: Pythagoras in the main's section.

    >>> round(ride_up(20.0, 9.0, 10.0), 3)
    0.54
    """
    return sqrt(seat * seat - bore * bore) - sqrt(seat * seat - outside * outside)


@formula("hole_width", "mm", "hole's width round the main, on the paper", slips={
    "the straight width taken": lambda d, p, s, r, e: 2 * r,
    "the paper's thickness forgotten": lambda d, p, s, r, e: d / 2 * (
        asin((e + r) / s) - asin((e - r) / s)
    ),
    "half the hole taken": lambda d, p, s, r, e: (d + p) / 2 * asin((e + r) / s),
})  # fmt: skip
def hole_width(main: Any, paper: Any, seat: Any, hole: Any, offset: Any) -> Any:
    """Width of a branch's hole round the main, on the paper wrapped round it [mm].

    hole width = (main + paper) / 2 x (asin((offset + hole) / seat) - asin((offset - hole) / seat))

    main: its outside diameter; paper: its thickness; seat: radius of the main's surface on which
    the hole is reckoned; hole: its radius; offset of the axes [mm].
    Source: development of the cylinder.

    >>> round(hole_width(40.0, 0.1, 20.0, 9.0, 3.0), 3)
    19.011
    """
    return (main + paper) / 2 * (asin((offset + hole) / seat) - asin((offset - hole) / seat))


@formula("hole_length", "mm", "hole's length along the main", slips={
    "straight across taken": lambda r, a: 2 * r,
    "the radius taken": lambda r, a: r / sin(a * degree),
    "multiplied by the sine": lambda r, a: 2 * r * sin(a * degree),
})  # fmt: skip
def hole_length(radius: Any, angle: Any) -> Any:
    """Length of a branch's hole along the main, the axes meeting [mm].

    hole length = 2 x radius / sin(angle x degree)

    radius: of the hole [mm]; angle between the axes [deg].
    Source: plane geometry in the plane of the axes.

    >>> round(hole_length(9.0, 60.0), 3)
    20.785
    """
    return 2 * radius / sin(angle * degree)


@formula("hole_shift", "mm", "hole's middle from the axes' meeting", slips={
    "the tangent taken the other way round": lambda s, a: s * sin(a * degree) / cos(a * degree),
    "the diameter taken": lambda s, a: 2 * s * cos(a * degree) / sin(a * degree),
})  # fmt: skip
def hole_shift(seat: Any, angle: Any) -> Any:
    """How far along the main the middle of the hole lies from where the axes meet [mm].

    hole shift = seat x cos(angle x degree) / sin(angle x degree)

    seat: radius of the main's surface [mm]; angle between the axes [deg].
    Source: plane geometry in the plane of the axes.

    >>> round(hole_shift(20.0, 60.0), 3)
    11.547
    """
    return seat * cos(angle * degree) / sin(angle * degree)


@formula("hole_middle", "mm", "middle of the hole, along the main")
def hole_middle(place: Any, shift: Any) -> Any:
    """Place of the hole's middle along the main, from its foot [mm].

    hole middle = place + shift

    place: of the axes' meeting, from the foot; shift: of the hole's middle from there [mm].
    Source: addition.

    >>> round(hole_middle(47.3, 11.547), 3)
    58.847
    """
    return place + shift


@formula("hole_aside", "mm", "middle of the hole beside the line along the main")
def hole_aside(outside: Any, seat: Any, radius: Any, offset: Any) -> Any:
    """How far round the main the hole's middle lies from the line over the main's axis [mm].

    hole aside = outside / 4 x (asin((offset + radius) / seat) + asin((offset - radius) / seat))

    outside: diameter of the main; seat, radius, offset: as for the hole's width [mm].
    Source: development of the cylinder.

    >>> round(hole_aside(40.0, 20.0, 9.0, 3.0), 3)
    3.388
    """
    return outside / 4 * (asin((offset + radius) / seat) + asin((offset - radius) / seat))


@formula("way_round", "mm", "way round the main to the branch", slips={
    "the radius taken": lambda d, a: pi * d / 2 * a / 360,
    "the straight line taken": lambda d, a: d * sin(a / 2 * degree),
})  # fmt: skip
def way_round(outside: Any, around: Any) -> Any:
    """How far round the main's outside the branch stands from the line it is counted from [mm].

    way round = pi x outside x around / 360

    outside: diameter of the main [mm]; around: how far round [deg].
    Source: arc of a circle.

    >>> round(way_round(40.0, 35.0), 3)
    12.217
    """
    return pi * outside * around / 360


@formula("hole_mass", "g", "weight taken out of the main")
def hole_mass(volume: Any, density: Any) -> Any:
    """Weight of what a hole takes out of the main's wall [g].

    hole mass = volume x density / 1000

    volume [mm3]; density [g/cm3].
    Source: definition of density.

    >>> round(hole_mass(317.953, 8.53), 3)
    2.712
    """
    return volume * density / 1000


@formula("main_mass", "g", "weight of the main")
def less_hole(whole: Any, hole: Any) -> Any:
    """Weight of the main with its hole [g].

    main weight = whole - hole

    whole: without the hole; hole: what is taken out [g].
    Source: subtraction.

    >>> round(less_hole(91.3, 2.7), 3)
    88.6
    """
    return whole - hole
