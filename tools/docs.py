"""Write the documents that come from the code: ``docs/commands.md`` and its neighbours.

Usage: ``docs.py`` writes them; ``docs.py --check`` says which are stale, with exit code 1.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path

from hollowright.designs.fields import Field

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
    """Every command with its help, as wide everywhere as a terminal of 88 columns shows it."""
    import click

    from hollowright.cli.main import main_group

    parts = ["# Commands\n\nExit code 0: done; 1: it can't be made as asked; 2: a wrong command"]
    parts.append(" or file. The message says what and where.\n")
    manners = {**main_group.context_settings, "terminal_width": 88}
    with click.Context(main_group, info_name="hollowright", **manners) as context:
        for name in main_group.list_commands(context):
            command = main_group.commands[name]
            with click.Context(command, context, name, **manners) as inner:
                parts.append(f"\n## {name}\n\n```\n{command.get_help(inner)}\n```\n")
    return "".join(parts)


def designs() -> str:
    """Every design: its fields, an example piece file, and the numbers it must give."""
    from hollowright.designs import designs as all_designs
    from hollowright.designs.composed import EXAMPLE as JOINED
    from hollowright.designs.composed import SUMMARY, TITLE

    parts = ["# Designs\n\n`hollowright designs NAME` prints an example that plans as it stands.\n"]
    for design in all_designs():
        rows = [[f"`{each.path}`", *told(each)] for each in design.fields]
        parts.append(f"\n## {design.id}: {design.title}\n\n{design.summary}\n\n")
        parts.append(table(["field", "what it is", "filled with", "limits", "example"], rows))
        for example in design.examples:
            parts.append(f"\n### Example: {example.name}\n\n```toml\n{example.text}```\n\n")
            parts.append(f"It must give ({example.source}):\n\n")
            numbers = [[f"`{name}`", f"{value:.6g}"] for name, value in example.expected.items()]
            parts.append(table(["quantity", "value"], numbers))
    parts.append(f"\n## {TITLE}\n\n{SUMMARY} Each part's fields stand under its own name.\n\n")
    parts.append(f"```toml\n{JOINED.text}```\n")
    return "".join(parts)


KINDS = {
    "readings": "one reading or several",
    "thickness": "a gauge, or readings",
    "length": "a length, or `max`",
    "angle": "degrees",
    "share": "a number",
    "number": "a number",
    "count": "a whole number",
    "metal": "a metal of the handbook",
    "text": "text",
    "points": "pairs of lengths",
    "drawing": "an SVG or DXF file",
}


def told(field: Field) -> tuple[str, str, str, str]:
    """A field in words: what it is, what it is filled with, its limits, an example."""
    what = f"{field.label}, {field.help}" if field.help else field.label
    filled = KINDS.get(field.kind) or "one of " + ", ".join(field.choices)
    if field.default:
        filled += f" (else {field.default})"
    bounded = field.kind in ("readings", "thickness", "length", "angle", "share", "number", "count")
    unit = {"share": "", "number": "", "count": "", "angle": " degrees"}.get(field.kind, " mm")
    limits = f"{field.low:g} to {field.high:g}{unit}" if bounded else ""
    return f"{what}{', required' if field.required else ''}", filled, limits, field.example


def handbook() -> str:
    """Every table of the handbook, then every source with its standing."""
    from hollowright.handbook.sources import sources

    listed = [[source.key, source.title, source.edition, source.status] for source in sources()]
    parts = [
        "# Handbook\n\nEach row names its source by its key; the sources stand at the end.\n",
        *(f"\n{part()}" for part in TABLES),
        f"\n## Sources\n\n{table(['key', 'title', 'edition or section', 'status'], listed)}",
    ]
    return "".join(parts)


def metal_rows() -> str:
    """Each metal's properties; below the row that is used, what other sources say."""
    from hollowright.handbook.metals import PROPERTIES, metals

    parts = ["## Metals\n"]
    for metal in metals():
        rows = [
            [name.replace("_", " "), f"{row.value:g} {row.unit}", row.source, row.note]
            for name in PROPERTIES
            for row in (getattr(metal, name), *getattr(metal, name).alternatives)
        ]
        head = ["property", "value", "source", "note"]
        parts.append(f"\n### {metal.id}, {metal.name}\n\nAlso: {', '.join(metal.aliases)}.\n\n")
        parts.append(table(head, rows))
        parts += [f"\n- {text}" for text in metal.cautions]
        parts.append("\n" if metal.cautions else "")
    return "".join(parts)


