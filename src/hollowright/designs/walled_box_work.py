"""The work of a walled box at the bench, but for its lid. Common practice, no source."""

from __future__ import annotations

from hollowright.designs.forms import Form
from hollowright.piece import Work

FORMERS = {
    "circle": "Bend it round a mandrel, seam edges meeting square.",
    "oval": (
        "Bend it over the hand or a round stake until it lies on the drawn outline all round; the "
        "marks say where the ends and the flat side come, the seam is in the middle of the other "
        "flat side."
    ),
    "rectangle": "The seam is in the middle of a long side, where it is easiest to close.",
    "polygon": "The seam is in the middle of a side, where it is easiest to close.",
    "path": (
        "Lay it on the drawn outline as you go. The seam is in the middle of the longest straight "
        "side or, where there is none, where the drawing begins."
    ),
}
"""How a strip is brought to each shape."""


def box_work(
    form: Form, plates: str, scored: bool, reads: tuple[str, ...], cap: bool
) -> tuple[Work, ...]:
    """Every step before the lid's own: plates 'on-end' or 'let-in'; reads: across or round.

    cap: the lid has a wall of its own: the body's isn't sawn apart, and only the base goes on yet.
    """
    return (*_walls(form, scored, cap), *_plates(plates, cap), _measure(reads, cap))


def finish(after: str) -> tuple[Work, ...]:
    """What is done last."""
    return (
        Work(
            "index",
            "mark",
            "Scribe the index line",
            "Turn the lid to the way it sits best and scribe a short line over both halves: what "
            "is bent by hand fits one way only.",
            after=(after,),
        ),
        Work(
            "clean",
            "clean",
            "Clean, weigh, write down",
            "Pickle, rinse, neutralise in soda water, rinse again, and dry with the lid off. Warm "
            "nothing with the lid on. Polish off as little as you can: it loosens the fit. Weigh "
            "it (planned {mass}).",
            after=("index",),
            cautions=("closed_box",),
        ),
    )


def _walls(form: Form, scored: bool, cap: bool) -> tuple[Work, ...]:
    width = (
        "{wall_cut_width} wide: the height of the body's wall and its dressing."
        if cap
        else "{wall_cut_width} wide: both walls, a saw cut between them and {truing} to true each "
        "sawn edge. One strip makes both, so that lid and body are one shape."
    )
    steps = [
        Work(
            "measure",
            "measure",
            "Measure the sheet",
            "Read the sheet's thickness at three places with the calliper or a micrometer; zero it "
            "before. Print the base's outline at true size and bend to that.",
            marks=("wall_sheet_thickness",),
        ),
        Work(
            "cut_wall",
            "cut",
            "Cut the wall's strip",
            f"Mark a strip {{wall_cut_length}} long and {width} Ends square to the edges. Scribe "
            "the lines across it where it bends.",
            marks=("wall_cut_length", "wall_cut_width"),
            after=("measure",),
            about=("wall_sheet",),
        ),
        *_bend(form, scored),
        Work(
            "solder_wall",
            "solder",
            "Solder the wall's seam",
            "Bind it with iron wire, a twist on each side to draw the seam shut, and close it with "
            "hard solder" + (", running solder along every fold" if scored else "") + ". Pickle "
            "with the wire off. True it on the former or the drawing again, and file the seam "
            "flush inside and out.",
            after=("bend_wall",),
            cautions=("open_end",),
        ),
    ]
    if not cap:
        steps.append(_saw_apart())
    return tuple(steps)


def _bend(form: Form, scored: bool) -> tuple[Work, ...]:
    groove = Work(
        "score_wall",
        "cut",
        "Score the corners",
        "On the inside, file or scrape a groove along each mark, {groove_depth} deep, to the angle "
        "that stands beside it; {score_web} of metal stays under it. A scriber's line begins to "
        "show on the outside when it is deep enough.",
        marks=("groove_depth", "score_web"),
        after=("cut_wall",),
        cautions=("scored",),
    )
    bend = Work(
        "bend_wall",
        "bend",
        "Fold the wall" if scored else "Bend the wall",
        "Anneal the strip, flatten it, and file its ends square to {wall_length} between them: all "
        f"else is reckoned on that. {'Fold it at the marks. ' * scored}{FORMERS[form.shape]}",
        marks=("wall_length",),
        after=("score_wall",) if scored else ("cut_wall",),
    )
    return (groove, bend) if scored else (bend,)


def _saw_apart() -> Work:
    return Work(
        "saw_apart",
        "saw",
        "Saw lid from body",
        "Scribe round at {body_wall_height} and {truing} more from the body's end, with a surface "
        "gauge; scribe one short line across it, to find the match again. Saw along its far side "
        "now, while both ends are open, and true both edges on fine paper on a flat, to "
        "{lid_wall_height} and {body_wall_height}. Never solder plates on both ends of the uncut "
        "wall: that is a sealed form. Who wants to saw it after drills a vent on the saw line "
        "before the second plate goes on.",
        marks=("lid_wall_height", "body_wall_height"),
        after=("solder_wall",),
        about=("wall_sheet",),
        cautions=("uncut_tube",),
    )


def _plates(plates: str, cap: bool) -> tuple[Work, ...]:
    on_end = plates == "on-end"
    which = "the base" if cap else "base and top"
    each = "the wall on it" if cap else "each wall on its plate"
    sits = (
        f"Stand {each}, flux, bind or weight it, and feed the solder from outside."
        if on_end
        else "Let the plate in flush with the wall's edge, flux, and feed the solder from outside."
    )
    trim = (
        "Saw off what stands over and file it down to the wall, then stone it flush."
        if on_end
        else "File the edges flush and stone them."
    )
    rim = (
        "{cap_rim} larger than the wall all round, to trim off later"
        if on_end
        else "to go in with a gap for the solder"
    )
    rims = "rim" if cap else "rims"
    return (
        Work(
            "cut_plates",
            "cut",
            f"Cut {which}",
            f"Cut {which} by the blank on the card, held against the wall first: {rim}. Flatten "
            "and clean it.",
            after=("solder_wall",),
            about=("plate_sheet",),
        ),
        Work(
            "solder_plates",
            "solder",
            f"Solder {which}",
            f"{sits} {'It' if cap else 'Each half'} stays open at the other end. Heat the plate "
            "from below more than the wall's edge. Hard solder once more; paint the wall's seam "
            "with yellow ochre and keep the flame off it.",
            after=("solder_wall" if cap else "saw_apart", "cut_plates"),
            cautions=("open_end",),
        ),
        Work(
            "trim_plates",
            "file",
            f"Trim {which} and true the {rims}",
            f"{trim} Then true the {rims} once more on the flat, now: the lid follows what is read "
            "next.",
            after=("solder_plates",),
        ),
    )


def _measure(reads: tuple[str, ...], cap: bool) -> Work:
    depths = ("body_depth",) if cap else ("lid_depth", "body_depth")
    planned = (
        "the body's inside depth (planned {planned_body_depth})"
        if cap
        else "the inside depths (planned {planned_lid_depth} and {planned_body_depth})"
    )
    return Work(
        "measure_halves",
        "measure",
        "Measure the body again" if cap else "Measure both halves again",
        f"Read {planned} with the depth rod, and what the lid has to fit: across with the jaws, "
        "or, where no jaws will do, round it on a strip of paper. Write them in the plan: every "
        "number after this follows what came out, not what was meant.",
        marks=(*depths, *reads),
        reads=(*depths, *reads),
        after=("trim_plates",),
    )
