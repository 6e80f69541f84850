"""The work of a bead at the bench, in an order that is safe. Common practice, no source."""

from __future__ import annotations

from hollowright.designs.bead_cups import Sequenced
from hollowright.piece import Work


def bead_work(cups: Sequenced) -> tuple[Work, ...]:
    """Every step; cups: the way through the block."""
    return (
        Work(
            "measure", "measure", "Measure the sheet",
            "Read the thickness at three places: the blank is reckoned on the middle of the metal.",
            marks=("sheet_thickness",),
        ),
        Work(
            "cut_discs", "cut", "Cut two discs",
            "Scribe and cut two discs of {dome_cut_diameter}: {blank_diameter}, which has the area "
            "of the dome's middle surface, and {dome_rim} all round to true off. That takes the "
            "metal to keep its thickness on the whole. A disc by the length over the dome, "
            "{blank_by_arc}, would be right only if the metal gathered round the rim to a mean of "
            "{thickness_by_arc}; in a block it stretches instead, and the dome comes out too deep. "
            "Deburr the edges: a burr tears in the block.",
            marks=("dome_cut_diameter",), after=("measure",), about=("sheet",),
        ),
        Work(
            "dome", "bend", "Dome both discs in the block", _through(cups),
            marks=tuple(stage.mouth.id for stage in cups.stages),
            after=("cut_discs",), cautions=("hammer",),
        ),
        Work(
            "drill", "saw", "Drill the hole in each dome, from inside",
            "Now, before anything is closed: mark the middle of the inside, centre-punch it over a "
            "block of wood, and drill {hole} from inside out, the dome lying in a cup or on pitch. "
            "Each dome gets its hole: a hole drilled in the flat disc opens as it is domed. These "
            "holes are the bead's vents. Deburr both sides.",
            marks=("hole",), after=("dome",), cautions=("vent", "drill"),
        ),
        Work(
            "true_rims", "true", "True the rims",
            "Rub each dome's rim on fine paper on a flat, in figures of eight, until the ink of a "
            "marker goes all round in one stroke and the dome measures {diameter} across and "
            "{rise} high. The rim is then {rim_land} wide. Make the second dome to the first: "
            "equal girdles matter more than the number.",
            marks=("diameter", "rise"), reads=("diameter", "rise"), after=("drill",),
        ),
        Work(
            "bind", "fit", "Set the domes rim to rim",
            "Hold them to the light: no gap. Look through the holes: you must see through. Flux "
            "both rims, lay the lower dome in a hollow of charcoal, the other on it, and bind them "
            "crosswise with binding wire, not tight: the domes grow in the heat.",
            after=("true_rims",), cautions=("vent",),
        ),
        Work(
            "solder", "solder", "Solder the girdle",
            "Small pieces of solder all round, {girdle} of seam, or melt them on one rim first and "
            "sweat the other on. Warm it slowly and all round, holes up and down and free, so that "
            "the air gets out through them; draw the solder round with the flame. A liner tube for "
            "the cord, soldered at both ends, would shut the hollow: leave it out, or give the "
            "bead another vent.",
            after=("bind",), cautions=("vent",),
        ),
        Work(
            "boil_out", "clean", "Pickle, and boil the pickle out",
            "Let it cool in the air before it goes into anything: quenched hot it sucks the liquid "
            "in. It holds {inside_volume}, and its hole holds back {held_head} of water. After the "
            "pickle, boil it in water with soda for ten minutes, again in clear water, shake it "
            "out and dry it warm with the holes free, until nothing comes out. What stays in "
            "creeps out green for years, and spits at the next heat.",
            after=("solder",),
        ),
        Work(
            "finish", "file", "Finish the girdle",
            "File the seam flush, little: the rim is thin there. Crown thickness left is about "
            "{crown_least} to {crown_most} (a range from practice): file that little too. Run a "
            "round file through the holes so that nothing cuts the cord. Weigh it (planned "
            "{mass}).",
            after=("boil_out",),
        ),
    )  # fmt: skip


def _through(cups: Sequenced) -> str:
    """The way through the block, in words."""
    begin = "Anneal both discs and pickle them dry. "
    if cups.wide:
        begin += (
            "No cup of the block takes the disc whole: begin in a hollow cut in end-grain wood, "
            "until it goes into a cup. "
        )
    if cups.flat:
        return begin + (
            "No cup of the block is as flat as this dome: work it in a shallow hollow of wood or "
            "over a stake, to a template of radius {dome_radius}, turning it as you go. Anneal "
            "when it rings hard."
        )
    told = []
    for number, stage in enumerate(cups.stages, 1):
        told.append(
            f"Cup {number}: {{{stage.mouth.id}}} across, {{{stage.depth.id}}} deep, with the "
            f"nearest punch under {{{stage.punch.id}}}, until the dome lies on all over, about "
            f"{{{stage.rise.id}}} high."
        )
        if number % cups.every == 0 and number < len(cups.stages):
            told.append("Anneal.")
    return (
        f"{begin}Strike in the middle first, then round, turning the disc; a wooden punch marks "
        f"less. {' '.join(told)} The disc is larger by its rim, so a little more than the planned "
        "rise is right. Look at the profile against a template of radius {dome_radius}, and finish "
        "over a ball or a punch if it is still too flat."
    )
