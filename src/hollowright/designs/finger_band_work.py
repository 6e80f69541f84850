"""The work of a finger band at the bench, in an order that is safe. Common practice, no source."""

from __future__ import annotations

from hollowright.piece import Work

WIRE = "the wire across its flat and over it"


def _size(said: str, metal: str = "the metal's thickness") -> Work:
    return Work(
        "size", "measure", "Settle the size, measure the metal",
        "Try the size with sizing rings as wide as the band, at a warm time of day; a wide band "
        f"wants a looser one. Read {metal} at three places. The inside is to be "
        f"{{planned_inside_diameter}} across, {said}: read it off a mandrel only where the ring's "
        "own edge sits on it, since a mandrel is tapered.",
    )  # fmt: skip


EASE = (
    " A band over {band_extra_over} wide sits tighter, and is commonly made {band_extra} longer: "
    "{eased_length}, which is {eased_diameter} inside. That isn't in the length above: settle it "
    "with the sizing ring."
)
MENDS = {
    "stretch": (
        "It came out small: it wants {stretch} more. Up to some 1 % is stretched on the mandrel, "
        "tapped all round with a mallet and turned over often; beyond that anneal between, look at "
        "the seam, and after some 3 % saw the seam open and let a piece in."
    ),
    "cut_out": (
        "It came out large: saw the seam open, take out {cut_out}, close it and solder it again."
    ),
    "": (
        "If it came out small, up to some 1 % is stretched on the mandrel; if large, the seam is "
        "sawn open and pi times the excess taken out. Write the reading in the plan: it says how "
        "much."
    ),
}
"""What is done with the ring as it came out."""


EDGES = "Rub both edges flat on fine paper on a flat, break them all round, inside most."
KNIFE = (
    "The wire's edges come to a knife's edge, and stay as drawn: break them all round with a fine "
    "file, then with paper, until they don't catch, inside most."
)
"""How edges are finished, and those of half-round wire, which have no flat."""


def one_strip(kind: str, said: str, eased: bool, mend: str) -> tuple[Work, ...]:
    """Every step of a band of one strip: plain, domed or half-round; said: its size in words."""
    return (
        _size(said, WIRE) if kind == "half-round" else _size(said),
        _cut(kind, eased),
        _bend(kind),
        Work(
            "solder", "solder", "Solder the seam",
            "Flux, bind with iron wire if it springs, seam on top, and hard solder: one piece "
            "inside, under the seam, drawn through to the outside by heating both ends alike. "
            "Quench, take the wire off, pickle.",
            after=("bend",),
        ),
        Work(
            "round", "true", "Round it, read it, bring it to its size",
            "Round it on the mandrel with the mallet and turn it over after each round of blows, "
            "so that it doesn't become a cone. File the seam flush inside and out. Read the inside "
            f"at three places (planned {{planned_inside_diameter}}). {MENDS[mend]}",
            reads=("inside_diameter",), after=("solder",),
        ),
        *_dome(kind),
        Work(
            "finish", "file", "True the edges, finish",
            f"{KNIFE if kind == 'half-round' else EDGES} Polishing takes metal off every face: "
            "with {polish} each, the inside opens to {polished_inside} and {polished_thickness} "
            "stay in the middle. Weigh it (planned {mass}).",
            after=("dome_it",) if kind == "domed" else ("round",),
        ),
    )  # fmt: skip


def _cut(kind: str, eased: bool) -> Work:
    if kind == "half-round":
        text = (
            "Saw {band_cut_length} off the wire: {truing} to square its end, and {blank_length}, "
            "which is pi times the inside and twice the height of the section's middle, "
            "{section_middle} over its flat. There the wire neither stretches nor shortens, "
            "as in a bent bar; take it as a good assumption, not a law."
        )
        marks, about = ["band_cut_length"], "wire"
    else:
        text = (
            "Scribe and saw a strip {band_cut_length} long and {band_cut_width} wide: pi times "
            "the inside and one thickness, {blank_length}, and what filing the ends square takes. "
            "File one long edge straight and the ends square to it."
        )
        marks, about = ["band_cut_length", "band_cut_width"], "sheet"
    return Work(
        "cut", "cut", "Cut the strip" if about == "sheet" else "Cut the wire",
        text + (EASE if eased else ""), marks=tuple(marks), after=("size",), about=(about,),
    )  # fmt: skip


