"""Beads against a CAD kernel: build123d (OpenCASCADE) cuts its own spheres.

Volumes, weights, lengths: 1e-6 relative. A dome's surface is that of its drawn profile, chords of 2
degrees seen from the sphere's middle: too small by 1 - cos(1 degree), 1.5e-4, of what is curved.
"""

import math

import pytest

from tests.oracle import kernel
from tests.oracle.cases import CLOSE, Case, cases, same_bodies

pytestmark = pytest.mark.oracle

CASES = cases(
    "bead",
    sphere={"sizes__diameter": "23.7 mm", "sizes__rise": "11.85 mm", "sizes__hole": "2.1 mm"},
    flat_lentil={"sizes__diameter": "61.9 mm", "sizes__rise": "4.3 mm", "sizes__hole": "7.7 mm"},
    thick={"stock__sheet__thickness": ["1.93"], "sizes__diameter": "13.1", "sizes__rise": "5.9"},
    as_built={"as_built__diameter": ["17.46", "17.42"], "as_built__rise": ["7.02"]},
)
PLANNED = [case for case in CASES if case.name != "as_built"]
named = pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
planned = pytest.mark.parametrize("case", PLANNED, ids=lambda case: case.name)


@named
def test_both_domes(case: Case) -> None:
    same_bodies(case, surfaces=1.6e-4)


@named
def test_what_it_holds(case: Case) -> None:
    from tests.oracle.kernel_round import cap, sphere_over

    q = case.q
    radius = sphere_over(q["diameter"], q["rise"])
    hollow = cap(radius - q["sheet_thickness"], q["rise"] - radius)
    assert q["inside_volume"] == pytest.approx(2 * kernel.volume(hollow) / 1000, rel=CLOSE)


@planned
def test_the_blank_has_the_middle_s_area(case: Case) -> None:
    from build123d import GeomType

    from tests.oracle.kernel_round import cap, sphere_over

    q = case.q
    radius = sphere_over(q["diameter"], q["rise"])
    middle = cap(radius - q["sheet_thickness"] / 2, q["rise"] - radius)
    (skin,) = middle.faces().filter_by(GeomType.SPHERE)
    assert math.pi / 4 * q["blank_diameter"] ** 2 == pytest.approx(kernel.area(skin), rel=CLOSE)
    (outline,) = (part.blank.outline for part in case.plan.parts)
    assert outline.area == pytest.approx(kernel.area(skin), rel=CLOSE)


@planned
def test_the_blank_by_arc_is_the_section_s_length(case: Case) -> None:
    from build123d import GeomType, Plane, section

    from tests.oracle.kernel_round import cap, sphere_over

    q = case.q
    radius = sphere_over(q["diameter"], q["rise"])
    middle = cap(radius - q["sheet_thickness"] / 2, q["rise"] - radius)
    arcs = section(middle, Plane.XZ).edges().filter_by(GeomType.CIRCLE)
    assert q["blank_by_arc"] == pytest.approx(kernel.length(*arcs), rel=CLOSE)


@named
def test_rim_and_girdle(case: Case) -> None:
    from build123d import GeomType

    (rim,) = case.theirs["dome_low"].faces().filter_by(GeomType.PLANE)
    outer, inner = sorted((edge.radius for edge in rim.edges()), reverse=True)
    assert case.q["rim_land"] == pytest.approx(outer - inner, rel=CLOSE)
    girdle = max(map(kernel.length, rim.edges()))
    assert case.q["girdle"] == pytest.approx(girdle, rel=CLOSE)
