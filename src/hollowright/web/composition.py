"""The form of a piece of several designs: one text says which they are and what joins what.

'body:tube-box spout:tube-saddle>body' is a body, and a spout that joins it.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from hollowright.designs import Design, Field, design
from hollowright.designs.brief import part_label
from hollowright.designs.composed import SUMMARY, TITLE
from hollowright.errors import InputError, shown
from hollowright.piece import Piece

_PART = re.compile(r"([a-z][a-z0-9_]{0,20}):([a-z][a-z-]{0,30})(?:>([a-z][a-z0-9_]{0,20}))?")


@dataclass(frozen=True)
class PartOf:
    """One part of a composition: its name, its design's id, the part that it joins or ''."""

    name: str
    design: str
    joins: str


def parts_of(id: str) -> tuple[PartOf, ...]:
    """The parts that a composition's text names; none for a single design's id."""
    if ":" not in id:
        return ()
    found = [_PART.fullmatch(word) for word in id[:500].split()]
    if not found or not all(found) or len({match[1] for match in found if match}) < len(found):
        raise InputError("design", f"{shown(id)} isn't known.", "Choose one of the designs.")
    return tuple(PartOf(match[1], match[2], match[3] or "") for match in found if match)


def text_of(parts: Mapping[str, Any]) -> str:
    """The composition's text of a piece file's [parts.*] tables."""
    words = []
    for name, table in parts.items():
        if not isinstance(table, Mapping) or not isinstance(table.get("design"), str):
            raise InputError(f"parts.{name}.design"[:80], "it is missing.", "Name a design.")
        joins = table.get("joins")
        words.append(f"{name}:{table['design']}" + (f">{joins}" if joins is not None else ""))
    return " ".join(words)


def form_design(id: object) -> Design:
    """The design of a form: the one with this id, or all those of a composition as one."""
    if not isinstance(id, str) or ":" not in id:
        return design(id)
    fields: list[Field] = []
    for part in parts_of(id):
        fields += _fields(part)
    return Design(id, TITLE, SUMMARY, tuple(fields), _no_build, ())


def _fields(part: PartOf) -> list[Field]:
    """A part's fields under its name; what the host's wall says isn't asked."""
    return [
        replace(
            field,
            path=f"parts.{part.name}.{field.path}",
            name=f"{part.name}_{field.name}",
            label=part_label(part.name, field.label),
            asked_by=field.asked_by and f"{part.name}_{field.asked_by}",
        )
        for field in design(part.design).fields
        if not (part.joins and field.of_host)
    ]


def _no_build(_: Any) -> Piece:
    """A composition is built from its tables, not from one brief: refuse it in words."""
    raise InputError("design", "several designs are planned from their parts.", "Give [parts.*].")


def group_name(group: str) -> str:
    """What a group of boxes is called: 'Sizes', or 'Spout: sizes' in a composition.

    >>> group_name("stock.ring_sheet"), group_name("parts.spout.sizes")
    ('Ring sheet', 'Spout: sizes')
    """
    words = group.rpartition(".")[2].replace("_", " ")
    if group.startswith("parts."):
        words = f"{group.split('.')[1].replace('_', ' ')}: {words}"
    return words[:1].upper() + words[1:]
