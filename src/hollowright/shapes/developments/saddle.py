"""Cylinder on cylinder at any angle and offset: the branch's edge and the hole in the main."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import Literal

from hollowright.shapes.curves import TURN, Curve, Point, integral
from hollowright.shapes.developments.band import Band, Level
from hollowright.shapes.developments.fibres import Fibre, depth, positive, radii
from hollowright.shapes.developments.tracing import Flat, chords, cubics, without_repeats
from hollowright.shapes.outline import Outline
from hollowright.shapes.space import Vector

Joint = Literal["set-on", "let-in"]
"""*set-on*: the branch stands on the main's outside and the hole follows the branch's bore.
*let-in*: the branch's end reaches the main's bore and the hole takes the branch's outside.
Both holes are drawn on the main's outside, and cut from there along the branch."""

TOUCHING = 1e-9  # share of the main's radius


@dataclass(frozen=True, slots=True)
class Crossing:
    """The curve where a branch of one radius enters a main of another [mm].

    The main's axis is x, its radius `main`. The branch's axis leaves it, or passes it `offset` [mm]
    to its side (y), at `angle` [rad] from x towards z. The parameter t [rad] runs round the branch
    from the line on the side of the obtuse angle (the nearer one, for an angle under 90 degrees);
    t = 90 degrees lies towards y.
    depth(t) = (sqrt(main^2 - (offset + branch sin t)^2) - branch cos t cos(angle)) / sin(angle)
    ValueError, with the figures, where the branch misses the main.
    """

    main: float
    branch: float
    angle: float = math.pi / 2
    offset: float = 0.0

    def __post_init__(self) -> None:
        """Refuse a branch that misses the main or runs along it."""
        positive(main=self.main, branch=self.branch)
        if not 0 < self.angle < math.pi:
            raise ValueError(
                "angle between the axes must lie between 0 and 180 degrees, "
                f"not {math.degrees(self.angle):g}"
            )
        reach = abs(self.offset) + self.branch
        if not reach <= self.main * (1 + TOUCHING):
            raise ValueError(
                f"the branch misses the main: offset {abs(self.offset):g} + branch radius "
                f"{self.branch:g} = {reach:g} mm, more than the main's radius {self.main:g} mm"
            )

    def depth(self, t: float) -> float:
        """Distance of the curve from the main's axis, along the branch [mm]."""
        above = self._height(self.offset + self.branch * math.sin(t))
        return (above - self.branch * math.cos(t) * math.cos(self.angle)) / math.sin(self.angle)

    def hole(self, t: float) -> Point:
        """The curve on the main: angle from the main's top towards y [rad], place along x [mm]."""
        y = self.offset + self.branch * math.sin(t)
        return (math.atan2(y, self._height(y)), self._along(t))

    def space(self, t: float) -> Vector:
        """The point of the curve in space [mm]."""
        y = self.offset + self.branch * math.sin(t)
        return (self._along(t), y, self._height(y))

    def length(self) -> float:
        """Length of the curve in space [mm], by quadrature between its corners."""
        ends = (-math.pi, *self.corners, math.pi)
        return sum(integral(self._speed, a, b) for a, b in pairwise(ends))

    @property
    def corners(self) -> tuple[float, ...]:
        """The t [rad] where the curve has a kink if the branch's side touches the main's."""
        return (-math.pi / 2, math.pi / 2)

    def _height(self, y: float) -> float:
        return math.sqrt(max(0.0, (self.main - y) * (self.main + y)))

    def _along(self, t: float) -> float:
        return self.depth(t) * math.cos(self.angle) - self.branch * math.cos(t) * math.sin(
            self.angle
        )

    def _speed(self, t: float) -> float:
        y = self.offset + self.branch * math.sin(t)
        across = self.branch * math.cos(t)
        height = self._height(y)
        up = -y * across / height if height else 0.0
        c, s = math.cos(self.angle), math.sin(self.angle)
        deeper = (up + self.branch * math.sin(t) * c) / s
        return math.hypot(deeper, self.branch)


