"""Mitred tube: its papers against the shapes, its elbows in space, its limits, its slips."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hollowright.errors import InputError
from hollowright.job.job import plan_tables
from hollowright.plan.plan import Plan
from hollowright.plan.slips import check
from hollowright.shapes.developments.cylinder import cut_ellipse, elbow_cuts, mitre_template

CUTS = {"bevelled": "outer", "square": "inner", "unfiled": "first"}


def plan(outside: Any = 20, wall: Any = 0.8, **sizes: Any) -> Plan:
    asked = {"length": 60, **sizes}
    if "bend" not in asked:
        asked.setdefault("angle", 30)
    tube = {"metal": "C26000", "outside_diameter": [f"{outside}"] * 2, "wall": f"{wall}"}
    return plan_tables(
        {"title": "Mitre", "design": "tube-mitre", "stock": {"tube": tube}, "sizes": asked}
    )


def value(made: Plan, id: str) -> float:
    return made.quantities[id].value


@settings(max_examples=30, deadline=None)
@given(
    outside=st.floats(4, 120),
    share=st.floats(0.02, 0.4),
    angle=st.floats(0.5, 70),
    cut=st.sampled_from(sorted(CUTS)),
)
def test_the_quantities_are_the_shapes(
    outside: float, share: float, angle: float, cut: str
) -> None:
    outside, wall, angle = (
        round(outside, 2),
        min(18.0, max(0.1, round(share * outside / 2, 2))),
        round(angle, 2),
    )
    made = plan(outside, wall, angle=angle, length=900, cut=cut)
    lean = math.radians(angle)
    band = mitre_template(outside, wall, lean, 900, fibre=CUTS[cut], paper=0.1)
    flat = band.outline()
    height = band.high(0) - band.high(math.pi) + 15
    assert value(made, "template_length") == pytest.approx(flat.width, rel=1e-9)
    assert value(made, "template_height") == pytest.approx(height, rel=1e-9)
    assert value(made, "long_side") == pytest.approx(band.high(0), rel=1e-9)
    filed = wall * math.tan(lean) if cut == "square" else 0
    assert value(made, "short_side") == pytest.approx(band.high(math.pi) - filed, rel=1e-9)
    for turn in (0, 30, 60, 90, 120, 150, 180):
        above = band.high(math.radians(turn)) - band.high(math.pi) + 15
        assert value(made, f"ordinate_{turn}") == pytest.approx(above, rel=1e-9), turn
    round_it = cut_ellipse((outside - wall) / 2, lean).length()
    assert value(made, "joint_length") == pytest.approx(round_it, rel=1e-9)
    paper = made.piece.templates[0]
    assert paper.outline.width == pytest.approx(value(made, "template_length"), rel=1e-6)
    assert paper.outline.height == pytest.approx(height, rel=1e-6, abs=1e-3)


@settings(max_examples=20, deadline=None)
@given(
    outside=st.floats(6, 60),
    bend=st.floats(5, 180),
    pieces=st.integers(2, 7),
    cut=st.sampled_from(sorted(CUTS)),
)
def test_the_pieces_of_an_elbow_meet(outside: float, bend: float, pieces: int, cut: str) -> None:
    """Neighbours' papers have the same line, and the long sides lie on one side of the bend."""
    outside, bend = round(outside, 2), round(max(bend, 5 * (pieces - 1)), 2)
    if bend / (2 * (pieces - 1)) > 74:
        return
    radius = {"radius": 3 * outside} if pieces > 2 else {}
    made = plan(outside, 0.6, bend=bend, pieces=pieces, length=900, cut=cut, **radius)
    degrees = [math.degrees(at) for at in elbow_cuts(math.radians(bend), pieces)]
    assert value(made, "angle") == pytest.approx(degrees[0], rel=1e-9)
    bodies = [solid.body for part in made.parts for solid in part.solids]
    assert len(bodies) == pieces
    ends = sorted(bodies, key=lambda body: int(body.id.rpartition("_")[2]))
    for one, other in pairwise(ends):
        if cut != "unfiled":
            meets(rails(one)[2], rails(other)[3])  # the inner edges lie in the mitre's plane
        if cut == "bevelled":
            meets(rails(one)[1], rails(other)[0])  # and the outer ones


def rails(body: Any) -> Any:
    return body.rails


def meets(above: Any, below: Any) -> None:
    for point in above:
        assert min(math.dist(point, other) for other in below) < 1e-6


def test_an_elbow_turns_by_its_bend() -> None:
    made = plan(bend=90, pieces=5, radius=45)
    last = made.parts[0].solids[-1].body
    start, end = (mean(rails(last)[i]) for i in (0, 1))
    way = [b - a for a, b in zip(start, end, strict=True)]
    assert way[0] == pytest.approx(-math.hypot(*way), rel=1e-6)  # towards -x, level
    # Bend of radius 45: the last axis lies 45 above where the legs' arcs begin.
    arc = value(made, "middle_length") / 2
    assert start[2] == pytest.approx(60 - arc + 45, rel=1e-6)


