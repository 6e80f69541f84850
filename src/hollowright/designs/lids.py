"""What every lid that follows an outline shares: what it sits on, what it gives, how it is read."""

from __future__ import annotations

from dataclasses import dataclass

from hollowright.designs.brief import Brief
from hollowright.designs.closed_strip import Bending, marks
from hollowright.designs.fields import Field
from hollowright.designs.forms import Form, parallel
from hollowright.designs.stocks import density
from hollowright.errors import Caution, InputError
from hollowright.formulas import lid as law
from hollowright.formulas import outline as outline_law
from hollowright.formulas import wall as wall_law
from hollowright.handbook.metals import Metal
from hollowright.piece import Fit, Joint, Part, Scribe, Stock, Work
from hollowright.quantity import Quantity, exact, normal, root
from hollowright.quantity.choices import Choice
from hollowright.shapes.extruded import Extruded
from hollowright.shapes.outline import Outline
from hollowright.shapes.solids import Turned


def _built(id: str, label: str, told: str, example: str, inside: bool = False) -> Field:
    return Field(
        f"as_built.{id}", f"built_{id}", "readings", f"{label} as built", told, example, low=1,
        high=4000, inside=inside,
    )  # fmt: skip


JAWS = "of a circle or a polygon: the diameter, or across flats"
PAPER = "of other outlines: a strip of paper sprung in, marked where it meets, read flat"
ROUND_IT = "of other outlines: a strip of paper round it, marked where it meets, read flat"

BUILT_FIELDS = (
    _built("lid_depth", "lid depth", "with the depth rod", "14.29 mm"),
    _built("body_depth", "body's inside depth", "with the depth rod", "29.29 mm"),
    _built("lid_bore", "lid's bore", JAWS, "38.03 mm", inside=True),
    _built("lid_inside_round", "length round the lid's inside", PAPER, "152.4 mm"),
    _built("body_bore", "body's bore", JAWS, "38.03 mm", inside=True),
    _built("body_inside_round", "length round the body's inside", PAPER, "152.4 mm"),
    _built("body_outside", "body's outside", JAWS, "40.02 mm"),
    _built("body_outside_round", "length round the body's outside", ROUND_IT, "158.7 mm"),
)
"""Readings on the halves: their depths, and each across or round."""


@dataclass(frozen=True)
class Host:
    """The box that a lid is made for, its walls as they will come out or as they were read [mm].

    form: the walls' outer face; area: of the body's bore [mm2]; lid_inside, body_inside,
    body_outside: means across; read: whether the body was read there; inside: the closed box's
    inside height; lid_wall, body_wall: heights of the walls now, lid_wall_planned as planned; rim:
    how high the lid's rim stands; roof: how high the lid's plate begins.
    """

    form: Form
    area: Quantity
    thickness: Quantity
    metal: Metal
    lid_inside: Quantity
    body_inside: Quantity
    body_outside: Quantity
    read: bool
    lid_depth: Quantity
    body_depth: Quantity
    inside: Quantity
    lid_wall: Quantity
    body_wall: Quantity
    lid_wall_planned: Quantity
    rim: float
    roof: float

    @property
    def turn(self) -> Quantity:
        """What the length round changes for each millimetre across [1]."""
        return self.form.turn


@dataclass(frozen=True)
class Seats:
    """What a hinge's knuckles take out of each half's edge: a body, and its weight in one [g]."""

    body: Turned
    mass: Quantity


@dataclass(frozen=True)
class Lid:
    """What makes a lid of a box: its parts, its fit, and all that goes with them into the piece.

    outer: the outer face of a lid that has a wall of its own. seats: of a lid on a hinge.
    """

    parts: tuple[Part, ...]
    fits: tuple[Fit, ...]
    quantities: tuple[Quantity, ...]
    joints: tuple[Joint, ...]
    work: tuple[Work, ...]
    stocks: tuple[Stock, ...] = ()
    cautions: tuple[Caution, ...] = ()
    choices: tuple[Choice, ...] = ()
    outer: Form | None = None
    seats: Seats | None = None


def needs(b: Brief, names: tuple[str, ...], why: str) -> None:
    """Refuse a brief that lacks what this lid is made of."""
    for name in names:
        if not b.has(name):
            field = b.design.field(name)
            example = f"Add it, for example {field.example}."
            raise InputError(field.path, f"it is missing: {why}.", example)


