"""A piece of several designs joined: one piece, its numbers each part's own, its holes cut."""

from __future__ import annotations

import copy
import json
import math
from typing import Any

import pytest

from hollowright.designs.composed import EXAMPLE
from hollowright.errors import HollowrightError, InputError, PlanRefused, UnknownName
from hollowright.job.job import plan_tables, read_tables
from hollowright.job.piece_json import piece_data, read_piece
from hollowright.output.data import plan_data
from hollowright.output.plan_picture import plan_picture
from hollowright.plan.make import make_plan
from hollowright.plan.slips import check

CAN = read_tables(EXAMPLE.text)


def changed(path: str, value: Any) -> dict[str, Any]:
    made = copy.deepcopy(CAN)
    *above, last = path.split(".")
    table = made
    for name in above:
        table = table.setdefault(name, {})
    if value is None:
        table.pop(last)
    else:
        table[last] = value
    return made


@pytest.fixture(scope="module")
def plan():
    return plan_tables(CAN)


def alone(name: str, **sizes: Any):
    """A part of the can planned by itself."""
    own = {key: value for key, value in CAN["parts"][name].items() if key != "joins"}
    own = copy.deepcopy(own) | {"title": name}
    own["sizes"] |= sizes
    return own


def test_the_example_gives_its_numbers(plan):
    for id, number in EXAMPLE.expected.items():
        assert plan.quantities[id].value == pytest.approx(number, abs=EXAMPLE.tolerance)


def test_each_part_has_the_numbers_that_it_has_alone(plan):
    for id, quantity in plan_tables(alone("body")).quantities.items():
        if id in ("mass", "clearance_as_cut", "truing", "kerf"):
            continue
        joined = next(plan.quantities[k] for k in (f"body_{id}", id) if k in plan.quantities)
        if id != "body_mass":  # that tube has a hole now
            assert joined.value == pytest.approx(quantity.value, rel=1e-12), id
            assert joined.uncertainty == pytest.approx(quantity.uncertainty, rel=1e-9), id


def test_the_spout_follows_the_body(plan):
    """The saddle's sizes come from the body's tube: a larger body, another saddle."""
    body = {"outside_diameter": ["41.05", "41.08", "41.02"], "wall": "1.02", "length": "300 mm"}
    tables = alone("spout", main_length="90 mm")
    tables["stock"]["main"] = {**CAN["parts"]["body"]["stock"]["tube"], "length": "300 mm"}
    by_itself = plan_tables(tables)
    for id in ("template_height", "joint_length", "hole_length"):
        assert plan.quantities[f"spout_{id}"].value == pytest.approx(
            by_itself.quantities[id].value, rel=1e-9
        )
    larger = plan_tables(
        changed("parts.body.stock.tube.outside_diameter", body["outside_diameter"])
    )
    assert (
        larger.quantities["spout_joint_length"].value < plan.quantities["spout_joint_length"].value
    )


def test_the_readings_stay_shared(plan):
    """The body's diameter is one reading: body and spout move together, and both say so."""
    spout = plan.quantities["spout_template_height"]
    body = plan.quantities["body_bore"]
    assert set(spout.slopes) & set(body.slopes)
    named = {node.of for node in spout.slopes if node.of}
    assert "body_outside_diameter" in named
    assert "spout_branch_outside_diameter" in named
    zeros = [node for node in spout.slopes if node.id == "calliper_zero"]
    assert len(zeros) <= 1, "one calliper, one zero error"


def test_the_joint_is_one_of_the_piece(plan):
    joint = next(each for each in plan.piece.joints if each.id == "spout_saddle")
    assert joint.parts == ("spout_branch", "body_body")
    parts = {part.id for part in plan.parts}
    assert all(set(each.parts) <= parts for each in plan.piece.joints)
    assert joint.length.value > math.pi * (9.53 - 0.715), "longer than a circle at mid-wall"


def test_the_hole_is_taken_out_of_the_body(plan):
    whole = plan_tables(alone("body"))
    before = next(part for part in whole.parts if part.id == "body")
    after = next(part for part in plan.parts if part.id == "body_body")
    lost = before.mass.value - after.mass.value
    volume = before.solids[0].body.volume - after.solids[0].body.volume
    assert lost == pytest.approx(volume * 8.53 / 1000, rel=0.01)
    assert lost > math.pi * 4.05**2 * 1.0 * 8.53 / 1000, "no less than the bore's own circle"


def test_it_is_drawn_and_written(plan):
    assert plan_picture(plan, 120).items
    text = json.dumps(plan_data(plan), allow_nan=False)
    again = make_plan(read_piece(json.loads(json.dumps(piece_data(plan.piece)))), plan.shop)
    assert json.dumps(plan_data(again), allow_nan=False) == text


