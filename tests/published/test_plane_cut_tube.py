"""Cuts of tubes against DLMF chapter 19 (as SciPy computes it) and GNU Octave's ellipke table.

The cut of a tube of radius b, `a` from square, is an ellipse of half axes b / cos a and b: its
perimeter is 4 (b / cos a) E(m), m = sin(a)^2 (DLMF 19.9.9). Octave's table gives E(m) to 20 digits
(seen). The branch rows are any descriptive geometry text's, recomputed. Tolerances: the
quadrature's 1e-11, or half of the last digit worked out.
"""

import math

import pytest
from scipy.special import ellipe

from hollowright.job.job import plan_tables
from hollowright.plan.plan import Plan
from hollowright.shapes.developments.cylinder import cut_ellipse, mitre_blank
from hollowright.shapes.developments.saddle import Crossing, Saddle

OCTAVE = [
    (0.0, 1.5707963267948966192), (0.01, 1.5668619420216682912), (0.1, 1.5307576368977632025),
    (0.5, 1.3506438810476755025), (0.9, 1.1047747327040733261), (0.99, 1.0159935450252239356),
]  # fmt: skip


@pytest.mark.parametrize(("m", "second"), OCTAVE)
def test_perimeter_by_octave_s_table(m: float, second: float) -> None:
    radius, lean = 19.025, math.asin(math.sqrt(m))
    perimeter = 4 * radius / math.cos(lean) * second
    assert cut_ellipse(radius, lean).length() == pytest.approx(perimeter, rel=1e-11)


@pytest.mark.parametrize("degrees", [0, 7.3, 22.5, 45, 63, 80])
def test_perimeter_by_scipy(degrees: float) -> None:
    lean = math.radians(degrees)
    perimeter = 4 * 6.35 / math.cos(lean) * float(ellipe(math.sin(lean) ** 2))
    assert cut_ellipse(6.35, lean).length() == pytest.approx(perimeter, rel=1e-11)


@pytest.mark.parametrize("degrees", [7.3, 22.5, 45, 63])
def test_the_flat_s_edge_is_as_long(degrees: float) -> None:
    # The unrolled edge is a sine curve; its length is the ellipse's, of the neutral radius.
    blank = mitre_blank(12.7, 0.4, math.radians(degrees), 60, fibre="outer", neutral=1.0)
    edge = [s for s in blank.outline(1e-5).segments if type(s).__name__ == "Cubic"]
    lean = math.radians(degrees)
    perimeter = 4 * 6.35 / math.cos(lean) * float(ellipe(math.sin(lean) ** 2))
    assert sum(cubic.length() for cubic in edge) == pytest.approx(perimeter, abs=1e-5)


def test_45_degrees_of_a_20_mm_tube() -> None:
    assert cut_ellipse(10, math.radians(45)).length() == pytest.approx(76.40396, abs=5e-6)


SQUARE = [(0, 15.0), (15, 14.7750), (30, 14.1421), (45, 13.2288), (60, 12.2474), (75, 11.4760)]
SLANTING = [(0, 11.5470), (45, 11.1928), (90, 12.9099), (135, 19.3577), (180, 23.0940)]


@pytest.mark.parametrize(("t", "depth"), [*SQUARE, (90, 11.1803)])
def test_branch_of_10_on_a_main_of_15_square(t: float, depth: float) -> None:
    assert Crossing(15, 10).depth(math.radians(t)) == pytest.approx(depth, abs=5e-5)


@pytest.mark.parametrize(("t", "depth"), SLANTING)
def test_branch_of_10_on_a_main_of_15_at_60_degrees(t: float, depth: float) -> None:
    crossing = Crossing(15, 10, math.radians(60))
    assert crossing.depth(math.radians(t)) == pytest.approx(depth, abs=5e-5)


def test_the_acute_side_is_at_180_degrees() -> None:
    # A branch leaning towards +x meets the main far out on that side, where the angle is acute.
    crossing = Crossing(15, 10, math.radians(60))
    near, far = crossing.space(0), crossing.space(math.pi)
    assert near[0] < far[0]
    assert crossing.depth(0) < crossing.depth(math.pi)


