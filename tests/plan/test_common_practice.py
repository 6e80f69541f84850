"""A maker's own figures (common practice, no source), and what a plan refuses or questions."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from hollowright.errors import HollowrightError, InputError, PlanRefused
from hollowright.plan.plan import Plan

PlanOf = Callable[..., Plan]


def value(plan: Plan, id: str) -> float:
    return plan.quantities[id].value


def box_2442(plan_of: PlanOf, **more: object) -> Plan:
    """The plan of the 24.42 tube with a wall of 1.22, ring of 0.82, clearance 0."""
    return plan_of(
        stock__tube__outside_diameter=["24.42"], stock__tube__wall=["1.22"],
        stock__ring_sheet__thickness=["0.82"], sizes__fit=None, sizes__clearance="0", **more,
    )  # fmt: skip


def test_bore_and_strip(plan_of: PlanOf) -> None:
    plan = box_2442(plan_of)
    assert value(plan, "bore") == pytest.approx(21.98, abs=1e-9)
    assert value(plan, "ring_outside_diameter") == pytest.approx(21.98, abs=1e-9)
    assert value(plan, "ring_length") == pytest.approx(66.48, abs=0.005)


def test_the_wall_taken_off_once(plan_of: PlanOf) -> None:
    # Who takes the wall off once gets a bore of 23.20 and a strip of about 70.31.
    bore = box_2442(plan_of).quantities["bore"].formula
    assert bore is not None
    once = bore.slips["the wall taken off once instead of twice"](24.42, 1.22)
    assert once == pytest.approx(23.20)
    assert math.pi * (once - 0.82) == pytest.approx(70.31, abs=0.005)


def test_a_lid_13_4_deep_wants_a_strip_15_4_wide(plan_of: PlanOf) -> None:
    plan = box_2442(plan_of, as_built={"lid_depth": ["13.40"]})
    assert value(plan, "ring_width") == pytest.approx(15.4)


def test_inches_are_asked_about(plan_of: PlanOf) -> None:
    with pytest.raises(InputError) as told:
        plan_of(stock__tube__outside_diameter="0.96", stock__tube__wall="1.22")
    assert told.value.field == "stock.tube.outside_diameter"
    assert "inches" in str(told.value)
    assert "0.96 in" in str(told.value)
    assert "24.38" in str(told.value)


def test_inches_are_asked_about_within_the_limits(plan_of: PlanOf) -> None:
    # 3.5 is a possible tube in mm, but not with a wall of 2.1.
    with pytest.raises(InputError, match="inches meant"):
        plan_of(stock__tube__outside_diameter="3.5", stock__tube__wall="2.1")


@pytest.mark.parametrize(
    ("field", "bare"), [("stock__tube__wall", "0.04"), ("sizes__height", "1.8"),
                        ("stock__cap_sheet__thickness", "0.028"), ("sizes__ring_stand", "0.08")],
)  # fmt: skip
def test_inches_are_asked_about_everywhere(plan_of: PlanOf, field: str, bare: str) -> None:
    with pytest.raises(InputError, match="inches") as told:
        plan_of(**{field: bare})
    assert told.value.field == field.replace("__", ".")


def test_inches_said_are_taken(plan_of: PlanOf) -> None:
    plan = plan_of(stock__tube__outside_diameter='1 1/2"', stock__tube__wall="0.040 in")
    assert value(plan, "bore") == pytest.approx(25.4 * (1.5 - 0.08))


@pytest.mark.parametrize(
    ("wall", "bore", "suspect"),
    [
        ("1.01", "36.30", "bore, read directly"),
        ("10.1 mm", "36.03", "wall"),
        ("2.02", "36.03", "wall"),
        ("1.01", "18.02", "bore, read directly"),
    ],
)
def test_wall_and_bore_disagree(plan_of: PlanOf, wall: str, bore: str, suspect: str) -> None:
    plan = plan_of(
        stock__tube__outside_diameter=["38.05"], stock__tube__wall=[wall], stock__tube__bore=[bore]
    )
    told = [c.text for c in plan.cautions if c.id == "bore_misread"]
    assert len(told) == 1
    assert f"Suspect: {suspect}" in told[0]
    assert plan.quantities["bore"].uncertainty > 0.1


def test_wall_and_bore_agree(plan_of: PlanOf) -> None:
    both = plan_of(stock__tube__bore=["36.02"])
    alone = plan_of()
    assert not any(c.id == "bore_misread" for c in both.cautions)
    assert both.quantities["bore"].uncertainty < alone.quantities["bore"].uncertainty
    assert 36.02 < value(both, "bore") < 36.03
    assert both.fits[0].odds > alone.fits[0].odds


def test_only_outside_and_bore(plan_of: PlanOf) -> None:
    plan = plan_of(stock__tube__wall=None, stock__tube__bore=["36.02"])
    assert value(plan, "bore") == pytest.approx(36.02)
    assert value(plan, "wall") == pytest.approx((38.05 - 36.02) / 2)


def test_neither_wall_nor_bore(plan_of: PlanOf) -> None:
    with pytest.raises(InputError) as told:
        plan_of(stock__tube__wall=None)
    assert told.value.field == "stock.tube.wall"


def test_too_short_says_by_how_much(plan_of: PlanOf) -> None:
    need = value(plan_of(), "tube_needed")
    with pytest.raises(PlanRefused) as told:
        plan_of(stock__tube__length="40 mm")
    assert told.value.field == "stock.tube.length"
    assert f"{need - 40:.2f} mm too short" in str(told.value)
    assert told.value.exit_code == 1


def test_just_long_enough(plan_of: PlanOf) -> None:
    need = value(plan_of(), "tube_needed")
    assert plan_of(stock__tube__length=f"{need + 0.01:.2f} mm").fits
    assert value(plan_of(stock__tube__length=None), "tube_needed") == need


def test_a_sawn_tube_is_not_refused_any_more(plan_of: PlanOf) -> None:
    assert plan_of(stock__tube__length="40 mm", as_built={"lid_depth": ["12.8"]}).fits


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"stock__ring_sheet__thickness": "4.9", "stock__tube__outside_diameter": "9",
          "stock__tube__wall": "1"}, "stock.ring_sheet.thickness"),
        ({"stock__tube__outside_diameter": "5", "stock__tube__wall": "1.5", "sizes__lid_gap": "2"},
         None),
        ({"sizes__lid_share": "0.05", "sizes__height": "20"}, "sizes.lid_share"),
        ({"sizes__ring_stand": "40"}, "sizes.ring_stand"),
        ({"sizes__ring_stand": "0.6"}, "sizes.ring_stand"),
        ({"sizes__clearance": "0.09"}, "sizes.clearance"),
        ({"stock__tube__wall": None, "stock__tube__bore": "39"}, None),
    ],
)  # fmt: skip
def test_impossible_sizes_name_their_field(
    plan_of: PlanOf, changes: dict[str, object], field: str | None
) -> None:
    with pytest.raises(HollowrightError) as told:
        plan_of(**changes)
    assert told.value.field
    assert field is None or told.value.field == field
    assert told.value.remedy


def test_every_fault_is_told_at_once(plan_of: PlanOf) -> None:
    with pytest.raises(InputError) as told:
        plan_of(stock__tube__wall="1,01", sizes__height="tall", sizes__hight="3", sizes__caps="on")
    fields = {each.field for each in told.value.each()}
    assert fields == {"stock.tube.wall", "sizes.height", "sizes.hight", "sizes.caps"}
    assert "Did you mean sizes.height" in str(told.value)
    assert "1.01" in str(told.value)


def test_awkward_inches(plan_of: PlanOf) -> None:
    plan = plan_of(
        stock__tube__outside_diameter=["1.3745 in", "1.3752 in"],
        stock__tube__wall=["0.0352 in", '0.0348"'],
        stock__tube__length='11 15/16"',
        stock__ring_sheet__thickness="24 ga",
        stock__cap_sheet__thickness="0.0205 in",
        sizes__height='1 11/16"',
        sizes__lid_share="3/8",
        sizes__ring_stand='3/32"',
        sizes__fit=None,
        sizes__clearance="0.002 in",
        sizes__lid_gap="0.0015 in",
        sizes__caps="let-in",
    )
    inch = 25.4
    bore = (1.37485 - 2 * 0.0350) * inch
    assert value(plan, "bore") == pytest.approx(bore)
    assert value(plan, "lid_length") == pytest.approx(1.6875 * 0.375 * inch)
    assert value(plan, "lid_depth") == pytest.approx((1.6875 * 0.375 - 0.0205) * inch)
    assert value(plan, "ring_width") == pytest.approx((1.6875 * 0.375 - 0.0205 + 3 / 32) * inch)
    # 24 gauge is 0.5106 mm (ASTM B258, four decimals of an inch).
    ring = math.pi * (bore - 0.0015 * inch - 0.5106)
    assert value(plan, "ring_length") == pytest.approx(ring, abs=0.0005)
    assert value(plan, "filing_per_side") == pytest.approx(0.0005 * inch / 2)
    assert value(plan, "cap_diameter") == pytest.approx(bore - 0.1)
