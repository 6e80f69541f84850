"""Layouts kept as JSON: the same layout comes back without solving, judged; changes are told."""

import copy
import json
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from hollowright import __version__
from hollowright.errors import HollowrightError, InputError
from hollowright.job.layout_json import (
    FORMAT,
    layout_data,
    pins_in,
    placements,
    read_layouts,
    task_key,
)
from hollowright.plan import at_once
from hollowright.plan import layout as solving
from hollowright.plan.laid import Layout, Task
from hollowright.plan.layout import first_layout
from hollowright.shapes.nesting.problem import Spot
from hollowright.shapes.outline import disc, rectangle
from tests.plan.layout_tasks import RULES, batch_of, sheet, sold, task


def asked(count: int = 5, side: float = 20.0, **more: Any) -> Task:
    batch = batch_of([rectangle(40, side), disc(25)], [count, 3], [0.0])
    rules = replace(RULES, turning="grain")
    given = {"sheets": [sheet("drawer-1", rectangle(90, 60), grain=30.0), *sold((150, 75))]} | more
    return task(batch, given.pop("sheets"), given.pop("rules", rules), **given)


def kept_text(of: Task) -> str:
    return json.dumps(layout_data([first_layout(of)]), allow_nan=False)


def test_the_same_layout_comes_back_without_solving(monkeypatch: pytest.MonkeyPatch) -> None:
    before = first_layout(asked())
    text = json.dumps(layout_data([before]), allow_nan=False)
    for module, names in ((solving, ("search", "fill_bins", "rows")), (at_once, ("rows", "fill"))):
        for name in names:
            monkeypatch.setattr(module, name, None)
    (kept,) = read_layouts(text, [asked()])
    assert kept.changed == ""
    assert kept.layout is not None
    assert kept.layout == replace(before, found="kept", seconds=round(before.seconds, 3))


def test_pins_come_back_as_pins() -> None:
    pin = Spot("t.b", "drawer-1", 30.0, 30.0, 30.0, pinned=True)
    with_pin = asked(pins=[pin])
    text = kept_text(with_pin)
    assert pins_in(json.loads(text)) == (pin,)
    (kept,) = read_layouts(text, [asked(pins=pins_in(json.loads(text)))])
    assert kept.layout is not None
    (moved,) = read_layouts(text, [asked()])
    assert moved.layout is None
    assert "pinned" in moved.changed


@pytest.mark.parametrize(
    ("now", "said"),
    [
        (asked(count=6), "t.a is wanted 6 times now, not '5'"),
        (asked(side=20.1), "t.a has another outline"),
        (asked(rules=RULES), "t.a has another outline or may lie otherwise"),
        (asked(rules=replace(RULES, turning="grain", between=0.5)), "kerf"),
        (asked(sheets=sold((150, 75))), "drawer-1 isn't there any more"),
        (
            asked(sheets=[sheet("drawer-1", rectangle(90, 61), grain=30.0), *sold((150, 75))]),
            "drawer-1 is another now",
        ),
    ],
)
def test_what_has_changed_is_told_plainly(now: Task, said: str) -> None:
    (kept,) = read_layouts(kept_text(asked()), [now])
    assert kept.layout is None
    assert said in kept.changed
    assert "lay it out anew" in kept.changed


def test_what_doesnt_matter_changes_nothing() -> None:
    other = [sheet("drawer-7", rectangle(500, 500), grain=0.0)]
    dearer = asked(sheets=[*asked().sheets[:1], *sold((150, 75), costs=(9.0,)), *other])
    (kept,) = read_layouts(kept_text(asked()), [dearer])
    assert kept.layout is not None
    (fine,) = read_layouts(kept_text(asked()), [asked(side=20.0 + 1e-9)])
    assert fine.layout is not None


def test_the_key_is_of_what_is_asked() -> None:
    assert task_key(asked()) == task_key(asked())
    assert len(task_key(asked())) == 64
    others = [asked(count=6), asked(side=20.1), asked(rules=RULES), asked(sheets=[])]
    assert len({task_key(each) for each in (asked(), *others)}) == 5


def test_a_batch_that_isnt_there_is_told() -> None:
    data = layout_data([])
    (kept,) = placements(data, [asked()])
    assert kept.layout is None
    assert "isn't in the file" in kept.changed


def test_a_placement_moved_by_hand_is_judged() -> None:
    data = layout_data([first_layout(asked())])
    data["batches"][0]["spots"][0]["x"] += 15.0
    with pytest.raises(InputError) as caught:
        placements(data, [asked()])
    assert caught.value.field == "layout.batches[0].spots"
    assert "t.a" in str(caught.value)


def same_places(layout: Layout) -> bool:
    """Whether it is the good one, or lacks blanks and says so."""
    lacks = sum(each.count for each in layout.missing)
    return set(layout.spots) <= set(GOOD_SPOTS) and len(layout.spots) + lacks == len(GOOD_SPOTS)


def spoil(path: str, value: object) -> Callable[[dict[str, Any]], None]:
    def change(data: dict[str, Any]) -> None:
        place: Any = data
        *way, last = [int(p) if p.isdigit() else p for p in path.split(".")]
        for step in way:
            place = place[step]
        place[last] = value

    return change


@pytest.mark.parametrize("value", [None, [], {}, "x", 3, True, float("nan"), 1e300, -1, ["x"]])
@pytest.mark.parametrize(
    "path",
    [
        "format", "batches", "batches.0", "batches.0.id", "batches.0.spots", "batches.0.blanks",
        "batches.0.sheets", "batches.0.gaps", "batches.0.pins", "batches.0.seconds",
        "batches.0.spots.0", "batches.0.spots.0.x", "batches.0.spots.0.turn",
        "batches.0.spots.0.blank", "batches.0.spots.0.sheet", "batches.0.spots.0.over",
        "batches.0.blanks.t.a",
    ],
)  # fmt: skip
def test_a_mangled_file_never_ends_in_a_traceback(path: str, value: object) -> None:
    data = copy.deepcopy(GOOD)
    if path.endswith("t.a"):
        data["batches"][0]["blanks"]["t.a"] = value
    else:
        spoil(path, value)(data)
    try:
        (kept,) = placements(data, [ASKED])
    except HollowrightError as fault:
        told = fault
    else:
        assert kept.layout is None or same_places(kept.layout)
        return
    assert told.field.startswith("layout")


@pytest.mark.parametrize("text", ["", "{", "[]", "null", '{"format": 1}', "[" * 100_000, "1e999"])
def test_what_isnt_a_layout_file_says_so(text: str) -> None:
    with pytest.raises(InputError) as caught:
        read_layouts(text, [asked()])
    assert caught.value.field.startswith("layout")


def test_the_format_is_named() -> None:
    assert layout_data([])["format"] == FORMAT == "hollowright-layout-1"
    assert layout_data([])["version"] == __version__


ASKED = asked()
GOOD = layout_data([first_layout(ASKED)])
GOOD_SPOTS = first_layout(ASKED).spots
