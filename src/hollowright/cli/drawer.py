"""`hollowright drawer`: what metal lies there, put in, taken out, exported, imported, cut."""

from __future__ import annotations

import sys
from collections.abc import Callable
from functools import reduce
from pathlib import Path
from typing import Any

import click

from hollowright.cli.main import json_option, put, put_json, still_told, telling
from hollowright.errors import InputError, shown
from hollowright.store.items import FORM_WORDS, WIRE

drawer_option = click.option(
    "--drawer",
    "drawer_url",
    default="",
    metavar="URL",
    help="A file's path or postgresql://... (else HOLLOWRIGHT_DRAWER's, else your own drawer).",
)
"""For every command that looks into the drawer: `drawer_url`, to give to `open_store`."""

_Command = Callable[..., Any]
_TOLD = {
    "metal": "The metal: brass, C26000 ...",
    "temper": "How hard it is: annealed, half-hard, hard.",
    "thickness": "Of sheet and strip: 0.71, '20 ga', or readings '0.71; 0.70'.",
    "outside-diameter": "Of tube.",
    "wall": "Of tube: 1.01, '20 b&s'.",
    "diameter": "Of rod and wire.",
    "size": "Of sheet, length by width: 300x150, '12 in x 6 in'.",
    "length": "Of a strip, tube or rod; of a sheet along x.",
    "width": "Of a strip; of a sheet along y.",
    "corners": "Of a sheet that is no rectangle: '0,0 160,0 160,50 60,50 60,90 0,90'.",
    "grain": "Which way a sheet was rolled: length, width, or degrees from its length.",
    "square-ends": "How many of a bar's ends are square as bought: 0, 1, 2.",
    "place": "Where it lies: 'tin 3'.",
    "cost": "What it cost.",
    "note": "Anything else.",
}


def _told_options(command: _Command) -> _Command:
    """An option for each thing that can be told of an item, and an outline's file."""
    options = [click.option(f"--{name}", metavar="TEXT", help=text) for name, text in _TOLD.items()]
    options += [
        click.option("--outline", metavar="FILE", help="Its shape, drawn in an SVG or DXF file."),
        click.option("--unit", metavar="UNIT", help="One unit of that file: mm, cm, in ..."),
    ]
    return reduce(lambda made, option: option(made), reversed(options), command)


def _told(given: dict[str, Any]) -> dict[str, Any]:
    """What was told, by field; a drawing file's outline read."""
    told = {name: value for name, value in given.items() if value is not None}
    unit = told.pop("unit", None)
    if told.get("outline"):
        told["outline"] = _drawn(told["outline"], unit)
    return told


def _drawn(path: str, unit: str | None) -> dict[str, Any]:
    """The outline that a drawing file shows, as data."""
    from hollowright.job.job import read_bytes
    from hollowright.shapes.files import read_outline
    from hollowright.shapes.outline_json import outline_data

    ending = Path(path).suffix.lower().lstrip(".")
    if ending not in ("svg", "dxf"):
        raise InputError("outline", f"{shown(path)} isn't .svg or .dxf.", "Give such a file.")
    kind: Any = ending
    return outline_data(read_outline(read_bytes(path, "outline"), kind, unit).outline)


@click.group()
def drawer() -> None:
    """What metal lies in the drawer: sheets, strips, tubes, rods, offcuts, each with a number."""


@drawer.command("list")
@click.argument("words", nargs=-1)
@click.option("--form", type=click.Choice(FORM_WORDS), default=None, help="Of this form only.")
@click.option("--metal", default="", help="Of this metal only.")
@click.option("--gone", is_flag=True, help="What has gone instead.")
@click.option("--page", default=1, type=click.IntRange(1), help="Which page.")
@click.option("--size", default=50, type=click.IntRange(1, 1000), help="Items on a page.")
@json_option
@drawer_option
def list_(
    words: tuple[str, ...],
    form: str | None,
    metal: str,
    gone: bool,
    page: int,
    size: int,
    as_json: bool,
    drawer_url: str,
) -> None:
    """List what lies there. WORDS (or how they begin) must stand in its metal, place or note."""
    from hollowright.handbook.metals import metal as metal_of
    from hollowright.store.store import open_store

    id = metal_of(metal).id if metal else ""
    with open_store(drawer_url) as store:
        found = store.items(
            page, size, "rod" if form == WIRE else form or "", id, " ".join(words), gone
        )
    if as_json:
        from hollowright.store.told import page_data

        put_json(page_data(found))
        return
    from hollowright.cli.drawer_text import page_text

    put(page_text(found))


@drawer.command()
@click.argument("number", type=int)
@json_option
@drawer_option
def show(number: int, as_json: bool, drawer_url: str) -> None:
    """Show item NUMBER, and everything that happened to it."""
    from hollowright.store.store import open_store

    with open_store(drawer_url) as store:
        item, changes = store.item(number), store.changes(number)
    if as_json:
        from hollowright.store.told import change_data, item_data

        put_json(item_data(item) | {"record": [change_data(each) for each in changes]})
        return
    from hollowright.cli.drawer_text import item_text

    put(item_text(item, changes))


@drawer.command()
@click.argument("form", type=click.Choice(FORM_WORDS))
@_told_options
@json_option
@drawer_option
def add(form: str, as_json: bool, drawer_url: str, **given: Any) -> None:
    """Put a piece of metal in; prints the number to write on it.

    For instance: hollowright drawer add sheet --metal brass --thickness 0.71 --size 300x150
    --place "tin 3"

    An offcut of an odd shape by its corners, in order round it, how far each lies across and up
    from the first: --corners "0,0 160,0 160,50 60,50 60,90 0,90"
    """
    from hollowright.store.reading import read_item
    from hollowright.store.store import open_store

    new = read_item({"form": form} | _told(given))
    with open_store(drawer_url) as store:
        item = store.add(new)
    with still_told(f"Item {item.number} was put in."):
        _put_item(item, as_json, f"Write {item.number} on it.")


