"""Writes the assembled piece as a binary glTF 2.0 file: a named mesh a solid, in its metal's tone.

The container is written here: a mesh library that writes it takes some 0.7 s to be imported, more
than all else that a plan leaves. Source: Khronos Group, glTF 2.0 specification, 3.6 and 4.4.
"""

from __future__ import annotations

import json
import struct
from collections.abc import Iterable, Mapping
from itertools import chain, count
from typing import Any

from hollowright.errors import InputError
from hollowright.handbook.metals import Metal
from hollowright.piece import Solid
from hollowright.plan.plan import Plan

METRE = 1000.0  # [mm]
FINE = 0.02  # how far a chord may lie off a curve [mm]
ROUGHNESS = 0.35
MAGIC, TREE, BIN = 0x46546C67, 0x4E4F534A, 0x004E4942
FLOATS, WHOLE, CORNERS, INDICES = 5126, 5125, 34962, 34963
"""The standard's numbers for the container, for kinds of numbers and for what they are."""

Tone = tuple[float, float, float]
TONES: Mapping[str, Tone] = {
    "nickel silver": (0.80, 0.76, 0.68),
    "silver": (0.97, 0.96, 0.91),
    "gold": (1.00, 0.77, 0.34),
    "red brass": (0.93, 0.70, 0.42),
    "brass": (0.91, 0.78, 0.42),
    "gilding": (0.94, 0.68, 0.45),
    "bronze": (0.86, 0.62, 0.40),
    "copper": (0.95, 0.64, 0.54),
}
"""How a metal reflects red, green and blue (linear), by a word of its name; from memory."""

GREY: Tone = (0.60, 0.60, 0.60)


def glb(plan: Plan) -> bytes:
    """The assembled piece as a binary glTF 2.0 file, in metres, y up, as that standard has it.

    Each solid is a node with a mesh of its label's name; two of one label are told apart by a
    number. InputError for a piece of which no solid is known.
    """
    if not any(part.solids for part in plan.parts):
        raise InputError("piece", "none of its parts has a solid.", "Take its blanks instead.")
    packed = _Packed()
    metals: dict[str, int] = {}
    nodes: list[dict[str, Any]] = []
    meshes: list[dict[str, Any]] = []
    for name, solid, metal in _named(plan):
        material = metals.setdefault(metal.id, len(metals))
        meshes.append({"name": name, "primitives": [packed.mesh(solid, material)]})
        nodes.append({"name": name, "mesh": len(nodes)})
    tree = {
        "asset": {"version": "2.0", "generator": "Hollowright"},
        "scene": 0,
        "scenes": [{"name": plan.piece.title, "nodes": list(range(len(nodes)))}],
        "nodes": nodes,
        "meshes": meshes,
        "materials": [_material(each) for each in _metals(plan, metals)],
        **packed.tables(),
    }
    return _container(json.dumps(tree, ensure_ascii=False).encode(), bytes(packed.data))


def tone(metal: Metal) -> Tone:
    """A metal's reflected colour, linear red, green and blue; grey for one that has no tone."""
    return next((tone for word, tone in TONES.items() if word in metal.name), GREY)


def _named(plan: Plan) -> Iterable[tuple[str, Solid, Metal]]:
    """Every solid with a name of its own and its metal."""
    used: set[str] = set()
    for part in plan.parts:
        for solid in part.solids:
            names = chain([solid.label], (f"{solid.label} {i}" for i in count(2)))
            name = next(name for name in names if name not in used)
            used.add(name)
            yield name, solid, plan.piece.stock(part.stock).metal


def _metals(plan: Plan, order: Mapping[str, int]) -> Iterable[Metal]:
    """The metals of the piece in the order of their numbers."""
    known = {stock.metal.id: stock.metal for stock in plan.piece.stocks}
    return (known[id] for id in order)


def _material(metal: Metal) -> dict[str, Any]:
    shine = {
        "baseColorFactor": [*tone(metal), 1.0],
        "metallicFactor": 1.0,
        "roughnessFactor": ROUGHNESS,
    }
    return {"name": metal.name, "pbrMetallicRoughness": shine}


class _Packed:
    """The binary chunk as it grows, with what points into it."""

    def __init__(self) -> None:
        self.data = bytearray()
        self.views: list[dict[str, int]] = []
        self.accessors: list[dict[str, Any]] = []

    def mesh(self, solid: Solid, material: int) -> dict[str, Any]:
        """A solid's triangles, corners and normals packed; the primitive that points at them."""
        from hollowright.shapes.shading import shaded

        lit = shaded(solid.body.mesh(FINE))
        places = _turned(lit.vertices) / METRE
        return {
            "attributes": {
                "POSITION": self._put(places, "<f4", FLOATS, "VEC3", CORNERS, bounded=True),
                "NORMAL": self._put(_turned(lit.normals), "<f4", FLOATS, "VEC3", CORNERS),
            },
            "indices": self._put(lit.triangles.ravel(), "<u4", WHOLE, "SCALAR", INDICES),
            "material": material,
        }

    def _put(
        self, rows: Any, kind: str, component: int, shape: str, target: int, bounded: bool = False
    ) -> int:
        """An array packed; the number of its accessor."""
        packed = rows.astype(kind)
        raw = packed.tobytes()
        view = {"buffer": 0, "byteOffset": len(self.data), "byteLength": len(raw), "target": target}
        self.views.append(view)
        self.data += raw
        entry = {
            "bufferView": len(self.views) - 1,
            "componentType": component,
            "count": len(packed),
            "type": shape,
        }
        if bounded:
            entry |= {"min": packed.min(axis=0).tolist(), "max": packed.max(axis=0).tolist()}
        self.accessors.append(entry)
        return len(self.accessors) - 1

    def tables(self) -> dict[str, Any]:
        """The tree's tables of what was packed."""
        return {
            "accessors": self.accessors,
            "bufferViews": self.views,
            "buffers": [{"byteLength": len(self.data)}],
        }


def _container(tree: bytes, binary: bytes) -> bytes:
    """Header, the tree padded with spaces, the binary chunk (whole fours of bytes already)."""
    tree += b" " * (-len(tree) % 4)
    chunks = b"".join(
        struct.pack("<II", len(data), kind) + data for data, kind in ((tree, TREE), (binary, BIN))
    )
    return struct.pack("<III", MAGIC, 2, 12 + len(chunks)) + chunks


def _turned(rows: Any) -> Any:
    """Vectors (n, 3) with their z as y, so that up is where glTF has it."""
    return rows[:, (0, 2, 1)] * (1.0, 1.0, -1.0)
