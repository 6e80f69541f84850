"""Random and mangled piece files: a plan, or an error that names its field; never a traceback."""

from __future__ import annotations

import copy
import json
import math
import random
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hollowright.designs import design
from hollowright.errors import HollowrightError, InputError, PlanRefused
from hollowright.job.job import LARGEST_FILE, plan_file, plan_tables, read_tables, read_text
from hollowright.output.data import plan_data
from hollowright.shop import read_shop

TEXT = design("tube-box").examples[0].text
TABLES = read_tables(TEXT)
PATHS = [field.path for field in design("tube-box").fields]
ODD: list[Any] = [
    None, "", " ", "tall", "38,05", "1,200", "-3", "0", 0, -1, 1e308, -1e308, 5e-324, math.nan,
    math.inf, 10**400, -(10**400), 2**63, True, False, [], [[]], [None], {},
    {"a": {"b": {"c": {"d": 1}}}},
    "9" * 5000, "٣٨", "½ in", "1 1/2 in", "20 ga", "99 ga", "3/0 in", "1e400", "nan", "inf", "\x00",
    "\ud800", "é" * 70, "'; DROP", "../../etc", "{height}", "%s", "C26000", "on-end",
    "let-in", "snug", "1/3", "0.5", "3", 3, 3.5, 12, 45.0, 0.2, 0.15, 0.16, 400, 399.99, 600, 8, 5,
    20, 2, "2 in",
    ["38.05"] * 51, ["38.05", "x"], ["38.05", 38.1, "1 1/2 in"], [1, [2]], ["22 ga", "0.64"],
    [0.7, 0.71, 0.7, 0.7, 0.9], [1e-9], ["400"], ["0.15"], object(), b"38", (1, 2), {1: 2},
]  # fmt: skip


def tried(make: Callable[[], Any]) -> tuple[Any, HollowrightError | None]:
    """What a call gives, or the only kind of error that may come out of it."""
    try:
        return make(), None
    except HollowrightError as fault:
        return None, fault


def outcome(tables: Any, shop: Any = None) -> str:
    """'planned' or the kind of error; anything but a HollowrightError falls through."""
    plan, fault = tried(lambda: plan_tables(tables, shop))
    if fault is not None:
        assert 0 < len(str(fault)) < 20_000
        for each in fault.each():
            assert each.field, f"no field in: {each}"
            assert each.problem
        assert fault.exit_code == (2 if isinstance(fault, InputError) else 1)
        return type(fault).__name__
    said = json.dumps(plan_data(plan), allow_nan=False)
    assert "NaN" not in said
    assert all(size.value > 0 for part in plan.parts for size in part.blank.sizes.values())
    assert all(0 <= odds <= 1 for found in plan.fits for odds in (found.odds, found.odds_filed))
    return "planned"


def put(tables: dict[str, Any], path: str, value: Any) -> None:
    *above, last = path.split(".")
    table = tables
    for name in above:
        inner = table.get(name)
        if not isinstance(inner, dict):
            inner = table[name] = {}
        table = inner
    table[last] = value


def mangled(chance: random.Random) -> Any:
    """The example with one to six things done to it."""
    tables = copy.deepcopy(TABLES)
    for _ in range(chance.randint(1, 6)):
        path, value = chance.choice(PATHS), chance.choice(ODD)
        match chance.randint(0, 9):
            case 0:
                put(tables, path.rpartition(".")[0], value)
            case 1:
                tables.pop(chance.choice(list(tables) or ["title"]), None)
            case 2:
                put(tables, f"{path}.{chance.choice(['x', 'mm', ''])}", value)
            case 3:
                put(tables, path[:-1], value)
            case 4:
                tables[chance.choice(["title", "design", "", "stock", "as_built", "\n"])] = value
            case 5:
                a, b = (copy.deepcopy(tables.get(k)) for k in ("stock", "sizes"))
                tables |= {"stock": b, "sizes": a}
            case _:
                put(tables, path, value)
    return tables


def test_thousands_of_mangled_tables() -> None:
    chance = random.Random(20_260)
    seen = [outcome(mangled(chance)) for _ in range(3000)]
    # The mill grinds fine enough to reach all three ends.
    assert min(seen.count(kind) for kind in ("planned", "Problems")) > 20


