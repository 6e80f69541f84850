"""Cut lists as PDF to take to the bench: each bar drawn, and its marks in a table."""

from __future__ import annotations

import json
from typing import Any

from hollowright import __version__
from hollowright.job.cutting import Cutting
from hollowright.output.card import BOTTOM, LEFT, PAD, PAPERS, RIGHT, SLIM, TEMPLATES, TOP, Paper
from hollowright.output.card_data import glued, printable, unlettered
from hollowright.output.cutlist_drawing import KEY, bar_drawing, scale_of
from hollowright.output.cutlist_text import HAND, NOTHING
from hollowright.output.cutlist_view import (
    BarView,
    Row,
    bar_views,
    batch_words,
    buying_words,
    rules_words,
    square_words,
)
from hollowright.output.drawing import Drawing
from hollowright.output.svg import svg
from hollowright.plan.bars import CutList
from hollowright.plan.safety import DEFERS
from hollowright.units import format_inch, format_number

Data = dict[str, Any]
MARKS = (
    "Marks are in mm from the bar's first end. Saw past the large one: past where a piece ends, "
    "or, of a piece taken from the second end, before it begins."
)


def cutlist_pdf(cutting: Cutting, paper: str = "a4") -> bytes:
    """Every cut list as PDF, the same bytes every time. paper: 'a4' or 'letter'."""
    import typst

    files: Any = _files(cutting, PAPERS[paper])
    pdf: bytes = typst.compile(files, format="pdf", ignore_system_fonts=True)
    return pdf


def _files(cutting: Cutting, paper: Paper) -> dict[str, bytes]:
    """All that the pages are set from, by name: templates, words and figures, drawings."""
    drawings: dict[str, Drawing] = {}
    batches = [_batch(cutting, each, drawings) for each in cutting.lists]
    words = {
        "maker": f"Hollowright {__version__}",
        "batches": batches,
        "cautions": [
            *(caution.text for caution in cutting.cautions),
            *unlettered(cutting.title),
        ],
        "notes": [MARKS, KEY, HAND, DEFERS] if batches else [NOTHING],
    }
    data = {
        "title": printable(f"Cut list: {cutting.title}"),
        "layout": _room(paper),
        **glued(words),
    }
    return {
        "main.typ": (TEMPLATES / "cutlist.typ").read_bytes(),
        "look.typ": (TEMPLATES / "look.typ").read_bytes(),
        "cutlist.json": json.dumps(data).encode(),
        **{f"{name}.svg": svg(drawing).encode() for name, drawing in drawings.items()},
    }


def _batch(cutting: Cutting, cut_list: CutList, drawings: dict[str, Drawing]) -> Data:
    words = batch_words(cut_list)
    told = (cut_list.bound_text, square_words(cut_list), rules_words(cut_list))
    return {
        "name": words[:1].upper() + words[1:],
        "told": [line for line in told if line] if cut_list.bars else [],
        "bought": list(buying_words(cut_list)),
        "missing": [
            f"No bar for {lost.count} × {lost.flat}: {lost.why} {lost.remedy}"
            for lost in cut_list.missing
        ],
        "cautions": [caution.text for caution in cut_list.cautions],
        "bars": [
            _bar(view, scale_of(cut_list), cutting.inches, drawings) for view in bar_views(cut_list)
        ],
    }


def _bar(view: BarView, scale: float, inch: bool, drawings: dict[str, Drawing]) -> Data:
    name = f"bar-{len(drawings)}"
    drawing = drawings[name] = bar_drawing(view, scale)
    return {
        "name": view.name,
        "letter": view.letter,
        "ends": view.ends,
        "rest": view.rest,
        "drawing": {
            "name": name,
            "width": f"{drawing.width:.3f}",
            "alt": drawing.description,
        },
        "rows": [
            [
                str(row.number),
                row.name,
                *map(format_number, _figures(row)),
                *(format_inch(each) if inch else "" for each in _figures(row)),
                row.ends,
                "far" if row.far else "",
            ]
            for row in view.rows
        ],
    }


def _figures(row: Row) -> tuple[float, float, float]:
    """Where a piece begins and ends, and how long it is [mm]."""
    return row.piece.start, row.piece.end, row.piece.long


def _room(paper: Paper) -> Data:
    return {
        "width": paper.width,
        "height": paper.height,
        "frame": {"left": LEFT, "right": RIGHT, "top": TOP, "bottom": BOTTOM},
        "slim": SLIM,
        "pad": PAD,
    }
