"""What a layout was found with: the program's version, and the handbook's by what it says."""

from __future__ import annotations

import hashlib
from functools import cache
from pathlib import Path

import hollowright.handbook
from hollowright import __version__

PROGRAM = __version__


@cache
def handbook_version() -> str:
    """Twelve signs that change when any of the handbook's tables does."""
    digest = hashlib.sha256()
    folder = Path(hollowright.handbook.__file__).parent / "data"
    for file in sorted(folder.glob("*.toml")):
        digest.update(file.name.encode() + b"\0" + file.read_bytes())
    return digest.hexdigest()[:12]
