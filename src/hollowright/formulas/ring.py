"""The lid's inner ring: its diameters, its strip, and what is filed off it."""

from __future__ import annotations

from typing import Any

from hollowright.quantity import formula
from hollowright.quantity.maths import clip, log10, pi


@formula(
    "ring_outside_diameter",
    "mm",
    slips={
        "the gap forgotten": lambda bore, gap: bore,
        "the gap taken off twice": lambda bore, gap: bore - 2 * gap,
        "the gap added instead of taken off": lambda bore, gap: bore + gap,
    },
)
def outside(bore: Any, gap: Any) -> Any:
    """Outside diameter of a ring [mm] that stands in a bore with a diametral gap.

    outside = bore - gap

    bore: the hole's diameter [mm]; gap: diametral clearance [mm].
    Source: definition of clearance, ISO 286-1.

    >>> round(outside(36.03, 0.04), 3)
    35.99
    """
    return bore - gap


@formula("filing_per_side", "mm")
def filing_per_side(ring: Any, slide: Any) -> Any:
    """What is filed off each side of the stand [mm] so that it slides in the body.

    filing per side = (ring - slide) / 2

    ring: ring's outside diameter [mm]; slide: diameter that slides in the body [mm].
    Source: plane geometry.

    >>> round(filing_per_side(36.02, 35.98), 3)
    0.02
    """
    return (ring - slide) / 2


@formula(
    "ring_length",
    "mm",
    slips={
        "the thickness forgotten": lambda outside, thickness: pi * outside,
        "the thickness taken off twice": lambda outside, thickness: pi * (outside - 2 * thickness),
        "the thickness added instead of taken off": lambda outside, thickness: (
            pi * (outside + thickness)
        ),
        "half the thickness taken off": lambda outside, thickness: pi * (outside - thickness / 2),
        "3.14 taken for pi": lambda outside, thickness: 3.14 * (outside - thickness),
        "3 taken for pi": lambda outside, thickness: 3 * (outside - thickness),
        "22/7 taken for pi": lambda outside, thickness: 22 / 7 * (outside - thickness),
        "the thickness taken off after multiplying by pi": lambda outside, thickness: (
            pi * outside - thickness
        ),
        "the radius used for the diameter": lambda outside, thickness: (
            pi * (outside / 2 - thickness)
        ),
    },
)
def length(outside: Any, thickness: Any) -> Any:
    """Length of a strip bent to a ring [mm], on the middle of its thickness.

    length = pi x (outside - thickness)

    outside: ring's outside diameter [mm]; thickness: of the strip [mm], thin against the ring.
    The neutral line lies at mid-thickness for annealed strip bent round a former.
    Source: circumference of the mid-line; common practice for the choice of line, no source.

    >>> round(length(21.98, 0.82), 2)
    66.48
    """
    return pi * (outside - thickness)


@formula(
    "ring_length",
    "mm",
    slips={
        "the thickness forgotten": lambda outside, thickness, line: pi * outside,
        "the wall's middle taken": lambda outside, thickness, line: pi * (outside - thickness),
    },
)
def length_on_line(outside: Any, thickness: Any, line: Any) -> Any:
    """Length of a strip bent to a ring [mm], on a neutral line that isn't mid-thickness.

    length = pi x (outside - 2 x thickness x (1 - line))

    outside: ring's outside diameter [mm]; thickness [mm]; line: the neutral line's distance from
    the inner face in parts of the thickness [1], 0 to 1.
    Source: circumference of the neutral line; `line` by DIN 6935 or Machinery's Handbook.

    >>> round(length_on_line(35.99, 0.64, 0.35), 3)
    110.452
    """
    return pi * (outside - 2 * thickness * (1 - line))


