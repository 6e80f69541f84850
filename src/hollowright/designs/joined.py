"""One piece of several: every id with its part's name, holes cut in the host, all in one list."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from hollowright.designs.brief import part_label
from hollowright.piece import Part, Piece, Solid, Wall, Work
from hollowright.quantity import Quantity
from hollowright.shapes.bodies import Body
from hollowright.shapes.carved import Carved
from hollowright.shapes.frames import Frame
from hollowright.shapes.space import Vector, add

COMMON = {"feel", "weaker", "truing", "kerf", "mass"}
"""Places in a text that the plan fills alike for every part."""

HOST = "host"
"""What a joined piece calls the part that it sits on."""

_PLACE = re.compile(r"\{([a-z0-9_]+)\}")


@dataclass(frozen=True)
class Place:
    """Where a joined piece goes: its frame, how far it is drawn away [mm], what it rides there."""

    frame: Frame
    away: Vector | None = None
    rides: str = ""


def named_for(
    piece: Piece,
    name: str,
    host: Wall | None = None,
    place: Place | None = None,
) -> Piece:
    """A piece with the part's name before every id, its bodies put in their place.

    host: the wall that it is joined to, whose part its joints then name.
    """
    frame = place.frame if place else None

    def called(id: str) -> str:
        return f"{name}_{id}"

    def many(ids: Iterable[str]) -> tuple[str, ...]:
        return tuple(called(id) for id in ids)

    def part_of(id: str) -> str:
        return host.part if host is not None and id == HOST else called(id)

    quantities = _renamed(piece.quantities, name)
    return replace(
        piece,
        quantities=quantities,
        stocks=tuple(
            replace(
                s, id=called(s.id), label=part_label(name, s.label), sawn_once=many(s.sawn_once),
                keys=f"parts.{name}.{s.path}",
            )
            for s in piece.stocks
        ),
        parts=tuple(_part(part, name, place) for part in piece.parts),
        joints=tuple(
            replace(j, id=called(j.id), parts=tuple(map(part_of, j.parts)), after=many(j.after))
            for j in piece.joints
        ),
        fits=tuple(
            replace(
                f, id=called(f.id), part=called(f.part), label=part_label(name, f.label),
                bore=f.bore.named(called(f.bore.id), part_label(name, f.bore.label)),
            )
            for f in piece.fits
        ),
        work=tuple(_work(each, name, called, many) for each in piece.work),
        cautions=tuple(replace(c, id=called(c.id), about=called(c.about)) for c in piece.cautions),
        choices=tuple(replace(c, id=called(c.id)) for c in piece.choices),
        changes=tuple(replace(c, id=called(c.id)) for c in piece.changes),
        templates=tuple(
            replace(t, id=called(t.id), label=part_label(name, t.label)) for t in piece.templates
        ),
        walls=tuple(replace(w, part=called(w.part)) for w in piece.walls),
        openings=tuple(
            replace(o, body=_placed(_body(o.body, name), frame)) for o in piece.openings
        ),
    )  # fmt: skip


def _renamed(table: Mapping[str, Quantity], name: str) -> dict[str, Quantity]:
    """Quantities by ids and with labels that have the part's name."""
    found = {}
    for quantity in table.values():
        own = part_label(name, "")
        label = quantity.label if quantity.label.startswith(own) else own + quantity.label
        found[f"{name}_{quantity.id}"] = quantity.named(f"{name}_{quantity.id}", label)
    return found


def _part(part: Part, name: str, place: Place | None) -> Part:
    id = f"{name}_{part.id}"
    label = in_part(name, part.name)
    mass = part.mass.named(f"{name}_{part.mass.id}", part_label(name, part.mass.label))
    solids = tuple(_solid(solid, name, place) for solid in part.solids)
    meets = f"{name}_{part.blank.meets}" if part.blank.meets else ""
    return replace(
        part, id=id, name=label, stock=f"{name}_{part.stock}", mass=mass, solids=solids,
        blank=replace(part.blank, meets=meets),
    )  # fmt: skip


def in_part(name: str, thing: str) -> str:
    """What a thing of a part is called: 'spout branch', but 'body tube' of the body."""
    said = name.replace("_", " ")
    return thing if thing.split(maxsplit=1)[0] == said else f"{said} {thing}"


