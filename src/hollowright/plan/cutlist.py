"""Cut lists: which pieces from which bars, by least bars, then least metal."""

from __future__ import annotations
