"""Tube cut by a plane: mitres, elbows, and the paper that is wrapped round to mark them."""

from __future__ import annotations

from typing import Any

from hollowright.formulas.outline import elliptic_e
from hollowright.quantity import formula
from hollowright.quantity.maths import cos, degree, pi, sin, sqrt, tan


@formula(
    "template_length",
    "mm",
    "template's length",
    slips={
        "the paper's thickness forgotten": lambda d, p: pi * d,
        "the paper's thickness taken twice": lambda d, p: pi * (d + 2 * p),
        "the radius used for the diameter": lambda d, p: pi * (d / 2 + p),
        "3 taken for pi": lambda d, p: 3 * (d + p),
    },
)
def template_length(outside: Any, paper: Any) -> Any:
    """Length of a paper that goes once round a tube [mm], its ends meeting.

    template length = pi x (outside + paper)

    outside: diameter of the tube [mm]; paper: its thickness [mm]; the paper's middle lies half of
    it outside the tube.
    Source: circumference of the paper's neutral line.

    >>> round(template_length(20, 0.1), 3)
    63.146
    """
    return pi * (outside + paper)


@formula(
    "followed_radius",
    "mm",
    "radius of the line followed, inside the wall",
    slips={
        "the wall not taken off": lambda d, t: d / 2,
        "the wall taken off the diameter once": lambda d, t: (d - t) / 2,
        "the diameter taken": lambda d, t: d - 2 * t,
    },
)
def inner_radius(outside: Any, wall: Any) -> Any:
    """Radius of a tube's inner fibre [mm], which an edge cut square to the wall stands on.

    radius = outside / 2 - wall

    outside, wall [mm].
    Source: plane geometry.

    >>> round(inner_radius(20, 0.8), 3)
    9.2
    """
    return outside / 2 - wall


@formula(
    "followed_radius",
    "mm",
    "radius of the line followed, outside",
    slips={"the diameter taken": lambda d: d},
)
def outer_radius(outside: Any) -> Any:
    """Radius of a tube's outside [mm], on which a saw led straight through leaves its line.

    radius = outside / 2

    outside: diameter [mm].
    Source: plane geometry.

    >>> outer_radius(20)
    10.0
    """
    return outside / 2


@formula(
    "rise",
    "mm",
    slips={
        "the turn of the joint taken instead of half of it": lambda r, a: r * tan(2 * a * degree),
        "the diameter taken for the radius": lambda r, a: 2 * r * tan(a * degree),
        "the angle measured from the tube instead of from square": lambda r, a: r / tan(a * degree),
        "half of the cut's angle taken": lambda r, a: r * tan(a / 2 * degree),
        "the sine taken for the tangent": lambda r, a: r * sin(a * degree),
    },
)
def rise(radius: Any, angle: Any) -> Any:
    """How far a slanting cut rises above its place on the axis, and falls below it [mm].

    rise = radius x tan(angle x degree)

    radius: of the line that the template follows [mm]; angle: of the cut from square [deg].
    Source: plane geometry.

    >>> round(rise(9.2, 30), 3)
    5.312
    """
    return radius * tan(angle * degree)


@formula(
    "template_height",
    "mm",
    "template's height",
    slips={
        "the margin forgotten": lambda up, down, m: up + down,
        "one side's rise taken for both": lambda up, down, m: up + m,
    },
)
def template_height(up: Any, down: Any, margin: Any) -> Any:
    """Height of a mitre's template, from its straight edge to the tip of the line [mm].

    template height = up + down + margin

    up, down: rise on the long side, fall on the short one [mm]; margin: paper under the line [mm].
    Source: addition.

    >>> round(template_height(5.312, 5.774, 15), 3)
    26.086
    """
    return up + down + margin


