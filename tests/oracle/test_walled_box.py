"""Walled boxes against a CAD kernel: build123d (OpenCASCADE) makes each wall and plate itself.

The kernel offsets wires and measures volumes on its own; an ellipse's parallel it follows with
splines, to some 1e-6.
"""

from typing import Any

import pytest

from hollowright.job.job import plan_tables

pytestmark = pytest.mark.oracle

WALL, PLATE, RING, HEIGHT = 0.97, 0.83, 0.62, 31.0
CASES: dict[str, dict[str, Any]] = {
    "oval": {"shape": "oval", "length": "61.3", "width": "42.7"},
    "rounded": {"shape": "rectangle", "length": "52.1", "width": "33.4", "corner_radius": "5.2"},
    "sharp": {"shape": "rectangle", "length": "52.1", "width": "33.4"},
    "hexagon": {"shape": "polygon", "sides": 6, "across_flats": "43.9"},
}


def wire_of(outline: dict[str, Any]) -> Any:
    from build123d import Edge, Rectangle, RectangleRounded, RegularPolygon, Wire

    size = {name: float(each) for name, each in outline.items() if name != "shape"}
    if outline["shape"] == "oval":
        return Wire([Edge.make_ellipse(size["length"] / 2, size["width"] / 2)])
    if outline["shape"] == "polygon":
        return RegularPolygon(size["across_flats"] / 3**0.5, 6).wire()
    if "corner_radius" in size:
        return RectangleRounded(size["length"], size["width"], size["corner_radius"]).wire()
    return Rectangle(size["length"], size["width"]).wire()


def between(outer: Any, inner: Any, height: float) -> float:
    """Volume between two wires, drawn out [mm3]."""
    from build123d import Face, extrude

    return float(
        extrude(Face(outer), height, (0, 0, 1)).volume
        - extrude(Face(inner), height, (0, 0, 1)).volume
    )


@pytest.mark.parametrize("outline", CASES.values(), ids=CASES)
def test_every_body_of_a_box_with_a_ring(outline: dict[str, Any]) -> None:
    from build123d import Face, Kind, extrude

    plan = plan_tables({
        "title": "Trial box",
        "design": "walled-box",
        "stock": {
            "wall_sheet": {"metal": "C26000", "thickness": [str(WALL)]},
            "plate_sheet": {"metal": "C26000", "thickness": [str(PLATE)]},
            "ring_sheet": {"metal": "C26000", "thickness": [str(RING)]},
        },
        "sizes": {"outline": outline, "height": str(HEIGHT), "lid_share": "0.3", "fit": "easy"},
    })  # fmt: skip
    bodies = {solid.body.id: solid.body for part in plan.parts for solid in part.solids}
    face = wire_of(outline)

    def inside(depth: float) -> Any:
        return face.offset_2d(-depth, Kind.INTERSECTION)

    lid, body = HEIGHT * 0.3 - PLATE, HEIGHT * 0.7 - PLATE
    gap = plan.quantities["lid_gap"].value / 2
    theirs = {
        "body_wall": between(face, inside(WALL), body),
        "lid_wall": between(face, inside(WALL), lid),
        "base": float(extrude(Face(face), PLATE, (0, 0, 1)).volume),
        "ring": between(inside(WALL + gap), inside(WALL + gap + RING), lid + 2),
    }
    for id, volume in theirs.items():
        # The kernel's splines round an oval; lines and arcs agree to rounding.
        near = 3e-5 if outline["shape"] == "oval" else 1e-9
        assert bodies[id].volume == pytest.approx(volume, rel=near), id


@pytest.mark.parametrize("outline", CASES.values(), ids=CASES)
def test_strips_by_the_kernels_own_mid_lines(outline: dict[str, Any]) -> None:
    from build123d import Kind

    plan = plan_tables({
        "title": "Trial box",
        "design": "walled-box",
        "stock": {
            "wall_sheet": {"metal": "C26000", "thickness": [str(WALL)]},
            "plate_sheet": {"metal": "C26000", "thickness": [str(PLATE)]},
        },
        "sizes": {
            "outline": outline, "height": str(HEIGHT), "lid": "cap", "clearance": "0.07",
        },
    })  # fmt: skip
    face = wire_of(outline)
    mid = face.offset_2d(-WALL / 2, Kind.INTERSECTION).length
    over = face.offset_2d(0.035 + WALL / 2, Kind.INTERSECTION).length
    assert plan.quantities["wall_length"].value == pytest.approx(mid, rel=2e-6)
    assert plan.quantities["lid_wall_length"].value == pytest.approx(over, rel=2e-6)
