"""A setting for a round or oval stone: a strip round its girdle, a seat inside, a base or none."""

from __future__ import annotations

from hollowright.designs.brief import Brief
from hollowright.designs.fields import Design, Example, Field
from hollowright.designs.stocks import density, sheet_fields, sheet_stock
from hollowright.designs.strips import bent_strip
from hollowright.formulas import outline, setting
from hollowright.formulas.mass import strip_mass
from hollowright.piece import Blank, Joint, Part, Piece, Solid, Work, by_id
from hollowright.quantity import Quantity
from hollowright.shapes.extruded import Extruded
from hollowright.shapes.offset import offset
from hollowright.shapes.outline import Outline, disc
from hollowright.shapes.ovals import ellipse
from hollowright.units import format_number

LEAST_LEDGE, LEAST_SEAT = 0.15, 0.4
"""Below these a stone doesn't rest, and a seat can't be held [mm]."""

FIELDS = (
    *sheet_fields("sheet", "sheet", "0.4 mm"),
    Field(
        "sizes.stone_length", "stone_length", "readings", "stone",
        "its diameter, or an oval's length, across the girdle", "10.2 mm", required=True, low=2,
        high=80,
    ),
    Field(
        "sizes.stone_width", "stone_width", "readings", "stone's width",
        "an oval's, across the girdle; left empty for a round stone", "8.1 mm", low=2, high=80,
    ),
    Field(
        "sizes.depth", "depth", "length", "depth under the girdle",
        "a faceted stone's point, read with the depth rod; a cabochon has 0", "3.6 mm",
        required=True, high=40,
    ),
    Field(
        "sizes.over", "over", "length", "metal over the girdle",
        "what is pressed over the stone; more for a steep cabochon", "1.2 mm", required=True,
        low=0.2, high=15,
    ),
    Field(
        "sizes.room", "room", "length", "room under the stone",
        "to the base or to what lies behind; it lifts a cabochon", "0.5 mm", default="0.5 mm",
        high=20,
    ),
    Field(
        "sizes.base", "base", "choice", "base", "open behind, or a plate", "open", default="open",
        choices=("open", "plate"),
    ),
    Field(
        "as_built.strip_length", "built_strip_length", "readings", "strip's length as built",
        "when its ends met round the stone, on the middle of the metal", "30.5 mm", low=4, high=300,
    ),
)  # fmt: skip


def build(b: Brief) -> Piece:
    """The piece of a brief: every size net, every number with its working."""
    thickness, metal = b.sheet_thickness, density(b.metal("sheet_metal"))
    stone, girdle, area = _stone(b)
    planned = setting.strip_length(girdle, b.shop("stone_gap"), thickness)
    length = b.built(planned)
    gap = b.shop("stone_gap") if length is planned else setting.room_round(
        length, girdle, thickness)  # fmt: skip
    ledge = setting.ledge(thickness, gap)
    seat_length = setting.seat_length(length, thickness)
    seat_width = setting.seat_width(b.depth, b.room)
    width = setting.strip_width(seat_width, b.over)
    sizes = [
        setting.outside(size, gap, thickness).named(f"outside_{name}", f"setting's {name} outside")
        for name, size in _across(b).items()
    ]
    _check(b, gap, ledge, seat_width)

    inner = offset(stone, gap.value / 2)
    outer, within = offset(inner, thickness.value), offset(inner, -thickness.value)
    foot = thickness.value if b.word("base") == "plate" else 0.0
    wall = Extruded("setting", _with_hole(outer, inner), width.value, (0, 0, foot))
    ledged = Extruded("seat", _with_hole(inner, within), seat_width.value, (0, 0, foot))
    parts = [
        _strip("setting", length, width, thickness, metal, wall, planned),
        _strip("seat", seat_length, seat_width, thickness, metal, ledged, seat_length),
    ]
    if foot:
        form = {"length": sizes[0], "width": sizes[1]} if sizes[1:] else {"diameter": sizes[0]}
        blank = Blank("plate" if sizes[1:] else "disc", outer, form, trimmed=True)
        mass = setting.plate_mass(area, girdle, setting.reach(gap, thickness), thickness, metal)
        body = Solid("base", Extruded("base", outer, foot))
        parts.append(
            Part("base", "base", "sheet", blank, mass.named("base_mass", "base's weight"),
                 solids=(body,))
        )  # fmt: skip
    return Piece(
        title=b.title,
        design="setting-cup",
        quantities=by_id(
            *_across(b).values(), girdle, gap, thickness, length, seat_length, b.depth, b.room,
            seat_width, b.over, width, ledge, *sizes, b.shop("cap_rim"), b.shop("vent_hole"),
        ),
        stocks=(sheet_stock(b, "sheet", "sheet"),),
        parts=tuple(parts),
        joints=_joints(width, seat_width, length, seat_length, thickness, bool(foot)),
        fits=(),
        work=_work(bool(foot), b.depth.value > 0),
        cautions=tuple(b.cautions),
        changes=tuple(b.changes),
        inches=b.inches,
    )  # fmt: skip


