"""Trade notes 1 to 5: measuring. Common practice, no source, where no formula is named."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
import pytest
from scipy.special import ellipe

from hollowright.formulas import fit, ring, tube
from hollowright.plan.plan import Plan
from hollowright.quantity import normal, rectangular, root
from hollowright.quantity.montecarlo import simulate

PlanOf = Callable[..., Plan]


def widths(a: float, b: float, count: int, turned: float) -> list[float]:
    """What a calliper reads round an ellipse at equal turns [mm]: twice its support function."""
    angles = [turned + math.pi * k / count for k in range(count)]
    return [2 * math.hypot(a * math.cos(t), b * math.sin(t)) for t in angles]


@pytest.mark.parametrize("count", [2, 3])
@pytest.mark.parametrize("turned", [0.0, 0.4, 1.1])
def test_note_1_the_mean_round_an_oval_gives_the_perimeter(
    plan_of: PlanOf, count: int, turned: float
) -> None:
    # An ellipse 38.15 x 37.95: perimeter by the complete elliptic integral (SciPy).
    a, b = 19.075, 18.975
    perimeter = 4 * a * ellipe(1 - (b / a) ** 2)
    read = [f"{width:.4f}" for width in widths(a, b, count, turned)]
    plan = plan_of(stock__tube__outside_diameter=read)
    # Two or three widths leave less than 0.002 of it, a tenth of the instrument's error.
    assert plan.quantities["outside_diameter"].value == pytest.approx(
        perimeter / math.pi, abs=0.002
    )


def test_note_1_ovality_is_told_and_is_no_doubt(plan_of: PlanOf) -> None:
    oval = plan_of(stock__tube__outside_diameter=["38.20", "38.05", "37.90"])
    even = plan_of(stock__tube__outside_diameter=["38.05", "38.05", "38.05"])
    told = [c.text for c in oval.cautions if c.about == "outside_diameter"]
    assert any("0.30" in text and "out of round" in text for text in told)
    assert oval.quantities["outside_diameter"].uncertainty == pytest.approx(
        even.quantities["outside_diameter"].uncertainty
    )
    assert not any("out of round" in c.text for c in even.cautions)


@pytest.mark.parametrize("turned", [0.0, 0.5, math.pi / 6])
def test_note_1_oval_on_its_axis(plan_of: PlanOf, turned: float) -> None:
    # Widths at 60 degrees, the first on an axis: two are equal by symmetry. That is no misreading.
    read = [f"{width:.2f}" for width in widths(19.075, 18.975, 3, turned)]
    plan = plan_of(stock__tube__outside_diameter=read)
    told = " ".join(c.text for c in plan.cautions if c.about == "outside_diameter")
    assert "out of round" in told
    assert "belong" not in told
    assert plan.quantities["outside_diameter"].uncertainty < 0.02


def test_note_2_flat_jaws() -> None:
    # 3 mm jaws in a bore of radius 18 read 0.0625 thick; the bore loses 0.125.
    read = 1.0
    wall = tube.wall_under_flat_jaw(read, 3.0, 2 * (18.0 + read))
    assert read - wall == pytest.approx(0.0625, abs=1e-9)
    assert tube.bore(38.0, wall) - tube.bore(38.0, read) == pytest.approx(0.125, abs=1e-9)


def test_note_2_the_sagitta_itself() -> None:
    # Slow reference: the flat's corners touch the circle; its middle hangs a sagitta off it.
    radius, jaw = 18.0, 3.0
    sagitta = radius - math.sqrt(radius**2 - jaw**2 / 4)
    true_wall = 1.0
    wall = tube.wall_under_flat_jaw(true_wall + sagitta, jaw, 2 * (radius + true_wall))
    assert wall == pytest.approx(true_wall, abs=0.0004)


def test_note_2_inside_jaws_with_flats() -> None:
    # Two flats of 0.5 in a 12 bore: each stands a sagitta off: together b^2 / (2 D) = 0.0104.
    true = 12.0
    read = 2 * math.sqrt((true / 2) ** 2 - 0.25**2)
    assert tube.bore_under_flat_jaws(read, 0.5) == pytest.approx(true, abs=1e-5)
    assert tube.bore_under_flat_jaws(12.0, 0.5) - 12.0 == pytest.approx(0.25 / 24)


def test_note_2_in_the_plan(plan_of: PlanOf) -> None:
    ball, flat = plan_of(), plan_of(shop={"calliper": {"jaw": 3.0}})
    lost = flat.quantities["bore"].value - ball.quantities["bore"].value
    assert lost == pytest.approx(2 * 9 / (8 * (38.05 / 2 - 1.01)), rel=1e-9)
    assert lost > 0.12


def test_note_3_zero_error_has_its_own_sign(plan_of: PlanOf) -> None:
    def slope(plan: Plan) -> float:
        return sum(s for r, s in plan.quantities["bore"].slopes.items() if r.id == "calliper_zero")

    # The root is the zero error e: outside - 2 x wall reads e too small (true = read + e), a
    # direct reading e too large (true = read - e).
    reckoned = plan_of()
    direct = plan_of(stock__tube__wall=None, stock__tube__bore=["36.02"])
    assert slope(reckoned) == pytest.approx(1.0)
    assert slope(direct) == pytest.approx(-1.0)
    both = plan_of(stock__tube__bore=["36.02"])
    assert -1.0 < slope(both) < 1.0


def test_note_4_below_four_readings_the_pooled_repeatability(plan_of: PlanOf) -> None:
    one = plan_of(shop={"calliper": {"repeatability": 0.03}})
    two = plan_of(shop={"calliper": {"repeatability": 0.01}})
    assert one.quantities["wall"].uncertainty ** 2 - two.quantities["wall"].uncertainty ** 2 == (
        pytest.approx((0.03**2 - 0.01**2) / 2)
    )


def test_note_5_by_the_formulas() -> None:
    outside = root("outside", "", "mm", 38.05, rectangular(0.02))
    wall = root("wall", "", "mm", 1.01, rectangular(0.02))
    bore = tube.bore(outside, wall)
    assert bore.uncertainty == pytest.approx(0.026, abs=0.0005)
    assert ring.diameter_of(0.1) == pytest.approx(0.032, abs=0.0005)
    strip = root("strip", "", "mm", 0.0, normal(0.1))
    length = ring.length(bore, 0.64).decided("marked", "marked")
    made = fit.made_diameter(length, strip, 0.0, 0.64)
    gap = fit.clearance(bore, made)
    assert gap.uncertainty == pytest.approx(0.041, abs=0.0005)
    assert fit.odds_between(0.0, gap.uncertainty, -0.015, 0.015) == pytest.approx(0.29, abs=0.005)
    guarded = -fit.guard_factor(0.05) * gap.uncertainty
    assert guarded == pytest.approx(-0.067, abs=0.0005)
    assert fit.odds_between(guarded, gap.uncertainty, -0.015, 0.015) == pytest.approx(
        0.08, abs=0.005
    )


NOTE_5_SHOP = {
    "settings": {"marking_out": 0.1, "sawing": 0, "sheet_tolerance": 0, "guard_risk": 0.05},
    "calliper": {
        "mpe": 0.02, "inside_mpe": 0, "resolution": 0.0001, "repeatability": 0.0001, "zero": 0,
    },
}  # fmt: skip


def test_note_5_by_the_plan(plan_of: PlanOf) -> None:
    plan = plan_of(
        shop=NOTE_5_SHOP,
        stock__tube__outside_diameter=["38.05"],
        stock__tube__wall=["1.01"],
        stock__ring_sheet__thickness="22 ga",
    )
    found = plan.fits[0]
    assert plan.quantities["bore"].uncertainty == pytest.approx(0.026, abs=0.0005)
    assert found.doubt == pytest.approx(0.041, abs=0.0005)
    assert found.guard.value / math.pi == pytest.approx(0.067, abs=0.0006)
    # The window is 0.03 wide (snug, 0.015 to 0.045): 8 in 100 for the length really cut.
    assert found.odds == pytest.approx(0.08, abs=0.005)
    assert found.odds_filed > 0.95


def test_note_5_without_a_guard_by_the_plan(plan_of: PlanOf) -> None:
    # The least guard the shop may ask for (risk 0.4) is still a guard: 29 in 100 is the odds of the
    # same doubt round the middle of the window.
    plan = plan_of(shop=NOTE_5_SHOP, stock__ring_sheet__thickness="22 ga",
                   stock__tube__outside_diameter=["38.05"], stock__tube__wall=["1.01"])  # fmt: skip
    found = plan.fits[0]
    low, high = found.fit.window
    odds = fit.odds_between((low + high) / 2, found.doubt, low, high)
    assert odds == pytest.approx(0.29, abs=0.005)
    # And by Monte Carlo of the very graph, moved to the middle: 200,000 draws 0.1 %, rectangles
    # instead of a normal law 1 %.
    drawn = simulate([found.as_cut], 200_000)[found.as_cut]
    moved = drawn - found.as_cut.value + (low + high) / 2
    assert float(np.mean((moved > low) & (moved < high))) == pytest.approx(0.29, abs=0.015)
