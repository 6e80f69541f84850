"""The form's values: to a piece file's tables, to its text, and back from them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby
from typing import Any

from hollowright.designs import Design, Field, design
from hollowright.designs.composed import EXAMPLE
from hollowright.designs.drawings import LONGEST as LONGEST_DRAWING
from hollowright.errors import InputError
from hollowright.job.job import read_tables
from hollowright.web.composition import form_design, parts_of, text_of
from hollowright.web.texts import joined, split_readings, toml_text

LONGEST = 2000
"""No box needs more than this [characters]."""

FIRST = "tube-box"
"""The design whose form is shown when none is named."""

COMPOSED = "joined"
"""What the example of several designs joined is called."""

LYING = ("length", "width", "temper")
"""What is told of a sheet besides its metal and thickness: what of it lies there."""

MEASURED = ("readings", "thickness")

Values = dict[str, str]
"""What stands in each box, by the field's path; 'title' and 'design' beside them."""


def first_values(id: str = "") -> Values:
    """The example piece of a design (of the first one without a name) as form values."""
    if id == COMPOSED:
        return values_of(read_tables(EXAMPLE.text))
    return values_of(read_tables(design(id or FIRST).examples[0].text))


def sent_values(sent: Mapping[str, object]) -> Values:
    """A sent form's values; InputError when its design isn't known or a box is overfull."""
    chosen = form_design(sent.get("design", FIRST))
    values = {"title": _text(sent, "title"), "design": chosen.id}
    return values | {field.path: _text(sent, field.path) for field in chosen.fields}


def _text(sent: Mapping[str, object], name: str) -> str:
    text = sent.get(name, "")
    return text[: LONGEST_DRAWING + 1] if isinstance(text, str) else ""


def tables_of(values: Values) -> dict[str, Any]:
    """The piece file's tables that the values stand for; empty boxes are left out."""
    tables = _head(values)
    for field in form_design(values["design"]).fields:
        text = values.get(field.path, "").strip()
        if len(text) > (LONGEST_DRAWING if field.kind == "drawing" else LONGEST):
            raise InputError(field.path, "that is too much text.", f"Write {field.example}.")
        if text:
            *above, key = field.path.split(".")
            table = tables
            for name in above:
                table = table.setdefault(name, {})
            table[key] = _value(field, text)
    return tables


def _head(values: Values) -> dict[str, Any]:
    """Title and design, or the parts with their designs and what they join."""
    parts = parts_of(values["design"])
    if not parts:
        return {"title": values["title"], "design": values["design"]}
    tables: dict[str, Any] = {"title": values["title"], "parts": {}}
    for part in parts:
        joins = {"joins": part.joins} if part.joins else {}
        tables["parts"][part.name] = {"design": part.design, **joins}
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
    parts = parts_of(values["design"])
    if not parts:
        yield f"design = {toml_text(values['design'])}"
    for part in parts:
        yield f"\n[parts.{part.name}]"
        yield f"design = {toml_text(part.design)}"
        if part.joins:
            yield f"joins = {toml_text(part.joins)}"
    for group, members in grouped(form_design(values["design"])):
        filled = [(field, values.get(field.path, "").strip()) for field in members]
        if any(text for _, text in filled):
            yield f"\n[{group}]"
            for field, text in filled:
                if text:
                    yield f"{field.path.rpartition('.')[2]} = {_written(_value(field, text))}"


def lying(fields: Sequence[Field]) -> list[Field]:
    """Of a sheet's stock, the boxes that tell what lies there; a plan does without them."""
    names = {field.path.rpartition(".")[2]: field for field in fields}
    if "stock" not in fields[0].path.split(".") or not {"length", "width"} <= names.keys():
        return []
    found = [names[name] for name in LYING if name in names]
    return [field for field in found if not field.required]


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
    parts = tables.get("parts")
    id = text_of(parts) if isinstance(parts, Mapping) and parts else tables.get("design", FIRST)
    chosen = form_design(id)
    values = {"title": _shown(tables.get("title", chosen.title)), "design": chosen.id}
    return values | {field.path: _shown(_found(tables, field)) for field in chosen.fields}


def _found(tables: Mapping[str, Any], field: Field) -> Any:
    """What a piece file says in a field; of a part's stock, also what stands for all parts."""
    found = _at(tables, field.path)
    words = field.path.split(".")
    if found == "" and words[0] == "parts" and words[2] == "stock":
        return _at(tables, ".".join(words[2:]))
    return pairs_text(found) if field.kind == "points" else found


def _at(tables: Mapping[str, Any], path: str) -> Any:
    found: Any = tables
    for name in path.split("."):
        found = found.get(name, "") if isinstance(found, Mapping) else ""
    return found


def pairs_text(points: Any) -> Any:
    """Pairs of lengths as one box shows them: '20 0; 25 12'; anything else as it is."""
    if not isinstance(points, list):
        return points
    pairs = [pair if isinstance(pair, list) else [pair] for pair in points]
    return "; ".join(" ".join(str(each) for each in pair) for pair in pairs)


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
