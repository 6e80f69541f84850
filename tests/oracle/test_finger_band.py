"""Finger bands against a CAD kernel: build123d (OpenCASCADE) turns their sections itself.

Volumes, weights, lengths: 1e-6 relative. A domed band's surface: its drawn arc's,
in 48 chords; a vented sleeve's: its mesh's.
"""

import math

import pytest

from tests.oracle import kernel
from tests.oracle.cases import CLOSE, Case, cases, same_bodies

pytestmark = pytest.mark.oracle

CASES = cases(
    "finger-band",
    wide={"sizes__width": "9.7 mm", "sizes__size": "ISO 61", "stock__sheet__thickness": ["2.13"]},
    read={"as_built__inside_diameter": ["17.41", "17.38"]},
    domed_thick={"sizes__kind": "domed", "sizes__edge": "0.9 mm", "sizes__width": "5.3 mm",
                 "stock__sheet__thickness": ["2.47"]},
    hollow_let_in={"sizes__kind": "hollow", "sizes__width": "8.1 mm", "sizes__depth": "4.3 mm",
                   "sizes__sides": "let-in", "sizes__vent": "1.2 mm",
                   "stock__sheet__thickness": ["0.47"]},
)  # fmt: skip
named = pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)


@named
def test_every_body(case: Case) -> None:
    meshed = case.tables["sizes"]["kind"] != "plain"
    same_bodies(case, surfaces=2e-4 if meshed else CLOSE)


@named
def test_strips_are_as_long_as_their_section_s_middle_is_round(case: Case) -> None:
    """Pappus the other way: volume / section is the way of its centre. Domed ones are bent flat."""
    from build123d import Plane

    q, kind = case.q, case.tables["sizes"]["kind"]
    if case.name == "read":  # the strip was cut before the ring was read
        length = math.pi * (case.plan.as_planned("inside_diameter").value + q["sheet_thickness"])
        assert q["blank_length"] == pytest.approx(length, rel=CLOSE)
        return
    if kind == "domed":
        middle = math.pi * (q["inside_diameter"] + q["sheet_thickness"])
        assert q["blank_length"] == pytest.approx(middle, rel=CLOSE)
    bodies = {"band": "blank_length"} if kind != "hollow" else {
        "sleeve": "sleeve_length", "shell": "shell_length"
    }  # fmt: skip
    for id, name in bodies.items():
        body = case.theirs[id]
        cut = body.intersect(Plane.XZ)
        faces = (
            [f for piece in cut for f in piece.faces()] if isinstance(cut, list) else cut.faces()
        )
        sections = [kernel.area(face) for face in faces]
        assert len(sections) == 2
        if "section_area" in q:
            assert q["section_area"] == pytest.approx(sections[0], rel=CLOSE)
        if kind != "domed":
            drilled = 2 * q["vent_volume"] if id == "sleeve" else 0.0
            length = (kernel.volume(body) + drilled) / sections[0]
            assert q[name] == pytest.approx(length, rel=CLOSE), id


@named
def test_the_solid_band_and_the_hollow(case: Case) -> None:
    q = case.q
    if "solid_mass" not in q:
        assert case.tables["sizes"]["kind"] != "hollow"
        return
    outside = q["inside_diameter"] + 2 * q["depth"]
    whole = kernel.tube(outside, q["inside_diameter"], q["width"])
    (stock,) = case.plan.piece.stocks
    weight = kernel.volume(whole) * stock.metal.density.value / 1000
    assert q["solid_mass"] == pytest.approx(weight, rel=CLOSE)
    if case.tables["sizes"].get("sides", "on-end") == "on-end":
        metal = sum(map(kernel.volume, case.theirs.values()))
        hollow = (kernel.volume(whole) - metal - 2 * q["vent_volume"]) / 1000
        assert q["hollow_volume"] == pytest.approx(hollow, rel=CLOSE)


@named
def test_length_round_the_inside(case: Case) -> None:
    from build123d import Edge

    if "inside_circumference" in case.q and "size_diameter" not in case.q and case.name != "read":
        edge = Edge.make_circle(case.q["inside_diameter"] / 2)
        assert case.q["inside_circumference"] == pytest.approx(kernel.length(edge), rel=CLOSE)
    assert case.q["inside_diameter"] > 0
