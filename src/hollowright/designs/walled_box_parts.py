"""The parts of a walled box but for its lid: wall, base and top, with their seams."""

from __future__ import annotations

from dataclasses import dataclass

from hollowright.designs import closed_strip, forms
from hollowright.designs.brief import Brief
from hollowright.designs.forms import Form
from hollowright.designs.lids import shell
from hollowright.designs.stocks import density
from hollowright.designs.strips import bent_strip
from hollowright.designs.walled_box_walls import CAP, Walls
from hollowright.formulas import lid as law
from hollowright.formulas import wall as wall_law
from hollowright.piece import Blank, Joint, Part, Solid
from hollowright.quantity import Quantity
from hollowright.shapes.extruded import Extruded


@dataclass(frozen=True)
class Plates:
    """Outlines of base and top, net, and the quantities that they are listed by."""

    base: Form
    top: Form
    quantities: tuple[Quantity, ...]


def plate_sizes(b: Brief, w: Walls, lid_outside: Form | None = None) -> Plates:
    """Base and top, on the wall's edges or let in; lid_outside: of a lid with its own wall."""
    above = lid_outside or w.form
    if b.word("plates") == "on-end":
        base, top = forms.named(w.form, "base"), forms.named(above, "top")
        more: tuple[Quantity, ...] = (b.shop("cap_rim"),)
    else:
        depth = law.let_in_depth(w.thickness, b.shop("cap_gap"))
        base = forms.parallel(w.form, depth, "the base", "base")
        top = forms.parallel(above, depth, "the top", "top")
        more = (depth.named("let_in_depth", depth.label),)
    return Plates(base, top, (*base.sizes.values(), *top.sizes.values(), *more))


def parts(b: Brief, w: Walls, plates: Plates) -> tuple[Part, ...]:
    """Wall, base and top, each with its blank, weight and solids."""
    t = b.plate_sheet_thickness.value
    on_end = b.word("plates") == "on-end"
    high = w.host.roof
    return (
        _wall(b, w),
        _plate(b, "base", plates.base, w.floor - t if on_end else 0.0),
        _plate(b, "top", plates.top, high),
    )


def _wall(b: Brief, w: Walls) -> Part:
    blank = bent_strip(
        w.length, w.width, parted=0 if b.word("lid") == CAP else 1,
        marks=closed_strip.marks(b, w.form, w.thickness.value, w.length.value, w.width.value),
    )  # fmt: skip
    made = shell(w.form, w.form.across, w.thickness, "the wall")
    lid_wall, body_wall = w.heights
    solids = [Solid("body's wall", made.body("body_wall", body_wall.value, w.floor))]
    height = body_wall
    if b.word("lid") != CAP:
        height = lid_wall + body_wall
        solids.append(Solid("lid's wall", made.body("lid_wall", lid_wall.value, w.host.rim)))
    weight = made.mass(height, b.metal("wall_sheet_metal"))
    named = weight.named("wall_mass", "weight of the wall")
    return Part("wall", "wall", "wall_sheet", blank, named, 1, tuple(solids))


def _plate(b: Brief, id: str, form: Form, floor: float) -> Part:
    on_end = b.word("plates") == "on-end"
    low_x, low_y, _, _ = form.outline.bounds
    blank = Blank("plate", form.outline.moved(-low_x, -low_y), form.sizes, trimmed=on_end)
    thickness = b.plate_sheet_thickness
    weight = law.plate_mass(form.area, thickness, density(b.metal("plate_sheet_metal")))
    body = Extruded(id, form.outline, thickness.value, (0.0, 0.0, floor))
    named = weight.named(f"{id}_mass", f"weight of the {id}")
    return Part(id, id, "plate_sheet", blank, named, 1, (Solid(id, body),))


def inner_radius(w: Walls) -> tuple[Quantity, ...]:
    """Radius of the rod that rounded corners are bent round [mm]; none where they are sharp."""
    corner = w.form.corner
    if corner is None or corner.value <= w.thickness.value:
        return ()
    return (wall_law.inner_corner(corner, w.thickness),)


def joints(b: Brief, w: Walls, plates: Plates, lid_wall: Part | None = None) -> tuple[Joint, ...]:
    """The wall's seam, and the seams of base and top; lid_wall: where the lid has its own."""
    on_end = b.word("plates") == "on-end"
    lap = w.thickness if on_end else b.plate_sheet_thickness
    base = w.length if on_end else plates.base.round
    above = lid_wall.blank.sizes["length"] if lid_wall else w.length
    top = above if on_end else plates.top.round
    before = ("wall_seam", f"{lid_wall.id}_seam") if lid_wall else ("wall_seam",)
    return (
        Joint("wall_seam", "seam of the wall", ("wall",), w.width, w.thickness),
        Joint("base_joint", "base to the body", ("wall", "base"),
              base.named("base_joint_length"), lap, after=("wall_seam",)),
        Joint("top_joint", "top to the lid", (lid_wall.id if lid_wall else "wall", "top"),
              top.named("top_joint_length"), lap, after=before),
    )  # fmt: skip
