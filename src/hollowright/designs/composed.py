"""A piece of several designs joined: the [parts.*] tables of a piece file to one Piece."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from hollowright.designs import design
from hollowright.designs.bench import Bench
from hollowright.designs.brief import built_of, read_brief
from hollowright.designs.drawings import Files, no_files
from hollowright.designs.fields import Design, Example
from hollowright.designs.joined import Place, named_for, opened, together
from hollowright.designs.on_walls import Hole, clear_of_others, wall_of, within_the_wall
from hollowright.errors import (
    Caution,
    HollowrightError,
    InputError,
    PlanRefused,
    Problems,
    UnknownName,
    shown,
)
from hollowright.formulas import ring
from hollowright.piece import Joint, Piece, Wall, Work
from hollowright.quantity import Quantity
from hollowright.shapes.apart import UP
from hollowright.shapes.frames import Frame

MOST_PARTS = 12
"""A piece of more designs than this is a mistake of the file."""

TITLE = "Several designs joined"
SUMMARY = "Each part is a design of its own; one sits on another's wall, whose sizes it follows."

_NAME = re.compile(r"[a-z][a-z0-9_]{0,20}")


def build_composed(tables: Mapping[str, Any], bench: Bench, files: Files = no_files) -> Piece:
    """The piece of a file with [parts.*]: each a design with its own tables, joined by `joins`.

    A [stock.*] table beside them serves every part that has none of that name. Errors name the
    field by its whole path.
    """
    parts = _parts(tables)
    title = tables.get("title", "untitled")
    shared = _Shared(bench, files, bench.instrument.zero_error())
    built: dict[str, Piece] = {}
    for name in _in_order(parts):
        table = _with_stock(parts[name], tables.get("stock"), name)
        built = _add(built, name, table, shared, parts[name].get("joins"))
    if not isinstance(title, str) or len(title) > 120 or not title.isprintable():
        raise InputError("title", f"{shown(title)} isn't a title.", "Write one line.")
    return together(title.strip() or "untitled", tuple(built.values()))


class _Shared:
    """What all parts are read with: one bench, one calliper's zero error, one way to files.

    holes: what was cut into which wall so far.
    """

    def __init__(self, bench: Bench, files: Files, zero: Quantity) -> None:
        self.bench = bench
        self.files = files
        self.zero = zero
        self.holes: list[Hole] = []


def _parts(tables: Mapping[str, Any]) -> dict[str, Mapping[str, Any]]:
    """The [parts.*] tables; InputError for what can't be one, or stands beside them."""
    given = tables.get("parts")
    if not isinstance(given, Mapping) or not given:
        raise InputError("parts", "it isn't a table of parts.", "Begin one with [parts.body].")
    strange = [key for key in tables if key not in ("title", "parts", "stock")]
    if strange:
        raise InputError(
            str(strange[0])[:80],
            "beside [parts.*] it has no meaning.",
            "Put it into a part's table.",
        )
    if len(given) > MOST_PARTS:
        raise InputError("parts", f"{len(given)} parts are too many.", f"At most {MOST_PARTS}.")
    _names_apart(tuple(given))
    for name, table in given.items():
        if not _NAME.fullmatch(name):
            raise InputError(f"parts.{name}"[:80], "it isn't a name.", "Write parts.spout, say.")
        if not isinstance(table, Mapping) or "design" not in table:
            raise InputError(f"parts.{name}.design", "it is missing.", 'Add design = "tube-box".')
        joins = table.get("joins")
        if joins is not None and not isinstance(joins, str):
            raise InputError(
                f"parts.{name}.joins", f"{shown(joins)} isn't a part's name.", 'Write "body", say.'
            )
    return dict(given)


def _names_apart(names: Sequence[str]) -> None:
    """Refuse a name that begins with another and a line: their numbers would be called alike."""
    for name in names:
        for other in names:
            if name.startswith(f"{other}_"):
                raise InputError(
                    f"parts.{name}", f"its numbers could be called as {other}'s are.",
                    f"Choose a name that doesn't begin with {other}_.",
                )  # fmt: skip


