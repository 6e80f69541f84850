"""An item as a person tells it (form, command, line of a file) -> NewItem, faults by field."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Callable, Mapping, Sequence
from datetime import UTC, datetime
from functools import partial
from typing import Any

from hollowright.errors import HollowrightError, InputError, Problems, UnknownName, shown
from hollowright.handbook.gauges import GAUGES
from hollowright.handbook.metals import metal
from hollowright.shapes.outline import Outline, polygon
from hollowright.shapes.outline_json import outline_data, read_outline_data
from hollowright.store.checks import MOST_COST, checked
from hollowright.store.items import FORM_WORDS, MEASURES, MOST_NUMBER, WIRE, NewItem
from hollowright.units import Length, read_angle, read_choice, read_length, read_points

GAUGED = ("thickness", "wall", "diameter")
"""Sizes that are sold by gauge."""

EXAMPLES = {
    "thickness": "0.71 mm",
    "outside_diameter": "38.05 mm",
    "wall": "1.01 mm",
    "diameter": "3 mm",
    "width": "150 mm",
    "length": "300 mm",
}
GRAINS = {"length": 0.0, "width": 90.0}
"""The grain in words: along the length (x), along the width (y) [deg]."""

GONE_HOW = ("cut", "taken", "undone")
MORE = ("number", "added", "gone", "gone_how", "gone_why")
"""What a file tells of an item besides what a person does."""

_REAL = re.compile(r"[+-]?[0-9]{1,20}(?:\.[0-9]{1,25})?(?:[eE][+-]?[0-9]{1,3})?")


def read_item(told: Mapping[str, Any]) -> NewItem:
    """A new item from texts (or numbers, lists of readings) by field; Problems names the faults.

    Fields are NewItem's, and `size`, length by width: '300 x 150', '12 in x 6 in'. Empty ones are
    left out. A size may be several readings: '0.71; 0.70'; their mean is taken, they are kept.
    `corners` is an outline by its corners.
    """
    return _item(_fields(told, _READ))


def read_line(told: Mapping[str, Any]) -> tuple[NewItem, dict[str, Any]]:
    """A new item and what else a file tells of it: number, added, gone, gone_how, gone_why."""
    found = _fields(told, _READ | _READ_MORE)
    more = {name: found.pop(name) for name in MORE if name in found}
    if ("gone" in more) != ("gone_how" in more):
        raise InputError("gone", "it needs when and how.", "Fill gone and gone_how, or neither.")
    return _item(found), more


def read_changes(old: NewItem, told: Mapping[str, Any]) -> dict[str, Any]:
    """What is to be changed of an item; an empty text clears a field."""
    empty = [name for name in told if told[name] in ("", None) and name != "corners"]
    cleared = {name: getattr(_EMPTY, name) for name in empty}
    for name in cleared:
        if name not in _READ or name in ("form", "metal"):
            raise InputError(name, "it can't be empty.", "Leave it as it is.")
    found = _fields(told, _READ)
    kept = {name: texts for name, texts in old.readings.items() if name not in {*found, *cleared}}
    readings = kept | found.pop("readings", {})
    if readings != dict(old.readings):
        found["readings"] = readings
    made = cleared | found
    sized = {"length", "width"} & set(made)
    if sized and made.get("outline", old.outline) is not None:
        raise InputError(
            min(sized), "its size follows from its outline.", "Change that, or clear it as well."
        )
    return made


_EMPTY = NewItem(form="sheet", metal="")


def _item(found: dict[str, Any]) -> NewItem:
    for name in ("form", "metal"):
        if name not in found:
            raise InputError(name, "it is missing.", "Write sheet, say." if name == "form" else
                             "Write brass, say.")  # fmt: skip
    return checked(NewItem(**found))


_Read = Callable[[Any, str], Any]


def _fields(told: Mapping[str, Any], readers: Mapping[str, _Read]) -> dict[str, Any]:
    """Every field that is told, read; Problems gathers what can't be."""
    faults: list[HollowrightError] = []
    found: dict[str, Any] = {}
    readings: dict[str, tuple[str, ...]] = {}
    for name, given in told.items():
        if name not in readers:
            faults.append(UnknownName("field", name, tuple(readers)))
        elif given is not None and given not in ("", []):
            try:
                found[name] = readers[name](given, name)
            except HollowrightError as fault:
                faults.append(fault)
    faults += [*_cornered(found), *_twice_told(found)]
    if faults:
        raise Problems(faults)
    for name in (name for name in MEASURES if name in found):
        found[name], texts = found[name]
        if texts:
            readings[name] = texts
    if "size" in found:
        (found["length"], _), (found["width"], _) = found.pop("size")
    if readings:
        found.setdefault("readings", readings)
    return found


