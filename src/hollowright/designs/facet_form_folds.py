"""A faceted form folded from one flat: the net as a blank, its folds, what each of them takes."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hollowright.designs.brief import Brief
from hollowright.designs.facet_form_bodies import middle_of
from hollowright.designs.facet_form_kinds import EdgeKind, Sized, number
from hollowright.designs.facet_form_plates import edge_at
from hollowright.errors import Caution
from hollowright.formulas import fold
from hollowright.piece import Blank, Scribe, Solid
from hollowright.quantity import Quantity, exact
from hollowright.shapes.curves import Line, Point
from hollowright.shapes.developments.facets import Side
from hollowright.shapes.developments.nets import Layout, Net, net
from hollowright.shapes.offset import offset_pieces
from hollowright.units import format_number

WIDEST = 130.0
"""Widest groove [deg] that is folded (common practice, no source)."""

MOST_TAKEN = 0.25
"""A fold takes no more than this part of the smallest face (common practice, no source)."""


@dataclass(frozen=True)
class Folded:
    """The net with its folds by kind, grooves and what folds take, the body it makes.

    counted: each kind of edge that is folded, and how often. seams: edges that meet again. middle:
    where the vent goes.
    """

    flat: Net
    counted: tuple[tuple[EdgeKind, int], ...]
    grooves: dict[str, Quantity]
    quantities: tuple[Quantity, ...]
    marks: tuple[Scribe, ...]
    solid: Solid

    @property
    def seams(self) -> set[Side]:
        """Edges that are cut in the flat."""
        return set(self.flat.seams)

    @property
    def closing(self) -> Side:
        """The fold of the last face, on which no other hangs: it closes the form."""
        return self.flat.folds[-1].side

    @property
    def last_face(self) -> int:
        """The face that closes the form."""
        return self.flat.folds[-1].faces[1]

    @property
    def middle(self) -> Point:
        """The middle of the first face in the flat [mm]."""
        return middle_of(self.flat.polygons[0])

    def blank(self, marks: tuple[Scribe, ...]) -> Blank:
        """The net as a blank."""
        sizes = {"length": self.quantities[-2], "width": self.quantities[-1]}
        return Blank("plate", self.flat.outline(), sizes, marks=marks, shaped=True)


def folded(b: Brief, form: Sized) -> Folded:
    """The net of a form; refused where it can't be one flat."""
    thickness, web = b.sheet_thickness, b.score_web
    if web.value >= thickness.value:
        raise b.refuse(
            "score_web", f"it is no less than the sheet of {format_number(thickness.value)} mm.",
            f"Leave {format_number(thickness.value / 4)} mm, say.",
        )  # fmt: skip
    flat = _net(b, form)
    depth = fold.depth(thickness, web)
    sides = [each.side for each in flat.folds]
    counted = tuple(
        (kind, count) for kind in form.edges if (count := sum(side in sides for side in kind.sides))
    )
    grooves, taken = {}, []
    for kind, _ in counted:
        angle = fold.groove(kind.dihedral).named(f"groove{kind.suffix}", f"groove at {kind.name}")
        grooves[kind.suffix] = angle
        length = fold.taken(angle, web, b.score_line)
        loss = fold.loss(number(1), angle, thickness, depth, length)
        _check_loss(b, form, kind, loss)
        taken.append(loss.named(f"fold_loss{kind.suffix}", f"what a fold at {kind.name} takes"))
    marks = tuple(_mark(form, grooves, depth, each.side, each.line) for each in flat.folds)
    shell = Solid("form", form.hollow.shell("form"))
    quantities = (*grooves.values(), depth, web, *taken, *_extent(flat))
    return Folded(flat, counted, grooves, quantities, marks, shell)


