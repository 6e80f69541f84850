"""A Piece as JSON and back, its graph of quantities with it: a plan needs no design to be made.

The file names formulas by their place in this package and carries no code. What is read back
plans to the same numbers.
"""

from __future__ import annotations

import dataclasses
import importlib
import math
from collections.abc import Mapping, Sequence
from typing import Any

from hollowright import piece as room
from hollowright.errors import Caution, InputError
from hollowright.handbook.metals import Metal, metal
from hollowright.quantity import EXACT, Doubt, Formula, Quantity
from hollowright.quantity.choices import Choice
from hollowright.quantity.evaluate import ancestry
from hollowright.shapes.carved import Carved
from hollowright.shapes.cubic import Cubic
from hollowright.shapes.curves import Arc, EllipseArc, Line
from hollowright.shapes.extruded import Extruded
from hollowright.shapes.frames import Frame
from hollowright.shapes.looped import Looped
from hollowright.shapes.outline import Outline
from hollowright.shapes.plated import Plated
from hollowright.shapes.solids import Turned

FORMAT = "hollowright-piece-1"
FORMULAS = ("hollowright.formulas.", "hollowright.quantity.")
"""Where a formula may live; nothing else is ever looked up for a file."""

_NAMES = ("id", "label", "unit", "kind", "source", "told", "of")
_KINDS = {
    kind.__name__: kind
    for kind in (
        room.Stock, room.Blank, room.Solid, room.Part, room.Joint, room.Fit, room.Work, room.Change,
        room.Piece, room.Scribe, room.Template, room.Wall, room.Opening, Caution, Choice, Outline,
        Line, Arc, EllipseArc, Cubic, Turned, Extruded, Looped, Plated, Carved, Frame,
    )
}  # fmt: skip


def piece_data(piece: room.Piece) -> dict[str, Any]:
    """A piece as plain dictionaries, lists, texts and numbers."""
    found: dict[int, Quantity] = {}
    _gather(piece, found)
    order = ancestry(found.values())
    places = {id(node): place for place, node in enumerate(order)}
    nodes = [_node(node, places) for node in order]
    return {"format": FORMAT, "quantities": nodes, "piece": _plain(piece, places)}


def _gather(thing: Any, found: dict[int, Quantity]) -> None:
    """Every quantity that hangs on a thing."""
    if isinstance(thing, Quantity):
        found[id(thing)] = thing
    elif isinstance(thing, Mapping):
        for value in thing.values():
            _gather(value, found)
    elif isinstance(thing, (tuple, list)):
        for value in thing:
            _gather(value, found)
    elif dataclasses.is_dataclass(thing) and not isinstance(thing, Metal):
        for field in dataclasses.fields(thing):
            _gather(getattr(thing, field.name), found)


def _node(node: Quantity, places: Mapping[int, int]) -> dict[str, Any]:
    law = node.formula
    return {
        "id": node.id,
        "label": node.label,
        "unit": node.unit,
        "value": node.value,
        "kind": node.kind,
        "formula": f"{law.__module__}:{law.__name__}" if law else None,
        "inputs": [places[id(each)] for each in node.inputs],
        "doubt": _doubt_data(node.doubt),
        "source": node.source,
        "told": node.told,
        "of": node.of,
        "readings": list(node.readings),
    }


def _doubt_data(doubt: Doubt) -> list[Any] | None:
    if not doubt.standard:
        return None
    return [doubt.kind, doubt.standard, doubt.dof if math.isfinite(doubt.dof) else None]


def _doubt(row: Sequence[Any] | None) -> Doubt:
    if row is None:
        return EXACT
    kind, standard, dof = row
    return Doubt(str(kind), float(standard), math.inf if dof is None else float(dof))


def _plain(thing: Any, places: Mapping[int, int]) -> Any:
    if isinstance(thing, Quantity):
        return {"quantity": places[id(thing)]}
    if isinstance(thing, Metal):
        return {"metal": thing.id}
    if isinstance(thing, Mapping):
        return {"table": {key: _plain(value, places) for key, value in thing.items()}}
    if isinstance(thing, (tuple, list)):
        return [_plain(value, places) for value in thing]
    if callable(thing):  # a body's surface, worked out when it is asked for
        return thing()
    if dataclasses.is_dataclass(thing):
        fields = {f.name: _plain(getattr(thing, f.name), places) for f in dataclasses.fields(thing)}
        return {"is": type(thing).__name__, **fields}
    return thing


def read_piece(data: Any) -> room.Piece:
    """A piece from the plain data of `piece_data`; InputError when it isn't one."""
    if not isinstance(data, Mapping) or data.get("format") != FORMAT:
        raise InputError("piece", "it isn't a piece file in JSON.", f"Its format is {FORMAT}.")
    try:
        nodes: list[Quantity] = []
        for row in data["quantities"]:
            nodes.append(_quantity(row, nodes))
        piece = _made(data["piece"], nodes)
    except (KeyError, TypeError, ValueError, IndexError, AttributeError, ArithmeticError) as fault:
        reason = " ".join(str(fault).split())[:80]
        raise InputError("piece", f"it can't be read ({reason}).", "Write it anew.") from None
    if not isinstance(piece, room.Piece):
        raise InputError("piece", "it holds no piece.", "Write it anew.")
    return piece


def _quantity(row: Mapping[str, Any], before: Sequence[Quantity]) -> Quantity:
    names: dict[str, Any] = {key: str(row[key]) for key in _NAMES}
    names["readings"] = tuple(float(value) for value in row["readings"])
    inputs = tuple(before[place] for place in row["inputs"])
    doubt = _doubt(row["doubt"])
    if row["formula"] is None:
        made = Quantity(value=float(row["value"]), doubt=doubt, **names)
        if doubt.standard:
            object.__setattr__(made, "slopes", {made: 1.0})
        return made
    node = _formula(str(row["formula"])).node(inputs)
    return dataclasses.replace(node, value=float(row["value"]), **names)


def _formula(place: str) -> Formula:
    module, _, name = place.partition(":")
    if not module.startswith(FORMULAS):
        raise ValueError(f"no formula is called {place}")
    found = getattr(importlib.import_module(module), name)
    if not isinstance(found, Formula):
        raise TypeError(f"{place} is no formula")
    return found


def _made(thing: Any, nodes: Sequence[Quantity]) -> Any:
    if isinstance(thing, list):
        return tuple(_made(each, nodes) for each in thing)
    if not isinstance(thing, Mapping):
        return thing
    if "quantity" in thing:
        return nodes[thing["quantity"]]
    if "metal" in thing and len(thing) == 1:
        return metal(thing["metal"])
    if "table" in thing:
        return {key: _made(value, nodes) for key, value in thing["table"].items()}
    kind = _KINDS[thing["is"]]
    return kind(**{key: _made(value, nodes) for key, value in thing.items() if key != "is"})
