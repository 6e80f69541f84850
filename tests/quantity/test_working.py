"""How a quantity's number is written for the bench."""

from __future__ import annotations

import pytest

from hollowright.quantity import exact
from hollowright.quantity.working import value_text


@pytest.mark.parametrize(
    ("grams", "text"), [(0.648, "0.65 g"), (9.994, "9.99 g"), (10.04, "10.0 g"), (57.46, "57.5 g")]
)
def test_small_weights_have_a_second_decimal(grams: float, text: str) -> None:
    """Parts of 0.65 and 0.48 g add up to 1.13; in tenths they would read 0.7 + 0.5 = 1.1."""
    assert value_text(exact("mass", "weight", "g", grams)) == text
