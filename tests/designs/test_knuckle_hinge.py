"""The hinge of tube knuckles: what adds up, what is refused, the pin's play, slips, bodies."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from hollowright.designs import hinge
from hollowright.errors import InputError
from hollowright.job.job import plan_tables
from hollowright.plan.plan import Plan
from hollowright.plan.slips import check
from hollowright.shapes.space import add, dot

ALONG = (1.0, 0.0, 0.0)


def tables(
    width: Any = 31.7, leaf: Any = 0.81, tube: Any = (3.05, 0.52), pin: Any = 1.95,
    depth: Any = 14.3, built: Any = None, **more: Any,
) -> dict[str, Any]:  # fmt: skip
    return {
        "title": "Hinge",
        "design": "knuckle-hinge",
        "stock": {
            "leaf_sheet": {"metal": "C26000", "thickness": str(leaf)},
            "hinge_tube": {
                "metal": "C26000", "outside_diameter": str(tube[0]), "wall": str(tube[1]),
            },
            "hinge_pin": {"metal": "C26000", "diameter": str(pin)},
        },
        "sizes": {"hinge": {"width": width, **more}, "leaf_depth": depth},
        "as_built": built or {},
    }  # fmt: skip


def plan(**given: Any) -> Plan:
    return plan_tables(tables(**given))


def value(made: Plan, id: str) -> float:
    return made.quantities[id].value


hinges = st.fixed_dictionaries(
    {
        "width": st.floats(12, 160).map(lambda x: round(x, 2)),
        "knuckles": st.sampled_from([3, 5, 7, 9, 11]),
        "gap": st.floats(0.01, 0.3).map(lambda x: round(x, 3)),
        "lengths": st.sampled_from(hinge.LENGTHS),
        "level": st.sampled_from(hinge.LEVELS),
        "leaf": st.floats(0.4, 1.3).map(lambda x: round(x, 2)),
    }
)


@settings(max_examples=40, deadline=None)
@given(hinges)
def test_knuckles_and_gaps_make_the_width(given_sizes: dict[str, Any]) -> None:
    made = plan(**given_sizes)
    outer, inner = value(made, "outer_knuckles"), value(made, "inner_knuckles")
    assert outer == inner + 1
    lengths = value(made, "knuckle_length"), value(made, "inner_knuckle_length")
    gaps = (given_sizes["knuckles"] - 1) * given_sizes["gap"]
    assert outer * lengths[0] + inner * lengths[1] + gaps == pytest.approx(given_sizes["width"])
    if given_sizes["lengths"] == "equal-share":
        assert value(made, "outer_held") == pytest.approx(value(made, "inner_held"))
    else:
        assert lengths[0] == pytest.approx(lengths[1])


@settings(max_examples=30, deadline=None)
@given(hinges)
def test_bodies_stand_in_a_row_with_their_gaps(given_sizes: dict[str, Any]) -> None:
    made = plan(**given_sizes)
    bodies = {solid.body.id: solid.body for part in made.parts for solid in part.solids}
    row = sorted(
        (body.reach(ALONG) for id, body in bodies.items() if id.startswith("knuckle")),
    )
    assert len(row) == given_sizes["knuckles"]
    assert row[0][0] == pytest.approx(0)
    assert row[-1][1] == pytest.approx(given_sizes["width"])
    for (_, end), (start, _) in pairwise(row):
        assert start - end == pytest.approx(given_sizes["gap"])
    assert min(body.reach((0.0, 0.0, 1.0))[0] for body in bodies.values()) == pytest.approx(0)


@settings(max_examples=30, deadline=None)
@given(hinges)
def test_leaves_lie_on_the_tube_and_reach_their_depth(given_sizes: dict[str, Any]) -> None:
    made = plan(**given_sizes)
    bodies = {solid.body.id: solid.body for part in made.parts for solid in part.solids}
    radius = 3.05 / 2
    for name, way in (("outer", -1.0), ("inner", 1.0)):
        low, high = bodies[f"{name}_leaf"].reach((0.0, way, 0.0))
        assert high == pytest.approx(14.3)
        assert low == pytest.approx(value(made, "seat_lip"), abs=2e-3)
        mesh = bodies[f"{name}_leaf"].mesh(0.001)
        near = [
            math.hypot(y, z - radius) for _, y, z in (tuple(map(float, v)) for v in mesh.vertices)
        ]
        assert min(near) == pytest.approx(radius, abs=2e-3)


def test_a_leaf_weighs_as_a_plate_less_the_tube_that_lies_in_it() -> None:
    # Level middle, the section by quadrature: the far edge less the circle, over the thickness.
    made = plan()
    steps = 20_000
    heights = [0.81 * ((i + 0.5) / steps - 0.5) for i in range(steps)]
    section = sum(14.3 - math.sqrt(1.525**2 - z * z) for z in heights) * 0.81 / steps
    leaf = next(part for part in made.parts if part.id == "outer_leaf")
    assert leaf.mass.value == pytest.approx(section * 31.7 * 8.53 / 1000, rel=1e-7)


def test_knuckles_ride_away_with_their_leaf() -> None:
    made = plan()
    pulls = {solid.body.id: solid.pull for part in made.parts for solid in part.solids}
    for number in range(1, 6):
        leaf = pulls["outer_leaf" if number % 2 else "inner_leaf"]
        assert dot(pulls[f"knuckle_{number}"], leaf) > 0
    assert dot(add(pulls["outer_leaf"], pulls["inner_leaf"]), ALONG) == 0


def test_bars_carry_their_kerfs_and_truing() -> None:
    made = plan(knuckles=7)
    length = (31.7 - 6 * 0.05) / 7
    cut = length + 2 * made.shop.value("truing")
    assert value(made, "outer_knuckle_cut_length") == pytest.approx(cut)
    kerfs = 7 * made.shop.value("kerf")
    assert value(made, "hinge_tube_needed") == pytest.approx(7 * cut + kerfs)


def test_the_pin_is_riveted_cold_after_every_heat() -> None:
    made = plan()
    kinds = [step.kind for step in made.steps]
    assert made.steps[-1].id == "rivet_pin"
    assert "solder" in kinds
    assert "solder" not in kinds[[s.id for s in made.steps].index("run_in") :]


@pytest.mark.parametrize(
    ("pin", "caution"),
    [("1.995", "pin_tight"), ("1.80", "pin_loose"), ("1.95", "pin_in_doubt")],
)
def test_the_pair_is_judged_by_its_readings(pin: str, caution: str) -> None:
    made = plan(pin=pin)
    assert caution in {each.id for each in made.cautions}
    play = made.quantities["pin_clearance"]
    assert play.value == pytest.approx(3.05 - 2 * 0.52 - float(pin))
    assert play.uncertainty > 0.02  # the wall is read once and counts twice


def test_a_clearance_at_its_limit_is_not_over_it() -> None:
    # 2.40 - 2 x 0.46 - 1.38 = 0.10, the shop's most, but in floats a little more.
    made = plan(tube=(2.40, 0.46), pin=1.38)
    assert made.quantities["pin_clearance"].value > made.shop.value("pin_clearance_most")
    said = {each.id for each in made.cautions}
    assert "pin_loose" not in said
    assert "pin_in_doubt" in said


def text(made: Plan, id: str) -> str:
    return next(step.text for step in made.steps if step.id == id)


def test_the_steps_say_where_the_pin_lies() -> None:
    for level, words in (("middle", "middle of the"), ("face", "faces that fold together")):
        made = plan(level=level)
        assert f"level with the {words}" in text(made, "file_seats")
        assert f"level with the {words}" in text(made, "string")


def test_leaves_by_themselves_have_no_notch_and_take_hard_solder() -> None:
    made = plan(level="face")
    assert "notch" not in text(made, "file_seats")
    for id in ("tack", "solder_leaves"):
        assert "hard solder" in text(made, id)


def test_the_heads_have_a_countersink_to_hold_in() -> None:
    made = plan()
    assert "Countersink the bore of the two end ones" in text(made, "true_knuckles")
    assert "fill both countersinks" in text(made, "rivet_pin")


def test_wire_that_would_do_is_named() -> None:
    # Bore 1.683: 14 ga B&S, 0.0641 in = 1.628 mm (ASTM B258), leaves 0.055.
    made = plan(tube=("2.70", "0.5085"), pin="1.40")
    text = next(each.text for each in made.cautions if each.id == "pin_loose")
    assert "14 ga B&S (1.63 mm)" in text


@pytest.mark.parametrize(
    ("sizes", "field"),
    [
        ({"knuckles": 6}, "sizes.hinge.knuckles"),
        ({"pin": 2.4}, "stock.hinge_pin.diameter"),
        ({"tube": (3.05, 1.6)}, "stock.hinge_tube.wall"),
        ({"leaf": 2.9}, "stock.hinge_tube.outside_diameter"),
        ({"leaf": 1.45, "level": "face"}, "stock.hinge_tube.outside_diameter"),
        ({"width": 4, "gap": 1}, "sizes.hinge.width"),
        ({"depth": 2.2}, "sizes.leaf_depth"),
    ],
)
def test_what_can_t_be_is_refused_by_its_field(sizes: dict[str, Any], field: str) -> None:
    with pytest.raises(InputError) as told:
        plan(**sizes)
    assert told.value.field == field
    assert told.value.remedy


def test_a_leaf_shorter_than_the_hinge_is_refused() -> None:
    made = tables()
    made["sizes"]["leaf_length"] = 30
    with pytest.raises(InputError, match="shorter than the hinge"):
        plan_tables(made)


def test_an_even_number_says_what_would_do() -> None:
    with pytest.raises(InputError, match="Take 3 or 5"):
        plan(knuckles=4)


@pytest.mark.parametrize("lengths", hinge.LENGTHS)
def test_read_knuckles_move_the_pin(lengths: str) -> None:
    planned = plan(lengths=lengths)
    outer, inner = value(planned, "knuckle_length"), value(planned, "inner_knuckle_length")
    built = {"knuckle_length": f"{outer - 0.1:.4f}", "inner_knuckle_length": f"{inner - 0.2:.4f}"}
    made = plan(lengths=lengths, built=built)
    less = 3 * 0.1 + 2 * 0.2
    assert value(planned, "pin_length") - value(made, "pin_length") == pytest.approx(less, abs=1e-3)
    assert {change.id for change in made.piece.changes} == set(built)


@pytest.mark.parametrize(
    ("quantity", "figure", "words"),
    [
        ("knuckle_length", "6.34", "gaps forgotten"),
        ("pin_length", "31.70", "nothing left to rivet"),
        ("pin_clearance", "0.58", "wall taken off once"),
        ("leaf_width", "12.78", "half the tube taken"),
    ],
)
def test_slips_are_found(quantity: str, figure: str, words: str) -> None:
    found = check(plan(), quantity, figure)
    assert not found.agrees
    assert any(words in slip.text for slip in found.slips[:3]), found.slips


def test_a_design_may_do_without_its_fields() -> None:
    fields = hinge.optional()
    assert {field.path for field in fields} == {field.path for field in hinge.FIELDS}
    assert not any(field.required for field in fields)


@settings(max_examples=20, deadline=None)
@given(st.floats(1.2, 8), st.floats(0.1, 0.6), st.floats(0.3, 7))
def test_any_tube_and_pin_plan_or_are_refused(tube: float, wall: float, pin: float) -> None:
    assume(wall < tube / 2)
    try:
        made = plan(tube=(round(tube, 2), round(wall, 2)), pin=round(pin, 2))
    except InputError:
        assert round(pin, 2) > tube - 2 * wall or tube < 0.81 / 0.9 + 0.01
        return
    assert value(made, "pin_clearance") > -0.3
