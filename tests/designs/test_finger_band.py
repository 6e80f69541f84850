"""Bands for fingers: sizes, sections, hollow ones, what came out, refusals, slips."""

import copy
import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hollowright.designs import design
from hollowright.errors import HollowrightError
from hollowright.formulas import band_section
from hollowright.job.job import plan_tables, read_tables
from hollowright.plan.plan import Plan
from hollowright.plan.slips import check

EXAMPLES = {each.name.split()[0]: each for each in design("finger-band").examples}
PLAIN, DOMED, WIRE, HOLLOW = "first", "domed", "half-round", "hollow"


def tables(which: str, **sizes: Any) -> dict[str, Any]:
    made = copy.deepcopy(read_tables(EXAMPLES[which].text))
    made["sizes"] = {k: v for k, v in (made["sizes"] | sizes).items() if v is not None}
    return made


def plan(which: str, built: list[str] | None = None, **sizes: Any) -> Plan:
    made = tables(which, **sizes)
    if built:
        made["as_built"] = {"inside_diameter": built}
    return plan_tables(made)


def value(made: Plan, id: str) -> float:
    return made.quantities[id].value


def test_the_issue_s_check() -> None:
    # Issue 3: US 7 -> 17.32; its blank in 1.5 mm -> 59.12.
    made = tables(PLAIN, size="US 7")
    made["stock"]["sheet"]["thickness"] = ["1.50"]
    found = plan_tables(made)
    assert value(found, "inside_diameter") == pytest.approx(17.32, abs=0.005)
    assert value(found, "blank_length") == pytest.approx(59.12, abs=0.005)


@pytest.mark.parametrize(
    ("size", "diameter"),
    [("ISO 54", 54 / math.pi), ("UK N", 53.75 / math.pi), ("CH 14", 54 / math.pi),
     ("JP 12", 50 / 3), ("US 9 3/4", 11.63 + 9.75 * 0.8128)],
)  # fmt: skip
def test_every_scale_has_its_working(size: str, diameter: float) -> None:
    made = plan(PLAIN, size=size)
    assert value(made, "inside_diameter") == pytest.approx(diameter, rel=1e-12)
    assert value(made, "inside_circumference") == pytest.approx(math.pi * diameter, rel=1e-12)
    assert size in made.steps[0].text


def test_two_tables_of_us_and_uk_sizes() -> None:
    inch = {"size_table": "inch"}
    assert value(plan(PLAIN, size="US 7", **inch), "inside_diameter") == pytest.approx(0.682 * 25.4)
    assert value(plan(PLAIN, size="UK B", **inch), "inside_diameter") == pytest.approx(0.49 * 25.4)
    assert value(plan(PLAIN, size="UK B"), "inside_diameter") == pytest.approx(38.75 / math.pi)


def test_a_bare_number_is_told_to_be_iso() -> None:
    made = plan(PLAIN, size=54)
    assert any("ISO 54" in caution.text for caution in made.cautions)
    assert not any("is read as" in caution.text for caution in plan(PLAIN).cautions)


def test_the_extra_for_a_wide_band_stands_beside() -> None:
    narrow, wide = plan(PLAIN, width="3.9 mm"), plan(PLAIN, width="4.7 mm")
    assert value(narrow, "blank_length") == value(wide, "blank_length")
    assert "eased_length" not in narrow.quantities
    assert value(wide, "eased_length") == pytest.approx(value(wide, "blank_length") + 0.5)
    added = plan(PLAIN, width="4.7 mm", ease="added")
    assert value(added, "blank_length") == pytest.approx(value(wide, "eased_length"))
    assert value(added, "size_diameter") == value(wide, "inside_diameter")
    assert "eased_length" not in added.quantities


def test_an_eased_inside_isn_t_called_the_size_s_own() -> None:
    eased = plan(PLAIN, size="ISO 54", width="4.7 mm", ease="added").steps[0].text
    assert "17.35 mm across, 17.19 mm for ISO 54 with 0.50 mm more round it" in eased
    read = plan(WIRE, ease="added").steps[0].text
    assert "18.89 mm" in read
    assert "as it was read with 0.50 mm" in read
    assert "ISO 54: read it" in plan(PLAIN, size="ISO 54", width="4.7 mm").steps[0].text


def test_half_round_wire_is_read_both_ways() -> None:
    assert "wire across its flat and over it" in plan(WIRE).steps[0].text
    assert "metal's thickness" in plan(DOMED).steps[0].text


