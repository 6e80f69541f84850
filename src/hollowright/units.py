"""Text to numbers and back: lengths in every spelling of the bench, at the door only.

Inside everything is millimetres, grams, degrees Celsius and minutes. A text that could mean two
things is refused; nothing is silently taken as something else.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from hollowright.errors import InputError, UnknownName, shown

MM_PER_INCH = 25.4
SIXTY_FOURTH = MM_PER_INCH / 64
"""The finest step of a rule in fractions of an inch [mm]."""
"""Exact by definition (international yard and pound agreement, 1959)."""

LONGEST_TEXT = 40
"""A length is never longer than this [characters]."""

LONGEST_LENGTH = 10_000.0
"""No piece of stock at a bench is longer [mm]; more is refused as absurd."""

_UNITS = {
    "": 10,
    "mm": 10,
    "cm": 100,
    "m": 10_000,
    "in": 254,
    "inch": 254,
    "inches": 254,
    '"': 254,
    "″": 254,
    "”": 254,
}
"""Tenths of a millimetre in each unit: whole numbers, so that 1 1/2 in is exactly 38.1."""

_GAUGE_TABLES = {
    "ga": "bs",
    "gauge": "bs",
    "ga b&s": "bs",
    "b&s": "bs",
    "awg": "bs",
    "swg": "swg",
    "bwg": "bwg",
}
_PLAIN = re.compile(r"([0-9]+(?:\.[0-9]*)?|\.[0-9]+)")
_FRACTION = re.compile(r"(?:([0-9]{1,4})(?:\s+|-))?([0-9]{1,4})\s?/\s?([0-9]{1,4})")
_GAUGE = re.compile(r"([0-9]{1,3}(?:/0)?)\s*([a-z][a-z& ]*)")

Gauges = Mapping[str, Callable[[str], float]]
"""The gauge tables by key ('bs', 'swg', 'bwg'): text of the number -> mm, ValueError if none."""


@dataclass(frozen=True)
class Length:
    """A length as it was given: millimetres, the text, the step of its last digit, its gauge."""

    mm: float
    text: str
    step: float
    gauge: str = ""

    @property
    def in_inches(self) -> bool:
        """Whether it was written in inches."""
        return any(sign in self.text for sign in ("in", '"', "″", "”"))

    @property
    def fraction(self) -> float:
        """The step of a length written as a fraction of an inch [mm]; 0 for a decimal.

        A fraction is written in its lowest terms (24/64 as 3/8), so its own denominator says
        little: a sixty-fourth at most.
        """
        return min(self.step, SIXTY_FOURTH) if "/" in self.text else 0.0


def read_length(
    given: object,
    field: str,
    example: str = "38.05 mm",
    gauges: Gauges | None = None,
    at_least: float = 0.0,
    may_be_zero: bool = True,
    signed: bool = False,
) -> Length:
    """One length from a text or a bare number of millimetres.

    given: what stands in the field (text, int or float). field: its name, for the error.
    example: what would be right there. gauges: tables for `20 ga`, `20 swg` where sheet is meant.
    Raises InputError for a comma decimal, a stray unit, a negative or non-finite number, an empty
    text, an absurd size.
    """
    length = _read_number(given, field, example) or _read_text(str(given), field, example, gauges)
    if not math.isfinite(length.mm):
        raise InputError(field, f"{shown(given)} isn't a usable length.", f"Write {example}.")
    if length.mm < 0 and not signed:
        raise InputError(field, f"{shown(given)} is negative.", f"Write {example}.")
    if length.mm == 0 and not may_be_zero:
        raise InputError(field, "0 isn't possible here.", f"Write {example}.")
    if abs(length.mm) > LONGEST_LENGTH:
        raise InputError(
            field,
            f"{shown(given)} is over {LONGEST_LENGTH / 1000:g} m.",
            f"Check the unit; write {example}.",
        )
    if not signed and length.mm < at_least:
        raise InputError(
            field, f"{shown(given)} is under {at_least:g} mm.", f"Write {example}, say."
        )
    return length


def _read_number(given: object, field: str, example: str) -> Length | None:
    if isinstance(given, bool) or given is None or isinstance(given, (list, dict)):
        raise InputError(field, f"{shown(given)} isn't a length.", f"Write {example}.")
    if isinstance(given, (int, float)):
        if isinstance(given, int) and abs(given) > LONGEST_LENGTH:
            given = math.inf if given > 0 else -math.inf
        return Length(float(given), f"{given}", _step(f"{given}"))
    return None


def _read_text(text: str, field: str, example: str, gauges: Gauges | None) -> Length:
    clean = text.strip()
    if not clean:
        raise InputError(field, "it is empty.", f"Write {example}.")
    if len(clean) > LONGEST_TEXT:
        raise InputError(field, f"{shown(clean)} is too long.", f"Write {example}.")
    if "," in clean:
        raise _comma(clean, field, example)
    sign = 1.0
    if clean[0] in "+-−":
        sign = 1.0 if clean[0] == "+" else -1.0
        clean = clean[1:].lstrip()
    if sign > 0 and (by_gauge := _read_gauge(clean.lower(), field, gauges)):
        return by_gauge
    number, step, rest = _leading_number(clean, field, example)
    unit = rest.strip().lower().rstrip(".") if rest.strip() != "." else rest
    if unit not in _UNITS:
        raise InputError(
            field, f"{shown(text)} isn't a length.", f"Write {example} (units: mm, cm, in)."
        )
    if unit == "" and "/" in clean:
        raise InputError(
            field, f"{shown(text)} has no unit.", f'A fraction wants one: {clean} in, or {clean}".'
        )
    tenths = _UNITS[unit]
    mm = number if tenths == 10 else number * tenths / 10
    return Length(sign * mm, clean, step * tenths / 10)


def _comma(clean: str, field: str, example: str) -> InputError:
    guess = clean.replace(",", ".", 1)
    if re.fullmatch(r"[0-9]+,[0-9]{3}\b.*", clean):
        remedy = f"Is it {guess} or {clean.replace(',', '', 1)}? Write it with a point."
    elif clean.count(",") == 1 and re.fullmatch(r"[0-9]+,[0-9]+\s*[a-z\"]*", clean):
        bare = re.split(r"[^0-9.]", guess)[0]
        remedy = f"Write {bare} or {bare} mm." if bare == guess else f"Write {guess}."
    else:
        remedy = f"Write {example}; several readings go in a list."
    return InputError(field, f"{shown(clean)} isn't a length.", remedy)


def _read_gauge(clean: str, field: str, gauges: Gauges | None) -> Length | None:
    match = _GAUGE.fullmatch(clean)
    table = _GAUGE_TABLES.get(match[2].strip()) if match else None
    if match is None or table is None:
        return None
    if not gauges or table not in gauges:
        raise InputError(
            field, f"{shown(clean)} is a sheet gauge.", "Measure this one and write it in mm or in."
        )
    try:
        mm = gauges[table](match[1])
    except (ValueError, KeyError) as fault:
        reason = str(fault.args[0]) if fault.args else "no such gauge"
        raise InputError(field, f"{shown(clean)}: {reason}.", "Write 20 ga, or 20 swg.") from None
    return Length(mm, clean, 0.0, gauge=table)


def _leading_number(clean: str, field: str, example: str) -> tuple[float, float, str]:
    """The number a text starts with, the step of its last digit, and what follows it."""
    if match := _FRACTION.match(clean):
        whole, top, bottom = match[1], int(match[2]), int(match[3])
        if bottom == 0 or (whole and top >= bottom):
            raise InputError(
                field, f"{shown(clean)} isn't a fraction of an inch.", "Write 1 1/2 in."
            )
        return int(whole or 0) + top / bottom, 1.0 / bottom, clean[match.end() :]
    if match := _PLAIN.match(clean):
        return float(match[1]), _step(match[1]), clean[match.end() :]
    raise InputError(field, f"{shown(clean)} isn't a length.", f"Write {example}.")


def _step(number: str) -> float:
    """The step of the last written digit: 0.01 for '38.05', 1 for '38'."""
    mantissa, _, power = number.lower().partition("e")
    decimals = len(mantissa.partition(".")[2])
    return 10.0 ** (int(power or 0) - decimals) if power.lstrip("+-").isdigit() or not power else 0


def read_number(given: object, field: str, example: str, low: float, high: float) -> float:
    """A bare number between low and high (both allowed), or a fraction like 1/3, or 30 %."""
    if isinstance(given, (int, float)) and not isinstance(given, bool):
        number = float(given) if abs(given) < high + 1 else math.inf
    else:
        number = _number_from_text(str(given).strip(), field, example)
    if not math.isfinite(number) or not low <= number <= high:
        raise InputError(
            field, f"{shown(given)} isn't between {low:g} and {high:g}.", f"Write {example}."
        )
    return number


def _number_from_text(clean: str, field: str, example: str) -> float:
    if match := re.fullmatch(r"([0-9]{1,4})\s*/\s*([0-9]{1,4})", clean):
        return int(match[1]) / int(match[2]) if int(match[2]) else math.inf
    if match := re.fullmatch(r"([0-9]{1,6}(?:\.[0-9]{1,9})?)\s*(%?)", clean):
        return float(match[1]) / (100.0 if match[2] else 1.0)
    raise InputError(field, f"{shown(clean)} isn't a number.", f"Write {example}.")


_ANGLE = re.compile(r"([+\-−]?)([0-9]{1,4}(?:\.[0-9]{1,9})?)\s*(?:deg|degrees?|°)?")


def read_angle(given: object, field: str, example: str, low: float, high: float) -> float:
    """An angle in degrees between low and high: 30, 30 deg or 30°."""
    text = str(given).strip() if isinstance(given, (str, int, float)) else ""
    match = None if isinstance(given, bool) else _ANGLE.fullmatch(text.lower())
    if match is None:
        raise InputError(field, f"{shown(given)} isn't an angle.", f"Write {example}.")
    angle = float(match[2]) * (-1.0 if match[1] in ("-", "−") else 1.0)
    if not low <= angle <= high:
        raise InputError(
            field,
            f"{shown(given)} isn't between {low:g} and {high:g} degrees.",
            f"Write {example}.",
        )
    return angle


_IN_A_POINT = re.compile(r"\S+(?:\s+\d+/\d+)?(?:\s+[a-zA-Z\"″]+)?")


def read_points(given: object, field: str, example: str, most: int = 200) -> tuple[
    tuple[float, float], ...
]:  # fmt: skip
    """Pairs of lengths [mm]: [[20, 0], ["1 in", 12]], or in one text: '20 0; 1 1/2 in 12'."""
    pairs: object = given
    if isinstance(given, str):
        pairs = [_IN_A_POINT.findall(pair) for pair in given.split(";") if pair.strip()]
    wrong = f"Write {example}."
    if not isinstance(pairs, list) or not pairs:
        raise InputError(field, f"{shown(given)} isn't a list of points.", wrong)
    if len(pairs) > most:
        raise InputError(field, f"{len(pairs)} points are too many.", f"Give {most} at most.")
    for pair in pairs:
        if not isinstance(pair, list) or len(pair) != 2:
            said = " ".join(map(str, pair)) if isinstance(pair, list) else pair
            raise InputError(field, f"{shown(said)} isn't a point.", wrong)
    return tuple(
        (read_length(x, field, example).mm, read_length(y, field, example).mm) for x, y in pairs
    )


def read_choice(given: object, field: str, known: tuple[str, ...]) -> str:
    """One of the known words; UnknownName with 'did you mean' otherwise."""
    word = str(given).strip().lower() if isinstance(given, str) else given
    if word not in known:
        raise UnknownName(field, given, known)
    return str(word)


LARGEST_ROUNDED = 1e15
"""Above this a double holds no decimals to round."""


def format_number(value: float, decimals: int = 2) -> str:
    """A number with a fixed number of decimals, a half rounded up; never '-0.00'.

    >>> format_number(-0.001), format_number(35.885), format_number(0.643777, 3)
    ('0.00', '35.89', '0.644')
    """
    if not math.isfinite(value):
        return "∞" if value > 0 else "-∞" if value < 0 else "?"
    if abs(value) > LARGEST_ROUNDED:
        return f"{value:.{decimals}f}"
    exact = Decimal(repr(round(float(value), 9)))
    text = f"{exact.quantize(Decimal(1).scaleb(-decimals), ROUND_HALF_UP):f}"
    return text[1:] if text.startswith("-") and not float(text) else text


def format_inch(mm: float) -> str:
    """A length in decimal inches to a thousandth, for people who mark in inches."""
    return f"{format_number(mm / MM_PER_INCH, 3)} in"


def exact_decimal(mm: float) -> str:
    """The shortest text that reads back as the same number of millimetres."""
    return format(Decimal(repr(float(mm))).normalize(), "f")
