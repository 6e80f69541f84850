"""Items as rows of the drawer's tables, and back."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import fields
from datetime import UTC, datetime
from functools import lru_cache
from typing import Any

from hollowright.handbook.metals import metal
from hollowright.shapes.outline import Outline
from hollowright.shapes.outline_json import outline_data, read_outline_data
from hollowright.store.items import Item, NewItem

NEW = tuple(field.name for field in fields(NewItem))
"""What a person tells of an item."""

_TIMES = ("added", "gone")


def now() -> datetime:
    """The time to write down (UTC)."""
    return datetime.now(UTC)


def packed(data: Any) -> str:
    """Plain data as the text that is kept."""
    return json.dumps(data, allow_nan=False, separators=(",", ":"))


def outline_text(outline: Outline | None) -> str | None:
    """An outline as it is kept; None for a plain rectangle."""
    return None if outline is None else packed(outline_data(outline))


@lru_cache(maxsize=4096)
def outline_of(text: str) -> Outline:
    """The outline kept as a text; outlines don't change, so they are read once."""
    return read_outline_data(json.loads(text))


def new_row(item: NewItem) -> dict[str, Any]:
    """What a person tells of an item, as columns."""
    row = {name: getattr(item, name) for name in NEW}
    readings = {name: list(texts) for name, texts in item.readings.items() if texts}
    return row | {"outline": outline_text(item.outline), "readings": packed(readings)}


def words(row: Mapping[str, Any]) -> str:
    """What a search by text looks through: its words in small letters, a space round each."""
    known = metal(row["metal"])
    told = (row["form"], row["temper"], known.id, known.name, *known.aliases)
    return f" {' '.join(words_in(' '.join((*told, row['place'], row['note']))))} "


def words_in(text: str) -> list[str]:
    """The words of a text, whatever the capitals and the signs between them.

    >>> words_in("Tin 3, half-hard")
    ['tin', '3', 'half', 'hard']
    """
    return re.findall(r"\w+", text.casefold())


def item_row(item: Item) -> dict[str, Any]:
    """An item as a row, its own number and times with it."""
    row = new_row(item) | {
        "number": item.number,
        "gone_how": item.gone_how,
        "gone_why": item.gone_why,
        "came_by": item.came_by,
        "gone_by": item.gone_by,
    }
    for name in _TIMES:
        time = getattr(item, name)
        row[name] = None if time is None else time.isoformat()
    return row | {"words": words(row)}


def item_of(row: Mapping[Any, Any]) -> Item:
    """The item that a row tells."""
    made = {name: value for name, value in row.items() if name != "words"}
    made["outline"] = None if row["outline"] is None else outline_of(row["outline"])
    made["readings"] = {n: tuple(texts) for n, texts in json.loads(row["readings"]).items()}
    for name in _TIMES:
        made[name] = None if row[name] is None else datetime.fromisoformat(row[name])
    return Item(**made)
