"""`hollowright drawer`: what it prints, its JSON, its exit codes, never a traceback."""

import json
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from hollowright.cli.main import run
from hollowright.store.store import open_store
from tests.store.metal import BRASS, layout, strip_off

Ran = Callable[..., tuple[int, str, str]]


@pytest.fixture
def ran(capsys: pytest.CaptureFixture[str], url: str, monkeypatch: pytest.MonkeyPatch) -> Ran:
    """Run `hollowright drawer` on a new drawer: exit code, output, errors."""
    monkeypatch.setenv("HOLLOWRIGHT_DRAWER", url)

    def call(*arguments: str) -> tuple[int, str, str]:
        code = run(["drawer", *arguments])
        out, err = capsys.readouterr()
        assert "Traceback" not in out + err
        assert "went wrong inside" not in err
        return code, out, err

    return call


def put_in(ran: Ran) -> None:
    brass = ("--metal", "brass", "--thickness", "0.71", "--size", "300x150")
    assert ran("add", "sheet", *brass, "--place", "tin 3", "--cost", "12")[0] == 0
    tube = ("--metal", "brass", "--outside-diameter", "38.05", "--wall", "1.01")
    assert ran("add", "tube", *tube, "--length", "12 in", "--square-ends", "2")[0] == 0


def test_a_first_sheet(ran: Ran) -> None:
    assert ran("list") == (0, "Nothing here.\n", "")
    put_in(ran)
    code, out, err = ran("list")
    assert (code, err) == (0, "")
    lines = [" ".join(line.split()) for line in out.splitlines()]
    assert lines == [
        "no form metal size (mm) place cost",
        "1 sheet cartridge brass, 70/30 300 × 150 × 0.71 tin 3 12.00",
        "2 tube cartridge brass, 70/30 38.05 × 1.01, 304.8 long",
        "2 items.",
    ]
    assert "page 2 of 2" in ran("list", "--size", "1", "--page", "2")[1]
    assert ran("list", "tin", "3")[1].splitlines()[-1] == "1 item."
    assert ran("list", "--form", "tube", "--metal", "brass")[1].splitlines()[-1] == "1 item."
    assert ran("list", "--metal", "copper")[1] == "Nothing here.\n"
    assert ran("list", "--page", "7")[1] == "There are 1 pages.\n"


def test_json_is_one_object_and_nothing_else(ran: Ran) -> None:
    put_in(ran)
    page = json.loads(ran("list", "--json")[1])
    assert (page["total"], page["items"][0]["label"]) == (2, "1, tin 3")
    shown = json.loads(ran("show", "2", "--json")[1])
    assert (shown["length"], shown["readings"]["length"]) == (304.8, ["12 in"])
    assert [line["what"] for line in shown["record"]] == ["added"]
    assert json.loads(ran("change", "1", "--place", "", "--json")[1])["place"] == ""
    assert json.loads(ran("take", "1", "--why", "lent", "--json")[1])["gone_why"] == "lent"
    assert json.loads(ran("cuttings", "--json")[1]) == {"cuttings": []}
    assert len(json.loads(ran("export", "--json")[1])["items"]) == 1


def test_put_right_taken_and_told(ran: Ran) -> None:
    put_in(ran)
    assert ran("change", "1", "--thickness", "0.72; 0.70", "--grain", "width")[0] == 0
    assert ran("change", "1", "--size", "290 x 150", "--cost", "")[0] == 0
    assert ran("take", "1", "--why", "used for a hinge")[0] == 0
    out = ran("show", "1")[1]
    assert "290 × 150 × 0.71 mm" in out
    assert "along its width" in out
    assert "cost from 12.0 to nothing" in out
    assert "taken: used for a hinge" in out
    assert "used for a hinge" in ran("list", "--gone")[1]


