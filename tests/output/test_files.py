"""The files of a plan: all there, whole, read back by other libraries; a bad folder is told."""

import io
import json
from pathlib import Path

import ezdxf
import pypdfium2
import pytest
import svgelements

from hollowright.cli.main import run
from hollowright.designs import design
from hollowright.errors import InputError
from hollowright.job.job import plan_tables, read_tables
from hollowright.output import files
from hollowright.output.data import plan_data
from hollowright.output.files import card_pdf, write_all
from hollowright.output.sheets import blank_sheets
from hollowright.plan.plan import Plan

EXAMPLE = design("tube-box").examples[0].text
NAMES = {
    "bench-card.pdf", "picture.svg", "piece.glb", "plan.json", "cap.svg", "cap.dxf", "ring.svg",
    "ring.dxf",
}  # fmt: skip


@pytest.fixture(scope="module")
def plan() -> Plan:
    return plan_tables(read_tables(EXAMPLE))


@pytest.fixture(scope="module")
def folder(plan: Plan, tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("card") / "new" / "Çäp 漢"
    write_all(plan, str(made), "letter", {"piece.toml": EXAMPLE})
    return made


def test_every_file_is_there_and_nothing_else(folder: Path) -> None:
    assert {path.name for path in folder.iterdir()} == NAMES | {"piece.toml"}
    assert (folder / "piece.toml").read_text(encoding="utf-8") == EXAMPLE


def test_the_paths_written_are_told(plan: Plan, tmp_path: Path) -> None:
    written = write_all(plan, str(tmp_path))
    assert {Path(path) for path in written} == {tmp_path / name for name in NAMES}


def test_the_card_is_on_the_paper_asked_for(folder: Path, plan: Plan) -> None:
    data = (folder / "bench-card.pdf").read_bytes()
    assert data == card_pdf(plan, "letter")
    with pypdfium2.PdfDocument(data) as document:
        assert document[0].get_size() == pytest.approx((612, 792), abs=0.1)


@pytest.mark.parametrize("part", ["cap", "ring"])
def test_the_blanks_svg_is_at_true_size(folder: Path, plan: Plan, part: str) -> None:
    """In svgelements a user unit of 1/96 inch is 25.4/96 mm."""
    read = svgelements.SVG.parse(io.StringIO((folder / f"{part}.svg").read_text(encoding="utf-8")))
    cut = [group for group in read.elements() if group.values.get("class") == "path-cut"]
    boxes = [
        element.bbox(with_stroke=False)
        for group in cut
        if isinstance(group, svgelements.Group)
        for element in group
    ]
    wide = max(box[2] - box[0] for box in boxes) * 25.4 / 96
    assert wide == pytest.approx(plan.cuts[part].outline.width, abs=2e-3)


@pytest.mark.parametrize("part", ["cap", "ring"])
def test_the_blanks_dxf_is_sound_and_in_mm(folder: Path, plan: Plan, part: str) -> None:
    document = ezdxf.readfile(folder / f"{part}.dxf")
    assert not document.audit().has_errors
    assert document.units == ezdxf.units.MM
    cut = document.modelspace().query('*[layer=="cut"]')
    assert len(cut) == 1
    outline = plan.cuts[part].outline
    if part == "cap":
        assert 2 * cut.first.dxf.radius == pytest.approx(outline.width, abs=1e-9)
    else:
        xs = [point[0] for point in cut.first.get_points()]
        assert max(xs) - min(xs) == pytest.approx(outline.width, abs=1e-9)


def test_the_json_is_the_plans(folder: Path, plan: Plan) -> None:
    assert json.loads((folder / "plan.json").read_text(encoding="utf-8")) == plan_data(plan)


def test_only_flat_blanks_have_files(plan: Plan) -> None:
    assert {part.id for part in plan.parts} - set(blank_sheets(plan)) == {"lid", "body"}


def test_what_was_there_is_replaced(plan: Plan, tmp_path: Path) -> None:
    (tmp_path / "plan.json").write_text("old", encoding="utf-8")
    (tmp_path / "mine.txt").write_text("mine", encoding="utf-8")
    write_all(plan, str(tmp_path))
    assert (tmp_path / "plan.json").read_text(encoding="utf-8").startswith("{")
    assert (tmp_path / "mine.txt").read_text(encoding="utf-8") == "mine"


# ---- a folder that won't do


def test_a_file_in_the_folders_place_is_told(plan: Plan, tmp_path: Path) -> None:
    (tmp_path / "out").write_text("a file", encoding="utf-8")
    for folder in ("out", "out/deeper"):
        with pytest.raises(InputError) as told:
            write_all(plan, str(tmp_path / folder))
        assert told.value.field == "--out"
        assert "Name a folder" in str(told.value)
    assert (tmp_path / "out").read_text(encoding="utf-8") == "a file"


@pytest.mark.parametrize("folder", ["a\0b", "x" * 300])
def test_a_name_that_no_folder_can_have_is_told(plan: Plan, tmp_path: Path, folder: str) -> None:
    with pytest.raises(InputError):
        write_all(plan, str(tmp_path / folder))


def test_a_file_that_cant_be_replaced_leaves_no_scraps(plan: Plan, tmp_path: Path) -> None:
    (tmp_path / "bench-card.pdf").mkdir()
    with pytest.raises(InputError) as told:
        write_all(plan, str(tmp_path))
    assert "bench-card.pdf" in str(told.value)
    assert [path.name for path in tmp_path.iterdir()] == ["bench-card.pdf"]


def test_a_full_disk_leaves_the_old_file(
    plan: Plan, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    old = tmp_path / "bench-card.pdf"
    old.write_bytes(b"old")

    def full(path: Path, data: bytes) -> int:
        path.touch()
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(files.Path, "write_bytes", full)
    with pytest.raises(InputError, match="no space left"):
        write_all(plan, str(tmp_path))
    monkeypatch.undo()
    assert old.read_bytes() == b"old"
    assert [path.name for path in tmp_path.iterdir()] == ["bench-card.pdf"]


def test_the_command_tells_it_without_a_traceback(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    piece = tmp_path / "piece.toml"
    piece.write_text(EXAMPLE, encoding="utf-8")
    assert run(["plan", str(piece), "--out", str(piece)]) == 2
    told = capsys.readouterr().err
    assert told.startswith("--out:")
    assert "Traceback" not in told
