"""Areas, weights and shares as the layout page writes them."""

from __future__ import annotations


def grams(weight: float) -> str:
    """A weight [g], to a tenth below a hundred.

    >>> grams(8.04), grams(0.0), grams(1234.5)
    ('8.0', '0', '1,234')
    """
    if weight < 0.05:
        return "0"
    return f"{weight:.1f}" if weight < 100 else f"{weight:,.0f}"


def share(part: float, of: float) -> str:
    """How much of a whole a part is, in hundredths.

    >>> share(1.0, 3.0), share(1.0, 0.0)
    ('33.3', '0.0')
    """
    return f"{100 * part / of:.1f}" if of > 0 else "0.0"


def whole(number: float) -> str:
    """A number without its fractions, its thousands told apart.

    >>> whole(12345.6)
    '12,346'
    """
    return f"{number:,.0f}"
