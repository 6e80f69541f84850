"""What is bought: the cheapest mix, by price or by weight, never below its bound."""

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hollowright.plan.layout import first_layout
from hollowright.plan.least import cover
from hollowright.shapes.outline import disc, rectangle
from tests.plan.layout_tasks import batch_of, sheet, sold, task


def bought(layout_sheets: object) -> list[str]:
    return sorted(each.sheet.id for each in layout_sheets)  # type: ignore[attr-defined]


def test_the_last_sheet_is_a_smaller_one() -> None:
    batch = batch_of([rectangle(140, 70)], [9])  # eight on two large ones, one more
    layout = first_layout(task(batch, sold((150, 75), (300, 150))))
    assert not layout.missing
    assert layout.bought_area <= 2 * 300 * 150 + 150 * 75


def test_prices_decide_where_every_size_has_one() -> None:
    batch = batch_of([rectangle(140, 70)], [4])
    dear = first_layout(task(batch, sold((150, 75), (300, 150), costs=(5.0, 30.0))))
    assert bought(dear.bought) == ["buy-150x75"] * 4
    assert dear.cost == pytest.approx(20.0)
    cheap = first_layout(task(batch, sold((150, 75), (300, 150), costs=(10.0, 30.0))))
    assert bought(cheap.bought) == ["buy-300x150"]
    assert cheap.cost == pytest.approx(30.0)
    assert "30.00 must be spent" in cheap.bound_text


def test_without_all_prices_weight_decides() -> None:
    batch = batch_of([rectangle(140, 70)], [3])
    sizes = sold((150, 75), (300, 150), costs=(50.0,))
    layout = first_layout(task(batch, sizes))
    assert not layout.task.priced
    assert bought(layout.bought) == ["buy-150x75"] * 3
    assert layout.bound == pytest.approx(3 * 150 * 75)
    assert "33750 mm2" in layout.bound_text
    assert "not every size has a price" in layout.bound_text


@pytest.mark.parametrize("counts", [(3, 2), (7, 1), (1, 9)])
def test_no_layout_buys_less_than_its_bound(counts: tuple[int, int]) -> None:
    batch = batch_of([rectangle(90, 40), rectangle(33, 21)], counts)
    drawer = [sheet("drawer-1", rectangle(100, 60))]
    layout = first_layout(task(batch, [*drawer, *sold((150, 75), (300, 150))]))
    assert not layout.missing
    assert 0 <= layout.bound <= layout.bought_area


def test_the_bound_is_nothing_where_the_drawer_may_do() -> None:
    batch = batch_of([rectangle(90, 40)], [1])
    drawer = [sheet("drawer-1", rectangle(100, 60))]
    layout = first_layout(task(batch, [*drawer, *sold((150, 75))]))
    assert (layout.bound, layout.bought) == (0.0, ())


@given(
    st.floats(1, 60),
    st.lists(st.tuples(st.floats(4, 20), st.floats(1, 9)), min_size=1, max_size=3),
)
def test_least_cover_against_every_mix(area: float, sizes: list[tuple[float, float]]) -> None:
    counts = itertools.product(*(range(int(area // each) + 2) for each, _ in sizes))
    best = min(
        sum(n * cost for n, (_, cost) in zip(mix, sizes, strict=True))
        for mix in counts
        if sum(n * each for n, (each, _) in zip(mix, sizes, strict=True)) >= area
    )
    assert cover(area, sizes) == pytest.approx(best)


def test_a_size_too_narrow_for_any_blank_lowers_no_bound() -> None:
    batch = batch_of([disc(30)], [4])
    layout = first_layout(task(batch, sold((300, 25), (150, 75))))
    assert layout.bound == layout.bought_area == 150 * 75


def test_blanks_that_only_some_sizes_hold_are_reckoned_by_themselves() -> None:
    batch = batch_of([disc(60), rectangle(50, 10)], [1, 1])
    layout = first_layout(task(batch, sold((60, 15), (150, 75))))
    assert layout.bound == layout.bought_area == 150 * 75


def test_a_full_drawer_is_gone_through_before_anything_is_bought() -> None:
    small = [sheet(f"drawer-{n}", rectangle(34 + n / 10, 14)) for n in range(90)]
    middle = [sheet(f"drawer-m{n}", rectangle(90, 45 + n / 10)) for n in range(90)]
    long = [sheet(f"drawer-l{n}", rectangle(400, 12 + n / 10)) for n in range(30)]
    batch = batch_of([rectangle(80, 40), rectangle(20, 8)], [30, 3])
    layout = first_layout(task(batch, [*long, *middle, *small, *sold((300, 150))]))
    assert (layout.bought, layout.missing) == ((), ())