@pytest.mark.parametrize("new_url", ["sqlite"], indirect=True)
@pytest.mark.parametrize(
    ("arguments", "code", "told"),
    [
        (("show", "9"), 2, "there is no item 9"),
        (("show", "9" * 30), 2, "there is no item 999"),
        (("undo", "9" * 30), 2, "there is no cutting 999"),
        (("list", "--page", "9" * 30), 2, "Pages begin at 1"),
        (("show", "x"), 2, "not a valid integer"),
        (("add", "sheet", "--metal", "brass"), 2, "thickness: it is missing"),
        (("add", "sheet", "--thickness", "0.7"), 2, "metal: it is missing"),
        (("add", "sheet", "--metal", "bras"), 2, "Did you mean brass?"),
        (("add", "tube", "--wall", "20 ga"), 2, "Write 20 b&s or 20 bwg"),
        (("add", "sheet", "--thickness", "20 ga; 0.8"), 2, "a gauge and readings are mixed"),
        (("add", "sheet", "--size", "300"), 2, "size: '300' isn't a size"),
        (("add", "sheet", "--outline", "none.svg"), 2, "outline: 'none.svg' isn't a file"),
        (("add", "sheet", "--outline", "a.png"), 2, "isn't .svg or .dxf"),
        (("add", "sheet", "--corners", "0,0 x,5 9,9"), 2, "corners: "),
        (("change", "1"), 2, "nothing is told to change"),
        (("change", "1", "--metal", ""), 2, "metal: it can't be empty"),
        (("take", "1"), 2, "--why"),
        (("take", "1", "--why", " "), 2, "say in a line why"),
        (("import", "none.csv"), 2, "'none.csv': No such file"),
        (("undo", "3"), 2, "there is no cutting 3"),
        (("export", "--csv", "--json"), 2, "Give one"),
        (("export", "x.xlsx"), 2, "'x.xlsx' isn't .csv or .json"),
        (("export", "--csv", "x.json"), 2, "'x.json' and --csv differ"),
        (
            ("add", "sheet", "--size", "300x150", "--length", "5"),
            2,
            "size and length are both told",
        ),
        (("add", "strip", "--size", "300x12", "--width", "20"), 2, "size and width are both told"),
        (("change", "1", "--size", "300x12", "--width", "20"), 2, "size and width are both told"),
        (("list", "--drawer", "mysql://a:b@c/d"), 2, "neither a path nor an address"),
    ],
)
def test_what_is_wrong_is_told(ran: Ran, arguments: tuple[str, ...], code: int, told: str) -> None:
    put_in(ran)
    found, out, err = ran(*arguments)
    assert (found, out) == (code, "")
    assert told in err


def test_an_odd_offcut_is_told_by_its_corners(ran: Ran) -> None:
    """An L by hand: 160 x 50 and 60 x 40 on it are 10400 mm2; in inches the same."""
    sheet = ("add", "sheet", "--metal", "brass", "--thickness", "0.71", "--json", "--corners")
    ell = "0,0 160,0 160,50 60,50 60,90 0,90"
    item = json.loads(ran(*sheet, ell)[1])
    assert item["area"] == pytest.approx(160 * 50 + 60 * 40)
    assert (item["length"], item["width"]) == (160, 90)
    inches = json.loads(ran(*sheet, "0,0 2in,0 2in,1in 0,1in")[1])
    assert inches["area"] == pytest.approx(2 * 25.4**2)
    changed = json.loads(ran("change", "1", "--json", "--corners", "0,0 80,0 0,60")[1])
    assert changed["area"] == pytest.approx(2400)


def test_what_the_drawer_refuses_ends_with_1(ran: Ran) -> None:
    put_in(ran)
    ran("take", "1", "--why", "lent")
    code, _, err = ran("take", "1", "--why", "lent")
    told = "item 1: it has gone from the drawer (taken: lent). Nothing was changed.\n"
    assert (code, err) == (1, told)


