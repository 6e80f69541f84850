"""A cone of sheet: frustum, full cone or plain cylinder, its upper end square or cut slanting."""

from __future__ import annotations

import math
from dataclasses import replace

from hollowright.designs.brief import Brief
from hollowright.designs.cone_bodies import Form, bend_lines
from hollowright.designs.cone_work import Way, cone_work
from hollowright.designs.fields import Design, Example, Field
from hollowright.designs.stocks import density, sheet_fields, sheet_stock, temper_of
from hollowright.designs.strips import ALONG, bent_strip
from hollowright.errors import Caution
from hollowright.formulas import cone, cone_mass, mass, ring
from hollowright.piece import Blank, Joint, Part, Piece, Solid, Wall, by_id
from hollowright.quantity import Quantity, exact
from hollowright.units import format_number

FLATTEST = 345.0
"""A sector [deg] over this is nearly a disc: its seam's edges meet at the narrow end."""

WIDE = 120.0
"""A sector over this [deg] is stepped off along its arc in parts, not with one chord."""

FAR = 600.0
"""Arcs of a larger radius [mm] are out of reach of dividers and trammel."""

LEAST_ARC = 1.0
"""An inner arc of a smaller radius [mm] isn't sawn but filed after."""

FIELDS = (
    *sheet_fields("sheet", "sheet"),
    Field(
        "sizes.base_diameter", "base_diameter", "length", "diameter at the base",
        "outside, at the lower end", "40 mm", required=True, low=2, high=600,
    ),
    Field(
        "sizes.top_diameter", "top_diameter", "length", "diameter at the top",
        "outside, at the upper end; 0 for a full cone; it may be the wider one", "24 mm",
        required=True, low=0, high=600,
    ),
    Field(
        "sizes.height", "height", "length", "height",
        "upright from end to end, not along the side", "30 mm", required=True, low=1, high=800,
    ),
    Field(
        "sizes.ends", "ends", "choice", "ends",
        "filed: filed flat where the sheet's middle reaches them; square: the blank is so much "
        "larger that filing flat lacks nowhere",
        "filed", default="filed", choices=("filed", "square"),
    ),
    Field(
        "sizes.cut_angle", "cut_angle", "angle", "angle of a slanting cut",
        "from square, at the upper end; leave it out for a square one", "20 deg", low=1, high=80,
    ),
    Field(
        "sizes.cut_height", "cut_height", "length", "height of the slanting cut",
        "where it crosses the axis, from the base", "22 mm", low=0.5, high=800,
    ),
)  # fmt: skip


Table = dict[str, Quantity]
"""Quantities by their ids."""


def build(b: Brief) -> Piece:
    """The piece of a brief: every size net, every number with its working."""
    form = _form(b)
    slant = cone.slant(*_wide_narrow(b), b.height)
    radii, insides = _across(b, slant)
    sector = _sector(b, slant, radii)
    sides = _sides(b, slant, radii)
    weight = _weight(b, slant, radii, insides, sides)
    blank = _blank(form, slant, sector, sides)
    volume = weight.value / b.metal("sheet_metal").density.value * 1000
    solid = Solid("cone", form.body("cone", volume))
    seam = sides.get("short_side", slant)
    shown = [q for q in (*radii.values(), *insides.values()) if q.value > 0]
    holds = _capacity(b, insides) if form.cut is None else ()
    return Piece(
        title=b.title,
        design="cone",
        quantities=by_id(
            b.base_diameter, b.top_diameter, b.height, b.sheet_thickness, slant, *shown,
            *sector.values(), *sides.values(), *holds,
        ),
        stocks=(sheet_stock(b, "sheet", "sheet"),),
        parts=(Part("cone", "cone", "sheet", blank, weight, 1, (solid,)),),
        joints=(Joint("seam", "seam of the cone", ("cone",), seam, b.sheet_thickness),),
        fits=(),
        work=cone_work(_way(form, blank, sector)),
        cautions=(*b.cautions, *_cautions(sector)),
        changes=tuple(b.changes),
        inches=b.inches,
        foot=b.base_diameter,
        walls=_walls(b, form),
    )  # fmt: skip


def _wide_narrow(b: Brief) -> tuple[Quantity, Quantity]:
    ends = (b.base_diameter, b.top_diameter)
    return ends if ends[0].value >= ends[1].value else (ends[1], ends[0])


