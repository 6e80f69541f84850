"""A plan's true-size sheets: one for each flat blank and each paper template."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Literal

from hollowright.output.blank_drawing import BlankMark, BlankSheet, BlankSize, blank_drawing
from hollowright.output.drawing import Drawing
from hollowright.output.sizes import figure
from hollowright.piece import Part, Scribe, Template
from hollowright.plan.plan import Cut, Plan
from hollowright.quantity import Quantity
from hollowright.quantity.working import number_text
from hollowright.units import format_number

Sizes = Mapping[str, Quantity]
SIDES: Mapping[str, Literal["width", "height", "diameter"]] = {
    "length": "width",
    "width": "height",
    "diameter": "diameter",
}
"""Along which side of the drawing each size of a blank is written."""


def blank_sheets(plan: Plan) -> dict[str, Drawing]:
    """A true-size drawing of each flat blank by part id, and of each paper template by its own.

    Pieces of bar are sawn, not laid out.
    """
    flats = {part.id: blank_sheet(plan, part) for part in plan.parts if part.blank.flat}
    papers = {paper.id: template_sheet(plan, paper) for paper in plan.piece.templates}
    return {id: blank_drawing(sheet) for id, sheet in (flats | papers).items()}


def blank_sheet(plan: Plan, part: Part) -> BlankSheet:
    """What is drawn of one flat blank: cut and net size, where the allowance sits, lines on it."""
    cut, net = plan.cuts[part.id], part.blank
    stock = plan.piece.stock(part.stock)
    pieces = "1 piece" if part.count == 1 else f"{part.count} pieces"
    dx, dy = _inset(part, cut)
    figures, notes = _in_words(cut.sizes, net.sizes)
    return BlankSheet(
        id=part.id,
        title=f"{plan.piece.title}: {part.name}",
        metal=f"{stock.metal_words}, {format_number(stock.thickness.value)} mm, {pieces}",
        net=net.outline.moved(dx, dy) if dx or dy else net.outline,
        cut=cut.outline,
        sizes=(*_written("cut", cut.sizes, "cut "), *_written("net", net.sizes, "net ")),
        marks=_lines(net.marks, dx, dy),
        notes=notes,
        figures=figures,
    )


def template_sheet(plan: Plan, paper: Template) -> BlankSheet:
    """What is drawn of a paper template: its edge to cut, its sizes, its lines."""
    figures, notes = _in_words(paper.sizes, {})
    return BlankSheet(
        id=paper.id,
        title=f"{plan.piece.title}: {paper.label}",
        metal=paper.note,
        net=paper.outline,
        cut=paper.outline,
        sizes=_written("cut", paper.sizes, ""),
        marks=_lines(paper.marks, 0.0, 0.0),
        notes=notes,
        figures=figures,
    )


def _inset(part: Part, cut: Cut) -> tuple[float, float]:
    """How far the finished outline stands inside the one that is cut [mm]."""
    if part.blank.form in ("disc", "plate"):
        return 0.0, 0.0
    net = part.blank.outline
    return (cut.outline.width - net.width) / 2, (cut.outline.height - net.height) / 2


def _written(of: Literal["cut", "net"], sizes: Sizes, label: str) -> tuple[BlankSize, ...]:
    """The sizes that are dimensions of the drawing."""
    return tuple(
        BlankSize(number_text(size), SIDES[name], of, label)
        for name, size in sizes.items()
        if name in SIDES
    )


MOST_FIGURES = 4
"""So many sizes that aren't dimensions are written large; more are a table below."""


def _in_words(cut: Sizes, net: Sizes) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """A plate's other sizes, in words: those to write large, and those for the notes."""
    large, finished = [], []
    for name, size in cut.items():
        if name in SIDES:
            continue
        words = name.replace("_", " ")
        large.append(f"{figure(name, size)} {words}")
        planned = net.get(name)
        if planned is not None and number_text(planned) != number_text(size):
            finished.append(f"Finished {figure(name, planned)} {words}.")
    if len(large) <= MOST_FIGURES:
        return tuple(large), tuple(finished)
    return (), (*(f"{said}." for said in large), *finished)


def _lines(marks: Sequence[Scribe], dx: float, dy: float) -> tuple[BlankMark, ...]:
    return tuple(BlankMark(each.curve.moved(dx, dy), each.text, each.role) for each in marks)
