"""The scene of a piece: the same solids as its parts, every line a drafter's, small and quick."""

import json
import math
import time
from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hollowright.designs import design
from hollowright.job.job import plan_tables, read_tables
from hollowright.output.picture import GAP
from hollowright.output.scene import CREASE, HOLLOW, SEAM, SMOOTH, STEPS, UNIT, scene, shape
from hollowright.output.scene_profile import BEND, coarse, thinned
from hollowright.plan.plan import Plan
from hollowright.shapes.meshes import Mesh
from hollowright.shapes.solids import Turned, ring, tube

EXAMPLES = {id: design(id).examples[0].text for id in ("tube-box", "bead", "walled-box")}


def rows(numbers: list[int], width: int) -> Any:
    return np.array(numbers).reshape(-1, width)


def mesh_of(solid: dict[str, Any]) -> Mesh:
    corners = rows(solid["positions"], 3) * UNIT
    return Mesh(
        tuple(map(tuple, corners.tolist())), tuple(map(tuple, rows(solid["triangles"], 3).tolist()))
    )


def kinds(shaped: dict[str, list[int]]) -> dict[int, int]:
    found, counts = np.unique(rows(shaped["edges"], 5)[:, 4], return_counts=True)
    return dict(zip(found.tolist(), counts.tolist(), strict=True))


@pytest.mark.parametrize("id", EXAMPLES)
def test_every_solid_is_there_closed_and_as_large_as_it_is(id: str) -> None:
    plan = plan_tables(read_tables(EXAMPLES[id]))
    solids = [(part.id, solid) for part in plan.parts for solid in part.solids]
    found = json.loads(json.dumps(scene(plan)))["solids"]
    assert [(each["part"], each["id"], each["name"]) for each in found] == [
        (part, solid.body.id, solid.label) for part, solid in solids
    ]
    for each, (_, solid) in zip(found, solids, strict=True):
        mesh = mesh_of(each)
        assert mesh.is_closed
        # polygons of 48 sides at least: 1 - sin(2 pi / 48) / (2 pi / 48) = 0.3 % of a disc's area,
        # and of a thin wall twice that, as its inner and outer outlines differ
        assert mesh.volume == pytest.approx(solid.body.volume, rel=0.01)


@pytest.mark.parametrize("id", EXAMPLES)
def test_normals_are_those_of_the_faces_beside_each_edge(id: str) -> None:
    for each in scene(plan_tables(read_tables(EXAMPLES[id])))["solids"]:
        corners, triangles = rows(each["positions"], 3) * UNIT, rows(each["triangles"], 3)
        normals = rows(each["normals"], 3) / STEPS
        assert np.linalg.norm(normals, axis=1) == pytest.approx(1, abs=2e-3)
        beside: dict[tuple[int, int], list[Any]] = {}
        for a, b, c in triangles.tolist():
            across = np.cross(corners[b] - corners[a], corners[c] - corners[a])
            for pair in ((a, b), (b, c), (c, a)):
                beside.setdefault((min(pair), max(pair)), []).append(across)
        for a, b, one, other, _ in rows(each["edges"], 5).tolist():
            for told, real in zip((one, other), beside[a, b], strict=True):
                long = np.linalg.norm(real)
                if long > 0.02:  # smaller ones lose their direction as corners are rounded
                    assert normals[told] @ real / long == pytest.approx(1, abs=2e-3)


def test_a_tube_has_four_rims_smooth_sides_and_a_hollow_bore() -> None:
    shaped = shape(tube("tube", 38.05, 1.02, 30.0), 0.05)
    sides = kinds(shaped)[SMOOTH]
    assert sides >= 48
    assert kinds(shaped) == {SMOOTH: sides, CREASE: 4 * sides, SMOOTH + HOLLOW: sides}
    corners = rows(shaped["positions"], 3) * UNIT
    for a, b, *_, kind in rows(shaped["edges"], 5).tolist():
        radius = np.linalg.norm(corners[[a, b], :2], axis=1)
        if kind == SMOOTH:
            assert radius == pytest.approx(19.025, abs=0.002)
        if kind == SMOOTH + HOLLOW:
            assert radius == pytest.approx(18.005, abs=0.002)


