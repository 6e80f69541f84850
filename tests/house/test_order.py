"""The order of the rooms: imports go downhill only. The list below is the architecture."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

PACKAGE = Path(__file__).resolve().parents[2] / "src" / "hollowright"

# From the ground floor up. A room may import the rooms below it, never one above or beside it.
FLOORS = (
    ("errors",),
    ("units",),
    ("quantity",),
    ("handbook",),
    ("formulas",),
    ("shapes",),
    ("piece",),
    ("designs",),
    ("shop",),
    ("plan",),
    ("job",),
    ("output",),
    ("store",),
    ("cli", "web"),
)
# The one door between the faces: 'serve' starts the page, by an import inside a function.
DOOR = ("cli", "web")
# The package's own files: the version, which imports nothing; and 'python -m', which calls the cli.
ENTRANCES = {"__init__": set(), "__main__": {"cli"}}

HEIGHT = {room: floor for floor, rooms in enumerate(FLOORS) for room in rooms}
MODULES = sorted(PACKAGE.rglob("*.py"))


def room_of(module: Path) -> str:
    """Name of the room that a module lives in."""
    return module.relative_to(PACKAGE).with_suffix("").parts[0]


def imported(node: ast.AST) -> list[str]:
    """Dotted names that a node brings in, also one given as text to ``import_module``."""
    if isinstance(node, ast.Import):
        return [alias.name for alias in node.names]
    if isinstance(node, ast.ImportFrom):
        if node.level:
            return ["a relative import"]
        if node.module == "hollowright":
            return [f"hollowright.{alias.name}" for alias in node.names]
        return [node.module or ""]
    if isinstance(node, ast.Call) and "import_module" in ast.unparse(node.func):
        texts = [argument for argument in node.args if isinstance(argument, ast.Constant)]
        return [str(text.value) for text in texts]
    return []


def inside_functions(tree: ast.Module) -> set[ast.AST]:
    """Nodes that run only when some function is called."""
    functions = (ast.FunctionDef, ast.AsyncFunctionDef)
    return {n for f in ast.walk(tree) if isinstance(f, functions) for n in ast.walk(f)}


def rooms_imported(tree: ast.Module) -> Iterator[tuple[str, bool, int]]:
    """Each room that a module imports, whether inside a function, and the line."""
    late = inside_functions(tree)
    for node in ast.walk(tree):
        for name in imported(node):
            parts = name.split(".")
            if parts[0] == "hollowright" and len(parts) > 1 and parts[1] != "__version__":
                yield parts[1], node in late, getattr(node, "lineno", 0)


def allowed(room: str, other: str, late: bool) -> bool:
    """Whether ``room`` may import ``other`` (``late``: inside a function)."""
    if room in ENTRANCES:
        return other in ENTRANCES[room]
    if other == room or ((room, other) == DOOR and late):
        return True
    return other in HEIGHT and HEIGHT[other] < HEIGHT[room]


def faults(source: str, room: str) -> list[str]:
    """What in a module of ``room`` breaks the order, each with its line."""
    tree = ast.parse(source)
    found = [
        f"line {line}: {room} may not import {other}"
        for other, late, line in rooms_imported(tree)
        if not allowed(room, other, late)
    ]
    for node in ast.walk(tree):
        line = f"line {getattr(node, 'lineno', 0)}"
        if isinstance(node, ast.ImportFrom) and (node.level or node.names[0].name == "*"):
            found.append(f"{line}: no star and no relative imports")
        names = (getattr(node, "id", ""), getattr(node, "attr", ""), getattr(node, "name", ""))
        if "TYPE_CHECKING" in names:
            found.append(f"{line}: no TYPE_CHECKING")
    return found


@pytest.mark.parametrize("module", MODULES, ids=lambda m: str(m.relative_to(PACKAGE)))
def test_imports_go_downhill(module: Path) -> None:
    assert faults(module.read_text(encoding="utf-8"), room_of(module)) == []


def test_every_module_lives_in_a_room() -> None:
    assert {room_of(module) for module in MODULES} <= set(HEIGHT) | set(ENTRANCES)


@pytest.mark.parametrize(
    ("room", "source"),
    [
        ("units", "from hollowright.quantity import reading"),
        ("units", "def late():\n    import hollowright.quantity"),
        ("formulas", "from hollowright import piece"),
        ("formulas", "from hollowright.attic import beam"),
        ("formulas", "import importlib\nimportlib.import_module('hollowright.plan')"),
        ("plan", "from ..units import length"),
        ("plan", "from hollowright.units import *"),
        ("plan", "from typing import TYPE_CHECKING"),
        ("plan", "import typing\nif typing.TYPE_CHECKING:\n    pass"),
        ("cli", "from hollowright.web import serve"),
        ("web", "def late():\n    from hollowright.cli import main"),
        ("__init__", "from hollowright.units import length"),
        ("__main__", "from hollowright.plan import make_plan"),
    ],
)
def test_a_breach_is_seen(room: str, source: str) -> None:
    assert faults(source, room)


@pytest.mark.parametrize(
    ("room", "source"),
    [
        ("units", "from hollowright.units import table\nfrom hollowright import __version__"),
        ("plan", "import math\nfrom hollowright.piece import Piece"),
        ("cli", "def serve():\n    from hollowright.web import app"),
        ("__main__", "from hollowright.cli import main"),
    ],
)
def test_what_is_allowed_passes(room: str, source: str) -> None:
    assert faults(source, room) == []
