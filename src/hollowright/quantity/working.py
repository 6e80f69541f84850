"""The working of a quantity: 'bore = outside diameter - 2 x wall = 38.05 - 2 x 1.01 = 36.03 mm'."""

from __future__ import annotations

from hollowright.quantity.core import Quantity
from hollowright.units import format_number

_DECIMALS = {
    "mm": 2,
    "g": 1,
    "ml": 1,
    "deg": 2,
    "kPa": 1,
    "N": 1,
    "MPa": 0,
    "GPa": 0,
    "mm2": 1,
    "g/cm3": 2,
    "%": 2,
}


LIGHT = 10.0
"""Below this [g] a second decimal is shown: small parts must add up to the whole."""

THIN = 1.5
"""Below this [mm] a third decimal is shown where there is one, so that workings can be followed."""


def number_text(quantity: Quantity, fine: bool = False, least: int = 0) -> str:
    """A quantity's number as the bench reads it: two decimals of a millimetre, three when thin.

    fine: three as well where the third is the last there is, so that a working adds up. least:
    decimals that a length has at least.
    """
    value = quantity.value
    if quantity.kind == "constant":
        return quantity.label
    decimals = _DECIMALS.get(quantity.unit, 3)
    if not quantity.unit and value == round(value) and not quantity.uncertainty:
        decimals = 0  # a count
    if quantity.unit == "g" and abs(value) < LIGHT:
        decimals = 2
    if quantity.unit == "mm" and abs(value) < THIN and abs(value - round(value, 2)) > 5e-5:
        decimals = 3
    if fine and abs(value - round(value, 3)) < 1e-9 < abs(value - round(value, 2)):
        decimals = max(decimals, 3)
    return format_number(value, max(decimals, least) if quantity.unit == "mm" else decimals)


def value_text(quantity: Quantity, fine: bool = False) -> str:
    """Number and unit: '38.05 mm', '34.26°'."""
    if quantity.unit == "deg":
        return f"{number_text(quantity, fine)}°"
    return f"{number_text(quantity, fine)} {quantity.unit}".strip()


def working(quantity: Quantity) -> str:
    """The whole line: name, formula in words, formula in numbers, result with its unit."""
    result = value_text(quantity, fine=True)
    if quantity.told:
        return f"{quantity.told} = {result}"
    if quantity.formula is None:
        how = {"asked": "as asked", "shop": "this shop's", "handbook": "from the handbook"}
        return f"{quantity.label} = {result} ({how.get(quantity.kind, 'as read')})"
    words = quantity.formula.wording
    labels = words.put([_label(q) for q in quantity.inputs])
    shown = number_text(quantity, fine=True)
    least = len(shown.partition(".")[2]) if abs(quantity.value) < THIN else 0
    numbers = words.put([number_text(q, fine=True, least=least) for q in quantity.inputs])
    if numbers in (labels, shown):
        return f"{quantity.label} = {labels} = {result}"
    return f"{quantity.label} = {labels} = {numbers} = {result}"


def formula_text(quantity: Quantity) -> str:
    """The formula in words only; how the number was read where there is no formula."""
    if quantity.told:
        return quantity.told.partition(" = ")[2]
    if quantity.formula is None:
        return {"asked": "as asked", "shop": "this shop's", "handbook": "handbook"}.get(
            quantity.kind, "as read"
        )
    return quantity.formula.wording.put([_label(q) for q in quantity.inputs])


def _label(quantity: Quantity) -> str:
    return quantity.label or f"({formula_text(quantity)})"
