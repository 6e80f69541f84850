"""Every spelling of a length, every refusal, and nothing ever taken as something else."""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from hollowright.errors import InputError
from hollowright.handbook.gauges import GAUGES
from hollowright.units import (
    exact_decimal,
    format_inch,
    format_number,
    read_length,
    read_number,
    read_points,
)

SPELLINGS = [
    ("38.05", 38.05),
    ("38.05 mm", 38.05),
    ("38.05mm", 38.05),
    ("  38.05  mm ", 38.05),
    ("38", 38.0),
    ("38.", 38.0),
    (".5 mm", 0.5),
    ("+2 mm", 2.0),
    ("2.5cm", 25.0),
    ("2.5 CM", 25.0),
    ("0.3 m", 300.0),
    ("0.032 in", 0.8128),
    ("0.032in", 0.8128),
    ("0.032 inch", 0.8128),
    ("2 inches", 50.8),
    ("1 in.", 25.4),
    ("1.5 In", 38.1),
    ("1 1/2 in", 38.1),
    ('1-1/2"', 38.1),
    ("1 1/2 ″", 38.1),
    ("1 1/2”", 38.1),
    ('3/4"', 19.05),
    ("3/64 in", 1.190625),
    ("7/8 inch", 22.225),
    (38.05, 38.05),
    (45, 45.0),
    (1e-1, 0.1),
    (0, 0.0),
]


@pytest.mark.parametrize(("given_text", "mm"), SPELLINGS)
def test_spellings(given_text: Any, mm: float) -> None:
    assert read_length(given_text, "height").mm == mm


@pytest.mark.parametrize(
    ("text", "mm", "table"),
    [
        ("20 ga", 0.8118, "bs"),
        ("20ga", 0.8118, "bs"),
        ("20 GA", 0.8118, "bs"),
        ("20 gauge", 0.8118, "bs"),
        ("20 awg", 0.8118, "bs"),
        ("20 b&s", 0.8118, "bs"),
        ("20 swg", 0.9144, "swg"),
        ("18 SWG", 1.2192, "swg"),
        ("18 ga", 1.0237, "bs"),
    ],
)
def test_gauges(text: str, mm: float, table: str) -> None:
    length = read_length(text, "thickness", gauges=GAUGES)
    assert length.mm == pytest.approx(mm, abs=0.00005)
    assert length.gauge == table


def test_a_gauge_is_no_length_elsewhere() -> None:
    with pytest.raises(InputError, match="gauge"):
        read_length("20 ga", "height")


@pytest.mark.parametrize("text", ["99 ga", "77 swg", "5/0000 ga", "0 0 ga", "-20 ga", "20.5 ga"])
def test_no_such_gauge(text: str) -> None:
    with pytest.raises(InputError, match="thickness"):
        read_length(text, "thickness", gauges=GAUGES)


REFUSED: list[Any] = [
    "", "   ", "\t\n", "38,05", "38,05 mm", "1,200", "1,200 mm", "1.200,5", "38.05;38.08",
    "nan", "nan mm", "inf", "infinity", "-inf", "1e400", "1e400 mm", "1e3", "1e-3 mm", "0x10",
    "-3", "-3 mm", "−3 mm", "--3", "+-3", "3 km", "3 ft", "1 ft 2 in", "3'", "38.05 mm mm",
    "38.05 mm in", "38 05", "38.05.1", "38..05", "mm", ".", "-", "/", "1/2", "1/2 mm x",
    "2/0", "2/0 in", "0/0 in", "1 2/0 in", "1 3/2 in", "1 1 / 2 / 3 in", "1/2/3 in", "1½ in",
    "½ in", "٣٨", "３８", "３８ mm", "²", "38.0⁵", "10 'a' mm", "1+2 mm", "1+2", "2*3 mm", "(3)",
    "__import__('os')", "9" * 41, "9" * 5000, "0." + "1" * 5000, "1/" + "9" * 300 + " in",
    "38.05\x00", "38\u200b.05 mm",
    "20001 mm", "500 in", "11 m", "1e999",
    math.nan, math.inf, -math.inf, 1e308, -1, -0.001, 10**5000, -(10**5000), 10_001,
    True, False, None, [], [38.05], {}, {"mm": 3}, object(),
]  # fmt: skip


def named(bad: Any) -> str:
    """A test's name for a bad input (a whole number of thousands of digits has no text)."""
    return repr(bad)[:30] if isinstance(bad, str | float) else type(bad).__name__


@pytest.mark.parametrize("bad", REFUSED, ids=named)
def test_refusals_name_the_field_and_show_what_is_right(bad: Any) -> None:
    with pytest.raises(InputError) as told:
        read_length(bad, "stock.tube.wall", "1.02 mm")
    text = str(told.value)
    assert told.value.field == "stock.tube.wall"
    assert told.value.exit_code == 2
    assert text.startswith("stock.tube.wall: ")
    assert told.value.remedy
    assert any(c.isdigit() for c in told.value.remedy) or "one" in told.value.remedy
    assert len(text) < 300
    assert "\n" not in text


@pytest.mark.parametrize(
    ("bad", "right"),
    [("38,05", "38.05 mm"), ("38,05", "Write 38.05"), ("0,5 cm", "0.5 cm"), ("3/4", '3/4"'),
     ("3/4", "3/4 in")],
)  # fmt: skip
def test_the_remedy_is_the_users_own_number(bad: str, right: str) -> None:
    with pytest.raises(InputError) as told:
        read_length(bad, "wall")
    assert right in told.value.remedy


def test_a_thousand_is_asked_about() -> None:
    with pytest.raises(InputError) as told:
        read_length("1,200", "length")
    assert "1.200" in told.value.remedy
    assert "1200" in told.value.remedy


