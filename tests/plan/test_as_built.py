"""A reading taken half way moves everything after it and nothing before."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from hollowright.plan.plan import Plan

PlanOf = Callable[..., Plan]

SAWN = "bore lid_length lid_cut_length body_cut_length tube_needed cap_cut_diameter"
STRIP = "ring_length ring_guard ring_cut_length"

CASES = {
    "lid_depth": (
        "12.50",
        "ring_width ring_cut_width inside_height seating_pressure mass",
        f"{SAWN} {STRIP}",
    ),
    "body_length": (
        "30.50",
        "body_depth inside_height seating_pressure mass",
        f"{SAWN} {STRIP} ring_width lid_depth",
    ),
    "lid_bore": (
        "36.10",
        "ring_outside_diameter ring_length ring_cut_length filing_per_side",
        f"{SAWN} body_bore lid_depth ring_width",
    ),
    "body_bore": (
        "36.10",
        "ring_slide_diameter filing_per_side ring_first_diameter ring_cut_length",
        f"{SAWN} ring_length lid_bore lid_depth ring_width",
    ),
    "ring_thickness": (
        "0.61",
        "ring_length ring_inside_diameter force_limit",
        f"{SAWN} lid_bore body_bore lid_depth ring_width",
    ),
    "ring_outside_diameter": (
        "35.90",
        "filing_per_side ring_inside_diameter clearance_as_cut",
        f"{SAWN} {STRIP} lid_bore body_bore ring_width ring_slide_diameter",
    ),
}
"""Each as-built reading: what is read, what must follow it, what was done before it."""


@pytest.mark.parametrize("id", CASES)
def test_after_and_before(plan_of: PlanOf, id: str) -> None:
    read = CASES[id][0]
    after, before = (set(names.split()) for names in CASES[id][1:])
    planned, built = plan_of(), plan_of(as_built={id: [read]})
    assert built.quantities[id].value == pytest.approx(float(read))
    moved = {
        name
        for name, quantity in planned.quantities.items()
        if abs(quantity.value - built.quantities[name].value) > 1e-9
    }
    assert after <= moved, f"did not follow: {after - moved}"
    assert not before & moved, f"moved though done before: {before & moved}"


@pytest.mark.parametrize("id", CASES)
def test_the_change_is_recorded(plan_of: PlanOf, id: str) -> None:
    planned, built = plan_of(), plan_of(as_built={id: [CASES[id][0]]})
    assert [(c.id, c.planned, c.built) for c in built.piece.changes] == [
        (id, pytest.approx(planned.quantities[id].value), pytest.approx(float(CASES[id][0])))
    ]
    assert planned.piece.changes == ()


def test_a_lid_lower_by_0_3_narrows_the_ring_by_0_3(plan_of: PlanOf) -> None:
    depth = plan_of().quantities["lid_depth"].value
    built = plan_of(as_built={"lid_depth": [f"{depth - 0.3:.3f}"]})
    fell = plan_of().quantities["ring_width"].value - built.quantities["ring_width"].value
    assert fell == pytest.approx(0.3, abs=0.0006)


def test_a_reading_far_off_is_questioned(plan_of: PlanOf) -> None:
    assert any(c.id == "lid_depth_far_off" for c in plan_of(as_built={"lid_depth": "9.1"}).cautions)
    near = plan_of(as_built={"lid_depth": "12.70"})
    assert not any(c.id == "lid_depth_far_off" for c in near.cautions)


def test_reading_the_bores_takes_doubt_off(plan_of: PlanOf) -> None:
    planned = plan_of()
    read = plan_of(as_built={"lid_bore": ["36.03", "36.04"], "body_bore": ["36.03", "36.04"]})
    assert read.fits[0].doubt < planned.fits[0].doubt
    assert read.fits[0].odds > planned.fits[0].odds


def test_the_ring_as_read_decides_the_odds(plan_of: PlanOf) -> None:
    bores = {"lid_bore": ["36.03"], "body_bore": ["36.03"]}
    fits = plan_of(as_built=bores | {"ring_outside_diameter": ["36.00"]}).fits[0]
    assert fits.as_cut.value == pytest.approx(0.03)
    assert fits.odds > 0.3
    big = plan_of(as_built=bores | {"ring_outside_diameter": ["36.15"]}).fits[0]
    assert big.odds < 0.01
    assert big.odds_filed > 0.99
    small = plan_of(as_built=bores | {"ring_outside_diameter": ["35.80"]}).fits[0]
    assert small.odds_filed < 0.01


def test_a_ring_that_fits_the_lid_is_not_cut_again(plan_of: PlanOf) -> None:
    # Asked: nothing to spare in the lid, easy in the body; the stand is filed, the ring is right.
    plan = plan_of(
        sizes__fit="easy", sizes__lid_gap="0",
        as_built=dict.fromkeys(("lid_bore", "body_bore", "ring_outside_diameter"), "36.03"),
    )  # fmt: skip
    assert not any("cut" in c.text and "out of its length" in c.text for c in plan.cautions)
    assert plan.quantities["filing_per_side"].value == pytest.approx(0.0675 / 2)


def test_the_picture_follows(plan_of: PlanOf) -> None:
    # The drawn ring stands out of the drawn lid by its stand, whatever came out.
    plan = plan_of(as_built={"lid_depth": ["12.50"], "body_length": ["30.50"]})
    lowest = {
        part.id: body.origin[2] + min(height for _, height in body.profile)
        for part in plan.parts
        for body in [part.solids[0].body]
    }
    assert lowest["lid"] - lowest["ring"] == pytest.approx(2.0, abs=1e-9)
    assert lowest["lid"] == pytest.approx(30.50 + 0.705)