def test_slips_are_found_in_a_part(plan):
    found = check(plan, "body_bore", f"{38.05 - 1.015:.2f}")
    assert found.slips[0].text == "the wall taken off once instead of twice"


def test_a_reading_half_way_moves_its_own_part_alone(plan):
    built = plan_tables(changed("parts.body.as_built", {"lid_depth": ["17.62", "17.60"]}))
    assert built.quantities["body_ring_width"].value == pytest.approx(17.61 + 2, abs=1e-9)
    for id, quantity in plan.quantities.items():
        if id.startswith("spout_") and id != "spout_mass":
            assert built.quantities[id].value == pytest.approx(quantity.value, abs=1e-12), id


def test_a_common_stock_serves_every_part_that_asks_for_it():
    tables = copy.deepcopy(CAN)
    tables["stock"] = {"ring_sheet": tables["parts"]["body"]["stock"].pop("ring_sheet")}
    assert plan_data(plan_tables(tables)) == plan_data(plan_tables(CAN))


def test_a_size_of_a_part_is_worked_back():
    tables = changed("parts.body.sizes.height", "max")
    tables["parts"]["body"]["stock"]["tube"]["length"] = "140 mm"
    made = plan_tables(tables)
    assert made.quantities["body_tube_needed"].value == pytest.approx(140, abs=0.0101)


def test_what_limits_it_is_named_by_its_whole_path():
    tables = changed("parts.body.sizes.height", "max")
    tables["parts"]["body"]["stock"]["tube"]["length"] = "140 mm"
    assert "parts.body.stock.tube.length" in plan_tables(tables).cautions[0].text


def test_two_spouts_round_one_wall():
    """On opposite sides there is room; nearer than a hole and a millimetre there is not."""
    second = copy.deepcopy(CAN["parts"]["spout"])
    second["sizes"]["around"] = "180"
    both = plan_tables(changed("parts.second", second))
    body = next(part for part in both.parts if part.id == "body_body")
    one = next(part for part in plan_tables(CAN).parts if part.id == "body_body")
    whole = next(part for part in plan_tables(alone("body")).parts if part.id == "body")
    lost = whole.mass.value - one.mass.value
    assert whole.mass.value - body.mass.value == pytest.approx(2 * lost, rel=1e-9)
    volumes = [part.solids[0].body.volume for part in (whole, one, body)]
    assert volumes[0] - volumes[2] == pytest.approx(2 * (volumes[0] - volumes[1]), rel=1e-3)
    second["sizes"]["around"] = "20"
    with pytest.raises(PlanRefused, match="it runs into spout"):
        plan_tables(changed("parts.second", second))
    second["sizes"] |= {"around": "350"}
    with pytest.raises(PlanRefused, match="it runs into spout"):
        plan_tables(changed("parts.second", second))


def test_the_lid_is_fitted_after_the_spout_s_heat(plan):
    order = [step.id for step in plan.steps]
    heats = [step.id for step in plan.steps if step.kind == "solder" and "spout" in step.id]
    assert heats
    last = max(order.index(id) for id in heats)
    assert last < order.index("body_measure_halves") < order.index("body_solder_ring")
    assert order[-1] == "body_clean"


def test_a_spout_keeps_clear_of_the_ring_and_of_the_rim():
    """The body is free up to where the lid's ring begins: 2 mm under the rim; by hand."""
    rim = 0.705 + (62 * 0.7 - 0.705)
    for at in ("37.1 mm", "36.0 mm"):
        with pytest.raises(PlanRefused, match=f"free from 0.71 to {rim - 2:.2f} mm"):
            plan_tables(changed("parts.spout.sizes.at", at))


def test_a_wall_with_a_seam_says_so():
    body = {
        "design": "walled-box",
        "stock": {
            "wall_sheet": {"metal": "C26000", "thickness": "1.02"},
            "plate_sheet": {"metal": "C26000", "thickness": "0.81"},
        },
        "sizes": {
            "height": "62 mm", "lid_share": "0.3", "lid": "cap",
            "outline": {"shape": "circle", "diameter": "38 mm"},
        },
    }  # fmt: skip
    made = plan_tables(changed("parts.body", body))
    assert any("has a seam" in caution.text for caution in made.cautions)
    assert not any("has a seam" in caution.text for caution in plan_tables(CAN).cautions)


