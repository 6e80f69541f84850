"""What is typed in one box, taken apart into readings, and put together again."""

from __future__ import annotations

import re
from collections.abc import Sequence

_FRACTION = r"[0-9]+\s?/\s?[0-9]+"
_NUMBER = rf"[+\-−]?(?:[0-9]+(?:\s+|-){_FRACTION}|{_FRACTION}|[0-9]*\.?[0-9]+|[0-9]+\.)"
_UNIT = r"""mm|cm|m|inches|inch|in|"|″|”|ga\s+b&s|ga|gauge|b&s|awg|swg|bwg"""
_READING = re.compile(rf"({_NUMBER})\s*({_UNIT})?(?=\s|$)", re.IGNORECASE)
_POINTS = re.compile(r"\s*[^\s,]*\.[^,]*(?:,\s*[^\s,]*\.[^,]*)+")


def split_readings(text: str) -> list[str]:
    """The readings typed in one box: parted by semicolons, line breaks or spaces.

    A unit after the last alone is meant for all of them. A comma parts readings only where each
    has its decimal point; anything else stays whole, for the reader of lengths to refuse.

    >>> split_readings("34.92 34.95; 34.93"), split_readings("1 1/2 in"), split_readings("38,05")
    (['34.92', '34.95', '34.93'], ['1 1/2 in'], ['38,05'])
    >>> split_readings("1.375 1.376 in"), split_readings("22 ga"), split_readings("0.64, 0.65")
    (['1.375 in', '1.376 in'], ['22 ga'], ['0.64', '0.65'])
    """
    if _POINTS.fullmatch(text):
        text = text.replace(",", ";")
    found: list[str] = []
    for part in re.split(r"[;\r\n]", text):
        found += _spaced(part.strip())
    return found


def _spaced(text: str) -> list[str]:
    """One stretch without semicolons: its readings, or the whole when it isn't only readings."""
    if not text:
        return []
    pairs: list[tuple[str, str]] = []
    at = 0
    while at < len(text):
        match = _READING.match(text, at)
        if match is None:
            return [text]
        pairs.append((match[1], match[2] or ""))
        at = match.end()
        while at < len(text) and text[at].isspace():
            at += 1
    last = pairs[-1][1]
    if last and not any(unit for _, unit in pairs[:-1]):
        pairs = [(number, last) for number, _ in pairs]
    return [f"{number} {unit}".strip() for number, unit in pairs]


def joined(readings: Sequence[object]) -> str:
    """Readings as one box shows them."""
    texts = [str(each) for each in readings]
    spaced = " ".join(texts)
    return spaced if split_readings(spaced) == texts else "; ".join(texts)


def toml_text(text: str) -> str:
    r"""A text as a TOML basic string, on one line.

    >>> print(toml_text('5" \\ tab\t'))
    "5\" \\ tab\t"
    """
    named = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\r": "\\r", "\t": "\\t"}
    return '"' + "".join(named.get(c) or _plain(c) for c in text) + '"'


def _plain(character: str) -> str:
    code = ord(character)
    if 0xD800 <= code <= 0xDFFF:
        return "?"
    return f"\\u{code:04X}" if code < 0x20 or code == 0x7F else character