def read_across(
    b: Brief, made: Quantity, form: Form, ids: tuple[str, str], what: str
) -> tuple[Quantity, bool, tuple[Quantity, ...]]:
    """A mean across as it will come out, or as it was read since; whether; what to list [mm].

    ids: of the reading across (circle, polygon) and of the length round (other outlines).
    """
    across_id, round_id = ids
    if form.calliper:
        label = what if form.shape == "circle" else f"{what} across flats"
        planned = made.named(across_id, label)
        found = b.built(planned)
        return found, found is not planned, (found,)
    around = outline_law.around(made, form.turn).named(round_id, f"length round the {what}")
    now = b.built(around)
    mean_id, label = f"{across_id}_mean", f"{what}, mean across"
    if now is around:
        mean = made.named(mean_id, label)
        return mean, False, (mean, around)
    mean = outline_law.across(now + _paper(b, round_id), form.turn).named(mean_id, label)
    return mean, True, (mean, now)


def _paper(b: Brief, id: str) -> Quantity:
    """The error of a length that was taken over on paper [mm]: as good as marking out."""
    doubt = normal(b.shop("marking_out").value)
    return root(f"{id}_paper", "mark on the paper", "mm", 0.0, doubt, "doubt", of=id)


def as_cut(b: Brief, length: Quantity, part: str) -> tuple[Quantity, Quantity, Quantity]:
    """A strip that is marked at a length, and its errors of marking and of sawing [mm]."""
    marked = length.decided(f"{part}_marked", f"{length.label} as marked")
    marking, sawing = b.shop("marking_out").value, b.shop("sawing").value
    return (
        marked,
        root(f"{part}_marking", "marking out the wall", "mm", 0.0, normal(marking), "doubt"),
        root(f"{part}_sawing", "sawing and dressing the wall", "mm", 0.0, normal(sawing), "doubt"),
    )


def made_inside(b: Brief, length: Quantity, thickness: Quantity, form: Form, how: Bending,
                part: str) -> Quantity:  # fmt: skip
    """Mean across inside the wall that comes of a strip [mm]."""
    strip = as_cut(b, length, part)
    made: Quantity = wall_law.mean_inside(*strip, thickness, form.turn, how.line, how.lost)
    return made


def made_outside(b: Brief, length: Quantity, thickness: Quantity, form: Form, how: Bending,
                 part: str) -> Quantity:  # fmt: skip
    """Mean across outside the wall that comes of a strip [mm]."""
    strip = as_cut(b, length, part)
    made: Quantity = wall_law.mean_outside(*strip, thickness, form.turn, how.line, how.lost)
    return made


def at_across(form: Form, across: Quantity, what: str) -> Form:
    """The parallel of a form that has a mean across [mm]."""
    return parallel(form, outline_law.depth_of(form.across, across), what)


@dataclass(frozen=True)
class Shell:
    """A closed wall between two parallel outlines, and the metal in its section [mm2]."""

    outer: Form
    inner: Form
    section: Quantity

    def body(self, id: str, height: float, floor: float) -> Extruded:
        """It as a solid of a height, standing on a floor [mm]."""
        ring = Outline(self.outer.outline.segments, (Outline(self.inner.outline.segments),))
        return Extruded(id, ring, height, (0.0, 0.0, floor))

    def mass(self, height: Quantity, metal: Metal) -> Quantity:
        """Its weight at a height [g]."""
        return law.plate_mass(self.section, height, density(metal))


def shell(form: Form, outside: Quantity, thickness: Quantity, what: str) -> Shell:
    """The wall of a thickness whose outer face has a mean across [mm], along a form."""
    outer = form if outside.value == form.across.value else at_across(form, outside, what)
    inner = parallel(outer, thickness, what)
    if form.shape == "path":
        metal = outer.outline.area - inner.outline.area
        told = "metal in the section = area between the two outlines"
        section = exact("section", "metal in the section", "mm2", metal, "asked",
                        "the drawing", told)  # fmt: skip
    else:
        section = wall_law.section(outside, thickness, form.turn)
    return Shell(outer, inner, section)


def strip_marks(
    b: Brief, face: Form, thickness: Quantity, length: Quantity, width: Quantity
) -> tuple[Scribe, ...]:
    """Where a lid's own strip is bent; a drawn outline's is bent to the box itself."""
    if face.shape == "path":
        return ()
    return marks(b, face, thickness.value, length.value, width.value)
