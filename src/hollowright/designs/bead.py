"""A hollow bead: two domes, from a lentil to a sphere, soldered at the girdle, with a hole."""

from __future__ import annotations

import math
from collections.abc import Sequence

from hollowright.designs.bead_cups import sequence
from hollowright.designs.bead_work import bead_work
from hollowright.designs.brief import Brief
from hollowright.designs.fields import Design, Example, Field
from hollowright.designs.stocks import density, sheet_fields, sheet_stock
from hollowright.errors import Caution
from hollowright.formulas import allowance, dome
from hollowright.piece import Blank, Joint, Part, Piece, Solid, by_id
from hollowright.quantity import Quantity
from hollowright.shapes.curves import Point
from hollowright.shapes.outline import disc
from hollowright.shapes.solids import Turned
from hollowright.units import format_number

STEP = math.radians(2)
"""Chord of a dome's drawn profile, seen from the sphere's middle [rad]."""

ROUNDED = 0.01
"""A sphere's rise may be rounded up by so much [mm]."""

FIELDS = (
    *sheet_fields("sheet", "sheet", "0.6 mm"),
    Field(
        "sizes.diameter", "diameter", "length", "diameter", "across the girdle, outside", "16 mm",
        required=True, low=3, high=200,
    ),
    Field(
        "sizes.rise", "rise", "length", "rise of each dome",
        "outside; half the diameter makes a sphere, less a lentil", "8 mm", required=True, low=0.5,
        high=100,
    ),
    Field(
        "sizes.hole", "hole", "length", "hole",
        "through both domes; left empty it follows the cord", "2 mm", low=0.3, high=60,
    ),
    Field(
        "sizes.cord", "cord", "length", "cord", "its thickness, pulled snug", "1.5 mm", low=0.1,
        high=50,
    ),
    Field(
        "sizes.cups", "cups", "points", "cups of your block",
        "across each cup and its depth; left empty, a usual block's", "32 12.5; 25 11; 20 9.5",
    ),
    Field(
        "as_built.diameter", "built_diameter", "readings", "diameter as built",
        "across the trued rim, round it", "16.05 mm", low=3, high=200, around=True,
    ),
    Field(
        "as_built.rise", "built_rise", "readings", "rise as built",
        "of a trued dome standing on a flat", "7.95 mm", low=0.5, high=100,
    ),
)  # fmt: skip


def build(b: Brief) -> Piece:
    """The piece of a brief: every size net, every number with its working."""
    thickness = b.sheet_thickness
    hole = _hole(b)
    planned = _Dome(b, b.diameter, b.rise, hole, "")
    diameter, rise = b.built(b.diameter), b.built(b.rise)
    built = diameter is not b.diameter or rise is not b.rise
    made = _Dome(b, diameter, rise, hole, "as built") if built else planned
    blank = dome.blank(planned.mid_base, planned.mid_rise)
    by_arc = dome.blank_by_arc(planned.mid_base, planned.mid_rise)
    cut = allowance.trimmed_cut(blank, b.shop("dome_rim"))
    cups = sequence(b, cut, planned.radius, thickness)
    weight = dome.dome_mass(
        made.cap, made.hollow, made.core, made.hollow_core, density(b.metal("sheet_metal"))
    ).named("dome_mass", "weight of a dome")
    girdle = dome.girdle(diameter)
    land = dome.rim_land(diameter, made.radius, thickness)
    thinning = [
        dome.crown_thickness(thickness, b.shop(f"dome_thinning_{end}"), rise, made.radius)
        .named(f"crown_{end_of}", f"crown's thickness, at {end_of}")
        for end, end_of in (("most", "least"), ("least", "most"))
    ]  # fmt: skip
    part = Part(
        "dome", "dome", "sheet",
        Blank("disc", disc(blank.value), {"diameter": blank}, trimmed=True, rim="dome_rim",
              shaped=True),
        weight, 2, made.solids,
    )  # fmt: skip
    return Piece(
        title=b.title,
        design="bead",
        quantities=by_id(
            thickness, diameter, rise, hole, *([b.cord] if b.has("cord") else []),
            made.radius, made.inside_radius, made.inside_rise, made.mid_base, made.mid_rise,
            blank, by_arc, dome.thickness_by_arc(thickness, by_arc, blank), *thinning,
            b.shop("dome_rim"), *cups.quantities, girdle, land,
            dome.inside_volume(made.hollow), dome.held_head(hole),
        ),
        stocks=(sheet_stock(b, "sheet", "sheet"),),
        parts=(part,),
        joints=(Joint("girdle", "seam round the girdle", ("dome",), girdle, land, shows=True),),
        fits=(),
        work=bead_work(cups),
        cautions=(*b.cautions, *_cautions(hole, diameter, land)),
        choices=cups.choices,
        changes=tuple(b.changes),
        inches=b.inches,
    )  # fmt: skip


