"""The form of plane faces: the issue's checks, its limits, its slips, its shapes."""

from __future__ import annotations

import math
from itertools import product
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from hollowright.designs import design
from hollowright.designs.facet_form_bodies import Hollow
from hollowright.errors import InputError
from hollowright.job.job import plan_tables
from hollowright.plan.plan import Plan
from hollowright.plan.slips import check
from hollowright.shapes.developments.facets import (
    bevel,
    compound_mitre,
    frustum,
    prism,
    pyramid,
    regular,
)

DENSITY = 8.53
SOLIDS = ("tetrahedron", "cube", "octahedron", "dodecahedron", "icosahedron")


def tables(thickness: Any = 0.81, **sizes: Any) -> dict[str, Any]:
    return {
        "title": "Form",
        "design": "facet-form",
        "stock": {"sheet": {"metal": "C26000", "thickness": str(thickness)}},
        "sizes": sizes,
    }


def plan(thickness: Any = 0.81, **sizes: Any) -> Plan:
    return plan_tables(tables(thickness, **sizes))


def pyramid_plan(**sizes: Any) -> Plan:
    return plan(**{"kind": "pyramid", "sides": 4, "across_flats": 100, "height": 50, **sizes})


def value(made: Plan, id: str) -> float:
    return made.quantities[id].value


def test_the_issue_s_pyramid() -> None:
    made = pyramid_plan()
    assert value(made, "dihedral") == pytest.approx(120.0, abs=5e-4)
    assert value(made, "dihedral_base") == pytest.approx(45.0, abs=5e-4)


@pytest.mark.parametrize(("kind", "dihedral"), [("tetrahedron", 70.529), ("octahedron", 109.471)])
def test_the_issue_s_solids(kind: str, dihedral: float) -> None:
    made = plan(kind=kind, edge=23.7)
    assert value(made, "dihedral") == pytest.approx(dihedral, abs=5e-4)
    assert value(made, "groove") == pytest.approx(180 - dihedral, abs=5e-4)
    assert value(made, "bevel") == pytest.approx((180 - dihedral) / 2, abs=5e-4)


walled = st.tuples(
    st.sampled_from(["prism", "pyramid", "frustum"]),
    st.integers(3, 9),
    st.floats(20, 120),
    st.floats(20, 120),
    st.floats(15, 120),
)
ends = st.sampled_from(["closed", "open"])
ways = st.sampled_from(["folded", "plates"])


def sizes_of(kind: str, sides: int, across: float, top: float, height: float) -> dict[str, Any]:
    sizes = {"kind": kind, "sides": sides, "across_flats": round(across, 3)}
    more = {"top_across_flats": round(top, 3)} if kind == "frustum" else {}
    return {**sizes, **more, "height": round(height, 3)}


def form_of(sizes: dict[str, Any]) -> Any:
    sides, across, height = sizes["sides"], sizes["across_flats"], sizes["height"]
    if sizes["kind"] == "prism":
        return prism(sides, across, height)
    if sizes["kind"] == "pyramid":
        return pyramid(sides, across, height)
    return frustum(sides, across, sizes["top_across_flats"], height)


@settings(max_examples=40, deadline=None)
@given(walled, ends, ends, ways)
def test_walled_forms_are_the_shapes(form: Any, base: str, top: str, way: str) -> None:
    sizes = sizes_of(*form)
    try:
        made = plan(**sizes, base=base, top=top, way=way)
    except InputError:
        assume(False)
    shape, sides = form_of(sizes), sizes["sides"]
    angles = {"dihedral": (0, sides), "dihedral_base": (0, 1)}
    if sizes["kind"] != "pyramid":
        angles["dihedral_top"] = (sides, sides + 1)
    for id, side in angles.items():
        assert value(made, id) == pytest.approx(math.degrees(shape.dihedral(side)), abs=1e-9)
    mitred = math.degrees(bevel(shape.dihedral((0, sides))))
    assert value(made, "bevel") == pytest.approx(mitred, abs=1e-9)
    if sizes["kind"] != "prism":
        slope = math.radians(value(made, "dihedral_base"))
        mitre = math.degrees(compound_mitre(sides, slope)[0])
        assert value(made, "wall_mitre") == pytest.approx(mitre, abs=1e-9)
    is_closed = base == "closed" and (top == "closed" or sizes["kind"] == "pyramid")
    assert ("vent" in made.quantities) == is_closed
    if is_closed:
        assert value(made, "net_area") == pytest.approx(shape.area, rel=1e-9)
    weighs_as_drawn(made)


