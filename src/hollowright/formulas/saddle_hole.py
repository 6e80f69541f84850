"""The hole for a branch in a main of tube: its size on the paper, its place, what it weighs."""

from __future__ import annotations

from typing import Any

from hollowright.quantity import formula
from hollowright.quantity.maths import asin, cos, degree, pi, sin


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

    main: its outside diameter; paper: its thickness; seat: radius of the main's outside, on which
    the hole is drawn whichever way the branch is joined; hole: its radius; offset of the axes [mm].
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

    seat: radius of the main's outside [mm]; angle between the axes [deg].
    Source: plane geometry in the plane of the axes.

    >>> round(hole_shift(20.0, 60.0), 3)
    11.547
    """
    return seat * cos(angle * degree) / sin(angle * degree)


@formula("hole_middle", "mm", "middle of the hole, along the main", slips={
    "the axes' meeting taken, the slant forgotten": lambda p, s: p,
    "the shift taken off": lambda p, s: p - s,
})  # fmt: skip
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


@formula("narrower_inside", "mm", "how much narrower a hole cut towards the axis is inside", slips={
    "one side taken": lambda r, t, d: 2 * r * t / d,
    "the wall itself taken": lambda r, t, d: 2 * t,
})  # fmt: skip
def narrower_inside(radius: Any, wall: Any, main: Any) -> Any:
    """What a hole cut towards the main's axis lacks at the bore, straight across the main [mm].

    narrower inside = 4 x radius x wall / main

    radius: of the hole; wall, main: thickness and outside diameter of the main [mm]. Each side,
    so far aside at the outside, lies nearer by the share of the wall in the radius at the bore.
    Source: similar triangles in the main's section.

    >>> round(narrower_inside(10.0, 1.2, 40.0), 3)
    1.2
    """
    return 4 * radius * wall / main


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


@formula("side", "mm", "side of the paper")
def paper_side(hole: Any, margin: Any) -> Any:
    """Side of the paper that is laid over a hole [mm].

    side of the paper = hole + 2 x margin

    hole: its size that way; margin: paper beside it [mm].
    Source: addition.

    >>> round(paper_side(19.0, 15.0), 3)
    49.0
    """
    return hole + 2 * margin


@formula("hole_length", "mm", "hole's length along the main")
def length_between(low: Any, high: Any) -> Any:
    """Length of a hole along the main, from its two ends [mm].

    hole length = high - low

    low, high: places of its ends along the main [mm].
    Source: subtraction.

    >>> round(length_between(0.985, 21.833), 3)
    20.848
    """
    return high - low


@formula("hole_shift", "mm", "hole's middle from the axes' meeting")
def middle_between(low: Any, high: Any) -> Any:
    """How far along the main the middle of the hole lies from where the axes meet [mm].

    hole shift = (low + high) / 2

    low, high: places of its ends along the main, from the axes' meeting [mm].
    Source: plane geometry.

    >>> round(middle_between(0.985, 21.833), 3)
    11.409
    """
    return (low + high) / 2