def _in_order(parts: Mapping[str, Mapping[str, Any]]) -> list[str]:
    """Every part after the one it joins; InputError for unknown hosts and for circles."""
    order: list[str] = []
    left = list(parts)
    for name in left:
        host = parts[name].get("joins")
        if host is not None and (host not in parts or host == name):
            others = tuple(each for each in parts if each != name)
            raise UnknownName(f"parts.{name}.joins", host, others)
    while left:
        ready = next((n for n in left if parts[n].get("joins") in (None, *order)), None)
        if ready is None:
            raise InputError(f"parts.{left[0]}.joins", "the parts join in a circle.", "Free one.")
        left.remove(ready)
        order.append(ready)
    if sum(parts[name].get("joins") is None for name in order) > 1:
        loose = [name for name in order if parts[name].get("joins") is None][1]
        raise InputError(
            f"parts.{loose}.joins", "it is missing.", f'Say what it meets: joins = "{order[0]}".'
        )
    return order


def _with_stock(table: Mapping[str, Any], common: Any, name: str) -> dict[str, Any]:
    """A part's own tables without `joins`, and the common stock that its design asks for."""
    own = {key: value for key, value in table.items() if key != "joins"}
    if not isinstance(common, Mapping):
        return own
    chosen = _design(own, name)
    asked = {field.path.split(".")[1] for field in chosen.fields if field.path.startswith("stock.")}
    mine = own.get("stock", {})
    if isinstance(mine, Mapping):
        shared = {key: value for key, value in common.items() if key in asked and key not in mine}
        if shared or mine:
            own["stock"] = {**shared, **mine}
    return own


def _design(table: Mapping[str, Any], name: str) -> Design:
    return design(table["design"], f"parts.{name}.design")


def _add(
    built: Mapping[str, Piece], name: str, table: Mapping[str, Any], shared: _Shared, joins: Any
) -> dict[str, Piece]:
    """The pieces so far with one more; the one that it joins gets its hole."""
    made = dict(built)
    try:
        if joins is None:
            made[name] = named_for(_piece(table, name, shared), name)
        elif _goes_on_a_wall(table):
            host, joined = _on_its_wall(made[joins], joins, table, name, shared)
            made |= {joins: host, name: joined}
        else:
            made[name] = _standing(made[joins], table, name, shared)
    except HollowrightError as fault:
        raise _within(fault, name) from None
    return made


def _goes_on_a_wall(table: Mapping[str, Any]) -> bool:
    """Whether a part's design is one that sits on another's wall."""
    return any(field.of_host for field in design(table["design"]).fields)


def _on_its_wall(
    host: Piece, joins: str, table: Mapping[str, Any], name: str, shared: _Shared
) -> tuple[Piece, Piece]:
    """The host with its hole, and the piece that sits on its wall, both in place."""
    wall = wall_of(host, joins, table)
    piece = _piece(table, name, shared, wall)
    at, around = _where(piece)
    out = (math.cos(around), math.sin(around), 0.0)
    frame = Frame((0.0, 0.0, at), out, (0.0, 0.0, 1.0))
    within_the_wall(piece, wall, at)
    clear_of_others(piece, wall, (at, around), name, shared.holes)
    rides = next(part for part in host.parts if part.id == wall.part).solids[0].body.id
    away = APART * wall.diameter.value
    joined = named_for(piece, name, wall, Place(frame, (out[0] * away, out[1] * away, 0.0), rides))
    if wall.seamed:
        joined = replace(joined, cautions=(*joined.cautions, _off_the_seam(name, wall.part)))
    return replace(host, parts=opened(host.parts, wall, joined)), joined


def _off_the_seam(name: str, part: str) -> Caution:
    text = (
        f"The wall that the {name.replace('_', ' ')} sits on has a seam: turn it so that hole and "
        "joint miss it."
    )
    return Caution(f"{name}_off_the_seam", text, "joint", part)


APART = 0.7
"""How far a joined piece is drawn away from its host, in widths of the host's wall."""


