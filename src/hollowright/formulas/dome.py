"""Domes raised in a block from a disc: blank, thinning, cups, metal, inside volume."""

from __future__ import annotations

from typing import Any

from hollowright.quantity import formula
from hollowright.quantity.maths import atan, pi, sqrt


@formula(
    "dome_radius",
    "mm",
    slips={
        "the diameter taken for the radius": lambda diameter, rise: (
            (diameter * diameter + rise * rise) / (2 * rise)
        ),
        "half the diameter taken though the dome is flatter": lambda diameter, rise: diameter / 2,
        "the rise not squared": lambda diameter, rise: (
            (diameter * diameter / 4 + rise) / (2 * rise)
        ),
    },
)
def radius(diameter: Any, rise: Any) -> Any:
    """Radius of the sphere that a dome is part of [mm], outside.

    radius = (diameter^2 / 4 + rise^2) / (2 x rise)

    diameter: across the rim, outside [mm]; rise: of the dome, outside [mm], at most the radius.
    Source: plane geometry, sagitta of an arc.

    >>> round(radius(30.0, 6.0), 3)
    21.75
    """
    return (diameter * diameter / 4 + rise * rise) / (2 * rise)


@formula(
    "mid_base",
    "mm",
    "radius of the rim on the middle of the metal",
    slips={
        "half the thickness taken off, as if the rim stood upright": (
            lambda diameter, radius, thickness: diameter / 2 - thickness / 2
        ),
        "the whole thickness taken off": (
            lambda diameter, radius, thickness: diameter / 2 - thickness
        ),
        "the thickness forgotten": lambda diameter, radius, thickness: diameter / 2,
        "the inside taken": lambda diameter, radius, thickness: sqrt(
            diameter * diameter / 4 - 2 * radius * thickness + thickness * thickness
        ),
        "the diameter taken for the radius": lambda diameter, radius, thickness: diameter,
    },
)
def mid_base(diameter: Any, radius: Any, thickness: Any) -> Any:
    """Radius of the trued rim [mm] where the middle of the thickness meets it.

    mid base = sqrt(diameter^2 / 4 - radius x thickness + thickness^2 / 4)

    diameter: across the rim, outside [mm]; radius: of the outer sphere [mm]; thickness [mm]. The
    middle surface is a sphere half a thickness smaller, cut by the same plane; on a flat dome it
    lies further inside the rim than half a thickness.
    Source: plane geometry.

    >>> round(mid_base(30.0, 21.75, 0.8), 3)
    14.414
    """
    return sqrt(diameter * diameter / 4 - radius * thickness + thickness * thickness / 4)


@formula(
    "mid_rise",
    "mm",
    "rise of the middle of the metal",
    slips={
        "the thickness forgotten": lambda rise, thickness: rise,
        "the whole thickness taken off": lambda rise, thickness: rise - thickness,
        "half the thickness added": lambda rise, thickness: rise + thickness / 2,
    },
)
def mid_rise(rise: Any, thickness: Any) -> Any:
    """Rise of the dome's middle surface [mm].

    mid rise = rise - thickness / 2

    rise: outside [mm]; thickness [mm].
    Source: plane geometry.

    >>> round(mid_rise(6.0, 0.8), 2)
    5.6
    """
    return rise - thickness / 2


@formula(
    "blank_diameter",
    "mm",
    "blank's diameter by equal area",
    slips={
        "the rim's diameter and the rise added": lambda base, rise: 2 * base + rise,
        "the length over the dome taken, as if the rim didn't gather": lambda base, rise: (
            2 * (base * base + rise * rise) / rise * atan(rise / base)
        ),
        "the radius taken for the diameter": lambda base, rise: sqrt(base * base + rise * rise),
        "the rim's diameter taken": lambda base, rise: 2 * base,
    },
)
def blank(base: Any, rise: Any) -> Any:
    """Diameter of the disc [mm] that has the area of the dome's middle surface.

    blank = 2 x sqrt(base^2 + rise^2)

    base: radius of the rim on the middle surface [mm]; rise: of the middle surface [mm]. It takes
    the metal to keep its thickness on the whole: the crown gets thinner, the rim thicker.
    Source: area of a spherical cap, pi x (base^2 + rise^2).

    >>> round(blank(14.414, 5.6), 3)
    30.927
    """
    return 2 * sqrt(base * base + rise * rise)


