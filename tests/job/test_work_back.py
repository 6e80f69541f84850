"""Working back: 'max' finds the largest size that the metal at hand allows, and what limits it.

The limits are worked by hand from the shop's truing (0.3) and kerf (0.3); common practice, no
source.
"""

from __future__ import annotations

import pytest

from hollowright.errors import InputError, PlanRefused
from hollowright.job.job import plan_tables


def test_a_box_as_high_as_its_tube_allows(tables):
    plan = plan_tables(tables(sizes__height="max", stock__tube__length="180 mm"))
    height = plan.quantities["height"].value
    # Lid and body are as long together as the box is high less two caps; read ovality makes them
    # neighbours or not: the ends to true and the cuts are counted from the plan's own sawing.
    need = plan.quantities["tube_needed"].value
    assert need <= 180 < need + 0.0101
    sawn = sum(part.blank.sawn_ends for part in plan.parts if part.blank.form == "tube")
    cuts = plan.piece.stock("tube").cuts
    by_hand = 180 - 0.3 * sawn - 0.3 * cuts + 2 * 0.705
    assert height == pytest.approx(by_hand, abs=0.0101)
    assert height <= by_hand + 1e-9


def test_it_says_what_limits_it(tables):
    plan = plan_tables(tables(sizes__height="max", stock__tube__length="180 mm"))
    told = plan.cautions[0].text
    assert told.startswith("The height is the largest that the metal at hand allows")
    assert "the tube is 180.00 mm" in told
    assert "stock.tube.length" in told
    working = plan.quantities["height"].told
    assert working == "height = the largest that the metal at hand allows"


def test_a_hundredth_more_is_refused(tables):
    plan = plan_tables(tables(sizes__height="max", stock__tube__length="211.3 mm"))
    more = plan.quantities["height"].value + 0.01
    with pytest.raises(PlanRefused, match="too short"):
        plan_tables(tables(sizes__height=f"{more:.2f} mm", stock__tube__length="211.3 mm"))


def test_any_one_size(tables):
    plan = plan_tables(tables(sizes__ring_stand="MAX "))
    stand = plan.quantities["ring_stand"].value
    assert stand == pytest.approx(plan.quantities["body_depth"].value, abs=0.011)


def test_without_a_limit_it_asks_for_the_stock(tables):
    with pytest.raises(InputError, match=r"sizes.height: no metal at hand limits it"):
        plan_tables(tables(sizes__height="max", stock__tube__length=None))


def test_two_at_once_are_refused(tables):
    with pytest.raises(InputError, match="both to be the largest"):
        plan_tables(tables(sizes__height="max", sizes__ring_stand="max"))


@pytest.mark.parametrize("field", ["sizes__lid_share", "sizes__fit", "sizes__hieght"])
def test_only_lengths_are_worked_back(tables, field):
    with pytest.raises(InputError, match="works for a length alone"):
        plan_tables(tables(**{field: "max"}))


def test_where_no_size_can_be_made_the_reason_is_told(tables):
    with pytest.raises(InputError, match=r"stock.tube.metal: 'cheese' isn't known"):
        plan_tables(tables(sizes__height="max", stock__tube__metal="cheese"))
    with pytest.raises(PlanRefused, match="no size of it can be made"):
        plan_tables(tables(sizes__height="max", stock__tube__length="5 mm"))