@formula(
    "ordinate",
    "mm",
    slips={
        "counted from the short side": lambda m, down, r, a, t: (
            m + down - r * tan(a * degree) * cos(t * degree)
        ),
        "the margin forgotten": lambda m, down, r, a, t: (
            down + r * tan(a * degree) * cos(t * degree)
        ),
        "the sine of the place taken": lambda m, down, r, a, t: (
            m + down + r * tan(a * degree) * sin(t * degree)
        ),
    },
)
def ordinate(margin: Any, down: Any, radius: Any, angle: Any, turn: Any) -> Any:
    """Height of the line above the template's straight edge, at a place round the tube [mm].

    ordinate = margin + down + radius x tan(angle x degree) x cos(turn x degree)

    margin, down: as for the template's height [mm]; radius: of the line followed there [mm]; angle:
    of the cut from square [deg]; turn: from the longest line [deg].
    Source: development of a cylinder cut by a plane.

    >>> round(ordinate(15, 5.312, 9.2, 30, 60), 3)
    22.968
    """
    return margin + down + radius * tan(angle * degree) * cos(turn * degree)


@formula("long_side", "mm", slips={"the rise forgotten": lambda n, r, e: n, "the rise taken off":
         lambda n, r, e: n - r * e, "the whole cut's height added": lambda n, r, e: (
         n + 2 * r * e)})  # fmt: skip
def long_side(length: Any, rise: Any, ends: Any) -> Any:
    """Longest line of a mitred piece of tube [mm].

    long side = length + rise x ends

    length: along the axis [mm]; rise: of the cut on the long side [mm]; ends: how many are cut
    slanting [1].
    Source: plane geometry.

    >>> round(long_side(48.3, 5.312, 2), 3)
    58.924
    """
    return length + rise * ends


@formula("short_side", "mm", slips={"the fall forgotten": lambda n, f, e: n, "the fall added":
         lambda n, f, e: n + f * e, "the whole cut's height taken off": lambda n, f, e: (
         n - 2 * f * e)})  # fmt: skip
def short_side(length: Any, fall: Any, ends: Any) -> Any:
    """Shortest line of a mitred piece of tube [mm].

    short side = length - fall x ends

    length: along the axis [mm]; fall: of the cut on the short side [mm]; ends: how many are cut
    slanting [1].
    Source: plane geometry.

    >>> round(short_side(48.3, 5.774, 2), 3)
    36.752
    """
    return length - fall * ends


@formula("axis_length", "mm", "length along the axis")
def axis_from_long(long: Any, rise: Any) -> Any:
    """Length along the axis of a tube with one mitre [mm], from its finished long side outside.

    axis length = long - rise

    long: the long side outside [mm]; rise: of the edge there, cut square the inside's [mm].
    Source: plane geometry.

    >>> round(axis_from_long(54, 5.774), 3)
    48.226
    """
    return long - rise


@formula("axis_length", "mm", "length along the axis")
def axis_from_short(short: Any, rise: Any) -> Any:
    """Length along the axis of a tube with one mitre [mm], from its finished short side outside.

    axis length = short + rise

    short: the short side outside [mm]; rise: of the cut there [mm].
    Source: plane geometry.

    >>> round(axis_from_short(42, 5.774), 3)
    47.774
    """
    return short + rise


@formula(
    "joint_length",
    "mm",
    "length of the joint",
    slips={
        "once round the tube taken": lambda d, t, a: pi * (d - t),
        "the cut's long diameter taken round": lambda d, t, a: pi * (d - t) / cos(a * degree),
        "the turn of the joint taken": lambda d, t, a: (
            2
            * (d - t)
            / cos(2 * a * degree)
            * elliptic_e(sin(2 * a * degree) * sin(2 * a * degree))
        ),
    },
)
def joint_length(outside: Any, wall: Any, angle: Any) -> Any:
    """Length of a mitre's seam, along the middle of the wall [mm]: round an ellipse.

    joint length = 2 x (outside - wall) / cos(angle x degree) x elliptic_e(sin(angle x degree)^2)

    outside, wall [mm]; angle: of the cut from square [deg].
    Source: NIST DLMF 19.30.5.

    >>> round(joint_length(20.8, 0.8, 45), 5)
    76.40396
    """
    return 2 * (outside - wall) / cos(angle * degree) * elliptic_e(sin(angle * degree) ** 2)


