"""What is to be made, and how many: planned pieces, and the blanks that they want of each metal."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from hollowright.errors import InputError
from hollowright.handbook.metals import Metal
from hollowright.piece import Part, Stock
from hollowright.plan.plan import Plan
from hollowright.quantity import Quantity
from hollowright.shapes.outline import Outline

MOST_COPIES = 500
"""So many of one piece are laid out at once."""


@dataclass(frozen=True)
class Order:
    """One planned piece and how many of it are to be made; key: its short name here."""

    key: str
    plan: Plan
    copies: int


@dataclass(frozen=True)
class Flat:
    """One kind of blank to lay out on sheet, at its cut size.

    id: 'order.part', as spots and pins name it. grain: which way the metal's grain should run in
    the outline's own axes [deg]; None where it doesn't matter.
    """

    id: str
    order: Order
    part: Part
    stock: Stock
    outline: Outline
    sizes: Mapping[str, Quantity]
    count: int

    @property
    def name(self) -> str:
        """What it is called where only its own piece is made: 'ring'."""
        return self.part.name

    @property
    def grain(self) -> float | None:
        """Which way the grain should run [deg]; None where it doesn't matter."""
        return self.part.blank.grain


@dataclass(frozen=True)
class Batch:
    """The flats that come out of one metal, thickness [mm] and temper."""

    metal: Metal
    thickness: float
    temper: str
    flats: tuple[Flat, ...]

    @property
    def id(self) -> str:
        """A name for it: 'C26000-0.71' or 'C26000-0.71-hard'."""
        ending = f"-{self.temper}" if self.temper else ""
        return f"{self.metal.id}-{round(self.thickness, 3):g}{ending}"

    def flat(self, id: str) -> Flat:
        """The flat with this id; KeyError if there is none."""
        return {each.id: each for each in self.flats}[id]


def orders(plans: Sequence[Plan], copies: int = 1) -> tuple[Order, ...]:
    """Planned pieces as orders, each made so many times, called by their titles.

    InputError for a number of copies that isn't 1 to MOST_COPIES.
    """
    if not 1 <= copies <= MOST_COPIES:
        raise InputError("copies", f"{copies} can't be made.", f"Write 1 to {MOST_COPIES}.")
    found: dict[str, Order] = {}
    for plan in plans:
        called = re.sub(r"[^a-z0-9]+", "-", plan.piece.title.lower()).strip("-") or "piece"
        key, number = called, 2
        while key in found:
            key, number = f"{called}-{number}", number + 1
        found[key] = Order(key, plan, copies)
    return tuple(found.values())


def batches(
    wanted: Sequence[Order], tolerance: float, without: Sequence[str] = ()
) -> tuple[Batch, ...]:
    """Every flat blank of the orders, by metal, thickness and temper.

    tolerance: thicknesses that differ by no more [mm] are one sheet. without: ids of blanks left
    out, since they are sawn from strip.
    """
    found: list[Batch] = []
    all_flats = (flat for order in wanted for flat in _flats(order))
    for flat in (flat for flat in all_flats if flat.id not in without):
        stock = flat.stock
        thickness = stock.thickness.value
        for place, batch in enumerate(found):
            same = (batch.metal.id, batch.temper) == (stock.metal.id, stock.temper)
            if same and abs(batch.thickness - thickness) <= tolerance + 1e-9:
                flats = (*batch.flats, flat)
                found[place] = Batch(batch.metal, batch.thickness, batch.temper, flats)
                break
        else:
            found.append(Batch(stock.metal, thickness, stock.temper, (flat,)))
    return tuple(found)


def _flats(order: Order) -> tuple[Flat, ...]:
    plan = order.plan
    return tuple(
        Flat(
            f"{order.key}.{part.id}",
            order,
            part,
            plan.piece.stock(part.stock),
            plan.cuts[part.id].outline,
            plan.cuts[part.id].sizes,
            part.count * order.copies,
        )
        for part in plan.parts
        if part.blank.flat
    )
