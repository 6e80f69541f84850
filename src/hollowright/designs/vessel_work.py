"""The work of a vessel at the bench, by the way it is made. Common practice, no source."""

from __future__ import annotations

from collections.abc import Sequence

from hollowright.piece import Part, Work

MEASURE = Work(
    "measure", "measure", "Measure the sheet",
    "Read the thickness at three places: blanks are reckoned on the middle of the metal.",
    marks=("sheet_thickness",),
)  # fmt: skip


def raised_work(courses: int, based: bool) -> tuple[Work, ...]:
    """Cut the disc, raise it course by course from a flat base or a bowl, planish, true the rim."""
    return (
        MEASURE,
        Work(
            "cut_disc", "cut", "Cut the disc",
            "Scribe and cut a disc of {vessel_cut_diameter}: {blank_diameter}, which has the area "
            "of the form's middle surface, and {raising_rim} all round to true off: raising is "
            "never even. Diameter and height added up would give another number. Dress the edge "
            "smooth: a nick becomes a crack.",
            marks=("vessel_cut_diameter",), after=("measure",), about=("sheet",),
        ),
        *(_from_flat(courses) if based else _from_bowl(courses)),
        Work(
            "planish", "bend", "Planish",
            "Anneal and pickle once more. True the form over stakes that fit it, against a "
            "template of the profile cut from card, then planish in rings from the middle out with "
            "a polished hammer, each blow over the stake. By then the wall is between {wall_least} "
            "and {wall_most} thick, a range from practice: thinnest where it was sunk or worked "
            "most, thickest at the rim. Read it at the rim with a ball jaw.",
            after=("raise",), cautions=("hammer",),
        ),
        Work(
            "true_rim", "true", "True the rim",
            "Stand it on a flat, scribe round at {height} with a surface gauge, saw off what "
            "stands over, and rub the rim on a flat until the ink goes all round. The mouth "
            "measures {mouth_diameter} outside.",
            marks=("height", "mouth_diameter"), after=("planish",),
        ),
        _clean(("true_rim",)),
    )  # fmt: skip


def _from_flat(count: int) -> tuple[Work, ...]:
    """Raising round a flat base, with its courses."""
    told = " ".join(
        f"Course {k}: wall at {{course_{k}_angle}}, {{course_{k}_height}} high, mouth "
        f"{{course_{k}_mouth}}."
        for k in range(1, count + 1)
    )
    return (
        Work(
            "scribe_base", "mark", "Scribe the base",
            "Anneal the disc. From its middle scribe the base, {base_diameter}, and pencil rings "
            "a finger's width apart to keep the courses even.",
            marks=("base_diameter",), after=("cut_disc",),
        ),
        Work(
            "raise", "bend", f"Raise it in {count} courses",
            f"Anneal before every course: {count} times in all, more if it rings hard. Over the "
            "stake, from the scribed base out to the rim, ring by ring, the blow just above where "
            "the metal lies on. Heights are those of a straight wall of the rim's own area: a "
            f"guide, not a size. {told} Then shape the wall to the profile.",
            after=("scribe_base",), cautions=("hammer",),
        ),
    )  # fmt: skip


def _from_bowl(count: int) -> tuple[Work, ...]:
    """Sinking first, where there is no flat base to raise from."""
    return (
        Work(
            "raise", "bend", "Sink it, then raise it",
            "Anneal the disc. Sink it in a hollow of end-grain wood or a sandbag, from the rim "
            "inwards in rings, turning it, until it is a bowl of about half the height. Anneal. "
            f"Then over a stake from the middle out in about {count} courses, annealed before "
            "each, more if it rings hard, until it fits the template. Sinking stretches the "
            "bottom: stop early, it is the thinnest place.",
            after=("cut_disc",), cautions=("hammer",),
        ),
    )  # fmt: skip


def cones_work(cones: Sequence[Part]) -> tuple[Work, ...]:
    """Cut, roll and seam each cone, file its ends flat, stack them, base last."""
    sectors = [each for each in cones if each.blank.form == "plate"]
    told = " ".join(_blank_of(each) for each in cones)
    marks = tuple(size for each in cones for size in _marks(each))
    bent = (
        "The straight lines of a cone fan out: bend along them, the narrow end further."
        if sectors
        else "Bend the strip evenly."
    )
    return (
        MEASURE,
        Work(
            "cut_blanks", "cut", "Cut the cones' blanks and the base",
            f"{told} The base is a disc of {{base_cut_diameter}} ({{base_diameter}} and a rim to "
            "trim). Lay the printed outlines on, or strike the arcs with dividers from one centre. "
            "Number them from below.",
            marks=(*marks, "base_cut_diameter"), after=("measure",), about=("sheet",),
        ),
        Work(
            "bend", "bend", "Bend and close each cone",
            f"Anneal. {bent} Dress the two edges until they meet with a little spring, bind with "
            "wire.",
            after=("cut_blanks",),
        ),
        Work(
            "solder_seams", "solder", "Solder each cone's own seam",
            "Hard solder; they are open rings. Pickle, round them up on a stake or a cone mandrel, "
            "file the seams flush.",
            after=("bend",),
        ),
        Work(
            "true_ends", "true", "File the ends flat",
            "Rub both ends of each on a flat: the edge of a cone cut square leans, so take it down "
            "until the whole thickness lies on, and no further than its height: "
            + ", ".join(f"{each.name} {{{each.id}_height}}" for each in cones)
            + ". Neighbours must have the same outside where they meet.",
            marks=tuple(f"{each.id}_height" for each in cones), after=("solder_seams",),
        ),
        Work(
            "stack", "solder", "Solder the cones one on the other",
            "Seams apart from each other, never in one line. Flux, bind or weight; easy solder, "
            "since medium flows too near the point where the hard seams soften; paint those with "
            "yellow ochre all the same. It is open at both ends all the while. File the outside "
            "over the joints.",
            after=("true_ends",), cautions=("open_end",),
        ),
        *_base_work(("stack",), "The mouth stays open: keep the solder off it."),
    )  # fmt: skip


