"""The work of a mitre or an elbow of tube at the bench.

Common practice, no source, except where the text says so. {names} are filled by the plan.
"""

from __future__ import annotations

from collections.abc import Sequence

from hollowright.designs.tube_mitre_paper import Kind
from hollowright.piece import Work


def mitre_work(cut: str, kinds: Sequence[Kind]) -> tuple[Work, ...]:
    """Every step; cut: how the edge is made; kinds: of the pieces."""
    elbow = sum(kind.count for kind in kinds) > 1
    work = (*_stock(kinds, elbow), *_mark(kinds), *_cut(cut))
    return (*work, *(_joined() if elbow else ()), _clean(elbow))


def _stock(kinds: Sequence[Kind], elbow: bool) -> tuple[Work, ...]:
    lengths = ", ".join(
        f"{f'{kind.count} of ' if kind.count > 1 else ''}{{{kind.id}_cut_length}} ({kind.name})"
        for kind in kinds
    )
    spare = (
        " Cut one after the other from one tube, each turned half round, neighbours can share a "
        "slanting cut: that spends less tube than is reckoned here."
        if elbow
        else ""
    )
    return (
        Work(
            "measure",
            "measure",
            "Measure the tube",
            "Read the outside at three places round it and the wall with a ball or knife-edge jaw. "
            "The paper's length follows the outside, the line of a square cut the wall as well.",
            marks=("tube_outside_diameter", "tube_wall"),
        ),
        Work(
            "saw",
            "saw",
            "Saw the tube to length",
            f"Saw square, and long enough for the long side: {lengths}; {{truing}} is left for "
            f"each end.{spare}",
            marks=tuple(f"{kind.id}_cut_length" for kind in kinds),
            after=("measure",),
            about=("tube",),
        ),
        Work(
            "square_end",
            "true",
            "True an end square",
            "Rub one end of each piece flat and square: the cut is measured from there. Scribe a "
            "line along the tube where the long side will be.",
            after=("saw",),
        ),
    )


def _mark(kinds: Sequence[Kind]) -> tuple[Work, ...]:
    both = (
        " A middle piece has its own paper with a line at both ends, so that its long sides can't "
        "get twisted against each other."
        if any(kind.mitred == 2 for kind in kinds)
        else ""
    )
    legs = [kind for kind in kinds if kind.mitred == 1]
    tips = ", ".join(f"{{{kind.long.id}}} ({kind.name})" for kind in legs)
    return (
        Work(
            "template",
            "mark",
            "Cut the template",
            "Print it at true size and check its bar, or plot it: a strip {template_length} long "
            "and {template_height} high in twelve equal parts, the heights set off from its "
            "straight edge, a fair line through them. Wrapped round, its ends must just meet: if "
            "they don't, read the tube's outside again.",
            marks=("template_length", "template_height"),
            after=("measure",),
        ),
        Work(
            "mark_cut",
            "mark",
            "Scribe the cut",
            "Wrap the paper so that its ends meet on the short side and its long line lies on the "
            f"line along the tube; the tip stands so far from the square end: {tips}. On the first "
            "leg its straight edge lies {edge_from_end} from that end. Tape it, scribe along its "
            f"edge all round, and take it off before you saw.{both}",
            marks=(*(kind.long.id for kind in legs), "edge_from_end"),
            after=("template", "square_end"),
        ),
    )


def _cut(cut: str) -> tuple[Work, ...]:
    how = {
        "bevelled": "Lead the blade straight through the tube, so that it runs on the scribed line "
        "on both sides at once: the whole wall then lies in the plane. File to the line, the file "
        "held along the plane.",
        "square": "Cut with the blade or the file square to the wall everywhere, to the line. On "
        "the short side the outside then stands {proud} past the plane: file that much off to the "
        "bevel, and no more.",
        "unfiled": "Cut with the blade or the file square to the wall everywhere, to the line. The "
        "edge touches all round as it is, with the outside on the short side and the inside on the "
        "long; nothing more is filed.",
    }
    return (
        Work(
            "cut_mitre",
            "saw",
            "Cut the mitre",
            f"{how[cut]} Slip a rod or a rolled strip into a thin tube, so that the blade can't "
            "catch on the far wall.",
            after=("mark_cut",),
            about=("tube",),
        ),
        Work(
            "try_mitre",
            "fit",
            "Try the mitre on a flat",
            "Stand the cut on a flat plate against a light: no light may pass, and the tube must "
            "lean {angle} out of upright. The mouth measures {mouth_length} outside, from the long "
            "side to the short.",
            marks=("angle", "mouth_length"),
            after=("cut_mitre",),
        ),
    )


def _joined() -> tuple[Work, ...]:
    return (
        Work(
            "joint",
            "solder",
            "Solder the elbow",
            "Lay the pieces on a flat charcoal block, long sides out, and look that the legs stand "
            "{bend} to each other; hold them with cotter pins or binding wire over the bend. Flux, "
            "hard solder from the inside of the bend, {joint_length} round each joint. Both ends "
            "stay open. With more joints than one, solder from the middle outwards and turn each "
            "piece on its neighbour before it is soldered: a twist of a degree shows at the end of "
            "the leg.",
            marks=("bend",),
            after=("try_mitre",),
            about=("tube",),
            cautions=("open_end",),
        ),
    )


def _clean(elbow: bool) -> Work:
    rest = (
        "Pickle, rinse the inside through, file the seams flush. "
        if elbow
        else "Deburr the edges with a scraper. "
    )
    return Work(
        "clean",
        "clean",
        "Clean and weigh",
        f"{rest}Weigh it (planned {{mass}}) and write down the angle that came out.",
        after=("joint" if elbow else "try_mitre",),
    )
