"""The work of a cone at the bench, from marking out to a trued edge.

Common practice, no source. {names} are filled by the plan.
"""

from __future__ import annotations

from collections.abc import Iterable

from hollowright.piece import Work


def cone_work(sizes: Iterable[str], cut: bool, square: bool) -> tuple[Work, ...]:
    """Every step, by the names of the blank's sizes; cut: slanting; square: edges cut square."""
    sector = "sector_angle" in sizes
    apex = "sector_inner_radius" not in sizes or "sector_outer_radius" not in sizes
    return (*_blank(sector, apex, cut), *_bend(sector, cut), *_ends(cut, square))


def _blank(sector: bool, apex: bool, cut: bool) -> tuple[Work, ...]:
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
            f"{_marking(sector, apex, cut)} Or lay the true-size print on the sheet and prick it "
            "through. Scribe the bending lines lightly, on the side that will be inside.",
            marks=_marks(sector, apex, cut),
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


def _marks(sector: bool, apex: bool, cut: bool) -> tuple[str, ...]:
    sides = ("long_side", "short_side") if cut else ()
    if not sector:
        return ("blank_length", *(sides or ("slant",)))
    radii = ("sector_outer_radius",) if apex else ("sector_outer_radius", "sector_inner_radius")
    return (*radii, "sector_angle", "sector_chord", *sides)


def _marking(sector: bool, apex: bool, cut: bool) -> str:
    slanting = (
        " Set off {long_side} on the middle line and {short_side} on both seam edges, from the "
        "base; the slanting edge runs between them as the print shows."
        if cut
        else ""
    )
    if not sector:
        width = "" if cut else " and {slant} wide"
        return f"It is a rectangle, {{blank_length}} long{width}, its corners square.{slanting}"
    inner = "" if apex else " and {sector_inner_radius}"
    arcs = "one arc" if apex else "two arcs"
    return (
        f"Prick a centre. From it strike {arcs}, of {{sector_outer_radius}}{inner}. Draw one edge "
        "from the centre, set dividers to {sector_chord} and step it off on the longer arc: that "
        "is {sector_angle}. Draw the other edge." + slanting
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


def _ends(cut: bool, square: bool) -> tuple[Work, ...]:
    more = " The blank had {square_extra} more at each end for this." if square else ""
    slope = (
        " File the slanting edge on the flat as well, until it lies on it all round: the cut then "
        "lies in one plane."
        if cut
        else ""
    )
    height = "" if cut else " Stop at {height} high."
    return (
        Work(
            "file_ends",
            "file",
            "File the ends flat",
            f"Rub the ends on a sheet of abrasive on a flat until they touch all round.{height}"
            f"{more}{slope}",
            marks=() if cut else ("height",),
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
