"""The binary glTF file read back by hand (struct and json) and by a mesh library.

The container is that of the Khronos Group's glTF 2.0 specification, sections 3.6 and 4.4: a header
of magic, version and length, a JSON chunk padded with spaces, a binary chunk; metres, y up (3.4);
smallest and largest of the positions stated (3.6.2.5), normals of length 1 (3.7.2.1).
"""

import io
import json
import math
import struct
from dataclasses import replace

import numpy as np
import pytest
import trimesh

from hollowright.errors import InputError
from hollowright.handbook.metals import metals
from hollowright.output.glb import GREY, glb, tone
from hollowright.shapes.curves import Arc, Line
from hollowright.shapes.plated import Plated
from hollowright.shapes.shading import shaded
from hollowright.shapes.solids import Turned, tube
from hollowright.shapes.turned_curve import turned_curve

MAGIC, JSON, BINARY = 0x46546C67, 0x4E4F534A, 0x004E4942
FLOATS, WHOLE = 5126, 5125


@pytest.fixture
def plan(plan_of):
    return plan_of()


@pytest.fixture
def solids(plan):
    return {solid.label: solid for part in plan.parts for solid in part.solids}


def opened(data):
    """The tree and the binary chunk."""
    magic, version, length = struct.unpack_from("<III", data)
    assert (magic, version, length) == (MAGIC, 2, len(data))
    size, kind = struct.unpack_from("<II", data, 12)
    assert (kind, size % 4) == (JSON, 0)
    tree = json.loads(data[20 : 20 + size])
    binary, kind = struct.unpack_from("<II", data, 20 + size)
    assert (kind, binary % 4) == (BINARY, 0)
    assert 28 + size + binary == len(data)
    assert tree["buffers"] == [{"byteLength": binary}]
    return tree, data[28 + size :]


def rows(tree, chunk, number):
    """What an accessor points at."""
    accessor = tree["accessors"][number]
    view = tree["bufferViews"][accessor["bufferView"]]
    start = view.get("byteOffset", 0) + accessor.get("byteOffset", 0)
    width = {"SCALAR": 1, "VEC3": 3}[accessor["type"]]
    kind = {FLOATS: "<f4", WHOLE: "<u4"}[accessor["componentType"]]
    found = np.frombuffer(chunk, kind, accessor["count"] * width, start).reshape(-1, width)
    assert start % 4 == 0
    if "min" in accessor:
        assert found.min(axis=0) == pytest.approx(np.array(accessor["min"]), abs=1e-7)
        assert found.max(axis=0) == pytest.approx(np.array(accessor["max"]), abs=1e-7)
    return found


def meshes(data):
    """Each node's name, positions, normals, triangles and material."""
    tree, chunk = opened(data)
    for node in tree["nodes"]:
        if "mesh" not in node:
            continue
        (primitive,) = tree["meshes"][node["mesh"]]["primitives"]
        assert primitive.get("mode", 4) == 4
        place = primitive["attributes"]["POSITION"]
        assert {"min", "max"} <= set(tree["accessors"][place])
        yield (
            node["name"],
            rows(tree, chunk, place),
            rows(tree, chunk, primitive["attributes"]["NORMAL"]),
            rows(tree, chunk, primitive["indices"]).reshape(-1, 3),
            tree["materials"][primitive["material"]],
        )


def test_the_container_by_hand(plan):
    tree, _ = opened(glb(plan))
    assert tree["asset"] == {"version": "2.0", "generator": "Hollowright"}
    assert tree["scenes"][0]["name"] == "Tea caddy"
    assert b"://" not in glb(plan)


def test_a_named_node_a_solid_in_metres_with_y_up(plan, solids):
    found = {name: corners for name, corners, *_ in meshes(glb(plan))}
    assert list(found) == [solid.label for part in plan.parts for solid in part.solids]
    for label, corners in found.items():
        low, high = np.array(solids[label].body.mesh(0.02).bounds) / 1000
        assert corners.min(axis=0) == pytest.approx([low[0], low[2], -high[1]], abs=1e-7)
        assert corners.max(axis=0) == pytest.approx([high[0], high[2], -low[1]], abs=1e-7)


def test_triangles_face_out_and_normals_are_theirs(plan):
    for _, corners, normals, triangles, _ in meshes(glb(plan)):
        assert np.linalg.norm(normals, axis=1) == pytest.approx(1, abs=1e-5)
        a, b, c = (corners[triangles[:, i]].astype(float) for i in range(3))
        faces = np.cross(b - a, c - a)
        faces /= np.linalg.norm(faces, axis=1)[:, None]
        for i in range(3):
            assert (np.einsum("ij,ij->i", faces, normals[triangles[:, i]]) > 0.99).all()


