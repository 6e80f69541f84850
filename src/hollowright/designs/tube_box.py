"""A round lidded box from tube: each half a piece of tube with a cap, a ring inside the lid."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from hollowright.designs import inner_ring, tube_halves
from hollowright.designs.brief import Brief
from hollowright.designs.fields import Design, Example
from hollowright.designs.stocks import density, sheet_stock, temper_of
from hollowright.designs.strips import bent_strip
from hollowright.designs.tube_box_work import tube_box_work
from hollowright.formulas import fit, mass, ring, tube
from hollowright.piece import Blank, Fit, Joint, Part, Piece, Solid, Stock, Wall, by_id
from hollowright.quantity import Quantity, total
from hollowright.quantity.choices import Choice, choose
from hollowright.shapes import solids
from hollowright.shapes.outline import disc, rectangle
from hollowright.units import format_number

SLIDES = "diameter that slides in the body"

FIELDS = (
    *tube_halves.STOCK_FIELDS,
    *inner_ring.STOCK_FIELDS,
    *tube_halves.SIZE_FIELDS,
    *inner_ring.SIZE_FIELDS,
    *tube_halves.BUILT_FIELDS,
    *inner_ring.BUILT_FIELDS,
)


def build(b: Brief) -> Piece:
    """The piece of a brief: every size net, every number with its working."""
    outside, wall = b.outside_diameter, tube_halves.tube_wall(b)
    bore = tube_halves.tube_bore(b, wall)
    lid_bore = b.built(tube.half_bore(bore).named("lid_bore"))
    body_bore = b.built(tube.half_bore(bore).named("body_bore"))
    target, feel, window = inner_ring.aimed_clearance(b)
    gap = b.lid_gap if b.has("lid_gap") else inner_ring.same_gap(target)
    thickness = b.built(b.ring_thickness)
    aim = ring.outside(lid_bore, gap)
    ring_outside = b.built(aim)
    ring_inside = ring.inside(ring_outside, thickness)
    lengths = tube_halves.halves(b, bore)
    lid_depth, body_length = b.built(lengths.lid_depth), b.built(lengths.body)
    body_depth = tube_halves.inside_depth(b, body_length).named("body_depth", "body's inside depth")
    inner, inner_choice = inner_ring.chamfer(b, "ring_chamfer", thickness)
    lead, lead_choice = inner_ring.chamfer(b, "lead_in", thickness)
    mouth, mouth_choice = inner_ring.chamfer(b, "mouth_chamfer", wall)
    chamfers = (inner_choice, lead_choice, mouth_choice)
    land = ring.sliding_land(b.ring_stand, lead, mouth)
    thinnest = min(ring_inside.value, ring.inside(aim, thickness).value)
    _sizes_are_possible(b, aim, thinnest, lengths, lid_depth, body_depth, land)
    slide = ring.outside(body_bore, target).named("ring_slide_diameter", SLIDES)
    filing = ring.filing_per_side(ring_outside, slide)
    first, _ = choose("ring_first_diameter", "ring's diameter to fit first",
                      {"for the lid": aim, "for the body": slide}, "largest")  # fmt: skip
    seat_filing = [
        ring.filing_per_side(slide, aim).named("seat_filing_per_side", "filing per side in the lid")
    ] if filing.value < -0.001 else []  # fmt: skip
    strip, line = inner_ring.strip_length(b, aim, thickness)
    width = ring.width(lid_depth, b.ring_stand)
    inside = total("inside_height", "inside height", [lid_depth, body_depth])
    air = fit.seating_pressure(b.ring_stand, inside)
    limit, weaker = inner_ring.force_limit(body_bore, {
        "ring": (b.metal("ring_metal"), thickness), "tube": (b.metal("tube_metal"), wall),
    })  # fmt: skip
    inner_ring.can_be_pressed(b, target, limit)
    window = (max(window[0], -limit.value), window[1])
    ends, saw_from = tube_halves.saw_from(b, window)
    lid_now = (
        tube_halves.tube_for_depth(b, lid_depth) if lid_depth.kind == "reading" else lengths.lid
    )
    sizes = _Sizes(
        outside, wall, thickness, lid_now, body_length, lengths, strip, width, ring_outside
    )
    ring_fit = Fit(
        id="ring_in_body", label="ring in the body", part="ring", bore=body_bore, length=strip,
        thickness=thickness, target=target, window=window, feel=feel, metal=b.metal("ring_metal"),
        other_wall=wall, other_metal=b.metal("tube_metal"), line=line, seat=lid_bore, aim=aim,
        weaker=weaker,
        made=ring_outside if ring_outside is not aim else None,
        bore_read=b.has("bore") or body_bore.kind == "reading",
    )  # fmt: skip
    return Piece(
        title=b.title,
        design="tube-box",
        quantities=by_id(
            outside, wall, bore, thickness, b.cap_thickness, target.named("clearance"),
            gap.named("lid_gap", "gap of the ring in the lid"), lid_bore, body_bore, ring_outside,
            slide, filing, strip, lid_depth, width, lengths.lid, body_length, body_depth,
            lengths.cap, b.height, b.lid_share, b.ring_stand, inner, mouth, lead,
            land, inside, air,
            fit.seating_force(air, body_bore), limit, ring_inside,
            ring.stretch_percent(ring_outside), first, *seat_filing, inner_ring.per_tenth(),
        ),
        stocks=_stocks(b, wall, saw_from),
        parts=_parts(b, sizes, ends, saw_from.taken),
        joints=_joints(b, bore, sizes, lid_depth, gap),
        fits=(ring_fit,),
        work=tube_box_work(b.word("caps"), saw_from.taken, filing.value),
        cautions=(*b.cautions, *tube_halves.once_round(b),
                  *tube_halves.cap_measured_too(b, lengths.body),
                  *inner_ring.thin_cautions(chamfers),
                  *inner_ring.ring_cautions(filing, thickness, gap, ring_outside is not aim)),
        choices=(saw_from, *chamfers),
        changes=tuple(b.changes),
        inches=b.inches,
        walls=_walls(b, sizes),
        foot=outside,
    )  # fmt: skip


@dataclass(frozen=True)
class _Sizes:
    """The net sizes that parts and solids are made from, as they are now [mm]."""

    outside: Quantity
    wall: Quantity
    ring_thickness: Quantity
    lid_length: Quantity
    body_length: Quantity
    planned: tube_halves.Halves
    strip: Quantity
    width: Quantity
    ring_outside: Quantity


def _sizes_are_possible(
    b: Brief, aim: Quantity, inside: float, planned: tube_halves.Halves, lid: Quantity,
    body: Quantity, land: Quantity,
) -> None:  # fmt: skip
    """Refuse sizes that leave no ring, no cap, no lid, no body or no stand to slide."""
    stand = format_number(b.ring_stand.value)
    shallow = min(lid.value, planned.lid_depth.value, planned.lid.value)
    depth = min(body.value, planned.body.value)
    no_ring = "the gap leaves no ring in the bore."
    thick = "the sheet is too thick to bend inside this bore."
    no_cap = "the gap leaves no cap in the bore."
    no_lid = f"the lid would be {format_number(shallow)} mm deep inside."
    no_body = f"the ring stands {stand} mm into a body {format_number(depth)} mm deep."
    no_land = f"lead-in and chamfer leave {format_number(land.value)} mm of {stand} to slide."
    for possible, field, problem, remedy in (
        (aim.value > 0, "outside_diameter", no_ring, "Take a wider tube or a smaller lid_gap."),
        (inside > 0, "ring_thickness", thick, "Take thinner sheet for the ring."),
        (planned.cap.value > 0, "outside_diameter", no_cap, "Take a wider tube, or let no cap in."),
        (shallow >= 1, "lid_share", no_lid, "Make the box higher or the lid's share larger."),
        (depth > b.ring_stand.value, "ring_stand", no_body, "Make the stand shorter."),
        (land.value > 0.2, "ring_stand", no_land, "Make the stand longer: 2 mm, say."),
    ):
        if not possible:
            raise b.refuse(field, problem, remedy)


def _parts(b: Brief, s: _Sizes, ends: Mapping[str, int], sawn: str) -> tuple[Part, ...]:
    placed = _solids(b, s)
    meets = "body" if sawn == tube_halves.NEIGHBOURS else ""
    return (
        _half(b, s, "lid", (s.lid_length, s.planned.lid), ends["lid"], placed["lid"], meets),
        _half(b, s, "body", (s.body_length, s.planned.body), ends["body"], placed["body"]),
        _caps(b, s, placed["cap"]),
        _ring(b, s, placed["ring"]),
    )


def _half(
    b: Brief,
    s: _Sizes,
    id: str,
    lengths: tuple[Quantity, Quantity],
    sawn: int,
    placed: tuple[Solid, ...],
    meets: str = "",
) -> Part:
    """Lid or body tube; lengths: as it is now and as it was planned [mm].

    Its cap's end had better be square as bought; meets: the half it is sawn beside, if any.
    """
    name, (length, planned) = f"{id} tube", lengths
    blank = Blank(
        "tube",
        rectangle(s.outside.value, length.value),
        {"diameter": s.outside, "length": length},
        sawn_ends=sawn,
        square_ends=1,
        meets=meets,
        planned={"diameter": s.outside, "length": planned},
    )
    weight = mass.tube_mass(s.outside, s.wall, length, density(b.metal("tube_metal")))
    return Part(
        id, name, "tube", blank, weight.named(f"{id}_mass", f"weight of the {name}"), 1, placed
    )


def _caps(b: Brief, s: _Sizes, placed: tuple[Solid, ...]) -> Part:
    on_end = b.word("caps") == "on-end"
    blank = Blank("disc", disc(s.planned.cap.value), {"diameter": s.planned.cap}, trimmed=on_end)
    weight = mass.disc_mass(s.planned.cap, b.cap_thickness, density(b.metal("cap_metal")))
    return Part(
        "cap", "cap", "cap_sheet", blank, weight.named("cap_mass", "weight of a cap"), 2, placed
    )


def _ring(b: Brief, s: _Sizes, placed: tuple[Solid, ...]) -> Part:
    blank = bent_strip(s.strip, s.width)
    weight = mass.strip_mass(s.strip, s.width, s.ring_thickness, density(b.metal("ring_metal")))
    named = weight.named("ring_mass", "weight of the ring")
    return Part("ring", "ring", "ring_sheet", blank, named, 1, placed)


def _walls(b: Brief, s: _Sizes) -> tuple[Wall, ...]:
    """The body's round wall as far as the ring leaves it free: a spout may be joined there."""
    floor = b.cap_thickness.value if b.word("caps") == "on-end" else 0.0
    free = floor + s.body_length.value - b.ring_stand.value
    return (
        Wall(
            "body",
            s.outside,
            s.wall,
            b.metal("tube_metal"),
            floor,
            free,
            temper=temper_of(b, "tube"),
        ),
    )


