"""The papers of a mitre: their sizes with their working, their lines, their outlines."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from hollowright.designs.brief import Brief
from hollowright.designs.tube_paper import FIBRES, lines_along
from hollowright.formulas import mitre
from hollowright.piece import Template
from hollowright.quantity import Quantity, exact
from hollowright.quantity.choices import choose
from hollowright.shapes.developments.band import Band
from hollowright.shapes.developments.cylinder import mitre_template

PLACES = (0, 30, 60, 90, 120, 150, 180)
"""Where the heights are set off, from the longest line [deg]; the other half is the same."""


@dataclass(frozen=True)
class Mitre:
    """The cut in numbers with their working.

    angle: from square [deg]. up, down: how far the template's line rises and falls; outer_rise:
    the same of the outside; followed: the radii that the line follows on the long and on the short
    side; proud: how far a square edge stands past the plane [mm]. shown: what of it the plan shows.
    """

    angle: Quantity
    up: Quantity
    down: Quantity
    outer_rise: Quantity
    followed: tuple[Quantity, Quantity]
    proud: Quantity
    shown: tuple[Quantity, ...]


@dataclass(frozen=True)
class Kind:
    """One kind of piece: how many, how many of its ends are mitred, its axis and long side [mm]."""

    id: str
    name: str
    count: int
    mitred: int
    axis: Quantity
    long: Quantity


def templates(
    b: Brief, m: Mitre, kinds: Sequence[Kind]
) -> tuple[tuple[Template, ...], tuple[Quantity, ...]]:
    """The papers of a mitred end and of a middle piece; the quantities that belong to them."""
    margin = _margin(b, m, kinds)
    length = mitre.template_length(b.tube_outside_diameter, b.shop("paper"))
    height = mitre.template_height(m.up, m.down, margin)
    heights = {turn: _ordinate(m, margin, turn) for turn in PLACES}
    sizes = {"length": length, "width": height}
    sizes |= {f"at_{turn}_degrees": heights[turn] for turn in PLACES}
    band = _paper(b, m, margin.value + m.down.value)
    end = Template(
        "mitre_template", "template of the mitre", band.outline(), sizes,
        "Its ends meet on the short side. Heights are counted from the straight edge.",
        lines_along(band, {0: "long side", 90: "side", -90: "side"}, _fine()),
    )  # fmt: skip
    place = mitre.edge_from_end(kinds[0].long, height)
    papers, shown = [end], [length, height, place, *heights.values()]
    for kind in kinds:
        if kind.mitred == 2:
            tall = mitre.long_side(kind.axis, m.up, 2).named(
                "middle_template_height", "middle's template's height"
            )
            both = _paper(b, m, kind.axis.value, low=True)
            papers.append(
                Template(
                    "middle_template", "template of a middle piece", both.outline(),
                    {"length": length, "width": tall},
                    "Wrap it round; both edges are marked along.",
                    lines_along(both, {0: "long side", 90: "side", -90: "side"}),
                )
            )  # fmt: skip
            shown.append(tall)
    return tuple(papers), tuple(shown)


def _margin(b: Brief, m: Mitre, kinds: Sequence[Kind]) -> Quantity:
    """Paper under the line [mm]: the shop's, or less where the shortest leg ends before."""
    sizes = {"the shop's": b.shop("paper_margin")}
    for kind in kinds:
        if kind.mitred == 1:
            sizes[f"short side of the {kind.name}"] = mitre.short_side(kind.axis, m.down, 1)
    taken, _ = choose("paper_margin", b.shop("paper_margin").label, sizes, "smallest")
    return b.shop("paper_margin") if taken.value == b.shop("paper_margin").value else taken


def _fine() -> tuple[int, ...]:
    return tuple(side * turn for turn in (30, 60, 120, 150) for side in (1, -1))


def _ordinate(m: Mitre, margin: Quantity, turn: int) -> Quantity:
    place = exact("", f"{turn}", "deg", turn, "constant")
    radius = m.followed[0 if turn <= 90 else 1]
    made = mitre.ordinate(margin, m.down, radius, m.angle, place)
    return made.named(f"ordinate_{turn}", f"height at {turn} degrees from the long side")


def _paper(b: Brief, m: Mitre, length: float, low: bool = False) -> Band:
    lean = math.radians(m.angle.value)
    return mitre_template(
        b.tube_outside_diameter.value, b.tube_wall.value, lean, length,
        fibre=FIBRES[b.word("cut")], paper=b.shop("paper").value, low_angle=lean if low else 0.0,
    )  # fmt: skip
