"""`hollowright cutlist`: tube, rod and strip of pieces sawn from the bars there are."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from hollowright.cli.main import put, put_json
from hollowright.cli.metal import may_cut, metal_options, opened_drawer


@click.command()
@metal_options
@click.option(
    "--out", metavar="DIR", help="Write the pages to print (PDF), the drawing (SVG) and JSON there."
)
@click.option(
    "--seconds",
    default=5.0,
    metavar="S",
    type=click.FloatRange(0.1, 3600),
    show_default=True,
    help="So long the proof of each list may take.",
)
@click.option(
    "--cut",
    is_flag=True,
    help="Take the bars out of the drawer and put what is left in.",
)
def cutlist(files: tuple[str, ...], as_json: bool, **given: Any) -> int:
    """Saw the tube, rod and strip of the pieces of FILEs: least bars, where to set each mark.

    Exit code 1 when a piece found no bar; it says which, and what would do.
    """
    from hollowright.job.cutting import cutting, no_drawer
    from hollowright.job.job import shop_of
    from hollowright.job.laying import sold_of
    from hollowright.job.ordering import orders_of_files

    may_cut(given["cut"], given["no_drawer"])
    folder = str(Path(files[0]).parent)
    wanted = orders_of_files(files, given["copies"], given["shop_file"])
    shop, sold = shop_of(given["shop_file"], folder), sold_of(given["sold"], folder)
    notes: list[str] = []
    more: dict[str, Any] = {}
    url, left_alone, cut = given["drawer_url"], given["no_drawer"], given["cut"]
    with opened_drawer(url, left_alone, cut, notes) as store:
        found = cutting(
            wanted, shop, store.bars_for if store else no_drawer, sold, given["seconds"]
        )
        if cut:
            notes.append(_cut(store, found, more))
    more["notes"] = notes
    _shown(found, as_json, given["out"], given["paper"], more)
    return 0 if found.complete else 1


def _cut(store: Any, found: Any, more: dict[str, Any]) -> str:
    """The bars taken out of the drawer and what is left put in, all of it or nothing."""
    from hollowright.output.cutlist_data import cutlist_data

    done = store.cut_bars(found.lists, found.title, cutlist_data(found))
    more["cutting"] = {"number": done.number, "out": list(done.out), "in": list(done.came_in)}
    out = ", ".join(map(str, done.out)) or "nothing"
    came_in = ", ".join(map(str, done.came_in)) or "nothing"
    return f"Cutting {done.number}: out of the drawer {out}; into it {came_in}."


def _shown(found: Any, as_json: bool, out: str | None, paper: str, more: dict[str, Any]) -> None:
    """The lists on standard output, and the files that were asked for."""
    written = []
    if out is not None:
        from hollowright.output.cutlist_files import write_cutlist

        written = write_cutlist(found, out, paper, more)
    if as_json:
        from hollowright.output.cutlist_data import cutlist_data

        put_json(cutlist_data(found) | more)
        return
    from hollowright.output.cutlist_text import cutlist_text

    put(cutlist_text(found))
    for line in [*more["notes"], *(f"written: {path}" for path in written)]:
        put(line)
