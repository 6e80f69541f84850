"""A branch on a main: note 21's numbers, its papers against the shapes, its place on a can."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from hollowright.errors import HollowrightError, InputError
from hollowright.job.job import plan_tables, read_tables
from hollowright.plan.plan import Plan
from hollowright.plan.slips import check
from hollowright.shapes.curves import TURN
from hollowright.shapes.developments.saddle import Crossing, Saddle

FIBRES = {"bevelled": "outer", "square": "inner", "unfiled": "first"}


def tables(main: Any = (40, 1), branch: Any = (20, 1), **sizes: Any) -> dict[str, Any]:
    stock = {
        id: {"metal": "C26000", "outside_diameter": [f"{d}"] * 2, "wall": f"{wall}"}
        for id, (d, wall) in (("main", main), ("branch", branch))
    }
    asked = {"main_length": 300, "at": 140, "length": 120, **sizes}
    return {"title": "Branch", "design": "tube-saddle", "stock": stock, "sizes": asked}


def plan(main: Any = (40, 1), branch: Any = (20, 1), **sizes: Any) -> Plan:
    return plan_tables(tables(main, branch, **sizes))


def value(made: Plan, id: str) -> float:
    return made.quantities[id].value


def test_the_inner_and_the_outer_line_of_note_21() -> None:
    square, bevelled = plan(), plan(cut="bevelled")
    assert value(square, "deepest") == pytest.approx(17.861, abs=5e-4)
    assert value(bevelled, "deepest") == pytest.approx(17.321, abs=5e-4)
    assert value(square, "ride_up") == pytest.approx(0.54, abs=5e-4)
    assert value(plan(cut="unfiled"), "deepest") == pytest.approx(17.861, abs=5e-4)


SIZES = {
    "main": st.floats(15, 90),
    "share": st.floats(0.2, 0.93),
    "angle": st.floats(25, 155),
    "aside": st.floats(-0.9, 0.9) | st.just(0.0),
    "joint": st.sampled_from(["set-on", "let-in"]),
    "cut": st.sampled_from(sorted(FIBRES)),
}


@settings(max_examples=30, deadline=None)
@given(**SIZES)
def test_the_quantities_are_the_shapes(
    main: float, share: float, angle: float, aside: float, joint: Any, cut: str
) -> None:
    main, angle = round(main, 2), round(angle, 1)
    seat = main / 2 - (0.9 if joint == "let-in" else 0)
    branch = round(2 * share * (main / 2 - 0.9), 2)
    offset = round(aside * (main / 2 - 0.9 - branch / 2) * 0.98, 2)
    assume(branch > 3)
    sizes = {"at": 900, "main_length": 1800, "length": 700, "joint": joint, "cut": cut}
    made = plan((main, 0.9), (branch, 0.6), angle=angle, offset=offset, **sizes)
    turn = math.radians(angle)
    shape = Saddle(main, 0.9, branch, 0.6, turn, offset, joint, FIBRES[cut])
    for id, number in made.quantities.items():
        if id.startswith("ordinate_"):
            depth = shape.edge(math.radians(float(id.rpartition("_")[2])))
            expected = value(made, "highest") + 15 - depth
            assert number.value == pytest.approx(expected, rel=1e-9), id
    depths = [shape.edge(i * TURN / 3600) for i in range(3600)]
    # A sample lies within 0.05 degrees of the extreme: off by (r + R) t^2 / 2 at most.
    for id, sampled in (("highest", max(depths)), ("deepest", min(depths))):
        assert value(made, id) == pytest.approx(sampled, abs=2e-4), id
    assert value(made, "highest") >= max(depths) - 1e-9
    assert value(made, "deepest") <= min(depths) + 1e-9
    hole = shape.hole_crossing
    across = [hole.hole(t)[0] for t in (-math.pi / 2, math.pi / 2)]
    width = (main / 2 + 0.05) * (across[1] - across[0])
    assert value(made, "hole_width") == pytest.approx(width, rel=1e-9)
    along = [hole.hole(i * TURN / 3600)[1] for i in range(3600)]
    assert value(made, "hole_length") == pytest.approx(max(along) - min(along), abs=4e-4)
    mid = (seat, branch / 2 - 0.3) if joint == "set-on" else (main / 2 - 0.45, branch / 2)
    seam = Crossing(*mid, turn, offset).length()
    assert value(made, "joint_length") == pytest.approx(seam, rel=1e-6)


@settings(max_examples=10, deadline=None)
@given(**SIZES)
def test_the_papers_measure_what_they_say(
    main: float, share: float, angle: float, aside: float, joint: Any, cut: str
) -> None:
    main = round(main, 2)
    branch = round(2 * share * (main / 2 - 0.9), 2)
    offset = round(aside * (main / 2 - 0.9 - branch / 2) * 0.98, 2)
    assume(branch > 3)
    sizes = {"at": 900, "main_length": 1800, "length": 700, "joint": joint, "cut": cut}
    made = plan((main, 0.9), (branch, 0.6), angle=round(angle, 1), offset=offset, **sizes)
    round_it, hole = made.piece.templates
    for paper in (round_it, hole):
        assert paper.outline.width == pytest.approx(paper.sizes["length"].value, abs=2e-3)
        assert paper.outline.height == pytest.approx(paper.sizes["width"].value, abs=2e-3)
    inside = hole.outline.holes[0]
    assert inside.width == pytest.approx(value(made, "hole_width"), abs=3e-3)
    assert inside.height == pytest.approx(value(made, "hole_length"), abs=3e-3)
    low_x, low_y, high_x, high_y = inside.bounds
    assert (low_x + high_x, low_y + high_y) == pytest.approx((0, 0), abs=6e-3)
    # Wrapped round, both ends of the paper are one line: the seam meets.
    points = round_it.outline.points(0.01)
    left, right = (min(points, key=lambda p: side * p[0] + 1e-6 * p[1]) for side in (1, -1))
    assert left[1] == pytest.approx(right[1], abs=1e-6)


def test_the_let_in_hole_is_the_branch_where_it_breaks_through_the_outside() -> None:
    made = plan((40, 1), (20, 1), joint="let-in", cut="bevelled")
    # On the main's outside, 20 from its axis, a rod 20 wide reaches 30 degrees to each side.
    assert value(made, "hole_width") == pytest.approx(math.pi / 3 * 20.05, rel=1e-9)
    assert value(made, "hole_length") == pytest.approx(20, rel=1e-9)
    # Cut towards the axis, at 30 degrees on the bore: 2 x 19 sin 30 wide there.
    assert value(made, "narrower_inside") == pytest.approx(20 - 2 * 19 * 0.5, rel=1e-9)
    cut = next(step for step in made.steps if step.id == "cut_hole")
    assert "1.00 mm narrower inside" in cut.text
    assert "branch's outside on the main's outside" in made.piece.templates[1].note
    assert "narrower_inside" not in plan().quantities


@settings(max_examples=20, deadline=None)
@given(**SIZES)
def test_the_hole_s_paper_wrapped_round_the_main_lies_on_the_branch(
    main: float, share: float, angle: float, aside: float, joint: Any, cut: str
) -> None:
    """Every point of its line, on the main's outside, is as far from the branch's axis as asked."""
    main = round(main, 2)
    branch = round(2 * share * (main / 2 - 0.9), 2)
    offset = round(aside * (main / 2 - 0.9 - branch / 2) * 0.98, 2)
    assume(branch > 3)
    sizes = {"at": 900, "main_length": 1800, "length": 700, "joint": joint, "cut": cut}
    made = plan((main, 0.9), (branch, 0.6), angle=round(angle, 1), offset=offset, **sizes)
    hole = made.piece.templates[1]
    (line,) = (mark for mark in hole.marks if mark.text.startswith("line along the main"))
    top, lean = line.curve.start[0], math.radians(round(angle, 1))
    radius = branch / 2 - (0.6 if joint == "set-on" else 0)
    for x, y in hole.outline.holes[0].points(0.01):
        turn = (x - top) / (main / 2 + 0.05)
        across = main / 2 * math.sin(turn) - offset
        up, along = main / 2 * math.cos(turn), y + value(made, "hole_middle") - 900
        level = along * math.sin(lean) - up * math.cos(lean)
        assert math.hypot(across, level) == pytest.approx(radius, abs=0.004)


@settings(max_examples=5, deadline=None)
@given(
    offset=st.floats(-7, 7), angle=st.floats(35, 145), joint=st.sampled_from(["set-on", "let-in"])
)
def test_the_metal_taken_out(offset: float, angle: float, joint: str) -> None:
    """The hole's weight by quadrature against the carved mesh."""
    made = plan(
        (41.3, 1.7), (19.2, 1.1), offset=round(offset, 2), angle=round(angle, 1), joint=joint
    )
    main = made.parts[0].solids[0].body
    whole = math.pi * (41.3 - 1.7) * 1.7 * 300
    mesh = main.body.mesh(0.002).volume - main.mesh(0.002).volume
    taken = value(made, "hole_mass") / 8.53 * 1000
    assert main.volume == pytest.approx(whole - taken, rel=1e-9)
    assert taken == pytest.approx(mesh, rel=5e-3)  # chords within 0.002 mm of walls of 1.7 mm


