"""The fit pass: analytic against Monte Carlo, guard, odds, advice, filing."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from hollowright.formulas import fit as law
from hollowright.plan.plan import Plan
from hollowright.quantity.montecarlo import simulate

PlanOf = Callable[..., Plan]
DRAWS = 200_000

CASES = {
    "as measured": {},
    "bore read too": {"stock__tube__bore": ["36.02"]},
    "only the bore": {"stock__tube__wall": None, "stock__tube__bore": ["36.02", "36.04"]},
    "by gauge": {"stock__ring_sheet__thickness": "22 ga"},
    "soft line": {"sizes__neutral_line": "soft"},
    "caps let in": {"sizes__caps": "let-in"},
    "small gap in the lid": {"sizes__fit": "easy", "sizes__lid_gap": "0.03"},
    "bores read": {"as_built": {"lid_bore": ["36.05"], "body_bore": ["36.01"]}},
    "ring read": {"as_built": {"ring_outside_diameter": ["36.01"]}},
    "many readings": {"stock__tube__wall": [f"{1.0 + k % 3 / 100:.2f}" for k in range(7)]},
}  # fmt: skip
every = pytest.mark.parametrize("changes", CASES.values(), ids=CASES)


@every
def test_every_quantity_by_monte_carlo(plan_of: PlanOf, changes: dict[str, object]) -> None:
    plan = plan_of(**changes)
    drawn = simulate(plan.quantities.values(), DRAWS)
    for id, quantity in plan.quantities.items():
        samples = np.broadcast_to(drawn[quantity], (DRAWS,))
        u = quantity.uncertainty
        # Mean: 5 standard errors and a hundredth of u (what is curved); spread: 0.16 % is the
        # standard error of a normal sample, Student's t with 6 degrees has three times that.
        assert float(samples.mean()) == pytest.approx(quantity.value, abs=0.02 * u + 1e-9), id
        assert float(samples.std()) == pytest.approx(u, rel=0.012, abs=1e-9), id


@every
def test_odds_by_monte_carlo(plan_of: PlanOf, changes: dict[str, object]) -> None:
    found = plan_of(**changes).fits[0]
    drawn = simulate([found.as_cut], DRAWS)[found.as_cut]
    low, high = found.fit.window
    # 200,000 draws: 0.1 %; rectangles and Student's t instead of one normal law: 1 % more.
    within = float(((drawn >= low) & (drawn <= high)).mean())
    assert found.odds == pytest.approx(within, abs=0.012)
    assert found.odds_filed == pytest.approx(float((drawn <= high).mean()), abs=0.012)


@every
def test_doubt_is_the_clearances_own(plan_of: PlanOf, changes: dict[str, object]) -> None:
    found = plan_of(**changes).fits[0]
    assert found.doubt == pytest.approx(found.as_cut.uncertainty, rel=1e-12)
    low, high = found.fit.window
    by_hand = law.odds_between(found.as_cut.value, found.doubt, low, high)
    assert found.odds == pytest.approx(by_hand, rel=1e-12)
    assert found.odds <= found.odds_filed <= 1


def test_strip_is_a_decision(plan_of: PlanOf) -> None:
    """What is marked is marked: the doubts of bore and thickness don't cancel against it."""
    plan = plan_of()
    found = plan.fits[0]
    bore, thick = plan.quantities["bore"], plan.quantities["ring_thickness"]
    work = math.hypot(0.07, 0.07) / math.pi
    # Independent but for the calliper's zero: bore + thickness both carry it with the same sign.
    by_hand = (bore - thick).uncertainty
    assert found.doubt == pytest.approx(math.hypot(by_hand, work), rel=1e-9)


@pytest.mark.parametrize("risk", [0.02, 0.05, 0.2])
def test_guard_keeps_the_risk(plan_of: PlanOf, risk: float) -> None:
    found = plan_of(shop={"settings": {"guard_risk": risk}}).fits[0]
    # The ring is too small for its aim as often as the shop said.
    short = 1 - law.odds_below(found.as_cut.value, found.doubt, found.fit.target.value)
    assert short == pytest.approx(risk, rel=1e-6)
    assert found.guard.value == pytest.approx(
        math.pi * law.guard_factor(risk) * found.doubt, rel=1e-6
    )


@pytest.mark.parametrize("read", ["lid_bore", "body_bore"])
def test_guard_is_for_the_bore_that_is_known_worse(plan_of: PlanOf, read: str) -> None:
    """Too short is judged in the lid as in the body: one bore read doesn't spare the guard."""
    shop = {"calliper": {"inside_mpe": 0, "mpe": 0.03}}
    plan = plan_of(shop=shop, as_built={read: ["36.03", "36.03"]})
    other = {"lid_bore": "body_bore", "body_bore": "lid_bore"}[read]
    worse = (plan.quantities[other] - plan.quantities["ring_thickness"]).uncertainty
    by_hand = math.pi * 1.6449 * math.hypot(worse, math.hypot(0.07, 0.07) / math.pi)
    assert plan.quantities["ring_guard"].value == pytest.approx(by_hand, rel=1e-4)


