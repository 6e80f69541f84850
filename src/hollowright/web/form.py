"""The form's values: to a piece file's tables, to its text, and back from them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import groupby
from typing import Any

from hollowright.designs import Design, Field, design, designs
from hollowright.errors import InputError
from hollowright.job.job import read_tables
from hollowright.web.texts import joined, split_readings, toml_text

LONGEST = 2000
"""No box needs more than this [characters]."""

MEASURED = ("readings", "thickness")

Values = dict[str, str]
"""What stands in each box, by the field's path; 'title' and 'design' beside them."""


def first_values(id: str = "") -> Values:
    """The example piece of a design (of the first one without a name) as form values."""
    chosen = design(id) if id else designs()[0]
    return values_of(read_tables(chosen.examples[0].text))


def sent_values(sent: Mapping[str, object]) -> Values:
    """A sent form's values; InputError when its design isn't known or a box is overfull."""
    chosen = design(sent.get("design", designs()[0].id))
    values = {"title": _text(sent, "title"), "design": chosen.id}
    return values | {field.path: _text(sent, field.path) for field in chosen.fields}


def _text(sent: Mapping[str, object], name: str) -> str:
    text = sent.get(name, "")
    return text[: LONGEST + 1] if isinstance(text, str) else ""


def tables_of(values: Values) -> dict[str, Any]:
    """The piece file's tables that the values stand for; empty boxes are left out."""
    tables: dict[str, Any] = {"title": values["title"], "design": values["design"]}
    for field in design(values["design"]).fields:
        text = values.get(field.path, "").strip()
        if len(text) > LONGEST:
            raise InputError(field.path, "that is too much text.", f"Write {field.example}.")
        if text:
            *above, key = field.path.split(".")
            table = tables
            for name in above:
                table = table.setdefault(name, {})
            table[key] = _value(field, text)
    return tables


def _value(field: Field, text: str) -> Any:
    """A box's text as the piece file holds it: a list for several readings."""
    if field.kind not in MEASURED:
        return text
    readings = split_readings(text)
    return readings if len(readings) > 1 else (readings[0] if readings else text)


def piece_text(values: Values) -> str:
    """The values as a piece file."""
    return "\n".join(_lines(values)) + "\n"


def _lines(values: Values) -> Iterator[str]:
    yield f"title = {toml_text(values['title'])}"
    yield f"design = {toml_text(values['design'])}"
    for group, members in grouped(design(values["design"])):
        filled = [(field, values.get(field.path, "").strip()) for field in members]
        if any(text for _, text in filled):
            yield f"\n[{group}]"
            for field, text in filled:
                if text:
                    yield f"{field.path.rpartition('.')[2]} = {_written(_value(field, text))}"


def grouped(chosen: Design) -> list[tuple[str, list[Field]]]:
    """A design's fields by the table they stand in, tables in the order they first come."""
    order = list(dict.fromkeys(field.group for field in chosen.fields))
    fields = sorted(chosen.fields, key=lambda field: order.index(field.group))
    return [(group, list(members)) for group, members in groupby(fields, lambda each: each.group)]


def _written(value: Any) -> str:
    if isinstance(value, list):
        return f"[{', '.join(toml_text(each) for each in value)}]"
    return toml_text(value)


def values_of(tables: Mapping[str, Any]) -> Values:
    """A piece file's tables as form values; InputError when its design isn't known."""
    chosen = design(tables.get("design", designs()[0].id))
    values = {"title": _shown(tables.get("title", chosen.title)), "design": chosen.id}
    return values | {field.path: _shown(_at(tables, field.path)) for field in chosen.fields}


def _at(tables: Mapping[str, Any], path: str) -> Any:
    found: Any = tables
    for name in path.split("."):
        found = found.get(name, "") if isinstance(found, Mapping) else ""
    return found


def _shown(value: Any) -> str:
    """A piece file's value as a box shows it."""
    if isinstance(value, list):
        return joined([_shown(each) for each in value])
    if isinstance(value, Mapping):
        return ""
    try:
        return str(value)
    except ValueError:  # a whole number of thousands of digits has no text
        return "a number of thousands of digits"
