"""A plan: the piece with everything that the passes worked out, none of it changed in place."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from hollowright.errors import Caution
from hollowright.piece import Fit, Part, Piece
from hollowright.quantity import Quantity, total
from hollowright.quantity.budget import Share
from hollowright.shapes.outline import Outline
from hollowright.shop import Shop


@dataclass(frozen=True)
class Cut:
    """A blank at the size it is cut: its outline [mm] and its named sizes."""

    outline: Outline
    sizes: Mapping[str, Quantity]


@dataclass(frozen=True)
class Advice:
    """A reading that would raise the odds: what to do, the odds then, with and without filing."""

    id: str
    text: str
    odds: float
    odds_filed: float
    doubt: float


@dataclass(frozen=True)
class FitResult:
    """How a fit will come out.

    clearance: planned, after fitting; as_cut: of the length really cut, with its doubt [mm].
    odds: that the ring lands in its window without filing; odds_filed: with filing. filing: how
    much length is expected to come off, least, likely and most [mm]. shares: which reading carries
    how much of the doubt. extra: length that the strip holds because the body wants a larger ring.
    """

    fit: Fit
    as_cut: Quantity
    doubt: float
    odds: float
    odds_filed: float
    guard: Quantity
    filing: tuple[float, float, float]
    advice: tuple[Advice, ...]
    shares: tuple[Share, ...] = ()
    extra: Quantity | None = None

    @property
    def left_on(self) -> Quantity:
        """What the strip is cut longer by: the guard, and what the body wants more [mm]."""
        if self.extra is None:
            return self.guard
        return total("", "guard and extra", [self.guard, self.extra])

    @property
    def per_tenth(self) -> float:
        """What 0.1 mm of length does across [mm]."""
        return 0.1 / self.fit.turn

    @property
    def clearance(self) -> float:
        """Diametral clearance that the fit is planned for [mm]."""
        return self.fit.target.value if self.fit.made is None else self.as_cut.value


@dataclass(frozen=True)
class Step:
    """One step of the work, with its numbers put in."""

    id: str
    number: int
    kind: str
    title: str
    text: str
    marks: tuple[str, ...]
    reads: tuple[str, ...]
    cautions: tuple[Caution, ...]


@dataclass(frozen=True)
class Plan:
    """Everything a face shows. Lengths mm, masses g; ids are snake_case and stable."""

    piece: Piece
    shop: Shop
    quantities: Mapping[str, Quantity]
    cuts: Mapping[str, Cut] = field(default_factory=dict)
    fits: tuple[FitResult, ...] = ()
    steps: tuple[Step, ...] = ()
    cautions: tuple[Caution, ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def parts(self) -> tuple[Part, ...]:
        """The piece's parts."""
        return self.piece.parts

    @property
    def to_settle(self) -> tuple[Caution, ...]:
        """Readings that contradict each other: to settle before anything is sawn."""
        ends = ("_misread", "_apart", "_stranger")
        return tuple(caution for caution in self.cautions if caution.id.endswith(ends))

    @property
    def sawn(self) -> str:
        """How the bars are sawn, in words; '' when there is nothing to say."""
        return "; ".join(stock.how for stock in self.piece.stocks if stock.how)

    def as_planned(self, id: str) -> Quantity:
        """A quantity with the value it was planned to have, where it has been read since."""
        before = {change.id: change.planned for change in self.piece.changes}
        quantity = self.quantities[id]
        return replace(quantity, value=before[id]) if id in before else quantity

    @property
    def mass(self) -> Quantity:
        """Weight of the finished piece [g]."""
        return self.quantities["mass"]
