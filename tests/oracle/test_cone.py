"""Cones of sheet against a CAD kernel: build123d (OpenCASCADE) cuts its own cones by planes.

Volumes, surfaces, weights, areas, lengths: 1e-6 relative.
"""

import math
from typing import Any

import pytest

from tests.oracle import kernel
from tests.oracle.cases import CLOSE, Case, cases, same_bodies

pytestmark = pytest.mark.oracle

CUT = {"sizes__cut_angle": "31.5 deg", "sizes__cut_height": "27.3 mm"}
CASES = cases(
    "cone",
    whole={"sizes__top_diameter": "0", "sizes__base_diameter": "47.3 mm"},
    no_hollow_at_top={"sizes__top_diameter": "1.1 mm", "sizes__height": "41.9 mm"},
    wide_above={"sizes__base_diameter": "17.7 mm", "sizes__top_diameter": "61.3 mm"},
    nearly_point_down={"sizes__base_diameter": "2.1 mm", "sizes__top_diameter": "38.6 mm"},
    square_ends={"sizes__ends": "square", "sizes__top_diameter": "33.7 mm"},
    cylinder={"sizes__top_diameter": "83 mm", "sizes__height": "21.7 mm"},
    cut=CUT | {"sizes__base_diameter": "57.2 mm", "sizes__top_diameter": "21.9 mm"},
    cut_cylinder=CUT | {"sizes__base_diameter": "41.7 mm", "sizes__top_diameter": "41.7 mm"},
    cut_wide_above=CUT | {"sizes__base_diameter": "33.1 mm", "sizes__top_diameter": "52.8 mm"},
)
named = pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
cut = pytest.mark.parametrize(
    "case", [case for case in CASES if "cut" in case.name or case.name == "example 2"],
    ids=lambda case: case.name,
)  # fmt: skip


def middle_of(case: Case, along: float = 0.0) -> Any:
    """The kernel's solid to the sheet's middle, led on by so much along the side at each end."""
    from build123d import Pos

    from tests.oracle.kernel_round import cone_between

    q = case.q
    low, high, height = q["base_diameter"], q["top_diameter"], q["height"]
    lost = q["sheet_thickness"] * math.hypot(1.0, (low - high) / 2 / height)
    slope = (high - low) / height
    more = along * height / math.hypot(height, (high - low) / 2)
    top = high - lost + slope * more
    tall = height + 2 * more
    if low - lost - slope * more < 0 or top < 0:  # it comes to its point first
        tall = (max(low, high) - lost + abs(slope) * more) / abs(slope)
        wide = max(low, high) - lost + abs(slope) * more
        body = cone_between(wide, 0.0, tall) if low > high else cone_between(0.0, wide, tall)
    else:
        body = cone_between(low - lost - slope * more, top, tall)
    made = Pos(0, 0, -more) * body
    if "cut_angle" in q:
        made = kernel.below(made, q["cut_height"], math.radians(q["cut_angle"]))
    return made


def side_of(body: Any) -> Any:
    from build123d import GeomType

    (side,) = (face for face in body.faces() if face.geom_type != GeomType.PLANE)
    return side


@named
def test_the_body(case: Case) -> None:
    same_bodies(case)


@named
def test_the_flat_has_the_middle_s_area(case: Case) -> None:
    # Cut square, the blank goes on at each end by the extra along the side; a slanting cut
    # takes that off again above.
    extra = case.q.get("square_extra", 0.0)
    (part,) = case.plan.parts
    side = side_of(middle_of(case, extra))
    near = CLOSE * kernel.area(side)
    if "cut_angle" in case.q:
        near += 1e-3 * max(map(kernel.length, side.edges()))  # its cubics keep within 0.001 mm
    assert part.blank.outline.area == pytest.approx(kernel.area(side), abs=near)
    open_ended = {"top_inside_diameter", "base_inside_diameter"} <= set(case.q)
    if open_ended and not extra and "cut_angle" not in case.q:
        metal = part.blank.outline.area * case.q["sheet_thickness"]
        assert metal == pytest.approx(kernel.volume(case.theirs["cone"]), rel=CLOSE)


@named
def test_slant_and_sector(case: Case) -> None:
    q = case.q
    if q["base_diameter"] == q["top_diameter"]:
        (rim, _) = sorted(side_of(middle_of(case)).edges(), key=kernel.length)[-2:]
        if "cut_angle" not in q:
            assert q["blank_length"] == pytest.approx(kernel.length(rim), rel=CLOSE)
        return
    from OCP.BRepAdaptor import BRepAdaptor_Surface

    side = side_of(middle_of(case))
    half = abs(BRepAdaptor_Surface(side.wrapped).Cone().SemiAngle())
    assert q["sector_angle"] == pytest.approx(360 * math.sin(half), rel=CLOSE)
    rounds = [kernel.length(edge) / math.tau for edge in side.edges() if _round(edge)]
    extra = q.get("square_extra", 0.0)
    if "cut_angle" not in q or q["base_diameter"] > q["top_diameter"]:
        outer = max(rounds) / math.sin(half) + extra
        assert q["sector_outer_radius"] == pytest.approx(outer, rel=CLOSE)
    if "cut_angle" not in q and len(rounds) == 2:
        inner = min(rounds) / math.sin(half) - extra
        assert q["sector_inner_radius"] == pytest.approx(inner, rel=CLOSE)


def _round(edge: Any) -> bool:
    from build123d import GeomType

    return bool(edge.geom_type == GeomType.CIRCLE)


@named
def test_what_it_holds(case: Case) -> None:
    if "capacity" not in case.q:
        closed = {"top_inside_diameter", "base_inside_diameter"} - set(case.q)
        assert closed or "cut_angle" in case.q
        return
    from tests.oracle.kernel_round import parallel_cone

    q = case.q
    inside = parallel_cone(q["base_diameter"], q["top_diameter"], q["height"], q["sheet_thickness"])
    assert q["capacity"] == pytest.approx(kernel.volume(inside) / 1000, rel=CLOSE)


@cut
def test_longest_and_shortest_line_of_the_cut(case: Case) -> None:
    from build123d import Plane, section

    lines = section(middle_of(case), Plane.XZ).edges()
    floor = {round(v.Z, 6) for line in lines for v in line.vertices()}
    sides = [line for line in lines if _stands(line)]
    found = sorted(map(kernel.length, sides))
    assert len(found) == 2
    assert min(floor) == 0
    q = case.q
    assert [q["short_side"], q["long_side"]] == pytest.approx(found, rel=CLOSE)


def _stands(line: Any) -> bool:
    """Whether a line goes from the table up to the cut along the side."""
    low, high = sorted(line.vertices(), key=lambda v: v.Z)
    return bool(abs(low.Z) < 1e-9 and high.Z > 1)
