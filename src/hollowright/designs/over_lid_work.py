"""The work of lids that go over the body: an outer rim, a cap. Common practice, no source."""

from __future__ import annotations

from hollowright.designs.forms import Form
from hollowright.piece import Work


def _strip(part: str, name: str, stock: str, waits: str) -> Work:
    return Work(
        "cut_strip",
        "cut",
        f"Cut the {name}'s strip",
        f"Anneal the sheet. Mark a strip {{{part}_cut_length}} long and {{{part}_cut_width}} wide, "
        f"its ends square. It is long on purpose: the guard is {{{part}_guard}}, because too long "
        "is filed and too short is not. A trial beats reckoning: wrap the strip round the body "
        "with a slip of thin paper under it, scribe where it overlaps, cut on the line.",
        marks=(f"{part}_cut_length", f"{part}_cut_width"),
        after=(waits,),
        about=(stock,),
    )


def _bend(form: Form, part: str, name: str, scored: bool) -> Work:
    if form.shape == "circle":
        way = "Bend it round the body itself, a slip of thin paper between."
    elif form.shape == "oval":
        way = "Bend it to the body itself, its seam in the middle of a flat side."
    elif scored:
        way = (
            f"Score the grooves {{{part}_groove_depth}} deep on the inside, fold at the marks, and "
            "try each corner on the body."
        )
    else:
        way = "Bend it at the marks and try each corner on the body."
    return Work(
        "bend_strip",
        "bend",
        f"Bend the {name} to the body",
        f"File both long edges straight and parallel. {way} File an end square and try again until "
        f"the ends just meet: expect to take off about {{{part}_guard}} beside the dressing. 0.1 "
        "mm off the length is {diameter_per_tenth} across.",
        marks=(f"{part}_length",),
        after=("cut_strip",),
        cautions=("scored",) if scored else (),
    )


def _seam(name: str, scored: bool) -> Work:
    return Work(
        "solder_seam",
        "solder",
        f"Solder the {name}'s seam",
        f"Take it off the body. Close the seam with hard solder{_folds(scored)}, pickle, true it "
        "on a former, and file the seam flush inside: a bump of half the clearance jams the lid.",
        after=("bend_strip",),
    )


def _folds(scored: bool) -> str:
    return ", running solder along every fold" if scored else ""


def _try(form: Form, name: str, more: tuple[str, ...]) -> Work:
    reads = ("lid_bore",) if form.calliper else ("lid_inside_round",)
    size = "{lid_bore} inside" if form.calliper else "{lid_inside_round} round its inside"
    stretch = (
        "Too small by up to 1 in 100: stretch it on the mandrel. "
        if form.shape == "circle"
        else "Too small by a little: planish it longer. "
    )
    return Work(
        "try_fit",
        "fit",
        f"Try the {name}",
        f"It should measure {size} and go over the body {{feel}}. Too loose: cut out the excess "
        f"and solder again. {stretch}Smaller than that: make another. Don't force it.",
        marks=reads,
        reads=(*reads, *more),
        after=("solder_seam",),
    )


def rim_work(form: Form, scored: bool) -> tuple[Work, ...]:
    """Every step from the rim's strip to the lid that goes on."""
    return (
        _strip("rim", "rim", "ring_sheet", "measure_halves"),
        _bend(form, "rim", "rim", scored),
        _seam("rim", scored),
        _try(form, "rim", ("ring_thickness",)),
        _rim_edges(),
        Work(
            "solder_on",
            "solder",
            "Solder the rim onto the lid",
            "Push the rim on so that it lies {rim_lap} on the lid and reaches {rim_reach} below "
            "the lid's edge. Flux the lap only, feed easy solder from above and look for it all "
            "round; keep it off the part that slides. Keep the flame off the lid's plate and seam. "
            "The body stays away from the heat.",
            marks=("rim_lap", "rim_reach"),
            after=("rim_edges",),
            cautions=("open_end",),
        ),
        Work(
            "true_body",
            "true",
            "True the body's edge to the lid",
            "Put the lid on and rub the body's edge down until the lid's own edge sits on it all "
            "round, not the fillet of the solder.",
            after=("solder_on",),
        ),
        _ease("true_body"),
    )


def _rim_edges() -> Work:
    return Work(
        "rim_edges",
        "file",
        "Chamfer rim and mouth",
        "Chamfer the inside of the rim's free edge by {lead_in} as a lead-in, and the outside of "
        "the body's mouth by {mouth_chamfer} to clear the fillet at the lid. That leaves "
        "{sliding_land} to slide.",
        marks=("lead_in", "mouth_chamfer"),
        after=("try_fit",),
    )


def _ease(after: str) -> Work:
    return Work(
        "fit_lid",
        "file",
        "Ease the lid",
        "Blacken the body's edge with a marker, put the lid on and off, and file only where it "
        "rubs bright, until the fit is {feel}.",
        after=(after,),
    )


def cap_work(form: Form, scored: bool, plates: str) -> tuple[Work, ...]:
    """Every step from the lid's own wall to the lid that goes on."""
    name = "lid's wall"
    on_end = plates == "on-end"
    sits = "Stand the lid's wall on its plate" if on_end else "Let the top in flush with the edge"
    trim = "Saw off what stands over, file and stone it flush." if on_end else "File it flush."
    return (
        _strip("lid_wall", name, "wall_sheet", "measure_halves"),
        _bend(form, "lid_wall", name, scored),
        _seam(name, scored),
        _try(form, name, ()),
        Work(
            "cut_top",
            "cut",
            "Cut the top",
            "Cut the top by its blank on the card, held against the lid's wall first. Flatten and "
            "clean it.",
            after=("try_fit",),
            about=("plate_sheet",),
        ),
        Work(
            "solder_top",
            "solder",
            "Solder the top",
            f"{sits}, flux, bind or weight it, and feed the solder from outside: hard solder once "
            "more, the wall's seam painted with yellow ochre and the flame kept off it. The lid "
            "stays open below; the body stays away from the heat.",
            after=("cut_top",),
            cautions=("open_end",),
        ),
        Work(
            "trim_top",
            "file",
            "Trim the top, chamfer the edges",
            f"{trim} Chamfer the inside of the lid's free edge by {{lead_in}} as a lead-in, and "
            "the outside of the body's mouth by {mouth_chamfer} to clear the fillet under the top. "
            "That leaves {sliding_land} to slide. Read the lid's inside depth.",
            marks=("lead_in", "mouth_chamfer"),
            reads=("lid_depth",),
            after=("solder_top",),
        ),
        _ease("trim_top"),
    )
