"""A form of plane faces from sheet: prism, pyramid, frustum, regular solid; folded or of plates."""

from __future__ import annotations

from hollowright.designs import facet_form_regular, facet_form_walls
from hollowright.designs.brief import Brief
from hollowright.designs.facet_form_examples import EXAMPLES
from hollowright.designs.facet_form_folds import Folded, folded, wide_grooves
from hollowright.designs.facet_form_kinds import Sized, number
from hollowright.designs.facet_form_plates import edge_at, plates, vent_mark
from hollowright.designs.facet_form_work import facet_work
from hollowright.designs.fields import Design, Field, asked_by
from hollowright.designs.stocks import sheet_fields, sheet_stock
from hollowright.errors import Caution
from hollowright.formulas import dome, facet, facet_size
from hollowright.piece import Joint, Part, Piece, by_id
from hollowright.quantity import Quantity, total
from hollowright.units import format_number

KINDS = (*facet_form_walls.WALLED, *facet_form_regular.SOLIDS)
TOPPED = ("prism", "frustum")

NEEDS = {
    "prism": ("sides", "across_flats", "height"),
    "pyramid": ("sides", "across_flats", "height"),
    "frustum": ("sides", "across_flats", "top_across_flats", "height"),
}
"""Which sizes each kind is made from; regular solids from their edge or width."""

LEAST_ROOM = 4.0
"""A vent is drilled in a face at least so many times as wide."""

_ALL = (
    *sheet_fields("sheet", "sheet"),
    Field("sizes.kind", "kind", "choice", "kind of form", "", "pyramid", required=True,
          choices=KINDS),
    Field("sizes.sides", "sides", "count", "sides", "of the base of a prism, pyramid or frustum",
          "6", low=3, high=24),
    Field("sizes.across_flats", "across_flats", "length", "width across the flats",
          "of the base, outside: twice from the middle to a side; of a regular solid: between "
          "opposite faces, instead of its edge", "40 mm", low=2, high=600),
    Field("sizes.top_across_flats", "top_across_flats", "length", "top's width across the flats",
          "of a frustum, outside; it may be the wider one", "25 mm", low=1, high=600),
    Field("sizes.height", "height", "length", "height", "of a prism, pyramid or frustum, upright",
          "50 mm", low=1, high=800),
    Field("sizes.edge", "edge", "length", "edge", "of a regular solid, outside", "24 mm", low=2,
          high=400),
    Field("sizes.way", "way", "choice", "way of making",
          "folded: one flat, scored and folded; plates: cut apart, the edges bevelled", "folded",
          default="folded", choices=("folded", "plates")),
    Field("sizes.base", "base", "choice", "base", "open: nothing is soldered in below", "closed",
          default="closed", choices=("closed", "open")),
    Field("sizes.top", "top", "choice", "top", "of a prism or frustum", "closed", default="closed",
          choices=("closed", "open")),
    Field("sizes.layout", "layout", "choice", "flat laid out as",
          "star: faces round the first; strip: the walls in a row; best: the least to solder",
          "best", default="best", choices=("best", "star", "strip")),
    Field("sizes.score_web", "score_web", "length", "web under the groove",
          "what scoring leaves of the sheet", "0.2 mm", default="0.2 mm", low=0.05, high=2),
    Field("sizes.score_line", "score_line", "number", "neutral line of the web",
          "from the groove's bottom, in parts of the web", "0.4", default="0.4", high=1),
    Field("sizes.vent", "vent", "length", "vent", "hole in the base of a closed form, or in a face "
          "of a regular solid; the shop's unless you say so", "1.5 mm", low=0.5, high=20),
)  # fmt: skip

_UPRIGHT = ("prism", "pyramid", "frustum")
FIELDS = asked_by(
    "way",
    dict.fromkeys(("layout", "score_web", "score_line"), ("folded",)),
    asked_by(
        "kind",
        {
            "sides": _UPRIGHT,
            "height": _UPRIGHT,
            "top_across_flats": ("frustum",),
            "top": ("prism", "frustum"),
            "edge": tuple(kind for kind in KINDS if kind not in _UPRIGHT),
        },
        _ALL,
    ),
)


def build(b: Brief) -> Piece:
    """The piece of a brief: every size net, every number with its working."""
    form = _sized(b)
    vent = _vent(b, form)
    fold = folded(b, form) if b.word("way") == "folded" else None
    parts = _folded_parts(form, fold, vent) if fold else plates(form, vent)
    held = (dome.held_head(vent).named("held_head"),) if vent else ()
    joints = _joints(b, form, fold)
    return Piece(
        title=b.title,
        design="facet-form",
        quantities=by_id(
            *form.listed, b.sheet_thickness, *(fold.quantities if fold else ()),
            *((vent,) if vent else ()), *held, *(joint.length for joint in joints),
            *_laps(joints),
        ),
        stocks=(sheet_stock(b, "sheet", "sheet"),),
        parts=parts,
        joints=joints,
        fits=(),
        work=facet_work(form, fold, vent is not None),
        cautions=(*b.cautions, *_cautions(b, form, vent), *(wide_grooves(fold) if fold else ())),
        changes=tuple(b.changes),
        inches=b.inches,
    )  # fmt: skip


