"""Where the handbook's numbers come from: its text files, their sources, and a number with one."""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from hollowright.errors import UnknownName

STATUSES = ("seen", "memory", "computed", "common practice")
"""How far our copy of a source can be trusted, best first."""

_DATA = os.path.join(os.path.dirname(__file__), "data")


@dataclass(frozen=True)
class Source:
    """Where a number comes from: title, edition or section, and how our copy was made."""

    key: str
    title: str
    edition: str
    status: str

    @property
    def text(self) -> str:
        """One line for people: 'Title, edition (status)'."""
        return f"{self.title}, {self.edition} ({self.status})"


@dataclass(frozen=True)
class Sourced:
    """A handbook value with its unit, the key of its source, and what other sources say."""

    value: float
    unit: str
    source: str
    note: str = ""
    alternatives: tuple[Sourced, ...] = ()

    def __float__(self) -> float:
        return self.value


@cache
def read_data(name: str) -> Mapping[str, Any]:
    """The content of one of the handbook's TOML files, read once.

    A plain file beside the code: importlib.resources costs some 10 ms of imports for the same.
    """
    import tomllib

    with open(os.path.join(_DATA, f"{name}.toml"), "rb") as file:
        return tomllib.load(file)


@cache
def sources() -> tuple[Source, ...]:
    """Every source of the handbook, in the file's order."""
    return tuple(Source(key, **row) for key, row in read_data("sources").items())


@cache
def _by_key() -> Mapping[str, Source]:
    return {each.key: each for each in sources()}


def source(key: str) -> Source:
    """The source of that key. Raises UnknownName, field 'source', for another."""
    try:
        return _by_key()[key]
    except KeyError:
        raise UnknownName("source", key, tuple(_by_key())) from None