@pytest.mark.parametrize(
    ("main", "branch", "deepest", "half"),
    [(20, 10, 17.3205, 10.4720), (20, 20, 0.0, 31.4159), (15, 12, 9.0, 13.9094)],
)
def test_depth_and_half_width_of_the_hole(
    main: float, branch: float, deepest: float, half: float
) -> None:
    crossing = Crossing(main, branch)
    assert crossing.depth(math.pi / 2) == pytest.approx(deepest, abs=5e-5)
    assert main * crossing.hole(math.pi / 2)[0] == pytest.approx(half, abs=5e-5)
    if branch < main:
        saddle = Saddle(2 * main, 0.5, 2 * branch + 1, 0.5)
        assert saddle.hole().width == pytest.approx(2 * half, abs=2e-4)


def test_equal_tubes() -> None:
    # Two plane ellipses at 45 degrees: depth r |cos t|.
    crossing = Crossing(8.1, 8.1)
    for t in (0.0, 0.4, 1.1, 2.9):
        assert crossing.depth(t) == pytest.approx(8.1 * abs(math.cos(t)))


def mitre(outside: float, wall: float, degrees: float) -> Plan:
    tube = {"metal": "C26000", "outside_diameter": [f"{outside}"] * 2, "wall": f"{wall}"}
    sizes = {"angle": f"{degrees:.9f}", "length": 400}
    return plan_tables(
        {"title": "Mitre", "design": "tube-mitre", "stock": {"tube": tube}, "sizes": sizes}
    )


def test_the_seam_of_a_45_degree_mitre() -> None:
    # 20 mm across the middle of the wall: 76.40396 round, half of the last digit worked out.
    made = mitre(20.8, 0.8, 45)
    assert made.quantities["joint_length"].value == pytest.approx(76.40396, abs=5e-6)


@pytest.mark.parametrize(("m", "second"), OCTAVE[1:5])
def test_the_seam_of_a_mitre_by_octave_s_table(m: float, second: float) -> None:
    degrees = math.degrees(math.asin(math.sqrt(m)))
    made = mitre(38.05, 1.01, degrees)
    round_it = 4 * (38.05 - 1.01) / 2 / math.sqrt(1 - m) * second
    # The angle is written to nine decimals.
    assert made.quantities["joint_length"].value == pytest.approx(round_it, rel=1e-9)


def branch(angle: int, main: float, outside: float, wall: float = 1.0) -> Plan:
    stock = {
        "main": {"metal": "C26000", "outside_diameter": [f"{main}"] * 2, "wall": "0.6"},
        "branch": {"metal": "C26000", "outside_diameter": [f"{outside}"] * 2, "wall": f"{wall}"},
    }
    sizes = {"main_length": 400, "at": 170, "length": 150, "angle": angle, "cut": "bevelled"}
    return plan_tables({"title": "Branch", "design": "tube-saddle", "stock": stock, "sizes": sizes})


@pytest.mark.parametrize(
    ("angle", "rows"),
    [
        (90, [SQUARE[0], SQUARE[2], SQUARE[4], (90, 11.1803)]),
        (60, [SLANTING[i] for i in (0, 2, 4)]),
    ],
)
def test_the_paper_of_a_branch_of_10_on_a_main_of_15(
    angle: int, rows: list[tuple[int, float]]
) -> None:
    made = branch(angle, 30, 20)
    top = made.quantities["highest"].value + 15  # of paper beside the line
    for t, depth in rows:
        assert top - made.quantities[f"ordinate_{t}"].value == pytest.approx(depth, abs=5e-5)


@pytest.mark.parametrize(("main", "hole", "half"), [(20, 10, 10.4720), (15, 12, 13.9094)])
def test_the_planned_hole_s_half_width(main: float, hole: float, half: float) -> None:
    # The branch's bore is the hole; on paper of 0.1 mm it is so much wider.
    made = branch(90, 2 * main, 2 * hole + 1.4, 0.7)
    width = made.quantities["hole_width"].value / (1 + 0.05 / main)
    assert width / 2 == pytest.approx(half, abs=5e-5)
