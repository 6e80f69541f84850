"""What all tests share: golden texts, what a test needs of the machine, a home of their own."""

import copy
import os
import shutil
from collections.abc import Callable, Iterator
from importlib.util import find_spec
from pathlib import Path
from typing import Any

import hypothesis
import pytest

from hollowright.job.job import plan_tables
from hollowright.plan.plan import Plan
from hollowright.shop import read_shop

ROOT = Path(__file__).resolve().parent.parent
IN_CI = os.environ.get("CI", "").lower() not in ("", "0", "false")

hypothesis.settings.register_profile(
    "house", deadline=None, derandomize=True, database=None, print_blob=True
)
hypothesis.settings.load_profile("house")


def pytest_addoption(parser: pytest.Parser) -> None:
    """Add the switch that writes the golden texts anew."""
    parser.addoption("--update-golden", action="store_true", help="write the golden texts anew")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Run nothing but the golden tests where golden texts are written anew."""
    if config.getoption("--update-golden"):
        others = [item for item in items if "golden" not in getattr(item, "fixturenames", ())]
        items[:] = [item for item in items if item not in others]
        config.hook.pytest_deselected(items=others)


# ---- what a test needs of the machine


def chromium_path() -> str | None:
    """Path of a Chromium or Chrome: HOLLOWRIGHT_CHROMIUM, or the first one on the search path."""
    named = os.environ.get("HOLLOWRIGHT_CHROMIUM")
    names = ("chromium", "chromium-browser", "google-chrome", "chrome")
    return named or next(filter(None, map(shutil.which, names)), None)


def pytest_runtest_setup(item: pytest.Item) -> None:
    """Skip, saying why, what this machine can't run; fail instead where it is insisted on."""
    if item.get_closest_marker("browser") and not chromium_path():
        _lacks("needs a browser: install chromium, or name one in HOLLOWRIGHT_CHROMIUM", IN_CI)
    if item.get_closest_marker("oracle") and not find_spec("build123d"):
        _lacks("needs the CAD kernel: make oracle", "HOLLOWRIGHT_ORACLE" in os.environ)


def _lacks(reason: str, insisted_on: bool) -> None:
    if insisted_on:
        pytest.fail(reason, pytrace=False)
    pytest.skip(reason)


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    """Give the machine's Chromium, headless, driven by Playwright (mark the test 'browser')."""
    from playwright.sync_api import sync_playwright

    quiet = ["background-networking", "component-update", "sync", "gpu"]
    flags = ["--no-sandbox", "--no-first-run", *(f"--disable-{name}" for name in quiet)]
    try:
        playwright = sync_playwright().start()
    except Exception as fault:  # the driver is a program of its own, with libraries of its own
        _lacks(f"the browser's driver doesn't start ({fault}); has the machine libatomic1?", IN_CI)
        raise
    running = playwright.chromium.launch(executable_path=chromium_path(), args=flags)
    yield running
    running.close()
    playwright.stop()


@pytest.fixture(autouse=True, scope="session")
def _home_of_its_own(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Keep the tests away from the shop file and the saved pieces of whoever runs them."""
    home = tmp_path_factory.mktemp("home")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("HOME", str(home))
        for name in ("CONFIG", "DATA", "CACHE", "STATE"):
            patch.setenv(f"XDG_{name}_HOME", str(home / name.lower()))
        patch.delenv("HOLLOWRIGHT_DRAWER", raising=False)
        yield


# ---- golden texts


@pytest.fixture
def golden(request: pytest.FixtureRequest) -> Callable[..., None]:
    """Compare a text with the one kept in tests/golden; ``make golden`` writes it anew.

    ``golden(name, text, invariant)``: ``invariant(text)`` raises AssertionError when the text is
    nonsense (parts that don't add up, a negative size), so that an update can't bless it.
    """

    def compare(name: str, text: str, invariant: Callable[[str], object]) -> None:
        invariant(text)
        kept = ROOT / "tests" / "golden" / name
        if request.config.getoption("--update-golden"):
            kept.parent.mkdir(parents=True, exist_ok=True)
            kept.write_text(text, encoding="utf-8")
        assert kept.exists(), f"no golden text {name}: make golden, and read what it wrote"
        assert text == kept.read_text(encoding="utf-8")

    return compare


# ---- a tube box of awkward sizes

BOX: dict[str, Any] = {
    "title": "Tea caddy",
    "design": "tube-box",
    "stock": {
        "tube": {
            "metal": "C26000",
            "outside_diameter": ["38.05", "38.06", "38.04"],
            "wall": ["1.02", "1.00"],
            "length": "300 mm",
        },
        "ring_sheet": {"metal": "C26000", "thickness": ["0.64", "0.65"]},
        "cap_sheet": {"metal": "C26000", "thickness": ["0.71", "0.70"]},
    },
    "sizes": {"height": "45 mm", "lid_share": "0.3", "ring_stand": "2 mm", "fit": "snug"},
}


@pytest.fixture
def tables() -> Callable[..., dict[str, Any]]:
    """Give the box's tables, changed: stock__tube__wall="1.01" sets, None takes away."""

    def changed(**changes: Any) -> dict[str, Any]:
        made = copy.deepcopy(BOX)
        for path, value in changes.items():
            *above, last = path.split("__")
            table = made
            for name in above:
                table = table.setdefault(name, {})
            if value is None:
                table.pop(last, None)
            else:
                table[last] = value
        return made

    return changed


@pytest.fixture
def plan_of(tables: Callable[..., dict[str, Any]]) -> Callable[..., Plan]:
    """Give the plan of the box with changes; `shop` is a shop file's tables."""

    def planned(shop: dict[str, Any] | None = None, **changes: Any) -> Plan:
        return plan_tables(tables(**changes), read_shop(shop) if shop else None)

    return planned
