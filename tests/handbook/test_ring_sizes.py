"""The ring sizes make sense, agree with each other, and are read as the bench writes them."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hollowright.errors import InputError, UnknownName
from hollowright.handbook.ring_sizes import TABLES, RingScale, nearest, ring_size, scales
from hollowright.handbook.sources import source

SCALES = pytest.mark.parametrize("scale", scales(), ids=lambda scale: scale.id)


def numbers(scale: RingScale) -> list[float]:
    """Every size of a scale, small to large."""
    part = max(scale.part, 0.25)
    count = round((scale.high - scale.low) / part)
    return [scale.low + i * part for i in range(count + 1)]


@SCALES
def test_every_law_rises_by_even_steps_within_what_fingers_are(scale: RingScale) -> None:
    for law in scale.laws:
        found = [law.measure(number) for number in numbers(scale)]
        sizes = [size for size in found if size is not None]
        assert all(small < large for small, large in pairwise(sizes))
        steps = [large - small for small, large in pairwise(sizes)]
        assert max(steps) < 1.1 * min(steps)
        assert sizes[0] > (11 if law.measures == "diameter" else 36)
        assert sizes[-1] < (26 if law.measures == "diameter" else 81)
        assert source(law.source).status == "seen"


@SCALES
def test_two_laws_of_one_scale_are_near_each_other(scale: RingScale) -> None:
    for number in numbers(scale):
        made = [scale.laws[0].measure(number), scale.laws[-1].measure(number)]
        if None not in made:
            spoken = scale.spoken(number)
            metric, inch = (ring_size(spoken, table=table).diameter for table in TABLES)
            assert metric == pytest.approx(inch, abs=0.18)  # less than half a letter


def test_a_half_size_that_would_be_the_next_letter_is_none() -> None:
    for text in ("UK I 1/2", "UK Y 1/2", "UK Z+2"):
        assert ring_size(text).diameter > 15
        with pytest.raises(InputError, match="inside diameter instead"):
            ring_size(text, table="inch")


@SCALES
def test_a_size_is_read_as_it_is_spoken(scale: RingScale) -> None:
    for number in numbers(scale):
        size = ring_size(scale.spoken(number))
        assert size.scale is scale
        assert size.number == pytest.approx(number)
        assert size.circumference == pytest.approx(math.pi * size.diameter)
        assert size.text in {each.text for each in nearest(size.diameter)}


@pytest.mark.parametrize(
    ("text", "same"),
    [
        ("us7 1/4", "US 7 1/4"), ("USA 7.25", "US 7 1/4"), ("us 7¼", "US 7 1/4"),
        ("US 7-1/4", "US 7 1/4"), ("CA 7 1/4", "US 7 1/4"), ("US 1/2", "US 1/2"),
        ("uk n½", "UK N 1/2"), ("N 1/2", "UK N 1/2"), ("AU n.5", "UK N 1/2"),
        ("z + 2", "UK Z+2"), ("54", "ISO 54"), ("54.5", "ISO 54.5"), ("DE 54", "ISO 54"),
        ("it 14", "CH 14"), ("ES 14 3/4", "CH 14 3/4"), ("jp 12", "JP 12"),
    ],
)  # fmt: skip
def test_spellings(text: str, same: str) -> None:
    assert ring_size(text).text == same
    assert ring_size(text).diameter == ring_size(same).diameter


def test_a_scale_less_40_and_a_bare_number_are_iso() -> None:
    assert ring_size("CH 14").diameter == ring_size("ISO 54").diameter == 54 / math.pi
    assert ring_size("54").bare
    assert not ring_size("ISO 54").bare


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("ISOO 54", "Did you mean ISO 54"), ("XX 4", "Known: ISO 54, US 7 1/4"),
        ("7", "Write US 7 if that was meant"), ("US 17", "US 0 to US 16"),
        ("US 7.3", "isn't a size"), ("UK 7", "isn't a ring size"), ("US N", "isn't a ring size"),
        ("UK A+1", "isn't a ring size"), ("US 7 1/0", "isn't a ring size"),
        ("US 7 5/4", "isn't a ring size"), ("-5", "isn't a ring size"), ("", "isn't a ring size"),
        ("1,5", "isn't a ring size"), ("EU 54", "isn't known"),
    ],
)  # fmt: skip
def test_what_is_no_size_is_told(text: str, told: str) -> None:
    with pytest.raises((InputError, UnknownName), match=told) as error:
        ring_size(text, "sizes.size")
    assert error.value.field == "sizes.size"


@given(st.text(max_size=30))
def test_any_text_is_a_size_or_a_clear_error(text: str) -> None:
    try:
        made = ring_size(text)
    except InputError:  # a clear error is as good
        return
    assert 11 < made.diameter < 27