def test_wire_is_thin_rod(ran: Ran, tmp_path: Path) -> None:
    wire = ("--metal", "brass", "--diameter", "0.8", "--length", "1000")
    assert json.loads(ran("add", "wire", *wire, "--json")[1])["form"] == "rod"
    assert ran("list", "--form", "wire")[1] == ran("list", "--form", "rod")[1] != "Nothing here.\n"
    told = tmp_path / "wire.csv"
    told.write_text("form,metal,diameter,length\nWire,brass,0.8,500\n")
    assert ran("import", str(told))[0] == 0
    assert json.loads(ran("show", "2", "--json")[1])["form"] == "rod"


def test_an_outline_from_a_drawing(ran: Ran, tmp_path: Path) -> None:
    drawing = tmp_path / "offcut.svg"
    drawing.write_text(
        '<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="40mm" viewBox="0 0 60 40">'
        '<path d="M0 0 H60 V40 A60 40 0 0 1 0 0 Z"/></svg>'
    )
    given = ("--metal", "brass", "--thickness", "0.71", "--outline", str(drawing))
    shown = json.loads(ran("add", "sheet", *given, "--json")[1])
    assert (shown["length"], shown["width"]) == (pytest.approx(60.0), 40.0)
    kinds = {curve["is"] for curve in shown["outline"]["segments"]}
    assert kinds >= {"Line", "EllipseArc"}
    assert shown["area"] == pytest.approx(3.141592653589793 * 60 * 40 / 4, rel=1e-9)
    assert "cut shape" in ran("list")[1]
    code, _, err = ran("add", "sheet", *given, "--size", "60x40")
    assert (code, "size and outline are both told" in err) == (2, True)
    code, _, err = ran("add", "sheet", *given, "--length", "50")
    assert (code, "length: 50 mm isn't the outline's, 60 mm." in err) == (2, True)
    assert ran("add", "sheet", *given, "--length", "60")[0] == 0
    code, _, err = ran("change", "1", "--length", "50")
    assert (code, "length: its size follows from its outline" in err) == (2, True)
    plain = json.loads(ran("change", "1", "--length", "50", "--outline", "", "--json")[1])
    assert (plain["outline"], plain["length"], plain["width"]) == (None, 50.0, 40.0)


def test_out_to_a_file_and_in_again(ran: Ran, tmp_path: Path) -> None:
    put_in(ran)
    ran("take", "2", "--why", "lent")
    for name in ("all.csv", "all.json"):
        file = tmp_path / name
        assert ran("export", str(file), "--gone") == (0, f"written: {file}\n", "")
        code, _, err = ran("export", str(file))
        assert (code, "is there already" in err) == (2, True)
        other = str(tmp_path / f"{name}.sqlite3")
        assert ran("import", str(file), "--drawer", other) == (0, "Put in: 2.\n", "")
        assert ran("list", "--drawer", other)[1] == ran("list")[1]
        assert ran("export", "--gone", "--drawer", other)[1] == ran("export", "--gone")[1]
        code, out, err = ran("import", str(file), "--skip-wrong")
        assert (code, out) == (0, "Put in: 0.\n")
        assert err.count("passed over: ") == 2


def test_a_cutting_is_listed_and_undone(ran: Ran, url: str) -> None:
    put_in(ran)
    with open_store(url) as store:
        (found,) = store.sheets_for(BRASS, 0.71)
        store.cut_layouts([layout(strip_off(found, 100.0))], "striker box", {"spots": []})
    out = ran("cuttings")[1]
    assert "striker box" in out
    assert json.loads(ran("cuttings", "--json")[1])["cuttings"][0]["came_in"] == [3]
    assert ran("undo", "1") == (0, "Cutting 1 is taken back. Again in the drawer: 1.\n", "")
    assert "taken back" in ran("cuttings")[1]
    assert ran("undo", "1")[0] == 1


def test_other_commands_start_without_the_database_library() -> None:
    code = """
import sys
from hollowright.cli.main import run
run(["plan", "none.toml"])
sys.exit(any(name in sys.modules for name in ("sqlalchemy", "alembic", "psycopg")))
"""
    assert subprocess.run([sys.executable, "-c", code], capture_output=True).returncode == 0
