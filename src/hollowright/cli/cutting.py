"""`hollowright cutlist`: tube and rod of pieces, and strip where chosen, sawn from bars."""

from __future__ import annotations

import textwrap
from pathlib import Path
from typing import Any

import click

from hollowright.cli.main import put, put_json
from hollowright.cli.metal import (
    Seconds,
    check_all_there,
    cut_data,
    cut_told,
    cut_words,
    folder_notes,
    may_cut,
    metal_options,
    opened_drawer,
    ready_folder,
)
from hollowright.errors import PlanRefused


@click.command()
@metal_options
@click.option(
    "--out", metavar="DIR", help="Write the pages to print (PDF), the drawing (SVG) and JSON there."
)
@click.option(
    "--seconds",
    default=5.0,
    metavar="S",
    type=Seconds(0.1, 3600),
    show_default=True,
    help="So long the proof of each list may take.",
)
@click.option(
    "--cut",
    is_flag=True,
    help="Take the bars out of the drawer and put what is left in.",
)
def cutlist(files: tuple[str, ...], as_json: bool, **given: Any) -> int:
    """Saw the tube and rod of the pieces of FILEs: least bars, where to set each mark.

    With --strip, flat blanks too that come out of strip of their width; give `hollowright layout`
    the same, and it leaves them out.

    Exit code 1 when a piece found no bar; it says which, and what would do.
    """
    from hollowright.job.cutting import cutting, no_drawer
    from hollowright.job.job import shop_of
    from hollowright.job.laying import sold_of
    from hollowright.job.ordering import orders_of_files

    may_cut(given["cut"], given["no_drawer"])
    ready_folder(given["out"])
    folder = str(Path(files[0]).parent)
    wanted = orders_of_files(files, given["copies"], given["shop_file"])
    shop, sold = shop_of(given["shop_file"], folder), sold_of(given["sold"], folder)
    notes = list(folder_notes(files, given["shop_file"], given["sold"]))
    url, left_alone, cut = given["drawer_url"], given["no_drawer"], given["cut"]
    with opened_drawer(url, left_alone, cut, notes) as store:
        found = cutting(
            wanted, shop, store.bars_for if store else no_drawer, sold, given["seconds"],
            given["strips"],
        )  # fmt: skip
        if cut:
            _check(found)
        written = _written(found, given["out"], given["paper"], notes)
        done = _cut(store, found, notes) if cut else None  # last: what follows only tells
    with cut_told(done):
        _shown(found, as_json, done, notes, written)
    return 0 if found.complete else 1


def _check(found: Any) -> None:
    """PlanRefused when there is nothing to saw, or some pieces found no bar."""
    if not found.lists:
        nothing = "nothing was cut: nothing is sawn from tube, rod or strip here."
        raise PlanRefused("cut", nothing, "Flat blanks: `hollowright layout`.")
    check_all_there(
        [f"{lost.count} × {lost.flat}: {lost.why}" for each in found.lists for lost in each.missing]
    )


def _written(found: Any, out: str | None, paper: str, notes: list[str]) -> list[str]:
    """The files that were asked for; their paths."""
    if out is None:
        return []
    from hollowright.output.cutlist_files import write_cutlist

    return write_cutlist(found, out, paper, {"notes": notes})


def _cut(store: Any, found: Any, notes: list[str]) -> Any:
    """The bars taken out of the drawer and what is left put in, all of it or nothing."""
    from hollowright.output.cutlist_data import cutlist_data
    from hollowright.output.hand_words import hand_words

    done = store.cut_bars(found.lists, found.title, cutlist_data(found))
    notes += hand_words(found.orders, {bar.bar.id for each in found.lists for bar in each.bars})
    return done


def _shown(found: Any, as_json: bool, done: Any, notes: list[str], written: list[str]) -> None:
    """The lists on standard output."""
    from hollowright.output.left_words import left_of_lists

    left = left_of_lists(found.lists, done.came_in) if done else ()
    if as_json:
        from hollowright.output.cutlist_data import cutlist_data

        put_json(cutlist_data(found) | cut_data(done, left) | {"notes": notes})
        return
    from hollowright.output.cutlist_text import WIDTH, cutlist_text

    put(cutlist_text(found))
    told = cut_words(done, left) if done else []
    wrapped = [line for note in notes for line in textwrap.wrap(note, WIDTH)]
    for line in [*told, *wrapped, *(f"written: {path}" for path in written)]:
        put(line)
