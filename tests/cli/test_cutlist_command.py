"""`hollowright cutlist` as a person and a program meet it."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from hollowright.cli.main import run
from hollowright.designs import design


@pytest.fixture
def box(tmp_path: Path) -> str:
    path = tmp_path / "box.toml"
    path.write_text(design("tube-box").examples[0].text, encoding="utf-8")
    return str(path)


def test_one_object_and_nothing_else_on_standard_output(box: str) -> None:
    """In a process of its own: the solver prints its name at the first solve."""
    done = subprocess.run(
        [sys.executable, "-m", "hollowright", "cutlist", box, "--copies", "12", "--no-drawer",
         "--json"],
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    data = json.loads(done.stdout)
    assert data["complete"] is True
    assert data["orders"] == [{"id": "striker-box", "title": "Striker box", "copies": 12}]
    assert done.stderr == ""


def test_a_file_given_twice_counts_twice(box: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["cutlist", box, box, "--copies", "2", "--no-drawer", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["orders"][0]["copies"] == 4


def test_what_finds_no_bar_ends_with_1_and_says_so(
    box: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    sold = tmp_path / "mine.csv"
    sold.write_text("form,length,diameter\nrod,300,9\n", encoding="utf-8")
    assert run(["cutlist", box, "--copies", "12", "--no-drawer", "--sold", str(sold)]) == 1
    text = " ".join(capsys.readouterr().out.split())
    assert "NO BAR for" in text
    assert "A: tube of Striker box" in text  # all else is still listed


def test_wrong_copies_and_files_say_where(box: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["cutlist", box, "--copies", "0", "--no-drawer"]) == 2
    assert "copies" in capsys.readouterr().err
    assert run(["cutlist", "nowhere.toml", "--no-drawer"]) == 2
    assert "nowhere.toml" in capsys.readouterr().err
    assert run(["cutlist", box, "--no-drawer", "--cut"]) == 2


def test_bars_of_the_drawer_are_sawn_and_what_is_left_put_back(
    box: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    drawer = str(tmp_path / "drawer.db")
    text = Path(box).read_text(encoding="utf-8").replace('length = "180 mm"\n', "")
    Path(box).write_text(text, encoding="utf-8")
    size = ["--outside-diameter", "34.93", "--wall", "0.92", "--length", "240 mm"]
    added = ["drawer", "add", "tube", "--metal", "brass", *size, "--square-ends", "2"]
    assert run([*added, "--drawer", drawer]) == 0
    capsys.readouterr()
    assert run(["cutlist", box, "--copies", "2", "--drawer", drawer, "--json", "--cut"]) == 0
    data = json.loads(capsys.readouterr().out)
    (bar,) = data["batches"][0]["bars"]
    assert bar["origin"] == "drawer"
    assert data["cutting"]["out"] == [1]
    assert run(["drawer", "list", "--drawer", drawer, "--json"]) == 0
    lengths = [each["length"] for each in json.loads(capsys.readouterr().out)["items"]]
    assert lengths == [pytest.approx(bar["rest"], abs=1e-3)]


def test_strip_belongs_to_the_one_command_or_the_other(
    box: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The same option on both: what the cut list saws, the layout leaves out, and says so."""
    sold = tmp_path / "mine.csv"
    sold.write_text(
        "form,metal,width,length\nstrip,brass,18,300\nsheet,brass,150,300\ntube,brass,,500\n",
        encoding="utf-8",
    )

    def blanks(*more: str) -> tuple[set[str], set[str]]:
        told = ["--copies", "3", "--no-drawer", "--sold", str(sold), "--json", *more]
        assert run(["cutlist", box, *told]) == 0
        lists = json.loads(capsys.readouterr().out)
        sawn = {
            piece["part"]
            for batch in lists["batches"]
            for bar in batch["bars"]
            for piece in bar["pieces"]
        }
        assert run(["layout", box, "--seconds", "0", *told]) == 0
        laid = json.loads(capsys.readouterr().out)
        notes = " ".join(laid["notes"])
        assert ("striker-box.ring: sawn from strip" in notes) == bool(more)
        return sawn, {
            part for part in ("cap", "ring") if f'"striker-box.{part}"' in json.dumps(laid)
        }

    assert blanks() == ({"body", "lid"}, {"cap", "ring"})
    assert blanks("--strip", "ring") == ({"body", "lid", "ring"}, {"cap"})
    assert blanks("--strip", "striker-box.ring") == ({"body", "lid", "ring"}, {"cap"})
    for command in ("cutlist", "layout"):
        assert run([command, box, "--no-drawer", "--strip", "rnig"]) == 2
        assert "Did you mean ring" in capsys.readouterr().err
        assert run([command, box, "--no-drawer", "--strip", "cap"]) == 2
        assert "no plain rectangle" in capsys.readouterr().err
