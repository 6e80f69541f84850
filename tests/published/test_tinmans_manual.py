"""The Tinman's Manual (Butt): a cone of slant six times its base's radius is a 60 degree sector.

Exact: the sector's angle is 360 degrees x base radius / slant. The two textbook developments below
(R = s D / (D - d), angle = 180 D / R) are recomputed in unlike sizes.
"""

import math

import pytest

from hollowright.job.job import plan_tables
from hollowright.plan.plan import Plan
from hollowright.shapes.developments.cone import frustum


@pytest.mark.parametrize("radius", [3.7, 41.0])
def test_slant_six_times_the_radius(radius: float) -> None:
    cone = frustum(2 * radius, 0, radius * math.sqrt(35))
    assert cone.slant == pytest.approx(6 * radius)
    assert math.degrees(cone.sector_angle) == pytest.approx(60)


@pytest.mark.parametrize(
    ("sizes", "slant", "outer", "inner", "angle", "area"),
    [
        ((60, 30, 40), 42.7200, 85.4400, 42.7200, 126.4044, 6039.400),
        ((50, 0, 60), 65.0000, 65.0000, 0.0, 138.4615, 5105.088),
    ],
)
def test_textbook_developments(
    sizes: tuple[float, float, float],
    slant: float,
    outer: float,
    inner: float,
    angle: float,
    area: float,
) -> None:
    # Half of the last digit worked out.
    cone = frustum(*sizes)
    assert cone.slant == pytest.approx(slant, abs=5e-5)
    assert cone.sector_outer_radius == pytest.approx(outer, abs=5e-5)
    assert cone.sector_inner_radius == pytest.approx(inner, abs=5e-5)
    assert math.degrees(cone.sector_angle) == pytest.approx(angle, abs=5e-5)
    assert cone.band().outline().area == pytest.approx(area, abs=5e-4)


def planned(base: float, top: float, height: float, thickness: float = 0.6) -> Plan:
    """The cone's plan whose mid-thickness has these sizes: its outside is so much larger."""
    wider = thickness * math.hypot((base - top) / 2, height) / height
    sizes = {
        "base_diameter": f"{base + wider:.9f}",
        "top_diameter": f"{top + wider:.9f}",
        "height": height,
    }
    sheet = {"metal": "C26000", "thickness": f"{thickness}"}
    return plan_tables(
        {"title": "Cone", "design": "cone", "stock": {"sheet": sheet}, "sizes": sizes}
    )


@pytest.mark.parametrize("radius", [9.3, 41.0])
def test_a_planned_cone_of_slant_six_times_its_radius(radius: float) -> None:
    # On the sheet's middle: the outside has the same slope, so the same sector.
    made = planned(2 * radius, 0, radius * math.sqrt(35))
    assert made.quantities["sector_angle"].value == pytest.approx(60, abs=1e-6)
    assert made.quantities["sector_outer_radius"].value == pytest.approx(6 * radius, abs=1e-6)


def test_a_textbook_development_planned() -> None:
    # Half of the last digit worked out; the weight by the textbook's area.
    made = planned(60, 30, 40)
    found = [made.quantities[id].value for id in ("slant", "sector_angle", "sector_outer_radius")]
    assert found == pytest.approx([42.72, 126.4044, 85.44], abs=5e-5)
    assert made.quantities["sector_inner_radius"].value == pytest.approx(42.72, abs=5e-5)
    assert made.mass.value == pytest.approx(6039.4 * 0.6 * 8.53 / 1000, rel=1e-6)
