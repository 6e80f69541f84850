"""A vessel seamed from stacked cones on a flat base, each end filed flat."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import pairwise

from hollowright.designs.stocks import temper_of
from hollowright.designs.strips import bent_strip
from hollowright.designs.vessel_base import base_joint, base_part
from hollowright.designs.vessel_form import UPRIGHT, Form, Made
from hollowright.designs.vessel_lines import Points, above, runs, straightened
from hollowright.designs.vessel_profile import from_points
from hollowright.designs.vessel_work import cones_work
from hollowright.errors import Caution
from hollowright.formulas import cone, dome, mass, raising, ring
from hollowright.piece import Blank, Joint, Part, Solid, Wall
from hollowright.quantity import Quantity, exact
from hollowright.shapes.curves import Point
from hollowright.shapes.developments.cone import Frustum
from hollowright.shapes.solids import FRONT_LEFT, Turned
from hollowright.units import format_number

ROUND = 1e-6  # ends whose diameters differ by less make a cylinder [mm]
STAGGER = math.radians(140)  # from one cone's seam to the next one's


@dataclass(frozen=True)
class Cone:
    """One cone of the stack: its number, outside ends and height [mm], where it stands."""

    form: Form
    number: int
    low: Quantity
    high: Quantity
    height: Quantity
    stands: float

    @property
    def id(self) -> str:
        """Its id, from the lowest up."""
        return f"cone_{self.number}"

    @property
    def label(self) -> str:
        """What it is called."""
        return f"cone {self.number}"

    @property
    def upright(self) -> bool:
        """Whether it is a cylinder."""
        return abs(self.low.value - self.high.value) < ROUND

    @property
    def slant(self) -> Quantity:
        """Length of its side, and of its seam [mm]."""
        wide, narrow = self._ends
        return self._named(cone.slant(wide, narrow, self.height), "slant", "slant")

    @property
    def _ends(self) -> tuple[Quantity, Quantity]:
        ends = (self.low, self.high)
        return (max(ends, key=lambda q: q.value), min(ends, key=lambda q: q.value))

    def _named(self, quantity: Quantity, id: str, label: str) -> Quantity:
        return quantity.named(f"{self.id}_{id}", f"{self.label}, {label}")

    def part(self) -> tuple[Part, tuple[Quantity, ...]]:
        """The cone as a part, and the numbers it comes from."""
        blank, weight, sizes = self._strip() if self.upright else self._sector()
        named = weight.named(f"{self.id}_mass", f"weight of {self.label}")
        made = Part(
            self.id, self.label, "sheet", blank, named, 1, (Solid(self.label, self._body()),)
        )
        return made, sizes

    def _strip(self) -> tuple[Blank, Quantity, tuple[Quantity, ...]]:
        t = self.form.thickness
        length = self._named(ring.length(self.low, t), "length", "length round")
        blank = bent_strip(length, self.height)
        weight = mass.strip_mass(length, self.height, t, self.form.density)
        return blank, weight, (self.low, self.height, length)

    def _sector(self) -> tuple[Blank, Quantity, tuple[Quantity, ...]]:
        t, slant, (wide, narrow) = self.form.thickness, self.slant, self._ends
        big, small = (
            self._named(cone.mid_radius(end, t, slant, self.height), f"mid_{id}", label)
            for end, id, label in (
                (wide, "wide", "middle of the sheet at the wide end"),
                (narrow, "narrow", "middle of the sheet at the narrow end"),
            )
        )
        if small.value <= 0:
            raise self.form.refuse(
                f"sheet of {format_number(t.value)} mm fills {self.label}.", "Take thinner sheet."
            )
        angle = self._named(cone.sector_angle(wide, narrow, slant), "sector_angle", "sector angle")
        outer, inner = (
            self._named(
                cone.sector_radius(mid, angle), f"{id}_radius", f"{id} radius of the sector"
            )
            for mid, id in ((big, "outer"), (small, "inner"))
        )
        sizes = {"sector_angle": angle, "sector_outer_radius": outer, "sector_inner_radius": inner}
        low, high = (big, small) if self.low is wide else (small, big)
        flat = Frustum(low.value, high.value, self.height.value).band().outline()
        blank = Blank("plate", flat, sizes,
                      grows={"sector_outer_radius": 1, "sector_inner_radius": -1},
                      shaped=True)  # fmt: skip
        weight = raising.skin_mass(raising.cone_area(big, small, slant), t, self.form.density)
        found = (self.low, self.high, self.height, slant, big, small, angle, outer, inner)
        return blank, weight, found

    def _body(self) -> Turned:
        low, high = self.low.value / 2, self.high.value / 2
        bottom, top = self.stands, self.stands + self.height.value
        across = self.form.thickness.value * math.hypot(1.0, (low - high) / self.height.value)
        section = ((low, bottom), (high, top), (high - across, top), (low - across, bottom))
        return Turned(self.id, section, seams=(FRONT_LEFT + STAGGER * (self.number - 1),))

    @property
    def lacks(self) -> float:
        """What its edges, cut square, lack at each arc when they are filed flat [mm]."""
        wide, narrow = self._ends
        return cone.square_extra(self.form.thickness, wide, narrow, self.height).value

    def wall(self) -> tuple[Wall, ...]:
        """Itself, where it is an upright wall that a spout may join."""
        if not self.upright or self.height.value < UPRIGHT:
            return ()
        metal, top = self.form.b.metal("sheet_metal"), self.stands + self.height.value
        temper = temper_of(self.form.b, "sheet")
        return (
            Wall(self.id, self.low, self.form.thickness, metal, self.stands, top, True, temper),
        )


def made(form: Form) -> Made:
    """The base, the cones from the lowest up, their seams and the work."""
    corners = _corners(form)
    form = replace(form, profile=from_points([(0.0, 0.0), *corners]))
    cones = [_cone(form, number, ends) for number, ends in enumerate(pairwise(corners), 1)]
    parts, numbers = zip(*(each.part() for each in cones), strict=True)
    base, based = base_part(form)

    def metal_below(thickness: float, level: float) -> float:
        return form.profile.filled(0.0, level) - _inside(corners, thickness, level)

    return Made(
        (*based, *(quantity for sizes in numbers for quantity in sizes)),
        (base, *parts),
        _joints(form, cones),
        cones_work(tuple(parts)),
        metal_below,
        form.profile,
        tuple(wall for each in cones for wall in each.wall()),
        _cautions(form, cones),
    )


def _corners(form: Form) -> Points:
    """The wall's corners on the outside, from the foot up; refused where no cones stand so."""
    profile, t = form.profile, form.thickness.value
    if profile.flat_base <= 0:
        raise form.refuse(
            "cones need a flat base to stand on.",
            "Begin with 0 0; 21 0, say, or take another way to make it.",
        )
    corners = _sides(form) if profile.curved else profile.wall
    if any(b[1] - a[1] < 1e-3 for a, b in pairwise(corners)):
        raise form.refuse(
            "a cone can't lie flat or turn back down.", "Let every side of it rise a little."
        )
    if corners[1][1] <= 1.5 * t or corners[0][0] <= t:
        raise form.refuse(
            f"its lowest cone is {format_number(corners[1][1])} mm high, and the base takes "
            f"{format_number(t)} of that.",
            "Make it higher; on a curve, allow more with cone_off.",
        )
    return corners


