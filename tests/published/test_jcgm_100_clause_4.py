"""JCGM 100:2008 (GUM), clause 4: type A and type B evaluations.

4.4.3 with Table 1 (twenty temperature readings), 4.4.5 and 4.4.6, F.2.2.1. From memory; the mean
and the standard deviation that the text prints follow from the readings as remembered.
"""

import math

import pytest

from hollowright.quantity import rectangular
from hollowright.quantity.readings import type_a
from hollowright.quantity.statistics import mean_and_spread

TABLE_1 = [
    96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07,
    100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72,
]  # fmt: skip


def test_twenty_readings() -> None:
    mean, spread = mean_and_spread(TABLE_1)
    # 4.4.3 prints 100.145 and 1.489 (half of the last digit); u of the mean 0.333.
    assert mean == pytest.approx(100.145, abs=0.0005)
    assert spread == pytest.approx(1.489, abs=0.0005)
    assert spread / math.sqrt(20) == pytest.approx(0.333, abs=0.0005)


def test_type_a_from_twenty_readings() -> None:
    doubt = type_a(TABLE_1, repeatability=0.01)
    # The scale of the scaled Student t is the GUM's u; its standard deviation is sqrt(19/17) more
    # (JCGM 101 6.4.9.4).
    assert doubt.dof == pytest.approx(19, abs=0)
    assert doubt.standard / math.sqrt(19 / 17) == pytest.approx(0.333, abs=0.0005)


def test_rectangular() -> None:
    # 4.4.5: anywhere from 96 to 104 degrees C, printed 2.3.
    assert rectangular(4.0).standard == pytest.approx(2.3, abs=0.05)
    # 4.3.7: a / sqrt 3 exactly; F.2.2.1: a display's step dx gives 0.29 dx.
    assert rectangular(1.0).standard == pytest.approx(0.577, abs=0.0005)
    assert rectangular(0.5).standard == pytest.approx(0.29, abs=0.005)
    # 20 um of a calliper's permissible error (DIN 862) as rectangular: 11.5 um.
    assert rectangular(20.0).standard == pytest.approx(11.5, abs=0.05)
