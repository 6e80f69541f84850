"""The code that the guides show is the house's own, as it stands now."""

import re
import textwrap
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
GUIDES = sorted((ROOT / "docs").glob("add-a-*.md"))
FENCE = re.compile(r"^ *```(?:python|toml)\n +# (\S+)\n(.*?)^ *```$", re.MULTILINE | re.DOTALL)
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


def test_every_guide_shows_code_of_the_house_on_one_screen() -> None:
    assert {name for name, _, _ in SHOWN} == {guide.name for guide in GUIDES}
    for guide in GUIDES:
        assert len(guide.read_text(encoding="utf-8").splitlines()) <= 75, guide.name


@pytest.mark.parametrize(
    "guide", sorted((ROOT / "docs").glob("*.md")), ids=lambda guide: guide.name
)
def test_links_lead_somewhere(guide: Path) -> None:
    for link in re.findall(r"\]\((?!http)([^)#]+)", guide.read_text(encoding="utf-8")):
        assert (guide.parent / link).exists(), link
