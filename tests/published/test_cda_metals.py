"""Copper Development Association, alloy data sheets: the copper alloys in the sheets' own units.

The sheets print degrees F, Btu/ft h F, lb/in3, psi and 1e-6/F; this handbook stores SI. Each check
converts the printed figure by itself. C11000, C26000, C23000 and C51000 (in part) were read (seen);
C22000's melting range stands in a database of CDA data (seen); C12200, C75200, the rest of C22000
and the melting range of C51000 are from memory. Tolerance: half of the digit kept here.
"""

import pytest

from hollowright.handbook.metals import metal

BTU = 1.730735  # W/mK in 1 Btu/ft h F
LB_IN3 = 27.679905  # g/cm3 in 1 lb/in3
KSI = 6.894757  # MPa in 1 ksi


def celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32) / 1.8


@pytest.mark.parametrize(
    ("alloy", "solidus", "liquidus", "memory"),
    [("C26000", 1680, 1750, False), ("C23000", 1810, 1880, False), ("C22000", 1870, 1910, False),
     ("C51000", 1750, 1920, True), ("C75200", 1960, 2030, True)],
)  # fmt: skip
def test_melting_range(alloy: str, solidus: float, liquidus: float, memory: bool) -> None:
    assert metal(alloy).solidus.value == pytest.approx(celsius(solidus), abs=0.5)
    assert metal(alloy).liquidus.value == pytest.approx(celsius(liquidus), abs=0.5)
    assert metal(alloy).solidus.source.endswith("memory") is memory


def test_melting_range_of_copper() -> None:
    # Printed in degrees C: exact.
    assert (metal("C11000").solidus.value, metal("C11000").liquidus.value) == (1065, 1083)
    # 1981 F printed for C12200, one figure.
    assert metal("C12200").liquidus.value == pytest.approx(celsius(1981), abs=0.5)


@pytest.mark.parametrize(
    ("alloy", "btu", "memory"),
    [("C11000", 226, False), ("C26000", 70, False), ("C23000", 92, False), ("C51000", 40, False),
     ("C12200", 196, True), ("C22000", 109, True), ("C75200", 19, True)],
)  # fmt: skip
def test_conductivity(alloy: str, btu: float, memory: bool) -> None:
    assert metal(alloy).conductivity.value == pytest.approx(btu * BTU, abs=0.5)
    assert metal(alloy).conductivity.source.endswith("memory") is memory


@pytest.mark.parametrize(
    ("alloy", "lb"),
    [("C26000", 0.308), ("C23000", 0.316), ("C51000", 0.320), ("C12200", 0.323)],
)
def test_density(alloy: str, lb: float) -> None:
    # lb/in3 is printed to 0.001, that is 0.028 g/cm3: half of it, as the sheets round both figures.
    assert metal(alloy).density.value == pytest.approx(lb * LB_IN3, abs=0.014)


def test_density_of_copper_is_within_the_range_printed() -> None:
    assert 8.89 <= metal("C11000").density.value <= 8.94


@pytest.mark.parametrize(
    ("alloy", "per_f"),
    [
        ("C26000", 11.1),
        ("C23000", 10.4),
        ("C51000", 9.9),
        ("C22000", 10.2),  # memory, as the next two
        ("C12200", 9.8),
        ("C75200", 9.0),
    ],
)
def test_expansion(alloy: str, per_f: float) -> None:
    # Half of the printed digit, 0.05e-6/F, is 0.09e-6/K.
    assert metal(alloy).expansion.value == pytest.approx(per_f * 1.8, abs=0.09)


@pytest.mark.parametrize(
    ("alloy", "ksi"),
    [("C11000", 17000), ("C23000", 17000), ("C51000", 16000), ("C26000", 16000), ("C75200", 18000)],
)
def test_modulus(alloy: str, ksi: float) -> None:
    # C26000's 16e6 psi is the mill sheet's (seen), which misprints its conversion as 112; C75200's
    # is from memory. Half of the digit kept.
    assert metal(alloy).youngs_modulus.value == pytest.approx(ksi * KSI / 1000, abs=0.5)


def test_specific_heat() -> None:
    # 0.092 and 0.09 cal/g C, thermochemical calorie 4.184 J, to the whole J/kgK.
    assert metal("C11000").specific_heat.value == pytest.approx(92 * 4.184, abs=0.5)
    assert metal("C26000").specific_heat.value == pytest.approx(90 * 4.184, abs=0.5)


def test_expansion_of_copper() -> None:
    # Printed in 1e-6/K for three ranges; from 20 to 300 C, and from 20 to 100 C beside it.
    assert metal("C11000").expansion.value == 17.7
    assert [each.value for each in metal("C11000").expansion.alternatives] == [17.0]


def test_softest_brass() -> None:
    # The sheet's yields run from 11 ksi: the softest temper, kept as an alternative.
    rivals = {each.value for each in metal("brass").yield_annealed.alternatives}
    assert round(11 * KSI) in rivals
    assert metal("brass").yield_annealed.value > 11 * KSI


def test_from_memory() -> None:
    # Printed in SI on the sheets as remembered (memory): exact.
    assert metal("C22000").density.value == 8.80
    assert metal("C22000").youngs_modulus.value == 117
    assert metal("C75200").density.value == 8.73
    for alloy in ("C22000", "C23000"):
        assert 377 in {each.value for each in metal(alloy).specific_heat.alternatives}
    assert metal("C75200").specific_heat.value == 377
    assert metal("C12200").specific_heat.value == 385
    assert metal("C12200").youngs_modulus.value == 117
    # 10 ksi, grain 0.050 mm.
    assert metal("C12200").yield_annealed.value == pytest.approx(10 * KSI, abs=0.5)
