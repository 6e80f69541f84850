"""How a blank's sizes are said, in one place for text, card and page."""

from __future__ import annotations

from collections.abc import Mapping

from hollowright.plan.plan import Plan
from hollowright.quantity import Quantity
from hollowright.quantity.working import number_text
from hollowright.units import format_inch

MARKED = {
    "tube": ("length",),
    "rod": ("length",),
    "disc": ("diameter",),
    "strip": ("length", "width"),
}
"""Which sizes of a blank are marked on the metal, by its form, in the order they are said."""

WORDS = {"length": "long", "width": "wide", "diameter": "across", "height": "high"}
ACROSS = ("length", "width", "diameter", "height")
"""Sizes that are said one times the other; all others are said by their names."""


def to_mark(form: str, sizes: Mapping[str, Quantity]) -> dict[str, Quantity]:
    """The sizes to mark for a blank of this form; all that it has where the form is its own."""
    return {name: sizes[name] for name in MARKED.get(form, tuple(sizes))}


def word_for(name: str) -> str:
    """What a size is, after its figure: '15.09 long', '36.93 across'."""
    return WORDS.get(name, name.replace("_", " "))


def figure(name: str, quantity: Quantity) -> str:
    """A size's figure, with the sign of a diameter, a radius or an angle."""
    sign = "⌀" if name == "diameter" else "R" if name.endswith("radius") else ""
    return f"{sign}{number_text(quantity)}{'°' if quantity.unit == 'deg' else ''}"


def size_text(form: str, sizes: Mapping[str, Quantity], times: str = "×") -> str:
    """The sizes to mark on one line: '102.43 × 17.59', '⌀36.93', '15.09'."""
    return whole_size(to_mark(form, sizes), times)


def whole_size(sizes: Mapping[str, Quantity], times: str = "×") -> str:
    """All that a blank measures on one line: '⌀34.93 × 15.09' for a piece of tube.

    Where it has a length, a width or a diameter these alone are said: the drawing has the rest.
    """
    across = {name: size for name, size in sizes.items() if name in ACROSS}
    said = across or sizes
    between = f" {times} " if across else ", "
    return between.join(figure(name, size) for name, size in said.items())


def beside(plan: Plan, quantity: Quantity) -> str:
    """The size in inches too, where the readings were."""
    if not plan.piece.inches or quantity.unit != "mm":
        return ""
    return f", {format_inch(quantity.value)}"


def inch_text(plan: Plan, form: str, sizes: Mapping[str, Quantity]) -> str:
    """The lengths to mark in inches on one line, where the readings were; '' otherwise."""
    if not plan.piece.inches:
        return ""
    lengths = [size for size in to_mark(form, sizes).values() if size.unit == "mm"]
    return " × ".join(format_inch(size.value) for size in lengths)
