"""The outline that a brief asks for: its fields, and the form that they make."""

from __future__ import annotations

from functools import lru_cache

from hollowright.designs.brief import Brief
from hollowright.designs.drawings import unit_taken
from hollowright.designs.fields import Field, asked_by
from hollowright.designs.forms import Form, circle, drawn_form, oval, polygon, rectangle
from hollowright.errors import Caution, InputError
from hollowright.shapes.files import FileOutline, read_outline

SIZES = {
    "circle": ("diameter",),
    "oval": ("length", "width"),
    "rectangle": ("length", "width", "corner_radius"),
    "polygon": ("sides", "across_flats"),
    "path": ("file", "unit", "scale"),
}
"""Which fields each shape is drawn from."""

OPTIONAL = ("corner_radius", "unit", "scale")
UNITS = ("mm", "cm", "in", "px", "pt")


def _length(name: str, label: str, told: str, example: str) -> Field:
    path = f"sizes.outline.{name}"
    return Field(path, f"outline_{name}", "length", label, told, example, low=3, high=600)


_ALL = (
    Field(
        "sizes.outline.shape", "outline_shape", "choice", "outline", "seen from above", "oval",
        required=True, choices=tuple(SIZES),
    ),
    _length("diameter", "diameter", "of a circle, outside", "40 mm"),
    _length("length", "length", "of an oval or a rectangle, outside", "60 mm"),
    _length("width", "width", "of an oval or a rectangle, outside", "40 mm"),
    Field(
        "sizes.outline.corner_radius", "outline_corner_radius", "length", "corner radius",
        "of a rectangle, outside; left out: sharp corners", "5 mm", high=300,
    ),
    Field(
        "sizes.outline.sides", "outline_sides", "count", "sides", "of a polygon", "6", low=3,
        high=24,
    ),
    _length("across_flats", "across flats", "of a polygon, outside", "40 mm"),
    Field(
        "sizes.outline.file", "outline_file", "drawing", "drawing",
        "of a path: an SVG or DXF file with one closed outline", "leaf.svg",
    ),
    Field(
        "sizes.outline.unit", "outline_unit", "choice", "unit of the drawing",
        "left out: as the file says", "mm", choices=UNITS,
    ),
    Field(
        "sizes.outline.scale", "outline_scale", "number", "scale of the drawing",
        "how many times larger than drawn", "1.5", low=0.001, high=1000,
    ),
)  # fmt: skip

_OVAL, _FLAT, _DRAWN = ("oval", "rectangle"), ("polygon",), ("path",)
FIELDS = asked_by(
    "outline_shape",
    {
        "outline_diameter": ("circle",),
        "outline_length": _OVAL,
        "outline_width": _OVAL,
        "outline_corner_radius": ("rectangle",),
        "outline_sides": _FLAT,
        "outline_across_flats": _FLAT,
        "outline_file": _DRAWN,
        "outline_unit": _DRAWN,
        "outline_scale": _DRAWN,
    },
    _ALL,
)
"""The outline's shape and the sizes of each."""


def form_of(b: Brief) -> Form:
    """The outline that the brief asks for; what its shape lacks is refused by name."""
    shape = b.word("outline_shape")
    for name in SIZES[shape]:
        if name not in OPTIONAL and not b.has(f"outline_{name}"):
            field = b.design.field(f"outline_{name}")
            raise InputError(
                field.path, f"it is missing, and the outline is a {shape}.",
                f"Add it, for example {field.example}.",
            )  # fmt: skip
    b.cautions += _unused(b, shape)
    made = {
        "circle": _circle, "oval": _oval, "rectangle": _rectangle, "polygon": _polygon,
        "path": _path,
    }[shape](b)  # fmt: skip
    if made.outline.holes:
        raise b.refuse("outline_file", "its outline has a hole.", "A box wants one closed curve.")
    return made


def _unused(b: Brief, shape: str) -> list[Caution]:
    """A caution where sizes of another shape were filled in as well."""
    mine = {f"outline_{name}" for name in ("shape", *SIZES[shape])}
    names = [f.name for f in FIELDS if f.name not in mine and b.has(f.name)]
    if not names:
        return []
    labels = ", ".join(b.design.field(name).label for name in names)
    text = f"The outline is a {shape}: {labels} {'is' if len(names) == 1 else 'are'} not used."
    return [Caution("outline_unused", text, "reading", names[0])]


def _circle(b: Brief) -> Form:
    return circle(b.outline_diameter)


def _oval(b: Brief) -> Form:
    return oval(b.outline_length, b.outline_width)


def _rectangle(b: Brief) -> Form:
    length, width = b.outline_length, b.outline_width
    corner = b.outline_corner_radius if b.has("outline_corner_radius") else None
    if corner and corner.value > min(length.value, width.value) / 2:
        raise b.refuse(
            "outline_corner_radius", "it is more than half the shorter side.", "Make it smaller."
        )
    if corner and corner.value == 0:
        corner = None
    return rectangle(length, width, corner)


def _polygon(b: Brief) -> Form:
    return polygon(b.outline_sides, b.outline_across_flats)


def _path(b: Brief) -> Form:
    drawing = b.drawing("outline_file")
    unit = b.word("outline_unit") if b.has("outline_unit") else None
    scale = b.outline_scale.value if b.has("outline_scale") else 1.0
    try:
        read = _read(drawing.data, drawing.kind, unit, scale)
    except InputError as fault:
        raise b.refuse("outline_file", fault.problem, fault.remedy) from None
    size = read.outline.size
    if not 3 <= size <= 600:
        raise b.refuse(
            "outline_file",
            f"its outline is {size:.4g} mm over all ({read.unit}).",
            "Say its unit or its scale: a box is 3 to 600 mm.",
        )
    low_x, low_y, high_x, high_y = read.outline.bounds
    b.cautions += unit_taken(read.unit, high_x - low_x, high_y - low_y, "outline_file")
    moved = read.outline.run_anticlockwise().moved(-(low_x + high_x) / 2, -(low_y + high_y) / 2)
    if read.notes:
        text = f"In the drawing: {', '.join(read.notes)}."
        b.cautions.append(Caution("drawing_left_out", text, "reading", "outline_file"))
    return drawn_form(moved, f"from the drawing ({read.unit})")


@lru_cache(maxsize=16)
def _read(data: bytes, kind: str, unit: str | None, scale: float) -> FileOutline:
    return read_outline(data, "svg" if kind == "svg" else "dxf", unit, scale)
