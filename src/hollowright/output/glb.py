"""Writes the assembled piece as a binary glTF 2.0 file: a named mesh a solid, in its metal's tone.

The mesh library's writer is used: what it writes reads back whole. It is slow to import (some
0.7 s), so it is imported where it is used.
"""

from __future__ import annotations

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
    scene = _library().Scene()
    for name, solid, metal in _named(plan):
        mesh = _mesh(solid, metal)
        scene.add_geometry(mesh, node_name=name, geom_name=name)
    data: bytes = scene.export(
        file_type="glb", include_normals=True, tree_postprocessor=_sign(plan.piece.title)
    )
    return data


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


def _library() -> Any:
    """The mesh library, whose calls have no types."""
    import trimesh

    return trimesh


def _mesh(solid: Solid, metal: Metal) -> Any:
    from hollowright.shapes.shading import shaded

    library = _library()
    lit = shaded(solid.body.mesh(FINE))
    material = library.visual.material.PBRMaterial(
        name=metal.name,
        baseColorFactor=[*tone(metal), 1.0],
        metallicFactor=1.0,
        roughnessFactor=ROUGHNESS,
    )
    return library.Trimesh(
        _turned(lit.vertices) / METRE,
        lit.triangles,
        vertex_normals=_turned(lit.normals),
        visual=library.visual.TextureVisuals(material=material),
        process=False,
    )


def _turned(rows: Any) -> Any:
    """Vectors (n, 3) with their z as y, so that up is where glTF has it."""
    return rows[:, (0, 2, 1)] * (1.0, 1.0, -1.0)


def _sign(title: str) -> Any:
    """What is done to the file's tree before it is written: the piece's title, what made it."""

    def signed(tree: dict[str, Any]) -> None:
        tree["asset"] = {"version": "2.0", "generator": "Hollowright"}
        tree["scenes"][0]["name"] = title

    return signed
