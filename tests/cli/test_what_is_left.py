"""After a cut it is told which number goes on which offcut, on the command, in JSON, on paper."""

import json
from collections.abc import Callable
from pathlib import Path

import pypdfium2
import pytest

from hollowright.cli.main import run
from hollowright.designs import design
from hollowright.store.items import Item, NewItem
from hollowright.store.store import open_store

Run = Callable[..., str]


@pytest.fixture
def drawer(tmp_path: Path) -> str:
    """A drawer with two sheets and two tubes for the box."""
    path = str(tmp_path / "drawer.sqlite3")
    brass = {"metal": "C26000"}
    with open_store(path) as store:
        for thickness in (0.82, 0.64):
            store.add(NewItem(form="sheet", thickness=thickness, length=160, width=80, **brass))
        for length in (120, 130):
            tube = NewItem(form="tube", outside_diameter=34.93, wall=0.915, length=length, **brass)
            store.add(tube)
    return path


@pytest.fixture
def said(capsys: pytest.CaptureFixture[str], drawer: str, tmp_path: Path) -> Run:
    """Run a command on two boxes and the drawer, and give what it said."""
    text = design("tube-box").examples[0].text.replace('length = "180 mm"\n', "")
    (tmp_path / "box.toml").write_text(text, encoding="utf-8")

    def ran(command: str, *arguments: str) -> str:
        file = str(tmp_path / "box.toml")
        assert run([command, file, "--copies", "2", *arguments, "--drawer", drawer]) == 0
        return capsys.readouterr().out

    return ran


def came(drawer: str) -> list[Item]:
    """What lies in the drawer since the cut."""
    with open_store(drawer) as store:
        return [item for item in store.all_items() if item.came_by]


def told(out: str, item: Item) -> str:
    """The line that tells an item's number."""
    lines = [line for line in out.splitlines() if line.split()[:1] == [str(item.number)]]
    return next(line for line in lines if " from " in line)


def test_each_offcut_is_told_by_number_size_and_sheet(said: Run, drawer: str) -> None:
    out = said("layout", "--seconds", "0", "--cut")
    left = came(drawer)
    assert len(left) >= 2
    for item in left:
        line = told(out, item)
        assert f"from number {item.cut_from}, " in line
        assert ("within" in line) == (item.outline is not None)
        for size in (item.length or 0.0, item.width or 0.0):
            assert f"{size:.1f}".removesuffix(".0") in line
    assert "takes it back" in out


def test_the_same_as_data(said: Run, drawer: str) -> None:
    data = json.loads(said("layout", "--seconds", "0", "--cut", "--json"))["cutting"]
    left = came(drawer)
    assert [each["number"] for each in data["offcuts"]] == data["in"] == [i.number for i in left]
    for row, item in zip(data["offcuts"], left, strict=True):
        assert row["length"] == pytest.approx(item.length, abs=0.001)
        assert row["width"] == pytest.approx(item.width, abs=0.001)
        assert f"number {item.cut_from}, " in row["from"]


def test_the_pages_written_with_a_cut_carry_the_numbers(
    said: Run, drawer: str, tmp_path: Path
) -> None:
    said("layout", "--seconds", "0", "--cut", "--out", str(tmp_path / "out"))
    pages = pypdfium2.PdfDocument(tmp_path / "out" / "layout.pdf")
    words = " ".join(str(page.get_textpage().get_text_bounded()) for page in pages)
    for item in came(drawer):
        assert f"{item.number}: " in words


def test_what_is_left_of_bars(said: Run, drawer: str) -> None:
    out = said("cutlist", "--cut")
    left = came(drawer)
    assert left
    for item in left:
        line = told(out, item)
        assert f"{item.length:.2f} mm long" in line
        assert f"number {item.cut_from}," in line