@formula("blank_by_arc", "mm", "blank's diameter by the length over the dome")
def blank_by_arc(base: Any, rise: Any) -> Any:
    """Diameter of a disc [mm] as wide as the way over the dome, rim to rim, on its middle surface.

    blank by arc = 2 x (base^2 + rise^2) / rise x atan(rise / base)

    base: radius of the rim on the middle surface [mm]; rise: of the middle surface [mm]. It takes
    the metal not to stretch from crown to rim at all: what is too much round the rim would have to
    gather there and thicken. In a block it doesn't, so this blank comes out too large.
    Source: length of an arc; common practice for its use, no source.

    >>> round(blank_by_arc(14.414, 5.6), 3)
    31.647
    """
    return 2 * (base * base + rise * rise) / rise * atan(rise / base)


@formula("thickness_by_arc", "mm", "mean thickness if that larger blank went in whole")
def thickness_by_arc(thickness: Any, by_arc: Any, by_area: Any) -> Any:
    """Mean thickness [mm] that a dome would have if the blank by arc went into it whole.

    thickness by arc = thickness x by_arc^2 / by_area^2

    thickness: of the sheet [mm]; by_arc: blank by the length over the dome [mm]; by_area: blank by
    equal area [mm].
    Source: the metal's volume stays.

    >>> round(thickness_by_arc(0.8, 30.159, 27.153), 3)
    0.987
    """
    return thickness * by_arc * by_arc / (by_area * by_area)


@formula("crown_thickness", "mm", "thickness left at the crown")
def crown_thickness(thickness: Any, thinning: Any, rise: Any, radius: Any) -> Any:
    """Thickness left at the crown of a dome [mm] for a thinning that a half sphere would show.

    crown thickness = thickness x (1 - thinning x rise / radius)

    thickness: of the sheet [mm]; thinning: at the crown of a half sphere, in parts [1]; rise:
    outside [mm]; radius: of the outer sphere [mm].
    Source: common practice, no source.

    >>> round(crown_thickness(0.8, 0.25, 6.0, 21.75), 3)
    0.745
    """
    return thickness * (1 - thinning * rise / radius)


@formula("rim_land", "mm", "width of the trued rim")
def rim_land(diameter: Any, radius: Any, thickness: Any) -> Any:
    """Width of the flat rim of a trued dome [mm]: what the seam has to hold on.

    rim land = diameter / 2 - sqrt(diameter^2 / 4 - 2 x radius x thickness + thickness^2)

    diameter: across the rim, outside [mm]; radius: of the outer sphere [mm]; thickness [mm].
    Source: plane geometry.

    >>> round(rim_land(30.0, 21.75, 0.8), 3)
    1.186
    """
    inside = diameter * diameter / 4 - 2 * radius * thickness + thickness * thickness
    return diameter / 2 - sqrt(inside)


@formula(
    "girdle",
    "mm",
    "length of the seam round the girdle",
    slips={"the radius taken for the diameter": lambda diameter: pi * diameter / 2},
)
def girdle(diameter: Any) -> Any:
    """Length of a seam round a form [mm].

    girdle = pi x diameter

    diameter: outside [mm].
    Source: circumference of a circle.

    >>> round(girdle(30.0), 3)
    94.248
    """
    return pi * diameter


@formula("inside_radius", "mm", "radius of the dome's inside")
def less_thickness(outside: Any, thickness: Any) -> Any:
    """A radius or a rise of a dome's inside [mm].

    inside = outside - thickness

    outside: the same on the outside [mm]; thickness [mm].
    Source: plane geometry.

    >>> round(less_thickness(21.75, 0.8), 2)
    20.95
    """
    return outside - thickness


@formula("cap_volume", "mm3", "volume of a cap of a sphere")
def cap_volume(radius: Any, rise: Any) -> Any:
    """Volume of a cap cut off a sphere by a plane [mm3].

    cap volume = pi x rise^2 x (3 x radius - rise) / 3

    radius: of the sphere [mm]; rise: of the cap [mm].
    Source: volume of a spherical cap.

    >>> round(cap_volume(21.75, 6.0), 2)
    2233.67
    """
    return pi * rise * rise * (3 * radius - rise) / 3


