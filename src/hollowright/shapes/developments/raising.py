"""Raising a turned form from a disc: the blank by equal area, and the courses by angle."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hollowright.shapes.developments.fibres import positive
from hollowright.shapes.developments.meridian import Meridian


def blank_diameter(meridian: Meridian) -> float:
    """Diameter of the disc [mm] whose area is that of the turned surface, 2 sqrt(area / pi).

    `meridian` is the neutral surface's (`Meridian.inside` at half the thickness), from the axis:
    metal neither thinned nor thickened on the whole. ValueError where it doesn't begin on the axis.
    Source: Machinery's Handbook, 31st edition, p. 1426, area method.

    >>> from hollowright.shapes.developments.meridian import through
    >>> round(blank_diameter(through([(0, 0), (1, 0), (1, 3)])), 2)
    5.29
    """
    if meridian.place(0.0)[0] > 1e-9:
        raise ValueError("the profile must begin on the axis: its bottom is part of the blank")
    return 2 * math.sqrt(meridian.area / math.pi)


@dataclass(frozen=True, slots=True)
class Course:
    """A stage of raising: the wall stands at `angle` [rad] from the flat, round the base [mm]."""

    angle: float
    mouth_radius: float
    slant: float
    height: float


def courses(
    base_diameter: float,
    blank_diameter: float,
    step: float = math.radians(15),
    last: float = math.pi / 2,
) -> tuple[Course, ...]:
    """The stages in which a disc's rim is raised round a flat base, `step` [rad] at most at a time.

    Each wall is a cone of the rim's own area: pi (2 a + s cos(angle)) s = pi (b^2 - a^2), with
    base radius a, blank radius b, slant s. Equal steps up to `last` [rad], upright by default; an
    anneal belongs between two stages. The default step is common practice, no source. ValueError
    for a blank not wider than the base, or angles that aren't in order.

    >>> [round(c.height, 3) for c in courses(40, 60, math.radians(45))]
    [7.451, 12.5]
    """
    positive(base_diameter=base_diameter, step=step)
    if not blank_diameter > base_diameter:
        raise ValueError(f"the blank, {blank_diameter} mm, must be wider than its base")
    if not 0 < last <= math.pi / 2:
        raise ValueError(f"last must lie between 0 and 90 degrees, not {math.degrees(last):g}")
    count = math.ceil(last / step - 1e-9)
    return tuple(
        _course(base_diameter / 2, blank_diameter / 2, last * (i + 1) / count) for i in range(count)
    )


def _course(base: float, blank: float, angle: float) -> Course:
    area = (blank - base) * (blank + base)
    cosine = math.cos(angle)
    # The root of cosine s^2 + 2 base s - area that stays finite as the cosine goes to 0.
    slant = area / (base + math.sqrt(base * base + cosine * area))
    return Course(angle, base + slant * cosine, slant, slant * math.sin(angle))
