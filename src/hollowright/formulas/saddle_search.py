"""A branch on a main: sizes of its edge and its hole that have no closed form, by search or sum.

Radii and offsets are millimetres, angles between the axes degrees; the parameters are those of
`saddle_rim.Rim`.
"""

from __future__ import annotations

import math
from functools import lru_cache

from hollowright.formulas.saddle_rim import Rim, least, mean, most
from hollowright.quantity import formula

KINKED = 180
"""Samples round an edge that changes at some places from one fibre to another."""


@formula("highest", "mm", "saddle's highest place", plain=True)
def highest(seat: float, inner: float, outer: float, angle: float, offset: float) -> float:
    """Greatest distance of a branch's edge from the main's axis, along the branch [mm].

    highest = greatest depth of the fibres inner to outer on seat, at angle, with offset

    seat: radius of the main's surface that is met; inner, outer: radii between which the edge
    follows what meets first, equal where it follows one; angle between the axes [deg]; offset.
    Source: golden section over the curve of intersection, descriptive geometry.

    >>> round(highest(20.0, 9.0, 10.0, 60.0, 3.0), 4)
    28.7372
    """
    return most(Rim(seat, inner, outer, angle, offset))


@formula("deepest", "mm", "saddle's deepest place", plain=True)
def deepest(seat: float, inner: float, outer: float, angle: float, offset: float) -> float:
    """Least distance of a branch's edge from the main's axis, along the branch [mm].

    deepest = least depth of the fibres inner to outer on seat, at angle, with offset

    seat, inner, outer, angle, offset: as for the highest [mm, deg].
    Source: golden section over the curve of intersection, descriptive geometry.

    >>> round(deepest(20.0, 9.0, 10.0, 60.0, 3.0), 4)
    16.7266
    """
    return least(Rim(seat, inner, outer, angle, offset))


@formula("depth", "mm", "depth of the edge", plain=True)
def first_depth(
    seat: float, inner: float, outer: float, angle: float, offset: float, turn: float
) -> float:
    """Distance of a branch's edge from the main's axis where its wall meets first [mm].

    depth = greatest depth at turn of the fibres inner to outer on seat, at angle, with offset

    seat, inner, outer, angle, offset: as for the highest; turn: from the foot's side [deg].
    Source: the depth is concave in the radius: greatest where its slope is 0, or at the wall's end.

    >>> round(first_depth(20.0, 9.0, 10.0, 60.0, 3.0, 147.0), 4)
    25.7756
    """
    return Rim(seat, inner, outer, angle, offset)(math.radians(turn))


@formula("joint_length", "mm", "length of the joint", plain=True, slips={
    "once round the branch taken": lambda s, r, a, e: 2 * math.pi * r,
    "an ellipse of the slant taken": lambda s, r, a, e: (
        math.pi * r * (1 + 1 / math.sin(a * math.pi / 180))
    ),
})  # fmt: skip
def joint_length(seat: float, radius: float, angle: float, offset: float) -> float:
    """Length of a saddle's seam in space [mm]: where a tube of a radius enters the main.

    joint length = length of the curve of radius on seat, at angle, with offset

    seat: radius of the main's surface; radius: of the branch; angle between the axes [deg]; offset.
    Source: arc length of the curve of intersection by quadrature.

    >>> round(joint_length(20.0, 10.0, 60.0, 3.0), 4)
    69.5968
    """
    rim = Rim(seat, radius, radius, angle, offset)
    return 2 * math.pi * mean(rim.speed, samples(offset, radius, seat))


@formula("hole_low", "mm", "hole's near end from the axes' meeting", plain=True)
def hole_low(seat: float, radius: float, angle: float, offset: float) -> float:
    """Where a branch's hole begins along the main, from where the axes meet [mm].

    hole low = least place along the main of the curve of radius on seat, at angle, with offset

    seat, radius, angle, offset: as for the joint's length, the radius being the hole's [mm, deg].
    Source: golden section over the curve of intersection, descriptive geometry.

    >>> round(hole_low(20.0, 9.0, 60.0, 3.0), 4)
    0.9851
    """
    return least(Rim(seat, radius, radius, angle, offset).along)


@formula("hole_high", "mm", "hole's far end from the axes' meeting", plain=True)
def hole_high(seat: float, radius: float, angle: float, offset: float) -> float:
    """Where a branch's hole ends along the main, from where the axes meet [mm].

    hole high = greatest place along the main of the curve of radius on seat, at angle, with offset

    seat, radius, angle, offset: as for the joint's length, the radius being the hole's [mm, deg].
    Source: golden section over the curve of intersection, descriptive geometry.

    >>> round(hole_high(20.0, 9.0, 60.0, 3.0), 4)
    21.8329
    """
    return most(Rim(seat, radius, radius, angle, offset).along)


