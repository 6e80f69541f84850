"""`hollowright cutlist`: tube, rod and strip of pieces sawn from the bars there are."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import click

from hollowright.cli.drawer import drawer_option
from hollowright.cli.main import PAPERS, json_option, put, put_json, shop_option
from hollowright.errors import HollowrightError, InputError


@click.command()
@click.argument("files", metavar="FILE...", nargs=-1, required=True)
@click.option(
    "--copies",
    default=1,
    type=int,
    metavar="N",
    help="Make N of each piece; a file given twice counts twice.",
)
@json_option
@click.option(
    "--out", metavar="DIR", help="Write the pages to print (PDF), the drawing (SVG) and JSON there."
)
@click.option("--paper", type=click.Choice(PAPERS), default="a4", help="Paper of the pages.")
@click.option(
    "--seconds",
    default=5.0,
    metavar="S",
    type=click.FloatRange(0.1, 3600),
    show_default=True,
    help="So long the proof of each list may take.",
)
@click.option(
    "--sold",
    metavar="FILE",
    help="The sizes that are sold, with prices (else sold.csv beside the piece file).",
)
@drawer_option
@click.option("--no-drawer", is_flag=True, help="Leave the drawer alone.")
@shop_option
@click.option(
    "--cut",
    is_flag=True,
    help="Take the bars out of the drawer and put what is left in.",
)
def cutlist(files: tuple[str, ...], as_json: bool, **given: Any) -> int:
    """Saw the tube, rod and strip of the pieces of FILEs: least bars, where to set each mark.

    Exit code 1 when a piece found no bar; it says which, and what would do.
    """
    from hollowright.job.cutting import cutting, no_drawer, orders_of_files
    from hollowright.job.job import shop_of
    from hollowright.job.laying import sold_of

    if given["cut"] and given["no_drawer"]:
        raise InputError("cut", "with --no-drawer nothing can be cut.", "Leave one of them out.")
    folder = str(Path(files[0]).parent)
    wanted = orders_of_files(files, given["copies"], given["shop_file"])
    shop, sold = shop_of(given["shop_file"], folder), sold_of(given["sold"], folder)
    notes: list[str] = []
    more: dict[str, Any] = {}
    with _drawer(given, notes) as store:
        found = cutting(
            wanted, shop, store.bars_for if store else no_drawer, sold, given["seconds"]
        )
        if given["cut"]:
            notes.append(_cut(store, found, more))
    more["notes"] = notes
    _shown(found, as_json, given["out"], given["paper"], more)
    return 0 if found.complete else 1


@contextmanager
def _drawer(given: dict[str, Any], notes: list[str]) -> Iterator[Any]:
    """The drawer, if it is wanted. One that wasn't named but can't be opened is only minded."""
    from hollowright.store.store import open_store

    if given["no_drawer"]:
        yield None
        return
    try:
        store = open_store(given["drawer_url"])
    except HollowrightError as fault:
        if given["drawer_url"] or given["cut"]:
            raise
        notes.append(f"The drawer was left out: {fault.problem} {fault.remedy}".strip())
        yield None
        return
    with store:
        yield store


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