def _standing(host: Piece, table: Mapping[str, Any], name: str, shared: _Shared) -> Piece:
    """A piece that stands on top of another, its axis the other's, soldered round its foot."""
    piece = _piece(table, name, shared)
    if piece.foot is None:
        raise InputError(
            "design", f"{piece.design} has no flat round foot to stand on another.",
            "Join one that has, or one that sits on a wall (tube-saddle).",
        )  # fmt: skip
    bodies = [(solid, part) for part in host.parts for solid in part.solids]
    top, on, below = max(
        ((s.body.reach(UP)[1], s.label, p) for s, p in bodies), key=lambda found: found[0]
    )
    joined = named_for(piece, name, None, Place(Frame((0.0, 0.0, top))))
    seam = ring.length(piece.foot, 0.0).named(f"{name}_foot_length", f"{name}'s foot, once round")
    feet = [(s.body.reach(UP)[0], p) for p in joined.parts for s in p.solids]
    foot = min(feet, key=lambda pair: pair[0])[1]
    joint = Joint(f"{name}_foot", f"{name} on {on}", (foot.id, below.id), seam)
    return replace(
        joined,
        quantities={**joined.quantities, seam.id: seam},
        joints=(*joined.joints, joint),
        work=(*joined.work, _vent(name, on), _set_down(name, on)),
        cautions=(*joined.cautions, _closed_below(name, on)),
    )


def _closed_below(name: str, below: str) -> Caution:
    text = (
        f"Where the {name.replace('_', ' ')} is closed above, it makes a sealed hollow with the "
        f"{below}: drill a vent between them before that heat."
    )
    return Caution(f"{name}_closed_below", text, "safety", name)


def _vent(name: str, below: str) -> Work:
    """The step that opens what two pieces would close between them."""
    said = name.replace("_", " ")
    return Work(
        f"{name}_vent",
        "cut",
        f"Vent what the {said} would close",
        f"If the {said} is closed above, drill through the {below} under it, or through the {said} "
        "where it doesn't show, 1.5 mm or more, before it is set down. Look through the hole: air, "
        "steam and pickle must pass.",
        cautions=("vent", "drill"),
    )


def _set_down(name: str, below: str) -> Work:
    """The step that solders a piece on top of another."""
    return Work(
        f"{name}_set_down",
        "solder",
        f"Solder the {name.replace('_', ' ')} on the {below}",
        f"Rub the foot flat, find its place, scribe round it. Flux, bind or weight it, and feed "
        f"the solder from outside, once round: {{{name}_foot_length}}; medium solder, the earlier "
        "seams painted with yellow ochre.",
        after=(f"{name}_vent",),
        cautions=("vent", "open_end"),
    )


def _piece(table: Mapping[str, Any], name: str, shared: _Shared, wall: Wall | None = None) -> Piece:
    chosen = design(table["design"])
    data = {"title": name, **table}
    brief = read_brief(data, chosen, shared.bench, shared.files, wall, name, shared.zero)
    return built_of(brief)


def _where(piece: Piece) -> tuple[float, float]:
    """Height [mm] and turn [rad] at which a piece meets its host's axis."""
    table = {id.rpartition("_")[2]: q.value for id, q in piece.quantities.items()}
    return table.get("at", 0.0), math.radians(table.get("around", 0.0))


def _within(fault: HollowrightError, name: str) -> HollowrightError:
    """The same fault under the part's whole path."""
    if isinstance(fault, Problems):
        return Problems(_within(each, name) for each in fault.each())
    kind = PlanRefused if isinstance(fault, PlanRefused) else InputError
    return kind(f"parts.{name}.{fault.field}", fault.problem, fault.remedy)


EXAMPLE = Example(
    "can with a spout",
    """title = "Oil can with a spout"

[parts.body]
design = "tube-box"

[parts.body.stock.tube]
metal = "C26000"
outside_diameter = ["38.05", "38.08", "38.02"]
wall = ["1.02", "1.01"]

[parts.body.stock.ring_sheet]
metal = "C26000"
thickness = "22 ga"

[parts.body.stock.cap_sheet]
metal = "C26000"
thickness = ["0.71", "0.70"]

[parts.body.sizes]
height = "62 mm"
lid_share = "0.3"

[parts.spout]
design = "tube-saddle"
joins = "body"             # it sits on the body's wall, whose sizes it follows

[parts.spout.stock.branch]
metal = "C26000"
outside_diameter = ["9.52", "9.54"]
wall = ["0.71", "0.72"]

[parts.spout.sizes]
at = "24 mm"               # height at which the two axes meet, above the body's foot
around = "0"               # degrees round the body
angle = "63"               # between the axes
length = "41 mm"
""",
    {"body_bore": 38.05 - 2 * 1.015},
    "plane geometry, worked by hand from the readings' means",
)
