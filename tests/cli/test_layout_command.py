"""The command `layout`: what it prints, writes, keeps, cuts and refuses."""

import json
import os
import pty
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import ezdxf
import pypdfium2
import pytest

from hollowright.cli.main import run
from hollowright.cli.progress import Progress
from hollowright.designs import design
from hollowright.store.items import NewItem
from hollowright.store.store import open_store

Said = tuple[int, str, str]


@pytest.fixture
def piece(tmp_path: Path) -> str:
    """The tube box's example as a file."""
    path = tmp_path / "box.toml"
    path.write_text(design("tube-box").examples[0].text, encoding="utf-8")
    return str(path)


@pytest.fixture
def drawer(tmp_path: Path) -> str:
    """A drawer of its own with a sheet for the caps."""
    path = str(tmp_path / "drawer.sqlite3")
    with open_store(path) as store:
        store.add(
            NewItem(
                form="sheet",
                metal="C26000",
                thickness=0.82,
                length=160,
                width=80,
                grain=0.0,
                place="tin 3",
            )
        )
    return path


@pytest.fixture
def said(capsys: pytest.CaptureFixture[str]) -> Callable[..., Said]:
    """Run `layout` and give its exit code, output and errors."""

    def ran(*arguments: str) -> Said:
        code = run(["layout", *arguments])
        out, err = capsys.readouterr()
        assert "Traceback" not in err
        return code, out, err

    return ran


def data(said: Callable[..., Said], *arguments: str) -> dict[str, Any]:
    code, out, err = said("--json", *arguments)
    assert (code, err) == (0, "")
    made: dict[str, Any] = json.loads(out)
    return made


def test_it_tells_what_comes_out_of_what(
    said: Callable[..., Said], piece: str, drawer: str
) -> None:
    code, out, err = said(piece, "--copies", "3", "--seconds", "0", "--drawer", drawer)
    assert (code, err) == (0, "")
    for text in ("Layout of 3 × Striker box", "6 cap", "3 ring", "number 1, tin 3", "TO BUY",
                 "no price known", "the quick answer", "blanks alone", "waste"):  # fmt: skip
        assert text in out
    assert max(map(len, out.splitlines())) <= 78


def test_the_json_adds_up(said: Callable[..., Said], piece: str, drawer: str) -> None:
    made = data(said, piece, "--copies", "2", "--seconds", "0", "--drawer", drawer)
    spots = [spot for b in made["batches"] for s in b["sheets"] for spot in s["spots"]]
    assert sorted(spot["part"] for spot in spots) == ["cap"] * 4 + ["ring"] * 2
    for batch in made["batches"]:
        for sheet in batch["sheets"]:
            assert sheet["used"] + sheet["kept"] + sheet["waste"] == pytest.approx(sheet["area"])
            grams = batch["thickness"] * 8.53e-3
            assert sheet["mass_used"] == pytest.approx(sheet["used"] * grams, rel=2e-3)
            xs = [x for spot in sheet["spots"] for x, _ in spot["outline"]]
            assert min(xs) >= min(x for x, _ in sheet["outline"])
        assert batch["rules"]["between"] == 0.3
        assert len(batch["key"]) == 64
    assert made["totals"]["missing"] == 0
    assert made["totals"]["sheets"] == sum(len(b["sheets"]) for b in made["batches"])


def test_a_file_given_twice_counts_twice(said: Callable[..., Said], piece: str) -> None:
    made = data(said, piece, piece, "--copies", "2", "--seconds", "0", "--no-drawer")
    counts = {each["part"]: each["count"] for b in made["batches"] for each in b["blanks"]}
    assert counts == {"cap": 8, "ring": 4}


def test_what_was_searched_is_kept_and_not_solved_again(
    said: Callable[..., Said], piece: str, drawer: str
) -> None:
    first = data(said, piece, "--copies", "2", "--seconds", "0.6", "--drawer", drawer)
    began = time.monotonic()
    again = data(said, piece, "--copies", "2", "--seconds", "30", "--drawer", drawer)
    assert time.monotonic() - began < 5
    assert {batch["found"] for batch in again["batches"]} == {"kept"}
    spots = [[s["spots"] for s in b["sheets"]] for b in first["batches"]]
    assert spots == [[s["spots"] for s in b["sheets"]] for b in again["batches"]]
    anew = data(said, piece, "--copies", "2", "--seconds", "0", "--drawer", drawer, "--anew")
    assert "kept" not in {batch["found"] for batch in anew["batches"]}


