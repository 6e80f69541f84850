"""Every design: its examples run, every field moves something, blanks agree with their numbers."""

from __future__ import annotations

import copy
import dataclasses
import json
import math
import re
import tomllib
from collections.abc import Mapping
from typing import Any

import pytest

from hollowright.designs import Design, Field, design, designs
from hollowright.errors import HollowrightError, UnknownName
from hollowright.job.job import plan_tables, read_tables
from hollowright.output.data import plan_data
from hollowright.plan.plan import Plan
from hollowright.quantity import Quantity
from hollowright.shapes.extruded import Extruded
from hollowright.shapes.outline import Outline
from hollowright.shapes.plated import Plated
from hollowright.shapes.solids import Turned

EXAMPLES = [
    pytest.param(each, example, id=f"{each.id}: {example.name}")
    for each in designs()
    for example in each.examples
]
FIELDS = [
    pytest.param(each, f, id=f"{each.id}: {f.path}") for each in designs() for f in each.fields
]
SQUARE = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="47mm" height="39mm" viewBox="0 0 47 39">'
    '<path d="M0 0H47V39H0Z"/></svg>'
)
CLOSED_FORMS = (Turned, Extruded, Plated)
OTHER = {
    "metal": ["C11000"],
    "share": ["0.41"],
    "count": ["0", "3", "5", "4", "6"],
    "number": ["0.37", "1.3"],
    "text": ["UK N", "US 9"],
    "points": ["0 0; 17.3 0; 22.9 31.7", "0 0; 12.1 0; 15.2 40.3", "33 12; 26 11; 21 9"],
    "drawing": [SQUARE],
}
"""Values to try by the kind of field, where no number of the plan says what is near."""


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
    if field.kind in OTHER:
        return list(OTHER[field.kind])
    now = plan.quantities.get(field.name.removeprefix("built_"))
    middle = now.value if now else _number_in(field.example)
    factors = ((1.01, 0), (0.99, 0), (1, 0.02), (0.7, 0), (1.4, 0), (0.2, 0))
    return [f"{middle * factor + shift:.3f}" for factor, shift in factors]


def _number_in(text: str) -> float:
    found = re.search(r"[0-9]+(?:\.[0-9]+)?", text)
    return float(found[0]) if found else 0.06


def prints(plan: Plan) -> str:
    """All that a plan says."""
    return json.dumps(plan_data(plan), sort_keys=True)


@pytest.mark.parametrize(("each", "field"), FIELDS)
def test_every_field_moves_something(each: Design, field: Field) -> None:
    """In one of the design's examples, or where a choice that asks for the field is taken."""
    assert any(moves(each, field, tables) for tables in bases(each, field)), "nothing moved"


def bases(each: Design, field: Field) -> list[dict[str, Any]]:
    """Piece files to change a field in: the examples, and these with every choice taken."""
    examples = [read_tables(example.text) for example in each.examples]
    if field.name == "clearance":  # instead of the feel
        for tables in examples:
            tables["sizes"].pop("fit", None)
    choices = [f for f in each.fields if f.kind == "choice" and f is not field]
    return examples + [
        changed(tables, other.path, word)
        for tables in examples
        for other in choices
        for word in other.choices
    ]


def moves(each: Design, field: Field, tables: dict[str, Any]) -> bool:
    """Whether some value of the field changes what the plan says, or refuses for lack of metal."""
    plan = plan_or_none(tables)
    if plan is None:
        return False
    before = prints(plan)
    if field.group.startswith("stock.") and field.path.endswith(("length", "width")):
        return refuses(changed(tables, field.path, f"{max(field.low, 5.0)} mm"), field)
    tries = ["soft"] if field.name == "neutral_line" else other_values(field, plan)
    others = (plan_or_none(changed(tables, field.path, value)) for value in tries)
    return any(prints(other) != before for other in others if other is not None)


def refuses(tables: dict[str, Any], field: Field) -> bool:
    """Whether metal too small for the piece is refused by the name of its stock."""
    if field.path.endswith("width") or field.path.endswith("sheet.length"):
        stock = tables["stock"][field.path.split(".")[1]]
        stock.setdefault("length", "3000 mm")
        stock.setdefault("width", "3000 mm")
    try:
        plan_tables(tables)
    except HollowrightError as fault:
        return fault.field.startswith(field.group)
    return False


def plan_or_none(tables: dict[str, Any]) -> Plan | None:
    try:
        return plan_tables(tables)
    except HollowrightError:
        return None


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
    for nonsense in ("taller!", {"a": 1}, [[]], ["x"], math.nan, True, "9" * 5000, -5, "1,5"):
        if field.kind == "text" and nonsense in (-5, "1,5", "taller!"):
            continue  # the design says what it takes
        if nonsense == -5 and field.signed and field.low <= -5:
            continue  # minus tells a side
        with pytest.raises(HollowrightError) as told:
            plan_tables(changed(tables, field.path, nonsense))
        assert told.value.field.startswith(field.path), nonsense
        assert told.value.exit_code == 2


