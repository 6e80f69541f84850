"""What can be made: one file a design, found by being here; `designs()` lists them."""

from __future__ import annotations

import importlib
import os
from functools import cache

from hollowright.designs.fields import Design, Example, Field
from hollowright.errors import UnknownName

__all__ = ["Design", "Example", "Field", "design", "designs"]


@cache
def designs() -> tuple[Design, ...]:
    """Every design: the modules of this folder that hold a DESIGN, by their ids."""
    names = sorted(
        entry.name[:-3]
        for entry in os.scandir(os.path.dirname(__file__))
        if entry.name.endswith(".py")
    )
    modules = (importlib.import_module(f"{__name__}.{name}") for name in names if name[0] != "_")
    found = [module.DESIGN for module in modules if hasattr(module, "DESIGN")]
    return tuple(sorted(found, key=lambda design: design.id))


def design(id: object, field: str = "design") -> Design:
    """The design with this id; UnknownName says 'did you mean' and what exists.

    Only its own module is imported, the one named as it is; the others when there is none.
    """
    alone = _by_its_module(id) if isinstance(id, str) else None
    if alone is not None:
        return alone
    table = {each.id: each for each in designs()}
    if not isinstance(id, str) or id not in table:
        raise UnknownName(field, id, tuple(table))
    return table[id]


def _by_its_module(id: str) -> Design | None:
    """The design of the module that has its name; None when there is none."""
    name = id.replace("-", "_")
    if not name.isidentifier() or not os.path.isfile(f"{os.path.dirname(__file__)}/{name}.py"):
        return None
    found = getattr(importlib.import_module(f"{__name__}.{name}"), "DESIGN", None)
    return found if isinstance(found, Design) and found.id == id else None
