"""The lid's inner ring, shared by every design whose lid is held by one: fields, length, fit."""

from __future__ import annotations

from hollowright.designs.brief import Brief
from hollowright.designs.fields import Field
from hollowright.errors import Caution
from hollowright.formulas import fit, ring
from hollowright.piece import Fit, Window
from hollowright.quantity import Quantity, exact
from hollowright.units import format_number

NEUTRAL_LINES = ("mid-thickness", "din-6935", "soft", "half-hard", "hard")
FEELS = ("tight", "snug", "easy", "loose")
SOLDER_GAP = 0.025
"""Least gap a side that silver solder likes [mm] (trade handbooks; Machinery's Handbook says 0.05)."""

LEAST_LEFT = 0.6
"""Part of the stand's thickness that filing must leave (common practice, no source)."""

STOCK_FIELDS = (
    Field("stock.ring_sheet.metal", "ring_metal", "metal", "ring's metal", "", "C26000", required=True),
    Field("stock.ring_sheet.thickness", "ring_thickness", "thickness", "ring's thickness",
          "a gauge, or read it: better", "22 ga", required=True, low=0.15, high=5),
)  # fmt: skip

SIZE_FIELDS = (
    Field("sizes.ring_stand", "ring_stand", "length", "ring's stand", "how far it stands out of the lid",
          "2 mm", default="2 mm", low=0.5, high=60),
    Field("sizes.fit", "fit", "choice", "fit by feel", "", "snug", choices=FEELS),
    Field("sizes.clearance", "clearance", "length", "clearance",
          "diametral, instead of a feel", "0.03 mm", low=-0.2, high=2, signed=True),
    Field("sizes.lid_gap", "lid_gap", "length", "gap of the ring in the lid",
          "diametral; the same as the clearance unless you say so", "0.05 mm", high=2),
    Field("sizes.neutral_line", "neutral_line", "choice", "neutral line of the ring",
          "mid-thickness for annealed strip bent round a former", "mid-thickness",
          default="mid-thickness", choices=NEUTRAL_LINES),
)  # fmt: skip

BUILT_FIELDS = (
    Field("as_built.ring_thickness", "built_ring_thickness", "readings", "ring's thickness as built", "", "0.64 mm", low=0.15, high=5),
    Field("as_built.ring_outside_diameter", "built_ring_outside_diameter", "readings", "ring's outside diameter as built",
          "after its seam is filed flush", "36.00 mm", low=2.5, high=400, around=True),
)  # fmt: skip


def aimed_clearance(b: Brief) -> tuple[Quantity, str, Window]:
    """The clearance aimed at, its feel and its window [mm]."""
    windows = b.bench.windows
    feel = b.word("fit") if b.has("fit") else "snug"
    if not b.has("clearance"):
        low, high = windows[feel]
        middle = exact("clearance", "clearance", "mm", (low + high) / 2,
                       source=f"middle of the shop's window for {feel}: common practice, no source")  # fmt: skip
        return middle, feel, (low, high)
    asked = b.clearance.value
    if b.has("fit"):
        low, high = windows[feel]
        if not low <= asked <= high:
            raise b.refuse(
                "clearance",
                f"{format_number(asked, 3)} mm isn't {feel} (this shop's {feel} is {low:g} to {high:g} mm).",
                "Give one of the two, or make them agree.",
            )
        return b.clearance, feel, (low, high)
    feel, window = b.bench.window_for(asked)
    return b.clearance, feel, window


def same_gap(target: Quantity) -> Quantity:
    """The gap in the lid when none was asked for: the same as the clearance (one size of ring)."""
    return exact(
        "lid_gap", "gap of the ring in the lid", "mm", target.value, source="as the clearance"
    )


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


def force_limit(b: Brief, bore: Quantity, thickness: Quantity, wall: Quantity) -> Quantity:
    """The largest interference of the two dead-soft rings before the thinner yields."""
    thin, thick, metal = thickness, wall, b.metal("ring_metal")
    if wall.value < thickness.value:
        thin, thick, metal = wall, thickness, b.metal("tube_metal")
    strength = exact("yield_annealed", f"yield of {metal.id}, annealed", "MPa",
                     metal.yield_annealed.value, "handbook", metal.yield_annealed.source)  # fmt: skip
    modulus = exact("youngs_modulus", f"Young's modulus of {metal.id}", "GPa",
                    metal.youngs_modulus.value, "handbook", metal.youngs_modulus.source)  # fmt: skip
    return fit.elastic_limit(bore, strength, modulus, thin, thick)


def ring_fit(
    b: Brief, bore: Quantity, length: Quantity, line: Quantity | None, thickness: Quantity,
    target: Quantity, feel: str, window: Window, wall: Quantity, ring_outside: Quantity,
) -> Fit:  # fmt: skip
    return Fit(
        id="ring_in_body", label="ring in the body", part="ring", bore=bore, length=length,
        thickness=thickness, target=target, window=window, feel=feel,
        metal=b.metal("ring_metal"), other_wall=wall, other_metal=b.metal("tube_metal"), line=line,
        made=ring_outside if b.has("built_ring_outside_diameter") else None,
        bore_read=b.has("bore") or b.has("built_body_bore"),
    )  # fmt: skip


def ring_cautions(filing: Quantity, thickness: Quantity, gap: Quantity) -> tuple[Caution, ...]:
    """What to mind of the ring: loose in the body, filed thin, tight for the solder, not read."""
    found = []
    if filing.value < -0.001:
        text = (
            f"A ring that fits the lid is {format_number(-2 * filing.value, 3)} mm too small for the "
            "body: the lid will be looser than asked. Make the ring for the body and give it a "
            "wider gap in the lid, or stretch the stand."
        )
        found.append(Caution("ring_loose_in_body", text, "fit", "filing_per_side"))
    left = thickness.value - max(0.0, filing.value)
    if left < LEAST_LEFT * thickness.value:
        text = (
            f"Filing the stand leaves {format_number(left, 3)} mm of "
            f"{format_number(thickness.value, 3)}: too thin to wear well. Take a smaller gap in the "
            "lid or thicker sheet."
        )
        found.append(Caution("stand_thin", text, "fit", "filing_per_side"))
    if gap.value / 2 < SOLDER_GAP:
        text = (
            "The ring's gap in the lid is under the 0.025 mm a side that silver solder likes, over "
            "the whole depth: flux can be trapped. Feed the solder from one end and see it come "
            "out at the other."
        )
        found.append(Caution("tight_for_solder", text, "fit", "lid_gap"))
    if thickness.kind == "handbook":
        text = (
            "The ring's sheet was taken from the gauge table. Reading it with the calliper takes "
            "doubt off the fit."
        )
        found.append(Caution("sheet_not_read", text, "reading", "ring_thickness"))
    return tuple(found)