@pytest.mark.parametrize("cut", sorted(FIBRES))
def test_the_finished_branch_stays_out_of_the_main(cut: str) -> None:
    """Its rails lie on the main's outside or above it; a bevelled one's lie on it."""
    made = plan((41.3, 1.7), (19.2, 1.4), angle=63, offset=3.3, cut=cut, at=150)
    rails = made.parts[1].solids[0].body.rails
    for rail in (rails[0], rails[3]):
        off = [math.hypot(y, z - 41.3 / 2) - 41.3 / 2 for _, y, z in rail]
        assert min(off) > -1e-9
        if cut == "bevelled":
            assert max(off) < 1e-9


@pytest.mark.parametrize("offset", [4.1, -4.1])
def test_papers_and_picture_are_of_one_hand(offset: float) -> None:
    """Seen from outside, foot down, the papers' right is the body's: up x out, here -y."""
    made = plan((41.3, 1.7), (19.2, 1.1), offset=offset, angle=63, cut="bevelled")
    branch, hole = made.piece.templates
    (line,) = (mark for mark in hole.marks if mark.text.startswith("line along the main"))
    beside = -line.curve.start[0]  # the hole's middle is at 0
    assert math.copysign(1, beside) == math.copysign(1, offset)
    taken = made.parts[0].solids[0].body.cut[0].reach((0, 1, 0))
    assert sum(taken) / 2 == pytest.approx(-offset, abs=1e-9)
    # The branch's line on the paper, to the right of its middle, is the body's edge towards -y.
    low = [point for point in branch.outline.points(0.001) if point[1] < -1e-6]
    c, s = math.cos(math.radians(63)), math.sin(math.radians(63))
    for x, y, z in made.parts[1].solids[0].body.rails[0]:
        across, depth = (z - 20.65) * c - x * s, x * c + (z - 20.65) * s
        turn = math.atan2(-(y + offset), across)
        if abs(turn) < 3:
            drawn = min(low, key=lambda p, turn=turn: abs(p[0] - 9.65 * turn))
            straight = value(made, "highest") + 15
            assert drawn[1] + straight == pytest.approx(depth, abs=0.15)


