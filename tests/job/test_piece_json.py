"""A piece written as JSON and read back plans to the same plan, without its design."""

from __future__ import annotations

import json

import pytest

from hollowright.designs import design, designs
from hollowright.errors import InputError
from hollowright.job.job import plan_tables, read_tables
from hollowright.job.piece_json import piece_data, read_piece
from hollowright.output.data import plan_data
from hollowright.plan.make import make_plan
from hollowright.plan.slips import check

EXAMPLES = [
    pytest.param(example.text, id=f"{each.id}: {example.name}")
    for each in designs()
    for example in each.examples
]


@pytest.fixture
def plan():
    return plan_tables(read_tables(design("tube-box").examples[0].text))


@pytest.mark.parametrize("text", EXAMPLES)
def test_the_plan_is_the_same_to_the_digit(text):
    plan = plan_tables(read_tables(text))
    text = json.dumps(piece_data(plan.piece), allow_nan=False)
    again = make_plan(read_piece(json.loads(text)), plan.shop)
    assert json.dumps(plan_data(again)) == json.dumps(plan_data(plan))


def test_slips_are_found_in_a_piece_that_was_read_back(plan):
    again = make_plan(read_piece(json.loads(json.dumps(piece_data(plan.piece)))), plan.shop)
    outside, wall = 34.93333333, 0.915
    found = check(again, "bore", f"{outside - wall:.2f}")
    assert found.slips[0].text == "the wall taken off once instead of twice"


@pytest.mark.parametrize(
    "broken",
    [
        None,
        {},
        {"format": "hollowright-piece-1"},
        {"format": "hollowright-piece-1", "quantities": [{}], "piece": 1},
        {"format": "hollowright-piece-1", "quantities": [], "piece": {"is": "Stock"}},
    ],
)
def test_what_is_no_piece_is_refused(broken):
    with pytest.raises(InputError, match="piece"):
        read_piece(broken)


@pytest.mark.parametrize("place", ["os:system", "hollowright.job.job:read_text", "builtins:eval"])
def test_a_file_names_formulas_only(plan, place):
    data = piece_data(plan.piece)
    row = next(row for row in data["quantities"] if row["formula"])
    row["formula"] = place
    with pytest.raises(InputError, match="can't be read"):
        read_piece(data)
