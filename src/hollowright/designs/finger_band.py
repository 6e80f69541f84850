"""A band for a finger: plain, domed, of half-round wire, or hollow; from its ring size."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence

from hollowright.designs import finger_band_size, finger_band_work
from hollowright.designs.brief import Brief
from hollowright.designs.fields import Design, Example, Field, asked_by
from hollowright.designs.finger_band_bodies import domed
from hollowright.designs.finger_band_hollow import FIELDS as HOLLOW_FIELDS
from hollowright.designs.finger_band_hollow import hollow
from hollowright.designs.finger_band_size import Inside, inside_of
from hollowright.designs.stocks import (
    density,
    sheet_fields,
    sheet_stock,
    temper_field,
    temper_of,
)
from hollowright.designs.strips import bent_strip
from hollowright.formulas import band, band_section
from hollowright.formulas.mass import strip_mass
from hollowright.piece import Blank, Joint, Part, Piece, Solid, Stock, by_id
from hollowright.quantity import Quantity
from hollowright.shapes import solids
from hollowright.shapes.outline import rectangle
from hollowright.shapes.solids import Turned
from hollowright.units import format_number

PLAIN, DOMED, HALF_ROUND, HOLLOW = "plain", "domed", "half-round", "hollow"

_ALL = (
    *(dataclasses.replace(f, required=False) for f in sheet_fields("sheet", "sheet", "1.5 mm")),
    Field("stock.wire.metal", "wire_metal", "metal", "half-round wire's metal", "", "C26000"),
    Field(
        "stock.wire.flat", "wire_flat", "readings", "wire's flat", "across it", "4.05 mm", low=0.8,
        high=20,
    ),
    Field(
        "stock.wire.height", "wire_height", "readings", "wire's height", "over its flat",
        "2.02 mm", low=0.4, high=10,
    ),
    Field(
        "stock.wire.length", "wire_length", "length", "wire's length", "of the piece in hand",
        "200 mm", low=5, high=6000,
    ),
    temper_field("wire", "wire"),
    Field(
        "sizes.kind", "kind", "choice", "kind of band",
        "of a flat strip, domed with the file, of half-round wire, or hollow", PLAIN,
        default=PLAIN, choices=(PLAIN, DOMED, HALF_ROUND, HOLLOW),
    ),
    *finger_band_size.FIELDS,
    Field(
        "sizes.width", "width", "length", "width", "along the finger; half-round wire has its own",
        "5 mm", low=0.8, high=40,
    ),
    Field(
        "sizes.edge", "edge", "length", "edges of a domed band", "thickness left at its edges",
        "0.6 mm", default="0.6 mm", low=0.1, high=8,
    ),
    *HOLLOW_FIELDS,
)  # fmt: skip

_SHEET = (*(f.name for f in sheet_fields("sheet", "sheet")), "width")
_WIRE = ("wire_metal", "wire_flat", "wire_height", "wire_length", "wire_temper")
FIELDS = asked_by(
    "kind",
    {
        **dict.fromkeys(_SHEET, (PLAIN, DOMED, HOLLOW)),
        **dict.fromkeys(_WIRE, (HALF_ROUND,)),
        "edge": (DOMED,),
        **dict.fromkeys((field.name for field in HOLLOW_FIELDS), (HOLLOW,)),
    },
    _ALL,
)


def build(b: Brief) -> Piece:
    """The piece of a brief: every size net, every number with its working."""
    made = {PLAIN: _plain, DOMED: _domed, HALF_ROUND: _half_round, HOLLOW: hollow}
    for name in ("wire_metal", "wire_flat", "wire_height") if b.word("kind") == HALF_ROUND else (
        "sheet_metal", "sheet_thickness", "width"):  # fmt: skip
        if not b.has(name):
            field = b.design.field(name)
            raise b.refuse(name, "it is missing.", f"Add it, for example {field.example}.")
    return made[b.word("kind")](b)


def _plain(b: Brief) -> Piece:
    thickness, width = b.sheet_thickness, b.width
    inside = inside_of(b, width)
    length = band.length(inside.planned, thickness)
    made = band.length(inside.now, thickness)
    outside = band.outside(inside.now, thickness)
    weight = strip_mass(made, width, thickness, density(b.metal("sheet_metal")))
    body = solids.ring("band", outside.value, thickness.value, width.value)
    return _piece(
        b, inside, thickness, width, length, sheet_stock(b, "sheet", "sheet"),
        _strip(inside, length, made, width), weight, body, (outside,),
    )  # fmt: skip


def _domed(b: Brief) -> Piece:
    crown, width, edge = b.sheet_thickness, b.width, b.edge
    if edge.value > crown.value - 0.1:
        raise b.refuse(
            "edge", f"{format_number(edge.value)} mm of {format_number(crown.value)} mm sheet "
            "leaves no dome.", "Leave less at the edges, or take thicker sheet.",
        )  # fmt: skip
    inside = inside_of(b, width)
    rise, *arc, dome, middle = _segment(width, band_section.rise(crown, edge))
    area = band_section.section_area(width, edge, dome)
    centre = band_section.section_middle(width, edge, dome, middle)
    length = band.length(inside.planned, crown)
    made = band.length(inside.now, crown)
    metal = density(b.metal("sheet_metal"))
    weight = band_section.section_mass(inside.now, centre, area, metal)
    strip = strip_mass(made, width, crown, metal).named("strip_mass", "weight of the strip")
    body = domed(inside.now.value, width.value, edge.value, rise.value, area.value, centre.value)
    return _piece(
        b, inside, crown, width, length, sheet_stock(b, "sheet", "sheet"),
        _strip(inside, length, made, width), weight, body,
        (band.outside(inside.now, crown), edge, rise, *arc, area, centre, strip,
         band_section.filed_off(strip, weight)),
    )  # fmt: skip


def _half_round(b: Brief) -> Piece:
    flat, height = b.wire_flat, b.wire_height
    if height.value > 0.6 * flat.value:
        raise b.refuse(
            "wire_height", f"{format_number(height.value)} mm is more than half of its flat, "
            f"{format_number(flat.value)} mm: that isn't half-round.",
            "Are flat and height the right way round?",
        )  # fmt: skip
    inside = inside_of(b, flat)
    _, *arc, area, centre = _segment(flat, height)
    area = area.named("section_area", "area of the section")
    centre = centre.named("section_middle", "centre of the section over its flat")
    length = band.length_on(inside.planned, centre)
    made = band.length_on(inside.now, centre)
    weight = band_section.section_mass(inside.now, centre, area, density(b.metal("wire_metal")))
    body = domed(inside.now.value, flat.value, 0.0, height.value, area.value, centre.value)
    stock = Stock(
        "wire", "half-round wire", "rod", b.metal("wire_metal"),
        {"diameter": flat, "height": height},
        length=b.wire_length if b.has("wire_length") else None, cuts=1,
        temper=temper_of(b, "wire"),
    )  # fmt: skip
    now = made if inside.changed else length
    blank = Blank(
        "rod", rectangle(flat.value, now.value), {"diameter": flat, "length": now}, sawn_ends=1,
        shaped=True,
        planned={"diameter": flat, "length": length} if inside.changed else None,
    )  # fmt: skip
    return _piece(
        b, inside, height, flat, length, stock, blank, weight, body,
        (band.outside(inside.now, height), *arc, area, centre),
    )  # fmt: skip


def _segment(width: Quantity, rise: Quantity) -> tuple[Quantity, ...]:
    """The dome across a band: its rise, radius, half angle, area, and its centre's height."""
    radius = band_section.segment_radius(width, rise)
    angle = band_section.segment_half_angle(width, rise)
    area = band_section.segment_area(radius, angle)
    return rise, radius, angle, area, band_section.segment_middle(width, area, radius, rise)


