"""Every design: its examples run, every field moves something, blanks agree with their numbers."""

from __future__ import annotations

import copy
import dataclasses
import json
import math
import tomllib
from typing import Any

import pytest

from hollowright.designs import Design, Field, design, designs
from hollowright.errors import HollowrightError, UnknownName
from hollowright.job.job import plan_tables, read_tables
from hollowright.output.data import plan_data
from hollowright.plan.plan import Plan

EXAMPLES = [
    pytest.param(each, example, id=f"{each.id}: {example.name}")
    for each in designs()
    for example in each.examples
]
FIELDS = [
    pytest.param(each, f, id=f"{each.id}: {f.path}") for each in designs() for f in each.fields
]
OTHER = {"metal": "C11000", "share": "0.41", "count": "0"}


def changed(tables: dict[str, Any], path: str, value: Any) -> dict[str, Any]:
    made = copy.deepcopy(tables)
    *above, last = path.split(".")
    table = made
    for name in above:
        table = table.setdefault(name, {})
    table[last] = value
    return made


def example_plan(each: Design) -> tuple[dict[str, Any], Plan]:
    tables = read_tables(each.examples[0].text)
    return tables, plan_tables(tables)


@pytest.mark.parametrize(("each", "example"), EXAMPLES)
def test_example_plans_with_the_expected_numbers(each: Design, example: Any) -> None:
    plan = plan_tables(read_tables(example.text))
    assert example.expected
    assert example.source
    for id, number in example.expected.items():
        assert plan.quantities[id].value == pytest.approx(number, abs=example.tolerance), id


def other_values(field: Field, plan: Plan) -> list[Any]:
    """Values to try in a field, each unlike what it held."""
    if field.kind == "choice":
        return list(field.choices)
    if field.kind in ("metal", "share", "count"):
        return [OTHER[field.kind]]
    now = plan.quantities.get(field.name.removeprefix("built_"))
    middle = now.value if now else 0.06
    return [f"{middle * factor + shift:.3f}" for factor, shift in ((1.01, 0), (0.99, 0), (1, 0.02))]


def prints(plan: Plan) -> str:
    """All that a plan says."""
    return json.dumps(plan_data(plan), sort_keys=True)


@pytest.mark.parametrize(("each", "field"), FIELDS)
def test_every_field_moves_something(each: Design, field: Field) -> None:
    tables, plan = example_plan(each)
    tries = other_values(field, plan)
    if field.name == "clearance":  # instead of the feel
        del tables["sizes"]["fit"]
        plan = plan_tables(tables)
    if field.name == "tube_length":  # it only refuses
        with pytest.raises(HollowrightError, match="too short"):
            plan_tables(changed(tables, field.path, "40 mm"))
        return
    if field.name == "neutral_line":  # DIN 6935 is the middle for a thin ring
        tries = ["soft"]
    found = set()
    for value in tries:
        try:
            found.add(prints(plan_tables(changed(tables, field.path, value))))
        except HollowrightError:
            continue
    assert found - {prints(plan)}, "nothing moved"


@pytest.mark.parametrize(("each", "field"), FIELDS)
def test_every_field_is_told(each: Design, field: Field) -> None:
    assert field.label
    assert field.example
    assert field.low < field.high
    assert field.path == field.path.lower()
    assert len(field.path.split(".")) >= 2
    if field.default and field.kind == "choice":
        assert field.default in field.choices


@pytest.mark.parametrize(("each", "field"), FIELDS)
def test_nonsense_in_a_field_names_it(each: Design, field: Field) -> None:
    tables, _ = example_plan(each)
    for nonsense in ("tall", {"a": 1}, [[]], ["x"], math.nan, True, "9" * 5000, -5, "1,5"):
        with pytest.raises(HollowrightError) as told:
            plan_tables(changed(tables, field.path, nonsense))
        assert told.value.field.startswith(field.path), nonsense
        assert told.value.exit_code == 2