def test_a_shorter_search_anew_does_not_replace_a_better_layout(
    said: Callable[..., Said], piece: str, drawer: str
) -> None:
    told = (piece, "--copies", "5", "--drawer", drawer)
    first = data(said, *told, "--seconds", "2")
    with open_store(drawer) as store:
        keys = [batch["key"] for batch in first["batches"]]
        before = [store.placement(key) for key in keys]
        assert None not in before
    anew = data(said, *told, "--seconds", "0.1", "--anew")  # too short to find anything
    for ours, theirs in zip(anew["batches"], first["batches"], strict=True):
        assert [s["spots"] for s in ours["sheets"]] == [s["spots"] for s in theirs["sheets"]]
    with open_store(drawer) as store:
        assert [store.placement(key) for key in keys] == before


def test_a_quick_answer_does_not_stand_in_for_a_search(
    said: Callable[..., Said], piece: str, drawer: str
) -> None:
    data(said, piece, "--seconds", "0", "--drawer", drawer)
    later = data(said, piece, "--seconds", "0", "--drawer", drawer)
    assert "kept" not in {batch["found"] for batch in later["batches"]}


@pytest.fixture
def folder(said: Callable[..., Said], piece: str, drawer: str, tmp_path: Path) -> Path:
    """What --out leaves."""
    place = tmp_path / "new" / "laid"
    code, out, _ = said(
        piece, "--seconds", "0", "--drawer", drawer, "--out", str(place), "--paper", "letter"
    )
    assert code == 0
    assert f"written: {place / 'layout.pdf'}" in out
    return place


def test_everything_is_written_and_can_be_read_back(folder: Path) -> None:
    names = {path.name for path in folder.iterdir()}
    assert {"layout.pdf", "layout.json", "layout-plan.json"} <= names
    sheets = sorted(name for name in names if name.startswith("sheet-"))
    assert len(sheets) == 4
    for name in sheets:
        if name.endswith(".dxf"):
            assert ezdxf.readfile(folder / name).modelspace().query('*[layer=="cut"]')
        else:
            assert (folder / name).read_text(encoding="utf-8").startswith("<svg")
    page = pypdfium2.PdfDocument(folder / "layout.pdf")[0]
    assert page.get_size() == pytest.approx((612, 792), abs=0.1)
    assert json.loads((folder / "layout-plan.json").read_text(encoding="utf-8"))["batches"]


def test_a_layout_is_drawn_again_as_it_was_kept(
    said: Callable[..., Said], piece: str, drawer: str, folder: Path
) -> None:
    stored = str(folder / "layout.json")
    made = data(said, piece, "--drawer", drawer, "--placed", stored)
    told = json.loads((folder / "layout-plan.json").read_text(encoding="utf-8"))
    assert [b["sheets"] for b in made["batches"]] == [b["sheets"] for b in told["batches"]]
    assert {batch["found"] for batch in made["batches"]} == {"kept"}
    code, _, err = said(piece, "--copies", "2", "--drawer", drawer, "--placed", stored)
    assert code == 2
    assert "placed" in err
    assert "wanted" in err


def test_a_layout_that_overlaps_is_refused(
    said: Callable[..., Said], piece: str, drawer: str, folder: Path
) -> None:
    stored = folder / "layout.json"
    kept = json.loads(stored.read_text(encoding="utf-8"))
    for batch in kept["batches"]:
        for spot in batch["spots"]:
            spot["x"] = spot["y"] = 40.0
    stored.write_text(json.dumps(kept), encoding="utf-8")
    code, _, err = said(piece, "--drawer", drawer, "--placed", str(stored))
    assert code == 2
    assert "spots" in err
    stored.write_text("no JSON", encoding="utf-8")
    code, _, err = said(piece, "--drawer", drawer, "--placed", str(stored))
    assert (code, "isn't JSON" in err) == (2, True)


def test_cutting_takes_the_metal_out_and_puts_the_offcuts_in(
    said: Callable[..., Said], piece: str, drawer: str
) -> None:
    code, out, _ = said(piece, "--seconds", "0", "--drawer", drawer, "--cut")
    assert code == 0
    assert "Out of the drawer: 1." in out
    with open_store(drawer) as store:
        assert not store.item(1).there
        cutting = store.cuttings()[0]
        assert cutting.out == (1,)
        assert cutting.came_in
        assert cutting.made_for == "Striker box"
        assert all(number in store.numbers() for number in cutting.came_in)
    assert f"`hollowright drawer undo {cutting.number}`" in out


