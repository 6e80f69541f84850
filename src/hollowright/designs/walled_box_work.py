"""The work of a walled box at the bench, but for its lid. Common practice, no source."""

from __future__ import annotations

from dataclasses import dataclass

from hollowright.designs.ring_work import clean
from hollowright.piece import Work

SIDES = ("rectangle", "polygon")
SEAM = "where it is easiest to close."

MOST_BIG = 8
"""More lines than this stand in the step's sentence alone, not as large figures beside it."""

FORMERS = {
    "circle": "Bend it round a mandrel, seam edges meeting square.",
    "oval": (
        "Bend it over the hand or a round stake until it lies on the drawn outline all round; the "
        "marks say where the ends and the flat side come, the seam is in the middle of the other "
        "flat side."
    ),
    "rectangle": f"The seam is in the middle of a long side, {SEAM}",
    "polygon": f"The seam is in the middle of a side, {SEAM}",
    "path": (
        "Lay it on the drawn outline as you go. The seam is in the middle of the longest straight "
        "side or, where there is none, where the drawing begins."
    ),
}
"""How a strip is brought to each shape."""


@dataclass(frozen=True)
class Strip:
    """How the wall's strip is bent: to which shape, scored or round a rod, its lines' ids."""

    shape: str
    scored: bool
    rounded: bool
    lines: tuple[str, ...]

    @property
    def scribed(self) -> str:
        """The sentence that has the lines scribed across it; '' where it has none."""
        if self.shape == "circle":
            return ""
        if not self.lines:
            return " Then stick the print on and scribe its lines across, where it bends."
        places = ", ".join(f"{{{line}}}" for line in self.lines)
        return f" Then scribe the lines across it where it bends; from one end: {places}."

    @property
    def bent(self) -> str:
        """The sentences that bend or fold it."""
        way = ""
        if self.scored:
            rest = " and bend it round a stake between them" if self.shape == "path" else ""
            way = f"Fold it at the grooves, each once and slowly{rest}; try it on the outline. "
        elif self.rounded:
            way = (
                "Bend each corner between its two lines, square, round a rod of "
                "{bend_inner_radius} radius, the lines inside. "
            )
        elif self.shape in SIDES:
            way = (
                "Bend it at each line over a sharp straight edge of steel, clamped along the line, "
                "until the corner lies on the printed outline. "
            )
        elif self.shape == "path":
            way = (
                "Bend it at and between its lines as the print says: round a rod or a stake where "
                "it curves, over a sharp edge where it has a corner. "
            )
        return way + FORMERS[self.shape]


def box_work(strip: Strip, plates: str, reads: tuple[str, ...], cap: bool) -> tuple[Work, ...]:
    """Every step before the lid's own: plates 'on-end' or 'let-in'; reads: across or round.

    cap: the lid has a wall of its own: the body's isn't sawn apart, and only the base goes on yet.
    """
    return (*_walls(strip, cap), *_plates(plates, cap), _measure(reads, cap))


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
        clean(),
    )


def _walls(strip: Strip, cap: bool) -> tuple[Work, ...]:
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
            f"Mark a strip {{wall_cut_length}} long and {width} Ends square to the edges.",
            marks=("wall_cut_length", "wall_cut_width"),
            after=("measure",),
            about=("wall_sheet",),
        ),
        *_bend(strip),
        Work(
            "solder_wall",
            "solder",
            "Solder the wall's seam",
            "Bind it with iron wire, a twist on each side to draw the seam shut, and close it with "
            "hard solder"
            + (", running solder along every fold" if strip.scored else "")
            + ". Pickle "
            "with the wire off. True it on the former or the drawing again, and file the seam "
            "flush inside and out.",
            after=("bend_wall",),
            cautions=("open_end",),
        ),
    ]
    if not cap:
        steps.append(_saw_apart())
    return tuple(steps)


def _bend(strip: Strip) -> tuple[Work, ...]:
    square = Work(
        "square_wall",
        "file",
        "Square the strip's ends",
        "Anneal the strip, flatten it, and file its ends square to {wall_length} between them: all "
        f"else is reckoned on that.{strip.scribed}",
        marks=("wall_length", *(strip.lines if len(strip.lines) <= MOST_BIG else ())),
        after=("cut_wall",),
    )
    angle = "to {groove_angle}" if strip.shape in SIDES else "to the angle on the print beside it"
    groove = Work(
        "score_wall",
        "cut",
        "Score the corners",
        "On the inside, file or scrape a groove along each line, {groove_depth} deep, "
        f"{angle}; {{score_web}} of metal stays under it. A scriber's line begins to show on the "
        "outside when it is deep enough.",
        marks=("groove_depth", "score_web"),
        after=("square_wall",),
        cautions=("scored",),
    )
    bend = Work(
        "bend_wall",
        "bend",
        "Fold the wall" if strip.scored else "Bend the wall",
        strip.bent,
        marks=("bend_inner_radius",) if strip.rounded and not strip.scored else (),
        after=("score_wall",) if strip.scored else ("square_wall",),
    )
    return (square, groove, bend) if strip.scored else (square, bend)


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
