"""Writing in the drawer's books, inside an open transaction: in, out, changed, and the record."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Select, func, insert, select, update

from hollowright.errors import InputError
from hollowright.store.cutting import Taken, check_not_cut, check_same, in_hand, offcut
from hollowright.store.faults import DrawerRefused
from hollowright.store.items import MOST_NUMBER, Cutting, Item, NewItem
from hollowright.store.rows import NEW, item_of, item_row, now, packed
from hollowright.store.tables import cutting_items, cuttings, items, record

IN_HAND = "in_hand"
"""Where a cutting's data tell which metal in hand it took, and its size."""


def item_in(connection: Connection, number: int) -> Item:
    """The item of a number, there or gone; InputError when there never was one."""
    query = select(items).where(items.c.number == (number if number <= MOST_NUMBER else 0))
    row = connection.execute(query).mappings().first()
    if row is None:
        raise InputError("number", f"there is no item {number}.", "See `hollowright drawer list`.")
    return item_of(row)


def check_there(item: Item) -> None:
    """DrawerRefused when an item has gone."""
    if not item.there:
        why = f"it has gone from the drawer ({item.gone_how}: {item.gone_why})."
        raise DrawerRefused(f"item {item.number}", why, "Nothing was changed.")


def next_number(connection: Connection) -> int:
    """A number that no item has or had."""
    most = connection.execute(select(func.max(items.c.number), func.max(items.c.cut_from))).one()
    return 1 + max(0, *(number or 0 for number in most))


def put_in(
    connection: Connection, new: Sequence[NewItem], at: datetime, by: int | None = None
) -> tuple[Item, ...]:
    """New items with the next numbers, and a line of the record for each."""
    first = next_number(connection) if new else 0
    made = tuple(
        Item(**{name: getattr(each, name) for name in NEW}, number=number, added=at, came_by=by)
        for number, each in enumerate(new, first)
    )
    write(connection, made, "added" if by is None else "left over")
    return made


def bring_in(
    connection: Connection, told: Sequence[tuple[NewItem, Mapping[str, Any]]]
) -> tuple[Item, ...]:
    """Items with what else is told of them (number, added, gone ...); the rest is given here."""
    numbers = [more["number"] for _, more in told if "number" in more]
    given_before = set(connection.execute(select(items.c.number)).scalars())
    for number in given_before.intersection(numbers):
        raise DrawerRefused(
            f"item {number}", "its number is in the drawer already.", "Leave the number empty."
        )
    free = max(next_number(connection), 1 + max(numbers, default=0))
    made: list[Item] = []
    for new, more in told:
        given: dict[str, Any] = {"number": free, "added": now()} | dict(more)
        free += given["number"] == free
        made.append(Item(**{name: getattr(new, name) for name in NEW}, **given))
    write(connection, made, "imported")
    return tuple(made)


def write(connection: Connection, made: Sequence[Item], what: str) -> None:
    """Whole items as they stand, and a line of the record for each."""
    if made:
        connection.execute(insert(items), [item_row(item) for item in made])
        at = now()
        note(connection, at, what, {item.number: _told(item.came_by) for item in made})


def _told(by: int | None) -> dict[str, Any]:
    return {} if by is None else {"cutting": by}


def note(
    connection: Connection, at: datetime, what: str, told: Mapping[int, Mapping[str, Any]]
) -> None:
    """A line of the record for each item: what happened to it. Lines are never altered."""
    rows = [
        {"at": at.isoformat(), "item": number, "what": what, "told": packed(data)}
        for number, data in told.items()
    ]
    connection.execute(insert(record), rows)


def mark_gone(
    connection: Connection, number: int, at: datetime, how: str, why: str, by: int | None = None
) -> None:
    """An item goes out, if it is there; DrawerRefused when it has gone already."""
    gone = {"gone": at.isoformat(), "gone_how": how, "gone_why": why, "gone_by": by}
    there = (items.c.number == number, items.c.gone.is_(None))
    if connection.execute(update(items).where(*there).values(gone)).rowcount != 1:
        raise DrawerRefused(
            f"item {number}", "it has gone from the drawer.", "Nothing was changed."
        )
    note(connection, at, how, {number: {"why": why, **_told(by)}})


def cut(
    connection: Connection,
    taken: Sequence[Taken],
    kind: str,
    made_for: str,
    data: Mapping[str, Any],
) -> Cutting:
    """Everything that was cut goes out, what is left comes in: one whole cutting."""
    at, number = now(), _next_cutting(connection)
    row = {"number": number, "at": at.isoformat(), "kind": kind, "made_for": made_for}
    hand = in_hand(taken)
    check_not_cut(taken, {id: _took(connection, id) for id in hand})
    told = {**data, IN_HAND: hand} if hand else data
    connection.execute(insert(cuttings), row | {"data": packed(told), "undoes": None})
    out, left = [], []
    for each in taken:
        parent = None if each.number is None else item_in(connection, each.number)
        if parent is not None:
            check_same(parent, each.metal)
            mark_gone(connection, parent.number, at, "cut", made_for, number)
            out.append(parent.number)
        left += [offcut(each, rest, parent, made_for) for rest in each.left]
    came = tuple(item.number for item in put_in(connection, left, at, number))
    _link(connection, number, {"out": out, "in": came})
    return Cutting(number, at, made_for, kind, tuple(out), came, told)


