"""The lid's inner ring, shared by every design whose lid is held by one: fields, length, fit."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping

from hollowright.designs.brief import Brief
from hollowright.designs.fields import Field
from hollowright.designs.stocks import lying_fields
from hollowright.errors import Caution, PlanRefused
from hollowright.formulas import fit, ring
from hollowright.handbook.metals import Metal
from hollowright.piece import Window
from hollowright.quantity import Quantity, exact
from hollowright.quantity.choices import Choice, choose
from hollowright.units import format_number

NEUTRAL_LINES = ("mid-thickness", "din-6935", "soft", "half-hard", "hard")
FEELS = ("tight", "snug", "easy", "loose")
SOLDER_GAP = 0.025
"""Least gap a side that silver solder likes [mm]: from memory; Machinery's Handbook says 0.05."""

LEAST_LEFT = 0.6
"""Part of the stand's thickness that filing must leave (common practice, no source)."""

STOCK_FIELDS = (
    Field(
        "stock.ring_sheet.metal", "ring_metal", "metal", "ring's metal", "", "C26000", required=True
    ),
    Field(
        "stock.ring_sheet.thickness",
        "ring_thickness",
        "thickness",
        "ring's thickness",
        "a gauge, or read it: better",
        "22 ga",
        required=True,
        low=0.15,
        high=5,
    ),
    *lying_fields("ring_sheet", "ring sheet"),
)

SIZE_FIELDS = (
    Field(
        "sizes.ring_stand",
        "ring_stand",
        "length",
        "ring's stand",
        "how far it stands out of the lid",
        "2 mm",
        default="2 mm",
        low=0.5,
        high=60,
    ),
    Field("sizes.fit", "fit", "choice", "fit by feel", "", "snug", choices=FEELS),
    Field(
        "sizes.clearance",
        "clearance",
        "length",
        "clearance",
        "diametral, instead of a feel",
        "0.03 mm",
        low=-0.2,
        high=2,
        signed=True,
    ),
    Field(
        "sizes.lid_gap",
        "lid_gap",
        "length",
        "gap of the ring in the lid",
        "diametral; the same as the clearance unless you say so",
        "0.05 mm",
        high=2,
    ),
    Field(
        "sizes.neutral_line",
        "neutral_line",
        "choice",
        "neutral line of the ring",
        "mid-thickness for annealed strip bent round a former",
        "mid-thickness",
        default="mid-thickness",
        choices=NEUTRAL_LINES,
    ),
)

BUILT_FIELDS = (
    Field(
        "as_built.ring_thickness",
        "built_ring_thickness",
        "readings",
        "ring's thickness as built",
        "",
        "0.64 mm",
        low=0.15,
        high=5,
    ),
    Field(
        "as_built.ring_outside_diameter",
        "built_ring_outside_diameter",
        "readings",
        "ring's outside diameter as built",
        "after its seam is filed flush",
        "36.00 mm",
        low=2.5,
        high=400,
        around=True,
    ),
)


def aimed_clearance(b: Brief) -> tuple[Quantity, str, Window]:
    """The clearance aimed at, its feel and its window [mm]."""
    windows = b.bench.windows
    feel = b.word("fit") if b.has("fit") else "snug"
    if not b.has("clearance"):
        low, high = windows[feel]
        middle = exact(
            "clearance",
            "clearance",
            "mm",
            (low + high) / 2,
            source="common practice, no source",
            told=f"clearance = middle of this shop's window for {feel}, {low:g} to {high:g}",
        )
        return middle, feel, (low, high)
    asked = b.clearance.value
    if b.has("fit"):
        low, high = windows[feel]
        if not low <= asked <= high:
            raise b.refuse(
                "clearance",
                f"{format_number(asked, 3)} mm isn't {feel} (here {low:g} to {high:g} mm).",
                "Give one of the two, or make them agree.",
            )
    feel, window = b.bench.window_for(asked)
    return b.clearance, feel, window


def same_gap(target: Quantity) -> Quantity:
    """The gap in the lid when none was asked for: the same as the clearance (one size of ring).

    A press fit leaves no gap to solder, so it is never under 0.
    """
    value = max(0.0, target.value)
    label = "gap of the ring in the lid"
    return exact("lid_gap", label, "mm", value, told=f"{label} = the same as the clearance")


def strip_length(
    b: Brief, outside: Quantity, thickness: Quantity
) -> tuple[Quantity, Quantity | None]:
    """The strip's net length, and the neutral line where it isn't mid-thickness."""
    choice = b.word("neutral_line")
    if choice == "mid-thickness":
        return ring.length(outside, thickness), None
    if choice == "din-6935":
        inner = outside.value / 2 - thickness.value
        where, source = ring.din_line(inner, thickness.value), "DIN 6935"
    else:
        where, source = ring.handbook_line(choice), "Machinery's Handbook, 31st ed., p. 1421"
    line = exact("neutral_line", f"neutral line ({choice})", "", where, "handbook", source)
    return ring.length_on_line(outside, thickness, line), line