@pytest.mark.parametrize(
    ("kind", "base", "way"), list(product(SOLIDS, ("closed", "open"), ("folded", "plates")))
)
def test_regular_solids_are_the_shapes(kind: str, base: str, way: str) -> None:
    if base == "open" and kind in ("octahedron", "icosahedron"):
        with pytest.raises(InputError, match="don't meet inside"):
            plan(kind=kind, edge=23.7, base=base, way=way)
        return
    made, shape = plan(kind=kind, edge=23.7, base=base, way=way), regular(kind, 23.7)
    side = next(iter(shape.sides))
    assert value(made, "dihedral") == pytest.approx(math.degrees(shape.dihedral(side)), abs=1e-9)
    assert value(made, "face_area") == pytest.approx(shape.face_area(0), rel=1e-9)
    if kind != "tetrahedron":
        wide = value(made, "width_over_faces")
        assert wide == pytest.approx(max(z for _, _, z in shape.corners), rel=1e-9)
        again = plan(kind=kind, across_flats=f"{wide:.12f}", base=base, way=way)
        assert value(again, "edge") == pytest.approx(23.7, rel=1e-9)
    weighs_as_drawn(made)


def weighs_as_drawn(made: Plan) -> None:
    """Each part's weight is its bodies'; plates together are the shell in one."""
    for part in made.parts:
        drawn = sum(solid.body.volume for solid in part.solids) * DENSITY / 1000
        assert part.count * part.mass.value == pytest.approx(drawn, rel=1e-9)


@settings(max_examples=30, deadline=None)
@given(walled, st.floats(0.3, 1.6))
def test_plates_fill_the_shell(form: Any, thickness: float) -> None:
    shape = form_of(sizes_of(*form))
    for left in ((), (0,)):
        hollow = Hollow(shape, thickness, left)
        assume(hollow.has_room)
        plates = [hollow.plate(f"{face}", face) for face in hollow.closed]
        shell = hollow.shell("shell")
        assert sum(p.volume for p in plates) == pytest.approx(shell.volume, rel=1e-9)
        for face in hollow.closed:  # each corner of the hollow is one thickness in, or at an end
            normal, foot = shape.normal(face), shape.points(face)[0]
            for number in shape.faces[face]:
                inner = hollow.inner[number]
                depth = sum(n * (f - i) for n, f, i in zip(normal, foot, inner, strict=True))
                assert depth == pytest.approx(thickness, abs=1e-6)


def test_bevels_of_both_plates_and_the_dihedral_make_half_a_turn() -> None:
    made = plan(kind="frustum", sides=7, across_flats=63.1, top_across_flats=41.7, height=29.3,
                way="plates")  # fmt: skip
    for suffix in ("", "_base", "_top"):
        both = 2 * value(made, f"bevel{suffix}") + value(made, f"dihedral{suffix}")
        assert both == pytest.approx(180, abs=1e-9)


def test_plates_carry_their_bevels_and_one_vent() -> None:
    made = plan(kind="prism", sides=5, across_flats=31.7, height=44.1, way="plates", vent=2.2)
    assert [(part.id, part.count) for part in made.parts] == [("wall", 5), ("base", 1), ("top", 1)]
    wall, base, top = (part.blank.marks for part in made.parts)
    assert len(wall) == 4
    assert any("36.00°" in mark.text for mark in wall)
    assert [mark.text for mark in base if "vent" in mark.text] == [
        "vent: drill 2.20 mm in the middle of this line"
    ]
    assert not any("vent" in mark.text for mark in top)