def _took(connection: Connection, id: str) -> dict[int, str]:
    """The sizes in which standing cuttings took metal in hand of this id, by their number."""
    named = _cuttings().where(cuttings.c.data.contains(packed(id), autoescape=True))
    return {
        each.number: each.data[IN_HAND][id]
        for each in cuttings_by(connection, named)
        if each.undone is None and id in each.data.get(IN_HAND, {})
    }


def _next_cutting(connection: Connection) -> int:
    return 1 + (connection.execute(select(func.max(cuttings.c.number))).scalar() or 0)


def _link(connection: Connection, number: int, ways: Mapping[str, Sequence[int]]) -> None:
    rows = [{"cutting": number, "item": item, "way": way} for way in ways for item in ways[way]]
    if rows:
        connection.execute(insert(cutting_items), rows)


def undo(connection: Connection, number: int) -> Cutting:
    """Take a cutting back: what it cut lies there again, what it left has never been."""
    found = cutting_in(connection, number)
    who = f"cutting {number}"
    if found.undone is not None:
        raise DrawerRefused(who, "it has been taken back already.", "Nothing was changed.")
    for item in (item_in(connection, each) for each in found.came_in):
        if not item.there:
            why = f"item {item.number}, left over from it, has gone ({item.gone_how})."
            raise DrawerRefused(who, why, "Take that back first; nothing was changed.")
    at, why = now(), f"cutting {number} taken back"
    undoing = _next_cutting(connection)
    row = {"number": undoing, "at": at.isoformat(), "kind": "undo", "made_for": found.made_for}
    connection.execute(insert(cuttings), row | {"data": packed({}), "undoes": number})
    for item_number in found.came_in:
        mark_gone(connection, item_number, at, "undone", why, undoing)
    for item_number in found.out:
        _bring_back(connection, item_number, at, number)
    _link(connection, undoing, {"out": found.came_in, "in": found.out})
    return cutting_in(connection, number)


def _bring_back(connection: Connection, number: int, at: datetime, by: int) -> None:
    there = {"gone": None, "gone_how": "", "gone_why": "", "gone_by": None}
    cut_so = (items.c.number == number, items.c.gone_by == by)
    if connection.execute(update(items).where(*cut_so).values(there)).rowcount != 1:
        raise DrawerRefused(f"item {number}", "it wasn't taken by this cutting.", "")
    note(connection, at, "back", {number: {"cutting": by}})


def cutting_in(connection: Connection, number: int) -> Cutting:
    """The cutting of a number; InputError when there is none."""
    asked = number if number <= MOST_NUMBER else 0
    found = cuttings_by(connection, _cuttings().where(cuttings.c.number == asked))
    if not found:
        raise InputError(
            "cutting", f"there is no cutting {number}.", "See `hollowright drawer cuttings`."
        )
    return found[0]


def all_cuttings(connection: Connection, most: int) -> tuple[Cutting, ...]:
    """The latest cuttings, newest first."""
    query = _cuttings().order_by(cuttings.c.number.desc()).limit(most)
    return cuttings_by(connection, query)


def _cuttings() -> Select[Any]:
    undoing = cuttings.alias("undoing")
    joined = cuttings.outerjoin(undoing, undoing.c.undoes == cuttings.c.number)
    query = select(cuttings, undoing.c.at.label("undone")).select_from(joined)
    return query.where(cuttings.c.undoes.is_(None))


def cuttings_by(connection: Connection, query: Select[Any]) -> tuple[Cutting, ...]:
    """The cuttings of a query, each with its items."""
    rows = connection.execute(query).mappings().all()
    wanted = select(cutting_items).where(
        cutting_items.c.cutting.in_([row["number"] for row in rows])
    )
    ways: dict[tuple[int, str], list[int]] = {}
    for link in connection.execute(wanted.order_by(cutting_items.c.item)).mappings():
        ways.setdefault((link["cutting"], link["way"]), []).append(link["item"])
    return tuple(
        Cutting(
            row["number"],
            datetime.fromisoformat(row["at"]),
            row["made_for"],
            row["kind"],
            tuple(ways.get((row["number"], "out"), ())),
            tuple(ways.get((row["number"], "in"), ())),
            json.loads(row["data"]),
            None if row["undone"] is None else datetime.fromisoformat(row["undone"]),
        )
        for row in rows
    )
