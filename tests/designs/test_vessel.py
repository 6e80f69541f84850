"""The vessel, each way: areas, weights and capacity by other libraries, slips, refusals, walls."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Any

import pytest
import shapely
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from hollowright.designs import vessel_lines as lines
from hollowright.designs.vessel_gores import edge_length, gore_outline
from hollowright.designs.vessel_profile import from_curves
from hollowright.errors import InputError
from hollowright.job.job import plan_tables
from hollowright.plan.plan import Plan
from hollowright.plan.slips import check
from hollowright.shapes.curves import Arc, Line
from hollowright.shapes.developments.gores import Gore
from hollowright.shapes.developments.meridian import along
from hollowright.shapes.developments.raising import courses

POINTS = ((0.0, 0.0), (17.2, 0.0), (24.1, 9.3), (26.4, 22.0), (26.4, 34.5), (21.7, 45.9))
BELLY = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="50mm" viewBox="0 0 60 50">'
    '<path d="M3 48 H{foot} C{a} 45 47 39 47 26 C47 18 44 12 41 6"/></svg>'
)


def written(points: Any) -> str:
    return "; ".join(f"{r:.4f} {z:.4f}" for r, z in points)


def tables(way: str = "raised", thickness: Any = "0.9", **sizes: Any) -> dict[str, Any]:
    if "curve" not in sizes:
        sizes = {"profile": written(POINTS), **sizes}
    return {
        "design": "vessel",
        "stock": {"sheet": {"metal": "C26000", "thickness": thickness}},
        "sizes": {"way": way, **sizes},
    }


def plan(*given: Any, **sizes: Any) -> Plan:
    return plan_tables(tables(*given, **sizes))


def value(made: Plan, id: str) -> float:
    return made.quantities[id].value


# ---- a polygon library's parallel lines, turned by Pappus's theorem


def parallel(points: Any, depth: float) -> shapely.LineString:
    """The line at a depth inside, led on beyond axis and rim so that both can be cut square."""
    (a, b), (c, d) = points[-2:]
    on = (c + (c - a) / 2, d + (d - b) / 2)
    line = shapely.LineString([(-20.0, points[0][1]), *points[1:-1], on])
    return line.offset_curve(depth, join_style="mitre", mitre_limit=50)


def swept(points: Any, depth: float, level: float) -> float:
    """Area of the surface at a depth up to a level [mm2]."""
    cut = parallel(points, depth).intersection(shapely.box(0, -9, 500, level))
    ends = list(cut.coords)
    return sum(math.pi * (a[0] + b[0]) * math.dist(a, b) for a, b in pairwise(ends))


def held(points: Any, depth: float, level: float) -> float:
    """Volume inside the surface at a depth up to a level [mm3]."""
    cut = parallel(points, depth).intersection(shapely.box(0, -9, 500, level))
    section = shapely.Polygon([*cut.coords, (0.0, level)])
    return 2 * math.pi * section.centroid.x * section.area


@st.composite
def profiles(draw: Any) -> tuple[tuple[float, float], ...]:
    """A flat base and three to five sides that rise, none too steep a corner."""
    radius = draw(st.floats(12, 40))
    points = [(0.0, 0.0), (radius, 0.0)]
    height = 0.0
    for _ in range(draw(st.integers(3, 5))):
        height += draw(st.floats(6, 20))
        radius = max(9.0, radius + draw(st.floats(-6, 8)))
        points.append((radius, height))
    return tuple((round(r, 3), round(z, 3)) for r, z in points)


few = settings(max_examples=20)


@few
@given(profiles(), st.floats(0.4, 1.3), st.floats(0.3, 1.0))
def test_blank_and_capacity_by_a_polygon_library(points: Any, t: float, full: float) -> None:
    height = points[-1][1]
    level = round(max(full * height, 2.0), 3)
    made = plan("raised", f"{t:.3f}", profile=written(points), fill_level=str(level))
    t = value(made, "sheet_thickness")
    area = swept(points, t / 2, height)
    assert value(made, "mid_area") == pytest.approx(area, rel=1e-7)
    assert value(made, "blank_diameter") == pytest.approx(math.sqrt(4 * area / math.pi), rel=1e-7)
    assert value(made, "capacity") == pytest.approx(held(points, t, level) / 1000, rel=1e-6)
    metal = held(points, 0.0, height) - held(points, t, height)
    assert value(made, "vessel_mass") == pytest.approx(metal * 8.53 / 1000, rel=1e-6)


@few
@given(profiles(), st.sampled_from(["raised", "cones", "gores"]), st.integers(3, 12))
def test_every_way_weighs_its_solids_and_closes(points: Any, way: str, count: int) -> None:
    made = plan(way, "0.7", profile=written(points), gores=count)
    for part in made.parts:
        volumes = 0.0
        for solid in part.solids:
            mesh = solid.body.mesh(0.02)
            body = trimesh.Trimesh(mesh.vertices, mesh.triangles)
            assert body.is_watertight
            assert body.volume == pytest.approx(solid.body.volume, rel=5e-3)
            volumes += solid.body.volume
        assert part.count * part.mass.value == pytest.approx(volumes * 8.53 / 1000, rel=1e-9)
        assert min(solid.body.reach((0, 0, 1))[0] for solid in part.solids) >= -1e-9
    assert value(made, "brim_capacity") > 0


# ---- the doubt


def test_the_thickness_moves_blank_and_capacity_by_their_true_slopes() -> None:
    made = plan("raised", ["0.88", "0.91", "0.90"])
    doubt = made.quantities["sheet_thickness"].uncertainty
    middle = value(made, "sheet_thickness")
    for id in ("blank_diameter", "capacity", "vessel_mass"):
        ends = [value(plan("raised", f"{middle + step:.6f}"), id) for step in (-1e-3, 1e-3)]
        slope = abs(ends[1] - ends[0]) / 2e-3
        assert made.quantities[id].uncertainty == pytest.approx(slope * doubt, rel=1e-4), id


@pytest.mark.parametrize("id", ["gore_length", "gore_width", "gore_mass", "capacity"])
def test_a_gore_s_numbers_too(id: str) -> None:
    made = plan("gores", ["0.88", "0.91", "0.90"])
    doubt = made.quantities["sheet_thickness"].uncertainty
    middle = value(made, "sheet_thickness")
    ends = [value(plan("gores", f"{middle + step:.6f}"), id) for step in (-1e-3, 1e-3)]
    slope = abs(ends[1] - ends[0]) / 2e-3
    within = 0.01 if id == "gore_mass" else 1e-3  # its base's mean radius stays as it is
    assert made.quantities[id].uncertainty == pytest.approx(slope * doubt, rel=within)


# ---- raised


def test_diameter_and_height_added_is_found() -> None:
    made = plan()
    wrong = 2 * 26.4 + 45.9
    assert abs(wrong - value(made, "blank_diameter")) > 1
    found = check(made, "blank_diameter", f"{wrong:.2f}")
    assert not found.agrees
    assert found.slips[0].text.startswith("diameter and height added")
    assert check(made, "blank_diameter", f"{value(made, 'blank_diameter'):.2f}").agrees


def test_courses_are_the_development_s() -> None:
    made = plan()
    count = round(value(made, "courses"))
    last = math.radians(value(made, "last_angle"))
    found = courses(2 * 17.2, value(made, "blank_diameter"), last / count, last)
    assert len(found) == count == round(value(made, "anneals"))
    for number, course in enumerate(found, 1):
        id = f"course_{number}"
        assert value(made, f"{id}_angle") == pytest.approx(math.degrees(course.angle))
        assert value(made, f"{id}_height") == pytest.approx(course.height)
        assert value(made, f"{id}_mouth") == pytest.approx(2 * course.mouth_radius)
        assert value(made, f"{id}_angle") - 15 * number < 1e-9
    assert value(made, f"course_{count}_mouth") == pytest.approx(2 * 26.4)


def test_a_round_bottom_is_sunk() -> None:
    made = plan(profile="0 0; 14 3.1; 25 12; 31 27")
    assert "course_1_height" not in made.quantities
    assert "Sink it" in next(step.title for step in made.steps if step.id == "raise")
    assert value(made, "courses") == math.ceil(math.degrees(math.atan2(15, 6)) / 15)


def test_rim_thinning_and_what_closes_in() -> None:
    made = plan()
    assert value(made, "vessel_cut_diameter") == pytest.approx(value(made, "blank_diameter") + 6)
    assert value(made, "wall_least") == pytest.approx(0.72)
    assert value(made, "wall_most") == pytest.approx(0.9)
    assert "closes_in" in [each.id for each in made.cautions]
    straight = plan(profile="0 0; 20 0; 26 30")
    assert "closes_in" not in [each.id for each in straight.cautions]


# ---- cones


@few
@given(profiles(), st.floats(0.4, 1.1))
def test_the_cones_flats_have_their_skins_areas_and_meet(points: Any, t: float) -> None:
    """Each flat's area is its skin's; its arcs are as long as once round the sheet's middle."""
    made = plan("cones", f"{t:.3f}", profile=written(points))
    t = value(made, "sheet_thickness")
    walls = [part for part in made.parts if part.id.startswith("cone")]
    assert len(walls) == len(points) - 2
    tops = []
    for part, ((r, z), (r1, z1)) in zip(walls, pairwise(points[1:]), strict=True):
        foot, bottom = (r + (r1 - r) * t / z1, t) if part.id == "cone_1" else (r, z)
        lean = math.hypot(1.0, (r1 - foot) / (z1 - bottom))
        low, high, side = foot - t / 2 * lean, r1 - t / 2 * lean, (z1 - bottom) * lean
        assert part.blank.outline.area == pytest.approx(math.pi * (low + high) * side, rel=1e-6)
        if part.blank.form == "strip":
            assert value(made, f"{part.id}_length") == pytest.approx(2 * math.pi * low)
        else:
            turn = math.radians(value(made, f"{part.id}_sector_angle"))
            arcs = sorted(
                turn * value(made, f"{part.id}_{end}_radius") for end in ("inner", "outer")
            )
            assert arcs == pytest.approx(sorted((2 * math.pi * low, 2 * math.pi * high)), rel=1e-9)
        section = part.solids[0].body.profile
        tops.append((section[0], section[1]))
    for (_, top), (bottom, _) in pairwise(tops):
        assert top == pytest.approx(bottom, abs=1e-9)  # neighbours meet outside, at one height
    assert tops[0][0][1] == pytest.approx(t)


