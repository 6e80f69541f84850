"""The drawing of a fit says the plan's odds; its curve stands where the clearance is."""

from dataclasses import replace

import pytest

from hollowright.designs import design
from hollowright.job.job import plan_tables, read_tables
from hollowright.output.drawing import Label, Path
from hollowright.output.extent import extent
from hollowright.output.fit_drawing import fit_drawing
from hollowright.output.text import percent
from hollowright.plan.plan import FitResult


@pytest.fixture(scope="module")
def result() -> FitResult:
    return plan_tables(read_tables(design("tube-box").examples[0].text)).fits[0]


def texts(result: FitResult) -> list[str]:
    return [item.text for item in fit_drawing(result).items if isinstance(item, Label)]


def test_the_odds_are_written(result: FitResult) -> None:
    said = texts(result)
    assert f"{percent(result.odds)} {result.fit.feel}" in said
    assert percent(result.odds_filed - result.odds) in said
    assert "clearance [mm]" in said


def test_the_curves_top_stands_at_the_clearance_as_cut(result: FitResult) -> None:
    """The window's edges are known lengths apart: they give the scale."""
    items = fit_drawing(result).items
    window = next(i for i in items if isinstance(i, Path) and i.role == "fold")
    left, right = window.curves[0].start[0], window.curves[1].start[0]
    low, high = result.fit.window
    scale = (right - left) / (high - low)
    hill = next(i for i in items if isinstance(i, Path) and i.role == "visible")
    top = max((curve.start for curve in hill.curves), key=lambda point: point[1])
    assert low + (top[0] - left) / scale == pytest.approx(result.as_cut.value, abs=1e-9)


@pytest.mark.parametrize("doubt", [0.0, 0.001, 0.05, 0.5])
@pytest.mark.parametrize("window", [(0.015, 0.045), (-0.4, -0.2), (0.3, 0.9)])
def test_it_stays_within_its_size(
    result: FitResult, doubt: float, window: tuple[float, float]
) -> None:
    odd = replace(result, doubt=doubt, fit=replace(result.fit, window=window))
    drawing = fit_drawing(odd, 90.0)
    low_x, low_y, high_x, high_y = extent(drawing.items)
    assert low_x >= -0.5
    assert low_y >= 0
    assert high_x <= drawing.width + 0.5
    assert high_y <= drawing.height
