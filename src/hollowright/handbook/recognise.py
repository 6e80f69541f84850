"""What a reading probably is by the handbook: a gauge, a sheet, a standard tube, a fitting."""

from hollowright.handbook.recognise_sheet import Match, describe_thickness, recognise_thickness
from hollowright.handbook.recognise_tube import TubeMatch, describe_tube, recognise_tube

__all__ = [
    "Match",
    "TubeMatch",
    "describe_thickness",
    "describe_tube",
    "recognise_thickness",
    "recognise_tube",
]