def _strip(inside: Inside, length: Quantity, made: Quantity, width: Quantity) -> Blank:
    """The strip as planned, or as what came out tells that it is."""
    now = made if inside.changed else length
    planned = {"length": length, "width": width} if inside.changed else None
    return bent_strip(now, width, planned=planned)


def _piece(
    b: Brief,
    inside: Inside,
    thickness: Quantity,
    width: Quantity,
    length: Quantity,
    stock: Stock,
    blank: Blank,
    weight: Quantity,
    body: Turned,
    more: Sequence[Quantity],
) -> Piece:
    """A band of one strip with one seam."""
    eased = inside.beside(b, length)
    polish = b.shop("polish")
    part = Part(
        "band", "band", stock.id, blank, weight.named("band_mass", "weight of the band"),
        solids=(Solid("band", body),),
    )  # fmt: skip
    return Piece(
        title=b.title,
        design="finger-band",
        quantities=by_id(
            *inside.listed, thickness, width, length, *more, *eased, polish,
            band.polished_inside(inside.now, polish), band.polished_thickness(thickness, polish),
        ),
        stocks=(stock,),
        parts=(part,),
        joints=(Joint("seam", "seam of the band", ("band",), width, thickness, shows=True),),
        fits=(),
        work=finger_band_work.one_strip(b.word("kind"), inside.said, bool(eased), inside.mend),
        cautions=(*b.cautions, *inside.cautions),
        changes=tuple(b.changes),
        inches=b.inches,
    )  # fmt: skip


