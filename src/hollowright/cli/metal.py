"""What the commands that cut metal share: their options, the drawer, cutting and telling of it."""

from __future__ import annotations

import math
import os
from collections.abc import Callable, Iterator, Sequence
from contextlib import AbstractContextManager, contextmanager, nullcontext
from pathlib import Path
from typing import Any

import click

from hollowright.cli.drawer import drawer_option
from hollowright.cli.main import PAPERS, json_option, shop_option, still_told
from hollowright.errors import HollowrightError, InputError, PlanRefused

_OPTIONS = (
    click.argument("files", metavar="FILE...", nargs=-1, required=True),
    click.option(
        "--copies",
        default=1,
        type=int,
        metavar="N",
        help="Make N of each piece; a file given twice counts twice.",
    ),
    json_option,
    click.option(
        "--strip",
        "strips",
        multiple=True,
        metavar="PART",
        help="Saw this blank from strip, not from sheet; 'all': all plain rectangles.",
    ),
    click.option("--paper", type=click.Choice(PAPERS), default="a4", help="Paper of the pages."),
    click.option(
        "--sold",
        metavar="FILE",
        help="The sizes that are sold, with prices (else sold.csv beside the piece file).",
    ),
    drawer_option,
    click.option("--no-drawer", is_flag=True, help="Leave the drawer alone."),
    shop_option,
)


def metal_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """The options of a command that takes piece FILES to the metal there is and to be bought."""
    for option in reversed(_OPTIONS):
        command = option(command)
    return command


def may_cut(cut: bool, no_drawer: bool) -> None:
    """InputError when the drawer's metal is to be cut and the drawer left alone."""
    if cut and no_drawer:
        raise InputError("cut", "with --no-drawer nothing can be cut.", "Leave one of them out.")


def ready_folder(out: str | None) -> None:
    """The folder for the files made, before anything is reckoned or cut."""
    if out is not None:
        from hollowright.output.files import made_folder

        made_folder(out)


@contextmanager
def opened_drawer(url: str, left_alone: bool, cut: bool, notes: list[str]) -> Iterator[Any]:
    """The drawer as a Store, None if it is left alone.

    One that wasn't named, and from which nothing is cut, is only minded when it can't be opened.
    """
    from hollowright.store.store import open_store

    if left_alone:
        yield None
        return
    try:
        store = open_store(url)
    except HollowrightError as fault:
        if url or cut:
            raise
        notes.append(f"The drawer was left out: {fault.problem} {fault.remedy}".strip())
        yield None
        return
    with store:
        yield store


class Seconds(click.FloatRange):
    """How long something may take; what isn't a number is refused as well."""

    def convert(self, value: Any, param: Any, ctx: Any) -> float:
        """The seconds as a number."""
        found: float = super().convert(value, param, ctx)
        if math.isnan(found):
            self.fail(f"{value!r} is not a number of seconds.", param, ctx)
        return found


def check_all_there(lost: Sequence[str]) -> None:
    """PlanRefused when something found no metal: then nothing is cut."""
    if lost:
        raise PlanRefused("cut", f"nothing was cut: {lost[0]}", "Cut when all have a place.")


def cut_words(cutting: Any, left: Sequence[Any]) -> list[str]:
    """What a cutting did, in words. left: what is left, a LeftOver for each number that came in."""
    from hollowright.output.left_words import left_lines

    out = ", ".join(map(str, cutting.out)) or "nothing"
    told = [f"Cut (number {cutting.number}). Out of the drawer: {out}."]
    if left:
        told += ["In the drawer now: write these numbers on what is left.", *left_lines(left)]
    return [*told, f"`hollowright drawer undo {cutting.number}` takes it back."]


def cut_told(cutting: Any) -> AbstractContextManager[None]:
    """While a cutting (None: there was none) is told of: where that fails, it is said so."""
    if cutting is None:
        return nullcontext()
    number = cutting.number
    return still_told(
        f"Cutting {number} was made; `hollowright drawer undo {number}` takes it back."
    )


def cut_data(cutting: Any, left: Sequence[Any]) -> dict[str, Any]:
    """What a cutting did, as data; nothing where nothing was cut."""
    if cutting is None:
        return {}
    told = {"number": cutting.number, "out": list(cutting.out), "in": list(cutting.came_in)}
    return {"cutting": {**told, "offcuts": [each.data for each in left]}}


def folder_notes(
    files: Sequence[str], shop_file: str | None, sold_file: str | None
) -> Iterator[str]:
    """Which shop file and sold list count, where files lie in folders that have different ones."""
    from hollowright.job.job import SHOP_FILE
    from hollowright.job.laying import SOLD_FILE

    for name, named, what in (
        (SHOP_FILE, shop_file, "The kerf, the margins and what is kept"),
        (SOLD_FILE, sold_file, "What is sold"),
    ):
        beside = {path: Path(path).parent / name for path in files}
        there = {p: os.path.realpath(b) if b.is_file() else "" for p, b in beside.items()}
        others = [path for path in files if there[path] != there[files[0]]]
        if named is None and others:
            usual = f"as usual, since {files[0]} has no {name} beside it"
            whose = f"as {beside[files[0]]} says" if there[files[0]] else usual
            option = "--shop" if name == SHOP_FILE else "--sold"
            other = f"beside {others[0]} it is otherwise"
            yield f"{what}: {whose}; {other}. {option} names one for all."
