"""The sold list: sizes of sheet, strip, tube and rod that suppliers sell, a table the user fills.

The list that comes with the program is common practice, no source, and carries no prices.
"""

from __future__ import annotations

import csv
import os
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache

from hollowright.errors import HollowrightError, InputError, Problems, UnknownName, shown
from hollowright.handbook.gauges import GAUGES
from hollowright.handbook.metals import metal
from hollowright.units import read_choice, read_length

COLUMNS = (
    "form", "metal", "temper", "thickness", "outside_diameter", "wall", "diameter", "width",
    "length", "price", "supplier", "note",
)  # fmt: skip
"""The columns of a sold list; form and length must be there, width for sheet and strip."""

SECTIONS: Mapping[str, tuple[str, ...]] = {
    "sheet": ("thickness",),
    "strip": ("thickness",),
    "tube": ("outside_diameter", "wall"),
    "rod": ("diameter",),
}
"""The forms that are sold, and what is measured across each."""

FORMS = tuple(SECTIONS)
MOST_ROWS = 2000
MOST_FAULTS = 30
HIGHEST_PRICE = 1e6
_PRICE = re.compile(r"[0-9]{1,7}(?:\.[0-9]{1,4})?")


@dataclass(frozen=True)
class SoldSize:
    """One size that is sold [mm].

    metals: ids; none: any metal. sizes: thickness, or outside_diameter and wall, or diameter; what
    isn't there is sold in any size asked for. temper: '': any. price: of one; None: not known.
    line: where it stands in the list.
    """

    form: str
    length: float
    width: float | None = None
    metals: tuple[str, ...] = ()
    sizes: Mapping[str, float] = field(default_factory=dict)
    temper: str = ""
    price: float | None = None
    supplier: str = ""
    note: str = ""
    line: int = 0

    def fits(
        self, metal_id: str, wanted: Mapping[str, float], temper: str, tolerance: float
    ) -> bool:
        """Whether it is of this metal, section (each size within the tolerance [mm]), temper."""
        if self.metals and metal_id not in self.metals:
            return False
        if self.temper and temper and self.temper != temper:
            return False
        return all(
            name in wanted and abs(wanted[name] - size) <= tolerance + 1e-9
            for name, size in self.sizes.items()
        )


@dataclass(frozen=True)
class Sold:
    """A sold list: its sizes, and what it is called where it is spoken of."""

    sizes: tuple[SoldSize, ...]
    name: str = "the sold list"

    def of_form(self, *forms: str) -> tuple[SoldSize, ...]:
        """The sizes of these forms."""
        return tuple(each for each in self.sizes if each.form in forms)


def sold_text() -> str:
    """The list that comes with the program, as CSV to fill in and keep."""
    place = os.path.join(os.path.dirname(__file__), "sold.csv")
    with open(place, encoding="utf-8") as file:
        return file.read()


@cache
def default_sold() -> Sold:
    """The list that comes with the program: common sizes, without prices."""
    return read_sold(sold_text(), "the common sizes")


def read_sold(text: str, name: str = "your sold list") -> Sold:
    """A sold list from its CSV text; Problems names each wrong field with its line.

    Columns are parted by commas, semicolons or tabs; lines that begin with # are notes.
    """
    lines = [(number, line) for number, line in enumerate(text.splitlines(), 1) if _counts(line)]
    if not lines:
        raise InputError("sold", "it is empty.", f"Its first line is: {','.join(COLUMNS)}")
    numbers = [number for number, _ in lines]
    mark = next((sign for sign in ("\t", ";") if sign in lines[0][1]), ",")
    if len(lines) > MOST_ROWS:
        raise InputError("sold", f"{len(lines)} rows are too many.", f"At most {MOST_ROWS}.")
    try:
        reader = csv.reader((line for _, line in lines), delimiter=mark, strict=True)
        table = [(numbers[reader.line_num - 1], cells) for cells in reader]
    except csv.Error as fault:
        raise InputError("sold", f"it isn't CSV: {fault}.", "Mind the quotes.") from None
    head = [cell.strip().lower() for cell in table[0][1]]
    _check_head(head, numbers[0])
    return Sold(_sizes(head, table[1:]), name)


def _sizes(head: list[str], table: list[tuple[int, list[str]]]) -> tuple[SoldSize, ...]:
    faults: list[HollowrightError] = []
    found: list[SoldSize] = []
    for number, cells in table:
        row = _Row(number, head, cells)
        size = row.size()
        faults += row.faults
        if size:
            found.append(size)
    if faults:
        raise Problems(faults[:MOST_FAULTS])
    return tuple(found)