def test_folds_are_marked_and_fewest_seams_are_taken() -> None:
    made = pyramid_plan(sides=6, across_flats=37.4, height=61.5)
    blank = made.parts[0].blank
    folds = [mark for mark in blank.marks if mark.role == "fold"]
    assert len(folds) == 6
    assert "fold to 122.84°: groove 57.16°, 0.61 mm deep, inside" in {m.text for m in folds}
    star = pyramid_plan(sides=6, across_flats=37.4, height=61.5, layout="star")
    joints = {joint.id: joint.length.value for joint in made.piece.joints}
    others = {joint.id: joint.length.value for joint in star.piece.joints}
    assert sum(joints.values()) == pytest.approx(sum(others.values()))  # every edge once
    assert joints["folds"] > others["folds"]


def test_an_open_form_has_no_vent_and_no_seam_there() -> None:
    made = pyramid_plan(base="open", vent=2)
    assert "vent" not in made.quantities
    assert "seams_base" not in {joint.id for joint in made.piece.joints}
    assert value(made, "bevel_base") == pytest.approx(45.0)  # flush with the bench: 90 - 45
    assert any("vent has no use" in caution.text for caution in made.cautions)
    assert not any(step.id == "drill_vent" for step in made.steps)
    assert made.parts[0].blank.outline.area < pyramid_plan().parts[0].blank.outline.area - 9000


def test_a_closed_form_is_vented_before_any_heat() -> None:
    for sizes in ({}, {"way": "plates"}):
        made = pyramid_plan(**sizes)
        kinds = [step.id for step in made.steps]
        first_heat = next(i for i, step in enumerate(made.steps) if step.kind == "solder")
        assert kinds.index("drill_vent") < first_heat
        last_heat = [step for step in made.steps if step.kind == "solder"][-1]
        assert "vent" in {caution.id for caution in last_heat.cautions}


def words(made: Plan, id: str) -> str:
    return next(step.text for step in made.steps if step.id == id)


@pytest.mark.parametrize(
    ("sizes", "last"),
    [
        ({"kind": "pyramid", "sides": 5, "across_flats": 37.4, "height": 41.5, "layout": "star"},
         "last wall"),
        ({"kind": "prism", "sides": 5, "across_flats": 37.4, "height": 41.5, "layout": "strip"},
         "top"),
        ({"kind": "dodecahedron", "edge": 17.3}, "last face"),
    ],
)  # fmt: skip
def test_the_last_face_s_fold_is_soldered_with_the_seams(sizes: dict[str, Any], last: str) -> None:
    made = plan(**sizes)
    joints = {joint.id: joint for joint in made.piece.joints}
    folds = [mark.curve.length() for mark in made.parts[0].blank.marks if mark.role == "fold"]
    kept = joints["folds"].length.value + joints["last_fold"].length.value
    assert kept == pytest.approx(sum(folds), rel=0.1)  # marks end at their nicks
    assert joints["last_fold"].after == ("folds",)
    assert f"Leave the {last} standing open" in words(made, "fold_up")
    assert "all but the last one" in words(made, "solder_folds")
    assert f"{joints['last_fold'].length.value:.2f} mm" in words(made, "close")
    assert f"Fold the {last} down" in words(made, "close")
    assert "all with medium solder" in words(made, "solder_seams")
    opened = plan(**sizes, base="open")
    assert "last_fold" not in {joint.id for joint in opened.piece.joints}
    assert "all of them" in words(opened, "solder_folds")


def test_an_opening_that_leans_outwards_is_told_without_a_sign() -> None:
    made = plan(kind="dodecahedron", edge=17.3, way="plates", base="open")
    told = words(made, "bevel_plates")
    assert "26.57° from square, leaning outwards" in told
    assert "-26.57" not in told
    assert "bevel_base" not in next(s.marks for s in made.steps if s.id == "bevel_plates")


