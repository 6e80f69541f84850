"""Cones and frusta unrolled: from a cylinder's rectangle to a flat disc without a break."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from hollowright.shapes.curves import TURN
from hollowright.shapes.developments.band import Band, Level
from hollowright.shapes.developments.fibres import depth, positive

Ends = Literal["filed", "square"]
"""*filed*: the neutral surface ends at the form's own ends, whose edges are filed flat. *square*:
the blank, cut square, has enough metal at each arc that filing flat takes some and lacks none."""


@dataclass(frozen=True, slots=True)
class Frustum:
    """A cone's frustum as its neutral surface [mm]; a radius 0 is an apex, a height 0 a flat ring.

    `start` is the height of its base above the form's own base (below it for ends cut square).
    """

    base_radius: float
    top_radius: float
    height: float
    start: float = 0.0

    def __post_init__(self) -> None:
        """Refuse what has no surface."""
        low, high = self.base_radius, self.top_radius
        if not (low >= 0 and high >= 0 and self.height >= 0 and low + high > 0 and self.slant > 0):
            raise ValueError(f"no surface between radius {low} and {high}, {self.height} mm high")

    @property
    def slant(self) -> float:
        """Length along the surface's straight lines [mm]."""
        return math.hypot(self.height, self.base_radius - self.top_radius)

    @property
    def sine(self) -> float:
        """Sine of the half angle, positive where the form narrows upwards."""
        return (self.base_radius - self.top_radius) / self.slant

    @property
    def sector_angle(self) -> float:
        """Angle of the flat sector [rad]: 0 for a cylinder, 2 pi for a flat disc."""
        return TURN * abs(self.sine)

    @property
    def sector_outer_radius(self) -> float:
        """Radius of the flat's longer arc [mm]; infinite for a cylinder."""
        return self._sector(max(self.base_radius, self.top_radius))

    @property
    def sector_inner_radius(self) -> float:
        """Radius of the flat's shorter arc [mm], 0 for a full cone; infinite for a cylinder."""
        return self._sector(min(self.base_radius, self.top_radius))

    @property
    def area(self) -> float:
        """Area of the surface, and of the flat [mm2]: pi (r1 + r2) slant."""
        return math.pi * (self.base_radius + self.top_radius) * self.slant

    def band(self, seam: float = math.pi) -> Band:
        """The skin, height 0 at the base, opened at `seam` [rad]."""
        return Band(self.base_radius, self.sine, Level(0.0), Level(self.slant), seam)

    def _sector(self, radius: float) -> float:
        return radius / abs(self.sine) if self.sine else math.inf


def frustum(
    base_diameter: float,
    top_diameter: float,
    height: float,
    thickness: float = 0.0,
    ends: Ends = "filed",
    neutral: float = 0.5,
) -> Frustum:
    """The neutral surface of a cone or frustum of sheet, from its outside sizes [mm].

    The neutral line lies (1 - neutral) thickness / cos(half angle) inside the outside radius; a
    full cone's is clamped at its own apex. Ends cut square add, at the wide end, the neutral
    line's depth and, at the narrow end, the rest of the thickness, each x tan(half angle):
    (t / 2) tan(half angle) at mid-thickness. A height 0 is a flat ring, its sizes on the sheet.
    ValueError where the metal would fill the cone. Source: development of the cone, plane geometry.

    >>> cone = frustum(40, 24, 30, 0.8)
    >>> round(math.degrees(cone.sector_angle), 3)
    92.759
    >>> round(cone.sector_outer_radius, 3), round(cone.sector_inner_radius, 3)
    (76.014, 44.966)
    """
    if top_diameter > base_diameter:
        turned = frustum(top_diameter, base_diameter, height, thickness, ends, neutral)
        start = height - turned.start - turned.height
        return Frustum(turned.top_radius, turned.base_radius, turned.height, start)
    under = depth(thickness, neutral)
    _check(base_diameter, top_diameter, height, thickness, ends)
    wide, narrow = base_diameter / 2, top_diameter / 2
    if height == 0:
        return Frustum(wide, narrow, 0.0)
    tangent = (wide - narrow) / height
    aside = under * math.hypot(1.0, tangent)
    sine = tangent / math.hypot(1.0, tangent)
    below, above = (under * sine, (thickness - under) * sine) if ends == "square" else (0.0, 0.0)
    low = wide - aside + below * tangent
    high = narrow - aside - above * tangent
    if high < 0:
        return Frustum(low, 0.0, low / tangent, -below)
    return Frustum(low, high, height + below + above, -below)


def _check(base: float, top: float, height: float, thickness: float, ends: str) -> None:
    positive(base_diameter=base)
    if not (math.isfinite(height) and height >= 0):
        raise ValueError(f"height must be 0 mm or more, not {height}")
    if not top >= 0:
        raise ValueError(f"top_diameter must be 0 mm or more, not {top}")
    if ends not in ("filed", "square"):
        raise ValueError(f"ends must be filed or square, not {ends}")
    if height and thickness * math.hypot(1.0, (base - top) / 2 / height) >= base / 2:
        raise ValueError(f"sheet of {thickness} mm fills a cone {base} wide and {height} mm high")
