"""The templates, filled: every text escaped, every number as the bench reads it."""

from __future__ import annotations

from functools import cache
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined

from hollowright import __version__
from hollowright.output.text import percent, tenth_text
from hollowright.quantity.working import number_text, value_text, working
from hollowright.web.charts import signed
from hollowright.web.composition import group_name
from hollowright.web.figures import grams, share, whole


@cache
def environment() -> Environment:
    """The templates with the bench's way of writing numbers as filters."""
    made = Environment(
        loader=PackageLoader("hollowright.web"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.filters.update(number=number_text, value=value_text, working=working, percent=percent)
    made.filters["mm"] = signed
    made.filters["upfirst"] = lambda words: words[:1].upper() + words[1:]
    made.filters["put_away"] = lambda field, outcome: outcome.put_away(field)
    made.filters["tenth"] = tenth_text
    made.filters["group_name"] = group_name
    made.filters["dashed"] = lambda path: path.replace(".", "-")
    made.filters.update(grams=grams, share=share, whole=whole)
    made.globals["version"] = __version__
    return made


def rendered(name: str, **context: Any) -> str:
    """A template filled with a context."""
    return environment().get_template(name).render(context)
