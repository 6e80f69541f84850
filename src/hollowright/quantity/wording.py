"""A formula in words: read from its docstring, with labels or numbers put in for its inputs."""

from __future__ import annotations

import inspect
import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

_LINE = re.compile(r"^\s*[a-z][a-z_ ]* = (.+)$", re.MULTILINE)
_SOURCE = re.compile(r"^\s*Source: (.+?)\.?$", re.MULTILINE)


@dataclass(frozen=True)
class Wording:
    """The right-hand side of a formula as text, its parameter names, its source."""

    expression: str
    parameters: tuple[str, ...]
    source: str

    def put(self, texts: Sequence[str]) -> str:
        """The expression with a text in place of each parameter (a sum has no fixed number)."""
        if not self.parameters:
            return " + ".join(texts)
        table = dict(zip(self.parameters, texts, strict=True))
        return re.sub(r"[A-Za-z_]+", lambda m: table.get(m[0], m[0]), self.expression)


@lru_cache(maxsize=1024)
def read_wording(function: Callable[..., Any]) -> Wording:
    """The wording of a plain function: its docstring's first line of the form 'name = ...'."""
    doc = function.__doc__ or ""
    line = _LINE.search(doc)
    source = _SOURCE.search(doc)
    code = inspect.unwrap(function).__code__
    parameters = code.co_varnames[: code.co_argcount]
    expression = line[1].strip() if line else ", ".join(parameters)
    return Wording(expression, parameters, source[1] if source else "")