def test_half_round_wire_has_no_flat_edges_to_rub() -> None:
    last = {which: plan(which).steps[-1].text for which in (PLAIN, DOMED, WIRE)}
    assert "flat" in last[PLAIN]
    assert "flat" in last[DOMED]
    assert "flat" not in last[WIRE]
    assert "knife's edge" in last[WIRE]


def test_the_second_side_s_easy_solder_has_its_guard() -> None:
    for sides in ("on-end", "let-in"):
        text = next(s.text for s in plan(HOLLOW, sides=sides).steps if s.id == "second_side")
        assert "yellow ochre" in text


def test_a_ring_that_came_out_small_is_stretched_and_the_plan_follows() -> None:
    made, read = plan(PLAIN), plan(PLAIN, ["17.31", "17.28", "17.30"])
    assert value(read, "stretch") == pytest.approx(100 * (17.5228 / 17.29667 - 1), abs=0.002)
    assert value(read, "blank_length") == value(made, "blank_length")
    assert value(read, "outside_diameter") == pytest.approx(17.29667 + 2.84, abs=1e-4)
    assert value(read, "band_cut_length") == value(made, "band_cut_length")
    assert value(read, "mass") < value(made, "mass")
    assert any("US 7" in c.text and "17.30" in c.text for c in read.cautions)
    assert "it wants 1.3" in next(step.text for step in read.steps if step.id == "round")


def test_a_ring_that_came_out_large_is_cut() -> None:
    read = plan(PLAIN, ["17.81", "17.79"])
    assert value(read, "cut_out") == pytest.approx(math.pi * (17.8 - 17.5228))
    assert "stretch" not in read.quantities
    assert "take out 0.87 mm" in next(step.text for step in read.steps if step.id == "round")


def test_a_hollow_band_follows_its_sleeve() -> None:
    made, read = plan(HOLLOW), plan(HOLLOW, ["18.22", "18.20"])
    moved = 18.21 - 57 / math.pi
    assert value(read, "shell_length") - value(made, "shell_length") == pytest.approx(
        math.pi * moved
    )
    assert value(read, "sleeve_cut_length") == value(made, "sleeve_cut_length")
    assert value(read, "side_cut_hole") - value(made, "side_cut_hole") == pytest.approx(moved)


@pytest.mark.parametrize(("sides", "width"), [("on-end", 7.3 - 2 * 1.57 / 3), ("let-in", 7.3)])
def test_hollow_weight_is_metal_less_hollow(sides: str, width: float) -> None:
    made = plan(HOLLOW, sides=sides)
    assert value(made, "sleeve_width") == pytest.approx(width)
    density = made.piece.stocks[0].metal.density.value
    lost = made.piece.parts[2].blank.sizes
    gap = 0.0
    if sides == "let-in":  # the solder's gaps are air in the weight
        ring = value(made, "outside_diameter") - 2 * 1.57 / 3, 57 / math.pi + 2 * 1.57 / 3
        whole = math.pi / 4 * (ring[0] ** 2 - ring[1] ** 2)
        side = math.pi / 4 * (lost["diameter"].value ** 2 - lost["hole"].value ** 2)
        gap = 2 * (whole - side) * 1.57 / 3
    vents = 2 * value(made, "vent_volume") / 1000
    air = value(made, "hollow_volume") + gap / 1000 + vents
    metal = value(made, "solid_mass") - density * air
    assert vents > 0.0009  # two of 1.1 mm through 0.52
    assert made.mass.value == pytest.approx(metal, rel=1e-9)
    saved = 100 * (1 - made.mass.value / value(made, "solid_mass"))
    assert value(made, "lighter") == pytest.approx(saved)
    assert value(made, "lighter") > 50


def test_a_hollow_band_is_vented_before_it_closes() -> None:
    for sides in ("on-end", "let-in"):
        order = [step.id for step in plan(HOLLOW, sides=sides).steps]
        assert order.index("vent") < order.index("first_side") < order.index("second_side")
        last = next(s for s in plan(HOLLOW, sides=sides).steps if s.id == "second_side")
        assert "vent" in {caution.id for caution in last.cautions}
    assert any(c.id == "vent_holds_water" for c in plan(HOLLOW, vent="0.9 mm").cautions)
    assert not any(c.id == "vent_holds_water" for c in plan(HOLLOW, vent="1.3 mm").cautions)


