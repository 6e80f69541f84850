"""Sheet and bar as every design asks for them: their fields, their Stock, their metal's density."""

from __future__ import annotations

from hollowright.designs.brief import Brief
from hollowright.designs.fields import Field
from hollowright.handbook.metals import Metal
from hollowright.piece import TEMPERS, Stock
from hollowright.quantity import Quantity, exact


def temper_field(id: str, label: str) -> Field:
    """The field `stock.ID.temper`, called ID_temper in the design."""
    return Field(
        f"stock.{id}.temper", f"{id}_temper", "choice", f"{label}'s temper",
        "as sold, if you know", "half-hard", choices=TEMPERS,
    )  # fmt: skip


def temper_of(b: Brief, id: str) -> str:
    """A stock's temper; '' when not said."""
    return b.word(f"{id}_temper") if b.has(f"{id}_temper") else ""


def lying_fields(id: str, label: str) -> tuple[Field, ...]:
    """Fields of the sheet that lies there: `stock.ID.length`, `.width`, `.temper`."""
    return (
        Field(
            f"stock.{id}.length", f"{id}_length", "length", f"{label}'s length",
            "of the piece in hand", "300 mm", low=5, high=4000,
        ),
        Field(
            f"stock.{id}.width", f"{id}_width", "length", f"{label}'s width",
            "of the piece in hand", "150 mm", low=5, high=4000,
        ),
        temper_field(id, label),
    )  # fmt: skip


def sheet_fields(id: str, label: str, thickness: str = "0.81 mm") -> tuple[Field, ...]:
    """Fields of a sheet: `stock.ID.metal`, `.thickness`, and what lies there.

    In the design they are called ID_metal, ID_thickness, ID_length, ID_width and ID_temper.
    """
    return (
        Field(
            f"stock.{id}.metal", f"{id}_metal", "metal", f"{label}'s metal", "", "C26000",
            required=True,
        ),
        Field(
            f"stock.{id}.thickness", f"{id}_thickness", "thickness", f"{label}'s thickness",
            "a gauge, or read it: better", thickness, required=True, low=0.1, high=12,
        ),
        *lying_fields(id, label),
    )  # fmt: skip


def sheet_stock(b: Brief, id: str, label: str, called: str = "") -> Stock:
    """The sheet of `sheet_fields` as the piece's stock.

    called: how the design calls its metal and thickness, where that isn't by the sheet's id.
    """
    name = called or id
    sizes = {"thickness": b.quantity(f"{name}_thickness")}
    return Stock(
        id, label, "sheet", b.metal(f"{name}_metal"), sizes,
        length=b.quantity(f"{id}_length") if b.has(f"{id}_length") else None,
        width=b.quantity(f"{id}_width") if b.has(f"{id}_width") else None,
        temper=temper_of(b, id),
    )  # fmt: skip


def density(metal: Metal) -> Quantity:
    """A metal's density from the handbook [g/cm3]."""
    found = metal.density
    name = f"density_{metal.id}"
    label = f"density of {metal.id}"
    return exact(name, label, "g/cm3", found.value, "handbook", found.source)


def rod_fields(id: str, label: str, diameter: str = "1.5 mm") -> tuple[Field, ...]:
    """Fields of a rod or wire: `stock.ID.metal`, `.diameter`; `.length`, `.temper` as it lies."""
    return (
        Field(
            f"stock.{id}.metal", f"{id}_metal", "metal", f"{label}'s metal", "", "C26000",
            required=True,
        ),
        Field(
            f"stock.{id}.diameter", f"{id}_diameter", "readings", f"{label}'s diameter",
            "read it at two places", diameter, required=True, low=0.2, high=60, around=True,
        ),
        Field(
            f"stock.{id}.length", f"{id}_length", "length", f"{label}'s length",
            "of the piece in hand", "200 mm", low=5, high=6000,
        ),
        temper_field(id, label),
    )  # fmt: skip


def tube_fields(id: str, label: str, outside: str = "20.00 mm", wall: str = "1.00 mm") -> tuple[
    Field, ...
]:  # fmt: skip
    """Fields of a tube: `stock.ID.metal`, `.outside_diameter`, `.wall`, `.length`, `.temper`."""
    return (
        Field(
            f"stock.{id}.metal", f"{id}_metal", "metal", f"{label}'s metal", "", "C26000",
            required=True,
        ),
        Field(
            f"stock.{id}.outside_diameter", f"{id}_outside_diameter", "readings",
            f"{label}'s outside diameter", "round it: two square to each other, or three",
            outside, required=True, low=0.8, high=400, around=True,
        ),
        Field(
            f"stock.{id}.wall", f"{id}_wall", "thickness", f"{label}'s wall",
            "with a ball or knife-edge jaw, or as sold: 18 bwg", wall, required=True, low=0.1,
            high=20,
        ),
        Field(
            f"stock.{id}.length", f"{id}_length", "length", f"{label}'s length",
            "of the piece in hand", "300 mm", low=5, high=6000,
        ),
        temper_field(id, label),
    )  # fmt: skip


def bar_stock(b: Brief, id: str, label: str, form: str, cuts: int = 1) -> Stock:
    """The tube ('tube') or rod ('rod') of `tube_fields` or `rod_fields` as the piece's stock."""
    names = ("outside_diameter", "wall") if form == "tube" else ("diameter",)
    sizes = {name: b.quantity(f"{id}_{name}") for name in names}
    length = b.quantity(f"{id}_length") if b.has(f"{id}_length") else None
    return Stock(
        id, label, form, b.metal(f"{id}_metal"), sizes, length=length, cuts=cuts,
        temper=temper_of(b, id),
    )  # fmt: skip
