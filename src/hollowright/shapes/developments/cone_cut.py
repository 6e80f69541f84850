"""A cone or frustum cut by a plane, unrolled: the slanting edge of a spout, bell or funnel."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from hollowright.shapes.curves import TURN, EllipseArc
from hollowright.shapes.developments.band import Band, Level
from hollowright.shapes.developments.cone import Ends, Frustum, frustum
from hollowright.shapes.developments.fibres import Fibre, depth, radii


@dataclass(frozen=True, slots=True)
class SlantingEdge:
    """Where a plane meets a cone: height along the surface [mm] for each angle [rad].

    `cone` is the neutral surface, its base at height 0 of the form. The plane cuts the axis
    `height` [mm] above the form's base and leans `angle` [rad] from square, highest over angle 0.
    It is followed by the fibres from `inner` to `outer` [mm outwards from the neutral surface]: at
    each angle the one that the plane meets first. On a fibre d outside, with a the cone's radius
    lost and T the plane's height gained per length,
    z (1 + T a cos t) = height - d sin(half angle) + T cos t (base radius + d cos(half angle)).
    ValueError where the plane runs along the cone's side, or leaves it at base or top.
    """

    cone: Frustum
    angle: float
    height: float
    inner: float = 0.0
    outer: float = 0.0

    def __post_init__(self) -> None:
        """Refuse a plane that doesn't cut all the cone's straight lines."""
        if not abs(self.angle) < math.pi / 2 or abs(self.lean * self._taper) >= 1:
            half = math.degrees(math.asin(self.cone.sine))
            raise ValueError(
                f"a cut {math.degrees(self.angle):g} degrees from square doesn't cross every line "
                f"of a cone whose sides lean {half:.3f} degrees: stay under {90 - abs(half):.3f}"
            )
        ends = (self.along(0.0, self.inner), self.along(math.pi, self.outer))
        low, high = min(ends), max(ends)
        if low < 0 or high > self.cone.height * (1 + 1e-12):
            raise ValueError(
                f"the cut reaches from {low:.3f} to {high:.3f} mm above the base: "
                f"outside the cone, which is {self.cone.height:.3f} mm high"
            )

    @property
    def lean(self) -> float:
        """Height that the plane gains per length."""
        return math.tan(self.angle)

    @property
    def _taper(self) -> float:
        return (self.cone.base_radius - self.cone.top_radius) / self.cone.height

    def along(self, angle: float, out: float = 0.0) -> float:
        """Height above the base [mm] of the neutral surface under the fibre `out` [mm] outside."""
        rise = self.lean * math.cos(angle)
        sine, cosine = self.cone.sine, self.cone.height / self.cone.slant
        top = self.height - out * sine + rise * (self.cone.base_radius + out * cosine)
        return top / (1 + rise * self._taper)

    def __call__(self, angle: float) -> float:
        """Height along the surface [mm] of the edge that is cut square to the sheet."""
        least = min(self.along(angle, self.inner), self.along(angle, self.outer))
        return least * self.cone.slant / self.cone.height

    @property
    def corners(self) -> tuple[float, ...]:
        """Angles [rad] where the followed fibre changes: there T cos t cos = sin of half angle."""
        steep = abs(self.lean) * self.cone.height
        gap = self.cone.base_radius - self.cone.top_radius
        if self.inner == self.outer or steep <= abs(gap):
            return ()
        turn = math.acos(gap / (self.lean * self.cone.height))
        return (turn, -turn)

    def ellipse(self) -> EllipseArc:
        """The cut through the neutral surface in its own plane [mm], its long axis along x.

        Half axes: half the distance between the cut's ends, and the root of the product of the
        cone's radii there.
        """
        low, high = ((self._radius(t), self.along(t)) for t in (0.0, math.pi))
        major = math.hypot(low[0] + high[0], low[1] - high[1]) / 2
        minor = math.sqrt(low[0] * high[0])
        return EllipseArc((0.0, 0.0), (major, 0.0), (0.0, minor), 0.0, TURN)

    def _radius(self, angle: float) -> float:
        return self.cone.base_radius - self._taper * self.along(angle)


def cut_cone(
    base_diameter: float,
    top_diameter: float,
    height: float,
    cut_height: float,
    angle: float,
    thickness: float = 0.0,
    *,
    ends: Ends = "filed",
    fibre: Fibre | None = None,
    neutral: float = 0.5,
    seam: float = math.pi,
) -> Band:
    """The blank of a frustum (or full cone, or cylinder) cut slanting at its upper end.

    Outside sizes [mm] of the uncut form; the plane cuts its axis `cut_height` [mm] above the base,
    `angle` [rad] from square, highest over the angle 0. The base is as `ends` says; the cut follows
    `fibre`, or the neutral surface when that is None (filed to the plane). The seam [rad] lies on
    the lowest line by default. Errors as for `frustum` and `SlantingEdge`.

    >>> blank = cut_cone(40, 0, 60, 25, math.radians(20), 0.8)
    >>> round(blank.high(0), 3), round(blank.high(math.pi), 3)
    (30.2, 21.442)
    """
    form = frustum(base_diameter, top_diameter, height, thickness, "filed", neutral)
    under = depth(thickness, neutral)
    fibres = (0.0, 0.0) if fibre is None else radii(fibre, under - thickness, under)
    edge = SlantingEdge(form, angle, cut_height, *fibres)
    whole = frustum(base_diameter, top_diameter, height, thickness, ends, neutral)
    low = whole.start * form.slant / form.height
    skin = form.band(seam)
    return replace(
        skin, low=Level(low), high=edge if angle else Level(edge(0.0)), corners=edge.corners
    )
