"""A strip bent or folded to a closed wall: its length, its grooves, where along it to bend."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from hollowright.designs.brief import Brief
from hollowright.designs.fields import Field
from hollowright.designs.forms import CORNER, Form, outline_turns
from hollowright.formulas import fold, lid, ring, wall
from hollowright.piece import Scribe
from hollowright.quantity import Quantity, exact
from hollowright.shapes import strip_marks
from hollowright.shapes.curves import Arc, Line
from hollowright.shapes.offset import chain_of
from hollowright.shapes.strip_marks import NeutralLine, Scored, Strip
from hollowright.units import format_number

NEAR = 0.01
"""Lines nearer than this are one line, and so near an end they are the seam [mm]."""

BESIDE = 0.25
"""A bend's end so near a fold, or any line so near the seam, isn't scribed beside it [mm]."""

MOST_LINES = 16
"""Of more lines across a strip than this nobody measures each: the print is stuck on."""

LEAST_RADIUS = 1e-6
"""A bend whose inner face comes to a point [mm]."""

MIDDLE = "mid-thickness"
DIN = "din-6935"

FIELDS = (
    Field(
        "sizes.corners", "corners", "choice", "sharp corners",
        "bent over an edge, or scored and folded", "scored", default="bent",
        choices=("bent", "scored"),
    ),
    Field(
        "sizes.score_web", "score_web", "length", "web under the groove",
        "what scoring leaves of the sheet", "0.2 mm", default="0.2 mm", low=0.05, high=2,
    ),
    Field(
        "sizes.score_line", "score_line", "number", "neutral line of the web",
        "from the groove's bottom, in parts of the web", "0.4", default="0.4", high=1,
    ),
)  # fmt: skip


@dataclass(frozen=True)
class Bending:
    """How a closed strip takes its length.

    line: neutral line where it isn't mid-thickness; lost: what folds (and bends) take off the outer
    length [mm], None where nothing is folded. grooves: quantities of the folds.
    """

    line: Quantity | None = None
    lost: Quantity | None = None
    grooves: tuple[Quantity, ...] = ()


def folded(b: Brief, form: Form) -> bool:
    """Whether the corners are scored and folded."""
    return form.sharp and b.word("corners") == "scored"


def bending(b: Brief, form: Form, thickness: Quantity, turn: Quantity) -> Bending:
    """How a strip of a thickness [mm] follows an outline with its outer face."""
    if not folded(b, form):
        return Bending(_line(b, form, thickness.value, turn.value))
    if b.score_web.value >= thickness.value:
        raise b.refuse(
            "score_web",
            f"it is no less than the sheet of {format_number(thickness.value)} mm.",
            "Leave 0.2 mm, say.",
        )
    if form.shape == "path":
        return _any_folds(b, form, thickness)
    sides = form.flats[0] if form.flats else exact("sides", "4", "", 4, "constant")
    corner = fold.corner(sides)
    angle = fold.groove(corner)
    depth = fold.depth(thickness, b.score_web)
    taken = fold.taken(angle, b.score_web, b.score_line)
    lost = fold.loss(sides, angle, thickness, depth, taken)
    return Bending(None, lost, (angle, depth, taken, lost))


def _any_folds(b: Brief, form: Form, thickness: Quantity) -> Bending:
    """The same where a drawn outline's corners differ, and where it is bent between them."""
    corners = [turn for turn in form.outline.turns if abs(turn) > CORNER]
    bends, _ = outline_turns(form.outline)
    out = sum(math.tan(turn / 2) for turn in corners if turn > 0)
    hollow = sum(math.tan(-turn / 2) for turn in corners if turn < 0)

    def sum_of(label: str, value: float) -> Quantity:
        return exact("", label, "", value, "asked", "the drawing")

    depth = fold.depth(thickness, b.score_web)
    folds = fold.loss_of_all(
        sum_of("tan(half the turn) over folds outwards", out),
        sum_of("tan(half the turn) over folds inwards", hollow),
        sum_of("all folds' turns", sum(map(abs, corners))),
        thickness, b.score_web, b.score_line,
    )  # fmt: skip
    line = _line(b, form, thickness.value, bends, folds.value)
    where = line or exact("", "1/2", "", 0.5, "constant")
    taken = wall.bend_loss(sum_of("half the bends' turn", bends), thickness, where)
    return Bending(None, (folds + taken).named("strip_loss", "what folds and bends take off",
                                               folds.source), (depth, folds))  # fmt: skip


def _line(
    b: Brief, form: Form, thickness: float, turn: float, folds: float = 0.0
) -> Quantity | None:
    """The neutral line [1], the mean over all bends; None where it is the middle.

    turn: half of what the bends turn [1]; folds: what scored corners take off, of which it is free.
    """
    choice = b.word("neutral_line")
    if choice == MIDDLE or abs(turn) < CORNER:
        return None
    source = "DIN 6935" if choice == DIN else "Machinery's Handbook, 31st ed., p. 1421"
    if form.shape == "path" and form.drawn is None:
        lost = form.round.value - folds - developed(b, form, thickness).length
        where = 1 - lost / (2 * turn * thickness)
    elif choice == DIN or form.shape == "path":
        where = _mean_line(form, thickness, turn, choice, bool(folds))
    else:
        where = ring.handbook_line(choice)
    return exact("neutral_line", f"neutral line ({choice})", "", where, "handbook", source)


