"""Cutting comes last: nothing is cut when something is wrong, and what was cut is always told."""

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from hollowright.cli.main import run
from hollowright.designs import design
from hollowright.store.items import NewItem
from hollowright.store.store import open_store

Said = tuple[int, str, str]
Run = Callable[..., Said]
FULL = "/dev/full"
"""A file that takes nothing, as a full disk does."""


@pytest.fixture
def said(capsys: pytest.CaptureFixture[str], drawer: str) -> Run:
    """Run a command on the drawer and give its exit code, output and errors."""

    def ran(*arguments: str) -> Said:
        code = run([*arguments, "--drawer", drawer])
        out, err = capsys.readouterr()
        return code, out, err

    return ran


@pytest.fixture
def drawer(tmp_path: Path) -> str:
    """A drawer with a sheet and a tube for the box."""
    path = str(tmp_path / "drawer.sqlite3")
    brass = {"metal": "C26000"}
    with open_store(path) as store:
        store.add(NewItem(form="sheet", thickness=0.82, length=160, width=80, **brass))
        store.add(NewItem(form="tube", outside_diameter=34.93, wall=0.915, length=240, **brass))
    return path


def piece(tmp_path: Path, name: str = "box", in_hand: bool = False) -> str:
    """The tube box's example; its tube lies there only where that is wanted."""
    text = design("tube-box").examples[0].text
    path = tmp_path / f"{name}.toml"
    path.write_text(text if in_hand else text.replace('length = "180 mm"\n', ""), encoding="utf-8")
    return str(path)


def cut_so_far(drawer: str) -> int:
    """How many cuttings stand."""
    with open_store(drawer) as store:
        return sum(each.undone is None for each in store.cuttings())


def on_full(*arguments: str) -> tuple[int, str]:
    """Run a command in a process of its own whose output goes nowhere: exit code and errors."""
    with Path(FULL).open("w", encoding="utf-8") as nowhere:
        done = subprocess.run(
            [sys.executable, "-m", "hollowright", *arguments],
            stdout=nowhere, stderr=subprocess.PIPE, text=True, check=False,
        )  # fmt: skip
    return done.returncode, done.stderr


@pytest.mark.parametrize(
    "command", [("layout", "--seconds", "0"), ("cutlist",), ("cutlist", "--json")]
)
def test_a_cutting_is_told_though_the_output_is_full(
    tmp_path: Path, drawer: str, command: tuple[str, ...]
) -> None:
    code, err = on_full(*command, piece(tmp_path), "--drawer", drawer, "--cut")
    assert "Cutting 1 was made; `hollowright drawer undo 1` takes it back." in err
    assert (code, cut_so_far(drawer)) == (1, 1)
    assert "Standard output can't be written: no space left on device." in err
    assert "Nothing was changed" not in err


def test_a_full_output_is_told_in_plain_words(tmp_path: Path, drawer: str) -> None:
    box = piece(tmp_path)
    for arguments in (
        ("plan", box),
        ("plan", box, "--json"),
        ("drawer", "list", "--drawer", drawer),
        ("drawer", "export", "--drawer", drawer),
        ("--help",),
    ):
        code, err = on_full(*arguments)
        assert code == 1
        assert "no space left on device" in err
        assert "went wrong inside" not in err


def test_what_the_drawer_did_is_told_though_the_output_is_full(drawer: str) -> None:
    rod = ("--metal", "brass", "--diameter", "3", "--length", "300")
    for arguments, told in (
        (("add", "rod", *rod), "Item 3 was put in."),
        (("change", "3", "--place", "rack"), "Item 3 was changed."),
        (("take", "3", "--why", "lent"), "Item 3 was taken out."),
    ):
        code, err = on_full("drawer", *arguments, "--drawer", drawer)
        assert (code, told in err) == (1, True)
    with open_store(drawer) as store:
        assert store.item(3).gone_why == "lent"


@pytest.mark.parametrize("command", ["layout", "cutlist"])
def test_nothing_is_cut_when_the_files_can_not_be_written(
    said: Run, tmp_path: Path, drawer: str, command: str
) -> None:
    box = piece(tmp_path)
    taken = tmp_path / "out"
    (taken / f"{command}.pdf").mkdir(parents=True)  # a folder where the pages are to go
    for out in (taken, Path(box) / "x"):
        code, _, err = said(command, box, "--cut", "--out", str(out), *quick(command))
        assert code == 2
        assert "--out" in err
        assert cut_so_far(drawer) == 0


def quick(command: str) -> tuple[str, ...]:
    return ("--seconds", "0") if command == "layout" else ()


def test_nothing_is_sawn_when_a_piece_found_no_bar(said: Run, tmp_path: Path, drawer: str) -> None:
    sold = tmp_path / "sold.csv"
    sold.write_text("form,length,diameter\nrod,300,9\n", encoding="utf-8")
    box = piece(tmp_path)
    code, out, err = said("cutlist", box, "--copies", "12", "--sold", str(sold), "--cut")
    assert (code, out) == (1, "")
    assert "nothing was cut" in err
    assert cut_so_far(drawer) == 0
    bead = tmp_path / "bead.toml"
    bead.write_text(design("bead").examples[0].text, encoding="utf-8")
    code, _, err = said("cutlist", str(bead), "--cut")
    assert (code, "nothing is sawn" in err, cut_so_far(drawer)) == (1, True, 0)


def test_a_bar_in_hand_is_sawn_once(said: Run, tmp_path: Path, drawer: str) -> None:
    box = piece(tmp_path, in_hand=True)
    code, out, _ = said("cutlist", box, "--cut")
    told = " ".join(out.split())
    assert code == 0
    assert "its piece file still says that it lies there" in told
    assert "Take its length out of [stock.tube]" in told
    code, out, err = said("cutlist", box, "--cut")
    assert (code, out) == (1, "")
    assert "cutting 1 took it already" in err
    assert cut_so_far(drawer) == 1
    assert said("drawer", "undo", "1")[0] == 0
    assert said("cutlist", box, "--cut")[0] == 0  # it lies there again
    text = Path(box).read_text(encoding="utf-8").replace("180 mm", "128 mm")
    Path(box).write_text(text, encoding="utf-8")
    assert said("cutlist", box, "--cut")[0] == 0  # what is left of it, as the file says now
    assert said("cutlist", piece(tmp_path), "--cut")[0] == 0  # and of the drawer's metal


def test_a_sheet_in_hand_is_cut_once(said: Run, tmp_path: Path, drawer: str) -> None:
    bead = tmp_path / "bead.toml"
    text = design("bead").examples[0].text
    assert 'length = "120 mm"\nwidth = "90 mm"\n' in text
    bead.write_text(text, encoding="utf-8")
    cut = ("layout", str(bead), "--seconds", "0", "--cut")
    code, out, _ = said(*cut)
    assert code == 0
    assert "Take its length and width out of [stock.sheet]" in " ".join(out.split())
    with open_store(drawer) as store:
        before = store.items().total
    code, _, err = said(*cut, "--copies", "10")  # more than what was left of it holds
    assert code == 1
    assert "cutting 1 took it already" in err
    assert "nothing was changed" in err
    with open_store(drawer) as store:
        assert store.items().total == before
    right = text.replace('length = "120 mm"\nwidth = "90 mm"\n', "")
    bead.write_text(right, encoding="utf-8")  # now it comes out of the drawer
    code, out, _ = said(*cut)
    assert (code, "from the drawer" in out) == (0, True)