@pytest.mark.parametrize(("each", "example"), EXAMPLES)
@pytest.mark.parametrize("caps", ["on-end", "let-in"])
def test_blanks_agree_with_their_numbers(each: Design, example: Any, caps: str) -> None:
    plan = plan_tables(changed(read_tables(example.text), "sizes.caps", caps))
    assert len(plan.parts) >= 4
    for part in plan.parts:
        for outline, sizes in (
            (part.blank.outline, part.blank.sizes),
            (plan.cuts[part.id].outline, plan.cuts[part.id].sizes),
        ):
            box = sorted((outline.width, outline.height))
            numbers = {name: size.value for name, size in sizes.items()}
            if part.blank.form == "disc":
                assert box == pytest.approx([numbers["diameter"]] * 2)
                assert outline.area == pytest.approx(math.pi / 4 * numbers["diameter"] ** 2)
            else:
                assert box == pytest.approx(sorted(numbers.values()))
                assert outline.area == pytest.approx(math.prod(numbers.values()))
        assert plan.cuts[part.id].outline.area >= part.blank.outline.area - 1e-9
        assert all(size.value > 0 for size in part.blank.sizes.values())


@pytest.mark.parametrize(("each", "example"), EXAMPLES)
def test_weights_are_the_solids(each: Design, example: Any) -> None:
    """Each part's mass against its drawn body: section times the way of its centroid (Pappus)."""
    plan = plan_tables(read_tables(example.text))
    total = 0.0
    for part in plan.parts:
        metal = plan.piece.stock(part.stock).metal
        for solid in part.solids:
            by_solid = pappus(solid.body.profile) * metal.density.value / 1000
            # A strip's mass by its mid-line is exact; only its seam's dressing is left out.
            assert part.mass.value == pytest.approx(by_solid, rel=1e-6), part.id
            total += by_solid
    assert plan.mass.value == pytest.approx(total, rel=1e-6)


def pappus(profile: Any) -> float:
    """Volume [mm3] of a profile of (radius, height) turned once, by the shoelace sum."""
    pairs = zip(profile, (*profile[1:], profile[0]), strict=True)
    return abs(math.pi / 3 * sum((r1 + r2) * (r1 * z2 - r2 * z1) for (r1, z1), (r2, z2) in pairs))


@pytest.mark.parametrize(("each", "example"), EXAMPLES)
def test_steps_can_be_followed(each: Design, example: Any) -> None:
    plan = plan_tables(read_tables(example.text))
    assert [step.number for step in plan.steps] == list(range(1, len(plan.steps) + 1))
    waited = {work.id: work.after for work in plan.piece.work}
    place = {step.id: step.number for step in plan.steps}
    for step in plan.steps:
        assert "{" not in step.text
        assert set(step.marks) <= set(plan.quantities)
        assert all(place[before] < step.number for before in waited[step.id])
        for id in step.marks:  # a number to mark is said, or is the quantity read there
            assert plan.quantities[id].unit == "mm"
    built = {f.path.removeprefix("as_built.") for f in each.fields if f.group == "as_built"}
    read = {id for step in plan.steps for id in step.reads}
    assert built <= read, f"no step reads {built - read}"


@pytest.mark.parametrize(("each", "example"), EXAMPLES)
def test_every_number_shows_its_working(each: Design, example: Any) -> None:
    plan = plan_tables(read_tables(example.text))
    for id, quantity in plan_data(plan)["quantities"].items():
        assert quantity["working"].startswith(quantity["label"]), id
        assert " = " in quantity["working"], id
        asked = plan.quantities[id].kind == "asked"
        assert asked or quantity["source"], f"{id} has no source"
        assert math.isfinite(quantity["value"])
        assert quantity["uncertainty"] >= 0
        assert id == id.lower()


def test_unknown_design() -> None:
    with pytest.raises(UnknownName, match="Did you mean tube-box"):
        design("tubebox")
    with pytest.raises(UnknownName):
        design(["tube-box"])
    assert len({each.id for each in designs()}) == len(designs())


def test_frozen() -> None:
    with pytest.raises(dataclasses.FrozenInstanceError):
        designs()[0].id = "other"
    assert tomllib.loads(designs()[0].examples[0].text)["design"] == designs()[0].id