def _cornered(found: dict[str, Any]) -> list[HollowrightError]:
    """Corners that were told become the outline."""
    if "corners" not in found:
        return []
    both = "outline" in found
    found["outline"] = found.pop("corners")
    said = "corners and outline are both told."
    return [InputError("corners", said, "Leave one out.")] if both else []


SAME = 0.01
"""An outline's length told besides it may differ by so little [mm]."""


def _twice_told(found: Mapping[str, Any]) -> list[HollowrightError]:
    """Faults of what says the same thing in two ways: a size and a length, an outline and both."""
    faults: list[HollowrightError] = []
    outline = found.get("outline")
    for name in ("length", "width"):
        if "size" in found and name in found:
            both = f"size and {name} are both told."
            faults.append(InputError(name, both, f"Leave one out: the size has the {name}."))
        elif outline is not None and name in found:
            own = outline.width if name == "length" else outline.height
            if abs(found[name][0] - own) > SAME:
                differ = f"{found[name][0]:g} mm isn't the outline's, {own:g} mm."
                faults.append(InputError(name, differ, f"Leave {name} or outline out."))
    if outline is not None and "size" in found:
        both = "size and outline are both told."
        faults.append(InputError("size", both, "Leave one out: the size follows from the outline."))
    return faults


def _measure(given: Any, name: str) -> tuple[float, tuple[str, ...]]:
    """A size's mean [mm] and its readings as typed; a bare number is no reading."""
    if isinstance(given, str):
        listed: list[Any] = [text.strip() for text in given.split(";") if text.strip()]
    else:
        listed = list(given) if isinstance(given, (list, tuple)) else [given]
    if not listed:
        raise InputError(name, "it is empty.", f"Write {EXAMPLES[name]}.")
    gauges = GAUGES if name in GAUGED else None
    lengths = [
        read_length(each, name, EXAMPLES[name], gauges, may_be_zero=False) for each in listed
    ]
    _gauge_is_plain(lengths, name)
    mean = math.fsum(each.mm for each in lengths) / len(lengths)
    return mean, tuple(each for each in listed if isinstance(each, str))


def _gauge_is_plain(lengths: Sequence[Length], name: str) -> None:
    """Refuse a gauge among readings, and a tube's without its table: it may go by two."""
    if len(lengths) > 1 and any(each.gauge for each in lengths):
        raise InputError(name, "a gauge and readings are mixed.", "Give one gauge, or readings.")
    for each in lengths:
        if name == "wall" and each.gauge == "bs" and each.text.endswith(("ga", "gauge")):
            number = each.text.split()[0].removesuffix("gauge").removesuffix("ga")
            raise InputError(
                name, f"{shown(each.text)} of a tube may be sheet's gauge or Birmingham's.",
                f"Write {number} b&s or {number} bwg, by what the seller says, or read the wall.",
            )  # fmt: skip


def _size(given: Any, name: str) -> tuple[tuple[float, tuple[str, ...]], ...]:
    parts = re.split(r"\s*[x×]\s*", str(given).strip().lower())
    if len(parts) != 2:
        raise InputError(name, f"{shown(given)} isn't a size.", "Write 300 x 150, say.")
    return _measure(parts[0], "length"), _measure(parts[1], "width")


def _outline(given: Any, name: str) -> Outline:
    from hollowright.shapes.polygons import crossing

    try:
        data = json.loads(given) if isinstance(given, str) else given
        outline = read_outline_data(data)
        at = crossing(outline)
    except (ValueError, RecursionError, ArithmeticError) as fault:
        why = " ".join(str(fault).split())[:80]
        raise InputError(name, f"it can't be read ({why}).", "Leave a rectangle's empty.") from None
    if at is not None or not outline.area > 0:
        raise InputError(name, "it crosses itself.", "An outline runs round once.")
    return outline


_AT = r"([+-]?[0-9][0-9./]*(?:\s*(?:mm|cm|m|inch|in|[\"″”]))?)"
_CORNER = re.compile(rf"[\s;]*{_AT}\s*,\s*{_AT}(?=[\s;]|$)", re.IGNORECASE)
CORNERS = "0,0 160,0 160,50 60,50 60,90 0,90"
"""An example of an outline by its corners."""


