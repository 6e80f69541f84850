"""A brief: what was asked and measured, checked against a design's fields, as quantities."""

from __future__ import annotations

import dataclasses
import difflib
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from hollowright.designs.answers import read_answer
from hollowright.designs.bench import Bench
from hollowright.designs.drawings import Drawing, Files, no_files
from hollowright.designs.fields import Design, Field
from hollowright.errors import Caution, HollowrightError, InputError, Problems, shown
from hollowright.handbook.metals import Metal
from hollowright.piece import Change, Piece, Wall
from hollowright.quantity import Quantity, exact, rectangular, root
from hollowright.quantity.choices import as_it_is
from hollowright.quantity.readings import Reading, from_readings
from hollowright.quantity.reconcile import reconcile
from hollowright.units import (
    Length,
    format_number,
)

MOST_FAULTS = 10
"""So many unknown fields are named one by one; of more only the number is told."""

UNITS = {"length": "mm", "angle": "deg", "share": "", "number": "", "count": ""}
"""Kinds of fields that are asked for as one number, and its unit."""

ONE_SIZE, LEAST_APART = 0.1, 0.5
"""Readings further apart than this part of their mean, and than this [mm], aren't of one size."""

FAR_FROM_PLAN = 0.1
"""A part built further off its plan than this part of it is pointed out."""


TUBE_WALL_OFF = 0.1
"""So far [of itself] a drawn tube's wall may be off its gauge (mills' standards, from memory)."""