@formula("core_volume", "mm3", "volume of a sphere over a hole")
def core_volume(radius: Any, hole: Any) -> Any:
    """Volume of half a sphere that lies within a hole through its crown, down to half way [mm3].

    core volume = 2 x pi / 3 x (radius^3 - (radius^2 - hole^2 / 4)^1.5)

    radius: of the sphere [mm]; hole: its diameter [mm].
    Source: volume of a sphere within a cylinder through its middle.

    >>> round(core_volume(21.75, 2.4), 3)
    98.32
    """
    square = hole * hole / 4
    depth = sqrt(radius * radius - square)  # R^3 - s^3 = (R^2 - s^2)(R^2 + R s + s^2) / (R + s)
    whole = radius * radius + radius * depth + depth * depth
    return 2 * pi / 3 * square * whole / (radius + depth)


@formula(
    "dome_mass",
    "g",
    "weight of a dome",
    slips={
        "the hole forgotten": lambda cap, hollow, core, hollow_core, density: (
            (cap - hollow) * density / 1000
        ),
        "the hollow forgotten": lambda cap, hollow, core, hollow_core, density: (
            cap * density / 1000
        ),
    },
)
def dome_mass(cap: Any, hollow: Any, core: Any, hollow_core: Any, density: Any) -> Any:
    """Weight of a dome with a hole through its crown [g].

    dome mass = (cap - hollow - core + hollow_core) x density / 1000

    cap: volume to the outside [mm3]; hollow: volume to the inside [mm3]; core, hollow_core: of the
    outer and the inner sphere over the hole [mm3]; density [g/cm3].
    Source: definition of density.

    >>> round(dome_mass(2233.66, 1632.42, 98.32, 94.70, 8.53), 3)
    5.098
    """
    return (cap - hollow - core + hollow_core) * density / 1000


@formula("inside_volume", "ml", "what the bead holds inside")
def inside_volume(hollow: Any) -> Any:
    """Volume of the space inside two domes [ml]: air, or the pickle that got in.

    inside volume = 2 x hollow / 1000

    hollow: volume inside one dome [mm3].
    Source: 1 ml = 1000 mm3.

    >>> round(inside_volume(1632.42), 3)
    3.265
    """
    return 2 * hollow / 1000


@formula("cup_ball", "mm", "ball that fills the cup")
def cup_ball(mouth: Any, depth: Any) -> Any:
    """Diameter of the ball whose shape a cup of a doming block has [mm].

    cup ball = mouth^2 / (4 x depth) + depth

    mouth: across the cup at the block's face [mm]; depth [mm].
    Source: plane geometry, sagitta of an arc.

    >>> round(cup_ball(32.0, 12.5), 2)
    32.98
    """
    return mouth * mouth / (4 * depth) + depth


@formula("punch", "mm", "largest punch")
def punch(ball: Any, thickness: Any) -> Any:
    """Largest round punch that goes into a cup with the metal in it [mm].

    punch = ball - 2 x thickness

    ball: that fills the cup [mm]; thickness: of the sheet [mm].
    Source: plane geometry.

    >>> round(punch(32.98, 0.8), 2)
    31.38
    """
    return ball - 2 * thickness


@formula("domed_rise", "mm", "rise when the cup is filled")
def domed_rise(blank: Any, ball: Any, thickness: Any) -> Any:
    """Outside rise of the dome [mm] once the disc lies on a cup all over.

    domed rise = blank^2 / (4 x (ball - thickness)) + thickness / 2

    blank: the disc's diameter [mm]; ball: that fills the cup [mm]; thickness [mm]. Equal area on
    the middle surface.
    Source: area of a spherical cap, 2 x pi x radius x rise.

    >>> round(domed_rise(30.927, 43.5, 0.8), 2)
    6.0
    """
    return blank * blank / (4 * (ball - thickness)) + thickness / 2


@formula(
    "hole",
    "mm",
    "hole",
    slips={"the cord's own thickness taken": lambda cord, room: cord},
)
def hole_for(cord: Any, room: Any) -> Any:
    """Diameter of the hole [mm] that a cord runs through.

    hole = cord + room

    cord: its thickness, pulled snug [mm]; room: left round it, on the diameter [mm].
    Source: common practice, no source.

    >>> hole_for(1.5, 0.5)
    2.0
    """
    return cord + room


@formula("held_head", "mm", "head of water that a hole holds back")
def held_head(hole: Any) -> Any:
    """Height of cold water [mm] that the skin over a hole holds back: less doesn't drain by itself.

    held head = 29.7 / hole

    hole: its diameter [mm]. 4 x 0.0728 N/m / (998 kg/m3 x 9.81 m/s2), in square millimetres.
    Source: capillary pressure 4 gamma / d, water at 20 C (from memory).

    >>> round(held_head(1.2), 2)
    24.75
    """
    return 29.7 / hole