def _corners(given: Any, name: str) -> Outline:
    """An outline by its corners in order [mm]: '0,0 160,0 ...', or as pairs of lengths."""
    if isinstance(given, str) and "," in given:
        rest = _CORNER.sub("", given).strip(" ;")
        if rest:
            raise InputError(name, f"{shown(rest)} isn't a corner.", f"Write {CORNERS}, say.")
        given = [list(pair) for pair in _CORNER.findall(given)]
    points = read_points(given, name, CORNERS)
    if len(points) > 1 and points[0] == points[-1]:
        points = points[:-1]
    if len(points) < 3:
        raise InputError(name, "an outline has three corners at least.", f"Write {CORNERS}, say.")
    if not all(a != b for a, b in zip(points, (*points[1:], points[0]), strict=True)):
        raise InputError(name, "two corners lie in one place.", "Leave one out.")
    made = polygon(points)
    low_x, low_y, _, _ = made.bounds
    made = made if made.area > 0 else polygon(points[::-1])
    return _outline(outline_data(made.moved(-low_x, -low_y)), name)


def _grain(given: Any, name: str) -> float:
    if isinstance(given, str) and given.strip().lower() in GRAINS:
        return GRAINS[given.strip().lower()]
    if isinstance(given, str) and not _REAL.fullmatch(given.strip()):
        return read_angle(given, name, "length, width, or 30", -360, 360)
    return _real(given, name, "length, width, or 30", -360, 360)


def _real(given: Any, name: str, example: str, low: float, high: float) -> float:
    """A number with every digit it has."""
    text = str(given).strip() if isinstance(given, (str, int, float)) else ""
    if isinstance(given, bool) or not _REAL.fullmatch(text):
        raise InputError(name, f"{shown(given)} isn't a number.", f"Write {example}.")
    if not low <= float(text) <= high:
        raise InputError(
            name, f"{shown(given)} isn't between {low:g} and {high:g}.", f"Write {example}."
        )
    return float(text)


def _whole(given: Any, name: str, low: int, high: int) -> int:
    number = _real(given, name, str(high if high < 10 else 17), low, high)
    if number != int(number):
        raise InputError(name, f"{shown(given)} isn't a whole number.", "")
    return int(number)


def _text(given: Any, name: str) -> str:
    if isinstance(given, bool) or not isinstance(given, (str, int, float)):
        raise InputError(name, f"{shown(given)} isn't text.", "Write a few words.")
    return str(given).strip()


def _readings(given: Any, name: str) -> dict[str, tuple[str, ...]]:
    try:
        data = json.loads(given) if isinstance(given, str) else given
        return {
            str(size): tuple(str(text) for text in texts)
            for size, texts in data.items()
            if not isinstance(texts, str)
        }
    except (ValueError, TypeError, AttributeError, RecursionError):
        example = '{"thickness": ["0.71", "0.70"]}'
        raise InputError(name, f"{shown(given)} isn't read.", f"Write {example}.") from None


def _time(given: Any, name: str) -> datetime:
    try:
        time = datetime.fromisoformat(str(given).strip())
        return (time if time.tzinfo else time.replace(tzinfo=UTC)).astimezone(UTC)
    except (ValueError, OverflowError):
        raise InputError(name, f"{shown(given)} isn't a date.", "Write 2026-03-29.") from None


def _choice(given: Any, name: str, known: tuple[str, ...]) -> str:
    return read_choice(given, name, known)


def _form(given: Any, name: str) -> str:
    """A form; wire is rod."""
    told = _choice(given, name, FORM_WORDS)
    return "rod" if told == WIRE else told


_READ: dict[str, _Read] = {
    "form": _form,
    "metal": lambda given, name: metal(given, name).id,
    "temper": _text,
    **dict.fromkeys(MEASURES, _measure),
    "size": _size,
    "outline": _outline,
    "corners": _corners,
    "grain": _grain,
    "square_ends": partial(_whole, low=0, high=2),
    "readings": _readings,
    "place": _text,
    "cost": partial(_real, example="12.50", low=0, high=MOST_COST),
    "note": _text,
    "cut_from": partial(_whole, low=1, high=MOST_NUMBER),
}
_READ_MORE: dict[str, _Read] = {
    "number": partial(_whole, low=1, high=MOST_NUMBER),
    "added": _time,
    "gone": _time,
    "gone_how": partial(_choice, known=GONE_HOW),
    "gone_why": _text,
}
FIELDS = tuple(name for name in _READ if name != "cut_from")
"""What a person may tell of an item."""
