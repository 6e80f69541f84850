"""Vessels from flat sheet: skins of turned forms, raised blanks, courses, stacked cones, gores."""

from __future__ import annotations

from typing import Any

from hollowright.quantity import formula
from hollowright.quantity.maths import acos, cos, degree, pi, sin, sqrt


@formula(
    "mid_area",
    "mm2",
    "area of the metal's middle surface",
    slips={
        "the outside's area taken": lambda area, closing, slowing, thickness: area,
        "the inside's area taken": lambda area, closing, slowing, thickness: (
            area - closing * thickness + slowing * thickness * thickness
        ),
    },
)
def mid_area(area: Any, closing: Any, slowing: Any, thickness: Any) -> Any:
    """Area of a turned form's surface half a thickness under the outside [mm2].

    mid area = area - closing x thickness / 2 + slowing x thickness^2 / 4

    area: of the outside [mm2]; closing: how fast it shrinks going in [mm]; slowing: how that slows
    down [1]; thickness [mm]. Parallel surfaces shrink so, exactly where the sides are straight or
    the form is part of a sphere.
    Source: parallel surfaces (Steiner); the areas by Pappus's theorem.

    >>> round(mid_area(8413.0, 421.0, 6.4, 0.8), 2)
    8245.62
    """
    return area - closing * thickness / 2 + slowing * thickness * thickness / 4


@formula("metal_volume", "mm3", "metal of the skin")
def metal(area: Any, closing: Any, slowing: Any, thickness: Any) -> Any:
    """Volume of the metal between a turned form's outside and its inside [mm3].

    metal = area x thickness - closing x thickness^2 / 2 + slowing x thickness^3 / 3

    area: of the outside [mm2]; closing: how fast it shrinks going in [mm]; slowing: how that slows
    down [1]; thickness [mm].
    Source: the areas of parallel surfaces added up through the thickness.

    >>> round(metal(8413.0, 421.0, 6.4, 0.8), 2)
    6596.77
    """
    return area * thickness - closing * thickness * thickness / 2 + slowing * thickness**3.0 / 3


@formula(
    "blank_diameter",
    "mm",
    "blank's diameter",
    slips={
        "diameter and height added": lambda area, across, height: across + height,
        "the radius taken for the diameter": lambda area, across, height: sqrt(area / pi),
        "the base's part forgotten": lambda area, across, height: (
            2 * sqrt(area / pi - across * across / 4)
        ),
        "pi forgotten": lambda area, across, height: 2 * sqrt(area),
        "the disc that would fill the section taken": lambda area, across, height: (
            2 * sqrt(across * height / pi)
        ),
    },
)
def blank(area: Any, across: Any, height: Any) -> Any:
    """Diameter of the disc [mm] that has the area of a raised form's middle surface.

    blank = 2 x sqrt(area / pi)

    area: of the middle surface [mm2], so that the metal keeps its thickness on the whole. across:
    greatest outside diameter, and height [mm], aren't used: the rule of thumb adds them up.
    Source: Machinery's Handbook, 31st edition, p. 1426, area method.

    >>> round(blank(8245.62, 61.3, 24.7), 2)
    102.46
    """
    del across, height
    return 2 * sqrt(area / pi)


@formula("wall_thickness", "mm", "thickness of the raised wall")
def thinned(thickness: Any, thinning: Any) -> Any:
    """Thickness left where a raised form is thinnest [mm].

    thinned = thickness x (1 - thinning)

    thickness: of the sheet [mm]; thinning: in parts of it [1].
    Source: common practice, no source.

    >>> round(thinned(0.9, 0.2), 2)
    0.72
    """
    return thickness * (1 - thinning)


@formula("rim_squares", "mm2", "blank squared less base squared")
def rim_squares(blank: Any, base: Any) -> Any:
    """Square of the blank's diameter less that of its flat base [mm2]: 4 / pi of the rim's area.

    rim squares = blank^2 - base^2

    blank: diameter of the disc [mm]; base: diameter of its flat [mm].
    Source: area of a ring.

    >>> rim_squares(60.0, 40.0)
    2000.0
    """
    return (blank - base) * (blank + base)


