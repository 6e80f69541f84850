"""The slip finder: the right slip first, honestly nothing when nothing explains a figure.

The figures of the first test are common practice, no source: a tube of 24.42 with a wall of 1.22,
0.82 sheet, clearance 0. The others are worked by hand beside each.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from hollowright.errors import InputError, UnknownName
from hollowright.plan.plan import Plan
from hollowright.plan.slips import check

PlanOf = Callable[..., Plan]
PRACTICE = {
    "stock__tube__metal": "C12200",
    "stock__tube__outside_diameter": "24.42",
    "stock__tube__wall": "1.22",
    "stock__ring_sheet__thickness": "0.82",
    "sizes__fit": None,
    "sizes__clearance": "0 mm",
    "as_built__lid_depth": "13.4",
}


def test_common_practice_the_wall_once(plan_of: PlanOf) -> None:
    plan = plan_of(**PRACTICE)
    found = check(plan, "ring_length", "70.3")
    assert not found.agrees
    assert f"{found.planned:.2f}" == "66.48"
    assert found.slips[0].text == "the wall taken off once instead of twice"
    assert f"{found.slips[0].gives:.2f}" == "70.31"
    assert check(plan, "bore", "23.20").slips[0].text == "the wall taken off once instead of twice"
    assert check(plan, "ring_width", "15.4").agrees


# 38.05 outside, 1.01 wall, 36.03 bore; 0.645 sheet; gap 0.03: ring 36.00, length pi x 35.355.
OUTSIDE, WALL, SHEET = 38.05, 1.01, 0.645
RING = OUTSIDE - 2 * WALL - 0.03


@pytest.mark.parametrize(
    ("quantity", "figure", "slip"),
    [
        ("bore", OUTSIDE - WALL, "the wall taken off once instead of twice"),
        ("bore", OUTSIDE + 2 * WALL, "the wall added instead of taken off"),
        ("ring_length", math.pi * RING, "the thickness forgotten"),
        ("ring_length", math.pi * (RING - 2 * SHEET), "the thickness taken off twice"),
        ("ring_length", 3.14 * (RING - SHEET), "3.14 taken for pi"),
        ("ring_length", math.pi * (RING - SHEET) / 2, "the result halved (radius for diameter)"),
        ("ring_width", 45 * 0.3 - 0.705 - 2, "the stand taken off instead of added"),
        ("ring_width", 45 * 0.3 + 2, "the cap's thickness forgotten"),
        ("body_length", 45 * 0.3 - 0.705, "that is the lid depth, not the body length"),
        ("cap_cut_diameter", OUTSIDE + 1, "the rim to trim counted once"),
    ],
)
def test_the_right_slip_comes_first(
    plan_of: PlanOf, quantity: str, figure: float, slip: str
) -> None:
    found = check(plan_of(), quantity, f"{figure:.2f}")
    assert not found.agrees
    assert found.slips[0].text == slip
    assert found.slips[0].gives == pytest.approx(figure, abs=0.02)


def test_one_reading_misread_among_several(plan_of: PlanOf) -> None:
    # Of 38.05, 38.06, 38.04 the first read 38.50: the mean is 0.15 more.
    found = check(plan_of(), "bore", f"{OUTSIDE + 0.15 - 2 * WALL:.2f}")
    assert "outside diameter read 38.50 for 38.05 (digits swapped) in one reading" in [
        slip.text for slip in found.slips
    ]


def test_two_slips_together(plan_of: PlanOf) -> None:
    # The wall taken off once, and the sheet's thickness forgotten.
    figure = math.pi * (OUTSIDE - WALL - 0.03)
    found = check(plan_of(), "ring_length", f"{figure:.2f}")
    assert found.slips
    texts = [slip.text for slip in found.slips]
    both = "the thickness forgotten, and the wall taken off once instead of twice"
    swapped = "the wall taken off once instead of twice, and the thickness forgotten"
    assert both in texts or swapped in texts
    assert "No single slip" in found.note


def test_nothing_explains_and_it_says_so(plan_of: PlanOf) -> None:
    found = check(plan_of(), "ring_width", "98.7")
    assert found.slips == ()
    assert "No usual slip explains it" in found.note


def test_several_that_fit_are_counted(plan_of: PlanOf) -> None:
    found = check(plan_of(), "lid_length", "13.5")  # the cap forgotten; 13.5 is rough
    assert len(found.slips) > 1
    assert "slips explain it" in found.note


@pytest.mark.parametrize(
    ("quantity", "figure", "agrees"),
    [
        ("bore", "36.03", True),
        ("bore", "36.04", True),
        ("bore", "36.06", False),
        ("ring_length", "111.1", True),
        ("ring_length", "111", False),  # a whole number is too rough to agree
        ("clearance", "0.03", True),
        ("clearance", "0.02", False),
        ("lid_share", "3/10", True),
        ("lid_share", "1/3", False),
        ("bore", "1.4185 in", True),
        ("ring_thickness", "22 ga", True),
    ],
)
def test_how_near_agrees(plan_of: PlanOf, quantity: str, figure: str, agrees: bool) -> None:
    assert check(plan_of(), quantity, figure).agrees is agrees


def test_what_was_asked_is_not_explained(plan_of: PlanOf) -> None:
    assert "You asked for 45.00 mm yourself" in check(plan_of(), "height", "46").note
    assert "This shop's is 0.30 mm" in check(plan_of(), "kerf", "0.5").note


def test_words_for_what_cannot_be_checked(plan_of: PlanOf) -> None:
    with pytest.raises(UnknownName, match="Did you mean ring_length"):
        check(plan_of(), "rng_length", "3")
    with pytest.raises(InputError, match="value: 'some' isn't a length"):
        check(plan_of(), "bore", "some")
