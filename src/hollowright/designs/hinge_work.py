"""The work of a hinge, from trying the pin to riveting it. Common practice, no source."""

from __future__ import annotations

from collections.abc import Sequence

from hollowright.designs.hinge_bodies import Leaf
from hollowright.piece import Work


def hinge_work(
    leaves: tuple[Leaf, Leaf], counts: Sequence[int], after: tuple[str, ...], level: str,
    in_rims: bool,
) -> tuple[Work, ...]:  # fmt: skip
    """Every step; counts: knuckles of the outer and of the inner leaf; after: before the seats.

    level: the pin's, with the leaves' 'middle' or 'face'. in_rims: the leaves are walls whose rims
    meet and that are soldered already.
    """
    return (
        *_knuckles(leaves, counts),
        *_set(*leaves, after, level, in_rims),
        *_solder(*leaves, EASY if in_rims else HARD),
        _rivet(),
    )


HARD = "hard solder"
EASY = "easy solder, the hard seams near it painted with yellow ochre"
"""Which solder holds the knuckles: on leaves by themselves, and on walls that have seams."""


def _knuckles(leaves: tuple[Leaf, Leaf], counts: Sequence[int]) -> tuple[Work, ...]:
    outer, inner = leaves
    return (
        Work(
            "try_pin", "measure", "Try the pin in the tube",
            "Read the tube's outside two ways, its wall at both ends, and the pin at two places. "
            "Then try: the pin must slide through the whole tube by its own weight and not rattle. "
            "By what was read the clearance is {pin_clearance}; a pin of {pin_aim} would be best.",
            marks=("hinge_tube_outside_diameter", "hinge_tube_wall", "hinge_pin_diameter"),
        ),
        Work(
            "saw_knuckles", "saw", "Saw the knuckles",
            "Saw them in a tube-cutting jig, the saw's blade in its slot and the stop set, a "
            f"little long: {counts[0]} of {{outer_knuckle_cut_length}} for {outer.name}, which "
            f"holds both ends, {counts[1]} of {{inner_knuckle_cut_length}} for {inner.name}.",
            marks=("outer_knuckle_cut_length", "inner_knuckle_cut_length"), after=("try_pin",),
            about=("hinge_tube",),
        ),
        Work(
            "true_knuckles", "true", "True the knuckles in the jig",
            "File both ends of each flush with the jig's hardened face, square to the tube, to "
            f"{{knuckle_length}} for {outer.name} and {{inner_knuckle_length}} for {inner.name}. "
            "Deburr inside with a scraper; don't round the outside. Countersink the bore of the "
            "two end ones with a cherry burr, on the side that will look out, to half of the wall: "
            "the pin's heads are spread into it. On the pin, pushed together, no light shows "
            "between two. With gaps of {knuckle_gap} they make a row of "
            "{knuckle_row}.",
            marks=("knuckle_length", "inner_knuckle_length", "knuckle_row"),
            reads=("knuckle_length", "inner_knuckle_length"), after=("saw_knuckles",),
            cautions=("filings",),
        ),
    )  # fmt: skip


LEVEL = {
    "middle": "the middle of the leaves' thickness",
    "face": "the faces that fold together (a box's outer ones)",
}
"""With what the pin's middle lies level."""

HOLLOW = {
    "middle": "The pin's middle is to lie level with the middle of the thickness, so both edges of "
    "the groove stand alike.",
    "face": "The pin's middle is to lie level with the faces that fold together (a box's outer "
    "ones), so the groove takes that edge right away and leaves the other one standing.",
}
"""Where in the edge the groove is filed."""


NOTCH = (
    "Mark the hinge's {hinge_width} in the middle of a longest straight side, one without the "
    "wall's seam, on both rims at once. The rims are to meet: saw a notch of that width and "
    "{seat_lip} deep into each. "
)
"""What walls need before their seats: their rims would be held apart by the knuckles."""

