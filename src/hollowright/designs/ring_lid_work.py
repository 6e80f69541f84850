"""The work of an inner ring that follows an outline. Common practice, no source."""

from __future__ import annotations

from hollowright.designs.forms import Form
from hollowright.designs.ring_work import cut_strip, fitted_first, true_body
from hollowright.piece import Work


def ring_lid_work(form: Form, filing: float, scored: bool) -> tuple[Work, ...]:
    """Every step from the ring's strip to a lid that goes on; filing: a side of the stand [mm]."""
    return (*_ring(form, filing, scored), *_assembly(filing))


def _bend(form: Form, scored: bool) -> str:
    if form.shape == "circle":
        return "Bend the strip round a former a little smaller than {ring_inside}. "
    if form.shape == "oval":
        return (
            "Bend the strip to the body's own curve, its seam in the middle of a flat side, the "
            "marks where the ends and the other flat side come. "
        )
    corners = (
        "Score the grooves {ring_groove_depth} deep on the inside and fold it at the marks, "
        if scored
        else "Bend it at the marks, "
    )
    return f"{corners}its seam in the middle of a side, and try each corner in the body's own. "


def _ring(form: Form, filing: float, scored: bool) -> tuple[Work, ...]:
    halves = fitted_first(filing)
    mark = () if filing < -0.001 else ("ring_length",)
    return (
        cut_strip(),
        Work(
            "bend_ring",
            "bend",
            "Bend the ring and fit its length",
            "File both long edges straight and parallel, to {ring_width}. "
            f"{_bend(form, scored)}Spring the open ring into {halves}; press it to the wall all "
            "round. File an end square and try again until the ends just meet: expect to take off "
            "about {ring_guard} beside the dressing. 0.1 mm off the length is "
            "{diameter_per_tenth} across.",
            marks=("ring_width", *mark),
            after=("cut_strip",),
            cautions=("scored",) if scored else (),
        ),
        Work(
            "solder_ring",
            "solder",
            "Solder the ring's seam",
            "Close the seam with hard solder, pickle, set it true in the body or on its former, "
            "and file the seam flush outside: a bump of half the clearance jams the lid."
            + (" Run solder along every fold as well." if scored else ""),
            after=("bend_ring",),
            about=("ring_sheet",),
        ),
        _try(form, halves),
    )


def _try(form: Form, halves: str) -> Work:
    measure, reads = (
        ("It should measure {ring_first} outside", ("ring_outside", "ring_thickness"))
        if form.calliper
        else (
            "Round its outside a strip of paper should read {ring_first_round}, and the ring",
            ("ring_outside_round", "ring_thickness"),
        )
    )
    stretch = (
        "Too small by up to 1 in 100: stretch it on the mandrel (0.1 mm is {stretch_percent}). "
        "Smaller than that: make another. File, don't force: past {force_limit} of interference "
        "the soft {weaker} gives for good."
        if form.shape == "circle"
        else "Too small: make another, or planish it longer a little at a time. File, don't force: "
        "flat sides give way and never come back."
    )
    times = {"circle": "pi times ", "polygon": f"{form.turn.value:.2f} times "}.get(form.shape, "")
    joined = "and be" if form.calliper else "should be"
    return Work(
        "try_fit",
        "fit",
        "Try the ring",
        f"{measure} {joined} {{feel}} in {halves}. Too big: cut out {times}the excess and solder "
        f"again, or file it. {stretch}",
        marks=("ring_first",) if form.calliper else ("ring_first_round",),
        reads=reads,
        after=("solder_ring", "measure_halves"),
    )


def _assembly(filing: float) -> tuple[Work, ...]:
    stand = (
        "File the stand alone, {filing_per_side} off each side, until the fit is {feel}."
        if filing > 0.001
        else "Ease the stand with a fine file only where it rubs, until the fit is {feel}."
    )
    seat = (
        "File the part that goes into the lid, {seat_filing_per_side} off each side; leave the "
        "stand. "
        if filing < -0.001
        else ""
    )
    return (
        Work(
            "chamfer",
            "file",
            "Chamfer ring and mouth",
            "Chamfer the ring's inner end by {ring_chamfer} to clear the plate's fillet, its free "
            "edge by {lead_in} as a lead-in, and the inside of the body's mouth by "
            "{mouth_chamfer} to clear the rim's fillet. That leaves {sliding_land} to slide.",
            marks=("ring_chamfer", "lead_in", "mouth_chamfer"),
            after=("try_fit",),
        ),
        Work(
            "solder_in",
            "solder",
            "Solder the ring into the lid",
            f"{seat}Seat the ring so that it stands {{ring_stand}} out, flux the lap only, keep "
            "solder off the stand. Feed easy solder from one end of the lap and look for it at the "
            "other: flux shut in there creeps out for years. Keep the flame off the lid's plate "
            "and seam. The body stays away from the heat.",
            marks=("ring_stand",),
            after=("chamfer", "trim_plates"),
            cautions=("open_end",),
        ),
        true_body(),
        Work(
            "fit_lid",
            "file",
            "Fit the stand to the body",
            stand,
            marks=("filing_per_side",) if filing > 0.001 else (),
            after=("true_body",),
        ),
    )
