"""Numbers that remember their formula, their inputs and their doubt."""

from hollowright.quantity.core import Formula, Quantity, exact, formula, lift, root, total
from hollowright.quantity.doubt import EXACT, Doubt, normal, rectangular, student

__all__ = [
    "EXACT",
    "Doubt",
    "Formula",
    "Quantity",
    "exact",
    "formula",
    "lift",
    "normal",
    "rectangular",
    "root",
    "student",
    "total",
]