def test_a_base_in_two_steps_is_one_base() -> None:
    whole, halved = (
        plan("cones", profile=profile)
        for profile in ("0 0; 20 0; 24 9; 31 27", "0 0; 11 0; 20 0; 24 9; 31 27")
    )
    assert value(whole, "capacity") == pytest.approx(value(halved, "capacity"))
    assert len(whole.parts) == len(halved.parts) == 3


def test_a_stack_of_cones_holds_what_their_frusta_hold() -> None:
    """Worked by hand: base 0.7; the frusta's inner radii are the outer less 0.7 / cos(lean)."""
    made = plan("cones", "0.7", profile="0 0; 20 0; 29 24; 33.5 41", fill_level="31")
    total = 0.0
    for (r, z), (r1, z1), (low, high) in (
        ((20, 0), (29, 24), (0.7, 24)), ((29, 24), (33.5, 41), (24, 31)),
    ):  # fmt: skip
        lean = (r1 - r) / (z1 - z)
        a, b = (r + lean * (x - z) - 0.7 * math.hypot(1, lean) for x in (low, high))
        total += math.pi / 3 * (a * a + a * b + b * b) * (high - low)
    assert value(made, "capacity") == pytest.approx(total / 1000, rel=1e-9)


def test_fewer_cones_where_more_may_be_off() -> None:
    curve = BELLY.format(foot=23, a=33)
    counts = [len(plan("cones", curve=curve, cone_off=off).parts) for off in ("0.15", "0.5", "2")]
    assert counts == sorted(counts, reverse=True)
    assert len(set(counts)) == 3
    near, far = (value(plan("cones", curve=curve, cone_off=off), "capacity")
                 for off in ("0.02", "1"))  # fmt: skip
    smooth = value(plan("raised", curve=curve), "capacity")
    assert abs(near - smooth) < 0.005 * smooth
    assert abs(near - smooth) < abs(far - smooth)