class Brief:
    """One piece's fields as quantities: `b.wall` is the field named wall.

    inches: whether readings were written in inches. cautions and changes gather what was noticed
    while the design asks for its numbers. host: the wall that a joined piece sits on, if it does.
    part: what it is called in a piece of several designs; its readings carry that name. zero: the
    calliper's zero error, shared by all that it read.
    """

    def __init__(
        self,
        title: str,
        design: Design,
        bench: Bench,
        values: Mapping[str, Any],
        host: Wall | None = None,
        part: str = "",
        zero: Quantity | None = None,
    ) -> None:
        self.title = title
        self.design = design
        self.bench = bench
        self.host = host
        self.part = part
        self.cautions: list[Caution] = []
        self.changes: list[Change] = []
        self._readings: dict[str, Reading] = {}
        self._values: dict[str, Any] = {}
        self._used: set[str] = set()
        self.inches = any(_in_inches(value) for value in values.values())
        zero = zero or bench.instrument.zero_error()
        for field in design.fields:
            if field.name in values:
                self._values[field.name] = self._made(field, values[field.name], zero)
            elif host is not None and field.of_host:
                self._values[field.name] = self._of_host(field, host)

    def __getattr__(self, name: str) -> Quantity:
        """The quantity of a field; AttributeError when it isn't filled."""
        try:
            value = self.__dict__["_values"][name]
        except KeyError:
            raise AttributeError(name) from None
        self.__dict__["_used"].add(name)
        if not isinstance(value, Quantity):
            raise AttributeError(name)  # noqa: TRY004 (what attribute access must raise)
        return value

    def quantity(self, name: str) -> Quantity:
        """The quantity of a field by its name; AttributeError when it isn't filled."""
        return self.__getattr__(name)

    def has(self, name: str) -> bool:
        """Whether a field was filled (or has a default)."""
        return name in self._values

    def word(self, name: str) -> str:
        """The word of a choice field."""
        return str(self._values[name])

    def points(self, name: str) -> tuple[tuple[float, float], ...]:
        """The pairs of lengths of a points field [mm]."""
        found: tuple[tuple[float, float], ...] = self._values[name]
        return found

    def drawing(self, name: str) -> Drawing:
        """The file of a drawing field: its bytes and its kind."""
        found: Drawing = self._values[name]
        return found

    def metal(self, name: str) -> Metal:
        """The metal of a metal field."""
        found: Metal = self._values[name]
        return found

    def reading(self, name: str) -> Reading | None:
        """The readings behind a field, None when it was not measured."""
        return self._readings.get(name)

    def shop(self, id: str) -> Quantity:
        """An allowance of this shop."""
        return self.bench.setting(id)

    def refuse(self, name: str, problem: str, remedy: str) -> InputError:
        """An error about a field, under its path in the piece file."""
        return InputError(self.design.field(name).path, problem, remedy)

    def built(self, planned: Quantity) -> Quantity:
        """The as-built reading of a planned quantity where there is one, else the plan."""
        name = f"built_{planned.id}"
        if name not in self._values:
            return planned
        self._used.add(name)
        read: Quantity = self._values[name]
        label = f"{planned.label} as built"
        told = read.told.replace(read.label, label, 1)
        made = dataclasses.replace(read, id=planned.id, label=planned.label, told=told)
        self.changes.append(Change(planned.id, planned.label, planned.value, read.value))
        off = read.value - planned.value
        if abs(off) > max(FAR_FROM_PLAN * abs(planned.value), 4 * planned.uncertainty):
            self.cautions.append(_far_off(planned, read.value))
        return made

    def unread(self) -> tuple[Caution, ...]:
        """A caution for each as-built reading that the design had no use for."""
        return tuple(
            Caution(
                f"{field.name}_unused",
                f"{field.label[0].upper()}{field.label[1:]}: read, but nothing here follows it. "
                f"{field.help[:1].upper()}{field.help[1:]}".rstrip(". ")
                + ".",
                "reading",
                field.name,
            )
            for field in self.design.fields
            if field.group == "as_built"
            and field.name in self._values
            and field.name not in self._used
        )

    def both(self, reckoned: Quantity, direct: Quantity | None) -> Quantity:
        """A reckoned quantity combined with a direct reading of it, where that was taken."""
        if direct is None:
            return reckoned
        steps = {id: (r.step, len(r.values)) for id, r in self._readings.items() if r.step}
        joined, cautions = reconcile(reckoned, direct, steps)
        self.cautions.extend(cautions)
        return joined

    def _made(self, field: Field, value: Any, zero: Quantity) -> Any:
        """A field's checked value as what the design works with."""
        if field.kind in ("readings", "thickness"):
            return self._measured(field, value, zero)
        if field.kind in UNITS:
            unit = UNITS[field.kind]
            return self._own(field, exact(*self._called(field), unit, value))
        return value

    def _measured(self, field: Field, lengths: Sequence[Length], zero: Quantity) -> Quantity:
        if lengths[0].gauge:
            return self._own(field, self._by_gauge(field, lengths[0]))
        values = [length.mm for length in lengths]
        _of_one_size(field, values)
        instrument = self.bench.instrument
        reading = from_readings(
            *self._called(field),
            values,
            instrument,
            zero,
            around=field.around,
            inside=field.inside,
            step=max(length.step for length in lengths),
            fraction=max(length.fraction for length in lengths),
        )
        self._readings[field.name] = reading
        self.cautions.extend(reading.cautions)
        return self._own(field, reading.quantity)

    def _by_gauge(self, field: Field, length: Length) -> Quantity:
        tolerance = self.bench.setting("sheet_tolerance").value
        if field.tube_wall:
            tolerance = max(tolerance, TUBE_WALL_OFF * length.mm)
        id, label = self._called(field)
        return root(
            id,
            label,
            "mm",
            length.mm,
            rectangular(tolerance),
            kind="handbook",
            source="gauge table; the mill's tolerance is the shop's setting, a tenth for tube",
            told=f"{label} = {length.text} by the table",
            of=id,
        )

    def _of_host(self, field: Field, host: Wall) -> Any:
        """What the host's wall fills a field with; a bare number as a quantity."""
        found = getattr(host, field.of_host)
        if isinstance(found, float):
            unit = UNITS[field.kind]
            return self._own(field, exact(*self._called(field), unit, found, "formula"))
        return found

    def _called(self, field: Field) -> tuple[str, str]:
        """Id and label of a field's quantity, with the part's name where there are several."""
        if not self.part:
            return field.name, field.label
        return f"{self.part}_{field.name}", part_label(self.part, field.label)

    def _own(self, field: Field, quantity: Quantity) -> Quantity:
        """A field's quantity under the design's own name for it; its roots keep the part's."""
        if not self.part:
            return quantity
        if quantity in quantity.slopes:  # a root: what stands for it may be renamed
            return dataclasses.replace(
                as_it_is(quantity), id=field.name, label=quantity.label, unit=quantity.unit,
                kind=quantity.kind, source=quantity.source, told=quantity.told,
            )  # fmt: skip
        return dataclasses.replace(quantity, id=field.name)


