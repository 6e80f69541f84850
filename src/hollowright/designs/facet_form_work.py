"""The work of a form with plane faces, folded or of plates, in an order that is safe.

Common practice, no source. {names} are filled by the plan.
"""

from __future__ import annotations

from hollowright.designs.facet_form_folds import Folded
from hollowright.designs.facet_form_kinds import EdgeKind, Sized
from hollowright.designs.facet_form_plates import lean_text
from hollowright.piece import Work
from hollowright.units import format_number


def facet_work(form: Sized, fold: Folded | None, vented: bool) -> tuple[Work, ...]:
    """Every step; fold: where it is folded from one flat; vented: where it closes all round."""
    made = _folding(form, fold, vented) if fold else _plates(form, vented)
    return (_measure(), *made, *_finish(made[-1].id, vented))


def _measure() -> Work:
    return Work(
        "measure", "measure", "Measure the sheet",
        "Read the thickness at three places. All sizes asked for are outside; the hollow is one "
        "thickness smaller at every face.",
        marks=("sheet_thickness",),
    )  # fmt: skip


def _drill(where: str, after: str) -> Work:
    return Work(
        "drill_vent", "saw", "Drill the vent",
        f"Now, while it lies flat: centre-punch the middle of {where} and drill {{vent}} through. "
        "Deburr both sides. It is the only way out for air, steam and pickle once the form is "
        "closed.",
        marks=("vent",), after=(after,), cautions=("vent", "drill"),
    )  # fmt: skip


def _folding(form: Sized, fold: Folded, vented: bool) -> tuple[Work, ...]:
    seams = [kind for kind in form.edges if not kind.at_opening and fold.seams & set(kind.sides)]
    found = [_lay_out(fold), _cut_flat()]
    if vented:
        found.append(_drill("the base" if _walled(form) else "the face so marked", "cut_flat"))
    found += [_score(fold, found[-1].id), _bevel_seams(form, seams)]
    last_face = _face_name(form, fold.last_face) if vented else ""
    found += [_fold_up(fold, last_face), _solder_folds(vented)]
    last = "solder_folds"
    if vented:
        found.append(_close(last, last_face))
        last = "close"
    found.append(_solder_seams(seams, last, vented))
    return tuple(found)


def _lay_out(fold: Folded) -> Work:
    edges = {kind.length.id: kind.name for kind, _ in fold.counted}
    sizes = "; ".join(f"{{{id}}} along {name}" for id, name in edges.items())
    takes = ", ".join(f"{{fold_loss{kind.suffix}}} at {kind.name}" for kind, _ in fold.counted)
    return Work(
        "lay_out", "mark", "Lay out the flat",
        "Lay the true-size print on the sheet and prick every corner through, then scribe the "
        "outline and the fold lines with a steel rule, on the side that will be inside. The "
        f"finished edges measure, outside, {sizes}; each fold takes {takes}, which the print has "
        "taken off already. Where two folds meet a seam the print shows a nick.",
        marks=tuple(edges), after=("measure",),
    )  # fmt: skip


def _cut_flat() -> Work:
    return Work(
        "cut_flat", "cut", "Cut the flat",
        "Saw on the waste side of the outline and file to it. Anneal before scoring, and lay it "
        "flat.",
        after=("lay_out",), about=("sheet",),
    )  # fmt: skip


def _score(fold: Folded, after: str) -> Work:
    angles = " ".join(
        f"Groove at {kind.name}: {{groove{kind.suffix}}} wide, to fold to {{{kind.dihedral.id}}}."
        for kind, _ in fold.counted
    )
    return Work(
        "score", "file", "Score the folds",
        f"Cut each line with a scorer or a graver along a clamped rule, then open it with a "
        f"three-square file to {{groove_depth}} deep, so that {{score_web}} is left. {angles} The "
        "groove's angle is what the metal turns by, not the angle that it makes. Work "
        "from the middle of a line to its ends, and stop when a faint line shows outside.",
        marks=("groove_depth", *(angle.id for angle in fold.grooves.values())), after=(after,),
        cautions=("scored",),
    )  # fmt: skip


def _bevel_seams(form: Sized, seams: list[EdgeKind]) -> Work:
    told = [f"{{{kind.bevel.id}}} at {kind.name}" for kind in seams]
    flush = [kind for kind in form.edges if kind.at_opening]
    text = f"File the edges that will meet in a seam to their bevel, inside: {', '.join(told)}."
    return Work(
        "bevel_seams", "file", "Bevel the seam edges",
        f"{text} All bevels are from square.{_flush(flush)} Set a bevel gauge and look along it "
        "against the light.",
        marks=_bevels(seams, flush), after=("score",),
    )  # fmt: skip


