"""The saw blades make sense, and the one picked suits the metal."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hollowright.errors import InputError
from hollowright.handbook.blades import WANTED_TEETH, blade_for, blades

NAMES = [blade.name for blade in blades()]


def test_the_chart_runs_from_fine_to_coarse() -> None:
    assert [f"{n}/0" for n in range(8, 0, -1)] + [str(n) for n in range(1, 9)] == NAMES
    for key, sign in (("thickness", 1), ("depth", 1), ("drill", 1), ("teeth_per_mm", -1)):
        column = [sign * getattr(blade, key) for blade in blades()]
        assert column == sorted(column), key


@pytest.mark.parametrize("blade", blades(), ids=lambda blade: blade.name)
def test_a_blade_is_consistent(blade) -> None:
    assert blade.kerf == blade.thickness
    assert 1.8 < blade.depth / blade.thickness < 2.3
    assert blade.depth < blade.drill < 1.4 * blade.depth, "the drill lets the blade through"
    assert 12 <= blade.thickest_gauge <= blade.thinnest_gauge <= 40


def test_thicker_metal_never_gets_a_finer_blade() -> None:
    picks = [NAMES.index(blade_for(t / 100).name) for t in range(5, 800)]
    assert picks == sorted(picks)


@given(st.floats(0.05, 10))
def test_the_three_teeth_rule(thickness: float) -> None:
    pick = blade_for(thickness)
    blade = next(each for each in blades() if each.name == pick.name)
    assert pick.teeth == pytest.approx(thickness * blade.teeth_per_mm)
    assert pick.kerf == blade.thickness
    assert pick.drill == blade.drill
    finest = blades()[0].teeth_per_mm
    assert bool(pick.three_teeth) == (finest * thickness >= WANTED_TEETH)
    if pick.teeth < WANTED_TEETH:
        told = f"Three teeth would want a{'n' * (pick.three_teeth == '8/0')} {pick.three_teeth}"
        assert (told if pick.three_teeth else "the rule is only advice") in pick.why


@given(st.floats(0.05, 10))
def test_strict_takes_the_coarsest_blade_with_three_teeth(thickness: float) -> None:
    pick = blade_for(thickness, strict=True)
    engaged = [each.name for each in blades() if each.teeth_per_mm * thickness >= WANTED_TEETH]
    assert pick.name == (engaged[-1] if engaged else blade_for(thickness).name)


@pytest.mark.parametrize(
    ("thickness", "usual", "strict"),
    [
        (0.4, "8/0", "8/0"),
        (0.64, "5/0", "5/0"),
        (0.82, "2/0", "2/0"),
        (1.01, "1/0", "6/0"),
        (2.05, "7", "4"),
        (3.3, "8", "8"),
    ],
)
def test_some_blades(thickness: float, usual: str, strict: str) -> None:
    assert blade_for(thickness).name == usual
    assert blade_for(thickness, strict=True).name == strict


@pytest.mark.parametrize("thickness", [0, -1, math.inf, math.nan])
def test_no_thickness_no_blade(thickness: float) -> None:
    with pytest.raises(InputError, match="thickness: "):
        blade_for(thickness)


@pytest.mark.parametrize("thickness", [0.4, 0.82, 1.01])
@pytest.mark.parametrize("form", ["tube", "rod"])
def test_of_tube_and_rod_the_sentence_speaks_of_no_sheet_at_hand(
    thickness: float, form: str
) -> None:
    pick = blade_for(thickness, form=form)
    assert "this sheet" not in pick.why
    assert "thin sheet" not in pick.why
    assert pick.name == blade_for(thickness).name
