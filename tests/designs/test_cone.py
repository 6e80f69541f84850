"""The cone's design: the issue's checks, its limits, its slips, its flat against the shapes."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from hollowright.errors import InputError
from hollowright.job.job import plan_tables
from hollowright.plan.plan import Plan
from hollowright.plan.slips import check
from hollowright.shapes.developments.cone import frustum
from hollowright.shapes.developments.cone_cut import cut_cone


def tables(thickness: Any = 0.8, **sizes: Any) -> dict[str, Any]:
    asked = {"base_diameter": 40, "top_diameter": 24, "height": 30, **sizes}
    return {
        "title": "Cone",
        "design": "cone",
        "stock": {"sheet": {"metal": "C26000", "thickness": str(thickness)}},
        "sizes": asked,
    }


def plan(thickness: Any = 0.8, **sizes: Any) -> Plan:
    return plan_tables(tables(thickness, **sizes))


def values(made: Plan, *ids: str) -> list[float]:
    return [made.quantities[id].value for id in ids]


RADII = ("sector_angle", "sector_outer_radius", "sector_inner_radius")


@pytest.mark.parametrize(
    ("ends", "expected"),
    [("filed", (92.759, 76.014, 44.966)), ("square", (92.759, 76.121, 44.859))],
)
def test_the_issue_s_cone(ends: str, expected: tuple[float, ...]) -> None:
    assert values(plan(ends=ends), *RADII) == pytest.approx(expected, abs=5e-4)


def test_a_full_cone_has_no_inner_arc() -> None:
    made = plan(base_diameter=50, top_diameter=0, height=60)
    assert made.quantities["sector_inner_radius"].value == 0
    blank = made.parts[0].blank
    assert set(blank.sizes) == {"sector_outer_radius", "sector_angle"}
    assert "top_mid_radius" not in made.quantities  # the sheet's middle meets before the outside
    neutral = frustum(50, 0, 60, 0.8)
    assert values(made, "sector_outer_radius") == pytest.approx([neutral.sector_outer_radius])
    text = made.steps[1].text
    assert "one arc" in text
    assert "0.00" not in text


def test_a_cylinder_is_a_rectangle_without_radii() -> None:
    made = plan(top_diameter=40)
    assert not set(RADII) & set(made.quantities)
    assert values(made, "blank_length") == pytest.approx([math.pi * 39.2])
    assert "no radii" in " ".join(caution.text for caution in made.cautions)
    assert made.parts[0].blank.form == "strip"
    assert made.piece.walls[0].diameter.value == 40


def test_it_may_be_narrower_below() -> None:
    up, down = plan(base_diameter=24, top_diameter=40), plan()
    assert values(up, *RADII) == pytest.approx(values(down, *RADII))
    assert up.mass.value == pytest.approx(down.mass.value)
    assert up.parts[0].blank.outline.area == pytest.approx(down.parts[0].blank.outline.area)


@settings(max_examples=60, deadline=None)
@given(
    base=st.floats(8, 200),
    top=st.floats(0, 200),
    height=st.floats(6, 300),
    thickness=st.floats(0.2, 1.4),
    ends=st.sampled_from(["filed", "square"]),
)
def test_the_quantities_are_the_shapes(
    base: float, top: float, height: float, thickness: float, ends: Any
) -> None:
    assume(abs(base - top) > 0.01)
    base, top, height, thickness = (round(x, 3) for x in (base, top, height, thickness))
    try:
        made = plan(thickness, base_diameter=base, top_diameter=top, height=height, ends=ends)
    except InputError:
        assume(False)
    flat = frustum(base, top, height, thickness, ends)
    assert values(made, *RADII) == pytest.approx(
        [math.degrees(flat.sector_angle), flat.sector_outer_radius, flat.sector_inner_radius],
        rel=1e-9, abs=1e-9,
    )  # fmt: skip
    chord = 2 * flat.sector_outer_radius * math.sin(flat.sector_angle / 2)
    assert values(made, "sector_chord") == pytest.approx([chord], rel=1e-9)
    blank = made.parts[0].blank.outline
    assert blank.area == pytest.approx(flat.area, rel=1e-9)


@pytest.mark.parametrize("top", [24, 40, 52])
def test_a_slanting_edge_tells_how_high_it_stands(top: int) -> None:
    """Where the outside line of the side meets the plane, by hand: two lines in one section."""
    made = plan(0.8, base_diameter=40, top_diameter=top, height=60, cut_angle=25, cut_height=22)
    for id, side in (("high_point", 1), ("low_point", -1)):
        (height,) = values(made, id)
        outside = 20 + (top - 40) / 2 * height / 60
        assert height == pytest.approx(
            22 + side * outside * math.tan(math.radians(25)), rel=1e-9
        ), id
    text = next(each for each in made.steps if each.id == "file_ends").text
    assert f"{values(made, 'high_point')[0]:.2f} mm over the base" in text


def test_a_cut_cone_that_widens_upwards_strikes_its_base_s_arc_too() -> None:
    made = plan(
        0.8, base_diameter=30, top_diameter=71.3, height=55, cut_angle=30, cut_height=30,
        ends="square",
    )  # fmt: skip
    text = next(each for each in made.steps if each.id == "mark_out").text
    for id in ("sector_outer_radius", "sector_inner_radius", "square_extra"):
        assert f"{values(made, id)[0]:.2f} mm" in text, id


def test_a_full_cone_has_one_arc_and_one_edge_to_file() -> None:
    made = plan(0.8, base_diameter=40, top_diameter=0, height=60, ends="square")
    words = {step.id: step.text for step in made.steps}
    assert "longer arc" not in words["mark_out"]
    assert "more at its wide end" in words["file_ends"]


@pytest.mark.parametrize(
    ("height", "count"), [(140.0, 1), (86.0, 1), (84.0, 2), (60.0, 2), (51.0, 3), (26.0, 4)]
)
def test_a_wide_sector_is_stepped_off_in_parts(height: float, count: int) -> None:
    """Walked along the arc, always onwards, the dividers end at the sector's other edge."""
    made = plan(0.6, base_diameter=60, top_diameter=0, height=height)
    angle, outer = values(made, "sector_angle", "sector_outer_radius")
    assert angle / count <= (120 if count == 1 else 90)
    name = "sector_step" if count > 1 else "sector_chord"
    (step,) = values(made, name)
    place = 0.0
    for _ in range(count):
        place += 2 * math.asin(step / 2 / outer)  # each under half a turn: no other place
    assert math.degrees(place) == pytest.approx(angle, rel=1e-9)
    # A tenth of a millimetre too much on the dividers shifts the edge by no more than 0.2 mm each.
    wrong = 2 * math.asin((step + 0.1) / 2 / outer) - 2 * math.asin(step / 2 / outer)
    assert wrong * outer < 0.2
    text = next(each for each in made.steps if each.id == "mark_out").text
    assert (f"step it off {count} times" in text) == (count > 1)
    assert f"set dividers to {step:.2f} mm" in text


