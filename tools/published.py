"""Run the published checks and gather, for each, the source's value and ours.

A check is an ``assert ours == approx(theirs)`` in ``tests/published``; pytest tells a plugin about
each that holds, with the values put in, so the tests need no line that only serves the table.
"""

from __future__ import annotations

import ast
import contextlib
import io
import re
import shlex
import shutil
import sys
import tempfile
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
FOLDER = ROOT / "tests" / "published"
NUMBER = r"[-+]?\d+(?:\.\d*)?(?:e[-+]?\d+)?"
COMPARED = re.compile(
    rf"(?:np\.float64\()?(?P<ours>{NUMBER})\)? == (?P<theirs>{NUMBER}) ± (?P<off>{NUMBER})"
)


@dataclass(frozen=True)
class Check:
    """One number of a published source beside ours."""

    source: str
    what: str
    theirs: str
    off: str
    ours: str


@dataclass
class Gatherer:
    """A pytest plugin that notes each comparison that held."""

    checks: list[Check] = field(default_factory=list)

    def pytest_assertion_pass(self, item: Any, expl: str) -> None:
        """Note an assertion that held, if it compares a number with a published one."""
        text = expl.split("\n", 1)[0]
        if match := COMPARED.search(text):
            ours = f"{float(match['ours']):.6g}"
            what = re.sub(r"^test_|\[.*", "", item.name).replace("_", " ")
            case = re.search(r"\[(.*)\]", item.name)
            what += f" ({case[1]})" if case else ""
            theirs, off = f"{float(match['theirs']):.10g}", f"{float(match['off']):.2g}"
            found = Check(source_of(item.path), what, theirs, off, ours)
            if found not in self.checks:
                self.checks.append(found)


def source_of(module: Path) -> str:
    """Title of the source that a module of published checks is about: its first line."""
    text = ast.get_docstring(ast.parse(module.read_text(encoding="utf-8"))) or ""
    return text.split("\n", 1)[0].rstrip(".")


def gather() -> list[Check]:
    """Every published check that holds, by source; stops when one doesn't hold."""
    import pytest

    plugin, said = Gatherer(), io.StringIO()
    with tempfile.TemporaryDirectory() as scratch, contextlib.redirect_stdout(said):
        # Assertions are told only by modules compiled anew, so a copy of the tests is run.
        copy = shutil.copytree(
            FOLDER, Path(scratch) / "published", ignore=shutil.ignore_patterns("__pycache__")
        )
        options = ["-q", "-p", "no:cacheprovider", "-o", "enable_assertion_pass_hook=true"]
        options += ["-c", str(ROOT / "pyproject.toml"), "--rootdir", scratch]
        options += ["-o", f"pythonpath={shlex.quote(str(ROOT))}"]  # for helpers of other tests
        code = pytest.main([*options, str(copy)], plugins=[plugin])
    if code:
        sys.exit(f"{said.getvalue()}\nThe published checks don't all hold: make test")
    return sorted(plugin.checks, key=lambda check: (check.source, check.what))


def document(checks: list[Check]) -> str:
    """The checks as a document: one table a source."""
    parts = ["# Published values, theirs and ours", ""]
    parts += [
        "Each row is a test in `tests/published/`, which also tells why it may be so far off.",
        "",
    ]
    for source in dict.fromkeys(check.source for check in checks):
        parts += [f"## {source}", "", "| what | theirs | within | ours |", "|---|---|---|---|"]
        rows = [check for check in checks if check.source == source]
        parts += [f"| {row.what} | {row.theirs} | {row.off} | {row.ours} |" for row in rows]
        parts.append("")
    return "\n".join(parts)