@formula("last_angle", "deg", "angle of the last course")
def last_angle(across: Any, base: Any, rim: Any) -> Any:
    """Angle from the flat [deg] at which a straight wall of the rim's area is as wide as the form.

    last angle = acos((across^2 - base^2) / rim) / degree

    across: greatest outside diameter of the form [mm]; base: diameter of its flat [mm]; rim: square
    of the blank's diameter less that of the base [mm2]. The rest is shaping the wall.
    Source: area of a cone's frustum.

    >>> round(last_angle(52.0, 34.0, 8679.9), 2)
    79.73
    """
    return acos((across - base) * (across + base) / rim) / degree


@formula("course_angle", "deg", "angle of the course")
def course_angle(last: Any, number: Any, count: Any) -> Any:
    """Angle of the wall from the flat [deg] after a course, all steps equal.

    course angle = last x number / count

    last: angle of the last course [deg]; number: of this one, from 1 [1]; count: of all [1].
    Source: common practice, no source.

    >>> round(course_angle(79.73, 2, 6), 3)
    26.577
    """
    return last * number / count


@formula("course_slant", "mm", "wall along the slant")
def course_slant(base: Any, rim: Any, angle: Any) -> Any:
    """Length of a wall [mm] that stands at an angle round a flat base, of the rim's own area.

    course slant = rim / (2 x base + 2 x sqrt(base^2 + rim x cos(angle x degree)))

    base: its diameter [mm]; rim: square of the blank's diameter less that of the base [mm2];
    angle: of the wall from the flat [deg].
    Source: area of a cone's frustum.

    >>> round(course_slant(40.0, 2000.0, 45.0), 3)
    10.537
    """
    return rim / (2 * base + 2 * sqrt(base * base + rim * cos(angle * degree)))


@formula("course_height", "mm", "height of the course")
def course_height(slant: Any, angle: Any) -> Any:
    """Height of a wall [mm] that leans at an angle.

    course height = slant x sin(angle x degree)

    slant: its length [mm]; angle: from the flat [deg].
    Source: plane geometry.

    >>> round(course_height(10.537, 45.0), 3)
    7.451
    """
    return slant * sin(angle * degree)


@formula("course_mouth", "mm", "mouth after the course")
def course_mouth(base: Any, slant: Any, angle: Any) -> Any:
    """Diameter of the mouth [mm] over a wall that leans at an angle round a base.

    course mouth = base + 2 x slant x cos(angle x degree)

    base: its diameter [mm]; slant: the wall's length [mm]; angle: from the flat [deg].
    Source: plane geometry.

    >>> round(course_mouth(40.0, 10.537, 45.0), 2)
    54.9
    """
    return base + 2 * slant * cos(angle * degree)


@formula(
    "cone_height",
    "mm",
    "height of the lowest cone",
    slips={"the base's thickness forgotten": lambda height, thickness: height},
)
def above_base(height: Any, thickness: Any) -> Any:
    """Height of a wall [mm] that stands on its base instead of on the table.

    above base = height - thickness

    height: over all [mm]; thickness: of the base [mm].
    Source: plane geometry.

    >>> round(above_base(21.5, 0.8), 2)
    20.7
    """
    return height - thickness


@formula("foot_diameter", "mm", "diameter of the wall's foot")
def foot(base: Any, top: Any, thickness: Any, height: Any) -> Any:
    """Outside diameter of a straight wall [mm] at the height of its base's upper face.

    foot = base + (top - base) x thickness / height

    base: diameter on the table [mm]; top: at the wall's upper end [mm]; thickness: of the base
    [mm]; height: of the wall's upper end [mm].
    Source: similar triangles.

    >>> round(foot(42.0, 51.0, 0.8, 21.5), 3)
    42.335
    """
    return base + (top - base) * thickness / height


