"""What stands in one field, read by the field's kind."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from hollowright.designs.drawings import Files, read_drawing
from hollowright.designs.fields import Field
from hollowright.errors import InputError, shown
from hollowright.handbook.gauges import GAUGES
from hollowright.handbook.metals import metal
from hollowright.units import (
    MM_PER_INCH,
    Length,
    format_number,
    read_angle,
    read_choice,
    read_length,
    read_number,
    read_points,
)

Reader = Callable[[Field, Any], Any]

MOST_READINGS = 50
"""More readings of one thing than this are a mistake of the file."""


def read_answer(field: Field, given: Any, files: Files) -> Any:
    """A field's value, read by its kind; InputError names the field's path."""
    if field.kind == "drawing":
        return read_drawing(given, field.path, files)
    reader: Reader = READERS.get(field.kind, _all_readings)
    return reader(field, given)


def _metal(field: Field, given: Any) -> Any:
    if not isinstance(given, str):
        raise InputError(field.path, f"{shown(given)} isn't a metal.", f"Write {field.example}.")
    return metal(given, field.path)


def _choice(field: Field, given: Any) -> str:
    return read_choice(given, field.path, field.choices)


def _number(field: Field, given: Any) -> float:
    return read_number(given, field.path, field.example, field.low, field.high)


def _angle(field: Field, given: Any) -> float:
    return read_angle(given, field.path, field.example, field.low, field.high)


def _count(field: Field, given: Any) -> float:
    number = _number(field, given)
    if number != int(number):
        raise InputError(field.path, f"{shown(given)} isn't whole.", f"Write {field.example}.")
    return number


def _length(field: Field, given: Any) -> float:
    length = read_length(given, field.path, field.example, signed=field.signed)
    return _within(field, length).mm


def _points(field: Field, given: Any) -> tuple[tuple[float, float], ...]:
    return read_points(given, field.path, field.example)


def _text(field: Field, given: Any) -> str:
    if isinstance(given, bool) or not isinstance(given, (str, int, float)):
        raise InputError(field.path, f"{shown(given)} isn't text.", f"Write {field.example}.")
    text = str(given).strip()
    if not text or len(text) > 60 or not text.isprintable():
        raise InputError(field.path, f"{shown(given)} can't be read.", f"Write {field.example}.")
    return text


def _all_readings(field: Field, given: Any) -> tuple[Length, ...]:
    listed = given if isinstance(given, list) else [given]
    if not listed:
        raise InputError(field.path, "no reading stands there.", f"Write {field.example}.")
    if len(listed) > MOST_READINGS:
        raise InputError(
            field.path, f"{len(listed)} readings are too many.", f"Give {MOST_READINGS} at most."
        )
    gauges = GAUGES if field.kind == "thickness" else None
    lengths = tuple(
        _within(field, read_length(each, field.path, field.example, gauges, may_be_zero=False))
        for each in listed
    )
    if field.tube_wall:
        _table_is_named(field, lengths)
    if len(lengths) > 1 and any(length.gauge for length in lengths):
        raise InputError(
            field.path, "a gauge and readings are mixed.", "Give one gauge, or readings in mm."
        )
    return lengths


def _table_is_named(field: Field, lengths: tuple[Length, ...]) -> None:
    """Refuse a tube's gauge without its table: its wall may go by sheet's numbers or Birmingham's.

    Common practice, no source: tube is sold by either, and they are a fifth apart.
    """
    for length in lengths:
        if length.gauge == "bs" and length.text.endswith(("ga", "gauge")):
            number = "".join(sign for sign in length.text if sign.isdigit() or sign == "/")
            raise InputError(
                field.path, f"{shown(length.text)} of a tube may be sheet's gauge or Birmingham's.",
                f"Write {number} b&s or {number} bwg, by what the seller says, or read the wall.",
            )  # fmt: skip


def _within(field: Field, length: Length) -> Length:
    """The length if it's within the field's limits; asks whether inches were meant if they fit."""
    if field.low <= length.mm <= field.high:
        return length
    side = "under" if length.mm < field.low else "over"
    limit = field.low if side == "under" else field.high
    problem = f"{shown(length.text)} is {side} {limit:g} mm."
    as_inch = length.mm * MM_PER_INCH
    if side == "under" and field.low <= as_inch <= field.high and length.mm > 0:
        inches = length.text.split()[0]
        raise InputError(
            field.path, problem,
            f"Were inches meant? Then write {inches} in ({format_number(as_inch)} mm).",
        )  # fmt: skip
    raise InputError(field.path, problem, f"Write {field.example}, say.")


READERS: dict[str, Reader] = {
    "metal": _metal,
    "choice": _choice,
    "share": _number,
    "number": _number,
    "angle": _angle,
    "count": _count,
    "length": _length,
    "points": _points,
    "text": _text,
}
"""How each kind is read; what isn't named here is measured."""
