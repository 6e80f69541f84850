"""What a step says of the blade: of tube or sheet, and of which part where it saws two."""

from __future__ import annotations

import pytest

from hollowright.designs import designs
from hollowright.errors import UnknownName
from hollowright.job.job import plan_tables, read_tables
from hollowright.plan.plan import Plan

EXAMPLES = [
    pytest.param(example.text, id=f"{each.id}: {example.name}")
    for each in designs()
    for example in each.examples
]


def hints(plan: Plan) -> list[tuple[set[str], str]]:
    """Of each step that saws: the stocks' forms, and what it says from the blade on."""
    about = {work.id: [plan.piece.stock(id) for id in work.about] for work in plan.piece.work}
    return [
        ({stock.form for stock in about[step.id]}, step.text)
        for step in plan.steps
        if step.kind in ("saw", "cut") and about[step.id]
    ]


@pytest.mark.parametrize("text", EXAMPLES)
def test_a_hint_about_tube_speaks_of_tube(text: str) -> None:
    for forms, told in hints(plan_tables(read_tables(text))):
        assert " teeth of a" in told
        if forms <= {"tube", "rod"}:
            assert "this sheet" not in told
            assert "thin sheet" not in told


def test_two_blades_are_told_apart() -> None:
    (text, *_) = [example.values[0] for example in EXAMPLES if example.id.startswith("tube-saddle")]
    plan = plan_tables(read_tables(text))
    both = [told for _, told in hints(plan) if told.count(" teeth of a") > 1]
    assert both
    for told in both:
        for id in ("main", "branch"):
            assert f"For the {plan.piece.stock(id).label}, blade" in told


def test_nothing_known_is_said_so() -> None:
    assert str(UnknownName("parts.a.joins", "b", ())).endswith("There is none yet: leave it out.")
