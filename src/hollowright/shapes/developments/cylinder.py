"""Cylinders unrolled: plain wraps, and tubes cut by a plane, as blanks or as wrapped templates."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hollowright.shapes.curves import TURN, EllipseArc
from hollowright.shapes.developments.band import Band, Edge, Level
from hollowright.shapes.developments.fibres import Fibre, depth, positive, radii


@dataclass(frozen=True, slots=True)
class PlaneCut:
    """The edge of a tube cut by a plane that leans `angle` [rad] from square.

    height(a) = height + radius tan(angle) cos(a - longest), the radius being the followed fibre's:
    from `inner` to `outer` [mm], at each angle the one that the plane meets first. `height` [mm] is
    where the plane cuts the axis, `longest` [rad] where the tube is longest, `facing` 1 for a top
    edge and -1 for a bottom one.
    """

    inner: float
    outer: float
    angle: float
    height: float = 0.0
    longest: float = 0.0
    facing: int = 1

    def __post_init__(self) -> None:
        """Refuse a plane that runs along the tube."""
        positive(outer=self.outer)
        if not abs(self.angle) < math.pi / 2:
            raise ValueError(
                f"angle must be less than 90 degrees from square, not {math.degrees(self.angle):g}"
            )

    def __call__(self, angle: float) -> float:
        """Height of the edge [mm] at an angle [rad]."""
        lean = math.tan(self.angle) * math.cos(angle - self.longest)
        rise = min(self.inner * lean, self.outer * lean)
        return self.height + self.facing * rise

    @property
    def amplitude(self) -> float:
        """How far the outermost followed fibre rises above and falls below the axis's cut [mm]."""
        return self.outer * abs(math.tan(self.angle))

    @property
    def corners(self) -> tuple[float, ...]:
        """Angles [rad] where the followed fibre changes, so that the edge has a kink."""
        if self.inner == self.outer:
            return ()
        return (self.longest + math.pi / 2, self.longest - math.pi / 2)


def cut_ellipse(radius: float, angle: float) -> EllipseArc:
    """The ellipse that a plane cuts from a cylinder [mm], its long axis along x.

    Half axes: radius and radius / cos(angle), the angle [rad] from square. Its `length()` is the
    cut's perimeter, 4 a E(m) with m = 1 - (b / a)^2 (DLMF 19.9.9).

    >>> round(cut_ellipse(10, math.radians(45)).length(), 5)
    76.40396
    """
    positive(radius=radius)
    major = radius / math.cos(angle)
    return EllipseArc((0.0, 0.0), (major, 0.0), (0.0, radius), 0.0, TURN)


def proud(outer: float, inner: float, angle: float) -> float:
    """How far the wall stands past the plane where a square cut follows one fibre only [mm].

    A square edge along the inner fibre is clear of the plane on the tube's long side and stands
    past it by up to (outer - inner) tan(angle) on the short side, in the outer fibre; one along the
    outer fibre does so on the long side, in the inner fibre. That much is filed to the bevel.

    >>> round(proud(10, 9.2, math.radians(30)), 3)
    0.462
    """
    return (outer - inner) * abs(math.tan(angle))


def wrap(
    outside_diameter: float,
    height: float,
    thickness: float = 0.0,
    neutral: float = 0.5,
    seam: float = math.pi,
) -> Band:
    """A plain cylinder's blank: pi (outside diameter - 2 (1 - neutral) thickness) by its height.

    Diameter, height and thickness [mm]; `neutral` as in `fibres.depth`; `seam` [rad]. ValueError
    where the metal leaves no neutral line. A strip bent round: as formulas, circumference of the
    neutral line.

    >>> round(wrap(40, 30, 1.0).outline().width, 3)
    122.522
    """
    positive(outside_diameter=outside_diameter, height=height)
    radius = outside_diameter / 2 - depth(thickness, neutral)
    if radius <= 0 or thickness > outside_diameter / 2:
        raise ValueError(f"a wall of {thickness} mm fills a tube of {outside_diameter} mm")
    return Band(radius, 0.0, Level(0.0), Level(height), seam)


