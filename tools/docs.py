"""Write the documents that come from the code: ``docs/commands.md`` and its neighbours.

Usage: ``docs.py`` writes them; ``docs.py --check`` says which are stale, with exit code 1.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
NOTE = "<!-- Written by 'make docs' from the code: change it there. -->"


def table(head: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """A table of the document."""
    lines = [head, ["---"] * len(head), *rows]
    return "".join(f"| {' | '.join(cell(text) for text in line)} |\n" for line in lines)


def cell(text: object) -> str:
    """One cell's text, on one line."""
    return " ".join(str(text).replace("|", "\\|").split())


def commands() -> str:
    """Every command with its help."""
    import click

    from hollowright.cli import main

    parts = ["# Commands\n\nExit code 0: done; 1: it can't be made as asked; 2: a wrong command"]
    parts.append(" or file. The message says what and where.\n")
    with click.Context(main, info_name="hollowright", max_content_width=88) as context:
        for name in main.list_commands(context):
            command = main.commands[name]
            with click.Context(command, context, name, max_content_width=88) as inner:
                parts.append(f"\n## {name}\n\n```\n{command.get_help(inner)}\n```\n")
    return "".join(parts)


def asked(*words: str) -> Any:
    """What the command line answers, read as JSON."""
    from click.testing import CliRunner

    from hollowright.cli import main

    return json.loads(CliRunner().invoke(main, [*words, "--json"], catch_exceptions=False).output)


def designs() -> str:
    """Every design with its fields, as the command line lists them."""
    parts = ["# Designs\n\n`hollowright designs NAME` prints an example that plans as it stands.\n"]
    for design in asked("designs"):
        keys = list(design["fields"][0])
        rows = [[field.get(key, "") for key in keys] for field in design["fields"]]
        parts.append(f"\n## {design['id']}: {design['title']}\n\n{table(keys, rows)}")
    return "".join(parts)


def handbook() -> str:
    """The metals, then every source with its standing."""
    from hollowright.handbook.metals import PROPERTIES, metals
    from hollowright.handbook.sources import sources

    parts = ["# Handbook\n\n## Metals\n"]
    for metal in metals():
        rows = [
            [name, f"{row.value:g} {row.unit}", row.source, row.note]
            for name in PROPERTIES
            for row in (getattr(metal, name), *getattr(metal, name).alternatives)
        ]
        head = ["property", "value", "source", "note"]
        parts.append(f"\n### {metal.id}, {metal.name}\n\n{table(head, rows)}")
    listed = [[source.key, source.title, source.edition, source.status] for source in sources()]
    parts.append(f"\n## Sources\n\n{table(['key', 'title', 'edition', 'status'], listed)}")
    return "".join(parts)


def published() -> str:
    """Every published check: the source's value beside ours."""
    from published import document, gather

    return document(gather())


DOCUMENTS: dict[str, Callable[[], str]] = {
    "commands": commands,
    "designs": designs,
    "handbook": handbook,
    "published": published,
}


def main() -> None:
    """Write each document, or tell which are stale."""
    stale = []
    for name, write in DOCUMENTS.items():
        file = ROOT / "docs" / f"{name}.md"
        head, _, body = write().partition("\n")
        text = f"{head}\n\n{NOTE}\n{body}".rstrip() + "\n"
        if not file.exists() or file.read_text(encoding="utf-8") != text:
            stale.append(file.relative_to(ROOT).as_posix())
            if "--check" not in sys.argv:
                file.write_text(text, encoding="utf-8")
    if stale and "--check" in sys.argv:
        sys.exit(f"Stale: {', '.join(stale)}. Run: make docs")
    print(f"Written: {', '.join(stale)}" if stale else "The documents are as the code says.")


if __name__ == "__main__":
    main()
