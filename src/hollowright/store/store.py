"""The store: open it, ask what lies in the drawer, put in, take out, cut, undo.

Bringing this in brings the database library: import it where it is used.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from contextlib import AbstractContextManager
from datetime import datetime
from typing import Any, Self

from sqlalchemy import ColumnElement, Connection, delete, false, func, insert, select, update

from hollowright.errors import InputError, UnknownName
from hollowright.plan.bars import Bar, CutList
from hollowright.plan.laid import Layout, Sheet
from hollowright.store import cutting, ledger, stock
from hollowright.store.checks import checked
from hollowright.store.items import MOST_NUMBER, Change, Cutting, Item, NewItem, Page, Placement
from hollowright.store.migrate import make_current
from hollowright.store.opening import Address, address_of, engine_of, reading, writing
from hollowright.store.rows import NEW, item_of, new_row, now, packed, words, words_in
from hollowright.store.tables import items, placements, record
from hollowright.store.versions import PROGRAM, handbook_version

CHANGED = tuple(name for name in NEW if name != "cut_from")
"""What can be changed of an item."""

LONGEST_KEY = 200
"""How long a placement's key may be [characters]."""

LARGEST_PAGE = 1000
"""So many items stand on a page at most."""


def open_store(url: str = "") -> Store:
    """The drawer at a path or address, its tables brought up to this program's; close it.

    url: a path (SQLite), postgresql://..., or '' for HOLLOWRIGHT_DRAWER's, else the one in the
    user's data folder. NoSuchDrawer (an InputError) when it can't be opened or is too new.
    """
    store = Store(address_of(url))
    try:
        make_current(store.engine, store.address)
    except BaseException:
        store.close()
        raise
    return store