def _solid(solid: Solid, name: str, place: Place | None) -> Solid:
    """A solid in its place; drawn apart it goes away from the host as its own piece's do."""
    rides = f"{name}_{solid.rides}" if solid.rides else ""
    pull = solid.pull
    if place is not None and pull is not None:
        pull = place.frame.turned(pull)
    if place is not None and place.away is not None and not rides:
        pull, rides = add(place.away, pull or (0.0, 0.0, 0.0)), place.rides
    body = _placed(_body(solid.body, name), place.frame if place else None)
    label = in_part(name, solid.label)
    return replace(solid, label=label, body=body, pull=pull, rides=rides)


def _body(body: Any, name: str) -> Body:
    made: Body = replace(body, id=f"{name}_{body.id}")
    return made


def _placed(body: Body, frame: Frame | None) -> Body:
    return body if frame is None else body.placed(frame)


def _work(work: Work, name: str, called: Any, many: Any) -> Work:
    def put(place: re.Match[str]) -> str:
        id = place[1]
        if id in COMMON:
            return place[0]
        if id.startswith("planned_"):
            return f"{{planned_{name}_{id.removeprefix('planned_')}}}"
        return f"{{{name}_{id}}}"

    return replace(
        work,
        id=called(work.id),
        title=f"{name.replace('_', ' ').capitalize()}: {work.title[0].lower()}{work.title[1:]}",
        text=_PLACE.sub(put, work.text),
        marks=many(work.marks),
        reads=many(work.reads),
        after=many(work.after),
        about=many(work.about),
    )


def opened(parts: Sequence[Part], host: Wall, joined: Piece) -> tuple[Part, ...]:
    """The parts with what a joined piece cuts out of its host taken out, weight and body."""
    return tuple(
        _with_holes(part, joined) if part.id == host.part and joined.openings else part
        for part in parts
    )


def _with_holes(part: Part, joined: Piece) -> Part:
    """A part less the openings of a joined piece: its weight, and its first body."""
    mass = part.mass
    for opening in joined.openings:
        mass = (mass - opening.mass).named(part.mass.id, part.mass.label)
    first, *rest = part.solids
    cut = tuple(opening.body for opening in joined.openings)
    carved = replace(first, body=Carved(first.body.id, first.body, cut))
    return replace(part, mass=replace(mass, unit="g"), solids=(carved, *rest))


def together(title: str, pieces: Sequence[Piece]) -> Piece:
    """Pieces whose ids are apart as one; the joined ones' work is done among the first one's."""
    return Piece(
        title=title,
        design="+".join(dict.fromkeys(piece.design for piece in pieces)),
        quantities={id: q for piece in pieces for id, q in piece.quantities.items()},
        stocks=_all(pieces, "stocks"),
        parts=_all(pieces, "parts"),
        joints=_all(pieces, "joints"),
        fits=_all(pieces, "fits"),
        work=_among(pieces[0].work, [each for piece in pieces[1:] for each in piece.work]),
        cautions=_all(pieces, "cautions"),
        choices=_all(pieces, "choices"),
        changes=_all(pieces, "changes"),
        inches=any(piece.inches for piece in pieces),
        templates=_all(pieces, "templates"),
        walls=_all(pieces, "walls"),
    )


def _among(host: Sequence[Work], joined: Sequence[Work]) -> tuple[Work, ...]:
    """The joined parts' work before the host is measured again; the host's closing work last.

    So what is fitted comes after all heats. The joined parts' own closing work is left out.
    """
    inner = [each for each in joined if each.kind != "clean"]
    if not inner:
        return tuple(host)
    done = tuple(each.id for each in inner)
    place = next(
        (i for i, each in enumerate(host) if each.kind == "measure" and each.reads),
        next((i for i, each in enumerate(host) if each.kind == "clean"), len(host)),
    )
    later = [replace(each, after=(*each.after, *done)) for each in host[place : place + 1]]
    left = {each.id for each in joined} - set(done)
    kept = [replace(w, after=tuple(id for id in w.after if id not in left)) for w in inner]
    return (*host[:place], *kept, *later, *host[place + 1 :])


def _all(pieces: Sequence[Piece], name: str) -> tuple[Any, ...]:
    return tuple(each for piece in pieces for each in getattr(piece, name))
