"""The metals: density, melting, heat and stiffness, each value with its source."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

from hollowright.errors import InputError, UnknownName
from hollowright.handbook.sources import Sourced, read_data

PROPERTIES = (
    "density",
    "solidus",
    "liquidus",
    "conductivity",
    "specific_heat",
    "youngs_modulus",
    "yield_annealed",
    "expansion",
)
"""The measured properties of a metal, as its fields are named."""


@dataclass(frozen=True)
class Metal:
    """One metal, each property with its unit, source and what other sources say.

    density [g/cm3], solidus and liquidus [degC], conductivity [W/mK], specific_heat [J/kgK],
    youngs_modulus [GPa], yield_annealed [MPa], expansion [1e-6/K].
    """

    id: str
    name: str
    aliases: tuple[str, ...]
    density: Sourced
    solidus: Sourced
    liquidus: Sourced
    conductivity: Sourced
    specific_heat: Sourced
    youngs_modulus: Sourced
    yield_annealed: Sourced
    expansion: Sourced
    cautions: tuple[str, ...]


def _sourced(rows: Sequence[Mapping[str, Any]], unit: str) -> Sourced:
    """The first row as the value that is used, the rest as its alternatives."""

    def one(row: Mapping[str, Any], others: tuple[Sourced, ...] = ()) -> Sourced:
        return Sourced(float(row["value"]), unit, row["source"], row.get("note", ""), others)

    return one(rows[0], tuple(one(row) for row in rows[1:]))


@cache
def metals() -> tuple[Metal, ...]:
    """Every metal of the handbook, in the file's order."""
    data = read_data("metals")
    units = data["units"]
    return tuple(
        Metal(
            id=row["id"],
            name=row["name"],
            aliases=tuple(row["aliases"]),
            cautions=tuple(row["cautions"]),
            **{key: _sourced(row[key], units[key]) for key in PROPERTIES},
        )
        for row in data["metal"]
    )


def _plain(name: str) -> str:
    """A name as it is compared: lower case, single spaces, hyphen as space."""
    return " ".join(name.lower().replace("-", " ").split())


@cache
def _by_name() -> Mapping[str, Metal]:
    return {_plain(name): each for each in metals() for name in (each.id, each.name, *each.aliases)}


def metal(name: object, field: str = "metal") -> Metal:
    """The metal of that id, name or alias, whatever its capitals.

    field: the name of the box, for the error. Raises UnknownName with 'did you mean'.
    """
    found = _by_name().get(_plain(name)) if isinstance(name, str) else None
    if found is None:
        known = [text for each in metals() for text in (each.id, each.aliases[0])]
        raise UnknownName(field, name, known)
    return found


def density_by_volume(parts: Mapping[str, float]) -> float:
    """Density [g/cm3] of an alloy from its parts by weight, by the volume rule.

    density = sum(parts) / sum(part / density of the element)

    parts: element symbol (Au, Ag, Cu, Zn) -> parts by weight, any total. Within 0.1 % for sterling;
    2.4 % low for cartridge brass, which shrinks in mixing. Raises InputError for no parts or a part
    that isn't positive, UnknownName for an element that isn't in the table.
    Source: worked example in a jeweller's reference (carat-table).

    >>> round(density_by_volume({"Ag": 925, "Cu": 75}), 3)
    10.357
    """
    elements = read_data("metals")["elements"]
    for symbol, part in parts.items():
        if symbol not in elements:
            raise UnknownName("parts", symbol, tuple(elements))
        if not 0 < part < float("inf"):
            raise InputError("parts", f"{symbol} is {part}.", "Every part must be above 0.")
    if not parts:
        raise InputError("parts", "No parts are given.", "Write for instance Ag 925, Cu 75.")
    volume = sum(part / elements[symbol]["value"] for symbol, part in parts.items())
    return sum(parts.values()) / float(volume)
