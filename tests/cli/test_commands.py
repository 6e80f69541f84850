"""The commands: what they print, the JSON contract, exit codes, and that no traceback gets out."""

from __future__ import annotations

import json

import pytest

from hollowright.cli.main import run
from hollowright.designs import design
from hollowright.shop.sold import default_sold, read_sold

EXAMPLE = design("tube-box").examples[0].text


@pytest.fixture
def piece(tmp_path):
    path = tmp_path / "box.toml"
    path.write_text(EXAMPLE, encoding="utf-8")
    return str(path)


@pytest.fixture
def ran(capsys):
    def call(*arguments: str) -> tuple[int, str, str]:
        code = run(list(arguments))
        out, err = capsys.readouterr()
        assert "Traceback" not in out + err
        return code, out, err

    return call


def test_plan_prints_two_screens_at_most(ran, piece):
    code, out, err = ran("plan", piece)
    assert (code, err) == (0, "")
    lines = out.splitlines()
    assert len(lines) <= 90  # two screens of forty-five lines
    assert max(map(len, lines)) <= 79
    assert "102." in out  # the strip's cut length
    assert "WORKINGS" not in out


def test_workings_and_steps_on_request(ran, piece):
    _, out, _ = ran("plan", piece, "--working", "--steps")
    words = " ".join(out.split())
    assert "bore = outside diameter - 2 x wall = 34.93 - 2 x 0.915 = 33.10 mm" in words
    assert "Never cap both ends of an uncut tube" in words


def test_the_plan_as_json_is_the_contract(ran, piece):
    code, out, err = ran("plan", piece, "--json")
    assert (code, err) == (0, "")
    data = json.loads(out)
    assert {
        "title", "design", "quantities", "parts", "joints", "fits", "steps", "cautions", "mass",
    } <= set(data)  # fmt: skip
    for quantity in data["quantities"].values():
        assert {"value", "uncertainty", "unit", "formula", "working", "source"} <= set(quantity)
    for part in data["parts"]:
        assert {"id", "name", "count", "metal", "thickness", "mass", "blank", "cut"} <= set(part)
        for blank in (part["blank"], part["cut"]):
            assert {"width", "height", "area", "outline", "holes"} <= set(blank)
    for fit in data["fits"]:
        assert {"id", "clearance", "uncertainty", "window", "odds", "odds_filed"} <= set(fit)
    for step in data["steps"]:
        assert {"id", "title", "text", "marks", "cautions"} <= set(step)
        assert set(step["marks"]) <= set(data["quantities"])
    assert all(isinstance(text, str) for text in data["cautions"])


QUANTITIES = [
    "outside_diameter",
    "wall",
    "bore",
    "ring_thickness",
    "clearance",
    "lid_gap",
    "ring_outside_diameter",
    "ring_slide_diameter",
    "filing_per_side",
    "ring_length",
    "ring_cut_length",
    "lid_depth",
    "ring_width",
    "lid_length",
    "body_length",
    "cap_diameter",
    "tube_needed",
]


def test_the_tube_box_has_the_quantities_it_promises(ran, piece):
    _, out, _ = ran("plan", piece, "--json")
    assert set(QUANTITIES) <= set(json.loads(out)["quantities"])


def test_outlines_agree_with_their_sizes(ran, piece):
    _, out, _ = ran("plan", piece, "--json")
    data = json.loads(out)
    sides = {"length": "width", "width": "height", "diameter": "width"}
    for part in data["parts"]:
        for blank in (part["blank"], part["cut"]):
            if blank["form"] == "tube":
                continue
            for name, id in blank["sizes"].items():
                value = data["quantities"][id]["value"]
                assert blank[sides[name]] == pytest.approx(value, rel=1e-9)


def test_check_finds_the_slip(ran, piece):
    code, out, _ = ran("check", piece, "bore", "34.02", "--json")
    data = json.loads(out)
    assert code == 0
    assert data["agrees"] is False
    assert data["slips"][0]["text"] == "the wall taken off once instead of twice"
    assert data["slips"][0]["gives"] == pytest.approx(34.0183, abs=1e-4)


def test_check_agrees(ran, piece):
    code, out, _ = ran("check", piece, "bore", "33.10")
    assert code == 0
    assert "agrees" in out


def test_a_negative_figure_is_no_option(ran, piece):
    code, out, _ = ran("check", piece, "clearance_as_cut", "-0.05")
    assert code == 0
    assert "agrees" in out