def _sides(form: Form) -> Points:
    """As few straight sides as follow a curve from its base's upper face, the first led down."""
    t, off = form.thickness.value, form.b.cone_off.value
    wall = above(form.profile.fine, t)
    try:
        pieces = [straightened(run, off) for run in runs(wall)]
    except ValueError as fault:
        raise form.b.refuse("cone_off", f"{fault}.", "Allow more.") from None
    corners = [*(point for piece in pieces for point in piece[:-1]), wall[-1]]
    (r, z), (r1, z1) = corners[:2]
    if z1 - z < 1e-3:
        raise form.refuse("a cone can't lie flat.", "Let its foot rise a little.")
    return ((r - (r1 - r) * z / (z1 - z), 0.0), *corners[1:])


def _cone(form: Form, number: int, ends: tuple[Point, Point]) -> Cone:
    """One cone between two corners; the lowest stands on the base instead of on the table."""
    (low, bottom), (high, top) = ends
    label, asked = f"cone {number}", "the profile"
    foot = exact(f"cone_{number}_low", f"{label}, outside diameter below", "mm", 2 * low, "asked",
                 asked)  # fmt: skip
    mouth = exact(f"cone_{number}_high", f"{label}, outside diameter above", "mm", 2 * high,
                  "asked", asked)  # fmt: skip
    height = exact(f"cone_{number}_height", f"{label}, height", "mm", top - bottom, "asked", asked)
    if number > 1:
        return Cone(form, number, foot, mouth, height, bottom)
    t = form.thickness
    if abs(low - high) > ROUND / 2:
        foot = raising.foot(foot, mouth, t, height).named("cone_1_low", foot.label)
    stands = raising.above_base(height, t).named("cone_1_height", "cone 1, height on the base")
    return Cone(form, number, foot, mouth, stands, t.value)


def _inside(corners: Points, thickness: float, level: float) -> float:
    """Volume inside a stack of cones on a base, up to a level [mm3]."""
    found = []
    for (low, bottom), (high, top) in pairwise(corners):
        lean = (high - low) / (top - bottom)
        across = thickness * math.hypot(1.0, lean)
        begin, end = max(bottom, thickness), min(top, level)
        if end > begin:
            a, b = (low + lean * (z - bottom) - across for z in (begin, end))
            found.append(math.pi / 3 * (a * a + a * b + b * b) * (end - begin))
    return math.fsum(found)


def _joints(form: Form, cones: list[Cone]) -> tuple[Joint, ...]:
    """Each cone's own seam, the base to the lowest, each cone to the next."""
    t = form.thickness
    seams = [
        Joint(f"{each.id}_seam", f"seam of {each.label}", (each.id,),
              each.height if each.upright else each.slant, t)
        for each in cones
    ]  # fmt: skip
    rounds = [
        Joint(f"{a.id}_to_{b.number}", f"{a.label} to {b.label}", (a.id, b.id),
              dome.girdle(a.high).named(f"{a.id}_top_round"), t,
              after=(f"{a.id}_seam", f"{b.id}_seam"))
        for a, b in pairwise(cones)
    ]  # fmt: skip
    return (*seams, *rounds, base_joint(form, cones[0].low, cones[0].id, ("cone_1_seam",)))


def _cautions(form: Form, cones: list[Cone]) -> tuple[Caution, ...]:
    """What the edges of a wide open cone lack."""
    margin = form.b.shop("edge_dressing").value / 2
    wide = [each for each in cones if not each.upright and each.lacks > margin]
    return tuple(
        Caution(
            f"{each.id}_lacks",
            f"{each.label}: its ends are filed flat; a blank cut square lacks "
            f"{format_number(each.lacks)} mm at each arc for that. Leave so much more there than "
            f"the {format_number(margin)} mm of dressing.",
            "blank", f"{each.id}_outer_radius",
        )
        for each in wide
    )  # fmt: skip