def test_a_folder_that_can_not_be_made_is_told_before_anything_is_cut(
    said: Callable[..., Said], piece: str, drawer: str
) -> None:
    code, _, err = said(piece, "--seconds", "0", "--drawer", drawer, "--cut", "--out", piece)
    assert code == 2
    assert "can't be made a folder" in err
    with open_store(drawer) as store:
        assert store.item(1).there


def test_a_search_that_is_stopped_cuts_nothing(
    said: Callable[..., Said], piece: str, drawer: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(Progress, "stop", lambda self: setattr(self, "stopped", True) or True)
    code, _, err = said(
        piece, "--copies", "3", "--seconds", "2", "--drawer", drawer, "--cut", "--turns", "free"
    )
    assert code == 1
    assert "nothing was cut" in err
    with open_store(drawer) as store:
        assert store.item(1).there
        assert not store.cuttings()


def test_what_finds_no_place_is_told_and_the_rest_is_laid(
    said: Callable[..., Said], piece: str, drawer: str, tmp_path: Path
) -> None:
    sold = tmp_path / "sold.csv"
    sold.write_text("form,thickness,width,length,price\nsheet,0.65,20,50,3.10\n", encoding="utf-8")
    out_folder = tmp_path / "out"
    told = (piece, "--seconds", "0", "--drawer", drawer, "--sold", str(sold))
    code, out, _ = said(*told, "--out", str(out_folder))
    assert code == 1
    assert "FOUND NO PLACE" in out
    assert "  nothing that is sold takes what found no place" in out.splitlines()
    assert "the metal is there" not in out
    assert "1 × Striker box: ring" in out
    assert "2 cap" in out
    assert (out_folder / "layout.pdf").exists()
    code, out, _ = said("--json", *told)
    lost = [each for b in json.loads(out)["batches"] for each in b["missing"]]
    assert (code, len(lost), lost[0]["part"], lost[0]["count"]) == (1, 1, "ring", 1)
    assert lost[0]["why"]
    assert lost[0]["remedy"]
    code, _, err = said(*told, "--cut")
    assert code == 1
    assert "nothing was cut" in err
    with open_store(drawer) as store:
        assert store.item(1).there


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("--turns", "rign=grain"), "Did you mean ring?"),
        (("--turns", "grian"), "Did you mean grain?"),
        (("--over", "capp"), "Did you mean cap?"),
        (("--copies", "0"), "Write 1 to 500."),
        (("--copies", "501"), "Write 1 to 500."),
        (("--seconds", "-1"), "--seconds"),
        (("--sold", "nowhere.csv"), "isn't a file"),
        (("--placed", "nowhere.json"), "isn't a file"),
        (("--cut", "--no-drawer"), "nothing can be cut"),
        (("--drawer", "/nowhere/at/all.sqlite3"), "no folder"),
    ],
)
def test_what_is_wrong_is_told(
    said: Callable[..., Said], piece: str, arguments: tuple[str, ...], words: str
) -> None:
    code, out, err = said(piece, *arguments)
    assert code == 2
    assert words in err
    assert not out


def test_a_drawer_that_was_not_named_and_fails_is_only_minded(
    said: Callable[..., Said], piece: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("HOLLOWRIGHT_DRAWER", "/nowhere/at/all.sqlite3")
    code, out, _ = said(piece, "--seconds", "0")
    assert code == 0
    assert "The drawer was left out" in out


def test_a_terminal_sees_progress_and_ctrl_c_keeps_the_best(piece: str, drawer: str) -> None:
    """In a terminal of its own: stopped after the first progress, it still prints the layout."""
    mine, its = pty.openpty()
    command = [sys.executable, "-m", "hollowright", "layout", piece, "--copies", "9", "--seconds"]
    running = subprocess.Popen(
        [*command, "60", "--drawer", drawer], stderr=its, stdout=subprocess.PIPE, stdin=its
    )
    os.close(its)
    shown, until = b"", time.monotonic() + 40
    while b"searching" not in shown and time.monotonic() < until:
        shown += os.read(mine, 4096)
    running.send_signal(2)
    out, _ = running.communicate(timeout=40)
    os.close(mine)
    assert running.returncode == 0
    assert b"Ctrl-C keeps the best" in shown
    assert b"ring" in out
    assert b"TO BUY" in out
    assert b"Traceback" not in shown