def test_designs_lists_and_prints_an_example_that_plans(ran, tmp_path):
    code, out, _ = ran("designs")
    assert code == 0
    assert "tube-box" in out
    _, listed, _ = ran("designs", "--json")
    assert {"id", "title", "fields"} <= set(json.loads(listed)[0])
    _, text, _ = ran("designs", "tube-box")
    path = tmp_path / "again.toml"
    path.write_text(text, encoding="utf-8")
    assert ran("plan", str(path))[0] == 0


@pytest.mark.parametrize("name", ["shop.toml", "mine.toml"])
def test_the_shop_file_reads_back(ran, piece, tmp_path, name):
    _, text, _ = ran("shop")
    plain = json.loads(ran("plan", piece, "--json")[1])
    path = tmp_path / name
    path.write_text(text.replace("kerf = 0.3", "kerf = 0.8"), encoding="utf-8")
    given = [] if name == "shop.toml" else ["--shop", str(path)]
    data = json.loads(ran("plan", piece, "--json", *given)[1])
    more = data["quantities"]["tube_needed"]["value"] - plain["quantities"]["tube_needed"]["value"]
    assert more == pytest.approx(0.5)  # one cut, 0.5 mm wider


@pytest.mark.parametrize(
    ("change", "code", "said"),
    [
        (("34.92", "34,92"), 2, "stock.tube.outside_diameter: '34,92' isn't a length. Write 34.92"),
        (('"180 mm"', '"40 mm"'), 1, "too short"),
        (('"C26000"', '"unobtainium"'), 2, "isn't known"),
        (("ring_stand", "ring_stant"), 2, "Did you mean sizes.ring_stand?"),
        (('design = "tube-box"', 'design = "tubebox"'), 2, "Did you mean tube-box?"),
        (('design = "tube-box"', ""), 2, "design: it is missing"),
        (('height = "52 mm"', ""), 2, "sizes.height: it is missing"),
        (("[sizes]", "[sizes"), 2, "isn't TOML"),
    ],
)
def test_what_is_wrong_is_named_with_its_exit_code(ran, tmp_path, change, code, said):
    path = tmp_path / "wrong.toml"
    path.write_text(EXAMPLE.replace(*change), encoding="utf-8")
    got, out, err = ran("plan", str(path), "--json")
    assert (got, out) == (code, "")
    assert said in err


def test_files_that_cannot_be_read(ran, tmp_path):
    assert ran("plan", str(tmp_path))[0] == 2
    assert ran("plan", str(tmp_path / "none.toml"))[0] == 2
    big = tmp_path / "big.toml"
    big.write_bytes(b"# " + b"x" * 1_000_000)
    code, _, err = ran("plan", str(big))
    assert code == 2
    assert "1000000" in err
    odd = tmp_path / "odd.toml"
    odd.write_bytes(b"\xff\xfe\x00")
    assert "UTF-8" in ran("plan", str(odd))[2]


@pytest.mark.parametrize(
    "arguments",
    [
        ["plan"],
        ["plam", "x"],
        ["check", "x"],
        ["designs", "bowl"],
        ["serve", "--port", "x"],
        ["plan", "x", "--paper", "a0"],
        ["--nope"],
    ],
)
def test_a_wrong_command_is_exit_code_2(ran, arguments):
    assert ran(*arguments)[0] == 2


def test_all_faults_are_told_at_once(ran, tmp_path):
    path = tmp_path / "wrong.toml"
    text = EXAMPLE.replace("34.92", "x").replace('"0.82"', '"y"').replace("52 mm", "z")
    path.write_text(text, encoding="utf-8")
    _, _, err = ran("plan", str(path))
    for field in ("stock.tube.outside_diameter", "stock.cap_sheet.thickness", "sizes.height"):
        assert field in err


def test_a_fault_inside_is_a_sentence(ran, piece, monkeypatch):
    def broken(*_: object) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr("hollowright.job.job.plan_file", broken)
    code, _, err = ran("plan", piece)
    assert code == 1
    assert "Something went wrong inside" in err


def test_the_sold_list_reads_back_from_what_is_printed(ran, piece, tmp_path):
    _, text, _ = ran("shop", "--sold")
    assert read_sold(text).sizes == default_sold().sizes
    (tmp_path / "sold.csv").write_text(text.replace("75,150,,,", "75,150,9.50,,"), "utf-8")
    priced = json.loads(ran("layout", piece, "--seconds", "0", "--no-drawer", "--json")[1])
    costs = {each["id"]: each["cost"] for batch in priced["batches"] for each in batch["bought"]}
    assert costs["buy-150x75"] == 9.5
    _, data, _ = ran("shop", "--sold", "--json")
    assert len(json.loads(data)["sold"]) == len(default_sold().sizes)
