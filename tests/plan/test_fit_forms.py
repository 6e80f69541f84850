"""The fit pass for forms that aren't round, that are folded, that go over: against Monte Carlo."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest

from hollowright.formulas import fit as law
from hollowright.job.job import plan_tables
from hollowright.plan.plan import Plan
from hollowright.quantity.montecarlo import simulate
from hollowright.shop import read_shop

DRAWS = 100_000
OVAL = {"shape": "oval", "length": "61.3", "width": "42.7"}
CIRCLE = {"shape": "circle", "diameter": "41.3"}
SHARP = {"shape": "rectangle", "length": "52.1", "width": "33.4"}
HEXAGON = {"shape": "polygon", "sides": 6, "across_flats": "43.9"}
CASES: dict[str, dict[str, Any]] = {
    "oval ring": {"outline": OVAL},
    "oval ring on another line": {"outline": OVAL, "neutral_line": "soft"},
    "oval ring, inside read": {"outline": OVAL, "as_built": {"body_inside_round": ["158.9"]}},
    "oval rim": {"outline": OVAL, "lid": "outer-rim"},
    "oval cap on another line": {"outline": OVAL, "lid": "cap", "neutral_line": "half-hard"},
    "round rim": {"outline": CIRCLE, "lid": "outer-rim"},
    "round cap, body read": {
        "outline": CIRCLE, "lid": "cap", "as_built": {"body_outside": ["41.33"]},
    },
    "hexagon ring": {"outline": HEXAGON},
    "hexagon rim, folded": {"outline": HEXAGON, "lid": "outer-rim", "corners": "scored"},
    "rectangle ring, folded": {"outline": SHARP, "corners": "scored"},
    "rectangle cap, folded": {"outline": SHARP, "lid": "cap", "corners": "scored"},
}  # fmt: skip
every = pytest.mark.parametrize("sizes", CASES.values(), ids=CASES)


def plan_of(sizes: dict[str, Any], shop: dict[str, Any] | None = None) -> Plan:
    sizes = {"height": "33", "lid_share": "0.31", "fit": "easy", **sizes}
    built = sizes.pop("as_built", {})
    tables = {
        "title": "Trial box",
        "design": "walled-box",
        "stock": {
            "wall_sheet": {"metal": "C26000", "thickness": ["0.97", "0.98"]},
            "plate_sheet": {"metal": "C26000", "thickness": ["0.83"]},
            "ring_sheet": {"metal": "C26000", "thickness": ["0.62"]},
        },
        "sizes": sizes,
        "as_built": built,
    }
    return plan_tables(tables, read_shop(shop) if shop else None)


@every
def test_odds_and_doubt_by_monte_carlo(sizes: dict[str, Any]) -> None:
    found = plan_of(sizes).fits[0]
    drawn = simulate([found.as_cut], DRAWS)[found.as_cut]
    low, high = found.fit.window
    # 100,000 draws: 0.15 %; rectangles instead of one normal law: 1 % more.
    assert found.odds == pytest.approx(float(((drawn >= low) & (drawn <= high)).mean()), abs=0.012)
    mended = drawn >= low if found.fit.over else drawn <= high
    assert found.odds_filed == pytest.approx(float(mended.mean()), abs=0.012)
    assert found.doubt == pytest.approx(float(np.std(drawn)), rel=0.01)


@every
def test_the_part_is_cut_on_the_side_that_is_mended(sizes: dict[str, Any]) -> None:
    """Too long is filed shorter: a ring then clears more, a rim or a cap less."""
    plan = plan_of(sizes)
    found = plan.fits[0]
    fit = found.fit
    extra = found.extra.value if found.extra else 0.0  # the body, as read, wants a larger ring
    off = found.as_cut.value - fit.target.value
    sign = 1 if fit.over else -1
    assert off * sign == pytest.approx(found.guard.value / fit.turn, rel=1e-6)
    net = plan.quantities[fit.length.id].value
    cut = plan.cuts[fit.part].sizes["length"].value
    assert cut == pytest.approx(net + found.guard.value + extra + 0.3, abs=1e-9)


@every
@pytest.mark.parametrize("risk", [0.03, 0.2])
def test_the_guard_keeps_the_risk(sizes: dict[str, Any], risk: float) -> None:
    found = plan_of(sizes, {"settings": {"guard_risk": risk}}).fits[0]
    if found.fit.seat is not None and found.fit.seat.uncertainty > found.fit.bore.uncertainty:
        return  # the guard is for the bore that is known worse
    target = found.fit.target.value
    wrong = (
        1 - law.odds_above(found.as_cut.value, found.doubt, target)
        if found.fit.over
        else 1 - law.odds_below(found.as_cut.value, found.doubt, target)
    )
    assert wrong == pytest.approx(risk, rel=1e-6)


def test_doubt_worked_by_hand() -> None:
    """A rim over an oval: two strips marked and sawn, two sheets read with one calliper.

    inside = (strip + errors) / pi - sheet; outside = (strip + errors) / pi + wall: the calliper's
    zero is in both sheets with one sign, the four errors of cutting are apart.
    """
    plan = plan_of({"outline": OVAL, "lid": "outer-rim"})
    found = plan.fits[0]
    sheets = plan.quantities["ring_thickness"] + plan.quantities["wall_sheet_thickness"]
    cutting = math.hypot(0.07, 0.07) / math.pi * math.sqrt(2)
    assert found.doubt == pytest.approx(math.hypot(sheets.uncertainty, cutting), rel=1e-9)


def test_advice_says_how_such_a_bore_is_read() -> None:
    texts = [each.text for each in plan_of({"outline": OVAL}).fits[0].advice]
    assert any("strip of paper" in text for text in texts)
    flats = [each.text for each in plan_of({"outline": HEXAGON}).fits[0].advice]
    assert any("flats" in text for text in flats)
