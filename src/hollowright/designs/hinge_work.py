"""The work of a hinge, from trying the pin to riveting it. Common practice, no source."""

from __future__ import annotations

from collections.abc import Sequence

from hollowright.designs.hinge_bodies import Leaf
from hollowright.piece import Work


def hinge_work(
    leaves: tuple[Leaf, Leaf], counts: Sequence[int], after: tuple[str, ...], level: str
) -> tuple[Work, ...]:
    """Every step; counts: knuckles of the outer and of the inner leaf; after: before the seats.

    level: the pin's, with the leaves' 'middle' or 'face'.
    """
    return (*_knuckles(*counts), *_set(*leaves, after, level), *_solder(*leaves), _rivet())


def _knuckles(outer: int, inner: int) -> tuple[Work, ...]:
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
            f"little long: {outer} of {{outer_knuckle_cut_length}} for the outer leaf, "
            f"which holds both ends, {inner} of {{inner_knuckle_cut_length}} for the inner one.",
            marks=("outer_knuckle_cut_length", "inner_knuckle_cut_length"), after=("try_pin",),
            about=("hinge_tube",),
        ),
        Work(
            "true_knuckles", "true", "True the knuckles in the jig",
            "File both ends of each flush with the jig's hardened face, square to the tube, to "
            "{knuckle_length} for the outer leaf and {inner_knuckle_length} for the inner one. "
            "Deburr inside with a scraper; don't round the outside. On the pin, pushed together, "
            "no light shows between two. With gaps of {knuckle_gap} they make a row of "
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


def _set(outer: Leaf, inner: Leaf, after: tuple[str, ...], level: str) -> tuple[Work, ...]:
    return (
        Work(
            "file_seats", "file", "File the seats",
            f"With a round file of the tube's diameter file a groove along the edge of "
            f"{outer.name} and of {inner.name}, {{seat_depth}} deep, {{seat_width}} wide round its "
            "hollow, until a length of the tube lies in it without rocking and no light comes "
            "through. Both edges together, if they can be clamped so, keep the pin straight. "
            f"{HOLLOW[level]} The edge then stands {{seat_lip}} from the pin's middle.",
            marks=("seat_depth", "seat_lip"), after=(*after, "true_knuckles"),
        ),
        Work(
            "string", "fit", "String the knuckles on a dummy pin",
            "Thread them in turn on a pin of steel, blackened, or of graphite: solder doesn't take "
            "on either. Outer leaf's first and last. Between two put a shim of mica or steel foil "
            "of {knuckle_gap}, and touch every end face with yellow ochre or graphite, dry, so "
            "that no solder creeps in. Lay the string in the seats, bind it with wire, check that "
            f"the pin is straight and level with {LEVEL[level]}.",
            after=("file_seats",),
        ),
    )  # fmt: skip


def _solder(outer: Leaf, inner: Leaf) -> tuple[Work, ...]:
    return (
        Work(
            "tack", "solder", "Tack alternate knuckles",
            f"One tiny piece of solder at the middle of each knuckle, from inside, well away from "
            f"its ends: the outer leaf's to {outer.name}, the inner leaf's to {inner.name}. Flux "
            "only there. Heat the leaves, not the tube, and stop when the pieces have flowed.",
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
            "each leaf by itself, so that nothing can run from one into the other. Little solder: "
            "what runs round the tube's end shuts the hinge.",
            after=("check_tacks",), cautions=("open_end",),
        ),
        Work(
            "run_in", "clean", "Pickle, clean the bores, try again",
            "Pickle, rinse, dry. Pull a thread or a broach through every knuckle, scrape solder "
            "off the end faces, put the real pin in and work the hinge to and fro. Then "
            "countersink the bore at both ends of the hinge with a cherry burr, to half of the "
            "wall: the pin's heads are spread into it.",
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
