"""The drawer as CSV and JSON, out and in again: nothing is lost, wrong lines are told by number."""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from hollowright.errors import HollowrightError, InputError, Problems, UnknownName, shown
from hollowright.store.items import MEASURES, Item, NewItem
from hollowright.store.reading import FIELDS, read_line
from hollowright.store.store import Store
from hollowright.store.told import EXCHANGED, exchanged
from hollowright.units import exact_decimal

FORMAT = "hollowright-drawer-1"

LARGEST = 50_000_000
"""A file of more is refused unread [bytes]."""

MOST_TOLD = 20
"""So many wrong lines are told at once."""

_KNOWN = (*EXCHANGED, *(name for name in FIELDS if name not in EXCHANGED))
_FORMULA = re.compile(r"'*[=+\-@\t\r]")
_QUOTED = re.compile(r"'+[=+\-@\t\r]")


@dataclass(frozen=True)
class Imported:
    """What came in, and which lines were passed over and why."""

    items: tuple[Item, ...]
    passed_over: tuple[HollowrightError, ...]


def export_json(items: Sequence[Item]) -> str:
    """Items as JSON, with every digit; a line for each."""
    lines = (json.dumps(exchanged(item), allow_nan=False, ensure_ascii=False) for item in items)
    told = ",\n".join(lines)
    return f'{{"format": "{FORMAT}", "items": [\n{told}\n]}}\n'


def export_csv(items: Sequence[Item]) -> str:
    """Items as CSV: lengths in mm with every digit; no cell can become a formula.

    A cell that begins with = + - @ is given a leading ', which reading takes off again.
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(EXCHANGED)
    for item in items:
        data = exchanged(item)
        writer.writerow([_cell(name, data[name]) for name in EXCHANGED])
    return out.getvalue()


def _cell(name: str, value: Any) -> str:
    if value is None:
        return ""
    if name in MEASURES:
        return exact_decimal(value)
    text = repr(value) if isinstance(value, float) else value
    if not isinstance(text, str):
        text = json.dumps(text, ensure_ascii=False, separators=(",", ":"))
    return "'" + text if _FORMULA.match(text) else text


def import_json(store: Store, data: bytes, skip_wrong: bool = False) -> Imported:
    """Put in what a JSON file tells; Problems names every wrong item, and nothing has come in.

    skip_wrong: what is right comes in, the rest is told.
    """
    try:
        told = json.loads(_text(data))
    except (ValueError, RecursionError) as fault:
        where = f"line {fault.lineno}" if isinstance(fault, json.JSONDecodeError) else "deep inside"
        raise InputError(
            "file", f"it isn't JSON ({where}).", "Export a drawer to see one."
        ) from None
    rows = told.get("items") if isinstance(told, dict) else told
    if (isinstance(told, dict) and told.get("format", FORMAT) != FORMAT) or not isinstance(
        rows, list
    ):
        raise InputError("file", "it isn't a drawer.", f"Its format is {FORMAT}, with items.")
    return _bring_in(store, _json_lines(rows), skip_wrong)


_Line = tuple[str, Mapping[str, Any] | HollowrightError]


def _json_lines(rows: Sequence[Any]) -> Iterator[_Line]:
    for place, row in enumerate(rows, 1):
        wrong = InputError("", "it isn't an item.", "Write fields and values.")
        yield f"item {place}", row if isinstance(row, dict) else wrong


def import_csv(store: Store, data: bytes, skip_wrong: bool = False) -> Imported:
    """Put in what a CSV file tells, as `import_json`; its first line names the fields.

    Comma, semicolon or tab divides the cells. Lengths are mm, or say their unit: '12 in', '20 ga'.
    """
    text = _text(data)
    before = csv.field_size_limit(LARGEST)
    try:
        return _bring_in(store, list(_csv_lines(text)), skip_wrong)
    except csv.Error as fault:
        raise InputError(
            "file", f"it isn't CSV ({fault}).", "Export a drawer to see one."
        ) from None
    finally:
        csv.field_size_limit(before)


def _csv_lines(text: str) -> Iterator[_Line]:
    first = text.split("\n", 1)[0]
    divider = max(",;\t", key=first.count)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=divider, strict=True)
    names = [name.strip().lower().replace(" ", "_") for name in next(reader, [])]
    faults = [UnknownName("line 1", name, _KNOWN) for name in names if name not in _KNOWN]
    doubled = [name for name in names if names.count(name) > 1]
    if not names or faults or doubled:
        twice = InputError("line 1", f"{', '.join(doubled[:1])} stands there twice.", "")
        none = InputError("line 1", "it names no fields.", f"Write {', '.join(_KNOWN[:6])} ...")
        raise Problems(faults or [twice if doubled else none])
    for row in reader:
        if not any(cell.strip() for cell in row):
            continue
        told: Mapping[str, Any] | HollowrightError = dict(
            zip(names, map(_uncell, row), strict=False)
        )
        if any(cell.strip() for cell in row[len(names) :]):
            told = InputError("", "it has more cells than the first line.", "Quote a comma's cell.")
        yield f"line {reader.line_num}", told


def _uncell(cell: str) -> str:
    return cell[1:] if _QUOTED.match(cell) else cell


def _text(data: bytes) -> str:
    if len(data) > LARGEST:
        raise InputError("file", "it is too large.", f"At most {LARGEST / 1e6:g} MB are read.")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise InputError("file", "it isn't UTF-8 text.", "Save it as UTF-8.") from None


def _bring_in(store: Store, lines: Iterator[_Line] | Sequence[_Line], skip_wrong: bool) -> Imported:
    """Every line read and checked first; then all come in at once."""
    faults: list[HollowrightError] = []
    sound: list[tuple[NewItem, Mapping[str, Any]]] = []
    seen = store.numbers()
    for where, told in lines:
        try:
            if isinstance(told, HollowrightError):
                raise told
            new, more = read_line(told)
            _free(more.get("number"), seen)
            sound.append((new, more))
        except HollowrightError as fault:
            faults += [_at(where, each) for each in fault.each()]
    if faults and not skip_wrong:
        left = len(faults) - MOST_TOLD
        more_told = [InputError("", f"{left} more faults.", "")] if left > 0 else []
        raise Problems([*faults[:MOST_TOLD], *more_told, InputError("", _NOTHING, "")])
    return Imported(store.bring_in(sound), tuple(faults))


_NOTHING = "Nothing was imported. Put these right, or pass over wrong lines with --skip-wrong."


def _free(number: int | None, seen: set[int]) -> None:
    if number is None:
        return
    if number in seen:
        raise InputError(
            "number", f"{number} is in the drawer, or twice in the file.", "Leave it empty."
        )
    seen.add(number)


def _at(where: str, fault: HollowrightError) -> InputError:
    field = f"{where}, {fault.field}" if fault.field else where
    return InputError(field, fault.problem, fault.remedy)


def read_file(path: str) -> bytes:
    """The bytes of a file to import; InputError when it can't be read or is too large."""
    try:
        with Path(path).open("rb") as file:
            return file.read(LARGEST + 1)
    except (OSError, ValueError) as fault:
        reason = getattr(fault, "strerror", None) or "it can't be opened"
        raise InputError("file", f"{shown(path)}: {reason}.", "Give a readable file.") from None