def _bend(kind: str) -> Work:
    flat = "flat side in, between leather or lead-free soft jaws, " if kind == "half-round" else ""
    later = (
        " It is bent flat and domed with the file after, so its length is that of a flat strip."
        if kind == "domed"
        else ""
    )
    return Work(
        "bend", "bend", "Bend it round",
        f"Anneal, pickle, dry. Bend it {flat}with half-round pliers or in a swage from the ends "
        "in, then the middle over the mandrel; it needn't be round yet. File the ends until they "
        "meet without light between them, stopping at {blank_length} on the middle of the metal; "
        f"spring them past each other so that they press together.{later}",
        marks=("blank_length",), after=("cut",),
    )  # fmt: skip


def _dome(kind: str) -> tuple[Work, ...]:
    if kind != "domed":
        return ()
    return (
        Work(
            "dome_it", "file", "Dome the outside",
            "Scribe a line round each edge, {edge} from the inside, and one round the middle of "
            "the outside, which stays. File facets between them, then round them to an arc of "
            "radius {segment_radius}; hold a template of it across the band. {filed_off} come "
            "off: keep the filings.",
            marks=("edge", "segment_radius"), after=("round",),
        ),
    )  # fmt: skip


def hollow(on_end: bool, said: str, eased: bool, mend: str) -> tuple[Work, ...]:
    """Every step of a hollow band: sides 'on-end' of sleeve and shell, or let in."""
    return (_size(said), *_sleeve(eased, mend), *_shell(), *_close(on_end), *_finish(on_end))


def _sleeve(eased: bool, mend: str) -> tuple[Work, ...]:
    return (
        Work(
            "cut", "cut", "Cut the sleeve's strip",
            "Scribe and saw it {sleeve_cut_length} long and {sleeve_cut_width} wide. It closes at "
            "{sleeve_length}." + (EASE if eased else ""),
            marks=("sleeve_cut_length", "sleeve_cut_width"), after=("size",), about=("sheet",),
        ),
        Work(
            "sleeve", "solder", "Bend and solder the sleeve",
            "Anneal, bend it round the mandrel, file the ends until they meet at {sleeve_length}, "
            "and close it with hard solder.",
            marks=("sleeve_length",), after=("cut",), cautions=("open_end",),
        ),
        Work(
            "round", "true", "Round the sleeve, bring it to its size",
            "Round it on the mandrel and file the seam flush. Read the inside at three places "
            f"(planned {{planned_inside_diameter}}). {MENDS[mend]} Now is the time: with its sides "
            "on, a hollow band can't be sized any more.",
            reads=("inside_diameter",), after=("sleeve",),
        ),
        Work(
            "vent", "saw", "Drill the vents in the sleeve",
            "Two holes of {vent}, opposite each other and a quarter round from the seam, in the "
            "middle of the width: they face the finger. Centre-punch and drill them over a "
            "wooden rod; deburr both sides. They are never closed.",
            marks=("vent",), after=("round",), cautions=("vent", "drill"),
        ),
    )  # fmt: skip


def _shell() -> tuple[Work, ...]:
    return (
        Work(
            "cut_shell", "cut", "Cut the shell's strip",
            "Scribe and saw it {shell_cut_length} long and {shell_cut_width} wide.",
            marks=("shell_cut_length", "shell_cut_width"), after=("round",), about=("sheet",),
        ),
        Work(
            "shell", "solder", "Bend and solder the shell",
            "As the sleeve, to {shell_length}: hard solder. Round it to {outside_diameter} outside "
            "and file the seam flush. Rub sleeve and shell on fine paper on a flat until both "
            "stand {sleeve_width} high on all sides.",
            marks=("shell_length", "outside_diameter", "sleeve_width"), after=("cut_shell",),
            cautions=("open_end",),
        ),
    )  # fmt: skip