def _form(b: Brief) -> Form:
    """The cone in plain numbers; refused where there can be none."""
    sizes = (b.base_diameter.value, b.top_diameter.value, b.height.value, b.sheet_thickness.value)
    form = Form(*sizes, "square" if b.word("ends") == "square" else "filed")
    wide = max(sizes[0], sizes[1])
    if form.across >= 0.9 * wide / 2:
        raise b.refuse(
            "base_diameter",
            f"sheet of {format_number(sizes[3])} mm fills a cone {format_number(wide)} mm wide.",
            "Take thinner sheet, or turn it from rod.",
        )
    if b.has("cut_angle") != b.has("cut_height"):
        missing = "cut_height" if b.has("cut_angle") else "cut_angle"
        raise b.refuse(missing, "a slanting cut needs its angle and its height.", "Give both.")
    return _cut(b, form) if b.has("cut_angle") else form


def _cut(b: Brief, form: Form) -> Form:
    """The same cut slanting; refused where the plane doesn't cross every line of the sheet."""
    cut = replace(form, cut=(b.cut_height.value, math.radians(b.cut_angle.value)))
    if abs(form.taper) * math.tan(math.radians(b.cut_angle.value)) >= 0.999:
        steepest = 90 - math.degrees(math.atan(abs(form.taper)))
        raise b.refuse(
            "cut_angle",
            "the cut runs along the cone's side and never comes out.",
            f"Stay under {format_number(steepest)} degrees.",
        )
    radii = (form.base / 2, form.base / 2 - form.across)
    if radii[1] <= 0:
        raise b.refuse("base_diameter", "the sheet leaves no hollow there.", "Make it wider.")
    reached = [cut.at_cut(radius, turn) for radius in radii for turn in (0.0, math.pi)]
    if min(reached) <= 0.5 or max(reached) > form.height:
        raise b.refuse(
            "cut_height",
            f"the cut reaches from {format_number(min(reached))} to "
            f"{format_number(max(reached))} mm and the cone from 0 to "
            f"{format_number(form.height)} mm.",
            "Cut between the two, or make the cone higher: only its upper end falls away.",
        )
    if radii[1] - form.taper * max(reached) <= 0:
        raise b.refuse("cut_height", "so far up the sheet leaves no hollow.", "Cut lower.")
    return cut


def _across(b: Brief, slant: Quantity) -> tuple[Table, Table]:
    """Mid-thickness radii and inside diameters of both ends."""
    radii, insides = {}, {}
    for end, outside in (("base", b.base_diameter), ("top", b.top_diameter)):
        sizes = (outside, b.sheet_thickness, slant, b.height)
        radii[end] = cone.mid_radius(*sizes).named(
            f"{end}_mid_radius", f"mid-thickness radius at the {end}"
        )
        insides[end] = cone.inside_diameter(*sizes).named(
            f"{end}_inside_diameter", f"inside diameter at the {end}"
        )
    return radii, insides


def _sector(b: Brief, slant: Quantity, radii: Table) -> Table:
    """The flat: angle, radii and chord of a sector, or the length of a cylinder's rectangle."""
    wide, narrow = _wide_narrow(b)
    if wide.value == narrow.value:
        length = ring.length(wide, b.sheet_thickness).named("blank_length", "length of the blank")
        return by_id(length)
    angle = cone.sector_angle(wide, narrow, slant)
    if angle.value > FLATTEST:
        raise b.refuse(
            "height",
            f"so flat a cone is nearly a disc: its sector is {format_number(angle.value)} degrees.",
            "Make it higher, or raise it from a disc.",
        )
    widest = "base" if wide is b.base_diameter else "top"
    outer = cone.sector_radius(radii[widest], angle)
    inner = cone.sector_radius(radii["top" if widest == "base" else "base"], angle)
    inner = inner.named("sector_inner_radius", "sector's inner radius")
    outer = outer.named("sector_outer_radius", "sector's outer radius")
    extras: tuple[Quantity, ...] = ()
    if b.word("ends") == "square":
        extra = cone.square_extra(b.sheet_thickness, wide, narrow, b.height)
        extras = (extra,)
        filed = [arc.named("", f"{arc.label} for ends filed") for arc in (outer, inner)]
        outer = cone.with_extra(filed[0], extra).named(outer.id, outer.label)
        inner = cone.less_extra(filed[1], extra).named(inner.id, inner.label)
    if inner.value < 0:
        inner = _at_apex(inner)
    return by_id(angle, outer, inner, *_steps(outer, angle), *extras)