def variants(each: Design) -> list[Plan]:
    """Every example, and each with every choice taken where that can be made."""
    examples = [read_tables(example.text) for example in each.examples]
    choices = [field for field in each.fields if field.kind == "choice"]
    tried = examples + [
        changed(tables, field.path, word)
        for tables in examples
        for field in choices
        for word in field.choices
    ]
    return [plan for plan in map(plan_or_none, tried) if plan is not None]


@pytest.mark.parametrize("each", designs(), ids=lambda each: each.id)
def test_blanks_agree_with_their_numbers(each: Design) -> None:
    for plan in variants(each):
        for part in plan.parts:
            agrees(part.blank.form, part.blank.outline, part.blank.sizes)
            cut = plan.cuts[part.id]
            agrees(part.blank.form, cut.outline, cut.sizes)
            assert cut.outline.area >= part.blank.outline.area - 1e-9
            sizes = part.blank.sizes.values()
            assert all(size.value > 0 for size in sizes if size.unit == "mm"), part.id


def agrees(form: str, outline: Outline, sizes: Mapping[str, Quantity]) -> None:
    """A blank's outline measures what its sizes say."""
    numbers = {name: size.value for name, size in sizes.items()}
    if form == "disc":
        assert (outline.width, outline.height) == pytest.approx((numbers["diameter"],) * 2)
        assert outline.area == pytest.approx(math.pi / 4 * numbers["diameter"] ** 2)
    elif form == "plate":
        if "length" in numbers:
            assert outline.width == pytest.approx(numbers["length"], rel=1e-6, abs=1e-3)
        if "width" in numbers:
            assert outline.height == pytest.approx(numbers["width"], rel=1e-6, abs=1e-3)
        if "diameter" in numbers:
            assert outline.width == pytest.approx(numbers["diameter"], rel=1e-6, abs=1e-3)
    else:
        box = sorted((outline.width, outline.height))
        assert box == pytest.approx(sorted(numbers.values()))
        assert outline.area == pytest.approx(math.prod(numbers.values()))


@pytest.mark.parametrize("each", designs(), ids=lambda each: each.id)
def test_weights_are_the_solids(each: Design) -> None:
    """Each part's mass against its drawn body.

    Both closed forms in the examples: to 1e-6. Bodies that are meshes: within a fifth of a percent.
    Elsewhere a neutral line off the middle makes a strip up to 2 % longer than the body's middle.
    """
    examples = len(each.examples)
    for number, plan in enumerate(variants(each)):
        for part in plan.parts:
            metal = plan.piece.stock(part.stock).metal
            weights = [solid.body.volume * metal.density.value / 1000 for solid in part.solids]
            assert weights, f"{part.id} is not drawn"
            exact = all(isinstance(solid.body, CLOSED_FORMS) for solid in part.solids)
            within = 0.02 if number >= examples else 1e-6 if exact else 2e-3
            assert sum(weights) == pytest.approx(part.count * part.mass.value, rel=within), part.id
        whole = sum(part.count * part.mass.value for part in plan.parts)
        assert plan.mass.value == pytest.approx(whole, rel=1e-9)


@pytest.mark.parametrize(("each", "example"), EXAMPLES)
def test_the_meshes_are_closed_and_weigh_as_much(each: Design, example: Any) -> None:
    """Every solid's mesh, by a mesh library: watertight, its volume the body's within 1 %."""
    import trimesh

    plan = plan_tables(read_tables(example.text))
    for part in plan.parts:
        for solid in part.solids:
            mesh = solid.body.mesh(0.01)
            made = trimesh.Trimesh(mesh.vertices, mesh.triangles)
            assert made.is_watertight, f"{part.id} {solid.label}"
            assert made.volume == pytest.approx(solid.body.volume, rel=0.01), part.id


@pytest.mark.parametrize(("each", "example"), EXAMPLES)
def test_turned_bodies_weigh_as_pappus_says(each: Design, example: Any) -> None:
    """Section times the way of its centroid, for bodies of revolution."""
    plan = plan_tables(read_tables(example.text))
    for part in plan.parts:
        for solid in part.solids:
            if isinstance(solid.body, Turned):
                near = 1e-9 if solid.body.exact_volume is None else 1e-3  # a curve by short sides
                assert solid.body.volume == pytest.approx(pappus(solid.body.profile), rel=near)


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
        for id in step.marks:  # a number to mark is a length or an angle
            assert plan.quantities[id].unit in ("mm", "deg")
    built = {f.path.removeprefix("as_built.") for f in each.fields if f.group == "as_built"}
    plans = [plan_tables(read_tables(other.text)) for other in each.examples]
    read = {id for other in plans for step in other.steps for id in step.reads}
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