def _mean_line(form: Form, thickness: float, turn: float, choice: str, folds: bool) -> float:
    """The line [1], the mean over bends of different radii, one way and the other.

    By DIN 6935 corners are bent on the middle, by the handbook on its line; unless they are folds.
    """
    off = 0.0
    for curve in chain_of(form.outline).curves:
        if isinstance(curve, Arc):
            inner = curve.radius - (thickness if curve.sweep > 0 else 0.0)
            here = (
                float(ring.din_line(max(inner, LEAST_RADIUS), thickness))
                if choice == DIN
                else ring.handbook_line(choice)
            )
            off += abs(curve.sweep) * (0.5 - here)
    if choice != DIN and not folds:
        corners = (math.tan(abs(t) / 2) for t in form.outline.turns if abs(t) > CORNER)
        off += 2 * sum(corners) * (0.5 - ring.handbook_line(choice))
    return 0.5 - off / (2 * turn)


def wall_length(form: Form, thickness: Quantity, turn: Quantity, how: Bending) -> Quantity:
    """Length of the strip whose outer face follows the form [mm]."""
    if how.lost is not None:
        return wall.length_less(form.round, how.lost)
    if how.line is not None:
        return wall.length_on_line(form.round, turn, thickness, how.line)
    return wall.length(form.round, turn, thickness)


def ring_length(turn: Quantity, outside: Quantity, thickness: Quantity, how: Bending) -> Quantity:
    """Length of the strip of a ring of a mean across outside [mm]."""
    if how.lost is not None:
        return lid.ring_length_folded(turn, outside, how.lost)
    if how.line is not None:
        return lid.ring_length_on_line(turn, outside, thickness, how.line)
    return lid.ring_length(turn, outside, thickness)


def over_length(turn: Quantity, inside: Quantity, thickness: Quantity, how: Bending) -> Quantity:
    """Length of the strip of a wall or band of a mean across inside [mm]."""
    if how.lost is not None:
        return lid.over_length_folded(turn, inside, thickness, how.lost)
    if how.line is not None:
        return lid.over_length_on_line(turn, inside, thickness, how.line)
    return lid.over_length(turn, inside, thickness)


def developed(b: Brief, form: Form, thickness: float) -> Strip:
    """The strip with its marks, laid out by the outline itself [mm]."""
    choice = b.word("neutral_line")
    known: dict[str, NeutralLine] = {MIDDLE: 0.5, DIN: ring.din_line}
    scored = Scored(b.score_web.value, b.score_line.value) if folded(b, form) else None
    line = known[choice] if choice in known else ring.handbook_line(choice)
    return strip_marks.strip(form.outline, thickness, line, scored)


def marks(b: Brief, form: Form, thickness: float, length: float, width: float) -> tuple[
    Scribe, ...
]:  # fmt: skip
    """Lines across the strip where it is bent or folded, its seam at both ends [mm].

    A strip that bends all the way round has no bends to mark: an oval's has its ends and its flat
    side, a circle's none.
    """
    if form.shape == "circle":
        return ()
    if form.shape == "oval":
        quarter = length / 4
        names = ("end of the oval", "flat side", "end of the oval")
        return tuple(_across((i + 1) * quarter, width, name) for i, name in enumerate(names))
    found: list[Scribe] = []
    for mark in developed(b, form, thickness).marks:
        text = _text(mark)
        if mark.kind in ("fold", "corner"):
            found.append(_across(mark.middle, width, text, "fold"))
        else:
            found += [_across(mark.start, width, text), _across(mark.end, width, text)]
    inside = (each for each in found if BESIDE < each.curve.start[0] < length - BESIDE)
    return _apart(inside)


def bend_lines(found: Iterable[Scribe]) -> tuple[Quantity, ...]:
    """Where the lines lie from one end of the strip [mm]; none where they are too many to measure.

    Their doubt is left out: a reading off by 0.02 mm moves a line by no more.
    """
    lines = tuple(found)
    if len(lines) > MOST_LINES:
        return ()
    return tuple(
        exact(
            f"bend_line_{i}", f"line {i} across the strip", "mm", line.curve.start[0], "formula",
            "the outline along its neutral line",
            f"line {i} across the strip = length from its end to: {line.text}",
        )
        for i, line in enumerate(lines, 1)
    )  # fmt: skip


def _apart(found: Iterable[Scribe]) -> tuple[Scribe, ...]:
    """The lines in order, one for each place: a fold's before a bend's end beside it."""
    lines = sorted(found, key=lambda line: (line.curve.start[0], line.role != "fold"))
    folds = [line.curve.start[0] for line in lines if line.role == "fold"]
    kept: list[Scribe] = []
    for each in lines:
        x = each.curve.start[0]
        if kept and x - kept[-1].curve.start[0] <= NEAR:
            continue
        if each.role == "fold" or all(abs(x - fold) > BESIDE for fold in folds):
            kept.append(each)
    return tuple(kept)


def _text(mark: strip_marks.Mark) -> str:
    angle = f"{round(abs(math.degrees(mark.turn)), 1):g}"
    way = "" if mark.turn > 0 else " inwards"
    if mark.kind == "fold":
        return f"fold {angle}°{way}: groove {angle}°, on the mark"
    if mark.kind == "corner":
        return f"bend {angle}°{way} sharp, over an edge"
    if mark.kind == "bend":
        return f"bend {angle}°{way} between the lines, inner radius {format_number(mark.radius)}"
    return f"curve {angle}°{way} between the lines"


def _across(x: float, width: float, text: str, role: str = "mark") -> Scribe:
    return Scribe(Line((x, 0.0), (x, width)), text, "fold" if role == "fold" else "mark")
