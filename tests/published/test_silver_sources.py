"""Silver: a metals reference book's chapter, and a supplier's data sheet for sterling (both seen).

Printed in SI: exact. The supplier prints the words solidus and liquidus the wrong way round: the
lower figure, 788, is the solidus, since no alloy is liquid below the temperature where it melts.
"""

import pytest

from hollowright.handbook.metals import metal


def told(name: str, alloy: str) -> set[float]:
    leader = getattr(metal(alloy), name)
    return {leader.value, *(each.value for each in leader.alternatives)}


@pytest.mark.parametrize(
    ("name", "value"),
    [("density", 10.5), ("solidus", 960.8), ("specific_heat", 234), ("conductivity", 419),
     ("expansion", 19.6), ("youngs_modulus", 76)],
)  # fmt: skip
def test_fine_silver(name: str, value: float) -> None:
    assert value in told(name, "Ag999")


@pytest.mark.parametrize(
    ("name", "value"),
    [("density", 10.36), ("solidus", 788), ("liquidus", 891), ("specific_heat", 245),
     ("expansion", 19), ("yield_annealed", 124)],
)  # fmt: skip
def test_sterling(name: str, value: float) -> None:
    assert value in told(name, "Ag925")


def test_the_freezing_point_of_silver() -> None:
    # ITS-90, 961.78 C, a fixed point of the scale (memory); kept to 0.1.
    assert metal("Ag999").solidus.value == pytest.approx(961.78, abs=0.05)
    assert metal("Ag999").liquidus.value == metal("Ag999").solidus.value


def test_sterling_melts_between_the_eutectic_and_silver() -> None:
    # The silver-copper eutectic: 779 to 780 C (AWS A5.8 1435 F, ISO 17672).
    for value in told("solidus", "Ag925"):
        assert 779 < value < 820
