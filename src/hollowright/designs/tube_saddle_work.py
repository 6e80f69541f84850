"""The work of a branch on a main at the bench: papers, hole, saddle, seam.

Common practice, no source, except where the text says so. {names} are filled by the plan.
"""

from __future__ import annotations

from hollowright.piece import Work


def saddle_work(joint: str, cut: str, alone: bool, proud: str, turned: bool) -> tuple[Work, ...]:
    """Every step; joint and cut as the fields have them; alone: the main is a part of the piece.

    proud: where a square edge stands past the main, in words, or nothing. turned: whether the
    branch stands away from the line that it is counted from.
    """
    return (
        *_stock(alone),
        *_branch(cut, proud),
        *_hole(joint, alone, turned),
        *_together(joint),
    )


def _stock(alone: bool) -> tuple[Work, ...]:
    main = ("main_cut_length",) if alone else ()
    sawn = "Saw {main_cut_length} for the main and " if alone else "Saw "
    read = " Read the main in the same way." if alone else ""
    return (
        Work(
            "measure",
            "measure",
            "Measure the tube",
            "Read the branch's outside at three places round it and its wall with a ball or "
            f"knife-edge jaw.{read} The papers' lengths follow these readings.",
            marks=("branch_outside_diameter", "branch_wall"),
        ),
        Work(
            "saw",
            "saw",
            "Saw to length",
            f"{sawn}{{branch_cut_length}} for the branch, square: its longest line with {{truing}} "
            "for each end. True one end of the branch flat.",
            marks=(*main, "branch_cut_length"),
            after=("measure",),
            about=("main", "branch") if alone else ("branch",),
        ),
    )


def _branch(cut: str, proud: str) -> tuple[Work, ...]:
    more = (
        f" But {proud} the outside still stands past the main: file that off to the bevel, "
        "{proud} at most. It can't close before."
        if proud
        else ""
    )
    how = {
        "bevelled": "The line is followed outside: saw roughly, then file with a half-round file "
        "held along the main, so that the whole wall lies on it.",
        "square": "The line is for an edge square to the wall: hold saw and file square to the "
        f"tube everywhere. The inside's edge then sits on the main.{more}",
        "unfiled": "The line is for an edge square to the wall: hold saw and file square to the "
        "tube everywhere. It touches the main all round as it is: nothing more is filed.",
    }
    return (
        Work(
            "template",
            "mark",
            "Mark the saddle on the branch",
            "Print its paper at true size and check the bar, or plot it: {template_length} "
            "long in twelve equal parts, the distances set off from the straight edge. Scribe a "
            "line along the branch for the foot's side. Wrap the paper printed side out with its "
            "middle on that line and its straight edge {edge_from_end} from the square end; its "
            "ends must just meet. Scribe along the saddle.",
            marks=("template_length", "template_height", "edge_from_end"),
            after=("saw",),
        ),
        Work(
            "cut_saddle",
            "saw",
            "Cut the saddle",
            f"{how[cut]} Saw in short cuts to the line, the waste away in pieces; a rod in a thin "
            "tube keeps the blade from the far wall.",
            after=("template",),
            about=("branch",),
        ),
    )


def _hole(joint: str, alone: bool, turned: bool) -> tuple[Work, ...]:
    edge = (
        "Lead saw and file along the branch, not towards the main's axis. The hole is the "
        "branch's bore: stay on the line, the branch covers no more than its wall beyond it."
        if joint == "set-on"
        else "The line is where the branch breaks through the main's outside. A hole cut towards "
        "the main's axis comes {narrower_inside} narrower inside: lead saw and file along the "
        "branch, stop short of the line, and file until the branch just enters all the way."
    )
    foot = "the end that you call its foot" if alone else "its foot"
    seam = "" if alone else " (its seam, if it has one)"
    line = (
        f"{{way_round}} to the right of the line you count from{seam}, the foot down"
        if turned
        else f"the one you count from{seam}"
    )
    way = ("way_round",) if turned else ()
    return (
        Work(
            "mark_hole",
            "mark",
            "Mark the hole on the main",
            f"Scribe a line along the main, {line}. Set off {{hole_middle}} on it from {foot} and "
            "lay the hole's paper there printed side out, the foot below, its cross on line and "
            "mark. Prick the outline through.",
            marks=(*way, "hole_middle", "hole_width", "hole_length"),
            after=("measure",),
        ),
        Work(
            "cut_hole",
            "saw",
            "Cut the hole",
            f"Drill inside the line, thread the blade, saw, and file to the line. {edge} A wooden "
            "plug in the main keeps it round under the drill.",
            after=("mark_hole",),
            about=("main",) if alone else (),
            cautions=("drill",),
        ),
    )


def _together(joint: str) -> tuple[Work, ...]:
    sits = (
        "Stand the branch over the hole and look along it from all sides: no light between."
        if joint == "set-on"
        else "Let the branch in until its edge lies flush with the main's bore; look through the "
        "main, nothing may stand in."
    )
    return (
        Work(
            "try_saddle",
            "fit",
            "Try the branch on the main",
            f"{sits} It must stand {{angle}} to the main's axis and its end {{axis_length}} from "
            "that axis. Turn it a little each way and file where the ink marks.",
            marks=("angle", "axis_length"),
            after=("cut_saddle", "cut_hole"),
        ),
        Work(
            "solder_branch",
            "solder",
            "Solder the branch",
            "Bind it with iron wire round the main, or hold it by its own weight, upright. Flux; "
            "hard solder round the seam, {joint_length} long. Heat the main more than the branch: "
            "it has more metal. Both branch and main stay open; a main with its bottom in wants "
            "its other end open.",
            after=("try_saddle",),
            cautions=("open_end",),
        ),
        Work(
            "clean",
            "clean",
            "Clean and weigh",
            "Pickle, rinse the inside through, look into the branch for a burr of solder. Weigh it "
            "(planned {mass}).",
            after=("solder_branch",),
        ),
    )