def test_a_library_reads_closed_solids_of_the_right_volume(plan, solids):
    scene = trimesh.load(io.BytesIO(glb(plan)), file_type="glb")
    assert set(scene.geometry) == set(solids)
    for label, mesh in scene.geometry.items():
        mesh.merge_vertices(merge_norm=True, merge_tex=True)
        assert mesh.is_watertight
        assert mesh.volume * 1e9 == pytest.approx(solids[label].body.volume, rel=0.003)


def relabelled(plan, labels):
    """The plan with its solids called so, in their order."""
    left = iter(labels)
    parts = tuple(
        replace(part, solids=tuple(replace(solid, label=next(left)) for solid in part.solids))
        for part in plan.parts
    )
    return replace(plan, piece=replace(plan.piece, parts=parts))


def test_solids_of_one_name_are_told_apart(plan):
    labels = ["half", "half", "half 2", "half", "ring"]
    names = [name for name, *_ in meshes(glb(relabelled(plan, labels)))]
    assert names == ["half", "half 2", "half 2 2", "half 3", "ring"]


def test_a_piece_without_solids_is_refused_in_words(plan):
    bare = tuple(replace(part, solids=()) for part in plan.parts)
    with pytest.raises(InputError, match="none of its parts has a solid"):
        glb(replace(plan, piece=replace(plan.piece, parts=bare)))


def test_the_metal_has_its_tone(plan_of):
    mixed = plan_of(stock__ring_sheet__metal="sterling", stock__cap_sheet__metal="C11000")
    tones = {name: material for name, *_, material in meshes(glb(mixed))}
    for label, metal in {
        "ring": "Ag925",
        "cap of the lid": "C11000",
        "body tube": "C26000",
    }.items():
        made = next(each for each in metals() if each.id == metal)
        assert tones[label]["name"] == made.name
        shine = tones[label]["pbrMetallicRoughness"]
        assert shine["baseColorFactor"][:3] == pytest.approx(tone(made), abs=0.003)
        assert shine["metallicFactor"] == 1


def test_every_metal_of_the_handbook_has_a_tone_and_a_stranger_is_grey():
    tones = {metal.id: tone(metal) for metal in metals()}
    assert GREY not in tones.values()
    for id, (red, green, blue) in tones.items():
        assert (red - blue < 0.13) == (id.startswith("Ag") or id == "C75200")
        assert red >= green >= blue
    assert tone(replace(metals()[0], name="titanium")) == GREY


def test_the_same_plan_gives_the_same_bytes(plan):
    assert glb(plan) == glb(plan)


def test_a_cylinder_is_lit_smooth_and_its_rims_sharp():
    lit = shaded(tube("tube", 20, 2, 30).mesh())
    for (x, y, _), (nx, ny, nz) in zip(lit.vertices, lit.normals, strict=True):
        radius = math.hypot(x, y)
        flat = abs(nz) > 0.5
        side = 1 if radius > 9 else -1
        expected = (
            (0, 0, math.copysign(1, nz)) if flat else (side * x / radius, side * y / radius, 0)
        )
        assert (nx, ny, nz) == pytest.approx(expected, abs=1e-9)
    assert len(lit.vertices) == 2 * len(tube("tube", 20, 2, 30).mesh().vertices)


def test_a_ball_is_lit_as_a_ball():
    half = [Arc((0, 0), 10, -math.pi / 2, math.pi), Line((0, 10), (0, -10))]
    lit = shaded(turned_curve("ball", half).mesh())
    for vertex, normal in zip(lit.vertices, lit.normals, strict=True):
        assert normal == pytest.approx([x / 10 for x in vertex], abs=0.02)


def test_facets_and_tips_are_sharp():
    corners = ((-5, -5, 0), (5, -5, 0), (5, 5, 0), (-5, 5, 0), (0, 0, 8))
    faces = ((3, 2, 1, 0), (0, 1, 4), (1, 2, 4), (2, 3, 4), (3, 0, 4))
    lit = shaded(Plated("pyramid", corners, faces).mesh())
    assert len(lit.vertices) == 16
    cone = shaded(Turned("cone", ((0, 0), (4, 0), (0, 9))).mesh())
    tips = [n for v, n in zip(cone.vertices, cone.normals, strict=True) if v[2] > 8.9]
    assert len(tips) == 48  # each face round the tip keeps its own normal there
