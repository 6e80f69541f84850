"""Settings for stones: round and oval agree, parallels, as built, refusals, slips."""

import copy
import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hollowright.designs import design
from hollowright.errors import HollowrightError
from hollowright.job.job import plan_tables, read_tables
from hollowright.plan.plan import Plan
from hollowright.plan.slips import check
from hollowright.shapes.extruded import Extruded

OVAL, ROUND = design("setting-cup").examples


def plan(example: Any = OVAL, built: list[str] | None = None, **sizes: Any) -> Plan:
    made = copy.deepcopy(read_tables(example.text))
    made["sizes"] = {k: v for k, v in (made["sizes"] | sizes).items() if v is not None}
    made["stock"]["sheet"].update(length="400 mm", width="60 mm")
    if built:
        made["as_built"] = {"strip_length": built}
    return plan_tables(made)


def value(made: Plan, id: str) -> float:
    return made.quantities[id].value


def test_a_round_stone_s_strip_by_hand() -> None:
    made = plan(stone_length="9.37", stone_width=None)
    # pi x (stone + room + thickness), the sheet 1.25 / 3.
    assert value(made, "strip_length") == pytest.approx(math.pi * (9.37 + 0.1 + 1.25 / 3))
    assert value(made, "seat_length") == pytest.approx(math.pi * (9.37 + 0.1 - 1.25 / 3))


@given(st.floats(3, 30))
def test_an_oval_as_wide_as_long_is_round(size: float) -> None:
    round_one = plan(stone_length=f"{size:.4f}", stone_width=None, base="plate")
    oval = plan(stone_length=f"{size:.4f}", stone_width=f"{size:.4f}", base="plate")
    for id in ("strip_length", "seat_length", "girdle", "mass", "outside_length"):
        assert value(round_one, id) == pytest.approx(value(oval, id), rel=1e-9), id


@given(st.floats(6, 30), st.floats(0.55, 1.0))
def test_the_strips_are_the_drawn_walls_mid_lines(length: float, share: float) -> None:
    """A wall's area over its thickness is its mid line, measured on the drawn outline."""
    made = plan(stone_length=f"{length:.3f}", stone_width=f"{length * share:.3f}", base="plate")
    thickness = value(made, "sheet_thickness")
    for part in made.piece.parts[:2]:
        (solid,) = part.solids
        assert isinstance(solid.body, Extruded)
        mid = solid.body.outline.area / thickness
        assert mid == pytest.approx(part.blank.sizes["length"].value, rel=2e-5)


def test_the_stone_rests_on_the_seat() -> None:
    made = plan(room="0.9 mm")
    assert value(made, "seat_width") == pytest.approx(3.4 + 0.9)
    assert value(made, "strip_width") - value(made, "seat_width") == pytest.approx(1.15)
    assert value(made, "ledge") == pytest.approx(1.25 / 3 - 0.05)


def test_a_strip_that_met_long_moves_seat_and_ledge() -> None:
    made, read = plan(), plan(built=["30.71", "30.73"])
    longer = 30.72 - value(made, "strip_length")
    assert value(read, "seat_length") - value(made, "seat_length") == pytest.approx(longer)
    ledge = value(made, "ledge") - longer / math.pi / 2
    assert value(read, "ledge") == pytest.approx(ledge)
    assert value(read, "setting_cut_length") == value(made, "setting_cut_length")


def test_the_base_is_a_plate_or_a_disc() -> None:
    assert [part.id for part in plan().piece.parts] == ["setting", "seat"]
    assert plan(base="plate").piece.parts[2].blank.form == "plate"
    assert plan(ROUND).piece.parts[2].blank.form == "disc"


def test_the_stone_is_set_last_and_never_heated() -> None:
    for base in ("open", "plate"):
        steps = plan(base=base).steps
        assert steps[-1].id == "set"
        assert "stone" in {caution.id for caution in steps[-1].cautions}
        assert all(step.kind != "solder" or step.number < len(steps) for step in steps)


@pytest.mark.parametrize(
    ("sizes", "built", "field", "told"),
    [
        ({"depth": "0 mm", "room": "0.2 mm"}, None, "sizes.room", "seat"),
        ({"stone_width": "3.1"}, None, "sizes.stone_width", "too pointed"),
        ({}, ["29.7"], "as_built.strip_length", "doesn't go in"),
        ({}, ["33.7"], "stock.sheet.thickness", "ledge"),
        ({"stone_length": None}, None, "sizes.stone_length", "missing"),
    ],
)
def test_refusals(sizes: dict[str, Any], built: list[str] | None, field: str, told: str) -> None:
    with pytest.raises(HollowrightError, match=told) as error:
        plan(built=built, **sizes)
    assert error.value.field == field


@pytest.mark.parametrize(
    ("id", "figure", "slip"),
    [
        ("strip_length", "29.17", "the thickness forgotten"),
        ("strip_length", "30.16", "the room round the stone forgotten"),
        ("strip_length", "31.79", "the thickness added twice"),
        ("seat_length", "29.17", "the thickness taken off once"),
        ("strip_width", "3.90", "what goes over the girdle forgotten"),
        ("girdle", "28.76", "pi times the mean of length and width taken"),
    ],
)
def test_slips_are_found(id: str, figure: str, slip: str) -> None:
    answer = check(plan(), id, figure)
    assert not answer.agrees
    assert slip in " ".join(each.text for each in answer.slips)


def text(made: Plan, id: str) -> str:
    return next(step.text for step in made.steps if step.id == id)


def test_a_sloping_stone_s_ledge_is_cut_to_it_before_it_is_set() -> None:
    for base in ("open", "plate"):
        order = [step.id for step in plan(base=base).steps]
        heat = max(i for i, step in enumerate(plan(base=base).steps) if step.kind == "solder")
        assert heat < order.index("bearing") < order.index("set")
    assert "1.15 mm under the setting's upper edge" in text(plan(), "bearing")


def test_a_cabochon_has_no_depth_and_no_bearing() -> None:
    made = plan(ROUND)
    assert "bearing" not in {step.id for step in made.steps}
    assert "0.00 mm" not in text(made, "measure")
    assert "3.40 mm under the girdle" in text(plan(), "measure")


def test_later_heats_have_their_guards_and_the_hole_its_size() -> None:
    made = plan(ROUND)
    for id in ("seat", "base"):
        assert "yellow ochre" in text(made, id)
    assert "drill 1.50 mm (0.059 in) through its middle" in text(made, "base")
