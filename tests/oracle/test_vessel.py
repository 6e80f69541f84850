"""Turned vessels against a CAD kernel: build123d (OpenCASCADE) turns sections of its own curves.

Straight profiles: 1e-6 relative. We follow a curve by chords within 0.0001 mm: volumes, areas and
lengths within 1e-5; a drawn body's chords lie within 0.01 mm: surfaces within 4e-4.
"""

import math
from typing import Any

import pytest

from tests.oracle import kernel
from tests.oracle.cases import CLOSE, Case, cases, same_bodies

pytestmark = pytest.mark.oracle

KICKED = "0 4.2; 19.3 0; 27.1 13.7; 25.9 31.2"
JAR = "0 0; 18.2 0; 27.4 8.8; 31.1 26.3; 22.7 41.9; 19.4 52.6"
BOTTLE = """<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="80mm" viewBox="0 0 60 80">
<path d="M0 78 H16 A5 5 0 0 0 21 73 V52 C21 40 13 38 12 27 V8"/></svg>"""
CASES = cases(
    "vessel",
    straight={"sizes__profile": JAR, "sizes__between": "straight", "sizes__fill_level": None},
    kicked={"sizes__profile": KICKED, "sizes__between": "straight", "sizes__fill_level": "27 mm"},
    round_bottom={"sizes__profile": "0 0; 21.3 9.2; 31.7 27.9; 30.2 45.1"},
    bottle={"sizes__curve": BOTTLE, "sizes__profile": None, "sizes__fill_level": "61 mm"},
    straight_gores={
        "sizes__profile": JAR,
        "sizes__between": "straight",
        "sizes__way": "gores",
        "sizes__gores": 7,
    },
    gores_round={"sizes__profile": "0 0; 21.3 9.2; 31.7 27.9; 30.2 45.1", "sizes__way": "gores"},
    cones_of_a_curve={"sizes__way": "cones"},
    cones_in={"sizes__profile": JAR, "sizes__between": "straight", "sizes__way": "cones"},
)
named = pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)


def curved(case: Case) -> bool:
    sizes = case.tables["sizes"]
    return sizes.get("way") != "cones" and ("curve" in sizes or sizes.get("between") == "curved")


def near(case: Case) -> float:
    return 1e-5 if curved(case) else CLOSE


def inner(case: Case, depth: float) -> Any:
    """The kernel's solid further than a depth inside the outside, up to the rim."""
    from tests.oracle.kernel_vessel import hollow, outside, turned

    return turned(hollow(outside(case.tables["sizes"]), depth))


def side(body: Any, top: float) -> list[Any]:
    """A body's faces but for the flat one at its top."""
    return [face for face in body.faces() if not _lies(face, top)]


def _lies(face: Any, height: float) -> bool:
    from build123d import GeomType

    flat = face.geom_type == GeomType.PLANE and abs(face.normal_at().Z) > 0.5
    return flat and abs(face.center().Z - height) < 1e-5


@named
def test_base_and_wall(case: Case) -> None:
    same_bodies(case, near(case), 4e-4 if curved(case) else CLOSE, near(case))


@named
def test_what_it_holds(case: Case) -> None:
    from tests.oracle.kernel_round import cone_between, parallel_cone

    q = case.q
    if case.tables["sizes"].get("way") == "cones":
        stacked = []
        low, number = q["sheet_thickness"], 1
        while f"cone_{number}_height" in q:
            id = f"cone_{number}"
            ends = (q[f"{id}_low"], q.get(f"{id}_high", q[f"{id}_low"]), q[f"{id}_height"])
            assert cone_between(*ends).volume > 0
            stacked.append((low, parallel_cone(*ends, q["sheet_thickness"])))
            low, number = low + ends[2], number + 1
        parts = [(z, body) for z, body in stacked if z < q["fill_level"]]
        wet = [kernel.below(body, q["fill_level"] - z) for z, body in parts]
        brim = sum(kernel.volume(body) for _, body in stacked)
    else:
        inside = inner(case, q["sheet_thickness"])
        wet, brim = [kernel.below(inside, q["fill_level"])], kernel.volume(inside)
    found = sum(map(kernel.volume, wet)) / 1000
    assert q["capacity"] == pytest.approx(found, rel=near(case))
    assert q["brim_capacity"] == pytest.approx(brim / 1000, rel=near(case))


@named
def test_areas_of_outside_and_middle(case: Case) -> None:
    from tests.oracle.kernel_vessel import filled, outside, turned

    q = case.q
    if "outside_area" not in q:
        assert case.tables["sizes"]["way"] == "cones"
        return
    whole = turned(filled(outside(case.tables["sizes"])))
    found = sum(map(kernel.area, side(whole, q["height"])))
    assert q["outside_area"] == pytest.approx(found, rel=2 * near(case))
    if "blank_diameter" in q:
        middle = sum(map(kernel.area, side(inner(case, q["sheet_thickness"] / 2), q["height"])))
        assert q["mid_area"] == pytest.approx(middle, rel=2 * near(case))
        blank = math.pi / 4 * q["blank_diameter"] ** 2
        assert blank == pytest.approx(middle, rel=2 * near(case))


@named
def test_a_gore_is_its_share_of_the_middle(case: Case) -> None:
    if "gores" not in case.q:
        assert case.tables["sizes"].get("way") != "gores"
        return
    from tests.oracle.kernel_vessel import hollow, outside

    q = case.q
    thick, count = q["sheet_thickness"], q["gores"]
    middle = inner(case, thick / 2)
    if "base_diameter" in q:
        middle = kernel.above(middle, thick)
    walls = [face for face in side(middle, q["height"]) if not _lies(face, thick)]
    part = next(part for part in case.plan.parts if part.id == "gore")
    shared = sum(map(kernel.area, walls)) / count
    assert part.blank.outline.area == pytest.approx(shared, rel=2 * near(case))
    box = middle.bounding_box().size
    assert q["gore_width"] == pytest.approx(math.pi * box.X / count, rel=1e-5)
    face = hollow(outside(case.tables["sizes"]), thick / 2)
    low = thick if "base_diameter" in q else -1.0
    line = [edge for edge in face.edges() if _wall(edge, low, q["height"])]
    cut = sum(kernel.length(*_above(edge, low)) for edge in line)
    assert q["gore_length"] == pytest.approx(cut, rel=2 * near(case))


def _wall(edge: Any, low: float, high: float) -> bool:
    a, b = edge @ 0, edge @ 1
    on_axis, level = max(a.X, b.X) < 1e-6, min(a.Y, b.Y) > high - 1e-6
    return not on_axis and not level and max(a.Y, b.Y) > low


def _above(edge: Any, low: float) -> list[Any]:
    """What of an edge lies above a level."""
    from build123d import Align, Pos, Rectangle

    room = Pos(-1, low) * Rectangle(999, 999, align=(Align.MIN, Align.MIN))
    found = edge.intersect(room.face())
    return list(found.edges()) if hasattr(found, "edges") else [e for s in found for e in s.edges()]


@named
def test_flats_of_cones_hold_their_metal(case: Case) -> None:
    for part in case.plan.parts:
        if part.id.startswith("cone"):
            metal = part.blank.outline.area * case.q["sheet_thickness"]
            assert metal == pytest.approx(kernel.volume(case.theirs[part.id]), rel=CLOSE), part.id