def _hole(b: Brief) -> Quantity:
    """The hole asked for, or the one that the cord needs; refused where the cord won't go in."""
    if not b.has("hole"):
        if not b.has("cord"):
            raise b.refuse("hole", "neither hole nor cord is given.", "Write 2 mm, say: it vents.")
        return dome.hole_for(b.cord, b.shop("cord_room"))
    if b.has("cord") and b.cord.value >= b.hole.value:
        raise b.refuse(
            "hole", f"a cord of {format_number(b.cord.value)} mm doesn't go through it.",
            f"Write {format_number(b.cord.value + b.shop('cord_room').value)} mm, say.",
        )  # fmt: skip
    return b.hole


class _Dome:
    """A dome's spheres and volumes from its outside sizes; refused where there is no dome."""

    def __init__(self, b: Brief, diameter: Quantity, rise: Quantity, hole: Quantity, how: str):
        thickness = b.sheet_thickness
        _check(b, diameter.value, rise.value, thickness.value, hole.value, how)
        self.radius = dome.radius(diameter, rise)
        self.inside_radius = dome.less_thickness(self.radius, thickness)
        self.inside_rise = dome.less_thickness(rise, thickness).named(
            "inside_rise", "rise of the dome's inside"
        )
        self.mid_base = dome.mid_base(diameter, self.radius, thickness)
        self.mid_rise = dome.mid_rise(rise, thickness)
        self.cap = dome.cap_volume(self.radius, rise).named("cap", "volume to the outside")
        self.hollow = dome.cap_volume(self.inside_radius, self.inside_rise).named(
            "hollow", "volume to the inside"
        )
        self.core = dome.core_volume(self.radius, hole).named("core", "outer sphere over the hole")
        self.hollow_core = dome.core_volume(self.inside_radius, hole).named(
            "hollow_core", "inner sphere over the hole"
        )
        self.rise, self.hole = rise, hole

    @property
    def solids(self) -> tuple[Solid, ...]:
        """Both domes in their place, rim on rim, the lower one's crown on the table."""
        outer, inner = self.radius.value, self.inside_radius.value
        rise, hole = self.rise.value, self.hole.value / 2
        section = dome_section(outer, inner, rise, hole)
        metal = self.cap.value - self.hollow.value - self.core.value + self.hollow_core.value
        lower = tuple((r, rise - z) for r, z in section)
        upper = tuple((r, rise + z) for r, z in section)
        return tuple(
            Solid(label, Turned(id, profile, exact_volume=metal))
            for label, id, profile in (
                ("lower dome", "dome_low", lower),
                ("upper dome", "dome_high", upper),
            )
        )


def dome_section(outer: float, inner: float, rise: float, hole: float) -> tuple[Point, ...]:
    """Half the section of a dome above its rim [mm]: up the outside, through the hole, down inside.

    outer, inner: radii of its spheres; rise: outside; hole: its radius [mm].
    """
    middle = rise - outer  # height of the spheres' centre over the rim's plane
    outside = _arc(outer, middle, hole)
    return (*outside, *reversed(_arc(inner, middle, hole)))


def _arc(radius: float, middle: float, hole: float) -> list[Point]:
    """Points from the rim's plane up to the hole, on a sphere round (0, middle) [mm]."""
    first, last = math.acos(-middle / radius), math.asin(hole / radius)
    count = max(4, math.ceil((first - last) / STEP))
    angles: Sequence[float] = [first + (last - first) * i / count for i in range(count + 1)]
    points = [(radius * math.sin(a), middle + radius * math.cos(a)) for a in angles]
    return [(points[0][0], 0.0), *points[1:]]