def test_a_body_s_outside_as_built_reaches_the_spout():
    """The spout's seat is half of the outside that was read; by hand."""
    body = {
        "design": "walled-box",
        "stock": {
            "wall_sheet": {"metal": "C26000", "thickness": "1.02"},
            "plate_sheet": {"metal": "C26000", "thickness": "0.81"},
            "ring_sheet": {"metal": "C26000", "thickness": "0.64"},
        },
        "sizes": {
            "height": "62 mm", "lid_share": "0.3",
            "outline": {"shape": "circle", "diameter": "38 mm"},
        },
    }  # fmt: skip
    for lid in ("inner-ring", "cap"):
        body["sizes"]["lid"] = lid
        tables = changed("parts.body", copy.deepcopy(body))
        planned = plan_tables(tables).quantities["spout_seat_radius"].value
        assert planned == pytest.approx(19.0, abs=0.01)
        tables["parts"]["body"]["as_built"] = {"body_outside": "38.40"}
        made = plan_tables(tables)
        assert made.quantities["spout_seat_radius"].value == pytest.approx(19.2)
        assert not [c for c in made.cautions if c.id.endswith("_unused")]


def test_a_reading_that_nothing_follows_is_pointed_out():
    tables = {
        "design": "walled-box",
        "stock": {
            "wall_sheet": {"metal": "C26000", "thickness": "1.02"},
            "plate_sheet": {"metal": "C26000", "thickness": "0.81"},
            "ring_sheet": {"metal": "C26000", "thickness": "0.64"},
        },
        "sizes": {
            "height": "31 mm",
            "outline": {"shape": "rectangle", "length": "52 mm", "width": "33 mm",
                        "corner_radius": "6 mm"},
        },
        "as_built": {"lid_bore": "40.0"},
    }  # fmt: skip
    told = [c.text for c in plan_tables(tables).cautions if c.id == "built_lid_bore_unused"]
    assert len(told) == 1
    assert "nothing here follows it" in told[0]
    del tables["as_built"]
    assert not [c for c in plan_tables(tables).cautions if c.id.endswith("_unused")]


def test_one_stands_on_another():
    tables = copy.deepcopy(CAN)
    knob = alone("body", height="19 mm", lid_share="0.35") | {"joins": "body"}
    knob["stock"]["tube"] = {"metal": "C26000", "outside_diameter": "19.04", "wall": "0.82"}
    del knob["title"]
    tables["parts"]["knob"] = knob
    made = plan_tables(tables)
    reaches = {
        solid.body.id: solid.body.reach((0.0, 0.0, 1.0))
        for part in made.parts
        for solid in part.solids
    }
    assert min(r[0] for id, r in reaches.items() if id.startswith("knob")) == pytest.approx(
        max(r[1] for id, r in reaches.items() if id.startswith("body"))
    )
    joint = next(each for each in made.piece.joints if each.id == "knob_foot")
    assert joint.length.value == pytest.approx(math.pi * 19.04)


WRONG = [
    ("parts.spout.joins", ["body"], InputError, "parts.spout.joins: .* isn't a part's name"),
    ("parts.body_lid", CAN["parts"]["spout"], InputError, "parts.body_lid: its numbers"),
    (
        "parts.second",
        CAN["parts"]["spout"],
        PlanRefused,
        "parts.second.sizes.at: it runs into spout",
    ),
    ("parts.spout.joins", "bodyy", UnknownName, "parts.spout.joins.*Did you mean body"),
    ("parts.spout.joins", "spout", UnknownName, "parts.spout.joins"),
    ("parts.spout.joins", None, InputError, "parts.spout.joins: it is missing"),
    ("parts.body.joins", "spout", InputError, "in a circle"),
    ("parts.spout.design", "tube-sadle", InputError, "parts.spout.design.*tube-saddle"),
    ("parts.spout.design", None, InputError, "parts.spout.design: it is missing"),
    ("parts.spout.sizes.at", "39 mm", PlanRefused, "parts.spout.sizes.at: it takes the wall"),
    ("parts.spout.sizes.angle", "upright", InputError, "parts.spout.sizes.angle"),
    ("parts.spout.stock.main", {"wall": "1.0"}, InputError, "parts.spout.stock.main.wall"),
    ("parts.body.sizes.height", "forty", InputError, "parts.body.sizes.height"),
    ("parts.9", {"design": "cone"}, InputError, "parts.9"),
    ("parts.body", "tube-box", InputError, "parts.body.design"),
    ("parts", {}, InputError, "parts: it isn't a table of parts"),
    ("sizes.height", "3 mm", InputError, "sizes: beside"),
    ("title", ["x"], InputError, "title"),
]


@pytest.mark.parametrize(("path", "value", "kind", "told"), WRONG)
def test_what_is_wrong_is_named_by_its_whole_path(path, value, kind, told):
    with pytest.raises(kind, match=told):
        plan_tables(changed(path, value))


def test_nonsense_anywhere_is_a_sentence():
    for name in ("body", "spout"):
        for nonsense in (3, [], {"sizes": 4, "design": "cone"}, {"design": ["x"]}, math.nan):
            tables = copy.deepcopy(CAN)
            tables["parts"][name] = nonsense
            with pytest.raises(HollowrightError) as fault:
                plan_tables(tables)
            assert fault.value.field.startswith("parts")
