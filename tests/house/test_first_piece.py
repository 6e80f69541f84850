"""The first piece does what its document says: the files, the commands, what they answer."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from hollowright.cli.main import run

ROOT = Path(__file__).resolve().parents[2]
DOCUMENT = (ROOT / "docs" / "first-piece.md").read_text(encoding="utf-8")
FENCES = re.findall(r"^```(\w+)\n(.*?)^```", DOCUMENT, re.MULTILINE | re.DOTALL)
FILE = "tinder-box.toml"


def plain(text: str) -> list[str]:
    """A text's lines, however wide its columns are."""
    return [" ".join(line.split()) for line in text.splitlines()]


def answers(capsys: pytest.CaptureFixture[str]) -> Iterator[tuple[str, str]]:
    """Do what the document says, in order: each text it shows, and what was really answered."""
    said = ""
    for kind, text in FENCES:
        if kind == "toml":
            with Path(FILE).open("a", encoding="utf-8") as file:
                file.write(text)
        elif kind == "sh":
            for line in text.splitlines():
                assert run(line.split()[1:]) == 0, line
            said = capsys.readouterr().out
        else:
            yield text, said


def test_the_first_piece_in_the_order_it_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("HOLLOWRIGHT_DRAWER", str(tmp_path / "drawer.sqlite3"))
    shown = 0
    for text, said in answers(capsys):
        for line in plain(text):
            assert line in plain(said), line
            shown += 1
    assert shown >= 8
    assert (tmp_path / "tinder-box" / "bench-card.pdf").read_bytes().startswith(b"%PDF")


def test_the_document_uses_every_kind_of_fence() -> None:
    assert {kind for kind, _ in FENCES} == {"toml", "sh", "text"}
    assert [text.splitlines()[0] for kind, text in FENCES if kind == "toml"] == [
        f"# {FILE}",
        f"# more of {FILE}",
    ]