@pytest.mark.parametrize(
    ("across", "top", "told"), [(41.7, 63.1, "outwards"), (63.1, 41.7, "inwards")]
)
def test_walls_lean_by_words_and_not_by_a_sign(across: float, top: float, told: str) -> None:
    made = plan(kind="frustum", sides=7, across_flats=across, top_across_flats=top, height=29.3,
                way="plates")  # fmt: skip
    assert f"from square, {told}" in words(made, "cut_plates")
    assert " -" not in words(made, "cut_plates")


FLAT = {"kind": "pyramid", "sides": 17, "across_flats": 37.4, "height": 2.591, "vent": 3.928}


def test_a_fold_that_takes_the_faces_is_refused() -> None:
    # Turned by 172 degrees, a web of 0.70 mm takes 19.5 mm of walls that are 18.9 mm high.
    with pytest.raises(InputError, match="takes 19") as told:
        plan(0.7025, **FLAT, score_web=0.7)
    assert told.value.field == "sizes.score_web"
    made = plan(0.7025, **FLAT, score_web="max")
    assert value(made, "fold_loss_base") < 6.99 / 4
    assert not made.cuts["net"].outline.holes


def test_the_field_says_where_the_vent_goes() -> None:
    told = design("facet-form").field("vent").help
    assert "in the base" in told
    assert "a face of a regular solid" in told
    assert "middle of the base and" in words(pyramid_plan(), "drill_vent")
    assert "face so marked" in words(plan(kind="cube", edge=21), "drill_vent")


@pytest.mark.parametrize(
    ("sizes", "field"),
    [
        ({"kind": "cube", "edge": 20, "across_flats": 21}, "sizes.edge"),
        ({"kind": "cube"}, "sizes.edge"),
        ({"kind": "tetrahedron", "across_flats": 21}, "sizes.across_flats"),
        ({"kind": "prism", "sides": 5, "height": 20}, "sizes.across_flats"),
        ({"kind": "frustum", "sides": 5, "across_flats": 30, "height": 20},
         "sizes.top_across_flats"),
        ({"kind": "cube", "edge": 3, "thickness": 1.6}, "stock.sheet.thickness"),
        ({"kind": "cube", "edge": 12, "vent": 5}, "sizes.vent"),
        ({"kind": "cube", "edge": 22, "score_web": 0.9}, "sizes.score_web"),
        ({"kind": "icosahedron", "edge": 22, "layout": "strip"}, "sizes.layout"),
        ({"kind": "octahedron", "edge": 22, "base": "open"}, "sizes.base"),
    ],
)  # fmt: skip
def test_what_can_t_be_is_refused_by_its_field(sizes: dict[str, Any], field: str) -> None:
    with pytest.raises(InputError) as told:
        plan(**sizes)
    assert told.value.field == field
    assert told.value.remedy


@pytest.mark.parametrize(
    ("quantity", "figure", "words"),
    [
        ("bevel", "61.42", "half of the dihedral"),
        ("groove", "122.84", "angle between the sides"),
        ("dihedral", "123.70", "corner's edge taken instead of the wall's"),
        ("base_side", "18.70", "across corners taken for across flats"),
        ("slant_height", "61.50", "upright height"),
        ("dihedral_base", "58.70", "whole difference across flats"),
    ],
)
def test_slips_are_found(quantity: str, figure: str, words: str) -> None:
    made = pyramid_plan(sides=6, across_flats=37.4, height=61.5)
    found = check(made, quantity, figure)
    assert not found.agrees
    assert any(words in slip.text for slip in found.slips[:3]), found.slips


def test_a_groove_that_is_more_a_slope_is_pointed_out() -> None:
    flat = pyramid_plan(height=11)  # walls 12.4 degrees from the base: a groove of 167.6
    assert "groove_wide" in {caution.id for caution in flat.cautions}
    steep = pyramid_plan(height=77)
    assert "groove_wide" not in {caution.id for caution in steep.cautions}


def test_a_fine_vent_holds_liquid_back() -> None:
    made = plan(kind="cube", edge=21, vent=0.8)  # 29.7 / 0.8 = 37 mm of head, 21 mm high
    assert "vent_holds_back" in {caution.id for caution in made.cautions}
    assert value(made, "held_head") == pytest.approx(29.7 / 0.8)
