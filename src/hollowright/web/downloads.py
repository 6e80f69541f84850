"""What can be taken away of a plan: the bench card, the numbers, the piece file, the blanks."""

from __future__ import annotations

import json
import re

from starlette.responses import Response

from hollowright.output.data import plan_data
from hollowright.output.plan_picture import PICTURE_WIDTH, plan_picture
from hollowright.output.sheets import blank_sheets
from hollowright.output.svg import svg
from hollowright.plan.plan import Plan

SVG = "image/svg+xml; charset=utf-8"


def download(plan: Plan, piece: str, what: str) -> Response | None:
    """A file of the plan by name, None when there is none of that name.

    what: 'card-a4', 'card-letter', 'plan.json', 'piece.toml', 'picture.svg', 'piece.glb', or the id
    of a flat part or a template with '.svg' or '.dxf'. piece: the plan's own piece file.
    """
    if what in ("card-a4", "card-letter"):
        from hollowright.output.files import card_pdf

        paper = what.removeprefix("card-")
        return _file(plan, f"{what}.pdf", card_pdf(plan, paper), "application/pdf")
    if what == "plan.json":
        body = json.dumps(plan_data(plan), ensure_ascii=False, allow_nan=False, indent=1)
        return _file(plan, what, body.encode(), "application/json")
    if what == "piece.toml":
        return _file(plan, "", piece.encode(), "application/toml; charset=utf-8", ".toml")
    if what == "picture.svg":
        return _file(plan, what, svg(plan_picture(plan, PICTURE_WIDTH)).encode(), SVG)
    if what == "piece.glb":
        from hollowright.output.glb import glb

        return _file(plan, "", glb(plan), "model/gltf-binary", ".glb")
    return _blank(plan, *what.rsplit(".", 1)) if "." in what else None


def _blank(plan: Plan, id: str, kind: str) -> Response | None:
    drawing = blank_sheets(plan).get(id)
    if drawing is None or kind not in ("svg", "dxf"):
        return None
    if kind == "svg":
        return _file(plan, f"{id}.svg", svg(drawing).encode(), SVG)
    from hollowright.output.dxf import dxf

    return _file(plan, f"{id}.dxf", dxf(drawing), "image/vnd.dxf")


def _file(plan: Plan, name: str, body: bytes, kind: str, ending: str = "") -> Response:
    """A file to save under the piece's name."""
    called = f"{slug(plan.piece.title)}{ending or f'-{name}'}"
    return Response(
        body, media_type=kind, headers={"content-disposition": f'attachment; filename="{called}"'}
    )


def slug(title: str) -> str:
    """A title as part of a file's name.

    >>> slug('Striker box "No 2"'), slug("筆筒")
    ('striker-box-no-2', 'piece')
    """
    return re.sub(r"[^a-z0-9]+", "-", title.lower()).strip("-")[:60].strip("-") or "piece"
