"""Forms of plane faces against a CAD kernel: build123d (OpenCASCADE) cuts blocks by planes.

The kernel offsets its own solids to hollows; plates are cut by the printed bevels. Closed forms on
both sides: 1e-6 relative.
"""

import math
from typing import Any

import pytest

from tests.oracle import kernel
from tests.oracle.cases import CLOSE, Case, cases, same_bodies
from tests.oracle.kernel_facets import outside, whole

pytestmark = pytest.mark.oracle


def sizes(**given: Any) -> dict[str, Any]:
    none = dict.fromkeys(("sizes__sides", "sizes__across_flats", "sizes__height", "sizes__vent"))
    return {**none, **{f"sizes__{name}": size for name, size in given.items()}}


FRUSTUM = {"kind": "frustum", "sides": 7, "across_flats": 63.1, "top_across_flats": 41.7,
           "height": 29.3}  # fmt: skip
PRISM = {"kind": "prism", "sides": 5, "across_flats": 31.7, "height": 44.1}
CASES = cases(
    "facet-form",
    pyramid_plates={"sizes__way": "plates"},
    pyramid_open={"sizes__base": "open", "sizes__vent": None},
    frustum=sizes(**FRUSTUM),
    frustum_wide_above=sizes(**{**FRUSTUM, "across_flats": 38.9}, way="plates"),
    frustum_through=sizes(**FRUSTUM, base="open", top="open", way="plates"),
    prism=sizes(**PRISM),
    prism_plates=sizes(**PRISM, way="plates"),
    prism_open=sizes(**PRISM, top="open"),
    tetrahedron=sizes(kind="tetrahedron", edge=33.7),
    tetrahedron_open=sizes(kind="tetrahedron", edge=33.7, base="open", way="plates"),
    cube_open=sizes(kind="cube", edge=21.3, base="open", way="plates"),
    dodecahedron=sizes(kind="dodecahedron", edge=14.9),
    dodecahedron_open=sizes(kind="dodecahedron", edge=14.9, base="open", way="plates"),
    icosahedron=sizes(kind="icosahedron", across_flats=47.1),
)
named = pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)


@named
def test_the_bodies(case: Case) -> None:
    same_bodies(case)


@named
def test_the_weight_is_the_kernel_s_hollow_form(case: Case) -> None:
    made = whole(case.plan, case.tables)  # open at its lowest face; of a solid any is alike
    density = case.plan.piece.stocks[0].metal.density.value
    assert case.plan.mass.value == pytest.approx(kernel.volume(made) * density / 1000, rel=CLOSE)


@named
def test_dihedrals_are_the_kernel_s(case: Case) -> None:
    body = outside(case.plan, case.tables)
    found = {round(_dihedral(body, edge), 6) for edge in body.edges()}
    ours = {
        round(quantity.value, 6)
        for id, quantity in case.plan.quantities.items()
        if id.startswith("dihedral")
    }
    assert sorted(ours) == pytest.approx(sorted(found), abs=1e-5)


def _dihedral(body: Any, edge: Any) -> float:
    """Angle inside between the two faces at an edge [deg], by their normals (a convex body)."""
    one, two = (
        face.normal_at(face.center())
        for face in body.faces()
        if any(edge.is_same(each) for each in face.edges())
    )
    cosine = max(-1.0, min(1.0, one.dot(two)))
    return 180 - math.degrees(math.acos(cosine))


CLOSED = [case for case in CASES if "open" not in case.tables["sizes"].values()]


@pytest.mark.parametrize("case", CLOSED, ids=lambda case: case.name)
def test_area_of_the_faces(case: Case) -> None:
    area = kernel.area(outside(case.plan, case.tables))
    assert case.q["net_area"] == pytest.approx(area, rel=CLOSE)
