"""The bench card: one PDF to print, work from and write on."""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any, cast

from hollowright.output.card_blanks import bare, tiles
from hollowright.output.card_data import Data, card_data
from hollowright.output.drawing import Drawing
from hollowright.output.fit_drawing import fit_drawing
from hollowright.output.sheets import blank_sheets, plan_picture
from hollowright.output.svg import svg
from hollowright.plan.plan import Plan

TEMPLATES = Path(__file__).parent / "templates"
LEFT, RIGHT, TOP, BOTTOM = 20.0, 10.0, 10.0, 10.0
"""From the paper's edges to the frame, the filing edge left (ISO 5457) [mm]."""
BLOCK = 20.0
"""Height of the title block [mm]."""
PAD = 7.0
"""From the frame to what stands in it [mm]."""
HEAD = 32.0
"""What heading and bar take of a page of blanks [mm]."""
PICTURE = 98.0
"""Widest that the picture is on the front [mm]."""
CHART = 98.0
"""Width of the drawing of a fit [mm]."""


@dataclass(frozen=True, slots=True)
class Paper:
    """A size of paper and how high the picture on the front may be [mm]."""

    width: float
    height: float

    @property
    def room(self) -> tuple[float, float]:
        """Width and height within the frame, above the title block [mm]."""
        across = self.width - LEFT - RIGHT - 2 * PAD
        return across, self.height - TOP - BOTTOM - BLOCK - 2 * PAD


PAPERS = {"a4": Paper(210.0, 297.0), "letter": Paper(215.9, 279.4)}


def card_pdf(plan: Plan, paper: str = "a4") -> bytes:
    """The bench card of a plan as PDF, the same bytes every time. paper: 'a4' or 'letter'."""
    import typst

    files: Any = card_files(plan, PAPERS[paper])
    return cast(bytes, typst.compile(files, format="pdf", ignore_system_fonts=True))


def card_files(plan: Plan, paper: Paper) -> dict[str, bytes]:
    """All that the card is set from, by name: templates, words and figures, drawings."""
    drawings = {"picture": plan_picture(plan, PICTURE)}
    for count, result in enumerate(plan.fits):
        drawings[f"fit-{count}"] = fit_drawing(result, CHART)
    data = card_data(plan)
    data["blanks"] = []
    for id, drawing in blank_sheets(plan).items():
        cropped, notes = bare(drawing)
        drawings[f"blank-{id}"] = cropped
        data["blanks"].append(_blank(id, cropped, notes, paper))
    data["layout"] = _layout(paper)
    return {
        **_templates(),
        "card.json": json.dumps(data).encode(),
        **{f"{name}.svg": svg(drawing).encode() for name, drawing in drawings.items()},
    }


def _templates() -> dict[str, bytes]:
    read = {path.name: path.read_bytes() for path in sorted(TEMPLATES.glob("*.typ"))}
    return {"main.typ": read.pop("card.typ"), **read}


def _blank(id: str, drawing: Drawing, notes: tuple[str, ...], paper: Paper) -> Data:
    """One blank and the tiles it is printed in, of a size that a page takes."""
    width, height = paper.room
    return {
        "id": id,
        "name": drawing.title.rpartition(": ")[2],
        "notes": notes,
        "alt": drawing.description,
        "width": drawing.width,
        "tiles": [
            {"left": t.left, "top": t.top, "width": t.width, "height": t.height}
            for t in tiles(drawing, width, height - HEAD)
        ],
    }


def _layout(paper: Paper) -> Data:
    return {
        "width": paper.width,
        "height": paper.height,
        "frame": {"left": LEFT, "right": RIGHT, "top": TOP, "bottom": BOTTOM},
        "block": BLOCK,
        "pad": PAD,
        "picture": PICTURE,
        "chart": CHART,
    }
