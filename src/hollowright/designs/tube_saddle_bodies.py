"""A branch on a main in space, and its papers: the main's axis along x, the branch rising in z.

The papers are wrapped printed side out, so that seen from outside, the main's foot down, their x
runs to the right: that is towards -y. An offset therefore lies there in space.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from hollowright.designs.tube_paper import FIBRES
from hollowright.formulas import tube_skin
from hollowright.formulas.saddle_rim import Rim, least, most
from hollowright.formulas.saddle_search import edges
from hollowright.shapes.carved import Carved
from hollowright.shapes.curves import TURN
from hollowright.shapes.developments.band import Band, Level
from hollowright.shapes.developments.saddle import Joint, Saddle
from hollowright.shapes.frames import Frame
from hollowright.shapes.looped import Looped, Rail
from hollowright.shapes.outline import Outline, rectangle
from hollowright.shapes.solids import Turned, disc, tube
from hollowright.shapes.space import Vector

ROUND = 72
"""Points round a rail: 5 degrees each."""

PAST = 0.4
"""How far the body of the hole reaches past the wall on both sides [mm]."""


@dataclass(frozen=True)
class Crossing:
    """A branch on a main in plain numbers [mm, deg]; joint 'set-on' or 'let-in'; cut: the edge."""

    main: float
    main_wall: float
    branch: float
    branch_wall: float
    angle: float
    offset: float
    joint: Joint
    cut: str

    @property
    def seat(self) -> float:
        """Radius of the main's surface that the branch's edge meets [mm]."""
        return self.main / 2 - (self.main_wall if self.joint == "let-in" else 0.0)

    @property
    def bore(self) -> float:
        """Inner radius of the branch [mm]."""
        return self.branch / 2 - self.branch_wall

    @property
    def hole(self) -> float:
        """Radius of the hole in the main [mm]: the branch's bore, or let in its outside."""
        return self.bore if self.joint == "set-on" else self.branch / 2

    @property
    def rim(self) -> Rim:
        """The edge that the template follows."""
        low, high = {"outer": (self.branch / 2,) * 2, "inner": (self.bore,) * 2}.get(
            FIBRES[self.cut], (self.bore, self.branch / 2)
        )
        return Rim(self.seat, low, high, self.angle, self.offset)

    @property
    def way(self) -> Vector:
        """Unit vector along the branch."""
        turn = math.radians(self.angle)
        return (math.cos(turn), 0.0, math.sin(turn))

    def reach(self, seat: float, radius: float) -> tuple[float, float]:
        """From where to where a tube of this radius meets a main's surface, along x [mm]."""
        rim = Rim(seat, radius, radius, self.angle, self.offset)
        return (least(rim.along), most(rim.along))

    def paper(self, height: float, paper: float) -> Band:
        """The paper round the branch, its straight edge `height` [mm] from the main's axis."""
        radius = self.branch / 2 + paper / 2
        corners = (-math.pi / 2, math.pi / 2)
        return Band(radius, 0.0, self.rim, Level(height), corners=corners)

    def hole_paper(self, paper: float, width: float, length: float, shift: float) -> Outline:
        """The paper laid round the main over the hole, the hole's middle at 0, 0."""
        saddle = Saddle(
            self.main, self.main_wall, self.branch, self.branch_wall,
            math.radians(self.angle), self.offset, self.joint,
        )  # fmt: skip
        around = rectangle(width, length).moved(-width / 2, -length / 2)
        return Outline(around.segments, (saddle.hole(paper).moved(0.0, -shift),))

    def branch_body(self, length: float, volume: float) -> Looped:
        """The branch, its square end `length` [mm] from the main's axis along it."""
        turns = [i * TURN / ROUND for i in range(ROUND)]
        sizes = (self.seat, self.bore, self.branch / 2, self.angle, -self.offset)
        outer, inner = zip(*(edges(self.cut, *sizes, t) for t in turns), strict=True)
        flat = (length,) * ROUND
        rails = (
            self._rail(self.branch / 2, turns, outer), self._rail(self.branch / 2, turns, flat),
            self._rail(self.bore, turns, flat), self._rail(self.bore, turns, inner),
        )  # fmt: skip
        skin = BranchSkin(self, length)
        return Looped("branch", rails, exact_volume=volume, exact_surface=skin)

    def _rail(self, radius: float, turns: Sequence[float], depths: Sequence[float]) -> Rail:
        return tuple(self._at(radius, t, depth) for t, depth in zip(turns, depths, strict=True))

    def _at(self, radius: float, t: float, depth: float) -> Vector:
        """A point of the branch: round it at t [rad], `depth` [mm] along it."""
        c, s = self.way[0], self.way[2]
        aside = radius * math.cos(t)
        return (depth * c - aside * s, -self.offset + radius * math.sin(t), depth * s + aside * c)

    def hole_body(self) -> Turned:
        """What the hole takes out: a rod along the branch, from inside the wall to outside it."""
        flat = self.hole * abs(self.way[0])
        bore = self.main / 2 - self.main_wall
        side = bore * bore - (abs(self.offset) + self.hole) ** 2
        inside = max(0.0, (math.sqrt(max(0.0, side)) - flat) / self.way[2] - PAST)
        outer = Rim(self.main / 2, self.hole, self.hole, self.angle, self.offset)
        rod = disc("hole", 2 * self.hole, most(outer) + PAST - inside)
        start = (inside * self.way[0], -self.offset, inside * self.way[2])
        return rod.placed(Frame(start, self.way))

    def main_body(self, length: float, place: float, volume: float) -> Carved:
        """The main from x = -place on, with its hole."""
        whole = tube("main", self.main, self.main_wall, length)
        lying = whole.placed(Frame((-place, 0.0, 0.0), (1.0, 0.0, 0.0)))
        skin = MainSkin(self, length)
        return Carved("main", lying, (self.hole_body(),), volume, skin)


@dataclass(frozen=True)
class BranchSkin:
    """The whole surface of a branch [mm2], worked out when it is asked for."""

    crossing: Crossing
    length: float

    def __call__(self) -> float:
        """Of the branch from its square end, so far from the main's axis, to its edge."""
        c = self.crossing
        rim = Rim(c.seat, c.bore, c.branch / 2, c.angle, c.offset)
        return tube_skin.branch(c.cut, rim, self.length)


@dataclass(frozen=True)
class MainSkin:
    """The whole surface of a main with its hole [mm2], worked out when it is asked for."""

    crossing: Crossing
    length: float

    def __call__(self) -> float:
        """Of a main so long."""
        c = self.crossing
        hole = Rim(c.main / 2, c.hole, c.hole, c.angle, c.offset)
        return tube_skin.main(c.main / 2, c.main / 2 - c.main_wall, self.length, hole)
