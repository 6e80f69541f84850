"""The gallery on the command line: what can be made, an example of each, its drawing."""

from __future__ import annotations

import textwrap
from typing import Any

from hollowright.designs import Design, design, designs
from hollowright.designs.composed import EXAMPLE, SUMMARY, TITLE
from hollowright.designs.fields import Example
from hollowright.job.job import read_tables
from hollowright.output.data import design_data

COMPOSED = "joined"
"""What the example of several designs joined is called."""

WIDTH = 78
INDENT = " " * 15


def gallery_text() -> str:
    """Every design with what it is and the sizes to fill."""
    lines = []
    for each in designs():
        lines += _entry(each.id, f"{each.title}. {each.summary}", _sizes(each))
    lines += _entry(COMPOSED, f"{TITLE}. {SUMMARY}", "")
    lines += [
        "",
        "`hollowright designs NAME` prints an example piece file that plans as it stands;",
        "`--out DIR` leaves each design's drawing there.",
    ]
    return "\n".join(lines)


def _entry(id: str, told: str, sizes: str) -> list[str]:
    texts = [told, sizes] if sizes else [told]
    lines = [line for text in texts for line in textwrap.wrap(text, WIDTH - len(INDENT))]
    return [f"{id:<14} {lines[0]}", *(INDENT + line for line in lines[1:])]


def _sizes(chosen: Design) -> str:
    needed = [f for f in chosen.fields if f.required and f.group.startswith("sizes")]
    named = ", ".join(dict.fromkeys(field.path.removeprefix("sizes.") for field in needed))
    return f"To fill: {named}." if named else ""


def gallery_data() -> list[dict[str, Any]]:
    """Every design as data: id, title, fields."""
    return [design_data(each) for each in designs()]


def fields_data(name: str) -> dict[str, Any]:
    """One design as data, or the joined example's; UnknownName when there is none."""
    if name == COMPOSED:
        parts = read_tables(EXAMPLE.text)["parts"]
        fields = {part: design_data(design(table["design"])) for part, table in parts.items()}
        return {"id": COMPOSED, "title": TITLE, "summary": SUMMARY, "parts": fields}
    return design_data(design(name, "name"))


def _examples(name: str | None) -> dict[str, Example]:
    """First examples by design: all of them, or the one named."""
    if name is None:
        return {**{each.id: each.examples[0] for each in designs()}, COMPOSED: EXAMPLE}
    return {name: EXAMPLE if name == COMPOSED else design(name, "name").examples[0]}


def example_text(name: str) -> str:
    """A design's first example piece file; UnknownName when there is none of that name."""
    return _examples(name)[name].text


def write_gallery(folder: str, name: str | None = None) -> list[str]:
    """Each design's drawing (SVG) and example (TOML) written into a folder; their paths."""
    from hollowright.job.job import plan_tables
    from hollowright.output.files import write_texts
    from hollowright.output.plan_picture import plan_picture
    from hollowright.output.svg import svg

    texts: dict[str, str] = {}
    for id, example in _examples(name).items():
        texts[f"{id}.svg"] = svg(plan_picture(plan_tables(read_tables(example.text))))
        texts[f"{id}.toml"] = example.text
    return write_texts(folder, texts)