@formula("hole_area", "mm2", "hole's area on the main's outside", plain=True, slips={
    "the branch's own section taken": lambda s, r, a, e: math.pi * r * r,
})  # fmt: skip
def hole_area(seat: float, radius: float, angle: float, offset: float) -> float:
    """Area of a hole on the main's surface [mm2].

    hole area = area of the main's surface inside the curve of radius on seat, at angle and offset

    seat, radius, angle, offset: as for the hole's length [mm, deg].
    Source: surface integral over the branch's section by quadrature.

    >>> round(hole_area(20.0, 9.0, 60.0, 3.0), 3)
    306.282
    """

    def strip(t: float) -> float:
        y = offset + radius * math.sin(t)
        return math.cos(t) ** 2 / math.sqrt(1 - y * y / (seat * seat))

    return (
        2
        * math.pi
        * radius
        * radius
        * mean(strip, samples(offset, radius, seat))
        / math.sin(angle * math.pi / 180)
    )


@formula("hole_volume", "mm3", "metal taken out of the main", plain=True, slips={
    "the wall's thickness times the branch's section taken": lambda o, i, r, a, e: (
        math.pi * r * r * (o - i)
    ),
})  # fmt: skip
def hole_volume(outside: float, inside: float, radius: float, angle: float, offset: float) -> float:
    """Metal that a hole takes out of the main's wall, led along the branch [mm3].

    hole volume = metal between inside and outside within radius, at angle and offset

    outside, inside: radii of the main's wall; radius: of the hole; angle between the axes [deg];
    offset; the hole within the bore.
    Source: volume integral over the branch's section by quadrature.

    >>> round(hole_volume(20.0, 19.0, 9.0, 60.0, 3.0), 3)
    307.06
    """

    def chord(t: float) -> float:
        y = offset + radius * math.sin(t)
        far, near = outside * outside - y * y, inside * inside - y * y
        return math.cos(t) ** 2 * (math.sqrt(max(0.0, far)) - math.sqrt(max(0.0, near)))

    return (
        2
        * math.pi
        * radius
        * radius
        * mean(chord, samples(offset, radius, inside))
        / math.sin(angle * math.pi / 180)
    )


@formula("ride_up", "mm", "how far a template of the outside would let it ride up", plain=True)
def ride_up(seat: float, bore: float, outside: float, angle: float, offset: float) -> float:
    """How far a branch cut square to its outside's line rides up on its bore's edge [mm].

    ride up = greatest depth of bore less outside on seat, at angle, with offset

    seat: radius of the main's surface; bore, outside: the branch's radii; angle between the axes
    [deg]; offset.
    Source: golden section over the two curves of intersection, descriptive geometry.

    >>> round(ride_up(20.0, 9.0, 10.0, 60.0, 3.0), 4)
    1.0068
    """
    rim = Rim(seat, bore, outside, angle, offset)
    return most(lambda t: rim.depth(bore, t) - rim.depth(outside, t))


@formula("proud", "mm", "wall that stands past the main", plain=True)
def proud(seat: float, bore: float, outside: float, angle: float, offset: float) -> float:
    """How far the outside of an edge cut square on its bore's line stands past the main [mm].

    proud = greatest depth of outside less bore on seat, at angle, with offset

    seat, bore, outside, angle, offset: as for the ride up [mm, deg].
    Source: golden section over the two curves of intersection, descriptive geometry.

    >>> round(proud(20.0, 4.0, 6.0, 90.0, 13.0), 4)
    0.8744
    """
    rim = Rim(seat, bore, outside, angle, offset)
    return most(lambda t: rim.depth(outside, t) - rim.depth(bore, t))


def edges(
    cut: str, seat: float, bore: float, outside: float, angle: float, offset: float, t: float
) -> tuple[float, float]:
    """Depths [mm] of a finished branch's outer and inner edge at t [rad].

    cut: bevelled, its whole wall on the main; square, cut on the bore's line and filed where it
    stood proud; unfiled, where the wall meets first. bore, outside: the branch's radii [mm].
    Source: descriptive geometry.

    >>> [round(edge, 3) for edge in edges("bevelled", 20, 9, 10, 90, 0, math.pi / 2)]
    [17.321, 17.861]
    """
    return _edges(cut, Rim(seat, bore, outside, angle, offset), t)


def _edges(cut: str, rim: Rim, t: float) -> tuple[float, float]:
    if cut == "unfiled":
        first = rim(t)
        return (first, first)
    outer, inner = rim.depth(rim.outer, t), rim.depth(rim.inner, t)
    return (outer if cut == "bevelled" else max(outer, inner), inner)


