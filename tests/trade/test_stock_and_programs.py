"""Trade notes 25, 34 to 36: tables of tube, the same everywhere, a cold command, ends."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Callable

import pytest

from hollowright.errors import HollowrightError
from hollowright.output.data import plan_data
from hollowright.plan.plan import Plan

PlanOf = Callable[..., Plan]


def test_note_25_two_gauge_tables(plan_of: PlanOf) -> None:
    brown = plan_of(stock__ring_sheet__thickness="20 ga").quantities["ring_thickness"]
    british = plan_of(stock__ring_sheet__thickness="20 swg").quantities["ring_thickness"]
    assert brown.value == pytest.approx(0.812, abs=0.0005)
    assert british.value == pytest.approx(0.914, abs=0.0005)
    assert brown.uncertainty > 0.01  # the mill's tolerance


def test_note_25_a_tube_wall_by_sheet_gauge_is_refused_or_named(plan_of: PlanOf) -> None:
    # '18 ga' for a tube's wall could be Birmingham or Brown & Sharpe: never taken silently.
    with pytest.raises(HollowrightError) as told:
        plan_of(stock__tube__wall="18 ga")
    assert told.value.field == "stock.tube.wall"


def test_note_25_brass_cracks_when_heated_fast(plan_of: PlanOf) -> None:
    words = " ".join(caution.text.lower() for caution in plan_of().cautions)
    assert "anneal" in words
    assert "crack" in words


def test_note_25_a_drawer_size_is_recognised(plan_of: PlanOf) -> None:
    # Common practice: 0.82 mm is 20 gauge.
    notes = " ".join(plan_of(stock__cap_sheet__thickness=["0.82"]).notes)
    assert "20 ga" in notes


def test_note_34_the_same_text_twice(plan_of: PlanOf) -> None:
    texts = {json.dumps(plan_data(plan_of()), sort_keys=True) for _ in range(3)}
    assert len(texts) == 1


HASHED = """
import json, tomllib
from hollowright.job.job import plan_tables
from hollowright.designs import design
from hollowright.output.data import plan_data
text = design("tube-box").examples[0].text
print(json.dumps(plan_data(plan_tables(tomllib.loads(text)))))
"""


def test_note_34_whatever_the_hash_seed() -> None:
    def run(seed: str) -> str:
        done = subprocess.run(
            [sys.executable, "-c", HASHED], env={"PYTHONHASHSEED": seed}, capture_output=True,
            text=True, check=True,
        )  # fmt: skip
        return done.stdout

    assert run("1") == run("2")


LIGHT = """
import sys, tomllib
from hollowright.job.job import plan_tables
from hollowright.designs import design
plan_tables(tomllib.loads(design("tube-box").examples[0].text))
heavy = ("scipy.stats", "scipy.optimize", "ezdxf", "typst", "starlette", "jinja2", "shapely")
print([name for name in heavy if name in sys.modules])
"""


def test_note_35_a_cold_plan_stays_light() -> None:
    done = subprocess.run(
        [sys.executable, "-c", LIGHT], env={}, capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[]"


@pytest.mark.parametrize("ends", [0, 1, 2])
def test_note_36_factory_ends_are_a_preference(plan_of: PlanOf, ends: int) -> None:
    plan = plan_of(stock__tube__factory_ends=ends)
    best = plan_of(stock__tube__factory_ends=2)
    extra = plan.quantities["tube_needed"].value - best.quantities["tube_needed"].value
    # Each missing end costs a truing, and neighbours one more kerf: never more than 1.5 mm.
    assert 0 <= extra < 1.5
    assert (extra == 0) == (ends == 2)
