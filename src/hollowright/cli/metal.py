"""What the commands that cut metal share: their options, and the drawer opened if it is wanted."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

import click

from hollowright.cli.drawer import drawer_option
from hollowright.cli.main import PAPERS, json_option, shop_option
from hollowright.errors import HollowrightError, InputError

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