@lru_cache(maxsize=512)
def _mean_depth(
    cut: str, seat: float, bore: float, outside: float, angle: float, offset: float
) -> float:
    """Mean depth of a finished branch's end over its section [mm].

    Bevelled: of all its fibres. Unfiled: level across the wall. Square: level with the bore's line,
    but on the main as far out as the wall stood past it there.
    """
    rim = Rim(seat, bore, outside, angle, offset)
    if cut == "bevelled":
        return mean(lambda t: _across(rim, bore, outside, t), samples(offset, outside, seat))
    if cut == "unfiled":
        return mean(rim, KINKED)
    return mean(lambda t: _filed(rim, t), KINKED)


def _across(rim: Rim, low: float, high: float, t: float) -> float:
    """Mean depth at t of the fibres from one radius to another, each by its share of the area [mm].

    Source: Gauss's rule of three places.
    """
    middle, half = (low + high) / 2, (high - low) / 2
    places = [(middle + side * half * math.sqrt(0.6), 5) for side in (-1, 1)]
    found = [(radius, times * radius) for radius, times in (*places, (middle, 8))]
    return sum(share * rim.depth(radius, t) for radius, share in found) / (18 * middle)


def _filed(rim: Rim, t: float) -> float:
    """Mean depth across the wall at t of an edge cut square on the bore's line, then filed [mm]."""
    low, high = rim.inner, rim.outer
    level, until = rim.depth(low, t), filed_until(rim, t)
    if until <= low:
        return level
    share = (until * until - low * low) / (high * high - low * low)
    return level + share * (_across(rim, low, until, t) - level)


def filed_until(rim: Rim, t: float) -> float:
    """How far out an edge cut square on the bore's line stands past the main at t: a radius [mm].

    The bore's own where it doesn't. A fibre's depth is concave in its radius, so the wall stands
    past the bore's line from the bore to one other radius: where a straight line in the radius
    meets the main's circle again.
    Source: chord of a circle.

    >>> filed_until(Rim(20.0, 9.0, 10.0, 60.0, 3.0), math.pi)
    10.0
    """
    low, high = rim.inner, rim.outer
    level = rim.depth(low, t)
    across, lean = math.sin(t), math.cos(t) * math.cos(rim.angle * math.pi / 180)
    height = level * math.sin(rim.angle * math.pi / 180)
    both = rim.offset * across + height * lean
    square = across * across + lean * lean
    return max(low, min(-2 * both / square - low, high)) if square else low


@formula("mean_depth", "mm", "saddle's mean depth", plain=True)
def mean_depth_bevelled(
    seat: float, bore: float, outside: float, angle: float, offset: float
) -> float:
    """Mean depth of a branch's end whose whole wall lies on the main [mm]: what it weighs by.

    mean depth = mean over the wall of the depth of bore and outside on seat, at angle, with offset

    seat: radius of the main's surface that is met; bore, outside: the branch's radii; angle between
    the axes [deg]; offset.
    Source: trapezoid rule round the branch, three fibres of Gauss across the wall.

    >>> round(mean_depth_bevelled(20.0, 9.0, 10.0, 60.0, 3.0), 4)
    21.4063
    """
    return _mean_depth("bevelled", seat, bore, outside, angle, offset)


@formula("mean_depth", "mm", "saddle's mean depth", plain=True)
def mean_depth_square(
    seat: float, bore: float, outside: float, angle: float, offset: float
) -> float:
    """Mean depth of a branch's end cut square on its bore's line [mm]: what it weighs by.

    mean depth = mean over the wall of the depth of bore and outside on seat, at angle, with offset

    seat, bore, outside, angle, offset: as for the bevelled end [mm, deg].
    Source: trapezoid rule round the branch, three fibres of Gauss across what is filed.

    >>> round(mean_depth_square(20.0, 9.0, 10.0, 60.0, 3.0), 3)
    21.62
    """
    return _mean_depth("square", seat, bore, outside, angle, offset)


@formula("mean_depth", "mm", "saddle's mean depth", plain=True)
def mean_depth_unfiled(
    seat: float, bore: float, outside: float, angle: float, offset: float
) -> float:
    """Mean depth of a branch's end cut square where its wall meets first [mm]: what it weighs by.

    mean depth = mean over the wall of the depth of bore and outside on seat, at angle, with offset

    seat, bore, outside, angle, offset: as for the bevelled end [mm, deg].
    Source: trapezoid rule round the branch.

    >>> round(mean_depth_unfiled(20.0, 9.0, 10.0, 60.0, 3.0), 3)
    21.673
    """
    return _mean_depth("unfiled", seat, bore, outside, angle, offset)


def samples(offset: float, radius: float, seat: float) -> int:
    """How many samples [1] a sum round the branch needs: more where it reaches the main's side.

    offset, radius, seat [mm].
    Source: tried against sums of many more.

    >>> samples(3.0, 10.0, 20.0), samples(3.0, 17.0, 20.0)
    (64, 256)
    """
    return 256 if abs(offset) + radius > 0.93 * seat else 64