CAN = """
title = "Can"

[parts.body]
design = "cone"
stock.sheet = {metal = "C26000", thickness = ["0.81", "0.80"]}
sizes = {base_diameter = 72, top_diameter = 72, height = 95}

[parts.spout]
design = "tube-saddle"
joins = "body"
stock.branch = {metal = "C26000", outside_diameter = ["15.88", "15.86"], wall = "0.81"}
sizes = {at = 38, around = 25, angle = 57, length = 34, length_from = "surface"}
"""


def test_a_spout_on_a_can() -> None:
    made = plan_tables(read_tables(CAN))
    ids = {part.id for part in made.parts}
    assert ids == {"body_cone", "spout_branch"}
    joint = next(each for each in made.piece.joints if each.id == "spout_saddle")
    assert joint.parts == ("spout_branch", "body_cone")
    assert value(made, "spout_seat_radius") == 36
    bare = math.pi * (72 - 0.805) * 0.805 * 95 * 8.53 / 1000
    body = next(part for part in made.parts if part.id == "body_cone")
    taken = value(made, "spout_hole_mass")
    assert body.mass.value == pytest.approx(bare - taken, rel=1e-9)
    # The wall is met aslant at the hole's sides: a little more than its area times the wall.
    assert taken == pytest.approx(value(made, "spout_hole_area") * 0.805 * 8.53 / 1000, rel=0.02)
    spout = next(part for part in made.parts if part.id == "spout_branch").solids[0].body
    way = math.radians(25)
    out = (math.cos(way), math.sin(way), 0.0)
    top = 34 + 36 / math.sin(math.radians(57))
    far = top * math.sin(math.radians(57)) + 15.87 / 2 * math.cos(math.radians(57))
    assert spout.reach(out)[1] == pytest.approx(far, rel=1e-3)


def test_the_main_is_not_asked_for_on_a_can() -> None:
    with pytest.raises(HollowrightError) as told:
        plan_tables(read_tables(CAN + "stock.main = {metal = 'C26000'}\n"))
    assert "stock.main" in told.value.field


@pytest.mark.parametrize(
    ("given_sizes", "field"),
    [
        ({"branch": (42, 1)}, "stock.branch.outside_diameter"),
        ({"branch": (39, 1), "joint": "let-in"}, "stock.branch.outside_diameter"),
        ({"offset": 11}, "sizes.offset"),
        ({"offset": -9.5, "joint": "let-in"}, "sizes.offset"),
        ({"branch": (39.9, 0.3)}, "stock.branch.wall"),
        ({"branch": (20, 10.1)}, "stock.branch.wall"),
        ({"length": 19}, "sizes.length"),
        ({"at": 4}, "sizes.at"),
        ({"at": 296}, "sizes.at"),
        ({"angle": 12}, "sizes.angle"),
    ],
)
def test_what_can_t_be_is_refused_by_its_field(given_sizes: dict[str, Any], field: str) -> None:
    with pytest.raises(InputError) as told:
        plan(**given_sizes)
    assert told.value.field == field
    assert told.value.remedy


