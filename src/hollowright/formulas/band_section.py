"""The section of a domed finger ring: area, centre, and what a ring of it weighs."""

from __future__ import annotations

from typing import Any

from hollowright.quantity import formula
from hollowright.quantity.maths import atan, degree, pi, sin


@formula("dome_rise", "mm", "rise of the dome across the band")
def rise(crown: Any, edge: Any) -> Any:
    """How far a domed band's middle stands over its edges [mm].

    rise = crown - edge

    crown: thickness in the middle [mm]; edge: thickness at the edges [mm].
    Source: subtraction.

    >>> round(rise(1.9, 0.6), 2)
    1.3
    """
    return crown - edge


@formula("segment_radius", "mm", "radius of the dome across the band")
def segment_radius(width: Any, rise: Any) -> Any:
    """Radius of the arc across a domed band [mm].

    radius = (width^2 / 4 + rise^2) / (2 x rise)

    width: of the arc's chord [mm]; rise: of its middle over the chord [mm].
    Source: circular segment, plane geometry.

    >>> round(segment_radius(5.2, 1.3), 4)
    3.25
    """
    return (width * width / 4 + rise * rise) / (2 * rise)


@formula("segment_half_angle", "deg", "half the angle of the dome across the band")
def segment_half_angle(width: Any, rise: Any) -> Any:
    """Half of the angle that the arc across a domed band takes [deg].

    half angle = 2 x atan(2 x rise / width) / degree

    width: of the arc's chord [mm]; rise: of its middle over the chord [mm].
    Source: circular segment, plane geometry.

    >>> round(segment_half_angle(5.2, 1.3), 4)
    53.1301
    """
    return 2 * atan(2 * rise / width) / degree


@formula("segment_area", "mm2", "area of the dome across the band")
def segment_area(radius: Any, angle: Any) -> Any:
    """Area of a circular segment [mm2].

    area = radius^2 x (angle x degree - sin(2 x angle x degree) / 2)

    radius [mm]; angle: half of the arc's [deg].
    Source: circular segment, plane geometry.

    >>> round(segment_area(3.25, 53.1301), 4)
    4.7246
    """
    return radius * radius * (angle * degree - sin(2 * angle * degree) / 2)


@formula("segment_middle", "mm", "centre of the dome's area over its chord")
def segment_middle(width: Any, area: Any, radius: Any, rise: Any) -> Any:
    """Height of a circular segment's centre of area over its chord [mm].

    middle = width^3 / (12 x area) - (radius - rise)

    width: chord [mm]; area [mm2]; radius, rise [mm].
    Source: centroid of a circular segment, chord^3 / (12 area) from the circle's centre.

    >>> round(segment_middle(5.2, 4.7245, 3.25, 1.3), 4)
    0.5301
    """
    return width * width * width / (12 * area) - (radius - rise)


@formula(
    "section_area",
    "mm2",
    "area of the section",
    slips={
        "the edges' thickness left out": lambda width, edge, dome: dome,
    },
)
def section_area(width: Any, edge: Any, dome: Any) -> Any:
    """Area of a domed band's section [mm2]: a flat strip with a segment on it.

    section area = width x edge + dome

    width [mm]; edge: thickness at the edges [mm], 0 for half-round wire; dome: area of the segment
    on it [mm2].
    Source: plane geometry.

    >>> round(section_area(5.2, 0.6, 4.7245), 4)
    7.8445
    """
    return width * edge + dome


@formula("section_middle", "mm", "centre of the section over its inner face")
def section_middle(width: Any, edge: Any, dome: Any, middle: Any) -> Any:
    """Height of a domed section's centre of area over its flat inner face [mm].

    section middle = (width x edge^2 / 2 + dome x (edge + middle)) / (width x edge + dome)

    width [mm]; edge: thickness at the edges [mm]; dome: area of the segment [mm2]; middle: height
    of the segment's centre over its chord [mm].
    Source: centroid of a compound area.

    >>> round(section_middle(5.2, 0.6, 4.7245, 0.5301), 4)
    0.7999
    """
    return (width * edge * edge / 2 + dome * (edge + middle)) / (width * edge + dome)


@formula(
    "mass",
    "g",
    slips={
        "the length of the inside taken": lambda inside, middle, area, density: (
            pi * inside * area * density / 1000
        ),
    },
)
def section_mass(inside: Any, middle: Any, area: Any, density: Any) -> Any:
    """Mass of a ring of one section all round [g].

    mass = pi x (inside + 2 x middle) x area x density / 1000

    inside: inside diameter [mm]; middle: height of the section's centre over its inner face [mm];
    area: of the section [mm2]; density [g/cm3].
    Source: Pappus's theorem.

    >>> round(section_mass(17.32, 0.7999, 7.8445, 8.53), 3)
    3.977
    """
    return pi * (inside + 2 * middle) * area * density / 1000


@formula("filed_off", "g", "metal filed off")
def filed_off(strip: Any, ring: Any) -> Any:
    """What filing a bent strip to its section takes off [g].

    filed off = strip - ring

    strip: weight of the net strip [g]; ring: weight of the finished ring [g].
    Source: subtraction.

    >>> round(filed_off(5.12, 3.98), 2)
    1.14
    """
    return strip - ring
