"""Writes all that a plan leaves in a folder: bench card, blanks, picture, solid, JSON."""

from __future__ import annotations

import json
import os
import secrets
from collections.abc import Mapping
from pathlib import Path

from hollowright.errors import InputError, shown
from hollowright.output.card import card_pdf
from hollowright.output.data import plan_data
from hollowright.output.plan_picture import plan_picture
from hollowright.output.sheets import blank_sheets
from hollowright.output.svg import svg
from hollowright.plan.plan import Plan

__all__ = ["card_pdf", "write_all"]

CARD = "bench-card.pdf"
OPTION = "--out"


def write_all(
    plan: Plan, folder: str, paper: str = "a4", extra: Mapping[str, str] | None = None
) -> list[str]:
    """Write every file of a plan into `folder`, made if need be, and return their paths.

    paper: 'a4' or 'letter', of the bench card. extra: more texts to leave beside them, by file
    name. Each file is whole or not there: it is written under another name and renamed.
    InputError when the folder can't be made or written into.
    """
    place = made_folder(folder)
    contents = {
        **_contents(plan, paper),
        **{name: text.encode() for name, text in (extra or {}).items()},
    }
    return [str(put_whole(place / name, data)) for name, data in contents.items()]


def write_texts(folder: str, texts: Mapping[str, str]) -> list[str]:
    """Write texts into `folder`, made if need be, by their file names; their paths."""
    place = made_folder(folder)
    return [str(put_whole(place / name, text.encode())) for name, text in texts.items()]


def _contents(plan: Plan, paper: str) -> dict[str, bytes]:
    """Every file's bytes by its name; the card is set while the DXF library loads."""
    from concurrent.futures import ThreadPoolExecutor

    sheets = blank_sheets(plan)
    with ThreadPoolExecutor(1) as beside:
        card = beside.submit(card_pdf, plan, paper)
        from hollowright.output.dxf import dxf

        flat = {f"{id}.dxf": dxf(sheet) for id, sheet in sheets.items()}
        from hollowright.output.glb import glb

        solid = glb(plan)
        pdf = card.result()
    drawn = {f"{id}.svg": svg(sheet).encode() for id, sheet in sheets.items()}
    data = json.dumps(plan_data(plan), ensure_ascii=False, allow_nan=False, indent=1) + "\n"
    return {
        CARD: pdf,
        "picture.svg": svg(plan_picture(plan)).encode(),
        **drawn,
        **flat,
        "piece.glb": solid,
        "plan.json": data.encode(),
    }


def made_folder(folder: str) -> Path:
    """The folder, made if it isn't there."""
    place = Path(folder)
    try:
        place.mkdir(parents=True, exist_ok=True)
    except (OSError, ValueError) as fault:
        raise _refusal(f"{shown(folder)} can't be made a folder", fault) from fault
    return place


def put_whole(path: Path, data: bytes) -> Path:
    """Write a file whole: under a name of its own first, then renamed."""
    part = path.with_name(f".{path.name}.{secrets.token_hex(4)}.part")
    try:
        part.write_bytes(data)
        part.replace(path)
    except (OSError, ValueError) as fault:
        part.unlink(missing_ok=True)
        where = f"{shown(path.name)} can't be written in {shown(path.parent)}"
        raise _refusal(where, fault) from fault
    return path


def _refusal(what: str, fault: Exception) -> InputError:
    told = isinstance(fault, OSError) and fault.errno
    reason = os.strerror(told) if told else str(fault)
    return InputError(
        OPTION,
        f"{what}: {reason[:1].lower()}{reason[1:]}.",
        "Name a folder that you may write in, or a new one.",
    )
