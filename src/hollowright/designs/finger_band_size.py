"""The inside of a finger ring: from its size or from readings, eased where the band is wide."""

from __future__ import annotations

from dataclasses import dataclass

from hollowright.designs.brief import Brief
from hollowright.designs.fields import Field
from hollowright.errors import Caution
from hollowright.formulas import band
from hollowright.handbook.ring_sizes import TABLES, RingSize, nearest, ring_size
from hollowright.handbook.sources import source
from hollowright.quantity import Quantity, exact
from hollowright.units import format_number

INSIDE, EASED, READ = "inside_diameter", "added", "as it was read"

FIELDS = (
    Field(
        "sizes.size", "size", "text", "ring size",
        "with its scale: ISO 54, US 7 1/4, UK N 1/2, CH 14, JP 12", "US 7 1/4",
    ),
    Field(
        "sizes.size_table", "size_table", "choice", "table of sizes",
        "US sizes and UK letters have a law in millimetres and an older one in inches", "metric",
        default="metric", choices=TABLES,
    ),
    Field(
        "sizes.inside_diameter", INSIDE, "readings", "inside diameter",
        "instead of a size: read on a ring that fits, with the inside jaws", "17.32 mm", low=8,
        high=40, inside=True, around=True,
    ),
    Field(
        "sizes.ease", "ease", "choice", "extra for a wide band",
        "shown beside the strip's length, or added to it", "beside", default="beside",
        choices=("beside", EASED),
    ),
    Field(
        "as_built.inside_diameter", "built_inside_diameter", "readings",
        "inside diameter as built", "of the soldered, rounded ring, with the inside jaws",
        "17.32 mm", low=8, high=40, inside=True, around=True,
    ),
)  # fmt: skip


@dataclass(frozen=True)
class Inside:
    """The inside of a ring: planned and as it came out [mm], what leads there, what to mind.

    said: whence the planned inside comes, in words; wide: the band is wider than the shop's limit;
    mends: what brings it to its size.
    """

    said: str
    planned: Quantity
    now: Quantity
    listed: tuple[Quantity, ...]
    wide: bool
    mends: tuple[Quantity, ...]
    cautions: tuple[Caution, ...]

    @property
    def changed(self) -> bool:
        """Whether it was read since."""
        return self.now is not self.planned

    @property
    def mend(self) -> str:
        """What it still needs: 'stretch', 'cut_out', or nothing."""
        return self.mends[0].id if self.mends and self.mends[0].value else ""

    def beside(self, b: Brief, length: Quantity) -> tuple[Quantity, ...]:
        """The extra for a wide band, shown beside a strip's length where it isn't added to it."""
        if not self.wide or b.word("ease") == EASED:
            return ()
        extra = b.shop("band_extra")
        return (
            b.shop("band_extra_over"), extra, band.eased(self.planned, extra),
            band.eased_length(length, extra),
        )  # fmt: skip


def inside_of(b: Brief, width: Quantity) -> Inside:
    """The inside of a ring of a width [mm]; refused where neither size nor reading is given."""
    by_size, leading, said, cautions = _by_size(b)
    wide = width.value > b.shop("band_extra_over").value
    planned = by_size
    if wide and b.word("ease") == EASED:
        own = by_size.named("size_diameter", "inside diameter by the size")
        leading = (*leading, own)
        extra = b.shop("band_extra")
        leading = (*leading, extra)
        planned = band.eased(own, extra).named(INSIDE, "inside diameter, eased for the width")
        said = f"{{size_diameter}} {_owed(said)} with {{band_extra}} more round it for the width"
    now = b.built(planned)
    mends: tuple[Quantity, ...] = ()
    if now is not planned:
        mends = (_mend(planned, now),)
        cautions = (*cautions, _came_out(planned, now))
    around = () if "inside_circumference" in {q.id for q in leading} else (band.round_of(planned),)
    return Inside(said, planned, now, (*leading, now, *around, *mends), wide, mends, cautions)


def _by_size(
    b: Brief,
) -> tuple[Quantity, tuple[Quantity, ...], str, tuple[Caution, ...]]:
    if b.has(INSIDE):
        if b.has("size"):
            raise b.refuse(
                "size", "the inside diameter is given as well.", "Leave one of them out."
            )
        return b.inside_diameter, (), READ, ()
    if not b.has("size"):
        raise b.refuse("size", "it is missing.", "Write US 7 1/4, say, or the inside diameter.")
    size = ring_size(b.word("size"), b.design.field("size").path, b.word("size_table"))
    cautions = () if not size.bare else (_bare(size),)
    return *diameter_of(size), size.text, cautions


def diameter_of(size: RingSize) -> tuple[Quantity, tuple[Quantity, ...]]:
    """Inside diameter of a ring's size [mm] with its working, and the quantities on the way."""
    law, whence = size.law, source(size.law.source).text
    number = exact(
        "ring_size", "ring size", "", size.number, "asked", told=f"ring size = {size.text}"
    )
    if law.rows:
        told = f"inside diameter = {size.measure / 25.4:.3f} in, the table's row for {size.text}"
        row = exact(INSIDE, "inside diameter", "mm", size.measure, "handbook", whence, told)
        return row, (number,)
    if law.measures == "circumference" and (law.first, law.step) == (0, 1):
        told = f"inside circumference = {size.number:g} mm, the size {size.text} itself"
        whole = exact("inside_circumference", "inside circumference", "mm", size.measure, "asked",
                      whence, told)  # fmt: skip
        return band.diameter_of(whole), (number, whole)
    first, start, step = (
        exact(f"scale_{id}", label, unit, value, "handbook", whence)
        for id, label, unit, value in (
            ("first", "first of the scale", "mm", law.first),
            ("start", "start of the scale", "", law.start),
            ("step", "step of the scale", "mm", law.step),
        )
    )
    if law.measures == "diameter":
        made = band.diameter_by_size(first, number, start, step)
        return made.named(INSIDE, source=whence), (number,)
    around = band.round_by_size(first, number, start, step).named(
        "inside_circumference", source=whence
    )
    return band.diameter_of(around), (number, around)


def _owed(said: str) -> str:
    """To what the diameter before easing is owed."""
    return said if said == READ else f"for {said}"


def _mend(planned: Quantity, now: Quantity) -> Quantity:
    """What brings a ring that came out small or large to its size."""
    return band.stretch(planned, now) if now.value <= planned.value else band.cut_out(now, planned)


def _bare(size: RingSize) -> Caution:
    scale = "the ISO size" if size.scale.id == "ISO" else "the UK's letter"
    text = f"The size is read as {scale}, {size.text}. Write its scale beside it to be sure."
    return Caution("size_read_as", text, "reading", "size")


def _came_out(planned: Quantity, now: Quantity) -> Caution:
    """What size a ring came out, in the scales that are in use."""
    sizes = ", ".join(each.text for each in nearest(now.value)) or "outside every scale"
    text = (
        f"It came out {format_number(now.value)} mm inside for {format_number(planned.value)} mm: "
        f"nearest to {sizes}."
    )
    return Caution("came_out", text, "reading", INSIDE)