def _check(b: Brief, diameter: float, rise: float, thickness: float, hole: float, how: str) -> None:
    """Refuse a dome that is deeper than half a sphere, or has no inside, or only a hole."""
    half = diameter / 2
    built = "built_" if how else ""
    if rise > half + ROUNDED:
        raise b.refuse(
            f"{built}rise" if not how or b.has("built_rise") else "built_diameter",
            f"{format_number(rise)} mm is more than half the diameter, "
            f"{format_number(half)} mm: deeper than a sphere, it won't come out of the cup.",
            f"Write {format_number(half)} mm for a sphere, or less for a lentil.",
        )  # fmt: skip
    if rise <= 1.5 * thickness:
        raise b.refuse(
            "rise", f"{format_number(rise)} mm leaves no hollow in sheet of "
            f"{format_number(thickness)} mm.", "Make the dome deeper, or take thinner sheet.",
        )  # fmt: skip
    sphere = (half * half + rise * rise) / (2 * rise)
    inside = math.sqrt((sphere - thickness) ** 2 - (sphere - rise) ** 2)
    if hole / 2 >= inside * 0.9:
        raise b.refuse(
            "hole" if b.has("hole") else "cord",
            f"a hole of {format_number(hole)} mm leaves no dome round it.",
            f"Make it smaller than {format_number(1.8 * inside)} mm.",
        )  # fmt: skip


def _cautions(hole: Quantity, diameter: Quantity, land: Quantity) -> tuple[Caution, ...]:
    """What to mind of a hole that is small and of a rim that is thin."""
    found = []
    held = dome.held_head(hole).value
    if held > diameter.value:
        found.append(Caution(
            "hole_holds_water",
            f"A hole of {format_number(hole.value)} mm holds back {format_number(held, 0)} mm of "
            f"water, more than the bead is wide: pickle and rinse stay in it unless they are "
            "boiled out. A larger hole is safer.",
            "hole", "hole",
        ))  # fmt: skip
    if land.value < 0.4:
        found.append(Caution(
            "thin_rim",
            f"The rims meet on {format_number(land.value)} mm only: true them well, and file the "
            "seam little.",
            "girdle", "rim_land",
        ))  # fmt: skip
    return tuple(found)


EXAMPLE = Example(
    "bead for the evening class",
    """title = "Bead for a cord"
design = "bead"

[stock.sheet]
metal = "C26000"
thickness = ["0.62", "0.60", "0.61"]
length = "120 mm"
width = "90 mm"

[sizes]
diameter = "17.4 mm"
rise = "7.1 mm"          # of each dome; 8.7 mm would make a sphere
cord = "1.8 mm"          # the hole follows it; or: hole = "2.3 mm"
# cups = [["32", "12.5"], ["25", "11"], ["20", "9.5"]]   # your own block: across, deep

[as_built]               # readings of a trued dome; each replaces a planned value
# diameter = ["17.46", "17.42"]
""",
    {"hole": 2.3, "dome_radius": 8.8803, "mid_rise": 6.795, "blank_diameter": 21.5906},
    "spherical cap, worked by hand: radius = (8.7^2 + 7.1^2) / 14.2 = 8.88028; blank = "
    "sqrt(8 x (8.88028 - 0.305) x 6.795)",
)

INCHES = Example(
    "lentil in inches",
    """title = "Lentil for a bolt of string"
design = "bead"

[stock.sheet]
metal = "C11000"
thickness = "22 ga"

[sizes]
diameter = "1 3/16 in"
rise = "0.24 in"
hole = "3/32 in"
""",
    {"diameter": 30.1625, "rise": 6.096, "hole": 2.38125, "blank_diameter": 31.4271},
    "spherical cap, worked by hand: radius = (15.08125^2 + 6.096^2) / 12.192 = 21.70319; blank = "
    "sqrt(8 x (21.70319 - 0.32189) x (6.096 - 0.32189))",
)

DESIGN = Design(
    id="bead",
    title="Hollow bead of two domes",
    summary="Two domes from discs, lentil to sphere, soldered rim to rim; the hole is the vent.",
    fields=FIELDS,
    build=build,
    examples=(EXAMPLE, INCHES),
)