CLASS = Example(
    "first ring of the evening class",
    """title = "First ring of the evening class"
design = "finger-band"

[stock.sheet]
metal = "C26000"
thickness = ["1.42", "1.41", "1.43"]
length = "120 mm"
width = "40 mm"

[sizes]
kind = "plain"           # or: domed, half-round, hollow
size = "US 7 1/4"        # with its scale: ISO 54, UK N 1/2, CH 14, JP 12
width = "3.6 mm"

[as_built]               # read on the soldered, rounded ring
# inside_diameter = ["17.41", "17.38"]
""",
    {"inside_diameter": 17.5228, "inside_circumference": 55.0495, "blank_length": 59.5106,
     "outside_diameter": 20.3628},
    "by hand: 11.63 + 7.25 x 0.8128 = 17.5228; pi x (17.5228 + 1.42) = 59.5106",
)  # fmt: skip

WIDE = Example(
    "domed band with the extra for its width",
    """title = "Domed band, N and a half"
design = "finger-band"

[stock.sheet]
metal = "C11000"
thickness = ["1.93", "1.91"]

[sizes]
kind = "domed"
size = "UK N 1/2"
width = "6.2 mm"
edge = "0.7 mm"
ease = "added"           # a wide band sits tight; beside: the extra is only shown
""",
    {"size_diameter": 17.3081, "inside_diameter": 17.4673, "blank_length": 60.9069,
     "segment_radius": 4.5485, "section_area": 9.5356},
    "by hand: (40 + 11.5 x 1.25) / pi = 17.3081; + 0.5 / pi; pi x (17.4673 + 1.92); radius = "
    "(3.1^2 + 1.22^2) / 2.44 = 4.5485; area = 6.2 x 0.7 + 4.5485^2 x (0.74986 - sin(1.49973) / 2)",
)  # fmt: skip

INCHES = Example(
    "half-round wire in inches, by a ring that fits",
    """title = "Ring after an old one"
design = "finger-band"

[stock.wire]
metal = "C26000"
flat = ["0.158 in", "0.157 in"]
height = ["0.071 in", "0.072 in"]
length = "6 in"

[sizes]
kind = "half-round"
inside_diameter = ["0.742 in", "0.746 in", "0.743 in"]
""",
    {"inside_diameter": 18.8891, "wire_height": 1.8161},
    "by hand: means of the readings x 25.4",
)

THICK = Example(
    "hollow band",
    """title = "Hollow band for the class's show case"
design = "finger-band"

[stock.sheet]
metal = "C26000"
thickness = ["0.52", "0.53", "0.52"]
length = "150 mm"
width = "60 mm"

[sizes]
kind = "hollow"
size = "ISO 57"
width = "7.3 mm"
depth = "3.4 mm"         # from inside to outside
sides = "on-end"         # or: let-in, between sleeve and shell
vent = "1.1 mm"
""",
    {"inside_diameter": 18.1437, "outside_diameter": 24.9437, "sleeve_length": 58.6441,
     "shell_length": 76.7188, "sleeve_width": 6.2533},
    "by hand: 57 / pi = 18.1437; pi x (18.1437 + 0.52333); pi x (24.9437 - 0.52333); 7.3 - "
    "2 x 0.52333",
)  # fmt: skip

DESIGN = Design(
    id="finger-band",
    title="Band for a finger",
    summary="Plain, domed, of half-round wire or hollow: the strip and its parts from a ring size.",
    fields=FIELDS,
    build=build,
    examples=(CLASS, WIDE, INCHES, THICK),
)
