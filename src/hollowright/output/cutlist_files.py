"""Writes all that cut lists leave in a folder: the pages, the drawing, JSON."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from hollowright.job.cutting import Cutting
from hollowright.output.cutlist_data import cutlist_data
from hollowright.output.cutlist_drawing import cutlist_drawing
from hollowright.output.cutlist_pages import cutlist_pdf
from hollowright.output.files import made_folder, put_whole
from hollowright.output.svg import svg


def write_cutlist(
    cutting: Cutting, folder: str, paper: str = "a4", more: Mapping[str, Any] | None = None
) -> list[str]:
    """Write cutlist.pdf, cutlist.svg and cutlist.json into `folder`, made if need be; their paths.

    paper: 'a4' or 'letter'. more: what else the JSON tells. InputError when the folder can't be
    made or written into.
    """
    data = cutlist_data(cutting) | dict(more or {})
    text = json.dumps(data, ensure_ascii=False, allow_nan=False, indent=1) + "\n"
    contents = {
        "cutlist.pdf": cutlist_pdf(cutting, paper),
        "cutlist.svg": svg(cutlist_drawing(cutting)).encode(),
        "cutlist.json": text.encode(),
    }
    place = made_folder(folder)
    return [str(put_whole(place / name, data)) for name, data in contents.items()]
