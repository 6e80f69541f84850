"""The shop file: defaults marked as such, and what the user changes of them."""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from functools import cache
from typing import Any

from hollowright.designs.bench import Bench
from hollowright.errors import HollowrightError, InputError, Problems, UnknownName, shown
from hollowright.piece import Window
from hollowright.quantity import Quantity, exact
from hollowright.quantity.readings import Instrument
from hollowright.units import read_length, read_number

PRACTICE = "common practice, no source"
TABLES = ("settings", "windows", "calliper")


@dataclass(frozen=True)
class Setting:
    """One number of the shop: value [mm unless unit says otherwise], limits, where it's from."""

    id: str
    value: float
    label: str
    unit: str = "mm"
    source: str = PRACTICE
    low: float = 0.0
    high: float = 100.0

    @property
    def quantity(self) -> Quantity:
        """The setting as a quantity without doubt."""
        return exact(self.id, self.label, self.unit, self.value, "shop", self.source)


@dataclass(frozen=True)
class Shop:
    """All of a shop's numbers."""

    settings: Mapping[str, Setting]
    windows: Mapping[str, Window]
    calliper: Instrument
    name: str = "the defaults"

    def value(self, id: str) -> float:
        """A setting's number [mm or 1]; UnknownName when there is none."""
        if id not in self.settings:
            raise UnknownName("shop.settings", id, tuple(self.settings))
        return self.settings[id].value

    def quantity(self, id: str) -> Quantity:
        """A setting as a quantity."""
        self.value(id)
        return self.settings[id].quantity

    @property
    def bench(self) -> Bench:
        """What a design may know of this shop."""
        table = {id: setting.quantity for id, setting in self.settings.items()}
        return Bench(self.calliper, self.windows, table)


@cache
def default_shop() -> Shop:
    """The shop as it stands before the user changes anything."""
    import tomllib

    with open(os.path.join(os.path.dirname(__file__), "defaults.toml"), "rb") as file:
        data = tomllib.load(file)
    settings = {id: Setting(id=id, **row) for id, row in data["settings"].items()}
    windows = {feel: (float(low), float(high)) for feel, (low, high) in data["windows"].items()}
    return Shop(settings, windows, Instrument(id="calliper", **data["calliper"]))


def read_shop(data: Mapping[str, Any], name: str = "this shop's own") -> Shop:
    """The defaults with a user's shop file laid over them; Problems names every wrong key.

    data: tables 'settings' (id = value), 'windows' (feel = [low, high]) and 'calliper'.
    """
    shop = default_shop()
    faults: list[HollowrightError] = []
    faults += [UnknownName("shop", name, TABLES) for name in data if name not in TABLES]
    changed = _settings(_table(data, "settings", faults), shop, faults)
    windows = _windows(_table(data, "windows", faults), shop, faults)
    calliper = _instrument(_table(data, "calliper", faults), shop.calliper, faults)
    if faults:
        raise Problems(faults)
    return Shop(changed, windows, calliper, name)


def _table(data: Mapping[str, Any], name: str, faults: list[HollowrightError]) -> Mapping[str, Any]:
    table = data.get(name, {})
    if isinstance(table, Mapping):
        return table
    faults.append(InputError(f"shop.{name}", "it isn't a table.", f"Begin it with [{name}]."))
    return {}


def _settings(
    table: Mapping[str, Any], shop: Shop, faults: list[HollowrightError]
) -> dict[str, Setting]:
    settings = dict(shop.settings)
    for id, given in table.items():
        field = f"shop.settings.{id}"
        try:
            if id not in settings:
                raise UnknownName("shop.settings", id, tuple(settings))
            old = settings[id]
            settings[id] = replace(old, value=_number(given, field, old), source="this shop's own")
        except HollowrightError as fault:
            faults.append(fault)
    return settings


def _number(given: Any, field: str, old: Setting) -> float:
    if old.unit == "mm":
        mm = read_length(given, field, f"{old.value:g} mm").mm
        return read_number(mm, field, f"{old.value:g} mm", old.low, old.high)
    return read_number(given, field, f"{old.value:g}", old.low, old.high)


def _windows(
    table: Mapping[str, Any], shop: Shop, faults: list[HollowrightError]
) -> dict[str, Window]:
    windows = dict(shop.windows)
    for feel, given in table.items():
        field = f"shop.windows.{feel}"
        try:
            if feel not in windows:
                raise UnknownName("shop.windows", feel, tuple(windows))
            if not isinstance(given, list) or len(given) != 2:
                raise InputError(field, f"{shown(given)} isn't a window.", "Write [0.015, 0.045].")
            low, high = (read_length(v, field, "0.03", signed=True).mm for v in given)
            if not -1 <= low < high <= 3:
                raise InputError(field, f"{low:g} to {high:g} isn't a window.", "Low before high.")
            windows[feel] = (low, high)
        except HollowrightError as fault:
            faults.append(fault)
    return windows


def _instrument(
    table: Mapping[str, Any], old: Instrument, faults: list[HollowrightError]
) -> Instrument:
    known = tuple(each.name for each in fields(Instrument) if each.name not in ("id", "source"))
    changes: dict[str, Any] = {}
    for key, given in table.items():
        field = f"shop.calliper.{key}"
        try:
            if key not in known:
                raise UnknownName("shop.calliper", key, known)
            if key == "name":
                changes[key] = " ".join(str(given).split())[:40] or old.name
            else:
                high = 20.0 if key in ("jaw", "inside_flat") else 1.0
                mm = read_length(given, field, "0.02 mm").mm
                low = 0.0001 if key in ("resolution", "repeatability") else 0.0
                changes[key] = read_number(mm, field, "0.02 mm", low, high)
        except HollowrightError as fault:
            faults.append(fault)
    return replace(old, **changes, source="this shop's own") if changes else old