def _steps(outer: Quantity, angle: Quantity) -> tuple[Quantity, ...]:
    """The chord of the longer arc; of a wide sector the steps too, none over a quarter of a turn.

    A whole chord over WIDE degrees gains so little by each degree that it sets none off well.
    """
    chord = cone.chord(outer, angle)
    if angle.value <= WIDE:
        return (chord,)
    count = math.ceil(angle.value / 90)
    told = "steps of the dividers = the fewest of 90 degrees and less"
    steps = exact(
        "sector_steps", "steps of the dividers", "", count, "formula", "common practice", told
    )  # fmt: skip
    return (chord, steps, cone.step(outer, angle, steps))


def _at_apex(inner: Quantity) -> Quantity:
    """No inner arc: the middle of the sheet meets in a point before the outside does [mm]."""
    told = f"{inner.label} = none, the sheet's middle meets in its own apex"
    return exact(inner.id, inner.label, "mm", 0.0, "constant", "development of the cone", told)


def _sides(b: Brief, slant: Quantity, radii: Table) -> Table:
    """The longest and the shortest line of a slanting cut; nothing for a square one."""
    if not b.has("cut_angle"):
        return {}
    taper = cone.taper(b.base_diameter, b.top_diameter, b.height)
    lean = cone.lean(b.cut_angle)
    sizes = (b.cut_height, radii["base"], lean, taper, slant, b.height)
    upright = (b.cut_height, b.base_diameter, lean, taper)
    return by_id(
        b.cut_angle, b.cut_height, taper, lean, cone.long_side(*sizes), cone.short_side(*sizes),
        cone.high_point(*upright), cone.low_point(*upright),
    )  # fmt: skip


def _weight(b: Brief, slant: Quantity, radii: Table, insides: Table, sides: Table) -> Quantity:
    """What the finished cone weighs [g]."""
    dense, thickness = density(b.metal("sheet_metal")), b.sheet_thickness
    wide, narrow = _wide_narrow(b)
    if sides and wide.value == narrow.value:
        weight = mass.tube_mass(wide, thickness, b.cut_height, dense)
    elif sides:
        weight = cone_mass.slanting_mass(
            *_under(b.base_diameter, b.cut_height, sides),
            *_under(insides["base"], b.cut_height, sides),
            dense,
        )
    elif min(inside.value for inside in insides.values()) >= 0:
        weight = cone_mass.open_cone_mass(radii["base"], radii["top"], slant, thickness, dense)
    else:
        widest = "base" if wide is b.base_diameter else "top"
        hollow = cone_mass.whole_cone(insides[widest], cone.taper(wide, narrow, b.height))
        weight = cone_mass.closed_cone_mass(wide, narrow, b.height, hollow, dense)
    return weight.named("cone_mass", "weight of the cone")


def _under(across: Quantity, height: Quantity, sides: Table) -> tuple[Quantity, Quantity]:
    """A solid cone on a base and what of it lies above the cut [mm3]."""
    taper = sides["taper"]
    apex = cone_mass.apex_above(across, taper, height)
    return cone_mass.whole_cone(across, taper), cone_mass.above_cut(apex, taper, sides["lean"])


def _blank(form: Form, slant: Quantity, sector: Table, sides: Table) -> Blank:
    """The flat: a sector, or a cylinder's rectangle, its upper edge square or a wave."""
    flat = form.flat()
    if "blank_length" not in sector:
        arcs: tuple[str, ...] = ("sector_outer_radius", "sector_inner_radius")
        if sides:
            arcs = arcs[:1] if form.base > form.top else arcs[1:]
        names = [name for name in arcs if sector[name].value > LEAST_ARC] + ["sector_angle"]
        grows = {"sector_outer_radius": 1, "sector_inner_radius": -1}
        sizes = {name: sector[name] for name in names}
        return Blank(
            "plate", flat.outline(), sizes, grows=grows, marks=bend_lines(flat), shaped=True
        )
    length = sector["blank_length"]
    if sides:
        sizes = {"length": length, "width": sides["long_side"]}
        return Blank(
            "plate", flat.outline(), sizes, marks=bend_lines(flat), grain=ALONG, shaped=True
        )
    return bent_strip(length, slant, marks=bend_lines(flat, length.value / 2))


