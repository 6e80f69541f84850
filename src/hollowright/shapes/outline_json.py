"""An outline as plain data and back, every curve kept as what it is; as in a piece's JSON."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Callable, Mapping
from typing import Any

from hollowright.shapes.cubic import Cubic
from hollowright.shapes.curves import Arc, Curve, EllipseArc, Line
from hollowright.shapes.outline import Outline

MOST_CURVES = 20_000
"""An outline of more curves, its holes' among them, is refused."""

_NUMBERS = ("radius", "start_angle", "sweep")
_CURVES: dict[str, type[Line | Arc | EllipseArc | Cubic]] = {
    kind.__name__: kind for kind in (Line, Arc, EllipseArc, Cubic)
}


def outline_data(outline: Outline) -> dict[str, Any]:
    """An outline as dictionaries, lists, texts and numbers; numbers keep every digit.

    >>> from hollowright.shapes.outline import disc
    >>> outline_data(disc(30))["segments"][0]["radius"]
    15.0
    """
    return {
        "is": "Outline",
        "segments": [_curve_data(curve) for curve in outline.segments],
        "holes": [outline_data(hole) for hole in outline.holes],
    }


def _curve_data(curve: Curve) -> dict[str, Any]:
    if not isinstance(curve, Line | Arc | EllipseArc | Cubic):
        raise TypeError(f"{type(curve).__name__} isn't a curve that is kept")
    found: dict[str, Any] = {"is": type(curve).__name__}
    for field in dataclasses.fields(curve):
        value = getattr(curve, field.name)
        found[field.name] = list(value) if isinstance(value, tuple) else value
    return found


def read_outline_data(data: Any) -> Outline:
    """The outline that `outline_data` told; ValueError says what is wrong with it."""
    if not isinstance(data, Mapping) or data.get("is", "Outline") != "Outline":
        raise ValueError("it isn't an outline")
    segments, holes = data.get("segments"), data.get("holes", [])
    if not isinstance(segments, list) or not isinstance(holes, list):
        raise ValueError("it has no list of segments")  # noqa: TRY004 - the file's fault
    if any(isinstance(hole, Mapping) and hole.get("holes") for hole in holes):
        raise ValueError("a hole of it has holes")
    made = Outline(tuple(map(_curve, segments)), tuple(map(read_outline_data, holes)))
    if curves_of(made) > MOST_CURVES:
        raise ValueError(f"it has more than {MOST_CURVES} curves")
    return made


def curves_of(outline: Outline) -> int:
    """How many curves an outline has, its holes' among them."""
    return len(outline.segments) + sum(map(curves_of, outline.holes))


def _curve(data: Any) -> Curve:
    name = data.get("is", "") if isinstance(data, Mapping) else ""
    if name not in _CURVES:
        raise ValueError(f"its curves are {', '.join(_CURVES)}")
    readers = _READERS[name]
    if len(data) != len(readers) + 1 or not readers.keys() < data.keys():
        raise ValueError(f"a curve {name} has {', '.join(readers)}")
    found = {field: read(data[field]) for field, read in readers.items()}
    if found.get("radius", 1.0) <= 0 or found.get("sweep", 1.0) == 0:
        raise ValueError("an arc has a radius above 0 and a sweep that isn't 0")
    made: Curve = _CURVES[name](**found)
    return made


def _point(data: Any) -> tuple[float, float]:
    if not isinstance(data, (list, tuple)) or len(data) != 2:
        raise ValueError("a point is two numbers")
    return (_number(data[0]), _number(data[1]))


def _number(data: Any) -> float:
    if isinstance(data, bool) or not isinstance(data, (int, float)) or not math.isfinite(data):
        raise ValueError("a number is missing")
    return float(data)


_READERS: dict[str, dict[str, Callable[[Any], Any]]] = {
    name: {
        field.name: _number if field.name in _NUMBERS else _point
        for field in dataclasses.fields(kind)
    }
    for name, kind in _CURVES.items()
}
