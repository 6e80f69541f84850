"""A walled box whose lid hangs on a hinge: the shared hinge on the longest straight side."""

from __future__ import annotations

import copy
import math

import pytest

from hollowright.designs import design
from hollowright.errors import InputError
from hollowright.job.job import plan_tables, read_tables

EXAMPLE = next(e for e in design("walled-box").examples if e.name == "hinged flint box")
BOX = read_tables(EXAMPLE.text)


def planned(**changes):
    tables = copy.deepcopy(BOX)
    for path, value in changes.items():
        *above, last = path.split("__")
        table = tables
        for name in above:
            table = table[name]
        if value is None:
            del table[last]
        else:
            table[last] = value
    return plan_tables(tables)


def test_knuckles_gaps_and_pin_add_up():
    plan = planned(sizes__hinge__knuckles=7, sizes__hinge__gap="0.08")
    q = {id: quantity.value for id, quantity in plan.quantities.items()}
    assert 7 * q["knuckle_length"] + 6 * 0.08 == pytest.approx(31.6)
    assert q["pin_length"] > 31.6
    counts = {part.id: part.count for part in plan.parts}
    assert (counts["outer_knuckle"], counts["inner_knuckle"]) == (4, 3)


def test_seats_are_taken_out_of_the_wall():
    """Two seats, each the section between the pin and the rim, a wall thick: by hand."""
    plan, whole = planned(), planned(sizes__lid="cap")
    thick, radius = 0.915, 3.045 / 2
    section = math.sqrt(radius**2 - thick**2) * thick / 2
    section += radius**2 / 2 * math.asin(thick / radius)
    wall = next(part for part in plan.parts if part.id == "wall")
    height = sum(plan.quantities[id].value for id in ("lid_wall_height", "body_wall_height"))
    length = plan.quantities["wall_length"].value
    by_hand = (length * thick * height - 2 * section * 31.6) * 8.53 / 1000
    assert wall.mass.value == pytest.approx(by_hand, rel=1e-9)
    solids = sum(solid.body.volume for solid in wall.solids) * 8.53 / 1000
    assert solids == pytest.approx(by_hand, rel=1e-9)
    meshed = sum(solid.body.mesh(0.005).volume for solid in wall.solids) * 8.53 / 1000
    assert meshed == pytest.approx(by_hand, rel=1e-3)
    assert whole.fits
    assert not plan.fits


def test_nothing_is_heated_or_pickled_after_the_pin_is_riveted():
    plan = planned()
    order = [step.id for step in plan.steps]
    after = plan.steps[order.index("rivet_pin") + 1 :]
    assert after
    assert all(step.kind not in ("solder", "clean") for step in after)
    assert order.index("solder_plates") < order.index("tack")
    named = {part.id for part in plan.parts}
    assert all(set(joint.parts) <= named for joint in plan.piece.joints)


def test_a_hinge_goes_on_a_polygon_too():
    plan = planned(sizes__outline={"shape": "polygon", "sides": 4, "across_flats": "44 mm"})
    assert {"outer_knuckle", "inner_knuckle", "hinge_pin"} <= {part.id for part in plan.parts}


WRONG = [
    ({"sizes__outline": {"shape": "circle", "diameter": "50 mm"}}, "sizes.lid", "straight side"),
    ({"sizes__hinge__width": "53 mm"}, "sizes.hinge.width", "47.00 mm"),
    ({"sizes__hinge__width": None}, "sizes.hinge.width", "a hinge needs it"),
    ({"sizes__hinge__knuckles": 4}, "sizes.hinge.knuckles", "even"),
    ({"stock__hinge_pin": None}, "stock.hinge_pin", "a hinge needs it"),
    ({"stock__hinge_tube__outside_diameter": "1.6"}, "stock.hinge_pin", "doesn't go into a bore"),
]


@pytest.mark.parametrize(("changes", "field", "told"), WRONG)
def test_what_cannot_carry_a_hinge_is_refused(changes, field, told):
    with pytest.raises(InputError, match=told) as fault:
        planned(**changes)
    assert fault.value.field.startswith(field)


def text(plan, id):
    return next(step.text for step in plan.steps if step.id == id)


def test_the_rims_meet_because_a_notch_is_sawn_first():
    """Its depth at the inner face, by Pythagoras: from the pin's middle to the tube's skin."""
    plan = planned()
    deep = math.sqrt((3.045 / 2) ** 2 - 0.915**2)
    told = text(plan, "file_seats")
    assert f"saw a notch of that width and {deep:.2f} mm deep into each" in told
    assert "without the wall's seam" in told
    assert "box's outer ones" in told
    assert "where the pin goes in" in told


def test_walls_beyond_the_hinge_stand_in_the_pin_s_way():
    assert "pin_way_in" in {each.id for each in planned().cautions}
    straight = 61 - 2 * 7  # the outline's long side less its corners
    wide = planned(sizes__hinge__width=f"{straight - 0.4}")
    assert "pin_way_in" not in {each.id for each in wide.cautions}


def test_a_box_s_knuckles_are_held_by_easy_solder_and_called_by_their_walls():
    plan = planned()
    for id in ("tack", "solder_leaves"):
        assert "easy solder, the hard seams near it painted" in text(plan, id)
    for step in plan.steps:
        assert "outer leaf" not in step.text