def _blank_of(part: Part) -> str:
    """What to mark for a cone's blank."""
    id = part.id
    if part.blank.form == "strip":
        return (
            f"{part.name.capitalize()}: a strip {{{id}_cut_length}} long, {{{id}_cut_width}} wide."
        )
    return (
        f"{part.name.capitalize()}: a sector of {{{id}_sector_angle}} between radii "
        f"{{{id}_cut_sector_outer_radius}} and {{{id}_cut_sector_inner_radius}}."
    )


def _marks(part: Part) -> tuple[str, ...]:
    if part.blank.form == "strip":
        return (f"{part.id}_cut_length", f"{part.id}_cut_width")
    return (
        f"{part.id}_sector_angle",
        f"{part.id}_cut_sector_outer_radius",
        f"{part.id}_cut_sector_inner_radius",
    )


def gores_work(count: int, based: bool) -> tuple[Work, ...]:
    """Cut the gores, dish each, solder them to halves and the halves together, base last."""
    base = " and a base" if based else ""
    marks = ("gore_cut_length", "gore_cut_width", *(("base_cut_diameter",) if based else ()))
    return (
        MEASURE,
        Work(
            "cut_gores", "cut", f"Cut the gores{base}",
            "Stick the printed outline on, or make a pattern of thin sheet and scribe round it: "
            "{gore_cut_length} long, {gore_cut_width} at the widest. Cut all alike, clamp them "
            "together and file the edges as one."
            + (" The base is a disc of {base_cut_diameter}." if based else ""),
            marks=marks, after=("measure",), about=("sheet",),
        ),
        Work(
            "dish", "bend", "Bend and dish each gore",
            "Anneal. Bend each along its length to a template of the profile, then dish it a "
            "little across over a sandbag: a flat gore bends one way only, and its edges have "
            "{edge_defect} too much to follow the form. Planish that in, a little more at the "
            "widest place.",
            after=("cut_gores",), cautions=("hammer",),
        ),
        Work(
            "fit", "fit", "Fit the edges",
            "File each edge to lie square on its neighbour, which is a bevel of half the angle "
            "between two. All of them, stood together, must close without a gap: too much is taken "
            "off one gore, too little is spread by planishing.",
            after=("dish",),
        ),
        *_seams(count),
        *(
            _base_work(("join",), "The mouth stays open.")
            if based
            else (_rim(("join",)), _clean(("true_rim",)))
        ),
    )  # fmt: skip


def _seams(count: int) -> tuple[Work, ...]:
    """Two halves that true on the flat where the number is even; else the last gore on its own."""
    odd = count % 2
    last = (
        "No two halves of an odd number lie flat: hold the last gore in its gap, file it until it "
        "touches both neighbours all along, bind"
        if odd
        else "True both halves on the flat, bind"
    )
    return (
        Work(
            "halves", "solder",
            "Solder the gores but the last" if odd else "Solder the gores to two halves",
            f"Bind {f'{count - 1} of them, side by side,' if odd else 'them'} on a former or pin "
            "them in charcoal; hard solder, one seam after the other, earlier ones painted with "
            "yellow ochre.",
            after=("fit",),
        ),
        Work(
            "join", "solder", "Solder in the last gore" if odd else "Solder the halves together",
            f"{last}, solder the two last seams with easy. Pickle, true it on a stake, planish "
            "lightly over all seams.",
            after=("halves",), cautions=("open_end",),
        ),
    )  # fmt: skip


def _base_work(after: tuple[str, ...], open_end: str) -> tuple[Work, ...]:
    return (
        Work(
            "base", "solder", "Solder the wall on its base",
            "True the foot on the flat, stand it on the base disc, and feed solder from outside: "
            "extra easy, or easy again with the seams above painted with yellow ochre and the "
            f"flame kept on the base. {open_end} Saw off the rim that stands "
            "over and file it to the wall, {base_diameter}.",
            after=after, cautions=("open_end",),
        ),
        _rim(("base",)),
        _clean(("true_rim",)),
    )  # fmt: skip


def _rim(after: tuple[str, ...]) -> Work:
    return Work(
        "true_rim", "true", "True the rim",
        "Rub the rim on a flat until the ink goes all round; {height} high over all, "
        "{mouth_diameter} across the mouth outside.",
        marks=("height", "mouth_diameter"), after=after,
    )  # fmt: skip


def _clean(after: tuple[str, ...]) -> Work:
    return Work(
        "clean", "clean", "Clean, fill, weigh",
        "Pickle, rinse, neutralise in soda water, dry. Fill it with water: to {fill_level} from "
        "the table it should hold {capacity}, to the brim {brim_capacity}; look for a leak. What "
        "is drunk or eaten from wants a lining by someone who tins or silvers: copper and brass "
        "aren't safe with food. Weigh it (planned {mass}).",
        after=after,
    )  # fmt: skip