def gauge_rows() -> str:
    """Every gauge of every table in millimetres."""
    from hollowright.handbook.gauges import gauges

    parts = ["## Gauges\n"]
    for name in ("bs", "swg", "bwg", "metric"):
        sizes = gauges(name)
        keys = ", ".join(dict.fromkeys(each.source for each in sizes))
        rows = [[each.name, f"{each.mm:.4g}", f"{each.mm / 25.4:.4f}"] for each in sizes]
        parts.append(f"\nSource: {keys}.\n\n{table(['gauge', 'mm', 'in'], rows)}")
    return "".join(parts)


def tube_rows() -> str:
    """Every standard tube [mm] with its tolerances and its published weight."""
    from hollowright.handbook.tubes import tubes

    rows = [
        [
            each.name, f"{each.outside:.2f} ±{each.tolerance:.3f}",
            f"{each.wall:.2f} ±{each.wall_tolerance:.3f}", f"{each.bore:.2f}",
            f"{each.weight.value:g} {each.weight.unit}" if each.weight else "",
            each.source, each.tolerance_source,
        ]
        for each in tubes()
    ]  # fmt: skip
    head = ["tube", "outside", "wall", "bore", "published weight", "source", "of its tolerances"]
    return f"## Tubes (mm)\n\n{table(head, rows)}"


def socket_rows() -> str:
    """Every solder-fitting socket [mm]."""
    from hollowright.handbook.tubes import sockets

    rows = [
        [each.name, f"{each.low:.3f} to {each.high:.3f}", f"{each.tube_outside:.2f}",
         f"{each.depth:.1f}" if each.depth else "", each.source]
        for each in sockets()
    ]  # fmt: skip
    head = ["socket", "bore", "takes a tube of", "least depth", "source"]
    return f"## Sockets of solder fittings (mm)\n\n{table(head, rows)}"


def blade_rows() -> str:
    """Every saw blade, finest first."""
    from hollowright.handbook.blades import blades

    rows = [
        [each.name, f"{each.thickness:.2f}", f"{each.depth:.2f}", f"{each.teeth_per_mm:.2f}",
         f"{each.thickest_gauge} to {each.thinnest_gauge}", f"{each.drill:.2f}", each.source]
        for each in blades()
    ]  # fmt: skip
    head = ["blade", "thickness mm", "depth mm", "teeth a mm", "sheet, B&S gauge", "drill mm"]
    return f"## Saw blades\n\n{table([*head, 'source'], rows)}"


def cup_rows() -> str:
    """Every cup of a doming block [mm], widest first."""
    from hollowright.handbook.doming import cups

    rows = [[f"{each.mouth:g}", f"{each.depth:g}", f"{each.ball:.2f}"] for each in cups()]
    source = f"Source: {cups()[0].source}.\n\n"
    return f"## Cups of a doming block (mm)\n\n{source}{table(['across', 'deep', 'ball'], rows)}"


def ring_rows() -> str:
    """Every scale of ring sizes by each of its laws: whole sizes' inside diameters [mm]."""
    from hollowright.handbook.ring_sizes import RingSize, scales

    parts = ["## Ring sizes\n"]
    for scale in scales():
        for law in scale.laws:
            numbers = [float(number) for number in range(int(scale.low), int(scale.high) + 1)]
            made = [(number, law.measure(number)) for number in numbers]
            sizes = [RingSize(scale, law, number, size) for number, size in made if size]
            rows = [[s.text, f"{s.diameter:.3f}", f"{s.circumference:.3f}"] for s in sizes]
            parts.append(f"\n### {scale.id}, {scale.name}\n\nSource: {law.source}.\n\n")
            parts.append(table(["size", "inside diameter mm", "round mm"], rows))
    return "".join(parts)


def published() -> str:
    """Every published check: the source's value beside ours."""
    from published import document, gather

    return document(gather())


TABLES = (metal_rows, gauge_rows, tube_rows, socket_rows, blade_rows, cup_rows, ring_rows)

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
