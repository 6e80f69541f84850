"""Two halves sawn from one tube: its fields, its bore, where the saw goes, how the caps sit."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hollowright.designs.brief import Brief
from hollowright.designs.fields import Field
from hollowright.designs.stocks import lying_fields, temper_field
from hollowright.errors import Caution, InputError
from hollowright.formulas import box, tube
from hollowright.piece import Window
from hollowright.quantity import Quantity
from hollowright.quantity.choices import Choice
from hollowright.units import MM_PER_INCH, format_number

CAPS = ("on-end", "let-in")
FROM_BOTH_ENDS = "from both ends"
NEIGHBOURS = "as neighbours"
CAP_MEASURED = 0.3
"""A body this near [of a cap's thickness] to a cap too long was read over its cap."""

WIDEST_JAW = 0.3
"""A flat jaw wider than this part of the bore isn't corrected for but refused."""

STOCK_FIELDS = (
    Field(
        "stock.tube.metal",
        "tube_metal",
        "metal",
        "tube's metal",
        "by its name or number",
        "C26000",
        required=True,
    ),
    Field(
        "stock.tube.outside_diameter",
        "outside_diameter",
        "readings",
        "outside diameter",
        "round the tube: two square to each other, or three 60 degrees apart",
        "38.05 mm",
        required=True,
        low=3,
        high=400,
        around=True,
    ),
    Field(
        "stock.tube.wall",
        "wall",
        "thickness",
        "wall",
        "with a ball or knife-edge jaw, or as sold: 18 bwg; leave it out if the bore is read",
        "1.02 mm",
        low=0.15,
        high=20,
    ),
    Field(
        "stock.tube.bore",
        "bore",
        "readings",
        "bore, read directly",
        "with the inside jaws; used together with outside and wall",
        "36.02 mm",
        low=2.5,
        high=400,
        inside=True,
    ),
    Field(
        "stock.tube.length",
        "tube_length",
        "length",
        "length of the tube",
        "of the piece in hand",
        "300 mm",
        low=5,
        high=6000,
    ),
    Field(
        "stock.tube.factory_ends",
        "factory_ends",
        "count",
        "factory-square ends",
        "how many of its ends are square as bought: 0, 1 or 2",
        "2",
        default="2",
        high=2,
    ),
    temper_field("tube", "tube"),
    Field(
        "stock.cap_sheet.metal", "cap_metal", "metal", "caps' metal", "", "C26000", required=True
    ),
    Field(
        "stock.cap_sheet.thickness",
        "cap_thickness",
        "thickness",
        "cap's thickness",
        "",
        "0.71 mm",
        required=True,
        low=0.2,
        high=8,
    ),
    *lying_fields("cap_sheet", "cap sheet"),
)

SIZE_FIELDS = (
    Field(
        "sizes.height",
        "height",
        "length",
        "height",
        "of the closed box, outside",
        "45 mm",
        required=True,
        low=6,
        high=600,
    ),
    Field(
        "sizes.lid_share",
        "lid_share",
        "share",
        "lid's share",
        "of the height",
        "1/3",
        default="1/3",
        low=0.05,
        high=0.95,
    ),
    Field(
        "sizes.caps",
        "caps",
        "choice",
        "caps",
        "on the tube's end, or let into the bore",
        "on-end",
        default="on-end",
        choices=CAPS,
    ),
)

BUILT_FIELDS = (
    Field(
        "as_built.lid_depth",
        "built_lid_depth",
        "readings",
        "lid depth as built",
        "with the depth rod",
        "14.29 mm",
        low=1,
        high=600,
    ),
    Field(
        "as_built.body_length",
        "built_body_length",
        "readings",
        "body length as built",
        "the tube alone: with its cap on the end, read the inside depth",
        "29.29 mm",
        low=1,
        high=600,
    ),
    Field(
        "as_built.lid_bore",
        "built_lid_bore",
        "readings",
        "lid's bore as built",
        "after its cap is soldered",
        "36.03 mm",
        low=2.5,
        high=400,
        inside=True,
    ),
    Field(
        "as_built.body_bore",
        "built_body_bore",
        "readings",
        "body's bore as built",
        "after its cap is soldered",
        "36.03 mm",
        low=2.5,
        high=400,
        inside=True,
    ),
)


@dataclass(frozen=True)
class Halves:
    """What two halves of one tube are planned to be: lid and its depth, body, cap [mm]."""

    lid: Quantity
    lid_depth: Quantity
    body: Quantity
    cap: Quantity


def tube_wall(b: Brief) -> Quantity:
    """The tube's wall [mm]: read (and corrected for flat jaws), or from outside and bore."""
    if b.has("wall"):
        _tube_is_possible(b, b.wall)
        jaw = b.bench.instrument.jaw
        return _jaw_corrected(b, jaw) if jaw and b.reading("wall") else b.wall
    direct = _direct_bore(b)
    if direct is None:
        raise b.refuse("wall", "neither the wall nor the bore was read.", "Read one: 1.02 mm, say.")
    wall = tube.wall_from_bore(b.outside_diameter, direct)
    if wall.value <= 0:
        raise b.refuse(
            "bore", "it is no less than the outside diameter.", "Measure both again; mind the unit."
        )
    return wall


def _jaw_corrected(b: Brief, jaw: float) -> Quantity:
    if jaw > WIDEST_JAW * (b.outside_diameter.value - 2 * b.wall.value):
        raise InputError(
            "shop.calliper.jaw",
            f"a flat jaw of {format_number(jaw)} mm doesn't go into this bore far enough.",
            "Read the wall with a ball or knife-edge jaw and set jaw = 0.",
        )
    wall = tube.wall_under_flat_jaw(b.wall, jaw, b.outside_diameter)
    if wall.value <= 0:
        raise b.refuse("wall", "the flat jaws bridge more than the wall.", "Read it with a ball.")
    return wall


def _tube_is_possible(b: Brief, wall: Quantity) -> None:
    outside = b.outside_diameter.value
    if 2 * wall.value < outside:
        return
    inches = outside * MM_PER_INCH
    ask = ""
    if 2 * wall.value < inches:
        ask = f"Were inches meant? Then write {outside:g} in ({format_number(inches)} mm)."
    raise b.refuse(
        "outside_diameter",
        f"{format_number(outside)} mm leaves no bore in a wall of {format_number(wall.value)} mm.",
        ask or "Measure both again.",
    )


def _direct_bore(b: Brief) -> Quantity | None:
    """The bore as read with the inside jaws, corrected for their flats; None when not read."""
    if not b.has("bore"):
        return None
    flat = b.bench.instrument.inside_flat
    return tube.bore_under_flat_jaws(b.bore, flat) if flat else b.bore


def tube_bore(b: Brief, wall: Quantity) -> Quantity:
    """The tube's bore: reckoned, read, or both together by their doubts [mm]."""
    direct = _direct_bore(b)
    if direct is not None and not b.has("wall"):
        return direct
    return b.both(tube.bore(b.outside_diameter, wall), direct)


def halves(b: Brief, bore: Quantity) -> Halves:
    """What the two halves are planned to be, by how the caps sit."""
    height, share, cap = b.height, b.lid_share, b.cap_thickness
    if b.word("caps") == "on-end":
        lid = box.lid_length(height, share, cap)
        body = box.body_length(height, share, cap)
        return Halves(lid, box.depth_on_end(lid), body, box.cap_on_end(b.outside_diameter))
    lid = box.lid_length_let_in(height, share)
    body = box.body_length_let_in(height, share)
    return Halves(lid, box.depth_let_in(lid, cap), body, box.cap_let_in(bore, b.shop("cap_gap")))


def inside_depth(b: Brief, length: Quantity) -> Quantity:
    """Inside depth [mm] of a half whose tube is this long."""
    if b.word("caps") == "on-end":
        return box.depth_on_end(length)
    return box.depth_let_in(length, b.cap_thickness)


def tube_for_depth(b: Brief, depth: Quantity) -> Quantity:
    """Length [mm] of the tube of a half that came out this deep inside."""
    if b.word("caps") == "on-end":
        return box.depth_on_end(depth).named("lid_length_now")
    return box.length_for_depth(depth, b.cap_thickness).named("lid_length_now")


def once_round(b: Brief) -> tuple[Caution, ...]:
    """A caution when the outside was read once only: a tube's ovality can't be seen from that."""
    reading = b.reading("outside_diameter")
    if reading is None or len(reading.values) > 1:
        return ()
    text = (
        "The outside was read once: that can't show whether the tube is round. Read it at three "
        "places 60 degrees apart; the ring's length follows their mean."
    )
    return (Caution("read_once_round", text, "reading", "outside_diameter"),)


def cap_measured_too(b: Brief, planned: Quantity) -> tuple[Caution, ...]:
    """A caution when a body's length was read with its cap on the end."""
    if not b.has("built_body_length") or b.word("caps") != "on-end":
        return ()
    cap = b.cap_thickness.value
    off = b.built_body_length.value - planned.value
    if abs(off - cap) > CAP_MEASURED * cap:
        return ()
    text = (
        f"The body's length was read {format_number(off)} mm longer than planned, about a cap's "
        "thickness: was the cap measured too? Read the inside depth with the depth rod instead."
    )
    return (Caution("body_length_far_off", text, "reading", "body_length"),)


def saw_from(b: Brief, window: Window) -> tuple[dict[str, int], Choice]:
    """How many ends of lid and body are sawn, and why the two are cut where they are.

    Neighbours match in ovality; factory-square ends spare the truing at the caps.
    """
    factory = int(b.factory_ends.value)
    reading = b.reading("outside_diameter")
    oval = reading.ovality if reading else 0.0
    width = window[1] - window[0]
    doubt = math.sqrt(2.0) * b.bench.instrument.repeatability if oval else 0.0
    apart = factory == 2 and oval <= width
    taken = FROM_BOTH_ENDS if apart else NEIGHBOURS
    choice = Choice(
        "cut_from", "factory ends for the caps where the tube is round enough, else neighbours",
        {"ovality": oval, "window": width}, taken, abs(oval - width), doubt,
    )  # fmt: skip
    if apart:
        return {"lid": 1, "body": 1}, choice
    return {"lid": 1 if factory else 2, "body": 2}, choice