def _solids(b: Brief, s: _Sizes) -> dict[str, tuple[Solid, ...]]:
    """Every part's body in its place, the box standing on the table."""
    outside, t = s.outside.value, b.cap_thickness.value
    on_end = b.word("caps") == "on-end"
    floor = t if on_end else 0.0
    rim = floor + s.body_length.value
    top = rim + s.lid_length.value
    roof = top if on_end else top - t
    width = s.width.value
    body = solids.tube("body", outside, s.wall.value, s.body_length.value).along(floor)
    lid = solids.tube("lid", outside, s.wall.value, s.lid_length.value).along(rim)
    low = solids.disc("cap_low", s.planned.cap.value, t)
    high = solids.disc("cap_high", s.planned.cap.value, t).along(roof)
    bent = solids.ring("ring", s.ring_outside.value, s.ring_thickness.value, width)
    return {
        "lid": (Solid("lid tube", lid),),
        "body": (Solid("body tube", body),),
        "cap": (Solid("cap of the body", low), Solid("cap of the lid", high)),
        "ring": (Solid("ring", bent.along(roof - width), show_hidden=True),),
    }


def _joints(
    b: Brief, bore: Quantity, s: _Sizes, lid_depth: Quantity, gap: Quantity
) -> tuple[Joint, ...]:
    on_end = b.word("caps") == "on-end"
    seam = ring.length(s.outside, s.wall) if on_end else ring.length(bore, 0.0)
    lap = s.wall if on_end else b.cap_thickness
    round_ring = ring.length(s.ring_outside, 0.0).named("ring_joint_length")
    return (
        Joint("ring_seam", "seam of the ring", ("ring",), s.width, s.ring_thickness),
        Joint("lid_cap", "cap to the lid", ("lid", "cap"), seam.named("lid_cap_length"), lap),
        Joint("body_cap", "cap to the body", ("body", "cap"), seam.named("body_cap_length"), lap),
        Joint(
            "ring_in_lid",
            "ring into the lid",
            ("lid", "ring"),
            round_ring,
            lid_depth,
            gap,
            after=("ring_seam", "lid_cap"),
            shows=True,
        ),
    )


