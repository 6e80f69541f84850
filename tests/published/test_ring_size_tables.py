"""Ring sizes by the encyclopedia's table (after a circular of the US Bureau of Standards), others.

United States: inside diameters in inches to 0.001 and mm to 0.01, circumferences to 0.1 mm. United
Kingdom: the same table's letters, and the metric definition of BS 6820. Japan: a printed chart of
sizes, diameters to 0.1 mm. A dictionary of units gives British and Japanese sizes as formulas.
Tolerance: half of the last digit printed, unless a line says otherwise.
"""

import math

import pytest

from hollowright.formulas.band import length
from hollowright.handbook.ring_sizes import ring_size


@pytest.mark.parametrize(
    ("size", "inches", "mm", "around"),
    [
        ("0", 0.458, 11.63, 36.5), ("1", 0.490, 12.45, 39.1), ("2", 0.522, 13.26, 41.7),
        ("3", 0.554, 14.07, 44.2), ("4", 0.586, 14.88, 46.8), ("1/4", 0.466, 11.84, 37.2),
        ("2 3/4", 0.546, 13.87, 43.6), ("4 1/4", 0.594, 15.09, 47.4), ("7", 0.682, 17.32, 54.4),
        ("10", 0.778, 19.76, 62.1),
    ],
)  # fmt: skip
def test_united_states(size: str, inches: float, mm: float, around: float) -> None:
    inch = ring_size(f"US {size}", table="inch")
    assert inch.diameter / 25.4 == pytest.approx(inches, abs=1e-9)  # the law is the table's own
    for table in ("metric", "inch"):
        made = ring_size(f"US {size}", table=table)
        assert made.diameter == pytest.approx(mm, abs=0.0085)  # the two laws differ by 0.003
        assert made.circumference == pytest.approx(around, abs=0.061)


@pytest.mark.parametrize(
    ("letter", "mm", "around"),
    [
        ("A", 12.04, 37.8), ("B", 12.45, 39.1), ("C", 12.85, 40.4), ("D", 13.26, 41.7),
        ("E", 13.67, 42.9), ("F", 14.07, 44.2), ("G", 14.48, 45.5), ("H", 14.88, 46.8),
        ("I", 15.29, 48.0), ("J", 15.49, 48.7), ("L 1/2", 16.51, 51.9), ("N", 17.12, 53.8),
        ("N 1/2", 17.32, 54.4), ("S", 19.15, 60.2), ("Y", 21.59, 67.8), ("Z", 21.79, 68.5),
    ],
)  # fmt: skip
def test_letters_of_the_older_table(letter: str, mm: float, around: float) -> None:
    made = ring_size(f"UK {letter}", table="inch")
    assert made.diameter == pytest.approx(mm, abs=0.0051)
    assert made.circumference == pytest.approx(around, abs=0.075)  # printed from rounded inches


@pytest.mark.parametrize(
    ("letter", "around"),
    [("A", 37.5), ("C", 40.0), ("I", 47.5), ("N", 53.75), ("N 1/2", 54.375), ("Z", 68.75)],
)
def test_letters_of_the_metric_definition(letter: str, around: float) -> None:
    # BS 6820:1987 / BS EN 28653:1993 as the encyclopedia gives it: exact.
    assert ring_size(f"UK {letter}").circumference == pytest.approx(around, abs=1e-9)


@pytest.mark.parametrize("letter", ["A", "H", "N", "U"])
def test_british_sizes_by_the_dictionary_of_units(letter: str) -> None:
    # Inside circumference 36.25 + 1.25 n, A = 1: exact.
    count = ord(letter) - 64
    made = ring_size(f"UK {letter}")
    assert made.circumference == pytest.approx(36.25 + 1.25 * count, abs=1e-9)


@pytest.mark.parametrize(
    ("size", "mm", "around"),
    [
        (1, 13.0, 40.8), (2, 13.3, 41.9), (3, 13.7, 42.9), (9, 15.7, 49.2), (12, 16.7, 52.4),
        (17, 18.4, 57.6), (22, 20.0, 62.8), (27, 21.7, 68.0),
    ],
)  # fmt: skip
def test_japan(size: int, mm: float, around: float) -> None:
    made = ring_size(f"JP {size}")
    assert made.diameter == pytest.approx(mm, abs=0.071)  # 18.333 is printed 18.4
    assert made.circumference == pytest.approx(around, abs=0.08)  # cut, not rounded
    # The dictionary of units: diameter (n + 38) / 3, exact.
    assert made.diameter == pytest.approx((size + 38) / 3, abs=1e-9)


@pytest.mark.parametrize("size", [4, 14, 27])
def test_less_40(size: int) -> None:
    # Switzerland, Italy, Spain: a 50 in Germany is a 10 in Switzerland.
    made = ring_size(f"CH {size}")
    assert math.pi * made.diameter == pytest.approx(ring_size(f"DE {size + 40}").circumference)


@pytest.mark.parametrize(
    ("size", "around", "thickness"), [("7", 54.42, 1.5), ("4", 46.76, 1.9), ("10", 62.08, 1.22)]
)
def test_the_blank_rule(size: str, around: float, thickness: float) -> None:
    # Inside circumference + 3.14 x thickness, circumferences by the law in inches to 0.01. The
    # other law (0.01 round), 3.14 for pi (0.003) and the rounding: 0.02.
    inside = ring_size(f"US {size}").diameter
    assert length(inside, thickness) == pytest.approx(around + 3.14 * thickness, abs=0.02)
