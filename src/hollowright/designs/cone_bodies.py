"""A cone's flat and its body: where the sheet's middle unrolls to, and the form that it makes."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hollowright.piece import Scribe
from hollowright.shapes.bodies import Body
from hollowright.shapes.curves import TURN, Line, Point
from hollowright.shapes.developments.band import Band
from hollowright.shapes.developments.cone import Ends, frustum
from hollowright.shapes.developments.cone_cut import cut_cone
from hollowright.shapes.looped import Looped, Rail
from hollowright.shapes.solids import FRONT_LEFT, Turned

BENDS = 8
"""Into so many strips the bending lines divide the flat."""

ROUND = 72
"""Points round a rail: 5 degrees each."""


@dataclass(frozen=True)
class Form:
    """A cone of sheet in plain numbers [mm]; cut: height and angle [rad] of a slanting cut."""

    base: float
    top: float
    height: float
    thickness: float
    ends: Ends = "filed"
    cut: tuple[float, float] | None = None

    @property
    def taper(self) -> float:
        """Radius lost per height."""
        return (self.base - self.top) / 2 / self.height

    @property
    def across(self) -> float:
        """The sheet's thickness measured along an end [mm]."""
        return self.thickness * math.hypot(1.0, self.taper)

    def flat(self) -> Band:
        """The skin of the sheet's middle, which the blank is."""
        sizes = (self.base, self.top, self.height)
        if self.cut is None:
            return frustum(*sizes, self.thickness, self.ends).band()
        return cut_cone(*sizes, *self.cut, self.thickness, ends=self.ends)

    def at_cut(self, radius: float, turn: float) -> float:
        """Height [mm] at which the cut crosses a surface of this base radius, at a turn [rad]."""
        height, angle = self.cut or (self.height, 0.0)
        rise = math.tan(angle) * math.cos(turn)
        return (height + rise * radius) / (1 + rise * self.taper)

    def body(self, id: str, volume: float | None = None) -> Body:
        """The cone standing on its base; the cut one has its seam on the shortest line."""
        return self._turned(id) if self.cut is None else self._cut(id, volume)

    def _turned(self, id: str) -> Turned:
        wide, narrow = max(self.base, self.top) / 2, min(self.base, self.top) / 2
        steep, inner = abs(self.taper), narrow - self.across
        corners: list[Point] = [(wide - self.across, 0.0), (wide, 0.0), (narrow, self.height)]
        if inner > 0:
            corners.append((inner, self.height))
        else:
            corners += [(0.0, self.height)] if narrow > 0 else []
            corners.append((0.0, (wide - self.across) / steep))
        if self.top > self.base:
            corners = [(r, self.height - z) for r, z in corners]
        return Turned(id, tuple(corners), seams=(FRONT_LEFT,))

    def _cut(self, id: str, volume: float | None) -> Looped:
        outer, inner = self.base / 2, self.base / 2 - self.across
        rails = (
            self._rail(outer, False), self._rail(outer, True),
            self._rail(inner, True), self._rail(inner, False),
        )  # fmt: skip
        return Looped(id, rails, (ROUND // 2,), volume, Skin(self))

    def _rail(self, radius: float, high: bool) -> Rail:
        turns = [i * TURN / ROUND for i in range(ROUND)]
        heights = [self.at_cut(radius, turn) if high else 0.0 for turn in turns]
        return tuple(
            ((radius - self.taper * z) * math.cos(t), (radius - self.taper * z) * math.sin(t), z)
            for t, z in zip(turns, heights, strict=True)
        )


@dataclass(frozen=True)
class Skin:
    """The whole surface of a cone that is cut slanting [mm2], worked out when it is asked for."""

    form: Form

    def __call__(self) -> float:
        """Both sides, the base's ring and the cut's: sums round the cone, exact to all digits."""
        form, taper = self.form, self.form.taper
        (outer, out_area), (inner, in_area) = map(
            self._round, (form.base, form.base - 2 * form.across)
        )
        ring = math.pi / 4 * (form.base**2 - (form.base - 2 * form.across) ** 2)
        _, angle = form.cut or (form.height, 0.0)
        return (
            math.hypot(1.0, taper) * (outer + inner) + ring + (out_area - in_area) / math.cos(angle)
        )

    def _round(self, base: float) -> tuple[float, float]:
        """Of a surface of this base: its side seen square [mm2], its cut seen from above [mm2]."""
        radius, taper, step = base / 2, self.form.taper, TURN / ROUND
        heights = [self.form.at_cut(radius, i * step) for i in range(ROUND)]
        side = math.fsum(z * (radius - taper * z / 2) for z in heights)
        return step * side, step / 2 * math.fsum((radius - taper * z) ** 2 for z in heights)


def bend_lines(flat: Band, dx: float = 0.0) -> tuple[Scribe, ...]:
    """Lines along the flat to bend over, evenly round it, shifted by dx [mm]."""
    turns = [flat.middle + TURN * (i / BENDS - 0.5) for i in range(1, BENDS)]
    ends = [(flat.flat(t, flat.low(t)), flat.flat(t, flat.high(t))) for t in turns]
    return tuple(Scribe(Line(a, b).moved(dx, 0.0), "bend over this line", "fold") for a, b in ends)
