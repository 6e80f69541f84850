"""What the layout page was asked: pieces and how many, how blanks may lie, what is pinned."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from hollowright.errors import HollowrightError, InputError, shown
from hollowright.job.job import plan_tables, read_tables
from hollowright.plan.laid import TURNING
from hollowright.plan.orders import MOST_COPIES
from hollowright.plan.plan import Plan
from hollowright.shapes.nesting.problem import Spot
from hollowright.shop import Shop
from hollowright.units import read_number

MOST_PIECES = 20
"""So many piece files lie on one layout page."""

MOST_SPOTS = 2000
"""So many spots are read from a page; more is no layout of ours."""

SECONDS = 20
"""How long a search lasts unless it is said [s]."""

MOST_SECONDS = 120
"""No search lasts longer [s]."""

FARTHEST = 1e5
"""No spot lies farther from its sheet's corner [mm]."""


@dataclass(frozen=True)
class AskedPiece:
    """One piece file on the page: its text, its plan, how many (0 while that can't be read)."""

    text: str
    plan: Plan
    copies: int
    copies_text: str


@dataclass(frozen=True)
class Ask:
    """All that was chosen on the page, and what in it is wrong, by the box's name.

    turning: for all; turning_of, over, strips (sawn from strip): by flat id. drawer: whether its
    metal is used. pins, spots: what a person pinned, and where everything lay on the page that sent
    this. anew: search even where something found before is kept.
    """

    pieces: tuple[AskedPiece, ...]
    turning: str = "free"
    turning_of: Mapping[str, str] = field(default_factory=dict)
    over: tuple[str, ...] = ()
    strips: tuple[str, ...] = ()
    drawer: bool = True
    seconds: int = SECONDS
    pins: tuple[Spot, ...] = ()
    spots: tuple[Spot, ...] = ()
    anew: bool = False
    page: str = ""
    faults: Mapping[str, HollowrightError] = field(default_factory=dict)

    @property
    def whole(self) -> bool:
        """Whether there is something to lay out, and nothing wrong in how many."""
        return bool(self.pieces) and all(each.copies for each in self.pieces)


Sent = Mapping[str, Sequence[str]]
"""A sent form: every text by its box's name."""


def read_ask(sent: Sent, shop: Shop | None, texts: Sequence[str]) -> Ask:
    """What a sent form asks for; `texts`: its piece files. Faults are gathered, none is raised."""
    faults: dict[str, HollowrightError] = {}
    pieces = _pieces(texts[:MOST_PIECES], sent.get("copies", ()), shop, faults)
    if len(texts) > MOST_PIECES:
        faults["file"] = InputError(
            "file", f"{len(texts)} pieces are too many.", f"Lay out {MOST_PIECES} at most."
        )
    strips = _named(sent, "strip:")
    pins = read_spots(_one(sent, "pins"), "pins", faults, pinned=True)
    return Ask(
        pieces,
        turning=_rule(_one(sent, "turning")) or "free",
        turning_of=_turning_of(sent),
        over=_named(sent, "over:"),
        strips=strips,
        drawer=_one(sent, "drawer") != "no",
        seconds=_seconds(sent, faults),
        pins=tuple(pin for pin in pins if pin.item not in strips),
        spots=read_spots(_one(sent, "spots"), "spots", faults),
        anew=bool(_one(sent, "anew")),
        page=_one(sent, "page")[:40],
        faults=faults,
    )


def _one(sent: Sent, name: str) -> str:
    found = sent.get(name, ())
    return found[-1].strip() if found else ""


def _named(sent: Sent, start: str) -> tuple[str, ...]:
    """What boxes whose names begin so are for: the flat ids that were ticked."""
    return tuple(name.removeprefix(start) for name in sent if name.startswith(start))[:MOST_SPOTS]


def _rule(text: str) -> str:
    return text if text in TURNING else ""


def _turning_of(sent: Sent) -> dict[str, str]:
    """The rules chosen for single flats; those that are as for all are left out."""
    chosen = {n.removeprefix("turning:"): _rule(_one(sent, n)) for n in sent if ":" in n}
    return {name: rule for name, rule in chosen.items() if rule}


def _pieces(
    texts: Sequence[str], copies: Sequence[str], shop: Shop | None, faults: dict[str, Any]
) -> tuple[AskedPiece, ...]:
    found: list[AskedPiece] = []
    for number, text in enumerate(texts):
        said = copies[number].strip() if number < len(copies) else "1"
        try:
            plan = plan_tables(read_tables(text), shop)
        except HollowrightError as fault:
            faults["file"] = fault
            continue
        found.append(AskedPiece(text, plan, _copies(said, f"copies-{len(found)}", faults), said))
    return tuple(found)


def _copies(text: str, name: str, faults: dict[str, Any]) -> int:
    if text.isascii() and text.isdigit() and len(text) < 9 and 1 <= int(text) <= MOST_COPIES:
        return int(text)
    said = f"{shown(text)} isn't a whole number from 1 to {MOST_COPIES}."
    faults[name] = InputError(name, said, f"Write 1 to {MOST_COPIES}.")
    return 0


def _seconds(sent: Sent, faults: dict[str, Any]) -> int:
    text = _one(sent, "seconds")
    if not text:
        return SECONDS
    try:
        return int(read_number(text, "seconds", f"{SECONDS}", 1, MOST_SECONDS))
    except HollowrightError as fault:
        faults["seconds"] = fault
        return SECONDS


def read_spots(
    text: str, name: str, faults: dict[str, Any], *, pinned: bool = False
) -> tuple[Spot, ...]:
    """Spots as the page carries them: a JSON list of [flat, sheet, x, y, turn, over, pinned]."""
    if not text:
        return ()
    try:
        return tuple(_spot(row, pinned) for row in _rows(json.loads(text)))
    except (ValueError, TypeError, RecursionError):
        faults[name] = InputError(name, "the page sent spots that can't be read.", "Lay out anew.")
        return ()


def _rows(told: Any) -> list[Any]:
    if not isinstance(told, list) or len(told) > MOST_SPOTS:
        raise TypeError(told)
    return told


def _spot(row: Any, pinned: bool) -> Spot:
    item, sheet, x, y, turn, over, pin = row
    if not (isinstance(item, str) and isinstance(sheet, str)):
        raise TypeError(row)
    numbers = [float(each) for each in (x, y, turn)]
    if not all(abs(each) <= FARTHEST for each in numbers):
        raise ValueError(row)
    return Spot(item, sheet, numbers[0], numbers[1], numbers[2], bool(over), pinned or bool(pin))


def written_spots(spots: Sequence[Spot]) -> str:
    """Spots as the page carries them; read back by `read_spots` to the same numbers."""
    rows = [[s.item, s.bin, s.x, s.y, s.turn, s.mirrored, s.pinned] for s in spots]
    return json.dumps(rows, separators=(",", ":"), allow_nan=False)