def built_of(brief: Brief) -> Piece:
    """The piece that the brief's design makes of it; readings without use are pointed out."""
    piece = brief.design.build(brief)
    unread = brief.unread()
    return dataclasses.replace(piece, cautions=(*piece.cautions, *unread)) if unread else piece


def part_label(part: str, label: str) -> str:
    """A label with the name of the part that it belongs to: "spout's wall"."""
    return f"{part.replace('_', ' ')}'s {label}"


def _of_one_size(field: Field, values: Sequence[float]) -> None:
    """Refuse readings that can't be of one size: a point or a unit misplaced."""
    mean = sum(values) / len(values)
    if max(values) - min(values) > max(ONE_SIZE * mean, LEAST_APART):
        listed = ", ".join(format_number(value) for value in values)
        raise InputError(
            field.path, f"{listed} can't all be one size.", "Is a point or a unit misplaced?"
        )


def _in_inches(value: Any) -> bool:
    """Whether a measured field was written in inches."""
    if not isinstance(value, tuple):
        return False
    return any(isinstance(length, Length) and length.in_inches for length in value)


def _far_off(planned: Quantity, built: float) -> Caution:
    text = (
        f"{planned.label}: read {format_number(built)} where {format_number(planned.value)} was "
        "planned. If that is how it came out, the plan has followed; if not, measure again."
    )
    return Caution(f"{planned.id}_far_off", text, "reading", planned.id)


def read_brief(
    data: Mapping[str, Any],
    design: Design,
    bench: Bench,
    files: Files = no_files,
    host: Wall | None = None,
    part: str = "",
    zero: Quantity | None = None,
) -> Brief:
    """A piece file's tables (or a form's) as a brief; Problems lists everything that is wrong.

    files: gives the bytes of a file by the name that stands in a drawing field. host: the wall that
    a joined piece sits on, which fills the fields marked so. part, zero: as a Brief's.
    """
    faults: list[HollowrightError] = []
    values: dict[str, Any] = {}
    title = _title(data.get("title", design.title), faults)
    given = dict(_flat({k: v for k, v in data.items() if k not in ("title", "design")}))
    paths = {field.path: field for field in design.fields if not (host and field.of_host)}
    faults += _strangers(given, tuple(paths))
    for path, field in paths.items():
        answer: Any = given.get(path)
        if answer is None:
            answer = field.default or None
        if answer is None:
            if field.required:
                faults.append(
                    InputError(path, "it is missing.", f"Add it, for example {field.example}.")
                )
            continue
        try:
            values[field.name] = read_answer(field, answer, files)
        except HollowrightError as fault:
            faults.append(fault)
    if faults:
        raise Problems(faults)
    return Brief(title, design, bench, values, host, part, zero)


def _title(given: object, faults: list[HollowrightError]) -> str:
    if not isinstance(given, str) or len(given) > 120 or not given.isprintable():
        faults.append(InputError("title", f"{shown(given)} isn't a title.", "Write one line."))
        return ""
    return given.strip() or "untitled"


def _flat(table: Mapping[str, Any], above: str = "", depth: int = 0) -> Iterator[tuple[str, Any]]:
    for key, value in table.items():
        path = f"{above}.{key}" if above else str(key)
        if isinstance(value, Mapping) and depth < 3:
            if not value and depth < 2:
                continue
            yield from _flat(value, path, depth + 1)
        else:
            yield path, value


def _strangers(given: Mapping[str, Any], known: tuple[str, ...]) -> Iterator[InputError]:
    """The fields that the design doesn't have: the first few by name, then how many more."""
    strange = [path for path in given if path not in known]
    for path in strange[:MOST_FAULTS]:
        yield _unknown(path, known)
    if len(strange) > MOST_FAULTS:
        more = f"{len(strange) - MOST_FAULTS} more unknown fields."
        yield InputError("file", more, "Is it a piece file at all?")


def _unknown(path: str, known: tuple[str, ...]) -> InputError:
    path = path or '""'
    near = difflib.get_close_matches(path[:80], known, n=1, cutoff=0.6)
    guess = f"Did you mean {near[0]}? " if near else ""
    return InputError(
        path[:80], "this design has no such field.", f"{guess}Known: {', '.join(known)}."
    )
