"""Hinges against a CAD kernel: build123d (OpenCASCADE) turns knuckles and cuts seats by cylinders.

Closed forms on both sides: 1e-6 relative.
"""

import pytest

from tests.oracle.cases import CLOSE, Case, cases, same_bodies

pytestmark = pytest.mark.oracle

CASES = cases(
    "knuckle-hinge",
    seven_shared={"sizes__hinge__knuckles": 7, "sizes__hinge__lengths": "equal-share"},
    folds_flat={"sizes__hinge__level": "face", "sizes__leaf_depth": "11.9 mm"},
    long_leaves={"sizes__leaf_length": "39.3 mm", "sizes__hinge__gap": "0.13 mm"},
)
named = pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)


@named
def test_the_bodies(case: Case) -> None:
    same_bodies(case)


@named
def test_the_leaf_s_edge_and_its_seat(case: Case) -> None:
    from build123d import Axis, GeomType

    leaf = case.theirs["outer_leaf"]
    low = min(vertex.Y for vertex in leaf.vertices())
    assert case.q["seat_lip"] == pytest.approx(low, rel=CLOSE)
    high = max(vertex.Y for vertex in leaf.vertices())
    assert case.q["leaf_width"] == pytest.approx(high - low, rel=CLOSE)
    (seat,) = (face for face in leaf.faces() if face.geom_type == GeomType.CYLINDER)
    arcs = [edge.length for edge in seat.edges() if edge.geom_type == GeomType.CIRCLE]
    assert arcs == pytest.approx([case.q["seat_width"]] * 2, rel=CLOSE)
    deep = case.q["hinge_tube_outside_diameter"] / 2 - low
    if "least_angle" in case.q:
        assert case.q["seat_depth"] == pytest.approx(deep, rel=CLOSE)
    assert leaf.faces().sort_by(Axis.Y)
