"""Trade notes 6 to 15 and 17: the lid with an inner ring. Common practice, no source."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from hollowright.errors import HollowrightError
from hollowright.formulas import fit, ring
from hollowright.output.data import plan_data
from hollowright.plan.plan import Plan, Step

PlanOf = Callable[..., Plan]


def value(plan: Plan, id: str) -> float:
    return plan.quantities[id].value


def step(plan: Plan, id: str) -> Step:
    return next(each for each in plan.steps if each.id == id)


def text_of(plan: Plan) -> str:
    return " ".join(each.text for each in plan.steps).lower()


def places(plan: Plan) -> dict[str, int]:
    return {each.id: each.number for each in plan.steps}


def test_note_6_one_size_of_ring_by_default(plan_of: PlanOf) -> None:
    plan = plan_of(sizes__fit=None, sizes__clearance="0.06")
    assert value(plan, "lid_gap") == value(plan, "clearance") == 0.06
    assert value(plan, "filing_per_side") == pytest.approx(0.0, abs=1e-12)
    assert value(plan, "ring_outside_diameter") == pytest.approx(value(plan, "lid_bore") - 0.06)


def test_note_6_a_smaller_gap_in_the_lid(plan_of: PlanOf) -> None:
    plan = plan_of(sizes__fit=None, sizes__clearance="0.08", sizes__lid_gap="0.03")
    bore = value(plan, "bore")
    assert value(plan, "ring_outside_diameter") == pytest.approx(bore - 0.03)
    assert value(plan, "ring_slide_diameter") == pytest.approx(bore - 0.08)
    assert value(plan, "filing_per_side") == pytest.approx(0.025)
    assert value(plan, "ring_length") == pytest.approx(math.pi * (bore - 0.03 - 0.645))
    assert "0.025" in step(plan, "file_stand").text or "0.03 mm" in step(plan, "file_stand").text


def test_note_6_what_is_left_of_the_stand_is_checked(plan_of: PlanOf) -> None:
    thin = plan_of(
        sizes__fit=None, sizes__clearance="0.9", sizes__lid_gap="0.05",
        stock__ring_sheet__thickness=["0.45"],
    )  # fmt: skip
    assert any(c.id == "stand_thin" for c in thin.cautions)
    fine = plan_of(sizes__fit=None, sizes__clearance="0.08", sizes__lid_gap="0.05")
    assert not any(c.id == "stand_thin" for c in fine.cautions)


def test_note_6_each_half_has_its_own_bore(plan_of: PlanOf) -> None:
    plan = plan_of(as_built={"lid_bore": ["36.05"], "body_bore": ["36.00"]})
    assert value(plan, "lid_bore") == pytest.approx(36.05)
    assert value(plan, "ring_slide_diameter") == pytest.approx(36.00 - 0.03)
    assert value(plan, "filing_per_side") == pytest.approx(0.025)
    assert value(plan, "ring_outside_diameter") == pytest.approx(36.05 - 0.03)


def test_note_7_chamfers_and_land(plan_of: PlanOf) -> None:
    assert ring.sliding_land(2.0, 0.3, 0.3) == pytest.approx(1.4)
    plan = plan_of()
    assert value(plan, "sliding_land") == pytest.approx(1.4)
    told = step(plan, "chamfer").text.lower()
    assert "inner end" in told
    assert "mouth" in told
    assert "1.40" in told
    assert "solder off the stand" in text_of(plan)
    assert "flush" in step(plan, "solder_ring").text


def test_note_8_order(plan_of: PlanOf) -> None:
    for caps in ("on-end", "let-in"):
        at = places(plan_of(sizes__caps=caps))
        assert at["deburr"] < at["try_fit"]
        assert at["true_ends"] < at["solder_caps"]
        assert at["solder_in"] < at["true_body"] < at["file_stand"] < at["index"]
    assert "true the lid's rim" in text_of(plan_of())
    assert "rolls the edge inward" in text_of(plan_of())


def test_note_8_neighbours_when_the_tube_is_oval(plan_of: PlanOf) -> None:
    oval = plan_of(stock__tube__outside_diameter=["38.20", "38.05", "37.90"])
    even = plan_of()
    assert "neighbours" in step(oval, "saw_tube").text
    assert "neighbours" not in step(even, "saw_tube").text


@pytest.mark.parametrize("caps", ["on-end", "let-in"])
@pytest.mark.parametrize("ends", [0, 1, 2])
def test_note_9_saw_before_both_ends_are_capped(plan_of: PlanOf, caps: str, ends: int) -> None:
    plan = plan_of(sizes__caps=caps, stock__tube__factory_ends=ends)
    at = places(plan)
    assert at["saw_tube"] < at["solder_caps"]
    assert any("sealed bomb" in c.text for c in step(plan, "saw_tube").cautions)
    heats = [each for each in plan.steps if each.kind == "solder"]
    assert len(heats) >= 3
    for heat in heats:
        words = " ".join(c.text.lower() for c in heat.cautions)
        assert "fluoride" in words
        assert "cadmium" in words
        assert "water" in words
    for id in ("solder_caps", "solder_in"):
        assert any(c.id == "open_end" for c in step(plan, id).cautions)


def test_note_9_factory_ends_are_told_only_where_they_are(plan_of: PlanOf) -> None:
    none = plan_of(stock__tube__factory_ends=0)
    assert "factory" not in text_of(none)
    one = plan_of(stock__tube__factory_ends=1)
    assert "factory-square end of each half" not in text_of(one)


def test_note_10_both_mends(plan_of: PlanOf) -> None:
    assert ring.stretch_percent(36.0) == pytest.approx(0.28, abs=0.005)
    told = step(plan_of(), "try_fit").text.lower()
    assert "stretch" in told
    assert "pi times the excess" in told
    assert "0.28 %" in told


def ring_read(plan_of: PlanOf, off: float) -> Plan:
    """The plan with the ring read `off` [mm] larger than planned."""
    planned = value(plan_of(), "ring_outside_diameter")
    return plan_of(as_built={"ring_outside_diameter": [f"{planned + off:.2f}"]})


def fit_words(plan: Plan) -> str:
    return " ".join(c.text for c in plan.cautions if c.kind == "fit").lower()


def test_note_10_a_little_small_is_stretched(plan_of: PlanOf) -> None:
    words = fit_words(ring_read(plan_of, -0.20))
    assert "stretch" in words
    assert "0.55 %" in words or "0.56 %" in words


def test_note_10_far_too_small_is_not(plan_of: PlanOf) -> None:
    words = fit_words(ring_read(plan_of, -0.80))
    assert "another" in words
    assert "stretch it" not in words


def test_note_10_too_big_is_cut_by_pi_times_the_excess(plan_of: PlanOf) -> None:
    plan = ring_read(plan_of, +0.20)
    planned = value(plan_of(), "ring_outside_diameter")
    excess = value(plan, "ring_outside_diameter") - planned
    assert f"{math.pi * excess:.2f}" in fit_words(plan)


def test_note_11_elastic_limit() -> None:
    strength, modulus = 110.0, 110.0
    rigid = fit.elastic_limit(36.0, strength * 0.64, modulus, 0.64, modulus, 1e9)
    assert rigid == pytest.approx(0.036, abs=0.0005)
    both = fit.elastic_limit(36.0, strength * 0.64, modulus, 0.64, modulus, 1.01)
    assert both == pytest.approx(0.059, abs=0.0005)


def test_note_11_two_metals(plan_of: PlanOf) -> None:
    # The ring whose hoop force (yield x thickness) is least gives first; both stretch by it.
    plan = plan_of(stock__tube__metal="C11000", stock__ring_sheet__metal="sterling")
    tube_metal, ring_metal = plan.piece.stock("tube").metal, plan.piece.stock("ring_sheet").metal
    hoop = min(tube_metal.yield_annealed.value * 1.01, ring_metal.yield_annealed.value * 0.645)
    give = 1 / (tube_metal.youngs_modulus.value * 1010) + 1 / (
        ring_metal.youngs_modulus.value * 645
    )
    assert value(plan, "force_limit") == pytest.approx(36.03 * hoop * give, rel=1e-6)


def test_note_11_in_the_plan(plan_of: PlanOf) -> None:
    plan = plan_of()
    assert 0.02 < value(plan, "force_limit") < 0.1
    assert f"{value(plan, 'force_limit'):.3f}" in step(plan, "try_fit").text
    assert "don't force" in step(plan, "try_fit").text


def test_note_11_asking_for_more_is_told(plan_of: PlanOf) -> None:
    try:
        plan = plan_of(sizes__fit=None, sizes__clearance="-0.15", sizes__lid_gap="0.05")
    except HollowrightError as refused:
        told = str(refused)
    else:
        told = fit_words(plan)
    assert "interference" in told or "yield" in told or "press" in told


def test_note_12_a_trial_is_offered(plan_of: PlanOf) -> None:
    told = text_of(plan_of())
    assert "spring it into the lid" in told
    assert "scribe where it overlaps" in told


def test_note_13_air() -> None:
    # 2 mm on 45 mm of depth: "some 4.5 kPa, some 4.6 N on a 36 mm lid".
    force = fit.seating_force(4.5, 36.0)
    assert force == pytest.approx(4.6, abs=0.05)
    grip = fit.pull_off_force(0.5, 36.0, 1.4, 0.15)
    assert grip == pytest.approx(0.15 * 0.5 * math.pi * 36.0 * 1.4)


def test_note_13_in_the_plan_by_boyle(plan_of: PlanOf) -> None:
    # Boyle by hand: the ring seals when its stand is still outside, so the air shrinks from
    # (closed depth + stand) to the closed depth.
    plan = plan_of()
    closed = value(plan, "lid_depth") + value(plan, "body_depth")
    by_hand = 101.325 * (closed + 2.0) / closed - 101.325
    assert value(plan, "seating_pressure") == pytest.approx(by_hand, rel=1e-9)
    area = math.pi / 4 * value(plan, "body_bore") ** 2
    assert value(plan, "seating_force") == pytest.approx(by_hand / 1000 * area, rel=1e-9)


def test_note_14_gap_for_the_solder(plan_of: PlanOf) -> None:
    narrow = plan_of(sizes__fit=None, sizes__clearance="0.08", sizes__lid_gap="0.02")
    wide = plan_of(sizes__fit=None, sizes__clearance="0.08", sizes__lid_gap="0.08")
    assert any(c.id == "tight_for_solder" for c in narrow.cautions)
    assert not any(c.id == "tight_for_solder" for c in wide.cautions)
    told = step(wide, "solder_in").text
    assert "one end" in told
    assert "other" in told


def test_note_15_caps_on_the_end(plan_of: PlanOf) -> None:
    # Wall 1.01, caps 0.705, unequal on purpose; height 45, share 0.3.
    plan = plan_of(sizes__caps="on-end")
    assert value(plan, "lid_length") == pytest.approx(13.5 - 0.705)
    assert value(plan, "lid_depth") == pytest.approx(13.5 - 0.705)
    assert value(plan, "body_length") == pytest.approx(31.5 - 0.705)
    assert value(plan, "body_depth") == pytest.approx(31.5 - 0.705)
    assert value(plan, "cap_diameter") == pytest.approx(38.05)
    assert value(plan, "cap_cut_diameter") == pytest.approx(38.05 + 2 * 1.0)


def test_note_15_caps_let_in(plan_of: PlanOf) -> None:
    plan = plan_of(sizes__caps="let-in")
    assert value(plan, "lid_length") == pytest.approx(13.5)
    assert value(plan, "lid_depth") == pytest.approx(13.5 - 0.705)
    assert value(plan, "body_length") == pytest.approx(31.5)
    assert value(plan, "body_depth") == pytest.approx(31.5 - 0.705)
    assert value(plan, "cap_diameter") == pytest.approx(36.03 - 0.1)
    assert value(plan, "cap_cut_diameter") == pytest.approx(36.03 - 0.1)


@pytest.mark.parametrize("caps", ["on-end", "let-in"])
def test_note_15_the_box_is_as_high_as_asked(plan_of: PlanOf, caps: str) -> None:
    plan = plan_of(sizes__caps=caps)
    tubes = value(plan, "lid_length") + value(plan, "body_length")
    assert tubes + (2 * 0.705 if caps == "on-end" else 0) == pytest.approx(45.0)
    assert value(plan, "inside_height") + 2 * 0.705 == pytest.approx(45.0)
    assert value(plan, "ring_width") == pytest.approx(value(plan, "lid_depth") + 2.0)


def test_note_15_net_and_cut(plan_of: PlanOf) -> None:
    plan = plan_of()
    cut, net, guard = (value(plan, i) for i in ("ring_cut_length", "ring_length", "ring_guard"))
    assert cut == pytest.approx(net + 0.3 + guard)
    assert value(plan, "ring_cut_width") == pytest.approx(value(plan, "ring_width") + 0.3)
    lid, body = value(plan, "lid_cut_length"), value(plan, "body_cut_length")
    assert lid == pytest.approx(value(plan, "lid_length") + 0.3)
    assert body == pytest.approx(value(plan, "body_length") + 0.3)
    # Both factory ends are used: two pieces, one kerf between them.
    assert value(plan, "tube_needed") == pytest.approx(lid + body + 0.3)
    shown = plan_data(plan)["parts"]
    strip = next(part for part in shown if part["id"] == "ring")
    assert strip["cut"]["width"] > strip["blank"]["width"]


def test_note_17_the_neutral_line_is_a_labelled_choice(plan_of: PlanOf) -> None:
    default = plan_of()
    named = plan_of(sizes__neutral_line="mid-thickness")
    din = plan_of(sizes__neutral_line="din-6935")
    assert value(default, "ring_length") == value(named, "ring_length")
    # A thin ring (r/s 27): the standard's line is the middle.
    assert value(din, "ring_length") == pytest.approx(value(named, "ring_length"), rel=1e-12)
    outside = value(default, "ring_outside_diameter")
    for temper, factor in (("soft", 0.55), ("half-hard", 0.64), ("hard", 0.71)):
        plan = plan_of(sizes__neutral_line=temper)
        inner = outside / 2 - 0.645
        by_hand = 4 * (factor * 0.645 + math.pi / 2 * inner)
        assert value(plan, "ring_length") == pytest.approx(by_hand, rel=1e-12)
        assert temper in plan_data(plan)["quantities"]["ring_length"]["working"]


def test_note_17_the_made_ring_comes_back_on_the_same_line(plan_of: PlanOf) -> None:
    # Whatever the line, an unguarded strip of the net length must come out at the ring's size.
    for line in ("mid-thickness", "soft", "hard"):
        plan = plan_of(sizes__neutral_line=line)
        found = plan.fits[0]
        nominal = found.as_cut.value + found.guard.value / math.pi
        assert nominal == pytest.approx(0.03, abs=1e-9)