# ---- gores


@few
@given(profiles(), st.integers(3, 16))
def test_gores_have_the_wall_s_area(points: Any, count: int) -> None:
    made = plan("gores", "0.8", profile=written(points), gores=count)
    gore = next(part for part in made.parts if part.id == "gore")
    height = points[-1][1]
    cut = parallel(points, 0.4).intersection(shapely.box(0, 0.8, 500, height))
    ends = list(cut.coords)
    wall = sum(math.pi * (a[0] + b[0]) * math.dist(a, b) for a, b in pairwise(ends))
    assert count * gore.blank.outline.area == pytest.approx(wall, rel=1e-5)
    assert value(made, "gore_length") == pytest.approx(cut.length, rel=1e-9)
    widest = max(r for r, _ in ends)
    assert value(made, "gore_width") == pytest.approx(2 * math.pi * widest / count, rel=1e-9)


@pytest.mark.parametrize("count", [6, 11])
def test_the_edge_s_defect_is_the_development_s(count: int) -> None:
    arc = [Arc((0.0, 30.0), 30.0, -math.pi / 2, math.pi / 2)]
    fine = along(arc).points(1e-5)
    gore = Gore(along(arc), count)
    defect = edge_length(fine, count) - lines.length(fine)
    assert defect == pytest.approx(gore.edge_defect, rel=1e-4)
    outline, theirs = gore_outline(fine, count), gore.outline(1e-5)
    assert outline.area == pytest.approx(theirs.area, rel=1e-5)
    assert (outline.width, outline.height) == pytest.approx((theirs.height, theirs.width), rel=1e-5)
    assert outline.perimeter == pytest.approx(theirs.perimeter, rel=1e-5)


