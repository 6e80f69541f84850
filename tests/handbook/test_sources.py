"""Every source is listed once, is used, and every row names one that is listed."""

from collections.abc import Iterator
from typing import Any

import pytest

from hollowright.errors import UnknownName
from hollowright.handbook.gauges import gauges
from hollowright.handbook.sources import STATUSES, read_data, source, sources

FILES = ("metals", "gauges", "tubes", "sockets", "blades", "doming", "ring_sizes")


def cited(node: Any) -> Iterator[str]:
    """Every source key in a table file, however deep."""
    if isinstance(node, dict):
        for key, value in node.items():
            if key == "source" or key.endswith("_source"):
                yield value
            else:
                yield from cited(value)
    elif isinstance(node, list):
        for value in node:
            yield from cited(value)


def all_cited() -> set[str]:
    keys = {key for name in FILES for key in cited(read_data(name))}
    return keys | {gauge.source for gauge in gauges("bs")}


def test_every_row_s_source_is_listed() -> None:
    assert all_cited() <= {each.key for each in sources()}


def test_every_source_is_used() -> None:
    assert {each.key for each in sources()} <= all_cited()


@pytest.mark.parametrize("each", sources(), ids=lambda each: each.key)
def test_a_source_says_what_it_is(each: Any) -> None:
    assert each.status in STATUSES
    assert len(each.title) > 8
    assert len(each.edition) > 4
    assert each.text == f"{each.title}, {each.edition} ({each.status})"
    assert source(each.key) is each


def test_one_source_has_one_status() -> None:
    told = [(each.title, each.edition, each.status) for each in sources()]
    assert len(set(told)) == len(told)


def test_an_unknown_source_says_what_was_meant() -> None:
    with pytest.raises(UnknownName, match="astm-b258"):
        source("astm-b285")


def rows_with_values(node: Any) -> Iterator[dict[str, Any]]:
    if isinstance(node, dict):
        if "value" in node:
            yield node
        for value in node.values():
            yield from rows_with_values(value)
    elif isinstance(node, list):
        for value in node:
            yield from rows_with_values(value)


def test_every_value_has_a_source_of_its_own() -> None:
    rows = list(rows_with_values(read_data("metals")))
    assert len(rows) > 100
    assert all(row.get("source") for row in rows)