def _flush(kinds: list[EdgeKind]) -> str:
    """How open edges are filed."""
    return "".join(
        f" File the edges at {kind.name} {lean_text(kind)}, so that the form stands flush."
        for kind in kinds
        if abs(kind.bevel.value) > 1e-6
    )


def _bevels(seams: list[EdgeKind], flush: list[EdgeKind]) -> tuple[str, ...]:
    """The bevels to set a gauge to; the words tell those that lean outwards."""
    inwards = [kind for kind in flush if kind.bevel.value > 0]
    return tuple(kind.bevel.id for kind in (*seams, *inwards))


def _face_name(form: Sized, face: int) -> str:
    """A face as the words call it."""
    kind = next(kind for kind in form.faces if face in kind.faces)
    if len(kind.faces) == 1:
        return f"the {kind.id}"
    return "the last wall" if kind.id == "wall" else "the last face"


def _fold_up(fold: Folded, last_face: str) -> Work:
    last = f" Leave {last_face} standing open at its fold." if last_face else ""
    angles = "; ".join(f"{{{kind.dihedral.id}}} at {kind.name}" for kind, _ in fold.counted)
    return Work(
        "fold_up", "bend", "Fold it up",
        f"Anneal, pickle, rinse. Fold each groove once, slowly, over a straight edge, until it "
        f"just closes: {angles}, measured inside. A card cut to the angle tells.{last}",
        after=("bevel_seams",), cautions=("scored",),
    )  # fmt: skip


def _solder_folds(vented: bool) -> Work:
    which, end = "all of them, {folds_length},", ""
    if vented:
        which = "all but the last one, {folds_length},"
        end = " Pickle, rinse and dry: it is the last time that you reach the inside."
    return Work(
        "solder_folds", "solder", "Solder along the folds",
        f"Flux the closed grooves inside and draw hard solder along {which} from inside. A fold "
        f"without solder in it tears along its web.{end}",
        after=("fold_up",), cautions=("open_end", "scored"),
    )  # fmt: skip


def _close(after: str, last_face: str) -> Work:
    return Work(
        "close", "fit", "Close the last face",
        "Flux the last groove and lay small pieces of medium solder along it, {last_fold_length}: "
        "once closed it can't be reached, and takes its solder from there when the seams are "
        f"soldered. Fold {last_face} down and draw the seams together with binding wire, twisted "
        "loops at each wire. Hold it to the light: no light through a seam, but light through the "
        "vent of {vent}.",
        marks=("last_fold_length",), after=(after,), cautions=("scored", "vent"),
    )  # fmt: skip


def _solder_seams(seams: list[EdgeKind], after: str, vented: bool) -> Work:
    order = sorted(seams, key=lambda kind: ("", "_top", "_base").index(kind.suffix))
    told = ", then ".join(f"{kind.name} ({{seams{kind.suffix}_length}})" for kind in order)
    fold = (
        " Warm the last fold, {last_fold_length}, until its solder shows as a line, with the seams "
        "beside it." if vented else ""
    )  # fmt: skip
    air = (
        " Keep the vent free and turned up, and warm the form slowly all round, so that the air "
        "gets out through it and not through the last seam." if vented else ""
    )  # fmt: skip
    return Work(
        "solder_seams", "solder", "Solder the seams",
        f"Flux, and solder {told}, all with medium solder, so that the hard solder in the folds "
        f"holds: keep the flame on the seams, and paint what is soldered with yellow ochre.{fold}"
        f"{air}",
        after=(after,), cautions=("vent",) if vented else ("open_end",),
    )  # fmt: skip


def _walled(form: Sized) -> bool:
    """Whether it has walls and a base: a prism, pyramid or frustum."""
    return form.faces[0].id == "wall"


def _plates(form: Sized, vented: bool) -> tuple[Work, ...]:
    walled = _walled(form)
    found = [_cut_plates(form)]
    if vented:
        where = "the base plate" if walled else "one plate"
        found.append(_drill(where, "cut_plates"))
    found.append(_bevel_plates(form, found[-1].id))
    found += _raise_walls() if walled else _raise_solid(vented)
    closing = [kind for kind in form.faces[1:] if walled] or ([] if walled else [form.faces[0]])
    if vented or (walled and closing):
        found.append(_last_plate(form, found[-1].id, vented))
    return tuple(found)


def _cut_plates(form: Sized) -> Work:
    told = "; ".join(
        f"{len(kind.faces)} x {kind.name}, {{{kind.sizes['length'].id}}} x "
        f"{{{kind.sizes['width'].id}}} over all"
        for kind in form.faces
    )
    mitre = _mitre(form)
    return Work(
        "cut_plates", "cut", "Cut the plates",
        f"Lay out by the true-size prints: {told}.{mitre} Equal plates are clamped together and "
        "filed to one line: that they are equal matters more than the number.",
        marks=tuple(
            dict.fromkeys(size.id for kind in form.faces for size in kind.sizes.values())
        ) + (("wall_mitre",) if "{wall_mitre}" in mitre else ()),
        after=("measure",), about=("sheet",),
    )  # fmt: skip