@dataclass(frozen=True)
class Saddle:
    """A branch of tube on a main of tube, with real walls [mm]; `offset` and `angle` as Crossing's.

    The branch's edge follows `fibre`: inner for a square cut, outer for a bevelled one, first for
    a square cut that closes all round (the three agree on the inner one at 90 degrees without
    offset). It stands on the main's outside, or let in on its bore, by `joint`.
    """

    main_outside_diameter: float
    main_wall: float
    branch_outside_diameter: float
    branch_wall: float
    angle: float = math.pi / 2
    offset: float = 0.0
    joint: Joint = "set-on"
    fibre: Fibre = "inner"

    def __post_init__(self) -> None:
        """Refuse walls that leave no bore, and a branch whose outside misses the seat."""
        positive(main_wall=self.main_wall, branch_wall=self.branch_wall)
        if self.joint not in ("set-on", "let-in"):
            raise ValueError(f"joint must be set-on or let-in, not {self.joint}")
        for name in ("main", "branch"):
            outside = getattr(self, f"{name}_outside_diameter")
            if getattr(self, f"{name}_wall") >= outside / 2:
                raise ValueError(f"the {name}'s wall fills its tube of {outside} mm")
        Crossing(self.seat, self.branch_outside_diameter / 2, self.angle, self.offset)

    @property
    def seat(self) -> float:
        """Radius of the main's surface that the branch's edge meets [mm]: outside, or bore."""
        outside = self.main_outside_diameter / 2
        return outside if self.joint == "set-on" else outside - self.main_wall

    @cached_property
    def _fibres(self) -> tuple[float, float]:
        outer = self.branch_outside_diameter / 2
        return radii(self.fibre, outer - self.branch_wall, outer)

    def edge(self, t: float) -> float:
        """Distance of the branch's edge from the main's axis, along the branch [mm].

        >>> round(Saddle(40, 1, 20, 1).edge(math.pi / 2), 3)
        17.861
        >>> round(Saddle(40, 1, 20, 1, fibre="outer").edge(math.pi / 2), 3)
        17.321
        """
        return Crossing(self.seat, self.touching(t), self.angle, self.offset).depth(t)

    def touching(self, t: float) -> float:
        """Radius of the branch's fibre that the edge follows at t [mm].

        For `first` it is where depth is greatest over the wall: depth is concave in the radius, so
        that is where its slope is 0, or the nearer end of the wall.
        """
        low, high = self._fibres
        across, lean = math.sin(t), math.cos(t) * math.cos(self.angle)
        if low == high:
            return low
        if abs(across) < 1e-12:
            return high if lean < 0 else low
        k = -lean / across
        best = (self.seat * k / math.hypot(1.0, k) - self.offset) / across
        return min(max(best, low), high)

    def branch_template(self, length: float, paper: float = 0.0) -> Band:
        """The paper wrapped round the branch, saddled at its low edge.

        Heights run along the branch from the main's axis: the top edge is `length` [mm] above the
        deepest point. The seam lies on the shortest line, t = 180 degrees; `paper` as in
        `cylinder.mitre_template`. ValueError where the branch is shorter than its saddle.
        """
        radius = self.branch_outside_diameter / 2 + depth(paper, 0.5)
        return self._skin(radius, length)

    def branch_blank(self, length: float, neutral: float = 0.5) -> Band:
        """The sheet that rolls up to the branch, on its neutral surface, its edges cut square."""
        radius = self.branch_outside_diameter / 2 - depth(self.branch_wall, neutral)
        return self._skin(radius, length)

    def _skin(self, radius: float, length: float) -> Band:
        positive(length=length)
        deepest = min(self.edge(i * TURN / 720) for i in range(720))
        corners = (-math.pi / 2, math.pi / 2)
        return Band(radius, 0.0, self.edge, Level(deepest + length), corners=corners)

    @property
    def drop(self) -> float:
        """Height of the saddle: greatest less least depth of the edge [mm], to 0.01 %."""
        depths = [self.edge(i * TURN / 720) for i in range(720)]
        return max(depths) - min(depths)

    @property
    def hole_crossing(self) -> Crossing:
        """The hole's curve on the main's outside: of the branch's bore; let in, its outside."""
        outer = self.branch_outside_diameter / 2
        branch = outer - self.branch_wall if self.joint == "set-on" else outer
        return Crossing(self.main_outside_diameter / 2, branch, self.angle, self.offset)

    def main_skin(self, length: float, paper: float = 0.0) -> Band:
        """The main's outside from x = -length / 2 to length / 2 [mm], seam opposite the hole."""
        positive(length=length)
        radius = self.main_outside_diameter / 2 + depth(paper, 0.5)
        seam = self._hole_middle() + math.pi
        return Band(radius, 0.0, Level(-length / 2), Level(length / 2), seam)

    def hole(self, paper: float = 0.0, tolerance: float = 1e-3) -> Outline:
        """The hole on paper wrapped round the main's outside: x round it [mm], y along it.

        The curve where the branch's bore, or let in its outside, breaks through the main's outside:
        the hole is cut along the branch from there. x = 0 is the middle of the hole.
        """
        ends = (-math.pi, *self.hole_crossing.corners, math.pi)
        curves: list[Curve] = [*cubics(self._on_paper(paper), ends, tolerance)]
        return Outline(tuple(curves))

    def hole_points(self, paper: float = 0.0, tolerance: float = 1e-3) -> tuple[Point, ...]:
        """The hole as a polygon, no chord further off than `tolerance` [mm]; see `hole`."""
        ends = (-math.pi, *self.hole_crossing.corners, math.pi)
        return without_repeats(chords(self._on_paper(paper), ends, tolerance))

    def main_template(self, length: float, paper: float = 0.0, tolerance: float = 1e-3) -> Outline:
        """The paper wrapped round the main with its hole: `main_skin` and `hole` in one."""
        whole = self.main_skin(length, paper).outline(tolerance)
        return Outline(whole.segments, (self.hole(paper, tolerance),))

    def _hole_middle(self) -> float:
        turns = [self.hole_crossing.hole(t)[0] for t in (-math.pi / 2, math.pi / 2)]
        return sum(turns) / 2

    def _on_paper(self, paper: float) -> Flat:
        skin = self.main_skin(1.0, paper)
        crossing = self.hole_crossing

        def place(t: float) -> Point:
            return skin.flat(*crossing.hole(t))

        return place
