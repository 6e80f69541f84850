"""README says only what is there: two commands first, and commands that exist."""

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from hollowright.handbook.gauges import GAUGES
from hollowright.units import read_length

ROOT = Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
TITLE, *SECTIONS = re.split(r"^##? .*\n", README, flags=re.MULTILINE)[1:]
FENCES = re.findall(r"^```\w*\n(.*?)^```", README, re.MULTILINE | re.DOTALL)
COMMANDS = [line for fence in FENCES for line in fence.splitlines() if line.startswith("hollow")]


def makes(text: str) -> list[str]:
    """Make commands that stand on a line of their own."""
    return re.findall(r"^make (\w+)", text, re.MULTILINE)


def test_the_job_comes_first_in_one_paragraph() -> None:
    assert len(TITLE.strip().split("\n\n")) == 1
    assert len(TITLE) > 300


def test_then_exactly_two_commands_and_in_the_third_section_the_page() -> None:
    assert makes(TITLE) == []
    assert makes(SECTIONS[0]) == ["demo", "test"]
    assert makes(SECTIONS[1]) == ["serve"]
    assert "http://127.0.0.1:8765/" in SECTIONS[1]


def test_make_knows_its_commands() -> None:
    rules = re.findall(r"^(\w+):", (ROOT / "Makefile").read_text(encoding="utf-8"), re.MULTILINE)
    assert set(re.findall(r"make (demo|test|serve|\w+(?=`))", README)) <= set(rules)


@pytest.mark.parametrize("link", re.findall(r"\]\((?!http)([^)]+)\)", README))
def test_links_lead_somewhere(link: str) -> None:
    assert (ROOT / link).exists()


def test_the_commands_run_in_the_order_they_stand(tmp_path: Path) -> None:
    path = f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"
    drawer = str(tmp_path / "drawer.sqlite3")
    env = {**os.environ, "PATH": path, "HOLLOWRIGHT_DRAWER": drawer}
    said = {}
    for line in COMMANDS:
        done = subprocess.run(line, shell=True, cwd=tmp_path, env=env, capture_output=True)
        assert done.returncode == 0, (line, done.stderr.decode())
        assert done.stdout or ">" in line, line
        said[line] = done.stdout.decode()
    assert list((tmp_path / "my-box").glob("*.pdf"))
    assert len(COMMANDS) >= 5
    other, same = (answer for line, answer in said.items() if " check " in line)
    assert "the wall taken off once instead of twice" in other
    assert "agrees" in same
    assert list((tmp_path / "class").glob("*.pdf"))
    assert "tin 3" in next(answer for line, answer in said.items() if "drawer list" in line)
    last = list(said)[-1]
    assert "from the drawer" in said[last], last


@pytest.mark.parametrize("length", ["38.05", "2.5 cm", "0.032 in", "1 1/2 in", "22 ga"])
def test_the_lengths_it_names_are_read(length: str) -> None:
    assert f"`{length}`" in README
    assert read_length(length, "length", "38.05", GAUGES).mm > 0
