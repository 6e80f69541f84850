"""A lidded box of any outline: its wall a strip bent round, base and top, a lid by choice."""

from __future__ import annotations

from dataclasses import replace

from hollowright.designs import (
    cap_lid,
    closed_strip,
    hinged_lid,
    inner_ring,
    lids,
    outer_rim,
    outlines,
    ring_lid,
    tube_halves,
)
from hollowright.designs.brief import Brief
from hollowright.designs.fields import Design, Field, asked_by
from hollowright.designs.stocks import sheet_fields, sheet_stock, temper_of
from hollowright.designs.walled_box_examples import EXAMPLES
from hollowright.designs.walled_box_parts import inner_radius, joints, parts, plate_sizes
from hollowright.designs.walled_box_walls import Walls, walls_of
from hollowright.designs.walled_box_work import Strip, box_work, finish
from hollowright.errors import Caution
from hollowright.piece import Piece, Wall, by_id
from hollowright.quantity import Quantity

LIDS = {
    "inner-ring": ring_lid.ring_lid,
    "outer-rim": outer_rim.rim_lid,
    "cap": cap_lid.cap_lid,
    "hinged": hinged_lid.hinged_lid,
}
"""How the lid is held, and what makes it."""

PLATES = ("on-end", "let-in")

SIZE_FIELDS = (
    *outlines.FIELDS,
    *tube_halves.SIZE_FIELDS[:2],
    Field(
        "sizes.plates", "plates", "choice", "base and top", "on the wall's edges, or let in flush",
        "on-end", default="on-end", choices=PLATES,
    ),
    Field(
        "sizes.lid", "lid", "choice", "lid",
        "held by a ring inside, by a rim outside, a cap over the body, or on a hinge", "inner-ring",
        default="inner-ring", choices=tuple(LIDS),
    ),
    *inner_ring.SIZE_FIELDS[:-1],
    replace(
        inner_ring.SIZE_FIELDS[-1], label="neutral line",
        help="of wall and lid; mid-thickness for annealed sheet bent round a former",
    ),
    *outer_rim.FIELDS,
    *closed_strip.FIELDS,
)  # fmt: skip

_ALL = (
    *sheet_fields("wall_sheet", "wall sheet"),
    *sheet_fields("plate_sheet", "sheet of base and top", "0.71 mm"),
    *ring_lid.STOCK_FIELDS,
    *(field for field in hinged_lid.FIELDS if field.group.startswith("stock")),
    *SIZE_FIELDS,
    *(field for field in hinged_lid.FIELDS if field.group.startswith("sizes")),
    *lids.BUILT_FIELDS,
    *ring_lid.BUILT_FIELDS,
    *(field for field in hinged_lid.FIELDS if field.group == "as_built"),
)

_RING, _RIM, _FITTED = ("inner-ring",), ("inner-ring", "outer-rim"), tuple(LIDS)[:3]
_BY_LID = {
    **dict.fromkeys((field.name for field in ring_lid.STOCK_FIELDS), _RIM),
    "built_ring_thickness": _RIM,
    **dict.fromkeys(("ring_stand", "lid_gap"), _RING),
    **dict.fromkeys(("fit", "clearance"), _FITTED),
    **dict.fromkeys((field.name for field in outer_rim.FIELDS), ("outer-rim",)),
    **dict.fromkeys((field.name for field in hinged_lid.FIELDS), ("hinged",)),
}
"""Which lids ask for what."""

FIELDS = asked_by(
    "corners",
    dict.fromkeys(("score_web", "score_line"), ("scored",)),
    asked_by("lid", _BY_LID, _ALL),
)


def build(b: Brief) -> Piece:
    """The piece of a brief: every size net, every number with its working."""
    w = walls_of(b)
    lid = LIDS[b.word("lid")](b, w.host)
    round_walls = _round_walls(b, w)
    plates = plate_sizes(b, w, lid.outer)
    wall, *others = parts(b, w, plates)
    bends = closed_strip.bend_lines(wall.blank.marks)
    if lid.seats:
        wall = hinged_lid.seated(wall, lid.seats)
    return Piece(
        title=b.title,
        design="walled-box",
        quantities=by_id(
            *w.quantities, *plates.quantities, b.height, b.lid_share, b.plate_sheet_thickness,
            *lid.quantities, *bends, *inner_radius(w),
        ),
        stocks=(
            sheet_stock(b, "wall_sheet", "wall sheet"),
            sheet_stock(b, "plate_sheet", "sheet of base and top"),
            *lid.stocks,
        ),
        parts=(wall, *others, *lid.parts),
        joints=(*joints(b, w, plates, lid.parts[0] if lid.outer else None), *lid.joints),
        fits=lid.fits,
        work=(*box_work(_strip(w, bends), b.word("plates"), w.reads, lid.outer is not None),
              *lid.work, *(() if lid.seats else finish(lid.work[-1].id))),
        cautions=(*b.cautions, *w.cautions, *_unused(b), *lid.cautions),
        choices=lid.choices,
        changes=tuple(b.changes),
        inches=b.inches,
        walls=round_walls,
    )  # fmt: skip


def _strip(w: Walls, bends: tuple[Quantity, ...]) -> Strip:
    """How the wall's strip is bent, for the sentences that say so."""
    return Strip(
        w.form.shape, bool(w.how.grooves), bool(inner_radius(w)), tuple(line.id for line in bends)
    )


def _unused(b: Brief) -> tuple[Caution, ...]:
    """A caution where a gap in the lid was asked of a lid that has no ring."""
    if b.word("lid") == "inner-ring" or not b.has("lid_gap"):
        return ()
    text = "The gap in the lid belongs to an inner ring: this lid is made to the clearance alone."
    return (Caution("lid_gap_unused", text, "fit", "lid_gap"),)


def _round_walls(b: Brief, w: Walls) -> tuple[Wall, ...]:
    """The body's wall, where it is round and as far as the lid leaves it free: for a spout, say."""
    if w.form.shape != "circle":
        return ()
    taken = {
        "inner-ring": b.ring_stand.value,
        "outer-rim": b.rim_reach.value,
        "cap": w.host.lid_depth.value,
    }
    free = w.host.rim - taken.get(b.word("lid"), 0.0)
    over = b.word("lid") in ("outer-rim", "cap")  # then the body's outside is read for the lid
    outside = w.form.across.named("body_outside", "body's outside")
    across = w.host.body_outside if over else b.built(outside)
    metal = b.metal("wall_sheet_metal")
    return (
        Wall("wall", across, w.thickness, metal, w.floor, free, True, temper_of(b, "wall_sheet")),
    )


DESIGN = Design(
    id="walled-box",
    title="Lidded box of any outline",
    summary="A strip bent round an outline and sawn into body and lid, a plate on each, a fitted "
    "lid.",
    fields=FIELDS,
    build=build,
    examples=EXAMPLES,
)
