"""The numbers of a prism, pyramid or frustum of sheet on a regular base, its ends shut or open."""

from __future__ import annotations

from dataclasses import dataclass

from hollowright.designs.brief import Brief
from hollowright.designs.facet_form_bodies import Hollow
from hollowright.designs.facet_form_kinds import (
    NOTHING,
    EdgeKind,
    FaceKind,
    Sized,
    edge_kind,
    hollow_of,
    net_area,
    number,
    polygon_sizes,
    whole_mass,
)
from hollowright.designs.stocks import density
from hollowright.formulas import facet, facet_mass, facet_size
from hollowright.quantity import Quantity, exact, total
from hollowright.shapes.developments.facets import Faceted, frustum, pyramid

WALLED = ("prism", "pyramid", "frustum")
POINT = exact("", "0", "mm", 0.0, "constant")


@dataclass(frozen=True)
class _End:
    """An end: its suffix, number, outside across flats and side, dihedral, inside across flats."""

    suffix: str
    face: int
    across: Quantity
    side: Quantity
    dihedral: Quantity
    inside: Quantity
    is_open: bool

    @property
    def id(self) -> str:
        """Its plate's id and name."""
        return self.suffix[1:]


def sized(b: Brief, left: tuple[int, ...]) -> Sized:
    """The numbers of a brief; left: numbers of the ends that are left open."""
    form = _form(b)
    hollow = hollow_of(b, Hollow(form, b.sheet_thickness.value, left))
    ends = _ends(b, hollow)
    slant, corner = _heights(b, ends)
    slope = ends[0].dihedral
    dihedral = facet.wall_dihedral(b.sides, slope)
    inside = _inside(b, ends)
    outside = facet_mass.frustum_volume(b.sides, ends[0].across, _top(ends), b.height)
    whole = whole_mass(b, outside.named("outside_volume"), inside)
    faces = _faces(b, ends, slant, whole)
    edges = _edges(form, ends, dihedral, corner)
    areas = _areas(b, ends, slant)
    plates = (q for kind in faces if kind.id != "wall" for q in kind.sizes.values())
    shown = (
        b.sides, *(end.across for end in ends), b.height, *(end.side for end in ends),
        *(facet_size.across_corners(b.sides, end.across).named(
            f"across_corners{end.suffix if end.suffix == '_top' else ''}",
            f"across corners at the {end.id}") for end in ends),
        *plates, slant, corner, *(end.dihedral for end in ends), dihedral,
        *(each.bevel for each in edges), *_mitre(b, slope), *areas, net_area(list(areas)),
        facet_mass.holds(inside),
    )  # fmt: skip
    return Sized(hollow, edges, faces, whole, tuple({each.id: each for each in shown}.values()))


def _form(b: Brief) -> Faceted:
    sides, across, height = int(b.sides.value), b.across_flats.value, b.height.value
    if b.word("kind") == "pyramid":
        return pyramid(sides, across, height)
    return frustum(sides, across, _top_across(b).value, height)


def _top_across(b: Brief) -> Quantity:
    return b.top_across_flats if b.word("kind") == "frustum" else b.across_flats


def _top(ends: tuple[_End, ...]) -> Quantity:
    """Across the flats at the upper end, 0 at a point [mm]."""
    return ends[-1].across if len(ends) > 1 else POINT


def _ends(b: Brief, hollow: Hollow) -> tuple[_End, ...]:
    """Base and, if there is one, top."""
    pointed, upright = b.word("kind") == "pyramid", b.word("kind") == "prism"
    high = POINT if pointed else _top_across(b)
    slope = facet.base_dihedral(b.across_flats, high, b.height)
    low = _end(b, hollow, "_base", b.across_flats, slope)
    if pointed:
        return (low,)
    lean = facet.top_dihedral(slope)
    top = _end(b, hollow, "_top", high, lean)
    if upright:
        top = _End("_top", top.face, low.across, low.side, lean, low.inside, top.is_open)
    return (low, top)


def _end(b: Brief, hollow: Hollow, suffix: str, across: Quantity, dihedral: Quantity) -> _End:
    base = suffix == "_base"
    face = 0 if base else len(hollow.form.faces) - 1
    where = "at the base" if base else "at the top"
    is_open = face in hollow.left
    up = POINT if is_open else b.sheet_thickness
    inside = facet_mass.inside_across(across, b.sheet_thickness, up, dihedral)
    side = facet_size.side(b.sides, across).named(f"{suffix[1:]}_side", f"side {where}")
    named = inside.named(f"inside{suffix}", f"across the flats inside {where}")
    return _End(suffix, face, across, side, dihedral, named, is_open)


