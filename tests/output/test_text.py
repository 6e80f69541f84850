"""The plan as text: golden, with what must hold of it whatever it says."""

from __future__ import annotations

import re

import pytest

from hollowright.designs import designs
from hollowright.job.job import plan_tables, read_tables
from hollowright.output.text import percent, plan_text


def _sizes_and_masses_hold(plan):
    def holds(text: str) -> None:
        total = sum(part.mass.value * part.count for part in plan.parts)
        assert total == pytest.approx(plan.mass.value, rel=1e-9)
        decimals = 2 if plan.mass.value < 10 else 1
        assert f"{plan.mass.value:.{decimals}f} g" in text
        for part in plan.parts:
            for name, size in part.blank.to_cut.items():
                cut = plan.cuts[part.id].sizes[name].value
                shrinks = part.blank.grows.get(name, 0) < 0  # an inner radius
                assert size.value > 0
                assert 0 < cut <= size.value if shrinks else cut >= size.value
        assert not re.search(r"\{[a-z_]+\}", text), "a place was left empty"

    return holds


@pytest.mark.parametrize("design", designs(), ids=lambda design: design.id)
def test_the_example_as_text(design, golden):
    plan = plan_tables(read_tables(design.examples[0].text))
    text = plan_text(plan, with_working=True, with_steps=True)
    golden(f"{design.id}-plan.txt", text, _sizes_and_masses_hold(plan))


def test_odds_as_people_say_them():
    assert [percent(p) for p in (0.002, 0.078, 0.285, 0.9999)] == [
        "under 1 %",
        "8 %",
        "28 %",
        "over 99 %",
    ]
