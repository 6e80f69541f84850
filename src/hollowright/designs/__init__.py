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
    """The design with this id; UnknownName says 'did you mean' and what exists."""
    table = {each.id: each for each in designs()}
    if not isinstance(id, str) or id not in table:
        raise UnknownName(field, id, tuple(table))
    return table[id]
