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


@pytest.mark.parametrize(
    ("number", "inches"), [(80, 0.0135), (70, 0.0280), (68, 0.0310), (55, 0.0520)]
)
def test_number_drills(number: int, inches: float) -> None:
    # Exact in the standard; the handbook's table holds what the blades need of it.
    found = {blade.drill_number: blade.drill for blade in blades()}
    assert found[number] == pytest.approx(inches * 25.4, abs=1e-9)