SIZES = {
    "stock.tube.outside_diameter": (3, 400), "stock.tube.wall": (0.15, 20),
    "stock.tube.bore": (2.5, 400), "stock.ring_sheet.thickness": (0.15, 5),
    "stock.cap_sheet.thickness": (0.2, 8), "sizes.height": (6, 600),
    "sizes.lid_share": (0.05, 0.95), "sizes.ring_stand": (0.5, 60), "sizes.clearance": (-0.2, 2),
    "sizes.lid_gap": (0, 2), "as_built.lid_depth": (1, 600), "as_built.body_length": (1, 600),
    "as_built.lid_bore": (2.5, 400), "as_built.body_bore": (2.5, 400),
    "as_built.ring_thickness": (0.15, 5), "as_built.ring_outside_diameter": (2.5, 400),
}  # fmt: skip


def possible(chance: random.Random) -> dict[str, Any]:
    """Sizes each within its own limits, together often impossible."""
    tables = copy.deepcopy(TABLES)
    del tables["sizes"]["fit"]
    put(tables, "sizes.caps", chance.choice(["on-end", "let-in"]))
    put(tables, "sizes.neutral_line", chance.choice(["mid-thickness", "din-6935", "soft", "hard"]))
    put(tables, "stock.tube.factory_ends", chance.randint(0, 2))
    for metal in ("tube", "ring_sheet", "cap_sheet"):
        put(tables, f"stock.{metal}.metal", chance.choice(["C26000", "C11000", "sterling"]))
    for path, (low, high) in SIZES.items():
        must = path.startswith(("stock", "sizes.height")) and not path.endswith("bore")
        if must or chance.random() < 0.3:
            log = low > 0
            draw = low * (high / low) ** chance.random() if log else chance.uniform(low, high)
            count = chance.choice([1, 1, 2, 3, 5]) if "as_built" in path or "stock" in path else 1
            read = [
                round(min(high, max(low, draw + chance.gauss(0, 0.02))), 3) for _ in range(count)
            ]
            put(tables, path, read if count > 1 else read[0])
    return tables


def test_thousands_of_boxes_within_every_limit() -> None:
    chance = random.Random(41)
    seen = [outcome(possible(chance)) for _ in range(2500)]
    assert seen.count("planned") > 100
    assert len(seen) - seen.count("planned") > 100


def test_boxes_in_shops_of_every_kind() -> None:
    chance = random.Random(5)
    wide = {
        "kerf": 5, "truing": 5, "cap_rim": 10, "cap_gap": 1, "seam_dressing": 5, "edge_dressing": 5,
        "marking_out": 2, "sawing": 2, "sheet_tolerance": 0.5, "window_half": 0.5, "lead_in": 3,
        "ring_chamfer": 3, "mouth_chamfer": 3,
    }  # fmt: skip
    for _ in range(500):
        settings_ = {k: round(chance.uniform(0.001, high), 3) for k, high in wide.items()}
        settings_["guard_risk"] = round(chance.uniform(0.001, 0.4), 3)
        calliper = {
            "mpe": chance.choice([0, 0.02, 1]), "jaw": chance.choice([0, 3, 20]),
            "inside_flat": chance.choice([0, 0.5, 20]), "zero": chance.choice([0, 0.01, 1]),
            "repeatability": chance.choice([0.0001, 0.01, 1]),
        }  # fmt: skip
        shop = read_shop({"settings": settings_, "calliper": calliper})
        outcome(possible(chance), shop)
        outcome(copy.deepcopy(TABLES), shop)


def test_mangled_texts() -> None:
    chance = random.Random(9)
    letters = "[]{}=\".,#\n\t 0123456789abczZ-+'\\_é\x00½ing"
    for _ in range(1500):
        text = list(TEXT)
        for _ in range(chance.randint(1, 12)):
            at = chance.randrange(len(text))
            match chance.randint(0, 3):
                case 0:
                    del text[at]
                case 1:
                    text.insert(at, chance.choice(letters))
                case 2:
                    text[at] = chance.choice(letters)
                case _:
                    del text[at : at + chance.randint(1, 60)]
            text = text or ["x"]
        tables, fault = tried(lambda text=text: read_tables("".join(text)))
        if fault is None:
            outcome(tables)
        else:
            assert fault.field == "file"


