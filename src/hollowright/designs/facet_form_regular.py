"""The numbers of a regular solid of sheet: all edges alike, all faces alike, one may be open."""

from __future__ import annotations

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
from hollowright.formulas import facet, facet_mass, facet_size
from hollowright.quantity import Quantity, total
from hollowright.shapes.developments.facets import regular

SOLIDS = {
    "tetrahedron": (4, 3, 3),
    "cube": (6, 4, 3),
    "octahedron": (8, 3, 4),
    "dodecahedron": (12, 5, 3),
    "icosahedron": (20, 3, 5),
}
"""Faces, corners of a face, faces that meet at a corner."""


def sized(b: Brief, left: tuple[int, ...]) -> Sized:
    """The numbers of a brief; left: the first face's number, where it is left open."""
    count, corners, meeting = SOLIDS[b.word("kind")]
    dihedral = facet.regular_dihedral(number(corners), number(meeting))
    edge = _edge(b, corners, dihedral)
    form = regular(b.word("kind"), edge.value)
    hollow = hollow_of(b, Hollow(form, b.sheet_thickness.value, left))
    radius = facet_size.inradius(number(corners), edge, dihedral)
    across = _across(corners, edge)
    outside, small = _volumes(b, edge, radius)
    inside = total("hollow", "hollow", [small, _slab(b, edge, radius, dihedral)]) if left else small
    whole = whole_mass(b, outside, inside)
    full = facet_mass.share_mass(whole_mass(b, outside, small), NOTHING, number(count))
    sizes = polygon_sizes(corners, across, edge)
    faces = _faces(hollow, whole, full, sizes)
    edges = _edges(hollow, dihedral, edge)
    area = facet_size.polygon_area(number(corners), across).named("face_area", "area of a face")
    area_made = facet_size.faces_area(number(len(hollow.closed)), area)
    solid = b.word("kind")
    wide = () if solid == "tetrahedron" else (facet_size.between_faces(radius),)
    odd = tuple(q for q in sizes.values() if q is not edge and q is not across)
    shown = (
        edge, radius, *wide, across, *odd, dihedral, *(each.bevel for each in edges), area,
        net_area([area_made]), facet_mass.holds(inside),
    )  # fmt: skip
    return Sized(hollow, edges, faces, whole, tuple({each.id: each for each in shown}.values()))


def _edge(b: Brief, corners: int, dihedral: Quantity) -> Quantity:
    """The edge [mm], as asked or from the width between opposite faces."""
    if b.has("edge") and b.has("across_flats"):
        raise b.refuse("edge", "the solid's width is given as well.", "Give one of the two.")
    if b.has("edge"):
        return b.edge
    if not b.has("across_flats"):
        raise b.refuse("edge", "a regular solid needs its edge.", "Add it, for example 24 mm.")
    if b.word("kind") == "tetrahedron":
        raise b.refuse(
            "across_flats", "a tetrahedron has no faces opposite each other.", "Give its edge."
        )
    return facet_size.edge_of(number(corners), b.across_flats, dihedral)


def _across(corners: int, edge: Quantity) -> Quantity:
    if corners == 4:
        return edge
    found = facet_size.across_flats(number(corners), edge)
    return found.named("face_across_flats", "a face across its flats")


def _volumes(b: Brief, edge: Quantity, radius: Quantity) -> tuple[Quantity, Quantity]:
    """The solid's volume and that of its hollow, were it closed [mm3]."""
    count, corners, _ = SOLIDS[b.word("kind")]
    inner = facet_mass.inside_edge(edge, radius, b.sheet_thickness)
    depth = (radius - b.sheet_thickness).named("inside_radius", "from the middle to the inside")
    outside, inside = (
        facet_mass.regular_volume(number(count), number(corners), e, r)
        for e, r in ((edge, radius), (inner, depth))
    )
    return outside.named("outside_volume"), inside.named("hollow")


def _slab(b: Brief, edge: Quantity, radius: Quantity, dihedral: Quantity) -> Quantity:
    """What the hollow gains through the opening [mm3]."""
    corners = number(SOLIDS[b.word("kind")][1])
    inner = facet_mass.inside_edge(edge, radius, b.sheet_thickness)
    inside = facet_size.across_flats(corners, inner)
    opening = facet_mass.opening_across(inside, b.sheet_thickness, dihedral)
    found = facet_mass.frustum_volume(corners, inside, opening, b.sheet_thickness)
    return found.named("opening", "the hollow's part in the opening")


def _faces(
    hollow: Hollow, whole: Quantity, full: Quantity, sizes: dict[str, Quantity]
) -> tuple[FaceKind, ...]:
    """Faces mitred all round, and those that stand at the opening."""
    form = hollow.form
    rims = tuple(
        face
        for face in hollow.closed
        if any(face in faces and set(faces) & set(hollow.left) for faces in form.sides.values())
    )
    others = tuple(face for face in hollow.closed if face not in rims)
    found = []
    if others:
        weight = full.named("face_mass", "weight of a face")
        found.append(FaceKind("face", "face", others, sizes, weight))
    if rims:
        rest = facet_mass.plates_mass(number(len(others)), full) if others else NOTHING
        share = facet_mass.share_mass(whole, rest, number(len(rims)))
        weight = share.named("rim_face_mass", "weight of a face at the opening")
        found.append(FaceKind("rim_face", "face at the opening", rims, sizes, weight))
    return tuple(found)


def _edges(hollow: Hollow, dihedral: Quantity, edge: Quantity) -> tuple[EdgeKind, ...]:
    sides = hollow.form.sides
    around = tuple(side for side, faces in sides.items() if set(faces) & set(hollow.left))
    rest = tuple(side for side in sides if side not in around)
    found = [edge_kind("", "the edges", rest, dihedral, edge)]
    if around:
        found.append(edge_kind("_base", "the opening", around, dihedral, edge, at_opening=True))
    return tuple(found)
