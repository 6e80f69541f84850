"""The hollow finger band: a sleeve inside, a shell outside, two flat sides, and its vents."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hollowright.designs import finger_band_work
from hollowright.designs.brief import Brief
from hollowright.designs.fields import Field
from hollowright.designs.finger_band_size import Inside, inside_of
from hollowright.designs.stocks import density, sheet_stock
from hollowright.designs.strips import bent_strip
from hollowright.errors import Caution
from hollowright.formulas import band, hollow_band
from hollowright.formulas.dome import held_head
from hollowright.formulas.mass import strip_mass
from hollowright.formulas.ring import length as ring_length
from hollowright.piece import Blank, Joint, Part, Piece, Scribe, Solid, by_id
from hollowright.quantity import Quantity, exact, total
from hollowright.shapes import solids
from hollowright.shapes.carved import Carved
from hollowright.shapes.curves import TURN, Arc
from hollowright.shapes.frames import Frame
from hollowright.shapes.outline import annulus
from hollowright.shapes.solids import FRONT_LEFT, Turned
from hollowright.units import format_number

ON_END, LET_IN = "on-end", "let-in"
VENTS = 2
"""One lets the air out while water comes in by the other; on opposite sides of the sleeve."""

FIELDS = (
    Field(
        "sizes.depth", "depth", "length", "depth of a hollow band", "from inside to outside",
        "3.4 mm", low=1, high=30,
    ),
    Field(
        "sizes.sides", "sides", "choice", "sides of a hollow band",
        "on the edges of sleeve and shell, or let in between them", ON_END, default=ON_END,
        choices=(ON_END, LET_IN),
    ),
    Field(
        "sizes.vent", "vent", "length", "vents of a hollow band",
        "two holes in the sleeve, left open for good", "1 mm", default="1 mm", low=0.5, high=5,
    ),
)  # fmt: skip


@dataclass(frozen=True)
class _Sizes:
    """The parts' sizes [mm]: edge: width of sleeve and shell; across, hole: of a side."""

    outside: Quantity
    sleeve: Quantity
    made_sleeve: Quantity
    shell: Quantity
    edge: Quantity
    across: Quantity
    hole: Quantity


def hollow(b: Brief) -> Piece:
    """A hollow band: what is asked must leave a hollow, else it is refused."""
    thickness, width = b.sheet_thickness, b.width
    _check(b, thickness.value, width.value)
    inside = inside_of(b, width)
    s = _sizes(b, inside)
    metal = density(b.metal("sheet_metal"))
    vented = hollow_band.vent_volume(inside.now, thickness, b.vent)
    parts = _parts(b, inside, s, metal, vented)
    whole = total(
        "", "weight of all parts", [each.mass for each in parts for _ in range(each.count)]
    )
    solid = hollow_band.solid_mass(s.outside, inside.now, width, metal)
    between = hollow_band.between_sides(width, thickness).named("between", "from side to side")
    seam = hollow_band.side_seam(inside.now, s.outside)
    polish = b.shop("polish")
    sides = (b.shop("cap_rim"),) if b.word("sides") == ON_END else (
        s.across, s.hole, b.shop("cap_gap"))  # fmt: skip
    eased = inside.beside(b, s.sleeve)
    return Piece(
        title=b.title,
        design="finger-band",
        quantities=by_id(
            *inside.listed, thickness, width, b.depth, s.outside, s.sleeve, s.shell, s.edge, *sides,
            b.vent, vented, held_head(b.vent), seam, *eased,
            solid, hollow_band.lighter(whole, solid),
            hollow_band.hollow_volume(s.outside, inside.now, thickness, between), polish,
            band.polished_inside(inside.now, polish), band.polished_thickness(thickness, polish),
        ),
        stocks=(sheet_stock(b, "sheet", "sheet"),),
        parts=parts,
        joints=_joints(s.edge, seam, thickness),
        fits=(),
        work=finger_band_work.hollow(
            b.word("sides") == ON_END, inside.said, bool(eased), inside.mend
        ),
        cautions=(*b.cautions, *inside.cautions, *_cautions(b.vent, s.outside)),
        changes=tuple(b.changes),
        inches=b.inches,
    )  # fmt: skip


def _sizes(b: Brief, inside: Inside) -> _Sizes:
    thickness = b.sheet_thickness
    outside = band.outside(inside.now, b.depth)
    sleeve, made = (
        band.length(each, thickness).named("sleeve_length", "length of the sleeve's strip")
        for each in (inside.planned, inside.now)
    )
    shell = ring_length(outside, thickness).named("shell_length", "length of the shell's strip")
    if b.word("sides") == ON_END:
        edge = hollow_band.between_sides(b.width, thickness)
        return _Sizes(outside, sleeve, made, shell, edge, outside, inside.now)
    gap = b.shop("cap_gap")
    across = hollow_band.side_in_shell(outside, thickness, gap)
    hole = hollow_band.side_on_sleeve(inside.now, thickness, gap)
    edge = b.width.named("sleeve_width", "width of sleeve and shell")
    return _Sizes(outside, sleeve, made, shell, edge, across, hole)