@formula("mouth_length", "mm", "long diameter of the mouth", slips={"the diameter itself taken":
         lambda d, a: d, "multiplied by the cosine": lambda d, a: d * cos(a * degree)})  # fmt: skip
def mouth_length(outside: Any, angle: Any) -> Any:
    """Long diameter of a bevelled mouth, outside [mm]; the short one is the tube's own.

    mouth length = outside / cos(angle x degree)

    outside [mm]; angle: of the cut from square [deg].
    Source: plane section of a cylinder.

    >>> round(mouth_length(20, 30), 3)
    23.094
    """
    return outside / cos(angle * degree)


@formula("mouth_length", "mm", "long diameter of the mouth", slips={
    "the diameter itself taken": lambda d, up, down: d,
    "the outside's rise taken for the long side's": lambda d, up, down: sqrt(
        d * d + 4 * down * down
    ),
    "the line's rise taken on both sides": lambda d, up, down: sqrt(d * d + 4 * up * up),
})  # fmt: skip
def square_mouth_length(outside: Any, up: Any, down: Any) -> Any:
    """From the short to the long side of a mouth whose edge is cut square, outside [mm].

    mouth length = sqrt(outside^2 + (up + down)^2)

    outside: diameter [mm]; up: rise of the edge on the long side, where the outside stays on the
    line of the inside; down: fall of the outside on the short side, which lies on the plane [mm].
    Source: Pythagoras in the plane of both sides.

    >>> round(square_mouth_length(20, 5.312, 5.774), 3)
    22.867
    """
    return sqrt(outside * outside + (up + down) * (up + down))


@formula("proud", "mm", "wall that stands past the cut")
def proud(wall: Any, angle: Any) -> Any:
    """How far the wall of an edge cut square stands past the plane, on the short side [mm].

    proud = wall x tan(angle x degree)

    wall [mm]; angle: of the cut from square [deg].
    Source: plane geometry.

    >>> round(proud(0.8, 30), 3)
    0.462
    """
    return wall * tan(angle * degree)


@formula("mean_length", "mm", "mean length of the metal")
def mean_length_square(length: Any, radius: Any, wall: Any, proud: Any, ends: Any) -> Any:
    """Mean length of a tube whose edge, cut square on its inner fibre, is filed to the plane [mm].

    mean length = length - ends x proud / pi x (3 x radius + 2 x wall) / (6 x radius + 3 x wall)

    length: along the axis [mm]; radius: of the bore [mm]; wall [mm]; proud: how far the wall stands
    past the plane [mm]; ends: how many are cut so [1]. On the long side the outside stays on the
    inner line.
    Source: mean of the edge over the wall's section.

    >>> round(mean_length_square(48, 9.2, 0.8, 0.462, 1), 4)
    47.9254
    """
    share = (3 * radius + 2 * wall) / (6 * radius + 3 * wall)
    return length - ends * proud / pi * share


@formula("mean_length", "mm", "mean length of the metal")
def mean_length_unfiled(length: Any, proud: Any, ends: Any) -> Any:
    """Mean length of a tube whose edge, cut square, follows what meets first [mm].

    mean length = length - ends x proud / pi

    length: along the axis [mm]; proud: how far the wall would stand past the plane [mm]; ends [1].
    Source: mean of the edge round the tube.

    >>> round(mean_length_unfiled(48, 0.462, 2), 4)
    47.7059
    """
    return length - ends * proud / pi


@formula("edge_from_end", "mm", "template's edge from the square end")
def edge_from_end(long: Any, height: Any) -> Any:
    """How far from the tube's square end the template's straight edge is laid [mm].

    edge from end = long - height

    long: the tube's long side [mm]; height: the template's [mm].
    Source: subtraction.

    >>> round(edge_from_end(58.924, 26.086), 3)
    32.838
    """
    return long - height