def force_limit(
    bore: Quantity, metals: Mapping[str, tuple[Metal, Quantity]]
) -> tuple[Quantity, str]:
    """The largest interference of two dead-soft rings before one yields [mm], and which.

    metals: of the two by their names, each with its thickness [mm].
    """
    hoops, stiff = {}, []
    for name, (metal, thick) in metals.items():
        strength, modulus = metal.yield_annealed, metal.youngs_modulus
        label = f"yield of {metal.id}, annealed"
        soft = exact("yield", label, "MPa", strength.value, "handbook", strength.source)
        hoops[name] = fit.hoop_strength(soft, thick)
        label = f"Young's modulus of {metal.id}"
        stiff += [exact("modulus", label, "GPa", modulus.value, "handbook", modulus.source), thick]
    weaker, chosen = choose("weaker_hoop", "hoop strength of the weaker", hoops, "smallest")
    return fit.elastic_limit(bore, weaker, *stiff), chosen.taken


def chamfer(b: Brief, id: str, metal: Quantity) -> tuple[Quantity, Choice]:
    """A chamfer of the shop's size, or half the thickness where the metal is thin [mm]."""
    usual = b.shop(id)
    sizes = {"the shop's": usual, "half the thickness": ring.half_thickness(metal)}
    return choose(id, usual.label, sizes, "smallest")


def thin_cautions(chamfers: Iterable[Choice]) -> tuple[Caution, ...]:
    """A caution where thin metal leaves less chamfer than the fillets want."""
    least = min((c.candidates[c.taken] for c in chamfers if c.taken != "the shop's"), default=None)
    if least is None:
        return ()
    text = (
        f"The metal is thin: a chamfer of {format_number(least)} mm is all it bears. Keep the "
        "solder's fillets smaller than that, or the ring won't seat and the lid won't close."
    )
    return (Caution("thin_for_chamfers", text, "fit", "ring_chamfer"),)


def per_tenth() -> Quantity:
    """What a tenth of a millimetre of length does to the ring's diameter [mm]."""
    tenth = exact("tenth", "0.1 mm of length", "mm", 0.1, "constant")
    return ring.diameter_of(tenth).named("diameter_per_tenth", "diameter for 0.1 mm of length")


def can_be_pressed(b: Brief, target: Quantity, limit: Quantity) -> None:
    """Refuse a press fit that would stretch the soft ring for good."""
    if -target.value > limit.value:
        raise PlanRefused(
            b.design.field("clearance").path,
            f"an interference of {format_number(-target.value, 3)} mm is more than the soft rings "
            f"bear before one yields ({format_number(limit.value, 3)} mm).",
            "Ask for less: 0 mm is tight already.",
        )


def ring_cautions(
    filing: Quantity, thickness: Quantity, gap: Quantity, made: bool, turn: float = math.pi
) -> tuple[Caution, ...]:
    """What to mind of the ring: loose in the body, filed thin, tight for the solder, not read.

    made: the ring has been read; whether it's too small is then the fit's to say. turn: what its
    length round changes for each millimetre across.
    """
    found = []
    if filing.value < -0.001 and not made:
        text = (
            f"The body wants a ring {format_number(-2 * filing.value, 3)} mm larger than the lid "
            "does. The strip's guard holds "
            f"{format_number(-2 * turn * filing.value)} mm for that: fit the ring to the body, "
            f"then file the part that sits in the lid, {format_number(-filing.value, 3)} mm a side."
        )
        found.append(Caution("ring_loose_in_body", text, "fit", "filing_per_side"))
    left = thickness.value - max(0.0, filing.value)
    if left < LEAST_LEFT * thickness.value:
        text = (
            f"Filing the stand leaves {format_number(left, 3)} mm of "
            f"{format_number(thickness.value, 3)}: too thin to wear well. Take thicker sheet or a "
            "gap in the lid nearer to the clearance."
        )
        found.append(Caution("stand_thin", text, "fit", "filing_per_side"))
    return (*found, *solder_cautions(gap, thickness, "ring", "inside"))


def solder_cautions(
    gap: Quantity, thickness: Quantity, name: str, where: str
) -> tuple[Caution, ...]:
    """What to mind of a ring's or a rim's lap: tight for the solder, sheet not read.

    where: it lies 'inside' the lid or 'on' it.
    """
    found = []
    if gap.value / 2 < SOLDER_GAP:
        text = (
            f"The {name}'s gap {'in' if where == 'inside' else where} the lid is under the 0.025 "
            "mm a side that silver solder likes, over the whole depth: flux can be trapped. Feed "
            "the solder from one end and see it come out at the other. A stroke of the file round "
            f"the part {where} the lid eases it."
        )
        found.append(Caution("tight_for_solder", text, "fit", "lid_gap"))
    if thickness.kind == "handbook":
        text = (
            f"The {name}'s sheet was taken from the gauge table. Reading it with the calliper "
            "takes doubt off the fit."
        )
        found.append(Caution("sheet_not_read", text, "reading", "ring_thickness"))
    return tuple(found)