WAY_IN = (
    " Where the side goes on beyond the hinge, file the outer corner of both rims away to a "
    "quarter-round of half the pin's thickness: from one end of the notch to the side's end, where "
    "the pin goes in, and for {pin_end} beyond the other, for its head."
)
"""How the pin comes past the walls, whose outer face lies level with its middle."""


def _set(
    outer: Leaf, inner: Leaf, after: tuple[str, ...], level: str, in_rims: bool
) -> tuple[Work, ...]:
    edge = "the notch" if in_rims else "the edge"
    return (
        Work(
            "file_seats", "file", "File the seats",
            f"{NOTCH if in_rims else ''}With a round file of the tube's diameter file a groove "
            f"along {edge} of {outer.name} and of {inner.name}, {{seat_depth}} deep, "
            "{seat_width} wide round its hollow, until a length of the tube lies in it without "
            "rocking and no light comes through. Both edges together, if they can be clamped so, "
            f"keep the pin straight. {HOLLOW[level]} The edge then stands {{seat_lip}} from the "
            f"pin's middle.{WAY_IN if in_rims else ''}",
            marks=("seat_depth", "seat_lip"), after=(*after, "true_knuckles"),
        ),
        Work(
            "string", "fit", "String the knuckles on a dummy pin",
            "Thread them in turn on a pin of steel, blackened, or of graphite: solder doesn't take "
            f"on either. Those of {outer.name} come first and last. Between two put a shim of mica "
            "or steel foil of {knuckle_gap}, and touch every end face with yellow ochre or "
            "graphite, dry, so that no solder creeps in. Lay the string in the seats, bind it with "
            f"wire, check that the pin is straight and level with {LEVEL[level]}.",
            after=("file_seats",),
        ),
    )  # fmt: skip


def _solder(outer: Leaf, inner: Leaf, grade: str) -> tuple[Work, ...]:
    return (
        Work(
            "tack", "solder", "Tack the knuckles in turn",
            f"Take {grade}: one tiny piece at the middle of each knuckle, from inside, well away "
            f"from its ends, one knuckle to {outer.name}, the next to {inner.name}. Flux only "
            "there. Heat the leaves, not the tube, and stop when the pieces have flowed.",
            after=("string",), cautions=("open_end",),
        ),
        Work(
            "check_tacks", "fit", "Check that it turns",
            "Let it cool, push the dummy pin out, and turn the leaves on the real pin: free, "
            "straight, and the leaves in line. A knuckle that sits wrong comes off easily now. "
            "Take a steel pin out before the pickle.",
            after=("tack",),
        ),
        Work(
            "solder_leaves", "solder", "Solder each leaf apart",
            f"Take the leaves off each other. Solder the knuckles to {outer.name} along their "
            f"whole length ({{outer_held}} in all), then those to {inner.name} ({{inner_held}}), "
            f"each leaf by itself, with {grade}, so that nothing can run from one into the other. "
            "Little solder: what runs round the tube's end shuts the hinge.",
            after=("check_tacks",), cautions=("open_end",),
        ),
        Work(
            "run_in", "clean", "Pickle, clean the bores, try again",
            "Pickle, rinse, dry. Pull a thread or a broach through every knuckle, scrape solder "
            "off the end faces, put the real pin in and work the hinge to and fro.",
            after=("solder_leaves",),
        ),
    )  # fmt: skip


def _rivet() -> Work:
    return Work(
        "rivet_pin", "fit", "Rivet the pin, cold and last",
        "When all heats, the pickle and the polishing are done: saw the pin to {pin_length}, its "
        "ends square, {pin_end} standing out at each end. Rest one end on steel and spread the "
        "other with light taps of a small hammer, turning it, then change over, until the heads "
        "fill both countersinks and the pin can't slide. File what stands out to a small dome, or "
        "flush where the countersink is full. A drop of oil. No heat after that.",
        marks=("pin_length", "pin_end"), after=("run_in",), cautions=("hammer",),
    )  # fmt: skip