def test_a_round_bottom_needs_no_base() -> None:
    made = plan("gores", profile="0 0; 14 3.1; 25 12; 31 27")
    assert [part.id for part in made.parts] == ["gore"]
    assert "base" not in [joint.id for joint in made.piece.joints]


# ---- profiles


def test_cubics_follow_the_points() -> None:
    curves = [Line((0.0, 0.0), (12.0, 0.0)), Arc((12.0, 20.0), 20.0, -math.pi / 2, 1.3)]
    fine = from_curves(curves).fine
    side, bend = lines.runs(fine)
    assert side == ((0.0, 0.0), (12.0, 0.0))
    followed = [point for curve in lines.cubics(bend) for point in curve.points(1e-4)]
    assert max(abs(math.dist(point, (12.0, 20.0)) - 20) for point in followed) < 3e-4


def test_curve_and_its_points_agree() -> None:
    curve = plan(curve=BELLY.format(foot=23, a=36))
    assert value(curve, "height") == pytest.approx(42)
    assert value(curve, "mouth_diameter") == pytest.approx(76)
    assert value(curve, "across") == pytest.approx(88, abs=1e-3)


@pytest.mark.parametrize(("radius", "t"), [(31.3, 0.8), (24.0, 1.3)])
def test_a_bowl_of_a_sphere_on_a_flat(radius: float, t: float) -> None:
    """A curve that meets its base at a corner: a zone of a sphere, exact by Archimedes.

    Chords within 0.0001 mm of the curve: 4e-6 of the area.
    """
    foot, rim = 0.45 * radius, 0.97 * radius
    middle = math.sqrt(radius**2 - foot**2)  # height of the sphere's centre
    height = middle - math.sqrt(radius**2 - rim**2)
    drawing = (
        '<svg xmlns="http://www.w3.org/2000/svg" width="99mm" height="99mm" viewBox="0 0 99 99">'
        f'<path d="M5 80 H{5 + foot} A{radius} {radius} 0 0 0 {5 + rim} {80 - height}"/></svg>'
    )
    made = plan("raised", str(t), curve=drawing)
    ball = radius - t / 2
    base = ball**2 - (middle - t / 2) ** 2
    area = math.pi * base + 2 * math.pi * ball * (height - t / 2)
    assert value(made, "mid_area") == pytest.approx(area, rel=1e-5)
    ball = radius - t

    def under(z: float) -> float:
        return math.pi * (ball**2 * z - z**3 / 3)

    holds = (under(height - middle) - under(t - middle)) / 1000
    assert value(made, "brim_capacity") == pytest.approx(holds, rel=1e-5)