GUARD = (
    "Paint the first side's seams and those of sleeve and shell with yellow ochre before, stand "
    "that side on cold steel, and keep the flame on the second one: easy solder flows little below "
    "medium."
)
"""What keeps the seams that hold already from flowing again."""


def _close(on_end: bool) -> tuple[Work, ...]:
    if on_end:
        cut = (
            "Cut two, {side_cut_diameter} across; the rim of {cap_rim} stands over outside and in. "
            "Leave the middle in until it is soldered: a whole disc lies flatter in the heat."
        )
        first = (
            "Scribe both circles on a side, stand sleeve and shell on them, weight them, and "
            "solder both at once, the solder fed from inside the hollow, by medium solder; "
            "the seams are painted with yellow ochre and the flame stays low. Then saw the middle "
            "out."
        )
        second = (
            "Look through both vents. Saw the middle out of the second side before it goes on. "
            "Turn the band over, set the second side on, bind it loosely, and feed easy solder "
            "along the rims outside and in. "
            f"{GUARD}"
        )
    else:
        cut = (
            "Cut two flat rings, {side_cut_diameter} across with a hole of {side_cut_hole}, and "
            "file them to {side_outside} and {side_hole}, until they just drop in between sleeve "
            "and shell."
        )
        first = (
            "Lay a side on the block, set sleeve and shell over it, its face flush with their "
            "edges. Solder both rounds at once from inside the hollow with medium solder; the "
            "seams are painted with yellow ochre and the flame stays low."
        )
        second = (
            "Look through both vents. Drop the second side in on three short stays of bent wire "
            "or a step scraped in the sleeve, flush with the edges, and feed easy solder along "
            "both rounds from outside. "
            f"{GUARD}"
        )
    return (
        Work(
            "cut_sides", "cut", "Cut the sides", cut, marks=_side_marks(on_end), after=("shell",),
            about=("sheet",),
        ),
        Work(
            "first_side", "solder", "Solder the first side", first,
            after=("cut_sides", "vent"), cautions=("vent", "open_end"),
        ),
        Work(
            "second_side", "solder", "Solder the second side",
            f"{second} With this heat the band closes: heat it slowly, both vents free, "
            "so that air and steam get out.",
            after=("first_side",), cautions=("vent",),
        ),
    )  # fmt: skip


def _side_marks(on_end: bool) -> tuple[str, ...]:
    return (
        ("side_cut_diameter",)
        if on_end
        else ("side_cut_diameter", "side_cut_hole", "side_outside", "side_hole")
    )


def _finish(on_end: bool) -> tuple[Work, ...]:
    trim = (
        "Saw off what stands over, outside and in, and file it flush: in with a half-round file."
        if on_end
        else "Rub both sides flat on fine paper on a flat, down to the edges of sleeve and shell."
    )
    return (
        Work(
            "boil_out", "clean", "Pickle, and boil the pickle out",
            "Let it cool in the air: quenched hot it sucks the liquid in. It holds "
            "{hollow_volume}, and a vent holds back {held_head} of water. After the pickle boil it "
            "in water with soda for ten minutes, again in clear water, shake it out and dry it "
            "warm, vents free, until nothing comes.",
            after=("second_side",),
        ),
        Work(
            "finish", "file", "Trim and finish",
            f"{trim} File little, the metal is thin: with {{polish}} polished off a face, "
            "{polished_thickness} stay, and the inside opens to {polished_inside}. Break the "
            "edges. Weigh it (planned {mass}, {lighter} lighter than solid).",
            after=("boil_out",),
        ),
    )  # fmt: skip