@formula("sheet_area", "mm2", "area of the cone's middle surface")
def cone_area(wide: Any, narrow: Any, slant: Any) -> Any:
    """Area of a cone's skin between two flat ends [mm2], and of its flat sector.

    cone area = pi x (wide + narrow) x slant

    wide, narrow: radii of the sheet's middle at the ends [mm]; slant [mm].
    Source: area of a cone's frustum.

    >>> round(cone_area(25.1, 20.77, 21.18), 2)
    3052.14
    """
    return pi * (wide + narrow) * slant


@formula("mass", "g")
def skin_mass(area: Any, thickness: Any, density: Any) -> Any:
    """Weight of a skin of even thickness [g], its area taken on the middle of the metal.

    skin mass = area x thickness x density / 1000

    area [mm2]; thickness [mm]; density [g/cm3].
    Source: Pappus's theorem; definition of density.

    >>> round(skin_mass(3052.11, 0.8, 8.53), 3)
    20.828
    """
    return area * thickness * density / 1000


@formula("mass", "g")
def metal_mass(metal: Any, density: Any) -> Any:
    """Weight of a volume of metal [g].

    metal mass = metal x density / 1000

    metal [mm3]; density [g/cm3].
    Source: definition of density.

    >>> round(metal_mass(6596.77, 8.53), 2)
    56.27
    """
    return metal * density / 1000


@formula("share", "g")
def share_of(whole: Any, count: Any) -> Any:
    """One of several equal parts of a weight [g].

    share = whole / count

    whole [g]; count: how many there are [1].
    Source: definition.

    >>> round(share_of(56.27, 8), 3)
    7.034
    """
    return whole / count


@formula(
    "gore_width",
    "mm",
    "width of a gore",
    slips={
        "the outside taken": lambda radius, aside, thickness, count: 2 * pi * radius / count,
        "the diameter's part taken": lambda radius, aside, thickness, count: (
            2 * (radius - aside * thickness) / count
        ),
    },
)
def gore_width(radius: Any, aside: Any, thickness: Any, count: Any) -> Any:
    """Greatest width of a gore [mm]: its share of the way round the middle of the metal.

    gore width = 2 x pi x (radius - aside x thickness) / count

    radius: greatest outside radius [mm]; aside: how far inside it the middle's greatest radius
    lies, in thicknesses [1], 0.5 for an upright wall; thickness [mm]; count: of gores [1].
    Source: circumference of a circle.

    >>> round(gore_width(31.4, 0.5, 0.7, 8), 3)
    24.387
    """
    return 2 * pi * (radius - aside * thickness) / count


@formula("gore_length", "mm", "length of a gore")
def gore_length(foil: Any, shortening: Any, thickness: Any) -> Any:
    """Length of a gore [mm] along the middle of the metal.

    gore length = foil - shortening x thickness

    foil: its length led back to no thickness [mm]; shortening: what is lost for each millimetre of
    thickness [1]; thickness [mm].
    Source: parallel curves.

    >>> round(gore_length(58.3, 0.61, 0.7), 3)
    57.873
    """
    return foil - shortening * thickness


@formula("seams_length", "mm", "length of all seams between gores")
def seams(length: Any, count: Any) -> Any:
    """Length of all seams between gores together [mm].

    seams = length x count

    length: of a gore [mm]; count: of gores, and of seams [1].
    Source: addition.

    >>> round(seams(57.873, 8), 2)
    462.98
    """
    return length * count


@formula("base_metal", "mm3", "metal of the base")
def slab(radius: Any, thickness: Any) -> Any:
    """Volume of a flat base [mm3], its edge filed to the form.

    slab = pi x radius^2 x thickness

    radius: its mean one within the profile [mm]; thickness [mm].
    Source: volume of a cylinder.

    >>> round(slab(22.7, 0.8), 2)
    1295.07
    """
    return pi * radius * radius * thickness


@formula("wall_metal", "mm3", "metal of the wall")
def less_base(shell: Any, base: Any) -> Any:
    """Volume of a wall without the base it stands on [mm3].

    less base = shell - base

    shell: metal of the whole form [mm3]; base: metal of the base [mm3].
    Source: subtraction.

    >>> round(less_base(6596.77, 1295.07), 2)
    5301.7
    """
    return shell - base
