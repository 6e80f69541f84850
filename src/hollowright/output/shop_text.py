"""The shop's numbers as a TOML file to change, and as JSON."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hollowright.shop import Setting, Shop
from hollowright.units import exact_decimal


def shop_toml(shop: Shop) -> str:
    """A shop file that reads back as this shop; lengths in millimetres."""
    return "\n".join(_lines(shop)) + "\n"


def _lines(shop: Shop) -> Iterator[str]:
    yield "# This shop's numbers: change what is yours, delete the rest, give it back with --shop."
    yield "# Lengths are millimetres. What isn't otherwise said is common practice, no source."
    yield ""
    yield "[settings]"
    for setting in shop.settings.values():
        yield f"{setting.id} = {exact_decimal(setting.value)}  # {_remark(setting)}"
    yield ""
    yield "[windows]  # diametral clearance by feel: least, greatest"
    for feel, (low, high) in shop.windows.items():
        yield f"{feel} = [{exact_decimal(low)}, {exact_decimal(high)}]"
    yield ""
    yield f"[calliper]  # {shop.calliper.source}"
    for key, remark in INSTRUMENT_KEYS.items():
        yield f"{key} = {exact_decimal(getattr(shop.calliper, key))}  # {remark}"


SETTING_KEYS = ("value", "label", "unit", "low", "high", "source")
INSTRUMENT_KEYS = {
    "mpe": "largest permissible error of a reading",
    "inside_mpe": "what the inside jaws add to it",
    "resolution": "step of the display",
    "repeatability": "standard deviation of one reading, pooled over many",
    "zero": "how far the zero may be off",
    "jaw": "width of flat outside jaws; 0 for ball or knife edge",
    "inside_flat": "width of the inside jaws' flats; 0 for knife edge",
}


def _remark(setting: Setting) -> str:
    unit = f" [{setting.unit}]" if setting.unit not in ("mm", "") else ""
    return f"{setting.label}{unit}"


def shop_data(shop: Shop) -> dict[str, Any]:
    """The shop as plain dictionaries: settings with label, unit, limits and source."""
    return {
        "settings": {
            id: {key: getattr(setting, key) for key in SETTING_KEYS}
            for id, setting in shop.settings.items()
        },
        "windows": {feel: list(window) for feel, window in shop.windows.items()},
        "calliper": {key: getattr(shop.calliper, key) for key in INSTRUMENT_KEYS},
    }
