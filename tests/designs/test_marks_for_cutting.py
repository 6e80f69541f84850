"""What a design says of how its blanks had better come out of the metal: grain, square ends."""

from __future__ import annotations

import json

import pytest

from hollowright.designs import design, designs
from hollowright.designs.composed import EXAMPLE as CAN
from hollowright.errors import PlanRefused, Problems
from hollowright.job.job import plan_tables, read_tables
from hollowright.job.piece_json import piece_data, read_piece
from hollowright.piece import TEMPERS

EXAMPLES = [
    pytest.param(example.text, id=f"{each.id}: {example.name}")
    for each in designs()
    for example in each.examples
]
CYLINDER_WITH_A_SLANT = """design = "cone"
[stock.sheet]
metal = "C26000"
thickness = "0.8 mm"
[sizes]
base_diameter = "40 mm"
top_diameter = "40 mm"
height = "50 mm"
cut_angle = "20"
cut_height = "30 mm"
"""


def parts_of(text, **changes):
    tables = read_tables(text)
    for path, value in changes.items():
        table, key = path.split("__")
        tables.setdefault("stock", {})[table][key] = value
    return {part.id: part for part in plan_tables(tables).parts}


@pytest.mark.parametrize("text", EXAMPLES)
def test_strips_that_are_bent_round_have_their_grain_along_them(text):
    for part in parts_of(text).values():
        if part.blank.closes:
            assert part.blank.grain == 0.0
            along = part.blank.sizes["length"].value
            assert part.blank.outline.width == pytest.approx(along, abs=1e-9)
        elif part.blank.form == "disc":
            assert part.blank.grain is None


def test_a_wall_with_a_slanting_edge_is_bent_across_the_grain_as_well():
    (cone,) = parts_of(CYLINDER_WITH_A_SLANT).values()
    assert cone.blank.form == "plate"
    assert cone.blank.grain == 0.0
    assert cone.blank.outline.width == pytest.approx(cone.blank.sizes["length"].value, abs=1e-9)


@pytest.mark.parametrize("text", EXAMPLES)
def test_only_bars_have_square_ends_and_neighbours(text):
    parts = parts_of(text)
    for part in parts.values():
        assert 0 <= part.blank.square_ends <= (0 if part.blank.flat else 2)
        if part.blank.meets:
            assert parts[part.blank.meets].stock == part.stock


ROUND = ["38.05", "38.05", "38.05"]
OVAL = ["38.05", "38.40", "38.02"]


def test_halves_of_a_round_tube_each_have_a_square_end_and_no_neighbour():
    parts = parts_of(design("tube-box").examples[0].text, tube__outside_diameter=ROUND)
    assert [parts[id].blank.square_ends for id in ("lid", "body")] == [1, 1]
    assert [parts[id].blank.meets for id in ("lid", "body")] == ["", ""]


def test_halves_of_an_oval_tube_are_sawn_side_by_side():
    parts = parts_of(design("tube-box").examples[0].text, tube__outside_diameter=OVAL)
    assert [parts[id].blank.square_ends for id in ("lid", "body")] == [1, 1]
    assert [parts[id].blank.meets for id in ("lid", "body")] == ["body", ""]


def test_in_a_piece_of_several_designs_the_neighbour_has_its_parts_name():
    tables = read_tables(CAN.text)
    tables["parts"]["body"]["stock"]["tube"]["outside_diameter"] = OVAL
    parts = {part.id: part for part in plan_tables(tables).parts}
    assert parts["body_lid"].blank.meets == "body_body"
    assert parts["spout_branch"].blank.square_ends == 1


def test_the_marks_are_kept_in_a_piece_written_as_json():
    tables = read_tables(design("tube-box").examples[0].text)
    tables["stock"]["tube"]["outside_diameter"] = OVAL
    tables["stock"]["ring_sheet"]["temper"] = "half-hard"
    piece = plan_tables(tables).piece
    again = read_piece(json.loads(json.dumps(piece_data(piece))))

    def marks(piece):
        blanks = [part.blank for part in piece.parts]
        found = [(each.grain, each.square_ends, each.meets) for each in blanks]
        return found + [stock.temper for stock in piece.stocks]

    assert marks(again) == marks(piece)
    assert (None, 1, "body") in marks(again)
    assert "half-hard" in marks(again)
    assert (0.0, 0, "") in marks(again)


STOCKS = [
    pytest.param(each, field.path, id=f"{each.id}: {field.path}")
    for each in designs()
    for field in each.fields
    if field.group.startswith("stock.") and field.kind == "metal"
]


@pytest.mark.parametrize(("each", "path"), STOCKS)
def test_every_stock_may_say_its_temper_and_how_much_lies_there(each, path):
    group = path.rpartition(".")[0]
    kinds = {field.path: field for field in each.fields if field.group == group}
    assert kinds[f"{group}.temper"].choices == TEMPERS
    assert not kinds[f"{group}.temper"].required
    assert f"{group}.length" in kinds
    sheet = f"{group}.thickness" in kinds
    assert (f"{group}.width" in kinds) == sheet


def planned(stock, word):
    tables = read_tables(design("tube-box").examples[0].text)
    tables["stock"][stock]["temper"] = word
    return plan_tables(tables)


@pytest.mark.parametrize("stock", ["tube", "ring_sheet", "cap_sheet"])
@pytest.mark.parametrize("word", TEMPERS)
def test_what_is_shaped_from_metal_that_is_not_soft_is_annealed_first(stock, word):
    plan = planned(stock, word)
    assert plan.piece.stock(stock).temper == word
    assert any(f": {word}, " in note for note in plan.notes)
    said = [caution for caution in plan.cautions if caution.id.endswith("_not_soft")]
    bent = stock == "ring_sheet" and word != "annealed"
    assert [caution.about for caution in said] == ([stock] if bent else [])
    assert all(word in caution.text and "Anneal" in caution.text for caution in said)


def test_a_temper_that_is_not_sold_is_refused_by_name():
    with pytest.raises(Problems, match=r"stock\.tube\.temper.*half-hard"):
        planned("tube", "half-hart")


@pytest.mark.parametrize("stock", ["ring_sheet", "cap_sheet"])
def test_a_box_from_tube_knows_how_much_sheet_lies_there(stock):
    tables = read_tables(design("tube-box").examples[0].text)
    tables["stock"][stock] |= {"length": "120 mm", "width": "70 mm"}
    lies = plan_tables(tables).piece.stock(stock)
    assert (lies.length.value, lies.width.value) == (120.0, 70.0)
    tables["stock"][stock]["width"] = "9 mm"
    with pytest.raises(PlanRefused, match=f"stock.{stock}.length"):
        plan_tables(tables)