class Store:
    """An open drawer; a context manager that closes it. May be used from several threads."""

    def __init__(self, address: Address) -> None:
        self.address = address
        self.engine = engine_of(address)

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def close(self) -> None:
        """Close every connection."""
        self.engine.dispose()

    @property
    def place(self) -> str:
        """Where it is, as a person may see it (no password)."""
        return self.address.shown

    def _reading(self) -> AbstractContextManager[Connection]:
        return reading(self.engine, self.address)

    def _writing(self) -> AbstractContextManager[Connection]:
        return writing(self.engine, self.address)

    # ---- items

    def add(self, new: NewItem) -> Item:
        """Put metal in; Problems when it isn't an item."""
        return self.add_all([new])[0]

    def add_all(self, new: Sequence[NewItem]) -> tuple[Item, ...]:
        """Put several in, all or none."""
        sound = [checked(each) for each in new]
        with self._writing() as connection:
            return ledger.put_in(connection, sound, now())

    def bring_in(self, told: Sequence[tuple[NewItem, Mapping[str, Any]]]) -> tuple[Item, ...]:
        """Put in items with what else is told of them (number, added, gone ...), all or none.

        DrawerRefused when a number is in the drawer already.
        """
        with self._writing() as connection:
            return ledger.bring_in(connection, told)

    def item(self, number: int) -> Item:
        """The item of a number, there or gone; InputError when there never was one."""
        with self._reading() as connection:
            return ledger.item_in(connection, number)

    def items(
        self,
        page: int = 1,
        size: int = 50,
        form: str = "",
        metal: str = "",
        text: str = "",
        gone: bool | None = False,
    ) -> Page:
        """A page of the drawer by number. text: words, or their beginnings, that all stand in it.

        metal: its id. gone: what has gone instead; None: both.
        """
        if not 1 <= page <= MOST_NUMBER or not 1 <= size <= LARGEST_PAGE:
            raise InputError("page", f"{page} of {size} can't be shown.", "Pages begin at 1.")
        wanted = _wanted(form, metal, text, gone)
        query = select(items).where(*wanted).order_by(items.c.number)
        with self._reading() as connection:
            total = connection.execute(select(func.count()).select_from(items).where(*wanted))
            rows = connection.execute(query.limit(size).offset((page - 1) * size)).mappings()
            found = tuple(item_of(row) for row in rows)
            return Page(found, page, size, total.scalar_one())

    def all_items(self, gone: bool | None = False) -> tuple[Item, ...]:
        """Every item, by number."""
        query = select(items).where(*_wanted("", "", "", gone)).order_by(items.c.number)
        with self._reading() as connection:
            return tuple(item_of(row) for row in connection.execute(query).mappings())

    def numbers(self) -> set[int]:
        """Every number that was ever given."""
        with self._reading() as connection:
            return set(connection.execute(select(items.c.number)).scalars())

    def change(self, number: int, **changes: Any) -> Item:
        """Put an item's fields right (as NewItem names them); the record keeps the old ones.

        InputError for a field that there isn't or that can't be so; DrawerRefused for a gone item.
        """
        for name in changes:
            if name not in CHANGED:
                raise UnknownName("change", name, CHANGED)
        with self._writing() as connection:
            old = ledger.item_in(connection, number)
            ledger.check_there(old)
            told = NewItem(**{name: getattr(old, name) for name in NEW} | changes)
            row = new_row(checked(told))
            before = new_row(old)
            differ = {name: [before[name], row[name]] for name in row if row[name] != before[name]}
            if differ:
                row["words"] = words(row)
                connection.execute(update(items).where(items.c.number == number).values(row))
                ledger.note(connection, now(), "changed", {number: differ})
            return ledger.item_in(connection, number)

    def take(self, number: int, reason: str) -> Item:
        """Take an item out and say why; DrawerRefused when it has gone already."""
        why = " ".join(reason.split())
        if not why or len(why) > 500 or not why.isprintable():
            raise InputError("why", "say in a line why it is taken out.", "Lent to the class, say.")
        with self._writing() as connection:
            ledger.check_there(ledger.item_in(connection, number))
            ledger.mark_gone(connection, number, now(), "taken", why)
            return ledger.item_in(connection, number)

    def changes(self, number: int) -> tuple[Change, ...]:
        """The record of an item, oldest first."""
        query = select(record).where(record.c.item == number).order_by(record.c.id)
        with self._reading() as connection:
            return tuple(
                Change(
                    datetime.fromisoformat(row["at"]),
                    number,
                    row["what"],
                    json.loads(row["told"]),
                )
                for row in connection.execute(query).mappings()
            )

    # ---- finding metal and cutting it

    def sheets_for(
        self, metal: str, thickness: float, temper: str = "", tolerance: float = 0.0
    ) -> tuple[Sheet, ...]:
        """Sheets that lie here of a metal (id), within a tolerance of a thickness [mm].

        A temper that isn't said matches any, and the other way round.
        """
        with self._reading() as connection:
            return stock.sheets(connection, metal, thickness, temper, tolerance)

    def bars_for(
        self,
        form: str,
        metal: str,
        sizes: Mapping[str, float],
        temper: str = "",
        tolerance: float = 0.0,
    ) -> tuple[Bar, ...]:
        """Bars that lie here of a form, metal (id) and section [mm], likewise."""
        with self._reading() as connection:
            return stock.bars(connection, form, metal, sizes, temper, tolerance)

    def cut_layouts(
        self,
        layouts: Sequence[Layout],
        made_for: str,
        data: Mapping[str, Any] | None = None,
        keep_others: bool = True,
    ) -> Cutting:
        """Cut layouts: the drawer's sheets go out, usable offcuts come in; all of it or nothing.

        made_for: the pieces, in words. data: the layouts' placements, kept as an input.
        keep_others: offcuts of sheets bought or in hand come in too. DrawerRefused when a sheet
        has gone or changed meanwhile.
        """
        taken = cutting.of_layouts(layouts, keep_others)
        with self._writing() as connection:
            return ledger.cut(connection, taken, "sheet", _line(made_for), data or {})

    def cut_bars(
        self,
        lists: Sequence[CutList],
        made_for: str,
        data: Mapping[str, Any] | None = None,
        keep_others: bool = True,
    ) -> Cutting:
        """Saw cut lists: bars go out, rests long enough to keep come in; as `cut_layouts`."""
        taken = cutting.of_cut_lists(lists, keep_others)
        with self._writing() as connection:
            return ledger.cut(connection, taken, "bar", _line(made_for), data or {})

    def undo(self, number: int) -> Cutting:
        """Take a cutting back; DrawerRefused when something left over from it has been used."""
        with self._writing() as connection:
            return ledger.undo(connection, number)

    def cuttings(self, most: int = 100) -> tuple[Cutting, ...]:
        """The latest cuttings, newest first, undone ones among them."""
        with self._reading() as connection:
            return ledger.all_cuttings(connection, most)

    def cutting(self, number: int) -> Cutting:
        """One cutting; InputError when there is none of that number."""
        with self._reading() as connection:
            return ledger.cutting_in(connection, number)

    # ---- layouts found before

    def keep_placement(self, key: str, data: Any, seconds: float = 0.0) -> None:
        """Keep what a solver found under a key (200 letters at most), in place of what was there.

        seconds: how long it was looked for.
        """
        if len(key) > LONGEST_KEY:
            raise ValueError(f"a key has {LONGEST_KEY} letters at most, not {len(key)}")
        row = {
            "key": key,
            "data": packed(data),
            "program": PROGRAM,
            "handbook": handbook_version(),
            "seconds": seconds,
            "at": now().isoformat(),
        }
        with self._writing() as connection:
            connection.execute(delete(placements).where(placements.c.key == key))
            connection.execute(insert(placements), row)

    def placement(self, key: str) -> Placement | None:
        """What was kept under a key; None when nothing was."""
        with self._reading() as connection:
            query = select(placements).where(placements.c.key == key)
            row = connection.execute(query).mappings().first()
        if row is None:
            return None
        told = dict(row) | {
            "at": datetime.fromisoformat(row["at"]),
            "data": json.loads(row["data"]),
        }
        return Placement(**told)


def _line(text: str) -> str:
    """A text on one line, not too long, of signs that can be kept."""
    return "".join(sign for sign in " ".join(text.split())[:500] if sign.isprintable())


def _wanted(form: str, metal: str, text: str, gone: bool | None) -> list[ColumnElement[bool]]:
    """The conditions of a list."""
    found: list[ColumnElement[bool]] = []
    if gone is not None:
        found.append(items.c.gone.is_not(None) if gone else items.c.gone.is_(None))
    if form:
        found.append(items.c.form == form)
    if metal:
        found.append(items.c.metal == metal)
    asked = words_in(text)
    if text.strip() and not asked:
        found.append(false())
    for word in asked:
        whole = f" {word} " if word.isdecimal() else f" {word}"
        found.append(items.c.words.contains(whole, autoescape=True))
    return found
