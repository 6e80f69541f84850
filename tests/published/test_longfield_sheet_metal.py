"""Longfield, Sheet Metal Drafting (1921): sector, cone, frustum, five-piece elbow.

Section 38: a sector of arc 14 and radius 7 has area 49; a cone of base 5 and slant 12 (its
circumference printed 15.7080, the area lost in the copy, recomputed). Problem 30B: frustum 6 to 3,
3 high (slant and area lost, recomputed). Elbows: five pieces for 90 degrees, mitre lines printed.
Inches; the printed digits set the tolerance.
"""

import math

import pytest

from hollowright.job.job import plan_tables
from hollowright.shapes.developments.cone import Frustum, frustum
from hollowright.shapes.developments.cylinder import elbow_cuts, mitre_template


def test_a_sector() -> None:
    # Arc 14 on radius 7: a cone of slant 7 and base radius 14 / 2 pi unrolls to it.
    radius = 14 / math.tau
    cone = Frustum(radius, 0.0, math.sqrt(49 - radius**2))
    flat = cone.band().outline()
    assert flat.area == pytest.approx(49, rel=1e-12)
    assert cone.sector_outer_radius == pytest.approx(7)


def test_a_cone() -> None:
    cone = frustum(5, 0, math.sqrt(12**2 - 2.5**2))
    assert cone.sector_outer_radius * cone.sector_angle == pytest.approx(15.7080, abs=5e-5)
    assert cone.band().outline().area == pytest.approx(94.248, abs=5e-4)


def test_a_frustum() -> None:
    cone = frustum(6, 3, 3)
    assert cone.slant == pytest.approx(3.3541, abs=5e-5)
    assert cone.band().outline().area == pytest.approx(47.417, abs=5e-3)  # the copy rounds pi


def test_a_five_piece_elbow() -> None:
    cuts = [math.degrees(cut) for cut in elbow_cuts(math.radians(90), 5)]
    assert cuts == pytest.approx([11.25, 33.75, 56.25, 78.75])


@pytest.mark.parametrize("pieces", [2, 3, 5])
def test_the_elbow_s_pieces_turn_it_by_its_angle(pieces: int) -> None:
    # Every cut leans the backset from square on both its pieces: twice that at each mitre line.
    cuts = elbow_cuts(math.radians(90), pieces)
    assert 2 * cuts[0] * (pieces - 1) == pytest.approx(math.pi / 2)
    template = mitre_template(40, 1, cuts[0], 60, low_angle=cuts[0], fibre="outer")
    rise = 20 * math.tan(cuts[0])
    assert template.high(0) - template.low(0) == pytest.approx(60 + 2 * rise)


def test_a_frustum_planned_in_inches() -> None:
    # Problem 30B: the side is the outside's; the blank's area is the mid surface's, which the
    # sheet's thickness makes smaller by pi x thickness x slant^2 / height.
    sheet = {"metal": "C26000", "thickness": "0.02 in"}
    sizes = {"base_diameter": "6 in", "top_diameter": "3 in", "height": "3 in"}
    made = plan_tables(
        {"title": "Frustum", "design": "cone", "stock": {"sheet": sheet}, "sizes": sizes}
    )
    assert made.quantities["slant"].value / 25.4 == pytest.approx(3.3541, abs=5e-5)
    area = made.parts[0].blank.outline.area / 25.4**2
    assert area == pytest.approx(47.417 - math.pi * 0.02 * 3.3541**2 / 3, abs=5e-3)


def test_a_five_piece_elbow_planned() -> None:
    tube = {"metal": "C26000", "outside_diameter": ["22.22", "22.26"], "wall": "0.9"}
    sizes = {"bend": 90, "pieces": 5, "radius": 47, "length": 31}
    made = plan_tables(
        {"title": "Elbow", "design": "tube-mitre", "stock": {"tube": tube}, "sizes": sizes}
    )
    assert made.quantities["angle"].value == pytest.approx(11.25)
    ways = [solid.body.rails for part in made.parts for solid in part.solids]
    leans = sorted(lean_of(rails) for rails in ways)
    assert leans == pytest.approx([0, 22.5, 45, 67.5, 90], abs=1e-6)  # twice the backset each


def lean_of(rails: tuple[tuple[tuple[float, float, float], ...], ...]) -> float:
    """Angle of a piece's lines from upright [deg]."""
    (x0, y0, z0), (x1, y1, z1) = rails[0][0], rails[1][0]
    return math.degrees(math.atan2(math.hypot(x1 - x0, y1 - y0), z1 - z0))
