"""A faceted form's edges and faces by kind, with what all kinds of forms reckon alike."""

from __future__ import annotations

from dataclasses import dataclass

from hollowright.designs.brief import Brief
from hollowright.designs.facet_form_bodies import Hollow
from hollowright.designs.stocks import density
from hollowright.formulas import facet, facet_mass, facet_size
from hollowright.quantity import Quantity, exact, total
from hollowright.shapes.developments.facets import Side
from hollowright.units import format_number

NOTHING = exact("", "0", "g", 0.0, "constant")


@dataclass(frozen=True)
class EdgeKind:
    """Edges that are alike: what ends their ids, their name, where, dihedral, bevel, length [mm].

    at_opening: they stand on an end that is left open, and are filed flush with it.
    """

    suffix: str
    name: str
    sides: tuple[Side, ...]
    dihedral: Quantity
    bevel: Quantity
    length: Quantity
    at_opening: bool = False


@dataclass(frozen=True)
class FaceKind:
    """Faces that are alike: id and name of their plate, their numbers, its sizes and weight."""

    id: str
    name: str
    faces: tuple[int, ...]
    sizes: dict[str, Quantity]
    mass: Quantity


@dataclass(frozen=True)
class Sized:
    """All numbers of a form: its body, edges and faces by kind, its weight, what is to be shown."""

    hollow: Hollow
    edges: tuple[EdgeKind, ...]
    faces: tuple[FaceKind, ...]
    mass: Quantity
    listed: tuple[Quantity, ...]


def number(count: int) -> Quantity:
    """A whole number as a constant."""
    return exact("", f"{count}", "", count, "constant")


def edge_kind(
    suffix: str, name: str, sides: tuple[Side, ...], dihedral: Quantity, length: Quantity,
    at_opening: bool = False,
) -> EdgeKind:  # fmt: skip
    """Edges of a kind with their bevel: half of what the dihedral lacks, or flush with an end."""
    made = facet.open_bevel(dihedral) if at_opening else facet.bevel(dihedral)
    label = f"bevel at {name}"
    bevel = made.named(f"bevel{suffix}", label)
    return EdgeKind(suffix, name, sides, dihedral, bevel, length, at_opening)


def hollow_of(b: Brief, hollow: Hollow) -> Hollow:
    """The hollow, refused where the sheet leaves none."""
    if hollow.has_room:
        return hollow
    raise b.refuse(
        "sheet_thickness",
        f"sheet of {format_number(hollow.thickness)} mm leaves no hollow in this form.",
        "Take thinner sheet or make the form larger; a top that is very small is better a point "
        "(kind = pyramid).",
    )


def whole_mass(b: Brief, outside: Quantity, inside: Quantity) -> Quantity:
    """Weight of the whole form [g] from its volumes [mm3]."""
    weight = facet_mass.hollow_mass(outside, inside, density(b.metal("sheet_metal")))
    return weight.named("net_mass", "weight of the form")


def polygon_sizes(sides: int, across: Quantity, side: Quantity) -> dict[str, Quantity]:
    """Length and width [mm] of a regular polygon that stands on a side."""
    if sides == 4:
        return {"length": across, "width": across}
    if sides % 2:
        odd = (number(sides), across)
        length = side if sides == 3 else facet_size.odd_width(*odd)
        return {"length": length, "width": facet_size.odd_height(*odd)}
    wide = across if sides % 4 == 0 else facet_size.across_corners(number(sides), across)
    return {"length": wide, "width": across}


def net_area(parts: list[Quantity]) -> Quantity:
    """Area of all faces that are made [mm2]."""
    return total("net_area", "area of all faces, outside", parts)