def din_line(inner_radius: Any, thickness: Any) -> Any:
    """Neutral line by DIN 6935, from the inner face in parts of the thickness [1].

    line = k / 2 with k = 0.65 + 0.5 x log10(r / s), at most 1

    inner_radius: r [mm]; thickness: s [mm]; r/s from about 0.1 up; the formula reaches 1 at
    r/s = 5.01.
    Source: DIN 6935 (flat bending of steel).

    >>> round(din_line(2.5, 1.0), 4), din_line(30.0, 0.64)
    (0.4245, 0.5)
    """
    return clip(0.65 + 0.5 * log10(inner_radius / thickness), 0.0, 1.0) / 2


HANDBOOK_LINES = {"soft": 0.55, "half-hard": 0.64, "hard": 0.71}
"""Machinery's Handbook 31st ed. p. 1421: a 90 degree bend takes (this x T + 1.57 x R) [T, R]."""


def handbook_line(temper: str) -> float:
    """Neutral line by Machinery's Handbook's bend allowances, in parts of the thickness [1].

    temper: 'soft' (soft brass and copper), 'half-hard' or 'hard'.
    Source: Machinery's Handbook, 31st ed., p. 1421, eq. 32 to 34.

    >>> round(handbook_line("soft"), 4)
    0.3501
    """
    return HANDBOOK_LINES[temper] / (pi / 2)


@formula(
    "ring_width",
    "mm",
    slips={
        "the stand forgotten": lambda depth, stand: depth,
        "the stand taken off instead of added": lambda depth, stand: depth - stand,
        "the stand added twice": lambda depth, stand: depth + 2 * stand,
    },
)
def width(depth: Any, stand: Any) -> Any:
    """Width of the ring's strip [mm]: the lid's inside depth and the stand above its rim.

    width = depth + stand

    depth: inside depth of the lid [mm]; stand: how far the ring stands out [mm].
    Source: plane geometry.

    >>> round(width(13.4, 2.0), 2)
    15.4
    """
    return depth + stand


@formula("ring_inside_diameter", "mm")
def inside(outside: Any, thickness: Any) -> Any:
    """Inside diameter of a ring [mm].

    inside = outside - 2 x thickness

    outside: ring's outside diameter [mm]; thickness [mm].
    Source: plane geometry.

    >>> round(inside(35.99, 0.64), 2)
    34.71
    """
    return outside - 2 * thickness


@formula("half_thickness", "mm", "half the thickness")
def half_thickness(thickness: Any) -> Any:
    """The largest chamfer that leaves metal at an edge [mm].

    half thickness = thickness / 2

    thickness: of the sheet or the wall [mm].
    Source: common practice, no source.

    >>> half_thickness(0.5)
    0.25
    """
    return thickness / 2


@formula("stretch_percent", "%", "stretch for 0.1 mm more")
def stretch_percent(diameter: Any) -> Any:
    """How far a closed ring is stretched for 0.1 mm more of diameter [%].

    stretch = 100 x 0.1 / diameter

    diameter: ring's outside diameter [mm].
    Source: strain, definition.

    >>> round(stretch_percent(36.0), 2)
    0.28
    """
    return 100 * 0.1 / diameter


@formula("sliding_land", "mm")
def sliding_land(stand: Any, lead_in: Any, chamfer: Any) -> Any:
    """What is left of the stand to slide [mm], between its lead-in and the body's chamfered mouth.

    land = stand - lead_in - chamfer

    stand [mm]; lead_in: chamfer at the ring's free edge [mm]; chamfer: of the body's mouth [mm].
    Source: plane geometry.

    >>> round(sliding_land(2.0, 0.3, 0.25), 2)
    1.45
    """
    return stand - lead_in - chamfer


@formula("diameter_per_length", "mm", "what a change of length does to the diameter")
def diameter_of(change: Any) -> Any:
    """Change of a ring's diameter [mm] for a change of its strip's length.

    change of diameter = change / pi

    change: of the strip's length [mm].
    Source: circumference of a circle.

    >>> round(diameter_of(0.1), 3)
    0.032
    """
    return change / pi