@settings(max_examples=300)
@given(
    st.recursive(
        st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=20),
        lambda inner: (
            st.lists(inner, max_size=4)
            | st.dictionaries(
                st.sampled_from([*PATHS, "stock", "tube", "sizes", "title", "design", "wall"]),
                inner,
                max_size=5,
            )
        ),
        max_leaves=25,
    )
)
def test_random_tables(anything: Any) -> None:
    tables = anything if isinstance(anything, dict) else {"stock": anything}
    outcome({"design": "tube-box"} | tables)


@given(st.binary(max_size=300) | st.text(max_size=300).map(str.encode))
@settings(max_examples=200)
def test_random_files(raw: bytes) -> None:
    try:
        tables = read_tables(raw.decode("utf-8", "replace"))
    except InputError:
        return
    assert outcome(tables) != "planned"


def test_deep_nesting() -> None:
    deep = "a = " + "[" * 5000 + "]" * 5000
    with pytest.raises(InputError):
        read_tables(deep)
    dotted = ".".join("a" * 2000) + " = 1"
    with pytest.raises(InputError):
        plan_tables({"design": "tube-box"} | read_tables(dotted))
    nest: dict[str, Any] = {}
    for _ in range(5000):
        nest = {"a": nest}
    with pytest.raises(InputError):
        plan_tables({"design": "tube-box", "sizes": nest})


def test_a_file_over_a_megabyte_is_refused_at_once(tmp_path: Path) -> None:
    large = tmp_path / "large.toml"
    with large.open("wb") as file:
        file.truncate(3_000_000_000)  # a hole: no bytes on the disk, three gigabytes to read
    began = time.perf_counter()
    with pytest.raises(InputError, match="At most"):
        plan_file(str(large))
    with pytest.raises(InputError):
        read_tables("#" * (LARGEST_FILE + 1))
    assert time.perf_counter() - began < 1.0


def test_absurd_numbers_are_refused_at_once() -> None:
    began = time.perf_counter()
    text = TEXT.replace('"52 mm"', "9" * 4000)
    with pytest.raises(InputError) as told:
        plan_tables(read_tables(text))
    assert told.value.field in ("sizes.height", "file")
    with pytest.raises(InputError):
        plan_tables(TABLES | {"sizes": {"height": "9" * 900_000}})
    with pytest.raises(InputError):
        plan_tables(TABLES | {f"key{k}": k for k in range(20_000)})
    assert time.perf_counter() - began < 3.0


def test_files_that_are_none(tmp_path: Path) -> None:
    (tmp_path / "binary.toml").write_bytes(b"\xff\xfe\x00title")
    for name in ("missing.toml", "binary.toml", ".", "x" * 5000, "a\x00b"):
        with pytest.raises(InputError):
            read_text(str(tmp_path / name) if "\x00" not in name else name)


def test_a_byte_order_mark_and_windows_lines(tmp_path: Path) -> None:
    path = tmp_path / "piece.toml"
    path.write_bytes(b"\xef\xbb\xbf" + TEXT.replace("\n", "\r\n").encode())
    assert plan_file(str(path)).fits


def test_the_shop_file() -> None:
    chance = random.Random(77)
    known = [
        "settings",
        "windows",
        "calliper",
        "kerf",
        "snug",
        "mpe",
        "name",
        "jaw",
        "guard_risk",
        "x",
    ]
    for _ in range(1500):
        tables: Any = {}
        for _ in range(chance.randint(1, 4)):
            table, key = chance.choice(known[:3]), chance.choice(known)
            inner = tables.setdefault(table, {})
            if isinstance(inner, dict):
                inner[key] = chance.choice([*ODD, [0.1, 0.2], [0.2, 0.1], [0, 0], ["a", 1]])
            if chance.random() < 0.1:
                tables[chance.choice(known)] = chance.choice(ODD)
        shop, fault = tried(lambda tables=tables: read_shop(tables))
        if fault is None:
            outcome(copy.deepcopy(TABLES), shop)
        else:
            assert all(each.field.startswith("shop") for each in fault.each())


def test_refusals_have_their_exit_codes() -> None:
    assert outcome(TABLES) == "planned"
    short = copy.deepcopy(TABLES)
    put(short, "stock.tube.length", "20 mm")
    with pytest.raises(PlanRefused) as told:
        plan_tables(short)
    assert told.value.exit_code == 1