def _put_item(item: Any, as_json: bool, after: str = "") -> None:
    if as_json:
        from hollowright.store.told import item_data

        put_json(item_data(item))
        return
    from hollowright.cli.drawer_text import item_text

    put(item_text(item))
    if after:
        put(after)


@drawer.command()
@click.argument("number", type=int)
@_told_options
@json_option
@drawer_option
def change(number: int, as_json: bool, drawer_url: str, **given: Any) -> None:
    """Put item NUMBER right: what is told is changed, '' clears it, the record keeps the old."""
    from hollowright.store.reading import read_changes
    from hollowright.store.store import open_store

    told = _told(given)
    if not told:
        raise InputError("change", "nothing is told to change.", "Add --place 'tin 4', say.")
    with open_store(drawer_url) as store:
        item = store.change(number, **read_changes(store.item(number), told))
    with still_told(f"Item {number} was changed."):
        _put_item(item, as_json)


@drawer.command()
@click.argument("number", type=int)
@click.option("--why", required=True, help="Why: 'lent', 'scrapped', 'used for a hinge'.")
@json_option
@drawer_option
def take(number: int, why: str, as_json: bool, drawer_url: str) -> None:
    """Take item NUMBER out of the drawer for good; its number and record stay."""
    from hollowright.store.store import open_store

    with open_store(drawer_url) as store:
        item = store.take(number, why)
    with still_told(f"Item {number} was taken out."):
        _put_item(item, as_json)


@drawer.command("import")
@click.argument("file")
@click.option("--skip-wrong", is_flag=True, help="Pass over wrong lines, bring in the rest.")
@drawer_option
def import_(file: str, skip_wrong: bool, drawer_url: str) -> None:
    """Put in what a .csv or .json FILE tells: all of it, or nothing when a line is wrong."""
    from hollowright.store.exchange import import_csv, import_json, read_file
    from hollowright.store.store import open_store

    data = read_file(file)
    bring_in = import_json if Path(file).suffix.lower() == ".json" else import_csv
    with open_store(drawer_url) as store:
        done = bring_in(store, data, skip_wrong)
    for fault in done.passed_over:
        put(f"passed over: {fault}", err=True)
    said = f"Put in: {len(done.items)}."
    with still_told(said):
        put(said)


@drawer.command()
@click.argument("file", required=False)
@click.option("--csv", "as_csv", is_flag=True, help="As CSV (the rule, but for a .json FILE).")
@click.option("--gone", "with_gone", is_flag=True, help="What has gone as well.")
@click.option("--over", is_flag=True, help="Write over a file that is there.")
@json_option
@drawer_option
def export(
    file: str | None, as_csv: bool, with_gone: bool, over: bool, as_json: bool, drawer_url: str
) -> None:
    """Write every item to FILE (.csv or .json) or here; `drawer import` reads it again."""
    from hollowright.store.exchange import export_csv, export_json
    from hollowright.store.store import open_store

    as_data = _as_json(file, as_csv, as_json)
    if file and Path(file).exists() and not over:
        raise InputError("file", f"{shown(file)} is there already.", "Add --over to replace it.")
    with open_store(drawer_url) as store:
        items = store.all_items(None if with_gone else False)
    text = export_json(items) if as_data else export_csv(items)
    if file is None:
        with telling():
            sys.stdout.flush()
            sys.stdout.buffer.write(text.encode())  # whatever the terminal's encoding: it is a file
            sys.stdout.buffer.flush()
        return
    from hollowright.output.files import put_whole

    put(f"written: {put_whole(Path(file), text.encode())}")


def _as_json(file: str | None, as_csv: bool, as_json: bool) -> bool:
    """Whether to write JSON, not CSV; InputError where the file's name says something else."""
    if as_csv and as_json:
        raise InputError("export", "--csv and --json are both given.", "Give one.")
    ending = Path(file).suffix.lower() if file else ""
    if file and ending not in (".csv", ".json"):
        raise InputError("file", f"{shown(file)} isn't .csv or .json.", "Name it so.")
    wrong = ".csv" if as_json else ".json" if as_csv else ""
    if wrong and ending == wrong:
        option = "--json" if as_json else "--csv"
        raise InputError("file", f"{shown(file)} and {option} differ.", "Leave one of them out.")
    return as_json or ending == ".json"


@drawer.command()
@click.option("--most", default=50, type=click.IntRange(1, 1000), help="So many at most.")
@json_option
@drawer_option
def cuttings(most: int, as_json: bool, drawer_url: str) -> None:
    """List what was cut, for what, and what was left over; newest first."""
    from hollowright.store.store import open_store

    with open_store(drawer_url) as store:
        found = store.cuttings(most)
    if as_json:
        from hollowright.store.told import cutting_data

        put_json({"cuttings": [cutting_data(each) for each in found]})
        return
    from hollowright.cli.drawer_text import cuttings_text

    put(cuttings_text(found))


@drawer.command()
@click.argument("number", type=int)
@drawer_option
def undo(number: int, drawer_url: str) -> None:
    """Take cutting NUMBER back, if nothing left over from it has been used since."""
    from hollowright.cli.drawer_text import numbers
    from hollowright.store.store import open_store

    with open_store(drawer_url) as store:
        found = store.undo(number)
    said = f"Cutting {number} is taken back. Again in the drawer: {numbers(found.out)}."
    with still_told(said):
        put(said)
