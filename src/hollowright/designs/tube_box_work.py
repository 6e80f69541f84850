"""The work of a tube box at the bench, in an order that is safe and can't undo itself.

Common practice, no source, except where the text says so. {names} are filled by the plan.
"""

from __future__ import annotations

from hollowright.designs.ring_work import clean, cut_strip, fitted_first, true_body
from hollowright.piece import Work


def tube_box_work(caps: str, saw_from: str, filing: float) -> tuple[Work, ...]:
    """Every step: caps 'on-end' or 'let-in'; saw_from as the choice says; filing a side [mm]."""
    return (
        *_stock(saw_from),
        *_caps(caps),
        *_ring(filing),
        *_assembly(filing),
    )


def _stock(saw_from: str) -> tuple[Work, ...]:
    apart = saw_from == "from both ends"
    where = (
        "Saw the lid from one factory-square end and the body from the other: those two ends take "
        "the caps, the sawn ends will meet at the lid."
        if apart
        else "Saw the lid from the tube's best end and the body next to it, so that neighbours "
        "meet at the lid: an oval tube matches itself there. Scribe a line along the tube first, "
        "to find the match again."
    )
    return (
        Work(
            "measure",
            "measure",
            "Measure the stock",
            "Read the outside round the tube at three places 60 degrees apart, near the end you "
            "will use. Read the wall with a ball or knife-edge jaw: flat jaws bridge the hollow "
            "and read thick. Zero the calliper before and look again after.",
            marks=("outside_diameter", "wall", "bore", "ring_thickness"),
        ),
        Work(
            "saw_tube",
            "saw",
            "Saw lid and body from the tube",
            f"{where} Mark {{lid_cut_length}} for the lid and {{body_cut_length}} for the body "
            "(that leaves {truing} to true each sawn end), wrap paper round to scribe square, saw "
            "on the waste side. Do this before any cap goes on; who would rather cap first caps "
            "one end, saws that half off, and only then caps the other.",
            marks=("lid_cut_length", "body_cut_length"),
            after=("measure",),
            about=("tube",),
            cautions=("uncut_tube",),
        ),
        Work(
            "true_ends",
            "true",
            "True the sawn ends",
            "Rub each sawn end on fine paper on a flat, in figures of eight, turning the piece. "
            "Blacken the rim with a marker: when the ink goes all round in one stroke it is flat. "
            "Stop at {lid_length} for the lid and {body_length} for the body; check with a small "
            "square all round.",
            marks=("lid_length", "body_length"),
            after=("saw_tube",),
        ),
        Work(
            "deburr",
            "file",
            "Deburr both bores",
            "Scrape or ream the inside edges until a fingernail runs over them. A tube cutter "
            "rolls the edge inward and a welded tube has a bead inside: both must go, or the ring "
            "won't enter.",
            after=("true_ends",),
        ),
    )


def _caps(caps: str) -> tuple[Work, ...]:
    on_end = caps == "on-end"
    sits = (
        "Stand the square end of each half (as bought, or trued) on its cap, flux, bind or weight "
        "it, and feed the solder from outside."
        if on_end
        else "Let each cap into the bore flush with the end, flux, and feed the solder from "
        "outside."
    )
    trim = (
        "Saw off the rim that stands over and file it down to the tube's outside, {cap_diameter}, "
        "then stone it flush."
        if on_end
        else "File the end flush and stone it."
    )
    rim = (
        " ({cap_diameter} and a rim to trim off later)"
        if on_end
        else " (the bore less a gap for the solder)"
    )
    body = (
        "the body's inside depth, which is its tube's length (planned {planned_body_length}),"
        if on_end
        else "the body's length over all (planned {planned_body_length})"
    )
    return (
        Work(
            "cut_caps",
            "cut",
            "Cut two caps",
            f"Cut two discs of {{cap_cut_diameter}}{rim} from the cap sheet. Flatten and clean "
            "them.",
            marks=("cap_cut_diameter",),
            after=("measure",),
            about=("cap_sheet",),
        ),
        Work(
            "solder_caps",
            "solder",
            "Solder a cap on each half",
            f"{sits} Each half stays open at its other end. Heat the tube more than the thin cap. "
            "Hard solder here: it must outlast the ring's heat.",
            after=("deburr", "cut_caps"),
            cautions=("open_end",),
        ),
        Work(
            "trim_caps",
            "file",
            "Trim the caps and true the lid's rim",
            f"{trim} Then true the lid's rim once more on the flat, now: the ring's width follows "
            "the depth that is read next.",
            after=("solder_caps",),
        ),
        Work(
            "measure_halves",
            "measure",
            "Measure both halves again",
            f"Read the lid's inside depth (planned {{planned_lid_depth}}), {body} and both bores "
            "with the inside jaws. Write them in the plan: every number after this follows what "
            "came out, not what was meant.",
            marks=("lid_depth", "body_length", "lid_bore", "body_bore"),
            reads=("lid_depth", "body_length", "lid_bore", "body_bore"),
            after=("trim_caps",),
        ),
    )