def _across(b: Brief) -> dict[str, Quantity]:
    """What was read across the stone [mm]."""
    oval = {"width": b.stone_width} if b.has("stone_width") else {}
    return {"length": b.stone_length, **oval}


def _stone(b: Brief) -> tuple[Outline, Quantity, Quantity]:
    """The stone's outline, the length round its girdle [mm] and its area [mm2]."""
    sizes = tuple(_across(b).values())
    if len(sizes) == 1:
        shape, girdle = disc(sizes[0].value), outline.circle_round(sizes[0])
    else:
        shape = ellipse(sizes[0].value, sizes[1].value)
        girdle = outline.oval_round(*sizes)
    area = outline.oval_area(sizes[0], sizes[-1])
    return shape, girdle.named("girdle", "length round the girdle"), area


def _check(b: Brief, gap: Quantity, ledge: Quantity, seat: Quantity) -> None:
    """Refuse a setting that the stone doesn't go into, or has nothing to rest on in."""
    if gap.value <= 0:
        raise b.refuse(
            "built_strip_length", "the stone doesn't go in.", "Make a new strip, or file the seat."
        )
    if ledge.value < LEAST_LEDGE:
        raise b.refuse(
            "sheet_thickness", f"it leaves the girdle a ledge of {format_number(ledge.value)} mm.",
            f"Take thicker sheet: {format_number(LEAST_LEDGE)} mm of ledge at least.",
        )  # fmt: skip
    if seat.value < LEAST_SEAT:
        raise b.refuse(
            "room", f"it leaves a seat {format_number(seat.value)} mm high.",
            f"Depth and room together must come to {format_number(LEAST_SEAT)} mm.",
        )  # fmt: skip
    lengths = [size.value for size in _across(b).values()]
    long, short = max(lengths) / 2, min(lengths) / 2
    if short * short / long < 1.5 * ledge.value:
        raise b.refuse(
            "stone_width", f"an oval of {format_number(2 * short)} mm by {format_number(2 * long)} "
            "is too pointed for a seat of this sheet.", "Take thinner sheet.",
        )  # fmt: skip


def _with_hole(edge: Outline, hole: Outline) -> Outline:
    return Outline(edge.segments, (hole,))


def _strip(
    id: str,
    length: Quantity,
    width: Quantity,
    thickness: Quantity,
    metal: Quantity,
    body: Extruded,
    planned: Quantity,
) -> Part:
    """A strip bent to a closed ring; its length as planned, or as it was read."""
    before = None if length is planned else {"length": planned, "width": width}
    blank = bent_strip(length, width, planned=before)
    mass = strip_mass(length, width, thickness, metal).named(f"{id}_mass", f"{id}'s weight")
    return Part(id, id, "sheet", blank, mass, solids=(Solid(id, body),))


def _joints(
    width: Quantity,
    seat_width: Quantity,
    length: Quantity,
    seat_length: Quantity,
    thickness: Quantity,
    plate: bool,
) -> tuple[Joint, ...]:
    seams = (
        Joint("setting_seam", "seam of the setting", ("setting",), width, thickness, shows=True),
        Joint("seat_seam", "seam of the seat", ("seat",), seat_width, thickness),
        Joint(
            "seat_in", "seat in the setting", ("setting", "seat"), seat_length, seat_width,
            after=("setting_seam", "seat_seam"),
        ),
    )  # fmt: skip
    under = Joint(
        "base_on", "setting on its base", ("setting", "seat", "base"), length, thickness,
        after=("seat_in",), shows=True,
    )  # fmt: skip
    return (*seams, under) if plate else seams