def mean(rail: Any) -> list[float]:
    return [sum(axis) / len(rail) for axis in zip(*rail, strict=True)]


def test_a_square_edge_is_filed_on_the_short_side() -> None:
    made = plan(cut="square")
    assert value(made, "proud") == pytest.approx(0.8 * math.tan(math.radians(30)), rel=1e-9)
    assert "{:.2f} mm past".format(value(made, "proud")) in made.steps[5].text
    assert "proud" not in plan(cut="bevelled").quantities


@pytest.mark.parametrize("cut", sorted(CUTS))
@pytest.mark.parametrize("pieces", [1, 3])
def test_the_weight_is_the_bodies(cut: str, pieces: int) -> None:
    sizes = {"pieces": 3, "radius": 55, "last_length": 33} if pieces == 3 else {}
    made = plan(24.6, 1.7, angle=28, cut=cut, **sizes)
    for part in made.parts:
        for solid in part.solids:
            assert solid.body.volume * 8.53 / 1000 == pytest.approx(part.mass.value, rel=1e-9)
            # 72 corners round lose 0.13 % of a tube's section.
            assert solid.body.mesh().volume == pytest.approx(solid.body.volume, rel=2e-3)


@pytest.mark.parametrize(("cut", "at"), [("bevelled", 10), ("square", 9.2), ("unfiled", 9.2)])
def test_length_to_the_long_or_the_short_side(cut: str, at: float) -> None:
    """Finished, outside: a square edge is nowhere higher than the inside's line, at 9.2."""
    long, short = (plan(length_to=f"{side}-side", cut=cut) for side in ("long", "short"))
    slope = math.tan(math.radians(30))
    assert value(long, "axis_length") == pytest.approx(60 - at * slope)
    assert value(short, "axis_length") == pytest.approx(60 + 10 * slope)
    for made, side in ((long, "long_side"), (short, "short_side")):
        assert value(made, side) == pytest.approx(60)
        # The same on the body: its outer rails, from the square end to the cut.
        heights = {round(x, 6): z for x, _, z in rails(made.parts[0].solids[0].body)[1]}
        turned = {round(x, 6): z for x, _, z in rails(made.parts[0].solids[0].body)[0]}
        x = 10.0 if side == "long_side" else -10.0
        assert heights[x] - turned[x] == pytest.approx(60)


@pytest.mark.parametrize("cut", sorted(CUTS))
def test_the_mouth_is_measured_on_the_finished_edge(cut: str) -> None:
    made = plan(cut=cut)
    apart = value(made, "long_side") - value(made, "short_side")
    assert value(made, "mouth_length") == pytest.approx(math.hypot(20, apart), rel=1e-9)


def test_a_short_leg_takes_less_paper() -> None:
    made = plan(length=12)
    assert value(made, "template_height") == pytest.approx(value(made, "long_side"))
    assert value(made, "edge_from_end") == pytest.approx(0)


@pytest.mark.parametrize(
    ("sizes", "field"),
    [
        ({"angle": 30, "bend": 60, "pieces": 2}, "sizes.angle"),
        ({"bend": 60}, "sizes.bend"),
        ({"bend": 170, "pieces": 2}, "sizes.bend"),
        ({"angle": 40, "pieces": 4, "radius": 60}, "sizes.angle"),
        ({"pieces": 3}, "sizes.radius"),
        ({"radius": 40}, "sizes.radius"),
        ({"pieces": 3, "radius": 9}, "sizes.radius"),
        ({"last_length": 40}, "sizes.last_length"),
        ({"pieces": 2, "last_length": 4}, "sizes.last_length"),
        ({"length": 5}, "sizes.length"),
        ({"wall": 10.2}, "stock.tube.wall"),
    ],
)
def test_what_can_t_be_is_refused_by_its_field(sizes: dict[str, Any], field: str) -> None:
    with pytest.raises(InputError) as told:
        plan(**sizes)
    assert told.value.field == field
    assert told.value.remedy


@pytest.mark.parametrize(
    ("quantity", "figure", "words"),
    [
        ("template_length", "62.83", "paper's thickness forgotten"),
        ("rise", "17.32", "turn of the joint"),
        ("rise", "11.55", "diameter taken"),
        ("template_height", "31.55", None),
        ("long_side", "71.55", "whole cut's height"),
        ("joint_length", "60.32", "once round the tube"),
        ("ordinate_60", "17.89", "short side"),
    ],
)
def test_slips_are_found(quantity: str, figure: str, words: str | None) -> None:
    found = check(plan(), quantity, figure)
    assert not found.agrees or words is None
    if words is not None:
        assert any(words in slip.text for slip in found.slips[:3]), found.slips


def test_inner_and_outer_mixed_up() -> None:
    """The outside's rise where the square cut's is on the inside."""
    found = check(plan(cut="square"), "rise", "5.77")
    assert any("wall not taken off" in slip.text for slip in found.slips), found.slips