def _way(form: Form, blank: Blank, sector: Table) -> Way:
    """What the steps depend on."""
    return Way(
        sector="sector_angle" in sector,
        both="sector_inner_radius" in blank.sizes,
        steps=int(sector["sector_steps"].value) if "sector_steps" in sector else 1,
        cut=form.cut is not None,
        square="square_extra" in sector,
    )


def _capacity(b: Brief, insides: Table) -> tuple[Quantity, ...]:
    """What it holds with a bottom in it, where it is open at both ends [ml]."""
    base, top = insides["base"], insides["top"]
    if min(base.value, top.value) <= 0:
        return ()
    return (cone.capacity(base, top, b.height),)


def _walls(b: Brief, form: Form) -> tuple[Wall, ...]:
    """A plain cylinder's wall takes a branch; a cone's doesn't."""
    if form.base != form.top or form.cut is not None:
        return ()
    metal, temper = b.metal("sheet_metal"), temper_of(b, "sheet")
    return (
        Wall("cone", b.base_diameter, b.sheet_thickness, metal, 0.0, form.height, True, temper),
    )


def _cautions(sector: Table) -> tuple[Caution, ...]:
    """What to mind of the flat: arcs out of reach, and forms without arcs."""
    if "blank_length" in sector:
        text = (
            "Both ends are equally wide: the blank is a rectangle, and there are no radii to "
            "strike (a cylinder's sector has no end to its radius)."
        )
        return (Caution("no_radii", text, "blank", "blank_length"),)
    outer = sector["sector_outer_radius"].value
    if outer <= FAR:
        return ()
    text = (
        f"The longer arc has a radius of {format_number(outer)} mm, more than a trammel reaches: "
        "lay the true-size print on the sheet instead."
    )
    return (Caution("arc_out_of_reach", text, "blank", "sector_outer_radius"),)


FUNNEL = Example(
    "funnel",
    """title = "Lamp oil funnel"
design = "cone"

[stock.sheet]
metal = "C26000"
thickness = ["0.62", "0.64", "0.63"]
length = "310 mm"
width = "152 mm"

[sizes]
base_diameter = "83 mm"    # outside, at the lower end
top_diameter = "11.4 mm"   # outside, at the upper end; 0 for a full cone
height = "58 mm"           # upright, not along the side
ends = "filed"             # or: "square", cut so much larger that filing flat lacks nowhere
""",
    {
        "slant": math.sqrt(35.8**2 + 58**2),
        "sector_angle": 360 * 35.8 / 68.158932,
        "sector_outer_radius": (41.5 / 35.8 - 0.315 / 58 / 35.8 * 68.158932) * 68.158932,
        "sector_inner_radius": (5.7 / 35.8 - 0.315 / 58 / 35.8 * 68.158932) * 68.158932,
    },
    "plane geometry, worked by hand: 35.8 across in 58 of height; half of 0.63 on the slope",
    1e-4,
)

LIP = Example(
    "measure with a slanting lip, in inches",
    """title = "Scoop for striker flints"
design = "cone"

[stock.sheet]
metal = "C22000"
thickness = ["0.0255 in", "0.0250 in"]

[sizes]
base_diameter = "1 5/8 in"
top_diameter = "1 1/8 in"
height = "2 3/4 in"
ends = "square"
cut_angle = "23.5 deg"     # from square; the seam comes on the shortest line
cut_height = "1 3/4 in"    # where the cut crosses the axis
""",
    {
        "slant": 25.4 * math.sqrt(0.25**2 + 2.75**2),
        "sector_angle": 360 * 0.25 / math.sqrt(0.25**2 + 2.75**2),
        "square_extra": 25.4 * 0.02525 / 2 * 0.25 / 2.75,
    },
    "plane geometry, worked by hand: a quarter inch across in 2 3/4 of height",
    1e-4,
)

DESIGN = Design(
    id="cone",
    title="Cone of sheet",
    summary="A frustum, full cone or cylinder rolled from a flat, its top square or cut slanting.",
    fields=FIELDS,
    build=build,
    examples=(FUNNEL, LIP),
)
