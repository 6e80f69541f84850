"""A piece file given to the page: chosen or pasted, never named by a path."""

from __future__ import annotations

from collections.abc import Mapping

from hollowright.errors import HollowrightError, InputError
from hollowright.job.job import plan_tables, read_tables
from hollowright.shop import Shop
from hollowright.web.form import Values, values_of
from hollowright.web.outcome import Outcome, with_faults, worked_out


def opened(
    sent: Mapping[str, object], values: Values, good: str, shop: Shop | None = None
) -> Outcome:
    """What came of the given piece file; where it can't be read, what was typed stays as it is."""
    try:
        tables = read_tables(given_text(sent))
        filled = values_of(tables)
    except HollowrightError as fault:
        return with_faults(values, good, fault, shop)
    try:
        plan_tables(tables, shop)
    except HollowrightError as fault:
        return with_faults(filled, good, fault, shop)
    return worked_out(filled, shop=shop)


def given_text(sent: Mapping[str, object]) -> str:
    """The piece file's text; InputError when none was given or it isn't text."""
    file = sent.get("file")
    if isinstance(file, bytes) and file:
        try:
            return file.decode("utf-8-sig")
        except UnicodeDecodeError:
            raise InputError("file", "it isn't UTF-8 text.", "Choose a piece file.") from None
    pasted = sent.get("pasted", "")
    if isinstance(pasted, str) and pasted.strip():
        return pasted
    raise InputError("file", "none was given.", "Choose a piece file, or paste its text.")
