"""What is left of metal once it is cut: which number goes on which piece, a row for each."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from hollowright.output.cutlist_view import bar_views
from hollowright.output.layout_view import all_views
from hollowright.output.layout_words import metal_words, offcut_words, sheet_name
from hollowright.plan.bars import CutList
from hollowright.plan.laid import Layout
from hollowright.shapes.nesting.rows import is_rectangle
from hollowright.units import format_number


@dataclass(frozen=True, slots=True)
class LeftOver:
    """A piece that was left: the number to write on it, its size in words, what it was cut from.

    length, width: how far it reaches [mm]; a bar's width is None. within: it is no rectangle, but
    lies in one of that size.
    """

    number: int
    size: str
    source: str
    length: float
    width: float | None = None
    within: bool = False

    @property
    def data(self) -> dict[str, Any]:
        """The same as data."""
        width = None if self.width is None else round(self.width, 3)
        return {"number": self.number, "length": round(self.length, 3), "width": width,
                "within": self.within, "from": self.source}  # fmt: skip


def left_of_layouts(layouts: Sequence[Layout], came_in: Sequence[int]) -> tuple[LeftOver, ...]:
    """The offcuts of layouts, by the numbers that cutting them gave (in its order)."""
    return tuple(
        LeftOver(
            number,
            f"{offcut_words(offcut, view.inches)}{'' if view.inches else ' mm'}",
            f"{sheet_name(view.laid)}, {metal_words(view.layout.task.batch)}",
            offcut.width,
            offcut.height,
            not is_rectangle(offcut),
        )
        for view in all_views(layouts, came_in)
        for number, offcut in zip(view.numbers, view.offcuts, strict=False)
    )


def left_of_lists(lists: Sequence[CutList], came_in: Sequence[int]) -> tuple[LeftOver, ...]:
    """What is left of the bars of cut lists, likewise."""
    sources = [
        (view.sawn.rest, view.name.split(" (")[0])
        for each in lists
        for view in bar_views(each)
        for _ in range(view.count)
        if view.sawn.pieces and view.sawn.kept
    ]
    return tuple(
        LeftOver(number, f"{format_number(rest)} mm long", source, rest)
        for number, (rest, source) in zip(came_in, sources, strict=False)
    )


def left_lines(left: Sequence[LeftOver]) -> list[str]:
    """A line for each, in columns: its number, its size, what it was cut from."""
    numbers = max((len(str(each.number)) for each in left), default=0)
    sizes = max((len(each.size) for each in left), default=0)
    return [
        f"  {each.number:>{numbers}}  {each.size.ljust(sizes)}  from {each.source}" for each in left
    ]