def mitre_template(
    outside_diameter: float,
    wall: float,
    angle: float,
    length: float,
    *,
    fibre: Fibre = "inner",
    paper: float = 0.0,
    low_angle: float = 0.0,
    twist: float = 0.0,
) -> Band:
    """The paper wrapped round a tube to mark a cut by a plane, or one at each end.

    `length` [mm] along the axis; `angle` and `low_angle` [rad] of the top and the bottom cut from
    square; `twist` [rad] from the top's longest line to the bottom's. `paper` [mm] thick, it lies
    with its middle paper / 2 outside the tube: pi x paper longer than the tube's circumference.
    The edges follow `fibre`: inner for a square cut, outer for a bevelled one. The seam lies on
    the top's shortest line. ValueError where the tube has no bore or the cuts meet.

    >>> template = mitre_template(20, 0.8, math.radians(30), 60, paper=0.1)
    >>> round(template.outline().width, 3), round(template.high(0) - template.high(math.pi), 3)
    (63.146, 10.623)
    """
    inner, outer = _wall(outside_diameter, wall)
    edges = _edges(radii(fibre, inner, outer), (low_angle, angle), length, twist)
    return _between(outer + depth(paper, 0.5), edges)


def mitre_blank(
    outside_diameter: float,
    wall: float,
    angle: float,
    length: float,
    *,
    fibre: Fibre = "inner",
    neutral: float = 0.5,
    low_angle: float = 0.0,
    twist: float = 0.0,
) -> Band:
    """The sheet that rolls up to a tube cut by a plane, on its neutral surface.

    Sizes as for `mitre_template`; the length is pi x the neutral diameter, and the edges, cut
    square to the sheet, follow `fibre` of the rolled-up wall.

    >>> round(mitre_blank(20, 0.8, math.radians(30), 60).outline().width, 3)
    60.319
    """
    inner, outer = _wall(outside_diameter, wall)
    edges = _edges(radii(fibre, inner, outer), (low_angle, angle), length, twist)
    return _between(outer - depth(wall, neutral), edges)


def elbow_cuts(angle: float, pieces: int) -> tuple[float, ...]:
    """Angles [rad] of an elbow's mitre lines from its first end, for `pieces` pieces of tube.

    The end pieces are half as long as the others, so the lines rise at odd multiples of
    angle / (2 (pieces - 1)), which is also each cut's own angle from square.
    Source: Longfield, Sheet Metal Drafting (1921), on elbows.

    >>> [round(math.degrees(cut), 2) for cut in elbow_cuts(math.radians(90), 5)]
    [11.25, 33.75, 56.25, 78.75]
    """
    if pieces < 2:
        raise ValueError(f"an elbow needs 2 pieces at least, not {pieces}")
    backset = angle / (2 * (pieces - 1))
    return tuple((2 * i + 1) * backset for i in range(pieces - 1))


def _wall(outside_diameter: float, wall: float) -> tuple[float, float]:
    positive(outside_diameter=outside_diameter, wall=wall)
    outer = outside_diameter / 2
    if wall >= outer:
        raise ValueError(f"a wall of {wall} mm fills a tube of {outside_diameter} mm")
    return outer - wall, outer


def _edges(
    fibres: tuple[float, float], angles: tuple[float, float], length: float, twist: float
) -> tuple[PlaneCut, PlaneCut]:
    positive(length=length)
    low = PlaneCut(*fibres, angles[0], longest=twist, facing=-1)
    return low, PlaneCut(*fibres, angles[1], length)


def _between(radius: float, edges: tuple[PlaneCut, PlaneCut]) -> Band:
    low, high = (_flattened(edge) for edge in edges)
    kinks = {corner for edge in edges if edge.angle for corner in edge.corners}
    return Band(radius, 0.0, low, high, corners=tuple(sorted(kinks)))


def _flattened(edge: PlaneCut) -> Edge:
    return edge if edge.angle else Level(edge.height)
