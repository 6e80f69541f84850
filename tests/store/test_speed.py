"""10,000 items: a page, stock for a piece, a cutting, each well within what was promised."""

from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest

from hollowright.store.store import open_store

ROOT = Path(__file__).resolve().parents[2]
_SPEC = spec_from_file_location("bench_store", ROOT / "tools" / "bench_store.py")
assert _SPEC is not None
assert _SPEC.loader is not None
bench = module_from_spec(_SPEC)
_SPEC.loader.exec_module(bench)

GENEROUS = 8  # the promise is for a machine that does nothing else (`make bench` holds to it)


def test_ten_thousand_items(url: str) -> None:
    found = bench.medians(url, 7)
    assert len(found) == 7
    assert {what: median for what, median in found.items() if median > GENEROUS * bench.LIMIT} == {}
    with open_store(url) as store:
        assert store.items(gone=None).total == bench.ITEMS + len(store.cuttings())


@pytest.mark.parametrize("columns", ["gone, form, metal, thickness", "gone, number"])
def test_sqlite_answers_by_an_index(tmp_path: Path, columns: str) -> None:
    wanted = {
        "gone, form, metal, thickness": "form = 'sheet' AND metal = 'C26000' AND thickness > 0.7",
        "gone, number": "number > 0 ORDER BY number LIMIT 50",
    }[columns]
    with open_store(str(tmp_path / "drawer")) as store, store.engine.connect() as connection:
        query = f"EXPLAIN QUERY PLAN SELECT * FROM items WHERE gone IS NULL AND {wanted}"
        (step,) = connection.exec_driver_sql(query).all()
        assert "USING INDEX ix_items_" in step[-1]
