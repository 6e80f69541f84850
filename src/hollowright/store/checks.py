"""What an item must be to lie in the drawer: every fault named by its field, in words."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from hollowright.errors import HollowrightError, InputError, Problems, UnknownName, shown
from hollowright.handbook.metals import metal
from hollowright.shapes.outline_json import MOST_CURVES, curves_of
from hollowright.store.items import FORMS, MEASURES, SECTIONS, NewItem
from hollowright.units import LONGEST_LENGTH

LONGEST = {"temper": 40, "place": 60, "note": 500}
"""How long a text of an item may be [characters]."""

MOST_READINGS = 50
"""So many readings of one size are kept."""

MOST_COST = 1e9
"""No item costs more, in any money."""


def plain_temper(temper: str) -> str:
    """A temper as it is compared: 'Half hard' is 'half-hard'.

    >>> plain_temper(" Half  hard")
    'half-hard'
    """
    return "-".join(temper.lower().replace("-", " ").split())


def checked(item: NewItem) -> NewItem:
    """The item in one spelling, with what its outline says; Problems when it can't be one."""
    faults: list[HollowrightError] = []
    if item.form not in FORMS:
        raise UnknownName("form", item.form, FORMS)
    spelt: dict[str, Any] = {"temper": plain_temper(item.temper)}
    try:
        spelt["metal"] = metal(item.metal).id
    except HollowrightError as fault:
        faults.append(fault)
    for name, most in LONGEST.items():
        spelt[name] = _text(spelt.get(name, getattr(item, name)), name, most, faults)
    if item.outline is not None and item.flat:
        spelt |= {"length": item.outline.width, "width": item.outline.height}
    made: NewItem = replace(item, **spelt)
    faults += [*_sizes(made), *_others(made)]
    if faults:
        raise Problems(faults)
    return made


def _text(given: str, name: str, most: int, faults: list[HollowrightError]) -> str:
    text = " ".join(given.split())
    if len(text) > most:
        faults.append(InputError(name, f"{shown(text)} is too long.", f"At most {most} letters."))
    elif not text.isprintable():
        faults.append(
            InputError(name, f"{shown(text)} has signs that can't be kept.", "Leave out.")
        )
    return text


def _sizes(item: NewItem) -> list[HollowrightError]:
    """Faults of the sizes: one that is missing, out of range, or another form's."""
    wanted = {*SECTIONS[item.form], "length"} | ({"width"} if item.flat else set())
    faults: list[HollowrightError] = []
    for name in MEASURES:
        size = getattr(item, name)
        if name in wanted and size is None:
            faults.append(InputError(name, "it is missing.", f"A {item.form} has one."))
        elif name not in wanted and size is not None:
            faults.append(InputError(name, f"a {item.form} has none.", "Leave it out."))
        elif size is not None and not (math.isfinite(size) and 0 < size <= LONGEST_LENGTH):
            faults.append(
                InputError(
                    name, f"{size:g} mm can't be.", f"More than 0, at most {LONGEST_LENGTH:g}."
                )
            )
    if not faults and item.form == "tube" and 2 * (item.wall or 0) >= (item.outside_diameter or 0):
        faults.append(
            InputError("wall", "it leaves no bore.", "It is less than half the outside diameter.")
        )
    if item.outline is not None and not item.flat:
        faults.append(InputError("outline", f"a {item.form} has none.", "Leave it out."))
    if item.outline is not None and curves_of(item.outline) > MOST_CURVES:
        faults.append(InputError("outline", "it has too many curves.", f"At most {MOST_CURVES}."))
    return faults


def _others(item: NewItem) -> list[HollowrightError]:
    faults: list[HollowrightError] = []
    if item.square_ends not in range(0 if item.flat else 3) and item.square_ends != 0:
        faults.append(InputError("square_ends", f"{item.square_ends} can't be.", _ends(item)))
    grain = item.grain
    if grain is not None and not (item.flat and math.isfinite(grain) and abs(grain) <= 360):
        faults.append(
            InputError("grain", f"{grain:g} can't be.", "A sheet's, -360 to 360 degrees.")
        )
    cost = item.cost
    if cost is not None and not (math.isfinite(cost) and 0 <= cost <= MOST_COST):
        faults.append(InputError("cost", f"{cost:g} can't be.", f"0 to {MOST_COST:g}."))
    for name, texts in item.readings.items():
        if name not in MEASURES:
            faults.append(UnknownName("readings", name, MEASURES))
        elif len(texts) > MOST_READINGS or any(
            len(text) > MOST_READINGS or not text.isprintable() for text in texts
        ):
            faults.append(InputError(name, "its readings can't be kept.", "Write 0.71; 0.70, say."))
    return faults


def _ends(item: NewItem) -> str:
    return "A sheet has none." if item.flat else "A bar has 0, 1 or 2."
