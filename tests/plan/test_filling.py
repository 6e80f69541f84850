"""What is bought: the cheapest mix, by price or by weight, never below its bound."""

import itertools
from collections.abc import Iterable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hollowright.plan.laid import LaidSheet
from hollowright.plan.layout import better_layout, first_layout
from hollowright.plan.least import cover
from hollowright.shapes.outline import annulus, disc, rectangle
from tests.plan.layout_tasks import RULES, batch_of, sheet, sold, task


def bought(layout_sheets: Iterable[LaidSheet]) -> list[str]:
    return sorted(each.sheet.id for each in layout_sheets)


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


def grid_cost(
    long: float, wide: float, count: int, sizes: dict[tuple[float, float], float]
) -> float:
    """What like rectangles cost at least in plain grids, one way round on each sheet."""

    def along(room: float, size: float) -> int:
        return int((room - 2 * RULES.edge + RULES.between + 1e-9) // (size + RULES.between))

    held = {
        (x, y): max(along(x, long) * along(y, wide), along(x, wide) * along(y, long))
        for x, y in sizes
    }
    costs = [0.0]
    for n in range(1, count + 1):
        costs.append(min(costs[max(0, n - h)] + sizes[size] for size, h in held.items() if h))
    return costs[count]


SIZES = [(75.0, 50.0), (100.0, 75.0), (200.0, 50.0), (200.0, 75.0), (200.0, 150.0), (300.0, 200.0)]


@settings(max_examples=40)
@given(
    st.floats(30, 160),
    st.floats(8, 40),
    st.integers(1, 25),
    st.lists(st.sampled_from(SIZES), min_size=1, max_size=4, unique=True),
    st.data(),
)
def test_no_first_answer_is_dearer_than_plain_grids(
    long: float, wide: float, count: int, chosen: list[tuple[float, float]], data: st.DataObject
) -> None:
    sizes = {each: round(data.draw(st.floats(3, 60)), 2) for each in chosen}
    sizes[600.0, 300.0] = 90.0
    asked = task(batch_of([rectangle(long, wide)], [count]), sold(*sizes, costs=[*sizes.values()]))
    layout = first_layout(asked)
    assert not layout.missing
    assert layout.cost is not None
    assert layout.cost <= grid_cost(long, wide, count, sizes) + 1e-6


def test_a_mix_of_sizes_is_bought_where_it_costs_least() -> None:
    sizes = sold((200, 75), (200, 150), (200, 50), (600, 300), costs=(12.33, 34.55, 6.28, 90.0))
    layout = first_layout(task(batch_of([rectangle(147.8, 10.62)], [14]), sizes))
    assert bought(layout.bought) == ["buy-200x50", "buy-200x50", "buy-200x75"]
    assert layout.cost == pytest.approx(24.89)


def test_rings_are_bought_with_small_blanks_in_their_holes() -> None:
    batch = batch_of([annulus(50, 36), disc(16)], [24, 48])
    sizes = sold((300, 150), (300, 300), (600, 300))
    layout = first_layout(task(batch, sizes))
    rings = first_layout(task(batch_of([annulus(50, 36)], [24]), sizes))
    assert not layout.missing
    assert layout.bought_area == rings.bought_area
    assert better_layout(layout.task, layout, 1.5).bought_area <= layout.bought_area
