"""What is said where several piece files are given, and what no command takes."""

import subprocess
import sys
from pathlib import Path

import pytest

from hollowright.cli.main import run
from hollowright.designs import design


@pytest.fixture
def boxes(tmp_path: Path) -> tuple[str, str]:
    """Two piece files, each in a folder of its own."""
    found = []
    for name in ("one", "two"):
        path = tmp_path / name / "box.toml"
        path.parent.mkdir()
        path.write_text(design("tube-box").examples[0].text, encoding="utf-8")
        found.append(str(path))
    return found[0], found[1]


def wrong(path: str, before: str, after: str) -> None:
    text = Path(path).read_text(encoding="utf-8")
    assert before in text
    Path(path).write_text(text.replace(before, after), encoding="utf-8")


@pytest.mark.parametrize("command", ["layout", "cutlist"])
def test_an_error_says_which_file(
    boxes: tuple[str, str], command: str, capsys: pytest.CaptureFixture[str]
) -> None:
    wrong(boxes[1], '"180 mm"', '"5x"')
    assert run([command, *boxes, "--no-drawer"]) == 2
    assert capsys.readouterr().err.startswith(f"{boxes[1]}: stock.tube.length: '5x' isn't a length")
    assert run([command, boxes[1], "--no-drawer"]) == 2
    assert capsys.readouterr().err.startswith("stock.tube.length: '5x'")
    Path(boxes[1]).write_text("x =", encoding="utf-8")
    assert run([command, *boxes, "--no-drawer"]) == 2
    assert capsys.readouterr().err.startswith(f"{boxes[1]}: it isn't TOML")
    assert run([command, boxes[0], "nowhere.toml", "--no-drawer"]) == 2
    assert capsys.readouterr().err.startswith("file: 'nowhere.toml' isn't a file")


def test_each_of_several_faults_says_which_file(
    boxes: tuple[str, str], capsys: pytest.CaptureFixture[str]
) -> None:
    wrong(boxes[1], '"180 mm"', '"5x"')
    wrong(boxes[1], "[stock.tube]", "[stock.tube]\ncolour = 1")
    assert run(["layout", *boxes, "--no-drawer"]) == 2
    lines = capsys.readouterr().err.splitlines()
    assert len(lines) == 2
    assert all(line.startswith(f"{boxes[1]}: stock.tube.") for line in lines)


@pytest.mark.parametrize("command", [("layout", "--seconds", "0"), ("cutlist",)])
def test_folders_that_differ_are_told(
    boxes: tuple[str, str], command: tuple[str, ...], capsys: pytest.CaptureFixture[str]
) -> None:
    def told(*more: str) -> str:
        assert run([*command, *boxes, "--no-drawer", *more]) in (0, 1)
        return " ".join(capsys.readouterr().out.split())

    assert "margins" not in told()
    shop = Path(boxes[1]).parent / "shop.toml"
    shop.write_text("[settings]\nkerf = 0.5\n", encoding="utf-8")
    said = told()
    assert "The kerf, the margins and what is kept: as usual" in said
    assert "two/box.toml it is otherwise. --shop names one for all." in said
    assert "margins and what" not in told("--shop", str(shop))
    (Path(boxes[0]).parent / "sold.csv").write_text("form,length\ntube,300\n", encoding="utf-8")
    assert "one/sold.csv says" in told()


@pytest.mark.parametrize("command", ["layout", "cutlist"])
@pytest.mark.parametrize("seconds", ["nan", "inf", "-1"])
def test_seconds_are_a_number(
    boxes: tuple[str, str], command: str, seconds: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run([command, boxes[0], "--no-drawer", "--seconds", seconds]) == 2
    assert "--seconds" in capsys.readouterr().err


def test_ctrl_c_before_anything_began_shows_no_traceback() -> None:
    """As when it comes while the program is being read in."""
    code = """
import sys
class Late:
    def find_spec(self, name, *more):
        if name == "hollowright.cli.laying":
            raise KeyboardInterrupt
sys.meta_path.insert(0, Late())
import hollowright.__main__
"""
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout, done.stderr) == (1, "", "stopped.\n")


def test_bars_without_a_price_among_priced_ones_are_told(
    boxes: tuple[str, str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    wrong(boxes[0], 'length = "180 mm"\n', "")
    sold = tmp_path / "sold.csv"
    why = "since not every bar has a price"
    for price, told in (("", True), ("3", False)):
        sold.write_text(
            f"form,length,price\ntube,300,{price}\ntube,1000,8\nrod,300,2\n", encoding="utf-8"
        )
        assert run(["cutlist", boxes[0], "--no-drawer", "--sold", str(sold)]) == 0
        assert (why in " ".join(capsys.readouterr().out.split())) is told
