"""The gauge tables make sense, and a gauge number is read as the bench writes it."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hollowright.handbook.gauges import GAUGES, TABLE_NAMES, bs_inches, gauge_mm, gauges


@pytest.mark.parametrize("table", TABLE_NAMES)
def test_every_table_runs_from_thick_to_thin(table: str) -> None:
    sizes = [each.mm for each in gauges(table)]
    assert all(thick > thin for thick, thin in pairwise(sizes))
    assert sizes[0] < 15
    assert sizes[-1] > 0.02
    numbers = [each.number for each in gauges(table)]
    assert len(set(numbers)) == len(numbers)


@pytest.mark.parametrize(
    ("table", "first", "last"), [("bs", "6/0", "40"), ("swg", "7/0", "50"), ("bwg", "4/0", "36")]
)
def test_no_number_is_missing(table: str, first: str, last: str) -> None:
    def counted(number: str) -> int:
        return 1 - int(number[0]) if number.endswith("/0") else int(number)

    counts = [counted(each.number) for each in gauges(table)]
    assert counts == list(range(counted(first), counted(last) + 1))


def test_each_bs_number_is_the_same_share_thinner() -> None:
    for number in range(-5, 40):
        assert bs_inches(number) / bs_inches(number + 1) == pytest.approx(92 ** (1 / 39), rel=1e-12)


@pytest.mark.parametrize(
    ("text", "same"), [("0000", "4/0"), ("00", "2/0"), ("0", "1/0"), (" 20 ", "20"), ("020", "20")]
)
@pytest.mark.parametrize("table", GAUGES)
def test_a_number_has_several_spellings(table: str, text: str, same: str) -> None:
    assert GAUGES[table](text) == GAUGES[table](same)


def test_tables_of_one_number_differ() -> None:
    """20 B&S is 0.812, 20 SWG 0.914, 20 BWG 0.889: silently mixing them spoils metal."""
    assert [round(GAUGES[table]("20"), 3) for table in ("bs", "swg", "bwg")] == [
        0.812,
        0.914,
        0.889,
    ]


@pytest.mark.parametrize("text", ["41", "7/0", "-3", "2.5", "", "x", "20 ga", "1/2", "0/0", "²"])
def test_a_number_that_isn_t_there_is_refused_in_a_sentence(text: str) -> None:
    with pytest.raises(ValueError, match=r"isn't a Brown & Sharpe \(AWG\) gauge: write a number"):
        GAUGES["bs"](text)


@given(st.text(max_size=30), st.sampled_from(sorted(GAUGES)))
def test_any_text_gives_a_size_or_a_sentence(text: str, table: str) -> None:
    try:
        size = GAUGES[table](text)
    except ValueError as error:
        told = str(error)
    else:
        told = ""
        assert 0 < size < 15
    assert not told or "gauge: write a number from" in told


def test_names_are_as_spoken() -> None:
    names = {each.name for table in TABLE_NAMES for each in gauges(table)}
    assert {"20 ga B&S", "21 SWG", "18 BWG", "0.8 mm", "1.0 mm", "4/0 ga B&S"} <= names
    assert gauge_mm("bwg", "18") == pytest.approx(0.049 * 25.4)