def _parts(
    b: Brief, inside: Inside, s: _Sizes, metal: Quantity, vented: Quantity
) -> tuple[Part, ...]:
    thickness, edge = b.sheet_thickness, s.edge
    on_end = b.word("sides") == ON_END
    t, foot = thickness.value, thickness.value if on_end else 0.0
    sleeve = s.made_sleeve if inside.changed else s.sleeve
    cut = {"length": s.sleeve, "width": edge} if inside.changed else None
    within = solids.ring("sleeve", inside.now.value + 2 * t, t, edge.value).moved((0, 0, foot))
    weight = hollow_band.vented_mass(
        strip_mass(s.made_sleeve, edge, thickness, metal).named("", "weight of the sleeve's strip"),
        exact("", f"{VENTS}", "", VENTS, "constant"), vented, metal,
    )  # fmt: skip
    drilled = Carved(
        "sleeve", within, _drills(b, inside.now.value / 2, foot + edge.value / 2),
        exact_volume=within.volume - VENTS * vented.value,
    )  # fmt: skip
    around = solids.ring("shell", s.outside.value, t, edge.value).moved((0, 0, foot))
    return (
        Part(
            "sleeve", "sleeve", "sheet",
            bent_strip(sleeve, edge, planned=cut,
                       marks=_vents(sleeve.value, edge.value, b.vent.value)),
            weight.named("sleeve_mass", "weight of the sleeve"),
            solids=(Solid("sleeve", drilled, pull=(0.0, 0.0, 2.2 * b.width.value)),),
        ),
        Part(
            "shell", "shell", "sheet",
            bent_strip(s.shell, edge),
            strip_mass(s.shell, edge, thickness, metal).named("shell_mass", "weight of the shell"),
            solids=(Solid("shell", around, pull=(0.0, 0.0, 1.1 * b.width.value)),),
        ),
        Part(
            "side", "side", "sheet",
            Blank("plate", annulus(s.across.value, s.hole.value),
                  {"diameter": s.across, "hole": s.hole}, trimmed=on_end, grows={"hole": -2}),
            hollow_band.side_mass(s.across, s.hole, thickness, metal).named(
                "side_mass", "weight of a side"),
            2, _side_solids(s, t, b.width.value),
        ),
    )  # fmt: skip


def _side_solids(s: _Sizes, thickness: float, width: float) -> tuple[Solid, ...]:
    """Both sides in their place; the upper one is drawn off above all."""
    inner, outer = s.hole.value / 2, s.across.value / 2
    flat = ((inner, 0.0), (outer, 0.0), (outer, thickness), (inner, thickness))
    low = Turned("side_low", flat)
    high = Turned("side_high", flat, (0.0, 0.0, width - thickness))
    return (
        Solid("lower side", low, pull=(0.0, 0.0, 0.0)),
        Solid("upper side", high, pull=(0.0, 0.0, 3.3 * width)),
    )


def _drills(b: Brief, inside: float, height: float) -> tuple[Turned, ...]:
    """What the drill takes out of the sleeve, both vents a quarter round from its seam [mm]."""
    vent, past = b.vent.value, b.sheet_thickness.value
    start = math.sqrt(inside * inside - vent * vent / 4) - past
    rod = solids.disc("vent", vent, inside - start + 2 * past)
    found = []
    for turn in (FRONT_LEFT + TURN / 4, FRONT_LEFT - TURN / 4):
        way = (math.cos(turn), math.sin(turn), 0.0)
        found.append(rod.placed(Frame((start * way[0], start * way[1], height), way)))
    return tuple(found)


def _vents(length: float, width: float, vent: float) -> tuple[Scribe, ...]:
    """Where the sleeve is drilled: opposite each other, the seam between them."""
    return tuple(
        Scribe(Arc((length * place, width / 2), vent / 2, 0.0, TURN), "vent")
        for place in (0.25, 0.75)
    )


def _joints(edge: Quantity, seam: Quantity, thickness: Quantity) -> tuple[Joint, ...]:
    seams = ("sleeve_seam", "shell_seam")
    return (
        Joint(seams[0], "seam of the sleeve", ("sleeve",), edge, thickness),
        Joint(seams[1], "seam of the shell", ("shell",), edge, thickness, shows=True),
        Joint(
            "first_side", "first side on sleeve and shell", ("sleeve", "shell", "side"), seam,
            thickness, after=seams, shows=True,
        ),
        Joint(
            "second_side", "second side on sleeve and shell", ("sleeve", "shell", "side"), seam,
            thickness, after=("first_side",), shows=True,
        ),
    )  # fmt: skip


def _check(b: Brief, thickness: float, width: float) -> None:
    """Refuse a band without a hollow, and vents as wide as the sleeve."""
    if not b.has("depth"):
        raise b.refuse("depth", "it is missing.", "Write how deep the band is: 3.4 mm, say.")
    least = 2 * thickness + 0.5
    said = f"sheet of {format_number(thickness)} mm leaves no hollow in"
    for name, size in (("depth", b.depth.value), ("width", width)):
        if size < least:
            raise b.refuse(
                name, f"{said} {format_number(size)} mm.",
                f"Make it {format_number(least)} mm at least, or take thinner sheet.",
            )  # fmt: skip
    room = width - 2 * thickness
    if b.vent.value > 0.6 * room:
        raise b.refuse(
            "vent", f"{format_number(b.vent.value)} mm is too much of a hollow of "
            f"{format_number(room)} mm.", f"Write {format_number(0.4 * room)} mm, say.",
        )  # fmt: skip


def _cautions(vent: Quantity, outside: Quantity) -> tuple[Caution, ...]:
    """What to mind of vents that hold water back."""
    held = held_head(vent).value
    if held < outside.value:
        return ()
    text = (
        f"Vents of {format_number(vent.value)} mm hold back {format_number(held, 0)} mm of water, "
        "more than the band is across: pickle and rinse stay in it unless they are boiled out. "
        f"{format_number(math.ceil(10 * 29.7 / outside.value) / 10, 1)} mm drains by itself."
    )
    return (Caution("vent_holds_water", text, "hole", "vent"),)