def _ring(filing: float) -> tuple[Work, ...]:
    halves = fitted_first(filing)
    return (
        cut_strip(),
        Work(
            "bend_ring",
            "bend",
            "Bend the ring and fit its length",
            "File both long edges straight and parallel, to {ring_width}. Bend the strip round a "
            "former a little smaller than {ring_inside_diameter}. Spring the open "
            f"ring into {halves}. File an end square and try again until the ends just meet: "
            "expect to take off about {ring_guard} beside the dressing. 0.1 mm off the length "
            "is {diameter_per_tenth} off the diameter.",
            marks=("ring_width",) if filing < -0.001 else ("ring_width", "ring_length"),
            after=("cut_strip",),
        ),
        Work(
            "solder_ring",
            "solder",
            "Solder the ring's seam",
            "Close the seam with hard solder, pickle, round it up on a mandrel and file the seam "
            "flush outside: a bump of half the clearance jams the lid.",
            after=("bend_ring",),
            about=("ring_sheet",),
        ),
        Work(
            "try_fit",
            "fit",
            "Try the ring",
            f"It should measure {{ring_first_diameter}} outside and be {{feel}} in "
            f"{halves}. Too big: cut out pi times the excess and solder again, or file it. Too "
            "small by up to 1 in 100: stretch it on the mandrel (0.1 mm on "
            "{ring_outside_diameter} is {stretch_percent}). Smaller than that: make another. File, "
            "don't force: past "
            "{force_limit} of interference the soft {weaker} gives for good.",
            marks=("ring_first_diameter",),
            reads=("ring_outside_diameter", "ring_thickness"),
            after=("solder_ring", "measure_halves"),
        ),
    )


def _assembly(filing: float) -> tuple[Work, ...]:
    stand = (
        "File the stand alone to {ring_slide_diameter}, {filing_per_side} off each side, until "
        "the fit is {feel}."
        if filing > 0.001
        else "Ease the stand with a fine file only where it rubs, until the fit is {feel}."
    )
    first = (
        "File the part that goes into the lid to {ring_outside_diameter}, "
        "{seat_filing_per_side} off each side; leave the stand. "
        if filing < -0.001
        else ""
    )
    return (
        Work(
            "chamfer",
            "file",
            "Chamfer ring and mouth",
            "Chamfer the ring's inner end by {ring_chamfer} to clear the cap's fillet, its free "
            "edge by {lead_in} as a lead-in, and the inside of the body's mouth by "
            "{mouth_chamfer} to clear the rim's fillet. That leaves {sliding_land} to slide.",
            marks=("ring_chamfer", "lead_in", "mouth_chamfer"),
            after=("try_fit",),
        ),
        Work(
            "solder_in",
            "solder",
            "Solder the ring into the lid",
            f"{first}Seat the ring so that it stands {{ring_stand}} out, flux the lap only, keep "
            "solder off the stand. Feed easy solder (for gold, the easy one of its own carat; "
            "medium flows too near the point where the hard seams soften) from one end of the lap "
            "and look for it at the other: flux shut in there creeps out for years. The body "
            "stays away from the heat.",
            marks=("ring_stand",),
            after=("chamfer", "trim_caps"),
            cautions=("open_end",),
        ),
        true_body(),
        Work(
            "file_stand",
            "file",
            "Fit the stand to the body",
            stand,
            marks=("ring_slide_diameter",),
            after=("true_body",),
        ),
        Work(
            "index",
            "mark",
            "Scribe the index line",
            "Turn the lid to where it sits best and scribe a short line over both halves: an oval "
            "tube fits one way only.",
            after=("file_stand",),
        ),
        clean(),
    )