def _heights(b: Brief, ends: tuple[_End, ...]) -> tuple[Quantity, Quantity]:
    """A wall's height along its middle, and the edge between two walls [mm]."""
    if b.word("kind") == "prism":
        return b.height, b.height
    slant = facet_size.slant_height(ends[0].across, _top(ends), b.height)
    high = ends[1].side if len(ends) > 1 else POINT
    return slant, facet_size.lateral_edge(slant, ends[0].side, high)


def _inside(b: Brief, ends: tuple[_End, ...]) -> Quantity:
    """Volume of the hollow [mm3]."""
    if len(ends) == 1:
        height = facet_mass.point_height(ends[0].inside, ends[0].dihedral)
        high: Quantity = POINT
    else:
        closed = number(sum(not end.is_open for end in ends))
        height = facet_mass.inside_height(b.height, b.sheet_thickness, closed)
        high = ends[1].inside
    return facet_mass.frustum_volume(b.sides, ends[0].inside, high, height).named("hollow")


def _faces(
    b: Brief, ends: tuple[_End, ...], slant: Quantity, whole: Quantity
) -> tuple[FaceKind, ...]:
    """The walls, and the plates that close the ends."""
    closed = [end for end in ends if not end.is_open]
    plates = [_plate(b, end) for end in closed]
    rest = (
        total("ends", "weight of the ends", [each.mass for each in plates]) if plates else NOTHING
    )
    share = facet_mass.share_mass(whole, rest, b.sides).named("wall_mass", "weight of a wall")
    wide = max((end.side for end in ends), key=lambda side: side.value)
    walls = tuple(range(1, int(b.sides.value) + 1))
    return (FaceKind("wall", "wall", walls, {"length": wide, "width": slant}, share), *plates)


def _plate(b: Brief, end: _End) -> FaceKind:
    volume = facet_mass.frustum_volume(b.sides, end.across, end.inside, b.sheet_thickness)
    weight = facet_mass.plate_mass(volume, density(b.metal("sheet_metal")))
    sizes = polygon_sizes(int(b.sides.value), end.across, end.side)
    if b.word("kind") == "frustum":
        sizes = {
            name: size if size in (end.across, end.side)
            else size.named(f"{end.id}_{size.id}", f"{size.label} of the {end.id}")
            for name, size in sizes.items()
        }  # fmt: skip
    named = weight.named(f"{end.id}_mass", f"weight of the {end.id}")
    return FaceKind(end.id, f"{end.id} plate", (end.face,), sizes, named)


def _edges(
    form: Faceted, ends: tuple[_End, ...], dihedral: Quantity, corner: Quantity
) -> tuple[EdgeKind, ...]:
    def at(face: int) -> tuple[tuple[int, int], ...]:
        return tuple(side for side, faces in form.sides.items() if face in faces)

    around = [edge for end in ends for edge in at(end.face)]
    walls = tuple(side for side in form.sides if side not in around)
    found = [edge_kind("", "the walls' edges", walls, dihedral, corner)]
    for end in ends:
        where = f"the {'open ' if end.is_open else ''}{end.id}"
        found.append(
            edge_kind(end.suffix, where, at(end.face), end.dihedral, end.side, end.is_open)
        )
    return tuple(found)


def _mitre(b: Brief, slope: Quantity) -> tuple[Quantity, ...]:
    """The blade's mitre of sloping walls; upright ones have none."""
    return () if b.word("kind") == "prism" else (facet.wall_mitre(b.sides, slope),)


def _areas(b: Brief, ends: tuple[_End, ...], slant: Quantity) -> tuple[Quantity, ...]:
    """Outside areas of the walls and of the closed ends [mm2]."""
    high = ends[1].side if len(ends) > 1 else POINT
    wall = facet_size.wall_area(ends[0].side, high, slant)
    walls = facet_size.faces_area(b.sides, wall).named("walls_area", "area of the walls")
    plates = (
        facet_size.polygon_area(b.sides, end.across).named(
            f"{end.id}_area", f"area of the {end.id}"
        )
        for end in ends
        if not end.is_open
    )
    return (walls, *plates)
