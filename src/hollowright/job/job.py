"""A piece file's text or a form's tables -> brief -> design -> Piece -> Plan."""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from typing import Any

from hollowright.designs import design
from hollowright.designs.brief import built_of, read_brief
from hollowright.designs.composed import build_composed
from hollowright.designs.drawings import Files, no_files
from hollowright.designs.fields import Field
from hollowright.errors import InputError, shown
from hollowright.job.work_back import asked_for_most, largest
from hollowright.piece import Piece
from hollowright.plan.make import make_plan
from hollowright.plan.plan import Plan
from hollowright.shop import Shop, default_shop, read_shop

SHOP_FILE = "shop.toml"
"""A shop file of this name beside a piece file is used for it."""

LARGEST_FILE = 1_000_000
"""A piece file is a page of text; more than this is refused unread [bytes]."""


def read_bytes(path: str, field: str = "file") -> bytes:
    """The bytes of a file; InputError when it can't be read or is too large."""
    try:
        if not os.path.isfile(path):
            raise InputError(field, f"{shown(path)} isn't a file.", "Give the path of a file.")
        size = os.path.getsize(path)
        if size > LARGEST_FILE:
            raise InputError(
                field, f"{shown(path)} has {size} bytes.", f"At most {LARGEST_FILE} are read."
            )
        with open(path, "rb") as file:
            raw = file.read(LARGEST_FILE + 1)
    except (OSError, ValueError) as fault:
        reason = getattr(fault, "strerror", None) or "it can't be opened"
        raise InputError(field, f"{shown(path)}: {reason}.", "Give a readable file.") from None
    if len(raw) > LARGEST_FILE:
        raise InputError(field, f"{shown(path)} is too large.", f"At most {LARGEST_FILE} bytes.")
    return raw


def read_text(path: str, field: str = "file") -> str:
    """The text of a file; InputError when it can't be read, is too large, or isn't text."""
    try:
        return read_bytes(path, field).decode("utf-8-sig")
    except UnicodeDecodeError:
        raise InputError(field, f"{shown(path)} isn't UTF-8 text.", "Save it as UTF-8.") from None


def read_tables(text: str, field: str = "file") -> dict[str, Any]:
    """A TOML text as tables; InputError says the line when it isn't TOML."""
    import tomllib

    if len(text) > LARGEST_FILE:
        raise InputError(field, "it is too large.", f"At most {LARGEST_FILE} characters.")
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        raise InputError(
            field, f"it isn't TOML: {fault}.", "See `hollowright designs tube-box`."
        ) from None
    except (ValueError, RecursionError):
        raise InputError(
            field, "it isn't TOML that can be read.", "See `hollowright designs tube-box`."
        ) from None


def plan_tables(
    tables: Mapping[str, Any], shop: Shop | None = None, files: Files = no_files
) -> Plan:
    """The plan of a piece file's tables; InputError or PlanRefused say why there is none.

    files: gives the drawing files that the tables name.
    """
    shop = shop or default_shop()
    place = asked_for_most(tables)
    if place is None:
        return make_plan(_piece(tables, shop, files), shop)
    field = _field_at(tables, place)
    return largest(tables, place, field, lambda sized: make_plan(_piece(sized, shop, files), shop))


def _piece(tables: Mapping[str, Any], shop: Shop, files: Files) -> Piece:
    """The piece that the tables describe: one design, or several joined."""
    if "parts" in tables:
        return build_composed(tables, shop.bench, files)
    if "design" not in tables:
        raise InputError("design", "it is missing.", 'Add design = "tube-box".')
    chosen = design(tables["design"])
    return built_of(read_brief(tables, chosen, shop.bench, files))


def _field_at(tables: Mapping[str, Any], place: Sequence[str]) -> Field | None:
    """The field that stands at a place of the tables, in a part's own too; None when unknown."""
    own = tables
    if place[0] == "parts":
        own, place = tables["parts"][place[1]], place[2:]
    found = design(own.get("design"), "design").fields
    return {field.path: field for field in found}.get(".".join(place))


def shop_of(path: str | None, folder: str = "") -> Shop:
    """The shop of a shop file: the one named, else shop.toml in the folder, else the defaults."""
    beside = os.path.join(folder, SHOP_FILE)
    if path is None and not os.path.isfile(beside):
        return default_shop()
    chosen = beside if path is None else path
    return read_shop(read_tables(read_text(chosen, "shop"), "shop"), os.path.basename(chosen))


def plan_file(path: str, shop_path: str | None = None) -> Plan:
    """The plan of a piece file, in the shop named, or of a shop.toml beside it, or the defaults."""
    tables = read_tables(read_text(path))
    folder = os.path.dirname(path)
    return plan_tables(tables, shop_of(shop_path, folder), beside(folder))


def beside(folder: str) -> Files:
    """Drawing files by their names, from a piece file's own folder on."""

    def read(name: str, field: str) -> bytes:
        return read_bytes(os.path.join(folder, name), field)

    return read
