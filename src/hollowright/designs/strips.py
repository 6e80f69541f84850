"""Strips that are bent round and closed: their blanks, and which way the metal's grain runs."""

from __future__ import annotations

from typing import Any

from hollowright.piece import Blank
from hollowright.quantity import Quantity
from hollowright.shapes.outline import rectangle

ALONG = 0.0
"""Grain along a blank's length [deg]: bends then lie across it, where rolled metal cracks least.

Common practice, no source. Discs and flats that are domed, raised or folded several ways have none.
"""


def bent_strip(length: Quantity, width: Quantity, **more: Any) -> Blank:
    """The blank of a strip bent round until its ends meet, grain along it; more: as a Blank's.

    length, width: net [mm].
    """
    outline = rectangle(length.value, width.value)
    sizes = {"length": length, "width": width}
    return Blank("strip", outline, sizes, closes=True, shaped=True, grain=ALONG, **more)