def test_points_with_a_curve_through_them() -> None:
    straight = plan(profile="0 0; 17 0; 23.5 9; 26 21; 25 33")
    curved = plan(profile="0 0; 17 0; 23.5 9; 26 21; 25 33", between="curved")
    assert value(curved, "height") == value(straight, "height") == 33
    assert value(curved, "capacity") > value(straight, "capacity")  # it bulges between them
    round_ = plan(profile="0 0; 14 3.1; 25 12; 31 27", between="curved")
    assert value(round_, "capacity") > value(plan(profile="0 0; 14 3.1; 25 12; 31 27"), "capacity")
    two = plan(profile="0 0; 20 0; 24 30", between="curved")
    assert value(two, "capacity") == value(plan(profile="0 0; 20 0; 24 30"), "capacity")


def test_a_curve_tighter_than_the_metal_is_refused() -> None:
    tight = (
        '<svg xmlns="http://www.w3.org/2000/svg" width="99mm" height="99mm" viewBox="0 0 99 99">'
        '<path d="M5 80 H25 A1.1 1.1 0 0 0 26.1 78.9 V40"/></svg>'
    )
    assert value(plan("raised", "0.9", curve=tight), "height") == pytest.approx(40)
    with pytest.raises(InputError, match="bent tighter than 1"):
        plan("raised", "1.3", curve=tight)


@pytest.mark.parametrize(
    ("profile", "words"),
    [
        ("0 0; 20 0", "three points"),
        ("3 0; 20 0; 24 30", "begin on the axis"),
        ("0 0; 20 0; 0 30", "no mouth"),
        ("0 0; 20 0; 26 40; 22 30", "rim, the highest"),
        ("0 0; 20 0; 20 0; 26 40", "alike"),
        ("0 0; 20 0; 0 12; 22 30", "back to the axis"),
        ("0 0; 20 0; 30 20; 10 5; 25 1; 33 40", "crosses itself"),
        ("0 0; 1.2 0; 1.2 20", "can't follow|no mouth"),
    ],
)
def test_profiles_that_can_t_be(profile: str, words: str) -> None:
    with pytest.raises(InputError, match=words) as told:
        plan("raised", "1.3", profile=profile)
    assert told.value.field == "sizes.profile"