def _sized(b: Brief) -> Sized:
    kind = b.word("kind")
    if kind in facet_form_regular.SOLIDS:
        left = (0,) if b.word("base") == "open" else ()
        if left and kind in ("octahedron", "icosahedron"):
            raise b.refuse(
                "base", f"with a face left open the corners of an {kind} don't meet inside.",
                "Close it; half an octahedron, open below, is a pyramid of 4 sides.",
            )  # fmt: skip
        return facet_form_regular.sized(b, left)
    for name in NEEDS[kind]:
        if not b.has(name):
            example = b.design.field(name).example
            raise b.refuse(name, f"a {kind} needs it.", f"Add it, for example {example}.")
    last = int(b.sides.value) + 1
    low = (0,) if b.word("base") == "open" else ()
    high = (last,) if kind in TOPPED and b.word("top") == "open" else ()
    return facet_form_walls.sized(b, (*low, *high))


def _vent(b: Brief, form: Sized) -> Quantity | None:
    """The vent of a closed form [mm]; refused where its face is too small for it."""
    if form.hollow.left:
        return None
    vent = b.vent if b.has("vent") else b.shop("vent_hole").named("vent", "vent")
    room = min(size.value for size in form.faces[_vented(form)].sizes.values())
    if room < LEAST_ROOM * vent.value:
        raise b.refuse(
            "vent",
            f"a hole of {format_number(vent.value)} mm is large for a face of "
            f"{format_number(room)} mm.",
            "Take a smaller one, or make the form of solid metal.",
        )
    return vent


def _vented(form: Sized) -> int:
    """Which kind of face has the vent: that of the base, or of a regular solid's first face."""
    return next(i for i, kind in enumerate(form.faces) if 0 in kind.faces)


def _folded_parts(form: Sized, fold: Folded, vent: Quantity | None) -> tuple[Part, ...]:
    marks = (*fold.marks, *((vent_mark(fold.middle, vent),) if vent else ()))
    return (Part("net", "flat", "sheet", fold.blank(marks), form.mass, 1, (fold.solid,)),)


def _joints(b: Brief, form: Sized, fold: Folded | None) -> tuple[Joint, ...]:
    """Folds first, then the seams, those at the base last."""
    found = _fold_joints(b, form, fold) if fold else []
    seams = (
        fold.seams
        if fold
        else {s for kind in form.edges if not kind.at_opening for s in kind.sides}
    )
    order = {"": 0, "_top": 1, "_base": 2}
    for kind in sorted(form.edges, key=lambda each: order[each.suffix]):
        count = sum(side in seams for side in kind.sides)
        if kind.at_opening or not count:
            continue
        length = facet_size.seams_length(number(count), kind.length)
        lap = facet.mitre_width(b.sheet_thickness, kind.bevel)
        id = f"seams{kind.suffix}"
        found.append(
            Joint(
                id, f"seams at {kind.name}", _joined(form, fold, kind.suffix),
                length.named(f"{id}_length", f"length of the seams at {kind.name}"),
                lap.named(f"mitre_width{kind.suffix}", f"width of the seams at {kind.name}"),
                after=tuple(joint.id for joint in found),
            )
        )  # fmt: skip
    return tuple(found)


def _fold_joints(b: Brief, form: Sized, fold: Folded) -> list[Joint]:
    """The folds to solder from inside; where the form closes, the last face's own by itself."""
    closing = None if form.hollow.left else edge_at(form, fold.closing)
    counts = [(kind, count - (kind is closing)) for kind, count in fold.counted]
    lengths = [facet_size.seams_length(number(n), kind.length) for kind, n in counts if n]
    reached = "folds soldered from inside" if closing else "all folds"
    whole = total("folds_length", f"length of {reached}", lengths)
    found = [Joint("folds", "along the folds, inside", ("net",), whole, b.score_web)]
    if closing:
        last = closing.length.named("last_fold_length", "length of the last face's fold")
        label = "along the last face's fold"
        found.append(Joint("last_fold", label, ("net",), last, b.score_web, after=("folds",)))
    return found


def _joined(form: Sized, fold: Folded | None, suffix: str) -> tuple[str, ...]:
    """Parts that seams of a kind join."""
    if fold:
        return ("net",)
    if suffix and form.faces[0].id == "wall":
        return ("wall", suffix[1:])
    return tuple(kind.id for kind in form.faces) if form.faces[0].id != "wall" else ("wall",)


def _laps(joints: tuple[Joint, ...]) -> tuple[Quantity, ...]:
    return tuple(j.lap for j in joints if j.lap is not None and "fold" not in j.id)


def _cautions(b: Brief, form: Sized, vent: Quantity | None) -> tuple[Caution, ...]:
    """What to mind: a vent that holds liquid back, fields that have no use here."""
    found = []
    if vent and dome.held_head(vent).value > _tallest(form):
        text = (
            f"A hole of {format_number(vent.value)} mm holds back "
            f"{format_number(dome.held_head(vent).value, 0)} mm of water, more than the form is "
            "high: it neither fills nor drains by itself. Drill two, or one of 3 mm."
        )
        found.append(Caution("vent_holds_back", text, "safety", "vent"))
    used = NEEDS.get(b.word("kind"), ("edge", "across_flats"))
    asked = ("sides", "across_flats", "top_across_flats", "height", "edge")
    idle = [name for name in asked if b.has(name) and name not in used]
    idle += ["vent"] if b.has("vent") and vent is None else []
    for name in idle:
        label = b.design.field(name).label
        text = f"The {label} has no use in this form: it was left out."
        found.append(Caution(f"{name}_unused", text, "form", name))
    return tuple(found)


def _tallest(form: Sized) -> float:
    low, high = (f(corner[2] for corner in form.hollow.form.corners) for f in (min, max))
    return high - low


DESIGN = Design(
    id="facet-form",
    title="Form of plane faces",
    summary="A prism, pyramid, frustum or regular solid of sheet: one flat folded, or plates "
    "bevelled.",
    fields=FIELDS,
    build=build,
    examples=EXAMPLES,
)
