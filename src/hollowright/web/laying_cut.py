"""Cutting what is laid out: asked for once more, then metal goes out and offcuts come in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from hollowright.errors import HollowrightError
from hollowright.job.layout_json import layout_data
from hollowright.plan.laid import Layout
from hollowright.web.laying_ask import Ask
from hollowright.web.laying_work import Bench, as_shown


@dataclass(frozen=True)
class Cut:
    """What is to be cut, or was: the layouts, the cutting once it is done, why it wasn't."""

    ask: Ask
    layouts: tuple[Layout, ...] = ()
    cutting: Any = None
    fault: HollowrightError | None = None

    @property
    def out(self) -> list[str]:
        """The drawer's sheets that go out, as they are called."""
        return [
            laid.sheet.label
            for layout in self.layouts
            for laid in layout.sheets
            if laid.sheet.origin == "drawer"
        ]

    @property
    def others(self) -> list[str]:
        """Sheets from elsewhere whose offcuts come in."""
        return [
            laid.sheet.label
            for layout in self.layouts
            for laid in layout.sheets
            if laid.sheet.origin != "drawer"
        ]

    @property
    def offcuts(self) -> int:
        """How many offcuts come in."""
        return sum(len(laid.offcuts) for layout in self.layouts for laid in layout.sheets)


def to_cut(ask: Ask, bench: Bench) -> Cut:
    """What would be cut; with the fault where it can't be."""
    try:
        bench.door.opened()
        return Cut(ask, as_shown(ask, bench))
    except HollowrightError as fault:
        return Cut(ask, fault=fault)


def cut(ask: Ask, bench: Bench) -> Cut:
    """Cut what the page shows; nothing is changed where that can't be."""
    planned = to_cut(ask, bench)
    if planned.fault:
        return planned
    made_for = ", ".join(
        f"{each.copies} × {each.plan.piece.title}" if each.copies > 1 else each.plan.piece.title
        for each in ask.pieces
    )
    try:
        done = bench.door.opened().cut_layouts(
            planned.layouts, made_for, layout_data(planned.layouts)
        )
    except HollowrightError as fault:
        return Cut(ask, planned.layouts, fault=fault)
    return Cut(ask, planned.layouts, done)