@pytest.mark.parametrize(
    ("way", "sizes", "field", "words"),
    [
        ("cones", {"profile": "0 0; 14 3.1; 25 12; 31 27"}, "sizes.profile", "flat base"),
        ("cones", {"profile": "0 0; 20 0; 24 9; 29 9; 31 27"}, "sizes.profile", "lie flat"),
        ("cones", {"profile": "0 0; 20 0; 21 0.9; 31 27"}, "sizes.profile", "lowest cone"),
        ("raised", {"fill_level": "46"}, "sizes.fill_level", "isn't within"),
        ("raised", {"curve": BELLY.format(foot=23, a=36), "profile": "0 0; 20 0; 20 20"},
         "sizes.curve", "either"),
        ("raised", {"curve": "<svg/>"}, "sizes.curve", "no line"),
    ],
)  # fmt: skip
def test_refusals_name_the_field(way: str, sizes: Any, field: str, words: str) -> None:
    with pytest.raises(InputError, match=words) as told:
        plan(way, **sizes)
    assert told.value.field == field


def test_neither_points_nor_a_file() -> None:
    given_ = tables()
    del given_["sizes"]["profile"]
    with pytest.raises(InputError, match="either as points or as a file"):
        plan_tables(given_)


def test_upright_stretches_are_walls() -> None:
    (wall,) = plan().piece.walls
    assert (wall.part, wall.low, wall.high) == ("vessel", 22.0, 34.5)
    assert wall.diameter.value == pytest.approx(52.8)
    (wall,) = plan("cones").piece.walls
    assert (wall.part, wall.low, wall.high) == ("cone_3", 22.0, 34.5)
    assert plan("gores").piece.walls == ()
    assert plan(profile="0 0; 20 0; 20 4; 26 30").piece.walls == ()


def test_inches() -> None:
    made = plan("raised", "20 ga", profile=[[0, 0], ["7/8 in", 0], ["1 1/8 in", "1 1/2 in"]])
    assert value(made, "across") == pytest.approx(2.25 * 25.4)
    assert value(made, "fill_level") == pytest.approx(1.5 * 25.4 - 5)


@pytest.mark.parametrize("way", ["raised", "cones", "gores"])
@pytest.mark.parametrize("thickness", ["5", "7", "9", "12"])
def test_thick_sheet_is_planned_or_refused_by_name(way: str, thickness: str) -> None:
    """Thick sheet in a curved profile: its picture's inside is cut like the reckoned one's."""
    oil_cup = "0 0; 17 0; 23.5 9; 26 21; 26 33; 22.5 44"
    made = plan(way, thickness, profile=oil_cup, between="curved")
    for part in made.piece.parts:
        solids = sum(solid.body.mesh().volume for solid in part.solids)
        assert solids * 8.53e-3 == pytest.approx(part.mass.value * part.count, rel=0.004)


def test_sheet_thicker_than_the_form_is_high() -> None:
    with pytest.raises(InputError, match="leaves no inside") as told:
        plan("raised", "9", profile="0 0; 30 0; 36 8")
    assert told.value.field == "stock.sheet.thickness"


@pytest.mark.parametrize(("gores", "odd"), [("6", False), ("7", True), ("3", True)])
def test_an_odd_number_of_gores_makes_no_halves(gores: str, odd: bool) -> None:
    work = {step.id: step.text for step in plan("gores", gores=gores).steps}
    assert ("on the flat, bind" in work["join"]) is not odd
    assert ("No two halves of an odd number lie flat" in work["join"]) is odd
    if odd:
        assert f"Bind {int(gores) - 1} of them" in work["halves"]


def test_a_file_without_its_unit_is_asked_about_and_may_be_told() -> None:
    bare = '<svg xmlns="http://www.w3.org/2000/svg"><path d="M0 150 H60 L75 60"/></svg>'
    taken = plan(curve=bare)
    assert value(taken, "height") == pytest.approx(90 * 25.4 / 96)
    (asked,) = [c for c in taken.cautions if c.id == "drawing_unit"]
    assert "1/96 in" in asked.text
    assert "39.69 by 23.81 mm" in asked.text
    told = plan(curve=bare, curve_unit="mm")
    assert value(told, "height") == pytest.approx(90)
    assert all(c.id != "drawing_unit" for c in told.cautions)
