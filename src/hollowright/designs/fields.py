"""What a design asks for, declared once for the file, the command line, the page and the docs."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
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
    ('diameter', 'thickness' or 'metal'); asked only where the piece stands alone.
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

    @property
    def group(self) -> str:
        """The table of the piece file it stands in: 'stock.tube', 'sizes', 'as_built'."""
        return self.path.rpartition(".")[0]


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