def _mitre(form: Sized) -> str:
    """How a wall's ends lean; the number is under 0 where the form widens upwards."""
    lean = next((each for each in form.listed if each.id == "wall_mitre"), None)
    if lean is None:
        return ""
    if lean.value < 0:
        angle = format_number(-lean.value)
        return f" A wall's ends lean {angle}° from square, outwards: it is wider above."
    return " A wall's ends lean {wall_mitre} from square, inwards: it is narrower above."


def _bevel_plates(form: Sized, after: str) -> Work:
    mitred = [kind for kind in form.edges if not kind.at_opening and kind.sides]
    flush = [kind for kind in form.edges if kind.at_opening]
    told = "; ".join(
        f"at {kind.name} {{{kind.bevel.id}}}, so that two plates make {{{kind.dihedral.id}}}"
        for kind in mitred
    )
    return Work(
        "bevel_plates", "file", "Bevel the edges",
        f"Scribe the inner lines of the print on the inside and file down to them, the outer edge "
        f"left sharp. From square: {told}.{_flush(flush)} Both plates of an edge get the same. "
        "File on a block cut to the angle, and try two plates together against a card.",
        marks=_bevels(mitred, flush), after=(after,),
    )  # fmt: skip


def _raise_walls() -> list[Work]:
    return [
        Work(
            "solder_walls", "solder", "Solder the walls together",
            "Stand two walls in a bed of charcoal or sand, bind them, and solder their edge from "
            "inside; so on in pairs, then the pairs, with hard solder: {seams_length} in all. Set "
            "the ring of walls on the drawn polygon before its last edge is soldered.",
            marks=("seams_length",), after=("bevel_plates",), cautions=("open_end",),
        )
    ]  # fmt: skip


def _raise_solid(vented: bool) -> list[Work]:
    end = "all but the last plate" if vented else "all plates"
    return [
        Work(
            "solder_plates", "solder", "Solder the plates together",
            f"Solder plates in pairs from inside, bedded in charcoal or sand so that both lie "
            f"square to their bevels, then pair to pair, {end}, with hard solder. Check each edge "
            "against a card of {dihedral} before the next.",
            after=("bevel_plates",), cautions=("open_end",),
        )
    ]  # fmt: skip


def _last_plate(form: Sized, after: str, vented: bool) -> Work:
    ends = [kind for kind in form.faces if kind.id in ("base", "top")]
    lengths = ", ".join(f"{{seams_{kind.id}_length}} round the {kind.id}" for kind in ends[::-1])
    if ends:
        which = "the top, then the base" if len(ends) > 1 else f"the {ends[0].name}"
    else:
        which = "the last plate"
    told = f": {lengths}" if lengths else ""
    two = "Medium solder for the top, easy for the base"
    solder = two if len(ends) > 1 else "Medium solder, since the others are hard"
    look = (
        " Look through the vent before you light the torch, keep it free and turned up, and warm "
        "the form slowly: the last seam closes it." if vented else ""
    )  # fmt: skip
    return Work(
        "solder_last", "solder", f"Solder in {which}",
        f"Rub the edges flat together until no light comes through, bind, flux, and solder{told}. "
        f"{solder}: paint the seams that hold already with yellow ochre and keep the flame on the "
        f"plate.{look}",
        after=(after,), cautions=("vent",) if vented else ("open_end",),
    )  # fmt: skip


def _finish(after: str, vented: bool) -> tuple[Work, ...]:
    boil = (
        "Let it cool in the air before it goes into anything: quenched hot it sucks the liquid "
        "in. The vent holds back {held_head} of water. After the pickle boil it in water with "
        "soda, then in clear water, shake it out and dry it warm, vent down, until nothing comes "
        "out. " if vented else "Pickle, rinse and dry. "
    )  # fmt: skip
    plug = (
        " Leave the vent open, or close it cold with a screw, a peg or cement: no heat after that."
        if vented
        else ""
    )
    return (
        Work(
            "clean", "clean", "Pickle and dry", f"{boil}".strip(), after=(after,),
            cautions=("vent",) if vented else (),
        ),
        Work(
            "true_faces", "true", "True the faces",
            "File the seams flush, then rub each face on abrasive on a flat, in one direction, "
            "until it is plane to its edges; finish all faces with the same number of strokes so "
            f"that edges stay crisp and meet in points. Weigh it (planned {{mass}}).{plug}",
            after=("clean",),
        ),
    )  # fmt: skip