def _work(plate: bool, faceted: bool) -> tuple[Work, ...]:
    """Every step, the stone last; faceted: it has a depth. Common practice, no source."""
    depth = (
        "its depth: {depth} under the girdle" if faceted else "look that its base is flat"
    )  # fmt: skip
    last = "bearing" if faceted else "base" if plate else "seat"
    base = Work(
        "base", "solder", "Solder it on its base",
        "Cut the base {cap_rim} larger all round; drill {vent_hole} through its middle (less in a "
        "tiny one), to push the stone out again and let water run off. Rub the setting's lower "
        "edge flat, set it on, paint the seams that hold with yellow ochre, and run easy solder "
        "round from outside, the flame on the base; saw the rest off and file it flush.",
        after=("seat",), about=("sheet",), cautions=("drill",),
    )  # fmt: skip
    bearing = Work(
        "bearing", "file", "Cut the ledge to the stone",
        "A stone that slopes away under its girdle rides on the ledge's inner edge and stands too "
        "high: as high as the ledge is wide, {ledge}, if it slopes by half a right angle. Cut the "
        "ledge to the stone's slope with a burr or a scraper, all round, until the girdle comes "
        "down to {over} under the setting's upper edge; try it often, held by wax.",
        marks=("over",), after=("base" if plate else "seat",), cautions=("stone",),
    )  # fmt: skip
    return (
        Work(
            "measure", "measure", "Measure stone and sheet",
            f"Read the girdle across, an oval both ways, and {depth}. Stones "
            " are cut by hand: if it isn't a true oval, wrap a strip of paper round it and "
            "compare with {girdle}.",
        ),
        Work(
            "cut", "cut", "Cut both strips",
            "For the setting {setting_cut_length} by {setting_cut_width}; for the seat "
            "{seat_cut_length} by {seat_cut_width}. The setting has {over} over its seat.",
            marks=("setting_cut_length", "setting_cut_width", "seat_cut_length", "seat_cut_width"),
            after=("measure",), about=("sheet",),
        ),
        Work(
            "bend", "bend", "Bend the setting round the stone",
            "Anneal. Bend it round a rod a little smaller than the stone, then try it on the "
            "stone: it goes in with the least touch, and must not stick. File the ends until they "
            "meet, at {planned_strip_length}; read it off on the flat before the last bend.",
            marks=("strip_length",), reads=("strip_length",), after=("cut",),
        ),
        Work(
            "solder", "solder", "Solder both seams",
            "Bend the seat to spring into the setting, its ends meeting at {seat_length}. Close "
            "both seams with hard solder, pickle, round both, file the seams flush, and try the "
            "stone again, held by a bit of wax on a stick.",
            marks=("seat_length",), after=("bend",), cautions=("stone",),
        ),
        Work(
            "seat", "solder", "Solder the seat in",
            "Push the seat in until {over} of the setting stand over it all round: the girdle "
            "rests on a ledge of {ledge}. Medium solder, fed from below; keep the ledge clean. "
            "Paint both hard seams with yellow ochre first and keep the flame off them.",
            marks=("over",), after=("solder",), cautions=("stone",),
        ),
        *((base,) if plate else ()),
        *((bearing,) if faceted else ()),
        Work(
            "set", "fit", "Set the stone when all else is done",
            "Solder the setting to its ring first, file, pickle, rinse and polish. Thin the upper "
            "edge with a file. Then set the stone level and press the edge over it: opposite "
            "points in turn, north, south, east, west, then between, and burnish it down. No flame "
            "and no pickle after that.",
            after=(last,), cautions=("stone",),
        ),
    )  # fmt: skip


GARNET = Example(
    "oval setting for a garnet",
    """title = "Setting for a garnet"
design = "setting-cup"

[stock.sheet]
metal = "Ag925"
thickness = ["0.42", "0.41", "0.42"]
length = "80 mm"
width = "30 mm"

[sizes]
stone_length = ["10.2", "10.19", "10.21"]
stone_width = ["8.1", "8.12"]
depth = "3.4 mm"         # under the girdle; a cabochon's flat base: 0
over = "1.15 mm"
base = "open"            # or: plate
""",
    {"seat_width": 3.9, "strip_width": 5.05, "ledge": 0.36667, "outside_length": 11.1333,
     "girdle": 28.8550, "strip_length": 30.4782, "seat_length": 27.8602},
    "ellipse 10.2 x 8.11 by Ramanujan's second approximation, its length round 28.8550; + pi x "
    "(0.1 + 0.41667); - 2 x pi x 0.41667",
)  # fmt: skip

ROUND = Example(
    "cabochon in inches",
    """title = "Round cabochon on a plate"
design = "setting-cup"

[stock.sheet]
metal = "C11000"
thickness = "26 ga"

[sizes]
stone_length = ["0.4725 in", "0.4715 in"]
depth = "0 mm"
room = "1/16 in"
over = "0.11 in"
base = "plate"
""",
    {"girdle": 37.6639, "strip_length": 39.2501, "strip_width": 4.3815},
    "by hand: pi x 0.472 x 25.4; + pi x (0.1 + 0.40488); 1.5875 + 2.794",
)

DESIGN = Design(
    id="setting-cup",
    title="Setting for a stone",
    summary="A strip round the stone's girdle, round or oval, with a seat inside; open or closed.",
    fields=FIELDS,
    build=build,
    examples=(GARNET, ROUND),
)
