"""Coxeter, Regular Polytopes, Table I: dihedral angles of the regular solids (from memory).

70.5288, 90, 109.4712, 116.5651, 138.1897 degrees; the corner-free identities beside them are plane
geometry. Tolerance: half of the last digit printed.
"""

import math

import pytest

from hollowright.job.job import plan_tables
from hollowright.shapes.developments.facets import bevel, groove, pyramid, regular

TABLE = {
    "tetrahedron": 70.5288,
    "cube": 90.0,
    "octahedron": 109.4712,
    "dodecahedron": 116.5651,
    "icosahedron": 138.1897,
}


@pytest.mark.parametrize(("kind", "printed"), TABLE.items())
def test_dihedral_of_every_edge(kind: str, printed: float) -> None:
    form = regular(kind, 23.7)
    for side in form.sides:
        dihedral = form.dihedral(side)
        assert math.degrees(dihedral) == pytest.approx(printed, abs=5e-5)
        assert math.degrees(groove(dihedral)) == pytest.approx(180 - printed, abs=5e-5)
        assert math.degrees(bevel(dihedral)) == pytest.approx((180 - printed) / 2, abs=5e-5)


@pytest.mark.parametrize(
    ("sides", "kind"), [(3, "tetrahedron"), (4, "octahedron"), (5, "icosahedron")]
)
def test_a_pyramid_of_equal_triangles_has_the_solid_s_dihedral(sides: int, kind: str) -> None:
    # Its height over an edge a: sqrt(a^2 - circumradius^2) of the regular base.
    edge = 17.3
    around = edge / (2 * math.sin(math.pi / sides))
    across = 2 * around * math.cos(math.pi / sides)
    form = pyramid(sides, across, math.sqrt(edge**2 - around**2))
    assert math.degrees(form.dihedral((0, sides))) == pytest.approx(TABLE[kind], abs=5e-5)


@pytest.mark.parametrize(("kind", "printed"), TABLE.items())
def test_the_design_s_dihedral_bevel_and_groove(kind: str, printed: float) -> None:
    stock = {"sheet": {"metal": "C26000", "thickness": "0.61"}}
    sizes = {"kind": kind, "edge": 23.7}
    plan = plan_tables({"design": "facet-form", "stock": stock, "sizes": sizes})
    found = [plan.quantities[id].value for id in ("dihedral", "bevel", "groove")]
    assert found == pytest.approx([printed, (180 - printed) / 2, 180 - printed], abs=5e-5)