def test_cut_on_the_safe_side(plan_of: PlanOf) -> None:
    plan = plan_of()
    found = plan.fits[0]
    assert found.guard.value > 0
    assert found.as_cut.value < found.fit.target.value
    assert plan.quantities["ring_cut_length"].value > plan.quantities["ring_length"].value


def test_more_risk_less_guard_more_luck(plan_of: PlanOf) -> None:
    careful, bold = (plan_of(shop={"settings": {"guard_risk": r}}).fits[0] for r in (0.02, 0.3))
    assert careful.guard.value > bold.guard.value
    assert careful.odds < bold.odds
    assert careful.odds_filed > bold.odds_filed


def test_filing_to_expect(plan_of: PlanOf) -> None:
    least, likely, most = plan_of().fits[0].filing
    assert 0 <= least <= likely <= most
    assert likely == pytest.approx(plan_of().fits[0].guard.value)


def test_a_loose_lid_is_surer(plan_of: PlanOf) -> None:
    odds = [plan_of(sizes__fit=feel).fits[0].odds for feel in ("tight", "snug", "easy", "loose")]
    assert odds == sorted(odds)


FINE_JAWS = {"calliper": {"mpe": 0.04, "inside_mpe": 0, "repeatability": 0.004}}


@pytest.mark.parametrize(
    "more",
    [{}, {"sizes__fit": "easy", "sizes__lid_gap": "0.06"}, {"shop": FINE_JAWS}],
    ids=["snug", "another gap in the lid", "a bore read better than reckoned"],
)
def test_advice_keeps_its_word(plan_of: PlanOf, more: dict[str, Any]) -> None:
    """What the advice promises is what the plan says once the reading is taken."""
    more = {"stock__ring_sheet__thickness": "22 ga", **more}
    plan = plan_of(**more)
    promised = {each.id: each for each in plan.fits[0].advice}
    bore = f"{plan.quantities['bore'].value:.3f}"
    taken = {
        "body_bore": plan_of(**more, stock__tube__bore=[bore]),
        "ring_thickness": plan_of(**{**more, "stock__ring_sheet__thickness": ["0.644"]}),
    }
    for id, then in taken.items():
        if id not in promised:  # it wouldn't raise the odds
            assert then.fits[0].doubt > 0.99 * plan.fits[0].doubt
            continue
        # The calliper's zero is shared by bore and sheet; the promise takes them as apart.
        assert promised[id].odds == pytest.approx(then.fits[0].odds, abs=0.003), id
        assert promised[id].odds_filed == pytest.approx(then.fits[0].odds_filed, abs=0.003), id
        assert promised[id].doubt == pytest.approx(then.fits[0].doubt, rel=0.02), id


@every
def test_advice_never_lowers_the_odds(plan_of: PlanOf, changes: dict[str, object]) -> None:
    found = plan_of(**changes).fits[0]
    for each in found.advice:
        assert each.doubt < found.doubt
        assert each.odds >= found.odds or each.odds_filed >= found.odds_filed, each.text
    odds = [each.odds for each in found.advice]
    assert odds == sorted(odds, reverse=True)


@every
def test_advice_speaks_words(plan_of: PlanOf, changes: dict[str, object]) -> None:
    for each in plan_of(**changes).fits[0].advice:
        assert "_" not in each.text
        assert each.text.startswith("read ")


def test_no_advice_to_read_what_was_read(plan_of: PlanOf) -> None:
    read = plan_of(as_built={"lid_bore": ["36.03"], "body_bore": ["36.03"]})
    assert not any("directly" in each.text for each in read.fits[0].advice)


def test_the_fourth_reading_is_not_promised_too_much(plan_of: PlanOf) -> None:
    """Three readings use the shop's repeatability, four Student's t: the fourth may cost."""
    plan = plan_of(stock__tube__wall=["1.02", "1.00", "1.01"])
    again = plan_of(stock__tube__wall=["1.02", "1.00", "1.01", "1.01"])
    for each in plan.fits[0].advice:
        if each.id == "wall":
            assert each.doubt >= again.fits[0].doubt * 0.98


@pytest.mark.parametrize("count", [4, 6, 10])
def test_four_readings_all_alike(plan_of: PlanOf, count: int) -> None:
    """Readings without any scatter plan as well, and reading once more isn't said to help."""
    changes: dict[str, Any] = {"stock__tube__wall": ["1.01"] * count}
    changes["as_built"] = {"ring_thickness": ["0.64"] * count}
    advice = plan_of(**changes).fits[0].advice
    assert not any("once more" in each.text and "wall" in each.text for each in advice)


def test_the_two_halves_read_by_one_calliper(plan_of: PlanOf) -> None:
    """Filing per side is a difference of two readings: the shared zero cancels in it."""
    plan = plan_of(as_built={"lid_bore": ["36.05"], "body_bore": ["36.01"]})
    filing = plan.quantities["filing_per_side"]
    assert not any(r.id == "calliper_zero" and abs(s) > 1e-12 for r, s in filing.slopes.items())
