"""Cutting what is laid out: asked for once more, then metal goes out and offcuts come in."""

from __future__ import annotations

from dataclasses import dataclass

from hollowright.errors import HollowrightError
from hollowright.job.layout_json import layout_data
from hollowright.output.layout_words import sheet_name
from hollowright.plan.laid import LaidSheet, Layout
from hollowright.web.booked import shown_mark
from hollowright.web.cutting_record import sheets_record
from hollowright.web.laying_ask import Ask, written_spots
from hollowright.web.laying_work import Bench, as_shown


@dataclass(frozen=True)
class Cut:
    """What is to be cut: the layouts, a ticket to book it once, or why it can't be.

    before: the cutting that was booked for just this, 0 when none was.
    """

    ask: Ask
    layouts: tuple[Layout, ...] = ()
    ticket: str = ""
    before: int = 0
    fault: HollowrightError | None = None

    @property
    def _sheets(self) -> list[LaidSheet]:
        return [laid for layout in self.layouts for laid in layout.sheets]

    @property
    def out(self) -> list[str]:
        """The drawer's sheets that go out, as they are called."""
        return [sheet_name(laid) for laid in self._sheets if laid.sheet.origin == "drawer"]

    @property
    def others(self) -> list[str]:
        """Sheets from elsewhere whose offcuts come in."""
        return [sheet_name(laid) for laid in self._sheets if laid.sheet.origin != "drawer"]

    @property
    def offcuts(self) -> int:
        """How many offcuts come in."""
        return sum(len(laid.offcuts) for laid in self._sheets)


def to_cut(ask: Ask, bench: Bench) -> Cut:
    """What would be cut; with the fault where it can't be."""
    try:
        bench.door.opened()
        layouts = as_shown(ask, bench)
    except HollowrightError as fault:
        return Cut(ask, fault=fault)
    return Cut(ask, layouts, bench.booked.ticket(), bench.booked_before(_mark(ask)))


def _mark(ask: Ask) -> str:
    pieces = [(each.text, each.copies) for each in ask.pieces]
    return shown_mark("layout", pieces, sorted(written_spots([spot]) for spot in ask.spots))


def cut(ask: Ask, bench: Bench, ticket: str) -> int | Cut:
    """The number of the cutting of what the page shows, booked once; why not where it can't be."""

    def book() -> int:
        layouts = as_shown(ask, bench)
        record = layout_data(layouts) | sheets_record(layouts)
        made_for = ", ".join(
            f"{each.copies} × {each.plan.piece.title}" if each.copies > 1 else
            each.plan.piece.title
            for each in ask.pieces
        )  # fmt: skip
        number: int = bench.door.opened().cut_layouts(layouts, made_for, record).number
        return number

    try:
        return bench.booked.once(ticket, _mark(ask), book)
    except HollowrightError as fault:
        return Cut(ask, fault=fault)
