"""The bench card: one PDF to print, work from and write on."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from hollowright.output.card_blanks import OVERLAP, bare, tiles
from hollowright.output.card_data import Data, card_data
from hollowright.output.drawing import Drawing
from hollowright.output.extent import extent
from hollowright.output.fit_drawing import fit_drawing
from hollowright.output.picture_layout import MARGIN
from hollowright.output.plan_picture import plan_picture
from hollowright.output.sheets import blank_sheets
from hollowright.output.svg import svg
from hollowright.plan.plan import Plan

TEMPLATES = Path(__file__).parent / "templates"
LEFT, RIGHT, TOP, BOTTOM = 20.0, 10.0, 10.0, 10.0
"""From the paper's edges to the frame, the filing edge left (ISO 5457) [mm]."""
BLOCK, SLIM = 20.0, 10.5
"""Height of the title block on the first sheet and on those that follow [mm]."""
PAD = 7.0
"""From the frame to what stands in it [mm]."""
GUTTER = 9.0
"""Between two columns [mm]."""
HEAD = 36.0
"""What headings and bar take of a page of blanks [mm]."""
PICTURES = (100.0, 95.0, 90.0, 85.0, 80.0, 75.0, 70.0)
"""Widths that the picture on the front may have [mm], the greatest first."""
BELOW = 125.0
"""What stands above and below the picture on the front [mm]."""
CHART = 98.0
"""Width of the drawing of a fit [mm]."""


@dataclass(frozen=True, slots=True)
class Paper:
    """A size of paper and how high the picture on the front may be [mm]."""

    width: float
    height: float

    @property
    def room(self) -> tuple[float, float]:
        """Width and height within the frame of a following sheet, above its title block [mm]."""
        across = self.width - LEFT - RIGHT - 2 * PAD
        return across, self.height - TOP - BOTTOM - SLIM - 2 * PAD


PAPERS = {"a4": Paper(210.0, 297.0), "letter": Paper(215.9, 279.4)}


def card_pdf(plan: Plan, paper: str = "a4") -> bytes:
    """The bench card of a plan as PDF, the same bytes every time. paper: 'a4' or 'letter'."""
    import typst

    files: Any = card_files(plan, PAPERS[paper])
    pdf: bytes = typst.compile(files, format="pdf", ignore_system_fonts=True)
    return pdf


def card_files(plan: Plan, paper: Paper) -> dict[str, bytes]:
    """All that the card is set from, by name: templates, words and figures, drawings."""
    drawings = {"picture": _picture(plan, paper)}
    data = card_data(plan)
    for count, result in enumerate(plan.fits):
        drawings[f"fit-{count}"] = fit_drawing(result, CHART)
        data["fits"][count]["alt"] = drawings[f"fit-{count}"].description
    shown = blanks(plan, paper)
    drawings |= {f"blank-{entry['id']}": drawing for entry, drawing in shown}
    data["blanks"] = [entry for entry, _ in shown]
    data["picture"] = drawings["picture"].description
    data["layout"] = _layout(paper, drawings["picture"].width)
    return {
        **_templates(),
        "card.json": json.dumps(data).encode(),
        **{f"{name}.svg": svg(drawing).encode() for name, drawing in drawings.items()},
    }


def _picture(plan: Plan, paper: Paper) -> Drawing:
    """The picture, as large as leaves room for the rest of the front, no wider than it needs."""
    high = paper.height - TOP - BOTTOM - BLOCK - 2 * PAD - BELOW
    drawing = plan_picture(plan, PICTURES[0], most_height=high)
    left, _, right, _ = extent(drawing.items)
    enough = [width for width in PICTURES if width >= right - left + 2 * MARGIN]
    return plan_picture(plan, enough[-1], most_height=high) if enough else drawing


def _templates() -> dict[str, bytes]:
    read = {path.name: path.read_bytes() for path in sorted(TEMPLATES.glob("*.typ"))}
    return {"main.typ": read.pop("card.typ"), **read}


def blanks(plan: Plan, paper: Paper) -> list[tuple[Data, Drawing]]:
    """Each flat blank: what the page needs to know of it, and its bare drawing at true size."""
    found = []
    for id, drawing in blank_sheets(plan).items():
        cropped, notes = bare(drawing)
        found.append((_blank(id, cropped, notes, paper), cropped))
    return found


def _blank(id: str, drawing: Drawing, notes: tuple[str, ...], paper: Paper) -> Data:
    """One blank and the tiles it is printed in, of a size that a page takes."""
    width, height = paper.room
    return {
        "id": id,
        "name": drawing.title.rpartition(": ")[2],
        "notes": notes,
        "alt": drawing.description,
        "width": drawing.width,
        "height": drawing.height,
        "tiles": [asdict(tile) for tile in tiles(drawing, width, height - HEAD)],
    }


def _layout(paper: Paper, picture: float) -> Data:
    across, tall = paper.room
    return {
        "width": paper.width,
        "height": paper.height,
        "frame": {"left": LEFT, "right": RIGHT, "top": TOP, "bottom": BOTTOM},
        "block": BLOCK,
        "slim": SLIM,
        "overlap": OVERLAP,
        "pad": PAD,
        "gutter": GUTTER,
        "text": across,
        "half": (across - GUTTER) / 2,
        "tall": tall,
        "picture": picture,
        "chart": CHART,
    }
