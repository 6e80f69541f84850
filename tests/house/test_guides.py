"""The code that the guides show is the house's own, as it stands now."""

import re
import textwrap
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
GUIDES = [*sorted((ROOT / "docs").glob("add-a-*.md")), ROOT / "CONTRIBUTING.md"]
FENCE = re.compile(r"^ *```(?:python|toml)\n *# (\S+)\n(.*?)^ *```$", re.MULTILINE | re.DOTALL)
SHOWN = [
    (guide.name, file, part)
    for guide in GUIDES
    for file, text in FENCE.findall(guide.read_text(encoding="utf-8"))
    for part in re.split(r"^ *\.\.\.\n", text, flags=re.MULTILINE)
]
ids = [f"{name}-{place}" for place, (name, _, _) in enumerate(SHOWN)]


def plain(text: str) -> str:
    """A text without its indentation and its empty lines' spaces."""
    return "\n".join(line.strip() for line in textwrap.dedent(text).strip().splitlines())


@pytest.mark.parametrize(("guide", "file", "part"), SHOWN, ids=ids)
def test_what_a_guide_shows_is_there(guide: str, file: str, part: str) -> None:
    assert plain(part) in plain((ROOT / file).read_text(encoding="utf-8"))


def test_the_example_of_a_design_is_one_file_that_no_other_names() -> None:
    """What CONTRIBUTING says of the smallest design: nothing else in the product knows it."""
    package = ROOT / "src" / "hollowright"
    naming = [
        path.relative_to(package).as_posix()
        for path in package.rglob("*.py")
        if re.search(r"setting[-_]cup", path.read_text(encoding="utf-8"))
    ]
    assert naming == ["designs/setting_cup.py"]


def test_every_guide_shows_code_of_the_house_on_one_screen() -> None:
    assert {name for name, _, _ in SHOWN} == {guide.name for guide in GUIDES}
    for guide in GUIDES:
        longest = 75 if guide.parent.name == "docs" else 130
        assert len(guide.read_text(encoding="utf-8").splitlines()) <= longest, guide.name


@pytest.mark.parametrize(
    "guide", sorted([*ROOT.glob("*.md"), *ROOT.glob("docs/*.md")]), ids=lambda guide: guide.name
)
def test_links_lead_somewhere(guide: Path) -> None:
    for link in re.findall(r"\]\((?!http)([^)#]+)", guide.read_text(encoding="utf-8")):
        assert (guide.parent / link).exists(), link
