"""Machinery's Handbook, 31st edition, pp. 1426 to 1428: diameters of shell blanks by equal area.

Eq. (39), sharp-cornered cylindrical shell: D = sqrt(d^2 + 4 d h), with its worked examples (seen).
The hemisphere's D = sqrt(2) d and the cap's 2 sqrt(a^2 + s^2) belong to the same set of formulas
(from memory). Corners by eq. (40), sqrt(d^2 + 4 d h) - r, are a rule of thumb: the exact area gives
more (5.2064 against 5.04), and that is what the code gives.
"""

import math

import pytest

from hollowright.job.job import plan_tables
from hollowright.shapes.curves import Arc, Curve, Line
from hollowright.shapes.developments.meridian import along, through
from hollowright.shapes.developments.raising import blank_diameter


def shell(d: float, h: float) -> float:
    return blank_diameter(through([(0, 0), (d / 2, 0), (d / 2, h)]))


def test_example_1() -> None:
    # d 1.5, h 2: printed 3.78; the formula itself gives 3.7749, within the printed rounding.
    assert shell(1.5, 2) == pytest.approx(3.78, abs=0.0055)


def test_example_2() -> None:
    # d 2, mean height 3.75 x 0.040 / 0.050 = 3.0 by eq. (41): printed 5.29.
    assert shell(2, 3.75 * 0.040 / 0.050) == pytest.approx(5.29, abs=0.005)


@pytest.mark.parametrize(("d", "h"), [(38.05, 14.2), (7.3, 61.0)])
def test_equation_39(d: float, h: float) -> None:
    assert shell(d, h) == pytest.approx(math.sqrt(d * d + 4 * d * h), rel=1e-12)


def rounded(d: float, h: float, r: float) -> float:
    curves: list[Curve] = [
        Line((0, 0), (d / 2 - r, 0)),
        Arc((d / 2 - r, r), r, -math.pi / 2, math.pi / 2),
        Line((d / 2, r), (d / 2, h)),
    ]
    return blank_diameter(along(curves))


def test_round_corner_exactly_and_by_the_rule() -> None:
    # d 2, h 3, r 1/4: exact 5.2064; the handbook's rule 5.29 - 0.25 = 5.04 is 3 % short.
    assert rounded(2, 3, 0.25) == pytest.approx(5.2064, abs=5e-5)
    assert 0.15 < rounded(2, 3, 0.25) - 5.04 < 0.18
    assert rounded(2, 3, 1e-6) == pytest.approx(shell(2, 3), rel=1e-5)


@pytest.mark.parametrize(
    ("a", "s", "blank"), [(20, 20, 56.5685), (20, 10, 44.7214), (25, 5, 50.9902)]
)
def test_caps(a: float, s: float, blank: float) -> None:
    # Cap of base radius a, rise s: half of the last digit worked out.
    radius = (a * a + s * s) / (2 * s)
    reach = math.asin(a / radius)
    cap = along([Arc((0.0, radius), radius, -math.pi / 2, reach)])
    assert blank_diameter(cap) == pytest.approx(blank, abs=5e-5)


def test_a_hemisphere() -> None:
    cup = along([Arc((0.0, 13.5), 13.5, -math.pi / 2, math.pi / 2)])
    assert blank_diameter(cup) == pytest.approx(math.sqrt(2) * 27, rel=1e-10)


def raised(profile: str, thickness: float) -> dict[str, float]:
    """A vessel's design with this outside: its quantities."""
    tables = {
        "design": "vessel",
        "stock": {"sheet": {"metal": "C11000", "thickness": str(thickness)}},
        "sizes": {"way": "raised", "curve" if "<" in profile else "profile": profile},
    }
    return {id: quantity.value for id, quantity in plan_tables(tables).quantities.items()}


@pytest.mark.parametrize(("outside", "height", "t"), [(39.15, 14.75, 1.1), (18.0, 61.4, 0.8)])
def test_equation_39_through_the_design(outside: float, height: float, t: float) -> None:
    # d and h are the metal's middle: outside less t, height less t / 2. Exact.
    d, h = outside - t, height - t / 2
    made = raised(f"0 0; {outside / 2} 0; {outside / 2} {height}", t)
    assert made["blank_diameter"] == pytest.approx(math.sqrt(d * d + 4 * d * h), rel=1e-9)


def test_example_1_through_the_design() -> None:
    # d 1.5, h 2 in at the middle of metal 0.04 in thick: printed 3.78 (3.7749 by the formula).
    inch = 25.4
    made = raised(f"0 0; {0.77 * inch} 0; {0.77 * inch} {2.02 * inch}", 0.04 * inch)
    assert made["blank_diameter"] / inch == pytest.approx(3.78, abs=0.0055)


@pytest.mark.parametrize(("radius", "t"), [(27.4, 0.9), (13.0, 0.55)])
def test_a_hemisphere_through_the_design(radius: float, t: float) -> None:
    # Chords of the drawn arc lie within 0.0001 mm: 4e-6 of the blank.
    drawing = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="90mm" viewBox="0 0 90 90">'
        f'<path d="M5 {radius + 9} A{radius} {radius} 0 0 0 {radius + 5} 9"/></svg>'
    )
    made = raised(drawing, t)
    assert made["blank_diameter"] == pytest.approx(math.sqrt(2) * (2 * radius - t), rel=5e-6)
    assert made["brim_capacity"] == pytest.approx(2 / 3 * math.pi * (radius - t) ** 3 / 1000,
                                                  rel=2e-5)  # fmt: skip
    assert made["across"] + made["height"] == pytest.approx(3 * radius, rel=1e-5)  # the usual slip


@pytest.mark.parametrize(("d", "h", "r"), [(41.6, 33.0, 6.5), (24.7, 60.3, 3.1)])
def test_a_round_corner_through_the_design(d: float, h: float, r: float) -> None:
    # The same exact area as above, of the metal's middle; chords within 0.0001 mm: 1e-5.
    t = 0.7
    outer = (d + t) / 2
    drawing = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="90mm" viewBox="0 0 90 90">'
        f'<path d="M5 80 H{5 + d / 2 - r} A{r + t / 2} {r + t / 2} 0 0 0 {5 + outer} '
        f'{80 - r - t / 2} V{80 - h - t / 2}"/></svg>'
    )
    assert raised(drawing, t)["blank_diameter"] == pytest.approx(rounded(d, h, r), rel=1e-5)