def _counts(line: str) -> bool:
    return bool(line.strip(" \t;,")) and not line.lstrip().startswith("#")


def _check_head(head: list[str], line: int) -> None:
    faults: list[HollowrightError] = [
        UnknownName(f"sold, line {line}", name, COLUMNS) for name in head if name not in COLUMNS
    ]
    faults += [
        InputError(f"sold, line {line}", f"there is no column '{name}'.", "Add it.")
        for name in ("form", "length")
        if name not in head
    ]
    twice = sorted({name for name in head if head.count(name) > 1})
    faults += [
        InputError(f"sold, line {line}", f"the column '{name}' stands there twice.", "Keep one.")
        for name in twice
        if name in COLUMNS
    ]
    if faults:
        raise Problems(faults)


class _Row:
    """One row as it is read, with what is wrong in it."""

    def __init__(self, line: int, head: list[str], cells: list[str]) -> None:
        self.line = line
        self.faults: list[HollowrightError] = []
        clean = [" ".join(cell.split()) for cell in cells]
        self.cells = dict(zip(head, clean, strict=False))
        if any(clean[len(head) :]):
            self._wrong("row", f"it has {len(clean)} fields, not {len(head)}.", "Quote commas.")

    def size(self) -> SoldSize | None:
        """The size of the row; None, and faults, when something is wrong."""
        form = self._form()
        if form is None:
            return None
        flat = form in ("sheet", "strip")
        length = self._length("length", "300 mm")
        if length is None and not self.cells.get("length"):
            self._wrong("length", "it is missing.", "Write 300 mm.")
        width = self._length("width", "150 mm") if flat else None
        if flat and not self.cells.get("width"):
            self._wrong("width", "it is missing.", "Write 150 mm.")
        sizes = dict(self._sections(form))
        metals, price = tuple(self._metals()), self._price()
        if self.faults or length is None:
            return None
        if width is not None and width > length:
            length, width = width, length
        temper, supplier, note = (self.cells.get(key, "") for key in ("temper", "supplier", "note"))
        return SoldSize(
            form, length, width, metals, sizes, temper.lower(), price, supplier[:60], note[:200],
            self.line,
        )  # fmt: skip

    def _form(self) -> str | None:
        given = self.cells.get("form", "")
        try:
            return read_choice("rod" if given.lower() == "wire" else given, self._at("form"), FORMS)
        except HollowrightError as fault:
            self.faults.append(fault)
            return None

    def _sections(self, form: str) -> Iterator[tuple[str, float]]:
        own = SECTIONS[form]
        for name in ("thickness", "outside_diameter", "wall", "diameter"):
            if name not in own:
                if self.cells.get(name):
                    self._wrong(name, f"a {form} has none.", "Leave it empty.")
                continue
            size = self._length(name, "20 ga" if name == "thickness" else "1.00 mm")
            if size is not None:
                yield name, size
        outside, wall = (self.cells.get(key) for key in ("outside_diameter", "wall"))
        if form == "tube" and wall and not outside:
            self._wrong("outside_diameter", "it is missing.", "Write it, or leave the wall empty.")

    def _length(self, name: str, example: str) -> float | None:
        given = self.cells.get(name, "")
        if not given:
            return None
        gauges = GAUGES if name in ("thickness", "wall", "diameter") else None
        try:
            return read_length(given, self._at(name), example, gauges, may_be_zero=False).mm
        except HollowrightError as fault:
            self.faults.append(fault)
            return None

    def _metals(self) -> Iterator[str]:
        given = self.cells.get("metal", "")
        for name in re.split(r"\s+or\s+", given, flags=re.IGNORECASE) if given else ():
            try:
                yield metal(name, self._at("metal")).id
            except HollowrightError as fault:
                self.faults.append(fault)

    def _price(self) -> float | None:
        given = self.cells.get("price", "")
        if not given:
            return None
        if not _PRICE.fullmatch(given) or not 0 < float(given) <= HIGHEST_PRICE:
            remedy = "Write a bare number, 12.50 say, or leave it empty."
            self._wrong("price", f"{shown(given)} isn't a price.", remedy)
            return None
        return float(given)

    def _at(self, name: str) -> str:
        return f"sold, line {self.line}, {name}"

    def _wrong(self, name: str, problem: str, remedy: str) -> None:
        self.faults.append(InputError(self._at(name), problem, remedy))