@settings(max_examples=40, deadline=None)
@given(
    base=st.floats(20, 90),
    top=st.floats(20, 90),
    angle=st.floats(1, 30),
    thickness=st.floats(0.2, 1.4),
)
def test_a_slanting_cut_is_the_shapes(
    base: float, top: float, angle: float, thickness: float
) -> None:
    base, top, angle, thickness = (round(x, 3) for x in (base, top, angle, thickness))
    sizes = {"base_diameter": base, "top_diameter": top, "height": 150, "cut_height": 71}
    made = plan(thickness, cut_angle=angle, **sizes)
    flat = cut_cone(base, top, 150, 71, math.radians(angle), thickness)
    sides = [flat.high(0), flat.high(math.pi)]
    assert values(made, "long_side", "short_side") == pytest.approx(sides, rel=1e-9)
    body = made.parts[0].solids[0].body
    # 72 corners round: the mesh's walls stand within 1 - cos 2.5 degrees of the true ones.
    assert body.mesh().volume == pytest.approx(body.volume, rel=2e-3)
    assert flat.area * thickness == pytest.approx(body.volume, rel=2e-3)


@pytest.mark.parametrize("top", [0, 0.9, 1.2, 7])
def test_the_weight_of_a_cone_that_closes_inside(top: float) -> None:
    made = plan(base_diameter=51, top_diameter=top, height=63, thickness=0.7)
    volume = made.parts[0].solids[0].body.volume
    assert made.mass.value == pytest.approx(volume * 8.53 / 1000, rel=1e-9)


@pytest.mark.parametrize(
    ("sizes", "field"),
    [
        ({"base_diameter": 3, "top_diameter": 2, "thickness": 1.6}, "sizes.base_diameter"),
        ({"base_diameter": 200, "top_diameter": 0, "height": 2}, "sizes.height"),
        ({"cut_angle": "20 deg"}, "sizes.cut_height"),
        (
            {
                "base_diameter": 2.3,
                "top_diameter": 44,
                "thickness": 7,
                "cut_angle": 29,
                "cut_height": 6,
            },
            "sizes.base_diameter",
        ),
        ({"cut_height": 12}, "sizes.cut_angle"),
        ({"cut_angle": 78, "cut_height": 15}, "sizes.cut_angle"),
        ({"cut_angle": 40, "cut_height": 15}, "sizes.cut_height"),
        ({"top_diameter": 1, "height": 60, "cut_angle": 1, "cut_height": 59.2}, "sizes.cut_height"),
    ],
)
def test_what_can_t_be_is_refused_by_its_field(sizes: dict[str, Any], field: str) -> None:
    with pytest.raises(InputError) as told:
        plan(**sizes)
    assert told.value.field == field
    assert told.value.remedy


@pytest.mark.parametrize(
    ("quantity", "figure", "words"),
    [
        ("slant", "34.00", "diameters' difference"),
        ("slant", "30.00", "upright height"),
        ("sector_angle", "231.90", "wide end taken alone"),
        ("sector_outer_radius", "77.62", "outside taken instead of mid-thickness"),
        ("sector_inner_radius", "45.02", "slope of the sheet"),
    ],
)
def test_slips_are_found(quantity: str, figure: str, words: str) -> None:
    found = check(plan(), quantity, figure)
    assert not found.agrees
    assert any(words in slip.text for slip in found.slips[:3]), found.slips


def test_marks_lie_on_the_blank() -> None:
    for sizes in (
        {},
        {"top_diameter": 40},
        {"top_diameter": 0},
        {"cut_angle": 20, "cut_height": 18},
    ):
        blank = plan(**sizes).parts[0].blank
        low_x, low_y, high_x, high_y = blank.outline.bounds
        assert len(blank.marks) == 7
        for mark in blank.marks:
            for x, y in (mark.curve.start, mark.curve.end):
                assert low_x - 1e-6 <= x <= high_x + 1e-6
                assert low_y - 1e-6 <= y <= high_y + 1e-6
