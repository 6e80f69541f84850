"""Two halves sawn from one tube: its fields, its bore, where the saw goes, how the caps sit."""

from __future__ import annotations

from hollowright.designs.brief import Brief
from hollowright.designs.fields import Field
from hollowright.formulas import box, tube
from hollowright.piece import Window
from hollowright.quantity import Quantity
from hollowright.quantity.choices import Choice
from hollowright.units import MM_PER_INCH, format_number

CAPS = ("on-end", "let-in")
FROM_BOTH_ENDS = "from both ends"
NEIGHBOURS = "as neighbours"

STOCK_FIELDS = (
    Field("stock.tube.metal", "tube_metal", "metal", "tube's metal", "by its name or number", "C26000", required=True),
    Field("stock.tube.outside_diameter", "outside_diameter", "readings", "outside diameter",
          "round the tube: two square to each other, or three 60 degrees apart", "38.05 mm",
          required=True, low=3, high=400, around=True),
    Field("stock.tube.wall", "wall", "readings", "wall",
          "with a ball or knife-edge jaw; leave it out if the bore is read", "1.02 mm", low=0.15, high=20),
    Field("stock.tube.bore", "bore", "readings", "bore, read directly",
          "with the inside jaws; used together with outside and wall", "36.02 mm", low=2.5, high=400, inside=True),
    Field("stock.tube.length", "tube_length", "length", "length of the tube", "what lies in the drawer",
          "300 mm", low=5, high=6000),
    Field("stock.tube.factory_ends", "factory_ends", "count", "factory-square ends",
          "how many of its ends are square as bought: 0, 1 or 2", "2", default="2", high=2),
    Field("stock.cap_sheet.metal", "cap_metal", "metal", "caps' metal", "", "C26000", required=True),
    Field("stock.cap_sheet.thickness", "cap_thickness", "thickness", "cap's thickness", "", "0.71 mm",
          required=True, low=0.2, high=8),
)  # fmt: skip

SIZE_FIELDS = (
    Field("sizes.height", "height", "length", "height", "of the closed box, outside", "45 mm",
          required=True, low=6, high=600),
    Field("sizes.lid_share", "lid_share", "share", "lid's share", "of the height", "1/3", default="1/3",
          low=0.05, high=0.95),
    Field("sizes.caps", "caps", "choice", "caps", "on the tube's end, or let into the bore", "on-end",
          default="on-end", choices=CAPS),
)  # fmt: skip

BUILT_FIELDS = (
    Field("as_built.lid_depth", "built_lid_depth", "readings", "lid depth as built", "with the depth rod", "14.29 mm", low=1, high=600),
    Field("as_built.body_length", "built_body_length", "readings", "body length as built", "", "29.29 mm", low=1, high=600),
    Field("as_built.lid_bore", "built_lid_bore", "readings", "lid's bore as built", "after its cap is soldered", "36.03 mm", low=2.5, high=400, inside=True),
    Field("as_built.body_bore", "built_body_bore", "readings", "body's bore as built", "after its cap is soldered", "36.03 mm", low=2.5, high=400, inside=True),
)  # fmt: skip


def tube_wall(b: Brief) -> Quantity:
    if b.has("wall"):
        jaw = b.bench.instrument.jaw
        if not jaw:
            return b.wall
        return tube.wall_under_flat_jaw(b.wall, jaw, b.outside_diameter)
    if not b.has("bore"):
        raise b.refuse("wall", "neither the wall nor the bore was read.", "Read one: 1.02 mm, say.")
    return tube.wall_from_bore(b.outside_diameter, b.bore)


def _tube_is_possible(b: Brief, wall: Quantity) -> None:
    outside = b.outside_diameter.value
    if 2 * wall.value < outside and wall.value > 0:
        return
    inches = outside * MM_PER_INCH
    ask = ""
    if wall.value > 0 and 2 * wall.value < inches:
        ask = f"Were inches meant? Then write {outside:g} in ({format_number(inches)} mm)."
    raise b.refuse(
        "outside_diameter",
        f"{format_number(outside)} mm leaves no bore inside a wall of {format_number(wall.value)} mm.",
        ask or "Measure both again.",
    )


def tube_bore(b: Brief, wall: Quantity) -> Quantity:
    """The tube's bore: reckoned, read, or both together by their doubts [mm]."""
    _tube_is_possible(b, wall)
    flat = b.bench.instrument.inside_flat
    direct = b.bore if b.has("bore") else None
    if direct is not None and flat:
        direct = tube.bore_under_flat_jaws(direct, flat)
    if direct is not None and not b.has("wall"):
        return direct
    return b.both(tube.bore(b.outside_diameter, wall), direct)


def halves(b: Brief, bore: Quantity) -> tuple[Quantity, Quantity, Quantity, Quantity]:
    """Lid's tube, lid's depth, body's tube, cap's diameter [mm], by how the caps sit."""
    height, share, cap = b.height, b.lid_share, b.cap_thickness
    if b.word("caps") == "on-end":
        lid = box.lid_length(height, share, cap)
        body = box.body_length(height, share, cap)
        return lid, box.depth_on_end(lid), body, box.cap_on_end(b.outside_diameter)
    lid = box.lid_length_let_in(height, share)
    body = box.body_length_let_in(height, share)
    return lid, box.depth_let_in(lid, cap), body, box.cap_let_in(bore, b.shop("cap_gap"))


def inside_depth(b: Brief, length: Quantity) -> Quantity:
    if b.word("caps") == "on-end":
        return box.depth_on_end(length)
    return box.depth_let_in(length, b.cap_thickness)


def saw_from(b: Brief, window: Window) -> tuple[dict[str, int], Choice]:
    """How many ends of lid and body are sawn, and why the two are cut where they are.

    Neighbours match in ovality; factory-square ends spare the truing at the caps.
    """
    factory = int(b.factory_ends.value)
    reading = b.reading("outside_diameter")
    oval = reading.ovality if reading else 0.0
    width = window[1] - window[0]
    apart = factory == 2 and oval <= width
    taken = FROM_BOTH_ENDS if apart else NEIGHBOURS
    choice = Choice(
        "cut_from", "factory ends for the caps where the tube is round enough, else neighbours",
        {"ovality": oval, "window": width}, taken, abs(oval - width), 0.0,
    )  # fmt: skip
    if apart:
        return {"lid": 1, "body": 1}, choice
    return {"lid": 1 if factory else 2, "body": 2}, choice