@given(st.floats(1.5, 12), st.floats(0.05, 0.5), st.floats(0.0, 2.5))
def test_domed_sections_by_quadrature(width: float, share: float, edge: float) -> None:
    """Area and centre of a domed section against a plain sum over its width."""
    rise = share * width
    radius = band_section.segment_radius(width, rise)
    dome = band_section.segment_area(radius, band_section.segment_half_angle(width, rise))
    middle = band_section.segment_middle(width, dome, radius, rise)
    area = band_section.section_area(width, edge, dome)
    centre = band_section.section_middle(width, edge, dome, middle)
    angle = (np.arange(20000) + 0.5) / 20000 * math.pi  # x crowded to both edges
    x, dx = -width / 2 * np.cos(angle), width / 2 * np.sin(angle) * math.pi / 20000
    height = edge + np.sqrt(np.maximum(radius**2 - x**2, 0)) - (radius - rise)
    assert area == pytest.approx(float((height * dx).sum()), rel=1e-6)
    assert centre == pytest.approx(float((height**2 / 2 * dx).sum() / area), rel=1e-5)


def test_half_round_wire_is_bent_on_its_own_middle() -> None:
    made = plan(WIRE)
    middle = value(made, "section_middle")
    assert 0.4 < middle / value(made, "wire_height") < 0.43  # a semicircle's is 4 / (3 pi)
    assert value(made, "blank_length") == pytest.approx(
        math.pi * (value(made, "inside_diameter") + 2 * middle)
    )
    assert made.piece.inches


def test_a_domed_strip_is_bent_flat_and_what_is_filed_off_is_told() -> None:
    made = plan(DOMED)
    strip = math.pi * (value(made, "inside_diameter") + 1.92)
    assert value(made, "blank_length") == pytest.approx(strip)
    assert value(made, "filed_off") == pytest.approx(
        value(made, "strip_mass") - made.mass.value, rel=1e-12
    )
    assert 0.1 < value(made, "filed_off") / value(made, "strip_mass") < 0.4


@pytest.mark.parametrize(
    ("which", "sizes", "field", "told"),
    [
        (PLAIN, {"size": "EU 54"}, "sizes.size", "isn't known"),
        (PLAIN, {"size": "UK Y 1/2", "size_table": "inch"}, "sizes.size", "isn't a size"),
        (PLAIN, {"size": "7"}, "sizes.size", "US 7"),
        (PLAIN, {"size": None}, "sizes.size", "missing"),
        (PLAIN, {"width": None}, "sizes.width", "missing"),
        (PLAIN, {"inside_diameter": ["17.3"]}, "sizes.size", "Leave one"),
        (PLAIN, {"kind": "half-round"}, "stock.wire.metal", "missing"),
        (PLAIN, {"kind": "hollow"}, "sizes.depth", "missing"),
        (DOMED, {"edge": "1.9 mm"}, "sizes.edge", "no dome"),
        (HOLLOW, {"depth": "1.3 mm"}, "sizes.depth", "no hollow"),
        (HOLLOW, {"width": "1.4 mm"}, "sizes.width", "no hollow"),
        (HOLLOW, {"vent": "4 mm"}, "sizes.vent", "too much"),
    ],
)  # fmt: skip
def test_refusals(which: str, sizes: dict[str, Any], field: str, told: str) -> None:
    with pytest.raises(HollowrightError, match=told) as error:
        plan(which, **sizes)
    assert error.value.field == field


def test_wire_that_is_not_half_round_is_refused() -> None:
    made = tables(WIRE)
    made["stock"]["wire"]["height"] = "0.11 in"
    with pytest.raises(HollowrightError, match="right way round") as error:
        plan_tables(made)
    assert error.value.field == "stock.wire.height"


@pytest.mark.parametrize(
    ("id", "figure", "slip"),
    [
        ("blank_length", "55.05", "the thickness forgotten"),
        ("blank_length", "63.97", "the thickness added twice"),
        ("blank_length", "56.83", "3 taken for pi"),
        ("blank_length", "57.28", "half the thickness added"),
        ("inside_diameter", "17.93", "half a size too many"),
        ("inside_diameter", "17.32", "a quarter of a size too few"),
        ("inside_diameter", "15.08", "the size read as Japanese"),
        ("outside_diameter", "18.94", "the thickness added once"),
    ],
)
def test_slips_are_found(id: str, figure: str, slip: str) -> None:
    answer = check(plan(PLAIN), id, figure)
    assert not answer.agrees
    assert slip in " ".join(each.text for each in answer.slips)


def test_right_figures_agree() -> None:
    assert check(plan(PLAIN), "blank_length", "59.51").agrees
    assert check(plan(HOLLOW), "shell_length", "76.72").agrees
