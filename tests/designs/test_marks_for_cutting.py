"""What a design says of how its blanks had better come out of the metal: grain, square ends."""

from __future__ import annotations

import json

import pytest

from hollowright.designs import design, designs
from hollowright.designs.composed import EXAMPLE as CAN
from hollowright.job.job import plan_tables, read_tables
from hollowright.job.piece_json import piece_data, read_piece

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
    piece = plan_tables(tables).piece
    again = read_piece(json.loads(json.dumps(piece_data(piece))))

    def marks(piece):
        blanks = [part.blank for part in piece.parts]
        found = [(each.grain, each.square_ends, each.meets) for each in blanks]
        return found + [stock.temper for stock in piece.stocks]

    assert marks(again) == marks(piece)
    assert (None, 1, "body") in marks(again)
    assert (0.0, 0, "") in marks(again)
