"""What a design asks for, declared once for the file, the command line, the page and the docs."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from hollowright.piece import Piece


@dataclass(frozen=True)
class Field:
    """One box to fill.

    path: its key in the piece file ('stock.tube.wall'). name: how the design calls it. kind:
    'readings' (one or more, measured), 'thickness' (a gauge or readings), 'length' (as asked),
    'share', 'count', 'choice' or 'metal'. low, high: limits [mm or 1]. around: readings are taken
    round a tube. inside: with the inside jaws. planned: for an as-built reading, the quantity
    that it replaces. of_host: which size of the wall that a joined piece sits on fills it
    ('diameter', 'thickness' or 'metal'); asked only where the piece stands alone. asked_by,
    asked_for: the choice field by whose words alone it is asked ('lid', 'hinged'): elsewhere the
    page puts it away.
    """

    path: str
    name: str
    kind: str
    label: str
    help: str = ""
    example: str = ""
    required: bool = False
    default: str = ""
    low: float = 0.0
    high: float = 1000.0
    choices: tuple[str, ...] = ()
    around: bool = False
    inside: bool = False
    signed: bool = False
    of_host: str = ""
    asked_by: str = ""
    asked_for: tuple[str, ...] = ()

    @property
    def group(self) -> str:
        """The table of the piece file it stands in: 'stock.tube', 'sizes', 'as_built'."""
        return self.path.rpartition(".")[0]

    @property
    def tube_wall(self) -> bool:
        """Whether it is the wall of a tube, whose gauges go by another table than sheet's."""
        return self.kind == "thickness" and self.path.endswith(".wall")


Asked = Mapping[str, tuple[str, ...]]
"""By a field's name, the words of a choice by which alone it is asked."""


def asked_by(choice: str, table: Asked, fields: Iterable[Field]) -> tuple[Field, ...]:
    """The fields, those of the table asked only where a choice is one of their words.

    choice: the choice field's name. KeyError for a name that no field has.
    """
    listed = tuple(fields)
    unknown = set(table) - {field.name for field in listed}
    if unknown:
        raise KeyError(f"no field is called {', '.join(sorted(unknown))}")
    return tuple(
        replace(field, asked_by=choice, asked_for=table[field.name])
        if field.name in table
        else field
        for field in listed
    )


@dataclass(frozen=True)
class Example:
    """A piece file that plans as it stands, and numbers it must give with where they come from."""

    name: str
    text: str
    expected: Mapping[str, float]
    source: str
    tolerance: float = 0.005


@dataclass(frozen=True)
class Design:
    """One thing that can be made: its fields, how to build it, examples."""

    id: str
    title: str
    summary: str
    fields: tuple[Field, ...]
    build: Callable[[Any], Piece]
    examples: tuple[Example, ...]

    def field(self, name: str) -> Field:
        """The field with this name; KeyError if there is none."""
        return {each.name: each for each in self.fields}[name]
