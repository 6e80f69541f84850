"""A tube's wall told by its gauge: which table, how far off it may be, and when it is refused."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from hollowright.designs import design
from hollowright.errors import InputError
from hollowright.job.job import plan_tables, read_tables
from hollowright.plan.slips import check
from hollowright.shop import read_shop

WALLS = (
    ("tube-box", "tube", "wall"),
    ("tube-mitre", "tube", "tube_wall"),
    ("tube-saddle", "branch", "branch_wall"),
)
walls = pytest.mark.parametrize(("id", "stock", "name"), WALLS, ids=[row[0] for row in WALLS])


def tables(id: str, stock: str, wall: Any) -> dict[str, Any]:
    """A design's first example with a tube's wall of its own."""
    made = copy.deepcopy(read_tables(design(id).examples[0].text))
    made["stock"][stock] |= {"outside_diameter": ["19.97", "20.03", "20.00"], "wall": wall}
    made["stock"][stock].pop("bore", None)
    return made


@walls
def test_a_wall_is_told_by_its_gauge(id: str, stock: str, name: str) -> None:
    """18 BWG is 0.049 in (published in test_birmingham_gauge), 18 B&S by its formula 0.0403 in."""
    for text, inches in (("18 bwg", 0.049), ("18 b&s", 0.040303), ("18 SWG", 0.048)):
        plan = plan_tables(tables(id, stock, text))
        wall = plan.quantities[name]
        assert wall.value == pytest.approx(inches * 25.4, rel=2e-5)
        # a tenth of the wall, evenly likely: its standard doubt is that over the root of three
        assert wall.uncertainty == pytest.approx(0.1 * wall.value / 3**0.5, rel=1e-9)


@walls
def test_a_gauge_without_its_table_is_asked_about(id: str, stock: str, name: str) -> None:
    for text in ("18 ga", "18 gauge"):
        with pytest.raises(InputError) as told:
            plan_tables(tables(id, stock, text))
        assert f"stock.{stock}.wall" in str(told.value)
        assert "18 b&s or 18 bwg" in str(told.value)


def test_flat_jaws_do_not_correct_a_wall_that_was_not_read() -> None:
    shop = read_shop({"calliper": {"jaw": 1.9}})
    gauged = plan_tables(tables("tube-box", "tube", "18 bwg"), shop).quantities["wall"]
    assert gauged.value == pytest.approx(1.2446)
    read = plan_tables(tables("tube-box", "tube", ["1.2446"]), shop).quantities["wall"]
    assert read.value < gauged.value


def test_a_checked_wall_may_be_a_gauge() -> None:
    plan = plan_tables(tables("tube-mitre", "tube", "18 bwg"))
    assert check(plan, "tube_wall", "18 bwg").agrees
