"""Cut lists as text: bar after bar, where to set each mark, which ends are square, what is left."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from hollowright.job.cutting import Cutting
from hollowright.output.cutlist_view import (
    SAWN,
    BarView,
    Row,
    bar_views,
    batch_words,
    buying_words,
    rules_words,
    square_words,
)
from hollowright.plan.bars import CutList
from hollowright.plan.safety import DEFERS
from hollowright.units import format_inch, format_number

WIDTH = 78
NOTHING = "Nothing is sawn from tube, rod or strip here."
MARKS = (
    "Marks are in mm from the bar's first end. Saw past the mark with the '|': past where a piece "
    "ends, or, of a piece taken from the second end, before it begins. Both ends are sawn unless a "
    "piece says that one is the bar's own."
)
HAND = (
    "Saw and true before any cap goes on. Clamp in a vee block, never by hand alone; file the "
    "burrs off before the next mark is set."
)


def cutlist_text(cutting: Cutting) -> str:
    """All cut lists of some orders."""
    lines = [*_wrapped(f"Cut list: {cutting.title}", "", "  "), "=" * WIDTH]
    if not cutting.lists:
        lines.append(NOTHING)
    for each in cutting.lists:
        lines += _batch(cutting, each)
    for caution in cutting.cautions:
        lines += _wrapped(f"- {caution.text}", "  ", "    ")
    if cutting.lists:
        lines += ["", *_wrapped(MARKS, "", ""), *_wrapped(HAND, "", ""), *_wrapped(DEFERS, "", "")]
    return "\n".join(lines) + "\n"


def _batch(cutting: Cutting, cut_list: CutList) -> Iterator[str]:
    yield ""
    words = batch_words(cut_list)
    yield f"{words[:1].upper()}{words[1:]}"
    told = (cut_list.bound_text, square_words(cut_list), rules_words(cut_list))
    for line in told if cut_list.bars else ():
        yield from _wrapped(line, "  ", "  ") if line else ()
    for line in buying_words(cut_list):
        yield from _wrapped(f"buy {line}", "  ", "    ")
    for lost in cut_list.missing:
        yield from _wrapped(
            f"NO BAR for {lost.count} × {lost.flat}: {lost.why} {lost.remedy}", "  ", "    "
        )
    for caution in cut_list.cautions:
        yield from _wrapped(f"! {caution.text}", "  ", "    ")
    for view in bar_views(cut_list):
        yield ""
        yield from _bar(view, cutting.inches)


def _bar(view: BarView, inch: bool) -> Iterator[str]:
    yield from _wrapped(f"{view.name}; {view.ends}", "  ", "     ")
    yield f"  {'':>3} {'from':>9} {'to':>9} {'long':>8}{' mm' if inch else ''}"
    for row in view.rows:
        piece = row.piece
        marks = (
            f"{format_number(piece.start):>9}{'|' if row.far else ' '}"
            f"{format_number(piece.end):>9}{' ' if row.far else '|'}{format_number(piece.long):>8}"
        )
        ends = "" if row.ends == SAWN else f"; {row.ends}"
        told = f"{row.name}{ends}"
        yield from _wrapped(told, f"  {row.number:>3} {marks}  ", " " * 36)
        if inch:
            yield _inches(row)
    if view.rest:
        yield f"      {view.rest}"


def _inches(row: Row) -> str:
    """The same figures in inches, each under its own."""
    piece = row.piece
    start, end, long = (format_inch(each)[:-3] for each in (piece.start, piece.end, piece.long))
    near, far = ("|", " ") if row.far else (" ", "|")
    return f"  {'':>3} {start:>9}{near}{end:>9}{far}{long:>8} in"


def _wrapped(text: str, first: str, rest: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent=first, subsequent_indent=rest)
