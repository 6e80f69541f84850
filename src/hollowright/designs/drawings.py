"""A drawing file that a brief names: its bytes, its kind, the outline in it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from hollowright.errors import Caution, InputError, shown
from hollowright.units import format_number

Files = Callable[[str, str], bytes]
"""Gives the bytes of a file: its name, and the field it stands in for the error."""

LONGEST = 300_000
"""Text of a drawing that is written in the field itself may be so long [characters]."""


@dataclass(frozen=True)
class Drawing:
    """A file's bytes and what they are."""

    data: bytes
    kind: Literal["svg", "dxf"]


def no_files(name: str, field: str) -> bytes:
    """Where no files are at hand: refuses, saying what would do."""
    raise InputError(
        field, f"the file {shown(name)} isn't at hand here.", "Put the SVG's own text in the field."
    )


def read_drawing(given: object, field: str, files: Files) -> Drawing:
    """The drawing of a field: a file's name, or the text of an SVG or DXF itself."""
    if not isinstance(given, str) or not given.strip():
        raise InputError(field, f"{shown(given)} isn't a drawing.", "Write leaf.svg, say.")
    text = given.strip()
    if len(text) > LONGEST:
        raise InputError(field, "that is too much text.", f"At most {LONGEST} characters.")
    if text.startswith("<"):
        return Drawing(text.encode(), "svg")
    if "\n" in text:
        return Drawing((text + "\n").encode(), "dxf")
    ending = text.lower().rpartition(".")[2]
    if ending not in ("svg", "dxf"):
        raise InputError(
            field, f"{shown(text)} is neither an SVG nor a DXF file.", "Write leaf.svg, say."
        )
    return Drawing(files(text, field), "svg" if ending == "svg" else "dxf")


def unit_taken(unit: str, width: float, height: float, about: str) -> tuple[Caution, ...]:
    """A caution where the file doesn't say its unit, so that it was taken for granted.

    unit: in words, as the file was read; width, height: what it draws comes to [mm]; about: the
    field's name.
    """
    if "taken as" not in unit:
        return ()
    comes = f"{format_number(width)} by {format_number(height)} mm"
    text = f"The drawing was read so: {unit}. It comes to {comes} over all: is that so?"
    return (Caution("drawing_unit", text, "reading", about),)
