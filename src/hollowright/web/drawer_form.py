"""The drawer's form: its boxes, what was typed in them as an item tells it, and back."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from hollowright.errors import InputError
from hollowright.store.items import FLAT_FORMS, FORMS, MEASURES, NewItem
from hollowright.units import exact_decimal

BARS = ("tube", "rod")


@dataclass(frozen=True)
class Box:
    """One box of the form: the field it fills, what it is called, an example, whose it is.

    new: it stands only where metal is put in.
    """

    name: str
    label: str
    example: str
    forms: tuple[str, ...] = FORMS
    help: str = ""
    new: bool = False

    @property
    def classes(self) -> str:
        """The forms that have it, as the style sheet wants them."""
        return " ".join(f"of-{form}" for form in self.forms)


BOXES = (
    Box("thickness", "thickness", "0.71", FLAT_FORMS, "Several readings: 0.71; 0.70"),
    Box("outside_diameter", "outside diameter", "38.05", ("tube",), "Several readings: 38.0; 38.1"),
    Box("wall", "wall", "1.01", ("tube",)),
    Box("diameter", "diameter", "3", ("rod",)),
    Box("length", "length", "300"),
    Box("width", "width", "150", FLAT_FORMS),
    Box(
        "corners",
        "corners, where it is no rectangle",
        "0,0 160,0 160,50 60,90",
        FLAT_FORMS,
        "In order round it, from one corner, across and up. Its length and width follow.",
        new=True,
    ),
    Box("temper", "temper", "annealed, half-hard, hard"),
    Box("grain", "rolled along", "length, width, or degrees", FLAT_FORMS),
    Box("square_ends", "square ends", "0, 1 or 2", BARS, "Ends still square as bought."),
    Box("place", "place", "tin 3"),
    Box("cost", "cost", "12.50"),
    Box("note", "note", "scratched on one side"),
)
"""The boxes besides the form and the metal."""

KEPT = ("form", "metal", *(box.name for box in BOXES))
"""Every name of the form that is shown again after a fault."""

LONGEST = 2000
"""No box needs more than this [characters]."""


def typed(sent: Mapping[str, Any]) -> dict[str, str]:
    """What stands in each box, by its field."""
    return {name: str(sent.get(name, ""))[: LONGEST + 1].strip() for name in KEPT}


def told(values: Mapping[str, str], drawing: bytes | None = None, unit: str = "") -> dict[str, Any]:
    """What the boxes tell of a new item: only those that its form has, without the empty ones.

    drawing: a sheet's shape as an SVG or DXF file; InputError when it can't be read.
    """
    form = values["form"]
    found: dict[str, Any] = {"form": form, "metal": values["metal"]}
    found |= {box.name: values[box.name] for box in BOXES if form in box.forms}
    if drawing and form in FLAT_FORMS:
        found["outline"] = drawn(drawing, unit)
    if found.get("outline") or found.get("corners"):
        found = {name: each for name, each in found.items() if name not in ("length", "width")}
    return {name: each for name, each in found.items() if each}


def drawn(raw: bytes, unit: str = "") -> dict[str, Any]:
    """The outline that a drawing file shows, as data."""
    from hollowright.shapes.files import read_outline
    from hollowright.shapes.outline_json import outline_data

    kind: Any = "svg" if b"<svg" in raw[:20_000].lower() else "dxf"
    try:
        return outline_data(read_outline(raw, kind, unit.strip() or None).outline)
    except ValueError as fault:
        raise InputError(
            "outline", f"the drawing can't be read: {fault}.", "One closed line."
        ) from fault


def values_of(item: NewItem) -> dict[str, str]:
    """An item as the boxes show it: readings as they were typed, sizes with every digit."""
    found = {"form": item.form, "metal": item.metal}
    for box in (each for each in BOXES if not each.new):
        value = getattr(item, box.name)
        if box.name in item.readings:
            found[box.name] = "; ".join(item.readings[box.name])
        elif value is None or value == "":
            found[box.name] = ""
        elif box.name in MEASURES:
            found[box.name] = exact_decimal(value)
        else:
            found[box.name] = f"{value:g}" if isinstance(value, float) else str(value)
    return found


def changed(item: NewItem, values: Mapping[str, str]) -> dict[str, str]:
    """The boxes that say something else than the item does."""
    before = values_of(item)
    names = ["metal", *(box.name for box in shown_boxes(item))]
    return {name: values[name] for name in names if values[name] != before[name]}


def shown_boxes(item: NewItem) -> list[Box]:
    """The boxes in which an item is put right; a shape of its own gives it its size."""
    shaped = ("length", "width") if item.outline else ()
    there = [box for box in BOXES if item.form in box.forms and not box.new]
    return [box for box in there if box.name not in shaped]


def first_values() -> dict[str, str]:
    """The form before anything is typed: no metal, so that none is taken unawares."""
    return dict.fromkeys(KEPT, "") | {"form": FORMS[0]}