def test_limits() -> None:
    assert read_length("-0.05", "clearance", signed=True).mm == -0.05
    assert read_length("−0.05 mm", "clearance", signed=True).mm == -0.05
    with pytest.raises(InputError, match="0 isn't possible"):
        read_length("0", "wall", may_be_zero=False)
    with pytest.raises(InputError, match=r"under 0\.15"):
        read_length("0.1", "wall", at_least=0.15)


@pytest.mark.parametrize(
    ("text", "step"),
    [("38.05", 0.01), ("38", 1.0), ("38.050", 0.001), ("2.5 cm", 1.0), ("0.032 in", 0.0254),
     ("1 1/16 in", 25.4 / 16), (38.05, 0.01), (1e-07, 1e-07)],
)  # fmt: skip
def test_step_of_the_last_digit(text: Any, step: float) -> None:
    assert read_length(text, "x").step == pytest.approx(step, rel=1e-9)


@given(st.floats(0, 9999, allow_nan=False))
def test_exact_decimal_reads_back(mm: float) -> None:
    text = exact_decimal(mm)
    if len(text) <= 40:
        assert read_length(text, "x").mm == mm
        assert read_length(f"{text} mm", "x").mm == mm


@given(st.floats(0, 9999), st.integers(0, 6))
def test_formatted_numbers_read_back(mm: float, decimals: int) -> None:
    text = format_number(mm, decimals)
    assert abs(read_length(text, "x").mm - mm) <= 0.5 * 10.0**-decimals * (1 + 1e-9) + 1e-12
    assert format_number(read_length(text, "x").mm, decimals) == text


@given(st.floats(0, 9000))
def test_inches_read_back(mm: float) -> None:
    assert abs(read_length(format_inch(mm), "x").mm - mm) <= 0.0127 + 1e-9


@given(st.integers(0, 300), st.integers(1, 63), st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_fractions_are_exact(whole: int, top: int, bottom: int) -> None:
    top %= bottom
    text = f"{whole} {top}/{bottom} in"
    right = float((whole + Fraction(top, bottom)) * Fraction(254, 10))
    assert read_length(text, "x").mm == pytest.approx(right, rel=1e-15)


@given(st.floats())
def test_numbers_never_print_as_minus_nought(value: float) -> None:
    assert format_number(value) != "-0.00"


PIECES = st.sampled_from(
    ["1", "38.05", "0", "1/2", "3/", "/0", ".", ",", " ", "-", "+", "mm", "in", '"', "cm", "ga",
     "swg", "b&s", "e5", "nan", "inf", "½", "٣", "\u2212", "\n", "9" * 30, "/", "m", "'", "ft",
     "μm", "\x00", "％"]
)  # fmt: skip
anything = st.one_of(
    st.text(max_size=60),
    st.lists(PIECES, max_size=7).map("".join),
    st.floats(),
    st.integers(),
    st.binary(max_size=8),
    st.recursive(
        st.none() | st.booleans() | st.text(max_size=5),
        lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=3), inner),
        max_leaves=5,
    ),
)


def outcome(read: Callable[[], Any]) -> tuple[Any, InputError | None]:
    """What reading gives, or the one kind of error it may raise."""
    try:
        return read(), None
    except InputError as fault:
        return None, fault


@settings(max_examples=4000)
@given(anything, st.booleans(), st.booleans())
@example("1" * 5000, False, True)
@example(10**5000, True, False)
def test_only_input_errors_come_out(given_thing: Any, signed: bool, gauged: bool) -> None:
    tables = GAUGES if gauged else None
    length, fault = outcome(lambda: read_length(given_thing, "here", gauges=tables, signed=signed))
    if fault is None:
        assert math.isfinite(length.mm)
        assert signed or length.mm >= 0
        assert abs(length.mm) <= 10_000
    else:
        assert fault.field == "here"
        assert len(str(fault)) < 400


@settings(max_examples=2000)
@given(anything)
def test_only_input_errors_come_out_of_numbers(given_thing: Any) -> None:
    number, fault = outcome(lambda: read_number(given_thing, "share", "1/3", 0.05, 0.95))
    assert 0.05 <= number <= 0.95 if fault is None else fault.field == "share"


@pytest.mark.parametrize(
    ("text", "number"),
    [("1/3", 1 / 3), ("0.3", 0.3), ("30 %", 0.3), ("30%", 0.3), (0.25, 0.25), (" 1 / 4 ", 0.25)],
)
def test_shares(text: Any, number: float) -> None:
    assert read_number(text, "share", "1/3", 0.05, 0.95) == pytest.approx(number, rel=1e-15)


@pytest.mark.parametrize(
    "bad", ["1/0", "0/0", "a half", "30", "", "-0.3", "0,3", "1e-1", "３", math.nan, True]
)
def test_no_share(bad: Any) -> None:
    with pytest.raises(InputError, match="share"):
        read_number(bad, "share", "1/3", 0.05, 0.95)


def test_a_fraction_in_its_lowest_terms_is_read_to_a_sixty_fourth() -> None:
    """3/8 in may have been 24/64: a rule's finest step, not its denominator, is its rounding."""
    assert read_length("3/8 in", "x", "1 in").fraction == pytest.approx(25.4 / 64)
    assert read_length("3/128 in", "x", "1 in").fraction == pytest.approx(25.4 / 128)
    assert read_length("0.375 in", "x", "1 in").fraction == 0


def test_points_in_one_text_carry_their_units_as_the_page_shows_them() -> None:
    read = read_points("0 0; 1.1 in 0; 1 1/2 in 12", "sizes.profile", "0 0; 21 0")
    assert read == (pytest.approx((0, 0)), pytest.approx((27.94, 0)), pytest.approx((38.1, 12)))
