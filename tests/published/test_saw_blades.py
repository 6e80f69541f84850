"""Jewellers' saw blades: an encyclopedia's article and a hobby engineering page (seen).

They quote No. 4 with 15 teeth a centimetre and a pilot hole of 0.8 mm, 6/0 with about 30, the three
teeth rule, and that at 30 teeth a centimetre it needs 1 mm of metal. The chart that this handbook
uses is from memory of bench books, so these few figures are what stands outside it. The article
gives 8/0 30 teeth a centimetre too, where the chart has 35: the two disagree by 17 %.
Number drills: ASME B94.11M (memory).
"""

import pytest

from hollowright.handbook.blades import WANTED_TEETH, blades

BY_NAME = {blade.name: blade for blade in blades()}


def test_number_4() -> None:
    # Teeth to the whole one a centimetre, the hole to 0.1 mm: half of the last digit.
    assert BY_NAME["4"].teeth_per_mm * 10 == pytest.approx(15, abs=0.5)
    assert BY_NAME["4"].drill == pytest.approx(0.8, abs=0.05)


def test_number_6_0() -> None:
    # 'About 30': one tooth.
    assert BY_NAME["6/0"].teeth_per_mm * 10 == pytest.approx(30, abs=1)


def test_three_teeth_want_a_millimetre_at_30_a_centimetre() -> None:
    assert WANTED_TEETH / 3.0 == 1.0
    assert BY_NAME["6/0"].teeth_in(1.0) == pytest.approx(WANTED_TEETH, abs=0.05)


def test_the_disagreement_on_8_0() -> None:
    assert BY_NAME["8/0"].teeth_per_mm * 10 == pytest.approx(35.0, abs=0.05)  # the chart (memory)


# The bench chart as remembered, in metric: thickness and depth [mm], teeth a centimetre (memory).
CHART = {
    "8/0": (0.16, 0.32, 35.0), "7/0": (0.17, 0.33, 33.1), "6/0": (0.18, 0.36, 29.9),
    "5/0": (0.20, 0.40, 28.0), "4/0": (0.22, 0.44, 26.0), "3/0": (0.24, 0.48, 24.0),
    "2/0": (0.26, 0.52, 22.0), "1/0": (0.28, 0.56, 20.9), "1": (0.30, 0.61, 20.1),
    "2": (0.34, 0.70, 16.9), "3": (0.36, 0.74, 15.7), "4": (0.38, 0.78, 15.0),
    "5": (0.40, 0.84, 14.2), "6": (0.44, 0.94, 13.0), "7": (0.48, 1.02, 11.8),
    "8": (0.50, 1.12, 11.0),
}  # fmt: skip


@pytest.mark.parametrize(("name", "row"), CHART.items())
def test_the_chart_from_memory(name: str, row: tuple[float, float, float]) -> None:
    blade = BY_NAME[name]
    # Half of the last digit of the metric column.
    assert blade.thickness == pytest.approx(row[0], abs=0.0051)
    assert blade.depth == pytest.approx(row[1], abs=0.0051)
    assert blade.teeth_per_mm * 10 == pytest.approx(row[2], abs=0.051)


DRILLS = {80: 0.0135, 79: 0.0145, 78: 0.0160, 77: 0.0180, 76: 0.0200, 75: 0.0210, 73: 0.0240,
          71: 0.0260, 70: 0.0280, 68: 0.0310, 67: 0.0320, 65: 0.0350, 58: 0.0420, 55: 0.0520,
          54: 0.0550}  # fmt: skip


def test_number_drills_from_memory() -> None:
    # Exact in the standard.
    found = {blade.drill_number: blade.drill / 25.4 for blade in blades()}
    assert found == pytest.approx(DRILLS, abs=1e-9)
