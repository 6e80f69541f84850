"""A mitre saw's owner's manual, table of compound angle settings (seen).

For 4 to 10 sides and a pitch of the side: the blade's mitre and its bevel, printed to 0.005 degrees
(two decimals). The tolerance is that, with a little for the rounding.
"""

import math

import pytest

from hollowright.job.job import plan_tables
from hollowright.shapes.developments.facets import bevel, compound_mitre, frustum

PRINTED = [
    (4, 30, 40.89, 20.70), (4, 45, 35.26, 30.00), (4, 60, 26.57, 37.76), (4, 75, 14.51, 43.08),
    (5, 30, 32.18, 17.09), (5, 45, 27.19, 24.56), (5, 60, 19.96, 30.60), (5, 75, 10.65, 34.59),
    (6, 15, 29.15, 7.44), (6, 30, 26.57, 14.48), (6, 45, 22.21, 20.70), (6, 60, 16.10, 25.66),
    (7, 30, 22.64, 12.53), (7, 45, 18.80, 17.87), (8, 15, 21.81, 5.68), (8, 30, 19.73, 11.03),
    (8, 45, 16.32, 15.70), (8, 50, 14.91, 17.05), (9, 30, 17.50, 9.85), (9, 45, 14.43, 14.00),
    (10, 30, 15.72, 8.89), (10, 45, 12.94, 12.62), (10, 50, 11.80, 13.69),
]  # fmt: skip


@pytest.mark.parametrize(("sides", "pitch", "mitre", "lean"), PRINTED)
def test_settings(sides: int, pitch: float, mitre: float, lean: float) -> None:
    found = [math.degrees(angle) for angle in compound_mitre(sides, math.radians(pitch))]
    assert found == pytest.approx([mitre, lean], abs=0.0051)


@pytest.mark.parametrize(("sides", "pitch", "mitre", "lean"), PRINTED)
def test_walls_of_a_frustum(sides: int, pitch: float, mitre: float, lean: float) -> None:
    # A frustum of that pitch: its walls' bevel by their dihedral is the printed one.
    height = 20 * math.tan(math.radians(pitch))
    form = frustum(sides, 100, 60, height)
    assert math.degrees(bevel(form.dihedral((0, sides)))) == pytest.approx(lean, abs=0.0051)


@pytest.mark.parametrize(("sides", "pitch", "mitre", "lean"), PRINTED)
def test_the_design_s_walls(sides: int, pitch: float, mitre: float, lean: float) -> None:
    # The same frustum as a piece of plates: its wall's mitre and bevel as the plan says them.
    sizes = {"kind": "frustum", "sides": sides, "across_flats": 100, "top_across_flats": 60,
             "height": 20 * math.tan(math.radians(pitch)), "way": "plates"}  # fmt: skip
    stock = {"sheet": {"metal": "C26000", "thickness": "0.81"}}
    plan = plan_tables({"design": "facet-form", "stock": stock, "sizes": sizes})
    found = [plan.quantities[id].value for id in ("wall_mitre", "bevel")]
    assert found == pytest.approx([mitre, lean], abs=0.0051)