def test_a_seam_is_a_line_of_its_own_kind() -> None:
    shaped = shape(ring("ring", 36.0, 0.6, 12.0), 0.05)
    assert kinds(shaped)[SEAM] == 3  # outside, and across both rims, which are level
    assert kinds(shaped)[SEAM + HOLLOW] == 1  # in the bore
    assert SEAM not in kinds(shape(tube("tube", 36.0, 0.6, 12.0), 0.05))


def test_drawn_apart_no_two_parts_overlap(plan_of: Callable[..., Plan]) -> None:
    found = scene(plan_of())["solids"]
    spans = []
    for each in found:
        heights = rows(each["positions"], 3)[:, 2] * UNIT + each["shift"][2]
        assert each["shift"][:2] == [0, 0]
        spans.append((heights.min(), heights.max()))
    spans.sort()
    gaps = [low - high for (_, high), (low, _) in pairwise(spans)]
    assert gaps == pytest.approx([GAP * 38.05] * 4, abs=0.01)


def test_a_piece_without_solids_has_an_empty_scene(plan_of: Callable[..., Plan]) -> None:
    plan = plan_of()
    parts = tuple(replace(part, solids=()) for part in plan.parts)
    bare = replace(plan, piece=replace(plan.piece, parts=parts))
    assert scene(bare)["solids"] == []


def test_a_typical_scene_is_small_and_quick(plan_of: Callable[..., Plan]) -> None:
    plan = plan_of()
    took = []
    for _ in range(8):
        start = time.process_time()
        written = json.dumps(scene(plan), separators=(",", ":"))
        took.append(time.process_time() - start)
    print(f"{len(written) / 1000:.0f} kB in {1000 * min(took):.1f} ms")  # noqa: T201
    assert len(written) < 150_000
    assert min(took) < 0.030


def dome(radius: float, count: int) -> Turned:
    angles = [math.pi / 2 * i / count for i in range(count + 1)]
    outer = [(radius * math.cos(a), radius * math.sin(a)) for a in angles]
    inner = [((radius - 1) * math.cos(a), (radius - 1) * math.sin(a)) for a in reversed(angles)]
    poles = [(max(0.0, r) if r > 1e-9 else 0.0, z) for r, z in (*outer, *inner)]
    return Turned("dome", tuple(poles))


@given(st.floats(5, 60), st.integers(60, 200))
def test_a_thinned_profile_keeps_its_corners_and_its_curve(radius: float, count: int) -> None:
    body = dome(radius, count)
    points = [start for start, _ in body.edges]
    kept = thinned(points, body.turns, 0.2)
    assert set(kept) <= set(points)
    assert {(radius, 0.0), (radius - 1, 0.0), (0.0, radius), (0.0, radius - 1)} <= set(kept)
    assert len(kept) <= min(len(points), 2 * (3 + math.pi / 2 / (BEND - math.pi / 2 / count)))
    sides = list(zip(kept, [*kept[1:], kept[0]], strict=True))
    for point in points:
        assert min(off(point, *side) for side in sides) <= 0.2 + 1e-9
    assert coarse(body, 0.2).volume == pytest.approx(body.volume, rel=0.05)


def off(p: tuple[float, float], a: tuple[float, float], b: tuple[float, float]) -> float:
    """How far a point lies off a stretch."""
    (px, py), (ax, ay), (bx, by) = p, a, b
    square = (bx - ax) ** 2 + (by - ay) ** 2
    t = max(0.0, min(1.0, ((px - ax) * (bx - ax) + (py - ay) * (by - ay)) / square))
    return math.hypot(px - ax - t * (bx - ax), py - ay - t * (by - ay))
