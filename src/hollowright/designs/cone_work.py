"""The work of a cone at the bench, from marking out to a trued edge.

Common practice, no source. {names} are filled by the plan.
"""

from __future__ import annotations

from dataclasses import dataclass

from hollowright.piece import Work


@dataclass(frozen=True)
class Way:
    """How a cone is made: what its steps depend on.

    sector: a sector and not a cylinder's rectangle; both: it has an arc at either end; steps: of
    the dividers along the longer arc, 1 for its chord; cut: slanting; square: edges cut square.
    """

    sector: bool
    both: bool
    steps: int
    cut: bool
    square: bool


def cone_work(way: Way) -> tuple[Work, ...]:
    """Every step at the bench."""
    return (*_blank(way), *_bend(way.sector, way.cut), *_ends(way))


def _blank(way: Way) -> tuple[Work, ...]:
    marking = (_sector if way.sector else _rectangle)(way)
    return (
        Work(
            "measure",
            "measure",
            "Measure the sheet",
            "Read the thickness at two edges. All sizes asked for are outside; the blank is worked "
            "out on the middle of the sheet.",
            marks=("sheet_thickness",),
        ),
        Work(
            "mark_out",
            "mark",
            "Mark out the blank",
            f"{marking}{_slanting(way)} Or lay the true-size print on the sheet and prick it "
            "through. Scribe the bending lines lightly, on the side that will be inside.",
            marks=_marks(way),
            after=("measure",),
        ),
        Work(
            "cut_blank",
            "cut",
            "Cut the blank",
            "Saw on the waste side of the line, leaving what the cut outline shows, and file to "
            "it. File the two seam edges straight: they must meet along their whole length.",
            after=("mark_out",),
            about=("sheet",),
        ),
    )


def _marks(way: Way) -> tuple[str, ...]:
    sides = ("long_side", "short_side") if way.cut else ()
    if not way.sector:
        return ("blank_length", *(sides or ("slant",)))
    radii = ("sector_outer_radius", "sector_inner_radius")[: 2 if way.both else 1]
    return (*radii, "sector_angle", "sector_step" if way.steps > 1 else "sector_chord", *sides)


def _slanting(way: Way) -> str:
    """How the slanting edge is set off; nothing for a square one."""
    if not way.cut:
        return ""
    inside = ", {square_extra} inside the blank's edge" if way.square and way.sector else ""
    return (
        " Set off {long_side} on the middle line and {short_side} on both seam edges, from the "
        f"base{inside}; the slanting edge runs between them as the print shows."
    )


def _rectangle(way: Way) -> str:
    width = "" if way.cut else " and {slant} wide"
    return f"It is a rectangle, {{blank_length}} long{width}, its corners square."


def _sector(way: Way) -> str:
    strike = (
        "two arcs, of {sector_outer_radius} and {sector_inner_radius}"
        if way.both
        else "one arc, of {sector_outer_radius}"
    )
    arc = "the longer arc" if way.both else "the arc"
    stepped = (
        f"{{sector_chord}} and set it off on {arc}"
        if way.steps == 1
        else f"{{sector_step}} and step it off {way.steps} times along {arc}, always onwards"
    )
    check = (
        f" Straight across between the ends of {arc} it then measures {{sector_chord}}."
        if way.steps > 1
        else ""
    )
    return (
        f"Prick a centre. From it strike {strike}. Draw one edge from the centre, set dividers to "
        f"{stepped}: that is {{sector_angle}}. Draw the other edge.{check}"
    )


def _bend(sector: bool, cut: bool) -> tuple[Work, ...]:
    former = (
        "over a cone stake or a tapered mandrel, the narrow end a little more tightly than the wide"
        if sector
        else "round a former a little smaller than the bore"
    )
    seam = "{short_side}" if cut else "{slant}"
    return (
        Work(
            "bend",
            "bend",
            "Bend it up",
            f"Anneal. Curl both seam edges first: they can't be reached later. Then bend {former}, "
            "a little at each bending line, until the edges pass each other, and spring them back "
            "to meet edge to edge with some pressure.",
            after=("cut_blank",),
        ),
        Work(
            "solder_seam",
            "solder",
            "Solder the seam",
            "Bind it with iron wire, twisted loops along the seam so that the wire can give. Sight "
            f"along the inside: no light through the seam. Flux, hard solder along {seam} of seam, "
            "heat the whole form and then along the seam. Cut the wire off before the "
            "pickle.",
            after=("bend",),
            cautions=("open_end",),
        ),
        Work(
            "true_round",
            "bend",
            "True it on the stake",
            "File the seam flush, anneal, and tap it round on the stake with a mallet, from the "
            "wide end to the narrow. Turn it as you go and don't stretch the edges.",
            after=("solder_seam",),
            cautions=("hammer",),
        ),
    )


def _ends(way: Way) -> tuple[Work, ...]:
    where = "at the base" if way.cut else "at each end" if way.both else "at its wide end"
    more = f" The blank had {{square_extra}} more {where} for this." if way.square else ""
    slope = (
        " File the slanting edge on the flat as well, until it lies on it all round: the cut then "
        "lies in one plane. It then stands {high_point} over the base on the long side and "
        "{low_point} on the short, upright and outside."
        if way.cut
        else ""
    )
    height = "" if way.cut else " Stop at {height} high."
    return (
        Work(
            "file_ends",
            "file",
            "File the ends flat",
            f"Rub the ends on a sheet of abrasive on a flat until they touch all round.{height}"
            f"{more}{slope}",
            marks=("high_point", "low_point") if way.cut else ("height",),
            after=("true_round",),
        ),
        Work(
            "clean",
            "clean",
            "Clean and weigh",
            "Deburr both edges, pickle, rinse, dry. Weigh it (planned {mass}) and write down the "
            "diameters that came out.",
            after=("file_ends",),
        ),
    )
