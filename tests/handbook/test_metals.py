"""The metals make sense: within physical limits, consistent, found by every name they go by."""

import subprocess
import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hollowright.errors import InputError, UnknownName
from hollowright.handbook.metals import PROPERTIES, Metal, density_by_volume, metal, metals
from hollowright.handbook.sources import Sourced, source

WANTED = (
    "C11000", "C12200", "C26000", "C23000", "C22000", "C75200", "C51000",
    "Ag925", "Ag999", "Au585Y", "Au750Y",
)  # fmt: skip

LIMITS = {
    "density": (8.0, 20.0),
    "solidus": (700, 1120),
    "liquidus": (750, 1150),
    "conductivity": (20, 430),
    "specific_heat": (120, 420),
    "youngs_modulus": (60, 140),
    "yield_annealed": (20, 400),
    "expansion": (14, 21),
}
"""What these metals can physically be: gold to brass, no steel, no aluminium."""


def every_value() -> list[tuple[Metal, str, Sourced]]:
    return [
        (each, name, value)
        for each in metals()
        for name in PROPERTIES
        for value in (getattr(each, name), *getattr(each, name).alternatives)
    ]


def test_the_metals_asked_for_are_there() -> None:
    assert {each.id for each in metals()} >= set(WANTED)


@pytest.mark.parametrize("name", PROPERTIES)
def test_values_lie_within_physical_limits(name: str) -> None:
    low, high = LIMITS[name]
    for each, key, value in every_value():
        if key == name:
            assert low <= value.value <= high, (each.id, name, value)


@pytest.mark.parametrize("each", metals(), ids=lambda each: each.id)
def test_a_metal_is_consistent(each: Metal) -> None:
    assert each.solidus.value <= each.liquidus.value
    strain = each.yield_annealed.value / (1000 * each.youngs_modulus.value)
    assert 2e-4 < strain < 5e-3  # a soft metal yields at some 0.02 to 0.5 %
    assert each.cautions
    assert all(text.endswith(".") for text in each.cautions)


def test_alternatives_are_near_and_the_leader_says_why_it_leads() -> None:
    for each in metals():
        for name in PROPERTIES:
            leader = getattr(each, name)
            assert leader.unit
            for other in leader.alternatives:
                assert not other.alternatives
                assert other.unit == leader.unit
            if leader.alternatives:
                assert leader.note.startswith("leads"), (each.id, name)


def test_computed_densities_are_the_rule_s() -> None:
    recipes = {
        "Ag925": {"Ag": 925, "Cu": 75},
        "C26000": {"Cu": 700, "Zn": 300},
        "Au585Y": {"Au": 583, "Ag": 104, "Cu": 313},
        "Au750Y": {"Au": 750, "Ag": 130, "Cu": 120},
    }
    checked = 0
    for each, name, value in every_value():
        if name == "density" and value.source == "volume-rule":
            assert value.value == pytest.approx(density_by_volume(recipes[each.id]), abs=0.005)
            checked += 1
    assert checked == len(recipes)


def test_mixed_values_are_the_rule_s() -> None:
    """Heat by weight, modulus and expansion by volume, from the elements (memory)."""
    elements = {  # density, specific heat, modulus, expansion
        "Au": (19.32, 129, 78, 14.2),
        "Ag": (10.49, 235, 76, 19.6),
        "Cu": (8.96, 385, 117, 17.0),
    }
    recipes = {
        "Ag925": {"Ag": 925, "Cu": 75},
        "Au585Y": {"Au": 583, "Ag": 104, "Cu": 313},
        "Au750Y": {"Au": 750, "Ag": 130, "Cu": 120},
    }
    checked = 0
    for each, name, value in every_value():
        if value.source != "mixture-rule":
            continue
        parts = recipes[each.id]
        column = {"specific_heat": 1, "youngs_modulus": 2, "expansion": 3}[name]
        weights = {k: v if column == 1 else v / elements[k][0] for k, v in parts.items()}
        mean = sum(w * elements[k][column] for k, w in weights.items()) / sum(weights.values())
        assert value.value == pytest.approx(mean, rel=0.006), (each.id, name)
        checked += 1
    assert checked == 7


def test_wiedemann_franz_rows_are_the_law_s() -> None:
    lorenz = 2.44e-8 * 293
    resistivity = {"Ag925": 1.7241e-8 / 0.96, "Au585Y": 14e-8, "Au750Y": 13.5e-8}
    checked = 0
    for each, name, value in every_value():
        if value.source == "wiedemann-franz":
            assert name == "conductivity"
            assert value.value == pytest.approx(lorenz / resistivity[each.id], rel=0.01)
            checked += 1
    assert checked == len(resistivity)


@pytest.mark.parametrize(
    ("name", "found"),
    [
        ("brass", "C26000"),
        ("Cartridge Brass", "C26000"),
        ("c26000", "C26000"),
        ("copper", "C11000"),
        ("sterling", "Ag925"),
        ("925", "Ag925"),
        ("  fine   silver ", "Ag999"),
        ("gilding-metal", "C22000"),
        ("14K", "Au585Y"),
        ("18k yellow", "Au750Y"),
        ("red brass", "C23000"),
        ("nickel silver", "C75200"),
        ("bronze", "C51000"),
    ],
)
def test_a_metal_is_found_by_its_names(name: str, found: str) -> None:
    assert metal(name).id == found


def plain(name: str) -> str:
    return " ".join(name.lower().replace("-", " ").split())


def test_every_name_means_one_metal() -> None:
    names = [
        name
        for each in metals()
        for name in {plain(text) for text in (each.id, each.name, *each.aliases)}
    ]
    assert len(names) == len(set(names))


def test_an_unknown_metal_names_the_field_and_what_was_meant() -> None:
    with pytest.raises(UnknownName, match=r"stock\.tube\.metal: 'bras' isn't known\..*brass"):
        metal("bras", field="stock.tube.metal")


@given(st.one_of(st.text(), st.none(), st.floats(), st.lists(st.integers())))
def test_any_name_gives_a_metal_or_a_clear_error(name: object) -> None:
    try:
        told = metal(name).id
    except UnknownName as error:
        told = str(error)
    assert told in {each.id for each in metals()} or told.startswith("metal: ")


def test_the_volume_rule_lies_between_its_elements() -> None:
    assert density_by_volume({"Cu": 3}) == pytest.approx(8.96)
    assert 8.96 < density_by_volume({"Au": 1, "Cu": 9}) < 19.32


@pytest.mark.parametrize("parts", [{}, {"Au": 0}, {"Au": -1}, {"Ag": float("nan")}, {"Xx": 1}])
def test_the_volume_rule_refuses_nonsense(parts: dict[str, float]) -> None:
    with pytest.raises(InputError, match="parts: "):
        density_by_volume(parts)


def test_the_working_value_is_a_number() -> None:
    assert float(metal("brass").density) == 8.53
    assert source(metal("brass").density.source).status == "seen"


def test_importing_the_handbook_reads_nothing() -> None:
    code = (
        "import sys, hollowright.handbook.metals, hollowright.handbook.gauges, "
        "hollowright.handbook.recognise, hollowright.handbook.blades; "
        "print([m for m in ('tomllib', 'numpy', 'scipy', 'importlib.resources') "
        "if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
