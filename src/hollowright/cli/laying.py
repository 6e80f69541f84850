"""`hollowright layout`: the blanks of pieces laid out on the metal there is, and what to buy."""

from __future__ import annotations

from typing import Any

import click

from hollowright.cli.main import put, put_json
from hollowright.cli.metal import (
    Seconds,
    cut_data,
    cut_told,
    cut_words,
    metal_options,
    ready_folder,
)


@click.command()
@metal_options
@click.option(
    "--out",
    metavar="DIR",
    help="Write the pages to print (PDF), each sheet (SVG, DXF) and the layout (JSON) there.",
)
@click.option(
    "--seconds",
    default=10.0,
    metavar="S",
    type=Seconds(0, 3600),
    show_default=True,
    help="Search so long; 0: the quick answer only.",
)
@click.option(
    "--turns",
    multiple=True,
    metavar="RULE|PART=RULE",
    help="How blanks may be turned: free, quarter or grain; for all, or for one part.",
)
@click.option("--over", multiple=True, metavar="PART", help="May lie face down; 'all' for all.")
@click.option("--placed", metavar="FILE", help="Show the layout of this layout.json again.")
@click.option("--anew", is_flag=True, help="Search again, though a layout was kept.")
@click.option(
    "--cut", is_flag=True,
    help="Take the metal out of the drawer and put the offcuts in.",
)  # fmt: skip
def layout(as_json: bool, out: str | None, paper: str, **given: Any) -> int:
    """Lay out the blanks of the pieces of FILEs on sheet: least metal, what to buy.

    Exit code 1 when a blank found no place; it says which, and what would do.
    """
    from hollowright.cli.laying_work import Asked, laid_out

    ready_folder(out)
    written: list[str] = []

    def write(laid: Any) -> None:
        if out is not None:
            written.extend(_written(laid, out, paper))

    laid = laid_out(
        Asked(
            given["files"], given["copies"], given["seconds"], given["turns"], given["over"],
            given["sold"], given["drawer_url"], given["no_drawer"], given["shop_file"],
            given["placed"], given["anew"], given["cut"], given["strips"],
        ),
        write,
    )  # fmt: skip
    with cut_told(laid.cutting):
        if laid.cutting and out is not None:
            _written(laid, out, paper)  # again: the offcuts have their numbers now
        _shown(laid, as_json, written)
    return 1 if laid.missing else 0


def _shown(laid: Any, as_json: bool, written: list[str]) -> None:
    """The layouts on standard output."""
    from hollowright.output.left_words import left_of_layouts

    left = left_of_layouts(laid.layouts, laid.cutting.came_in) if laid.cutting else ()
    if as_json:
        from hollowright.output.layout_data import layouts_data

        data = layouts_data(laid.layouts, laid.keys) | {"notes": list(laid.notes)}
        put_json(data | cut_data(laid.cutting, left))
        return
    from hollowright.output.layout_text import layout_text

    put(layout_text(laid.layouts, laid.notes))
    told = cut_words(laid.cutting, left) if laid.cutting else []
    for line in [*told, *(f"written: {path}" for path in written)]:
        put(line)


def _written(laid: Any, folder: str, paper: str) -> list[str]:
    """Every file of the layouts, the stored input among them; their paths."""
    import json

    from hollowright.output.layout_files import write_layouts

    stored = json.dumps(laid.kept, ensure_ascii=False, indent=1) + "\n"
    came_in = laid.cutting.came_in if laid.cutting else ()
    return write_layouts(laid.layouts, folder, paper, laid.keys, {"layout.json": stored}, came_in)