def _stocks(b: Brief, wall: Quantity, saw_from: Choice) -> tuple[Stock, ...]:
    apart = saw_from.taken == tube_halves.FROM_BOTH_ENDS
    return (
        Stock(
            "tube",
            "tube",
            "tube",
            b.metal("tube_metal"),
            {"outside_diameter": b.outside_diameter, "wall": wall},
            length=b.tube_length if b.has("tube_length") else None,
            factory_ends=int(b.factory_ends.value),
            cuts=1 if apart else 2,
            how=f"sawn {saw_from.taken}",
            sawn_once=("lid_depth", "body_length"),
            temper=temper_of(b, "tube"),
        ),
        sheet_stock(b, "ring_sheet", "ring sheet", "ring"),
        sheet_stock(b, "cap_sheet", "cap sheet", "cap"),
    )


EXAMPLE = Example(
    "striker box",
    """title = "Striker box"
design = "tube-box"

[stock.tube]
metal = "C26000"
outside_diameter = ["34.92", "34.95", "34.93"]   # round the tube, 60 degrees apart
wall = ["0.92", "0.91"]                          # with a ball or knife-edge jaw
# bore = ["33.10"]                               # inside jaws: used together with the two above
length = "180 mm"
factory_ends = 2

[stock.ring_sheet]
metal = "C26000"
thickness = "22 ga"                              # or readings: ["0.64", "0.65"]

[stock.cap_sheet]
metal = "C26000"
thickness = ["0.81", "0.82"]

[sizes]
height = "52 mm"
lid_share = "0.3"
ring_stand = "2.5 mm"      # how far the lid's inner ring stands out of the lid
fit = "snug"               # or: clearance = "0.03 mm"
caps = "on-end"            # or: "let-in"

[as_built]                 # readings taken as the work goes; each replaces a planned value
# lid_depth = ["14.62", "14.60"]
""",
    {
        "bore": 34.93333333 - 2 * 0.915,
        "lid_depth": 52 * 0.3 - 0.815,
        "ring_width": 52 * 0.3 - 0.815 + 2.5,
        "cap_diameter": 34.93333333,
    },
    "plane geometry, worked by hand from the readings' means",
)

DESIGN = Design(
    id="tube-box",
    title="Round lidded box from tube",
    summary="Two pieces of tube with a cap each; a ring soldered in the lid slides into the body.",
    fields=FIELDS,
    build=build,
    examples=(EXAMPLE,),
)