def _check_loss(b: Brief, form: Sized, kind: EdgeKind, loss: Quantity) -> None:
    """Refuse a web so thick that its fold takes a good part of the faces."""
    room = min(size.value for face in form.faces for size in face.sizes.values())
    if loss.value > MOST_TAKEN * room:
        raise b.refuse(
            "score_web",
            f"a fold at {kind.name} then takes {format_number(loss.value)} mm of faces of "
            f"{format_number(room)} mm.",
            "Leave a thinner web, or take way = plates.",
        )


def wide_grooves(found: Folded) -> tuple[Caution, ...]:
    """A caution where a fold is so sharp that its groove is wider than a file makes it."""
    sharp = [kind for kind, _ in found.counted if found.grooves[kind.suffix].value > WIDEST]
    if not sharp:
        return ()
    text = (
        f"The groove at {' and '.join(kind.name for kind in sharp)} is over "
        f"{format_number(WIDEST, 0)} degrees wide: more a slope than a groove, and its web tears. "
        "Cut the flat apart there and bevel both edges, or take way = plates."
    )
    return (Caution("groove_wide", text, "form", f"groove{sharp[0].suffix}"),)


def _net(b: Brief, form: Sized) -> Net:
    """The flat in the layout asked for, or in that with the least to solder."""
    asked, walled = b.word("layout"), form.faces[0].id == "wall"
    if asked == "strip" and not walled:
        raise b.refuse(
            "layout", "only the walls of a prism, pyramid or frustum go in a row.",
            "Take layout = best.",
        )  # fmt: skip
    tried: dict[str, tuple[Layout, ...]] = {"star": ("star",), "strip": ("strip",)}
    layouts = tried.get(asked, ("star", "strip") if walled else ("star",))
    found = [flat for flat in (_laid_out(b, form, layout) for layout in layouts) if flat]
    if found:
        return min(found, key=lambda flat: _seamed(form, flat))
    raise b.refuse(
        "way" if asked == "best" else "layout",
        "the faces would lie over each other in one flat, or too close to be sawn apart.",
        "Take way = plates." if asked == "best" else "Take layout = best, or way = plates.",
    )


def _laid_out(b: Brief, form: Sized, layout: Layout) -> Net | None:
    """The flat in one layout, None where faces would overlap, or leave no room to dress edges."""
    sizes = (b.sheet_thickness.value, b.score_web.value, b.score_line.value)
    try:
        flat = net(form.hollow.form, layout, *sizes, left=form.hollow.left)
    except ValueError:
        return None
    return flat if _can_be_cut(flat, b.shop("edge_dressing").value / 2) else None


def _can_be_cut(flat: Net, margin: float) -> bool:
    """Whether the flat stays one piece without pockets when it is cut larger by a margin [mm]."""
    if margin == 0:
        return True
    try:
        larger = offset_pieces(flat.outline(), margin, "round")
    except ValueError:
        return False
    return len(larger) == 1 and not larger[0].holes


def _seamed(form: Sized, flat: Net) -> float:
    """Length of all seams [mm]."""
    corners = form.hollow.form.corners
    return sum(math.dist(corners[a], corners[b]) for a, b in flat.seams)


def _extent(flat: Net) -> tuple[Quantity, Quantity]:
    """How long and how wide the flat is [mm]."""
    outline = flat.outline()
    found = []
    for name, size in (("length", outline.width), ("width", outline.height)):
        label = f"{name} of the flat"
        told = f"{label} = what all faces reach, laid out beside each other less what folds take"
        found.append(exact(f"net_{name}", label, "mm", size, "formula", "plane geometry", told))
    return found[0], found[1]


def _mark(
    form: Sized, grooves: dict[str, Quantity], depth: Quantity, side: Side,
    line: tuple[Point, Point],
) -> Scribe:  # fmt: skip
    kind = edge_at(form, side)
    text = (
        f"fold to {format_number(kind.dihedral.value)}°: groove "
        f"{format_number(grooves[kind.suffix].value)}°, {format_number(depth.value)} mm deep, "
        "inside"
    )
    return Scribe(Line(*line), text, "fold")
