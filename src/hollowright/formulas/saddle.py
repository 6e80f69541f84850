"""A branch of tube on a main of tube: the closed forms of its edge."""

from __future__ import annotations

from typing import Any

from hollowright.quantity import formula
from hollowright.quantity.maths import cos, degree, sin, sqrt


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


@formula("ride_up", "mm", "how far a template of the outside would let it ride up", slips={
    "the wall itself taken": lambda s, b, o: o - b,
})  # fmt: skip
def ride_up(seat: Any, bore: Any, outside: Any) -> Any:
    """How much deeper the outside's line lies than the bore's, at the branch's sides [mm].

    ride up = sqrt(seat^2 - bore^2) - sqrt(seat^2 - outside^2)

    seat: radius of the main; bore, outside: radii of the branch [mm], the axes meeting at right
    angles. Cut square to the outside's line it stands on its bore's edge and gapes by so much.
    Source: Pythagoras in the main's section.

    >>> round(ride_up(20.0, 9.0, 10.0), 3)
    0.54
    """
    return sqrt(seat * seat - bore * bore) - sqrt(seat * seat - outside * outside)


@formula("aside", "mm", "way aside of the main's axis")
def aside(offset: Any, followed: Any, turn: Any) -> Any:
    """How far a place of a branch's line lies beside the main's axis [mm].

    aside = offset + followed x sin(turn x degree)

    offset of the axes; followed: radius of the line [mm]; turn: from the foot's side [deg].
    Source: plane geometry in the branch's section.

    >>> round(aside(3.0, 9.0, 47.0), 4)
    9.5822
    """
    return offset + followed * sin(turn * degree)


@formula("above", "mm", "height over the main's axis")
def above(seat: Any, aside: Any) -> Any:
    """Height of the main's surface over its axis, so far aside [mm].

    above = sqrt(seat^2 - aside^2)

    seat: radius of the main's surface; aside: of the place [mm].
    Source: Pythagoras in the main's section.

    >>> round(above(20.0, 9.5822), 4)
    17.5551
    """
    return sqrt(seat * seat - aside * aside)


@formula("depth", "mm", "depth of the edge", slips={
    "sine and cosine of the place swapped": lambda h, f, a, t: (
        h - f * sin(t * degree) * cos(a * degree)
    ) / sin(a * degree),
    "counted from the far side": lambda h, f, a, t: (
        h + f * cos(t * degree) * cos(a * degree)
    ) / sin(a * degree),
})  # fmt: skip
def line_depth(above: Any, followed: Any, angle: Any, turn: Any) -> Any:
    """Distance of a branch's edge from the main's axis at a place round the branch [mm].

    depth = (above - followed x cos(turn x degree) x cos(angle x degree)) / sin(angle x degree)

    above: height of the main's surface over its axis there; followed: radius of the branch's line
    [mm]; angle between the axes [deg]; turn: from the foot's side [deg].
    Source: cylinder met by a line, descriptive geometry.

    >>> round(line_depth(17.5551, 9.0, 60.0, 47.0), 4)
    16.7271
    """
    return (above - followed * cos(turn * degree) * cos(angle * degree)) / sin(angle * degree)


@formula("mid_radius", "mm", "radius of the middle of the wall")
def mid_wall(outside: Any, wall: Any) -> Any:
    """Radius of the middle of a tube's wall [mm].

    radius = (outside - wall) / 2

    outside: diameter; wall [mm].
    Source: plane geometry.

    >>> round(mid_wall(20.0, 1.2), 3)
    9.4
    """
    return (outside - wall) / 2


@formula("proud", "mm", "wall that stands past the main")
def proud(wall: Any, angle: Any) -> Any:
    """How far a square edge stands past the main where the axes make the sharp angle [mm].

    proud = wall x sqrt(1 / sin(angle x degree)^2 - 1)

    wall: of the branch [mm]; angle between the axes [deg], which meet.
    Source: plane geometry in the plane of the axes.

    >>> round(proud(1.2, 60.0), 4)
    0.6928
    """
    return wall * sqrt(1 / sin(angle * degree) / sin(angle * degree) - 1)