@pytest.mark.parametrize(
    ("sizes", "quantity", "figure", "words"),
    [
        ({}, "deepest", "17.32", "wall not taken off"),
        ({}, "deepest", "11.00", "radius of the branch taken off"),
        ({}, "template_length", "62.83", "paper's thickness forgotten"),
        ({}, "hole_width", "18.00", "straight width"),
        ({"angle": 60}, "hole_length", "18.00", "straight across"),
        ({"angle": 60}, "highest", "20.00", "slant forgotten"),
        ({"length_from": "surface"}, "axis_length", "120.00", "main's radius forgotten"),
    ],
)
def test_slips_are_found(sizes: dict[str, Any], quantity: str, figure: str, words: str) -> None:
    found = check(plan(**sizes), quantity, figure)
    assert not found.agrees
    assert any(words in slip.text for slip in found.slips[:3]), found.slips


def test_a_square_edge_that_slants_says_what_to_file() -> None:
    made = plan(angle=60)
    assert value(made, "proud") == pytest.approx(1 / math.tan(math.radians(60)), rel=1e-9)
    assert any("unfiled" in caution.text for caution in made.cautions)
    assert not any("unfiled" in caution.text for caution in plan().cautions)


def test_a_square_edge_beside_the_main_s_middle_says_what_to_file() -> None:
    made = plan((40, 1), (12, 2), offset=13, cut="square")
    # On the side nearest the middle the outside lies 7 and the bore 9 beside it.
    proud = math.sqrt(400 - 49) - math.sqrt(400 - 81)
    assert value(made, "proud") == pytest.approx(proud, rel=1e-9)
    # On the other side 19 and 17: there a template of the outside would gape.
    gape = math.sqrt(400 - 17**2) - math.sqrt(400 - 19**2)
    assert value(made, "ride_up") == pytest.approx(gape, rel=1e-9)
    cut = next(step for step in made.steps if step.id == "cut_saddle").text
    assert "on the side nearest the main's middle the outside still stands past" in cut
    assert "0.87 mm at most" in cut
    assert any("nearest the main's middle" in caution.text for caution in made.cautions)


@settings(max_examples=25, deadline=None)
@given(**SIZES)
def test_what_a_square_edge_lacks_and_has_too_much(
    main: float, share: float, angle: float, aside: float, joint: Any, cut: str
) -> None:
    """No place round the branch stands past the main, or gapes, by more than the plan says."""
    main, angle = round(main, 2), round(angle, 1)
    branch = round(2 * share * (main / 2 - 0.9), 2)
    offset = round(aside * (main / 2 - 0.9 - branch / 2) * 0.98, 2)
    assume(branch > 3)
    sizes = {"at": 900, "main_length": 1800, "length": 700, "joint": joint, "cut": "square"}
    made = plan((main, 0.9), (branch, 0.6), angle=angle, offset=offset, **sizes)
    seat = main / 2 - (0.9 if joint == "let-in" else 0)
    lines = [
        Crossing(seat, radius, math.radians(angle), offset)
        for radius in (branch / 2 - 0.6, branch / 2)
    ]
    past = [lines[1].depth(t) - lines[0].depth(t) for t in (i * TURN / 1440 for i in range(1440))]
    assert value(made, "ride_up") == pytest.approx(-min(past), abs=2e-4)
    if angle != 90 or offset:
        assert value(made, "proud") == pytest.approx(max(past), abs=2e-4)


@pytest.mark.parametrize("offset", [0.0, 4.4, -13.0])
def test_the_square_branch_s_weight_is_all_its_fibres(offset: float) -> None:
    """Summed over rings of the wall: the bore's line, or the main where the wall stood past it."""
    made = plan((40, 1), (12, 2), offset=offset, angle=71, cut="square")
    turns = [i * TURN / 720 for i in range(720)]
    lines = [Crossing(20, 4 + 0.05 * (i + 0.5), math.radians(71), offset) for i in range(40)]
    bore = Crossing(20, 4, math.radians(71), offset)
    level = [bore.depth(t) for t in turns]
    volume = 0.0
    for line in lines:
        deep = sum(max(line.depth(t), low) for t, low in zip(turns, level, strict=True)) / 720
        volume += TURN * line.branch * 0.05 * (120 - deep)
    mass = made.parts[1].mass.value
    assert mass == pytest.approx(volume * 8.53 / 1000, rel=1e-5)
